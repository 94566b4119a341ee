export * from './derivatives.js';
export * from './sideEdge.js';
export { solveWing, wingReference } from './solve.js';
export * from './types.js';
