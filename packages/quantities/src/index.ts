export * from './date.js';
export type * from './kinds.js';
export * from './nearest.js';
export { type NumberScan, plainText, scanNumber } from './number.js';
export * from './parse.js';
export * from './place.js';
export * from './trade.js';
export { findUnit, kindsOfUnit, QUANTITY_KINDS, UNITS, type Unit, unitNames, unitSymbols } from './units.js';
export * from './write.js';
