export * from './curves.js';
export * from './openCircuit.js';
export * from './pack.js';
export * from './step.js';
export * from './temperature.js';
