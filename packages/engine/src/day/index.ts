export * from './array-course.js';
export * from './cell-mismatch.js';
export * from './cell-temperatures.js';
export * from './charge.js';
export * from './closure.js';
export * from './figures.js';
export * from './need.js';
export * from './windows.js';
