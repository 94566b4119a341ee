export * from './air.js';
export * from './standard.js';
export * from './wind.js';
