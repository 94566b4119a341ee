export * from './mass.js';
export * from './range.js';
export * from './weighing.js';
