export * from './air.checks.js';
export * from './air.js';
export * from './relations.js';
export * from './standard.js';
export * from './wind.js';
