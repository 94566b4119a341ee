export * from './model-types.js';
