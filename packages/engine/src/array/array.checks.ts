import type { Check } from '../check.js';
import { cellChecks } from './cell.checks.js';
import { powerChecks } from './power.checks.js';
import { stringChecks } from './string.checks.js';
import { trackerChecks } from './tracker.checks.js';

/** External checks of the array: cell, string, converter, cell temperature, wiring. */
export const arrayChecks: readonly Check[] = [...cellChecks, ...stringChecks, ...powerChecks, ...trackerChecks];
