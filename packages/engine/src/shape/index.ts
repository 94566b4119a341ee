export * from './facets.js';
export * from './friction.js';
export * from './parasite.js';
export * from './planform.js';
export * from './types.js';
export * from './validate.js';
