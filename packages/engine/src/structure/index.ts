export type { BeamProperties } from './beam.js';
export { buildModel, carrierRow } from './build.js';
export * from './half.js';
export * from './input-types.js';
export * from './model-types.js';
export { addForce, addWeighted, pointRow, readRow } from './rows.js';
