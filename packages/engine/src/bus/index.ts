export * from './burst.js';
export * from './course.js';
