export * from './check.js';
export * from './relation.js';
export * from './result.js';
