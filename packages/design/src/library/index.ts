export * from './battery-cells.js';
export * from './cells.js';
export * from './converters.js';
export * from './materials.js';
export * from './motors.js';
export * from './propellers.js';
export * from './provenance.js';
