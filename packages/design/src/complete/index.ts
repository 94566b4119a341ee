export { isMirrored, panelLength, surfaceArea } from './airframe.js';
export { CELL_EDGE, suitableTopology, usualConverter } from './array.js';
export { type Assumption, assumedCount, assumedValues } from './assumptions.js';
export * from './complete.js';
export { massGroupOf } from './masses.js';
export * from './plan.js';
export type * from './types.js';
