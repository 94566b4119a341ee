/** Polars that were computed before, without the solver that computes them. */

export * from '../viscous/covered.js';
export * from '../viscous/measuredPolar.js';
export * from '../viscous/measuredTable.js';
export * from '../viscous/modelPolar.js';
export * from '../viscous/polar.js';
export * from '../viscous/stored.js';
export * from '../viscous/storedTurning.js';
export * from '../viscous/tripped.js';
