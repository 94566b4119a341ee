import {
  BufferGeometry,
  CatmullRomCurve3,
  CircleGeometry,
  ConeGeometry,
  CylinderGeometry,
  Group,
  InstancedMesh,
  Line,
  LineBasicMaterial,
  LineSegments,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  RingGeometry,
  SphereGeometry,
  TubeGeometry,
  Vector3,
} from 'three';
import type { Colours } from './colours.js';
import { skyToScene, type Vector } from './frames.js';
import { release } from './release.js';
import type { SunPath } from './sun-path.js';

const scenePoint = (direction: Vector, radius: number): Vector3 =>
  new Vector3(...skyToScene(direction)).multiplyScalar(radius);

/** Ground, points of the compass, the sun and its way of the day, around an aircraft at the origin. */
export interface SkyModel {
  readonly root: Group;
  readonly setColours: (colours: Colours) => void;
  readonly setPath: (path: SunPath) => void;
  /** East, north, up; hidden below the horizon. */
  readonly setSun: (direction: Vector | undefined) => void;
  /** Hides the sun and its way, for a look from there. */
  readonly showSun: (shown: boolean) => void;
  readonly setHeading: (heading: number) => void;
  readonly release: () => void;
}

interface Paints {
  readonly ground: MeshBasicMaterial;
  readonly line: LineBasicMaterial;
  readonly mark: MeshBasicMaterial;
  readonly nose: MeshBasicMaterial;
  readonly way: MeshBasicMaterial;
  readonly sun: MeshBasicMaterial;
  readonly ray: MeshBasicMaterial;
}

/** Flat things lie on the ground: circles of three stand in the x-y plane and are laid down. */
const laid = <T extends Mesh>(mesh: T, height: number): T => {
  mesh.rotation.x = -Math.PI / 2;
  mesh.position.y = height;
  return mesh;
};

/** A flat arrow along north on the ground, its tip at a distance. */
function groundArrow(paint: MeshBasicMaterial, size: number, tip: number, height: number): Group {
  const group = new Group();
  const arrow = laid(new Mesh(new CircleGeometry(size, 3), paint), height);
  // Long enough to point even where the ground is seen from low down.
  arrow.scale.x = 2;
  arrow.rotation.z = Math.PI / 2;
  arrow.position.z = -tip + 2 * size;
  group.add(arrow);
  return group;
}

function groundGroup(paints: Paints, radius: number, drop: number): { readonly root: Group; readonly nose: Group } {
  const root = new Group();
  const floor = laid(new Mesh(new CircleGeometry(radius, 96), paints.ground), -drop);
  floor.renderOrder = -1;
  const rim = laid(new Mesh(new RingGeometry(radius * 0.992, radius, 128), paints.mark), -drop);
  const spokes = Array.from({ length: 36 }, (_, i) => {
    const angle = (i * Math.PI) / 18;
    const inner = radius * (i % 9 === 0 ? 0.9 : i % 3 === 0 ? 0.95 : 0.97);
    const [x, z] = [Math.sin(angle), -Math.cos(angle)];
    return [new Vector3(x * inner, -drop, z * inner), new Vector3(x * radius, -drop, z * radius)];
  });
  const ticks = new LineSegments(new BufferGeometry().setFromPoints(spokes.flat()), paints.line);
  const north = groundArrow(paints.mark, radius * 0.045, radius * 0.995, -drop * 0.995);
  const nose = groundArrow(paints.nose, radius * 0.035, radius * 0.88, -drop * 0.99);
  const shaft = [new Vector3(0, -drop * 0.99, 0), new Vector3(0, -drop * 0.99, -radius * 0.84)];
  nose.add(new Line(new BufferGeometry().setFromPoints(shaft), paints.line));
  root.add(floor, rim, ticks, north, nose);
  return { root, nose };
}

