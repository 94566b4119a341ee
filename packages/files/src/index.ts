export * from './bench-readings.js';
export * from './column.js';
export * from './outcome.js';
export { parseSectionCoordinates, writeSectionCoordinates } from './section-coordinates.js';
export { orderSectionPoints, type SectionCoordinates } from './section-outline.js';
export * from './table.js';
export * from './text.js';
export * from './trace.js';
export * from './weather.js';
