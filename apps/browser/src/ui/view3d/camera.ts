import { type PerspectiveCamera, Vector3 } from 'three';
import type { Vector } from './frames.js';
import { eyeDirection, fitRings, type Orbit } from './orbit.js';
import type { SunPath } from './sun-path.js';

export const fieldOfView = 30;
const slope = Math.tan((fieldOfView * Math.PI) / 360);
/** Part of the picture that sky and ground fill; words need the rest. */
const room = 0.88;

export interface SkySize {
  readonly radius: number;
  /** Of the ground below the aircraft. */
  readonly drop: number;
}

type Size = readonly [width: number, height: number];

/** Puts the camera where an orbit says, so far away that sky and ground fit into the picture. */
export function placeCamera(
  camera: PerspectiveCamera,
  eye: Orbit,
  { radius, drop }: SkySize,
  path: SunPath,
  [w, h]: Size,
): void {
  const [upright, across] = [slope * room, slope * room * (w / h)];
  const highest = Math.min(1, Math.max(0.3, ...path.spots.map(({ direction }) => direction[2])));
  const rings = [
    { radius, height: -drop },
    { radius: radius * Math.sqrt(1 - highest ** 2), height: radius * highest },
  ];
  const fit = fitRings(rings, eye.elevation, { across, upright });
  const distance = eye.distance * fit.distance;
  // Nearer, the eye turns from the whole sky to the aircraft.
  const shift = fit.shift * Math.min(1, Math.max(0, (eye.distance - 0.35) / 0.65));
  const [x, y, z] = eyeDirection(eye);
  const [ux, uy, uz] = eyeDirection({ ...eye, elevation: eye.elevation + Math.PI / 2 });
  camera.aspect = w / h;
  camera.near = Math.max(distance / 200, distance - 2.5 * radius);
  camera.far = distance + 3 * radius;
  camera.position.set(x * distance + ux * shift, y * distance + uy * shift, z * distance + uz * shift);
  camera.up.set(ux, uy, uz);
  camera.lookAt(ux * shift, uy * shift, uz * shift);
  camera.updateProjectionMatrix();
  camera.updateMatrixWorld();
}

const point = new Vector3();

/** Where a point of the scene stands in the picture [px]; undefined behind the eye. */
export function onPicture(
  camera: PerspectiveCamera,
  [width, height]: Size,
  at: Vector,
): readonly [number, number] | undefined {
  point.set(...at).project(camera);
  if (!(point.z > -1 && point.z < 1)) return undefined;
  return [((point.x + 1) / 2) * width, ((1 - point.y) / 2) * height];
}
