export {
  amplificationRate,
  amplificationSlope,
  criticalAmplification,
  criticalLogReynolds,
} from './amplification.js';
export * from './asBuilt.js';
export * from './closure.js';
export * from './covered.js';
export * from './covering.js';
export { deflectedOutline } from './deflected.js';
export { type InviscidFlow, inviscidFlow, inviscidSpeeds, type PressureForces, pressureForces } from './inviscid.js';
export type { LayerState, SurfaceStep } from './layer.js';
export * from './measuredPolar.js';
export { meshOfNodes, type SectionMesh, sectionMesh } from './mesh.js';
export * from './modelPolar.js';
export * from './plateLayer.js';
export * from './polar.js';
export { hingeMoment, type LayerSide, type SectionFlow } from './result.js';
export {
  type PreparedSection,
  prepareSection,
  solveViscous,
  surfaceLength,
  type ViscousInput,
  type ViscousSolution,
} from './solve.js';
export * from './stored.js';
export * from './storedTurning.js';
export * from './sweep.js';
export * from './tripped.js';
export * from './turnings.js';
