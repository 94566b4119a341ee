/**
 * `npm run bench`: measures what design budgets are set for, each beside a named reference that ran in the same run.
 * `-- --json` prints rows as data; `-- lattice` runs only the files whose name holds the word. Exit code 1 where a budget is missed.
 */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** @typedef {import('./measure.mjs').Row} Row */

const folder = fileURLToPath(new URL('.', import.meta.url));
const parameters = process.argv.slice(2);
const asJson = parameters.includes('--json');
const words = parameters.filter((one) => !one.startsWith('--'));

const names = readdirSync(folder)
  .filter((name) => name.endsWith('.bench.mjs') && (words.length === 0 || words.some((word) => name.includes(word))))
  .sort();

/** @param {number} value */
const short = (value) => String(Number(value.toPrecision(3)));

/** @param {Row} row */
function sentence({ name, value, unit, reference, budget, bound, within, why }) {
  if (why !== undefined) return `${name}: not measured. ${why}`;
  const judgement = within === null ? '' : within ? '  within' : '  MISSED';
  const limit = budget === null ? '' : `, budget ${bound} ${short(budget)} ${unit}`;
  const beside = `${short(reference.ratio)} x as fast as ${reference.name} (${short(reference.value)} ${reference.unit})`;
  return `${name}: ${short(value)} ${unit}${limit}${judgement}\n    ${beside}`;
}

/** @type {Row[]} */
const rows = [];
for (const name of names) {
  /** @type {{ default: () => Row[] | Promise<Row[]> }} */
  const bench = await import(new URL(name, import.meta.url).href);
  for (const row of await bench.default()) {
    rows.push(row);
    if (!asJson) console.log(sentence(row));
  }
}
if (asJson) console.log(JSON.stringify(rows, null, 2));
if (rows.some((row) => row.within === false)) process.exitCode = 1;
