export * from './new-design.js';
export * from './questions.js';
