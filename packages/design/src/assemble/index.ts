export * from './array.js';
export * from './battery.js';
export * from './drive.js';
export * from './loads.js';
export * from './masses.js';
export * from './section.js';
export * from './shape.js';
export * from './sigma.js';
