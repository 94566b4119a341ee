import { buildModel, halfModel, prepareStatic, type StaticSystem } from './index.js';
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
