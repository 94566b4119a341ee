export type * from './charts/inputs.js';
export * from './cursor.js';
export type * from './model.js';
export { dayOfYearText, hourText, latitudeText, numberText, shareText, withUnit } from './number.js';
export type * from './pages/inputs.js';
export { contrastRatio, type Role, roles, type ThemeName, themes } from './palette.js';
export { positionOn, valueOn } from './scale.js';
export type * from './shapes/inputs.js';
export { drawingStyles } from './style-sheet.js';
