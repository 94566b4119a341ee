export * from './aircraft.js';
export * from './balance-report.js';
export * from './bench.js';
export * from './cells-day.js';
export * from './interval.js';
export * from './ledger.js';
export type { Edit } from './lever-edits.js';
export {
  applyEdits,
  figuresOf,
  type Lever,
  type LeverFigures,
  type LeverReport,
  type LeverRequest,
  leverSlices,
  levers,
  measurementsOf,
} from './levers.js';
export * from './limits.js';
export type { Measured } from './measured.js';
export type { FlightConditions, FlightNeed, KnownLevelPower } from './need.js';
export * from './power-report.js';
export type { Prepared } from './prepare.js';
export type { SkyRun } from './run.js';
export * from './slices.js';
export * from './stages.js';
export * from './string-report.js';
export * from './sweep.js';
export * from './uncertainty.js';
export * from './verdict.js';
export * from './wiring.js';
