/** Examples as complete designs and plans, for what is measured on them. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { completeDesign, completePlan, readDayPlan, readDesign } from '../packages/design/dist/index.js';
import { root } from '../scripts/tools.mjs';

const pathOf = (/** @type {string} */ name) => join(root, 'examples', name);

/** @param {string} name of a file in examples/ */
export const hasExample = (name) => existsSync(pathOf(name));

/** @param {string} name of a file in examples/ */
export const exampleText = (name) => readFileSync(pathOf(name), 'utf8');

/** @param {string} text */
export function aircraftOf(text) {
  const { design } = readDesign(text);
  if (design === undefined) throw new Error('the example cannot be read');
  return completeDesign(design).aircraft;
}

/** @param {string} text */
export function planOf(text) {
  const { plan } = readDayPlan(text);
  if (plan === undefined) throw new Error('the example plan cannot be read');
  return completePlan(plan).plan;
}
