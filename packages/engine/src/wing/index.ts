export * from './derivatives.js';
export { type StripSections, wingForces } from './forces.js';
export * from './maximumLift.js';
export * from './sideEdge.js';
export { solveWing, wingReference } from './solve.js';
export * from './types.js';
