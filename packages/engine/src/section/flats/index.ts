export * from './design.js';
export { cornerAngles, type FlatRow, type Morph, morphedOutline, NO_MORPH, outlineInFlats } from './morph.js';
export { patternSearch, type SearchState, type SearchVariable } from './search.js';
