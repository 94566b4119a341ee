export * from './column.js';
export * from './outcome.js';
export {
  parseSectionCoordinates,
  type SectionCoordinates,
  writeSectionCoordinates,
} from './section-coordinates.js';
export * from './table.js';
export * from './text.js';
export * from './trace.js';
export * from './weather.js';
