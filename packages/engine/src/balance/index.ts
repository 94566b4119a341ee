export * from './beam.js';
export * from './mass.js';
export * from './neutralPoint.js';
export * from './placement.js';
export * from './range.js';
export * from './weighing.js';
