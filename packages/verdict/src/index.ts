/**
 * The verdict itself and what every caller needs. What is asked for less often stands at its own path, so that a page or a
 * command loads it only when it is asked: `@noonwing/verdict/levers`, `sweep`, `limits`, `bench`, `wiring`, `cells-day`,
 * `power-report`.
 */

export * from './aircraft.js';
export * from './balance-report.js';
export * from './central.js';
export * from './deviations.js';
export { describesStructure, isWithinReach, type KnownLimit } from './held-speed.js';
export * from './interval.js';
export * from './ledger.js';
export type { Measured } from './measured.js';
export * from './measurements.js';
export type { FlightConditions, FlightNeed, KnownLevelPower } from './need.js';
export { type PitchControl, pitchControlWords } from './pitch-control.js';
export type { Prepared } from './prepare.js';
export type { SkyRun } from './run.js';
export * from './sky-at.js';
export * from './slices.js';
export * from './stages.js';
export * from './string-report.js';
export * from './uncertainty.js';
export * from './verdict.js';
