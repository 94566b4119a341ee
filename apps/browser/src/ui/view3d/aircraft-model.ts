import {
  BufferAttribute,
  BufferGeometry,
  CircleGeometry,
  Color,
  DoubleSide,
  EdgesGeometry,
  Group,
  InstancedMesh,
  LineBasicMaterial,
  LineSegments,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  type Object3D,
  SphereGeometry,
} from 'three';
import type { ShapeView } from '../../core/view.js';
import { cellMeshes } from './cells.js';
import type { Colours } from './colours.js';
import { geometryToScene, type Vector } from './frames.js';
import {
  bodyMesh,
  boundsOf,
  controlMesh,
  type Profile,
  type Skin,
  skinOf,
  surfaceMesh,
  usualProfile,
} from './geometry.js';
import { lightColour } from './light-scale.js';
import { joinMeshes, type Mesh as Triangles } from './mesh.js';
import { late, release } from './release.js';

/** Density at which a ball has the mass that it stands for [kg/m3]: that of water. */
const ballDensity = 1000;

/** Masses below it would be dust in the picture [kg]. */
const leastBall = 0.003;

/** An aircraft in the scene. */
export interface AircraftModel {
  /** Middle at the origin; heads north with level wings. */
  readonly root: Group;
  /** In the frame of geometry [m]. */
  readonly middle: Vector;
  /** From the middle to the farthest point, and from the middle down [m]. */
  readonly radius: number;
  readonly depth: number;
  readonly setColours: (colours: Colours) => void;
  /** By facet [W/m2]; undefined while it is not known. */
  readonly setLight: (light: ArrayLike<number> | undefined) => void;
  readonly showMasses: (shown: boolean) => void;
  readonly release: () => void;
}

const threeMesh = (mesh: Triangles): BufferGeometry => {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
  geometry.setIndex(new BufferAttribute(mesh.indices, 1));
  geometry.computeVertexNormals();
  return geometry;
};

/** Takes the frame of geometry to that of the scene; vertices themselves stay in the former. */
function basis(middle: Vector): Matrix4 {
  const [x, y, z] = [geometryToScene([1, 0, 0]), geometryToScene([0, 1, 0]), geometryToScene([0, 0, 1])];
  const turn = new Matrix4().set(x[0], y[0], z[0], 0, x[1], y[1], z[1], 0, x[2], y[2], z[2], 0, 0, 0, 0, 1);
  return turn.multiply(new Matrix4().makeTranslation(-middle[0], -middle[1], -middle[2]));
}

interface Skins {
  readonly byName: ReadonlyMap<string, Skin>;
  readonly solids: readonly Triangles[];
  readonly controls: readonly Triangles[];
}

function skinsOf(shape: ShapeView, profiles: Readonly<Record<string, Profile>>): Skins {
  const byName = new Map<string, Skin>();
  const controls: Triangles[] = [];
  for (const surface of shape.surfaces) {
    const skin = skinOf(surface, profiles[surface.name] ?? usualProfile(surface.role));
    if (skin === undefined) continue;
    byName.set(surface.name, skin);
    controls.push(controlMesh(skin, surface.controls));
  }
  return { byName, controls, solids: [...[...byName.values()].map(surfaceMesh), ...shape.bodies.map(bodyMesh)] };
}

/** Solids with lines along their edges: one call to the graphics for each. */
function solidGroup(meshes: readonly Triangles[], skin: MeshLambertMaterial, line: LineBasicMaterial): Group {
  const group = new Group();
  const geometry = threeMesh(joinMeshes(meshes));
  if (geometry.index!.count > 0)
    group.add(new Mesh(geometry, skin), new LineSegments(new EdgesGeometry(geometry, 40), line));
  return group;
}

/** Balls of one kind at their places, scaled to their masses. */
function balls(masses: ShapeView['masses'], ball: SphereGeometry, paint: MeshBasicMaterial): InstancedMesh {
  const mesh = new InstancedMesh(ball, paint, masses.length);
  for (const [i, { mass, x, y, z }] of masses.entries()) {
    const radius = Math.cbrt((3 * mass) / (4 * Math.PI * ballDensity));
    mesh.setMatrixAt(i, new Matrix4().makeScale(radius, radius, radius).setPosition(x, y, z));
  }
  mesh.frustumCulled = false;
  return mesh;
}

/** Masses as balls, drawn through the skin; a weighed one is full, an assumed one a net. */
function massGroup(shape: ShapeView, full: MeshBasicMaterial, net: MeshBasicMaterial): Group {
  const group = new Group();
  const drawn = shape.masses.filter(({ mass, x, y, z }) => mass >= leastBall && [x, y, z].every(Number.isFinite));
  const [weighed, assumed] = [drawn.filter((each) => each.weighed), drawn.filter((each) => !each.weighed)];
  if (weighed.length > 0) group.add(balls(weighed, new SphereGeometry(1, 20, 14), full));
  if (assumed.length > 0) group.add(balls(assumed, new SphereGeometry(1, 10, 7), net));
  return late(group, 4);
}

