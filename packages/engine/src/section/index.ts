export { sectionModel } from './estimate.js';
export * from './flap.js';
export * from './friction.js';
export * from './geometry.js';
export * from './model.js';
export * from './naca.js';
export * from './table.js';
export * from './thinAirfoil.js';
export * from './types.js';
