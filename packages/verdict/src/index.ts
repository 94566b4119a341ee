export * from './aircraft.js';
export * from './interval.js';
export type { Measured } from './measured.js';
export * from './stages.js';
export * from './uncertainty.js';
export * from './verdict.js';