/** Discs that propellers sweep. */
function propellerGroup(shape: ShapeView, disc: MeshBasicMaterial): Group {
  const group = new Group();
  const { motor } = shape;
  if (motor === undefined || !(motor.propellerDiameter > 0)) return group;
  const sides = motor.count > 1 && motor.y !== 0 ? [1, -1] : [1];
  for (const side of sides) {
    const mesh = new Mesh(new CircleGeometry(motor.propellerDiameter / 2, 48), disc);
    mesh.position.set(motor.x, side * motor.y, motor.z);
    mesh.rotation.y = Math.PI / 2;
    group.add(mesh);
  }
  return late(group, 3);
}

interface PaintedCells {
  readonly mesh: Mesh;
  readonly paint: MeshBasicMaterial;
  readonly count: number;
  /** colour - of the patch with this index */
  readonly setColours: (colour: (patch: number) => string) => void;
}

/** All patches of cells as one mesh with colours at its vertices: one call to the graphics. */
function paintedCells(meshes: readonly Triangles[]): PaintedCells {
  const geometry = threeMesh(joinMeshes(meshes));
  const colours = new BufferAttribute(new Float32Array(geometry.getAttribute('position').count * 3), 3);
  geometry.setAttribute('color', colours);
  // Unlit: the colour is the value. The offset keeps it off the skin at any distance.
  const paint = new MeshBasicMaterial({
    vertexColors: true,
    polygonOffset: true,
    polygonOffsetFactor: -1,
    polygonOffsetUnits: -2,
  });
  const mixed = new Color();
  return {
    mesh: new Mesh(geometry, paint),
    paint,
    count: meshes.length,
    setColours: (colour) => {
      let vertex = 0;
      for (const [patch, { positions }] of meshes.entries()) {
        mixed.set(colour(patch));
        const end = vertex + positions.length / 3;
        for (; vertex < end; vertex++) colours.setXYZ(vertex, mixed.r, mixed.g, mixed.b);
      }
      colours.needsUpdate = true;
    },
  };
}

/** From a point to the farthest vertex [m]. */
function reachOf(meshes: readonly Triangles[], [x, y, z]: Vector): number {
  let most = 0;
  for (const { positions } of meshes) {
    for (let i = 0; i < positions.length; i += 3)
      most = Math.max(most, Math.hypot(positions[i]! - x, positions[i + 1]! - y, positions[i + 2]! - z));
  }
  return most;
}

/** Builds an aircraft; only `setLight` and `setColours` are needed after that until the shape changes. */
export function aircraftModel(shape: ShapeView, profiles: Readonly<Record<string, Profile>>): AircraftModel {
  const { byName, solids, controls } = skinsOf(shape, profiles);
  const cells = cellMeshes(shape, byName);
  const { low, high } = boundsOf([...solids, ...cells]);
  const middle: Vector = [(low[0] + high[0]) / 2, 0, (low[2] + high[2]) / 2];
  const skin = new MeshLambertMaterial({ side: DoubleSide });
  const hinged = new MeshLambertMaterial({ polygonOffset: true, polygonOffsetFactor: -1, polygonOffsetUnits: -1 });
  const line = new LineBasicMaterial();
  const full = new MeshBasicMaterial({ depthTest: false, transparent: true, opacity: 0.75 });
  const net = new MeshBasicMaterial({ depthTest: false, transparent: true, opacity: 0.75, wireframe: true });
  const disc = new MeshBasicMaterial({ transparent: true, opacity: 0.18, side: DoubleSide, depthWrite: false });
  const painted = paintedCells(cells);
  const masses = massGroup(shape, full, net);
  const inside = new Group();
  inside.matrixAutoUpdate = false;
  inside.matrix.copy(basis(middle));
  const parts: Object3D[] = [
    solidGroup(solids, skin, line),
    new Mesh(threeMesh(joinMeshes(controls)), hinged),
    painted.mesh,
    propellerGroup(shape, disc),
    masses,
  ];
  inside.add(...parts);
  const root = new Group();
  root.add(inside);
  let unknown = '#808080';
  let known = false;
  return {
    root,
    middle,
    radius: Math.max(0.05, reachOf([...solids, ...cells], middle)),
    depth: (high[2] - low[2]) / 2,
    setColours: (colours) => {
      // On dark paper a skin of its colour would not be seen.
      const dark = new Color(colours.paper).getHSL({ h: 0, s: 0, l: 0 }).l < 0.5;
      skin.color.set(colours.paper).lerp(new Color(colours.ink), dark ? 0.3 : 0);
      hinged.color.set(colours.part0).lerp(new Color(colours.ink), dark ? 0.1 : 0);
      line.color.set(colours.ink);
      full.color.set(colours.accent);
      net.color.set(colours.accent);
      disc.color.set(colours.ink);
      unknown = colours.edge;
      if (!known) painted.setColours(() => unknown);
    },
    setLight: (light) => {
      known = light !== undefined && light.length === painted.count;
      painted.setColours((patch) => (known ? lightColour(light![patch]!) : unknown));
    },
    showMasses: (shown) => {
      masses.visible = shown;
    },
    release: () => {
      release(root);
      // Shared by several parts, or by none.
      for (const material of [skin, hinged, line, full, net, disc, painted.paint]) material.dispose();
    },
  };
}
