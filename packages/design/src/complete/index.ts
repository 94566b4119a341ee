export { isMirrored, panelReach, surfaceArea } from './airframe.js';
export { suitableTopology } from './array.js';
export type { Assumption } from './assumptions.js';
export * from './complete.js';
export { estimatedMotorResistance } from './drive.js';
export { type PartLine, partLine } from './masses.js';
export * from './plan.js';
