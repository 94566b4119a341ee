import { triangleFields, triangleStiffness } from './element.js';
import {
  addForce,
  buildModel,
  halfModel,
  heldModel,
  naturalModes,
  pointRow,
  prepareStatic,
  readRow,
  type StaticSystem,
  solveStatic,
} from './index.js';
import type { HalfAircraft, MeshOptions, SurfacePart } from './input-types.js';
import type { HalfModel, PlateProperties, StructuralModel } from './model-types.js';

/** A homogeneous plate of stiffness D [N m] and Poisson's ratio. */
export const uniformPlate = (stiffness: number, poisson: number, arealMass = 1): PlateProperties => ({
  d11: stiffness,
  d22: stiffness,
  d12: poisson * stiffness,
  d16: 0,
  d26: 0,
  d66: ((1 - poisson) / 2) * stiffness,
  arealMass,
  heatCurvature: 0,
});

/** A rectangular surface whose root lies in the plane of symmetry. */
export const panel = (chord: number, length: number, plate: PlateProperties): SurfacePart => ({
  name: 'panel',
  stations: [
    { y: 0, xLeadingEdge: 0, chord },
    { y: length, xLeadingEdge: 0, chord },
  ],
  plateAt: () => plate,
  beams: [],
  controls: [],
});

export interface Panel {
  readonly model: StructuralModel;
  readonly half: HalfModel;
  readonly system: StaticSystem;
}

/** The model of a few parts, clamped at the root; for checks, where infeasible input is a mistake of the check. */
export function clampedModel(parts: Partial<HalfAircraft>, options?: MeshOptions): Panel {
  const built = buildModel({ surfaces: [], bodies: [], masses: [], ...parts }, options);
  if (!built.ok) throw new Error(built.reason);
  const half = halfModel(built.value, 'clamped');
  const system = prepareStatic(half);
  if (!system.ok) throw new Error(system.reason);
  return { model: built.value, half, system: system.value };
}

/** Loads of a uniform acceleration 1 m/s2 upwards on every mass. */
export function uniformLoads({ model, half }: Pick<Panel, 'model' | 'half'>): Float64Array {
  const up = new Float64Array(model.dofCount);
  for (const { nodes } of model.surfaces) for (const { dofs } of nodes) up[dofs[0]] = 1;
  return half.dofs.reduce((loads, dof, i) => {
    for (let j = 0; j < model.dofCount; j++) loads[i] += model.mass[dof * model.dofCount + j] * up[j];
    return loads;
  }, new Float64Array(half.size));
}

/** Displacement at a point under loads. */
export function deflectionAt({ model, half, system }: Panel, loads: Float64Array, x: number, y: number): number {
  const row = pointRow(model, 'panel', x, y);
  return readRow(half, row.dofs, row.w, solveStatic(system, loads).displacement);
}

/** Loads of unit forces, given as x, y, force. */
export function pointLoads(
  { model, half }: Panel,
  forces: readonly (readonly [number, number, number])[],
): Float64Array {
  const loads = new Float64Array(half.size);
  for (const [x, y, force] of forces) addForce(half, loads, pointRow(model, 'panel', x, y), force);
  return loads;
}

/** A square of side 1 and D = 1, simply held along all edges: centre deflection under unit uniform load and unit centre force. */
export function heldSquare(corners: number): { readonly uniform: number; readonly point: number } {
  const built = buildModel({ surfaces: [panel(1, 1, uniformPlate(1, 0.3))], bodies: [], masses: [] }, { corners });
  if (!built.ok) throw new Error(built.reason);
  const model = built.value;
  const edge = (value: number) => value < 1e-9 || value > 1 - 1e-9;
  const held = new Set<number>();
  for (const { x, y, dofs } of model.surfaces[0].nodes) {
    if (edge(x) || edge(y)) held.add(dofs[0]);
    if (edge(x)) held.add(dofs[2]);
    if (edge(y)) held.add(dofs[1]);
  }
  const half = heldModel(model, 'clamped', held);
  const system = prepareStatic(half);
  if (!system.ok) throw new Error(system.reason);
  const square = { model, half, system: system.value };
  return {
    uniform: deflectionAt(square, uniformLoads(square), 0.5, 0.5),
    point: deflectionAt(square, pointLoads(square, [[0.5, 0.5, 1]]), 0.5, 0.5),
  };
}

/**
 * Patch test on a 2 x 1 rectangle of four triangles about an irregular inner node: energy of w = x^2/2, y^2/2 or xy with D = 1,
 * and the greatest force left at the inner node.
 */
export function patchTest(
  kind: 'aft' | 'out' | 'twist',
  poisson: number,
): { readonly energy: number; readonly force: number } {
  const plate = uniformPlate(1, poisson);
  const stack = [plate, plate, plate];
  const corners = [
    [0, 0],
    [2, 0],
    [2, 1],
    [0, 1],
    [0.9, 0.4],
  ] as const;
  const state = corners.flatMap(([x, y]) =>
    kind === 'aft' ? [(x * x) / 2, x, 0] : kind === 'out' ? [(y * y) / 2, 0, y] : [x * y, y, x],
  );
  const forces = new Float64Array(15);
  for (const nodes of [
    [0, 1, 4],
    [1, 2, 4],
    [2, 3, 4],
    [3, 0, 4],
  ]) {
    const [a, b, c] = nodes.map((node) => corners[node]);
    const fields = triangleFields({ x: [a[0], b[0], c[0]], y: [a[1], b[1], c[1]] }, stack);
    const k = triangleStiffness(fields, stack);
    const dofs = nodes.flatMap((node) => [3 * node, 3 * node + 1, 3 * node + 2]);
    for (let i = 0; i < 9; i++) for (let j = 0; j < 9; j++) forces[dofs[i]] += k[9 * i + j] * state[dofs[j]];
  }
  const energy = forces.reduce((sum, force, i) => sum + (force * state[i]) / 2, 0);
  return { energy, force: Math.max(...forces.slice(12).map(Math.abs)) };
}

/** Frequencies of a clamped panel [rad/s]. */
export function panelFrequencies(part: SurfacePart, count: number, corners?: number): Float64Array {
  const { half } = clampedModel({ surfaces: [part] }, corners === undefined ? {} : { corners });
  const modes = naturalModes(half, count);
  if (!modes.ok) throw new Error(modes.reason);
  return modes.value.frequencies;
}
