export * from './airframe.js';
export * from './power.js';
export * from './stability.js';
export * from './stall.js';
export * from './trim.js';
export * from './turn.js';
export * from './types.js';
