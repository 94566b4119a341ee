export * from './planform.js';
export * from './types.js';
export * from './validate.js';
