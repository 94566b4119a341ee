export * from './interpolate.js';
export * from './minimise.js';
export * from './quadrature.js';
export * from './roots.js';
export * from './sampling.js';
export * from './smoothGrid.js';
export * from './vector.js';
