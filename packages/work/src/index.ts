export * from './adapters.js';
export * from './memory.js';
export * from './messages.js';
export * from './pool.js';
export * from './serve.js';
