export type { Cause } from './causes.js';
export * from './diagnose.js';
export { clearLightSigma } from './evidence.js';
export * from './light.js';
export { type Measurement, type MeasurementValue, measurements } from './next.js';
export { type BenchModel, benchModel, benchWind, type Deviations, noDeviation } from './predict.js';
export * from './trace.js';
export * from './types.js';