/** The sun as a ball with a ring, and an arrow from it towards the aircraft; along y, to be turned. */
function sunGroup(paints: Paints, radius: number): Group {
  const group = new Group();
  const ball = new Mesh(new SphereGeometry(radius * 0.042, 24, 16), paints.sun);
  ball.position.y = radius;
  const [start, end] = [0.93 * radius, 0.66 * radius];
  const shaft = new Mesh(new CylinderGeometry(radius * 0.006, radius * 0.006, start - end, 10), paints.ray);
  shaft.position.y = (start + end) / 2;
  const head = new Mesh(new ConeGeometry(radius * 0.022, radius * 0.07, 16), paints.ray);
  head.position.y = end;
  head.rotation.x = Math.PI;
  group.add(ball, shaft, head);
  return group;
}

/** The way of the day as a tube, with a bead at each full hour and stems where it meets the horizon. */
function pathGroup(path: SunPath, paints: Paints, radius: number, drop: number): Group {
  const group = new Group();
  if (path.spots.length < 2) return group;
  const curve = new CatmullRomCurve3(path.spots.map(({ direction }) => scenePoint(direction, radius)));
  group.add(new Mesh(new TubeGeometry(curve, path.spots.length * 2, radius * 0.005, 6), paints.way));
  const beads = new InstancedMesh(new SphereGeometry(1, 12, 8), paints.way, path.hours.length);
  for (const [i, { hour, direction }] of path.hours.entries()) {
    const size = radius * (hour % 3 === 0 ? 0.017 : 0.01);
    beads.setMatrixAt(i, new Matrix4().makeScale(size, size, size).setPosition(scenePoint(direction, radius)));
  }
  beads.frustumCulled = false;
  group.add(beads);
  const ends = [...(path.rises ? [path.spots[0]!] : []), ...(path.sets ? [path.spots.at(-1)!] : [])];
  const stems = ends.flatMap(({ direction }) => {
    const top = scenePoint(direction, radius);
    return [top, new Vector3(top.x, -drop, top.z)];
  });
  group.add(new LineSegments(new BufferGeometry().setFromPoints(stems), paints.line));
  return group;
}

/** Surroundings of an aircraft: radius - of the sky [m]; drop - from the middle of the aircraft to the ground [m] */
export function skyModel(radius: number, drop: number): SkyModel {
  const paints: Paints = {
    ground: new MeshBasicMaterial({ transparent: true, opacity: 0.55, depthWrite: false }),
    line: new LineBasicMaterial(),
    mark: new MeshBasicMaterial(),
    nose: new MeshBasicMaterial(),
    way: new MeshBasicMaterial(),
    sun: new MeshBasicMaterial(),
    ray: new MeshBasicMaterial(),
  };
  const { root: ground, nose } = groundGroup(paints, radius, drop);
  const sun = sunGroup(paints, radius);
  const root = new Group();
  root.add(ground, sun);
  let seen = true;
  let isUp = false;
  let way = new Group();
  root.add(way);
  return {
    root,
    setColours: (colours) => {
      paints.ground.color.set(colours.daylight);
      paints.line.color.set(colours.edge);
      paints.mark.color.set(colours.edge);
      paints.nose.color.set(colours.accent);
      for (const paint of [paints.way, paints.sun, paints.ray]) paint.color.set(colours.sun);
    },
    setPath: (path) => {
      // Its materials serve the next one too: three makes them ready again.
      release(way);
      way = pathGroup(path, paints, radius, drop);
      way.visible = seen;
      root.add(way);
    },
    setSun: (direction) => {
      isUp = direction !== undefined && direction[2] > 0;
      sun.visible = seen && isUp;
      if (direction !== undefined)
        sun.quaternion.setFromUnitVectors(new Vector3(0, 1, 0), new Vector3(...skyToScene(direction)));
    },
    showSun: (shown) => {
      seen = shown;
      way.visible = shown;
      sun.visible = seen && isUp;
    },
    setHeading: (heading) => {
      nose.rotation.y = -heading;
    },
    release: () => {
      release(root);
      for (const material of Object.values(paints)) material.dispose();
    },
  };
}
