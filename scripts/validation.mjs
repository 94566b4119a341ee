/**
 * Runs every external check of the build and writes what came out to VALIDATION.md. `--check` compares instead of writing.
 * A check is data (packages/engine/src/check.ts) in a file `*.checks.ts`, which exports arrays of them.
 */
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { listFiles, readTextOr, root, shown } from './tools.mjs';

/** @typedef {import('../packages/engine/src/check.js').Check} Check */
/** @typedef {import('../packages/engine/src/check.js').Computed} Computed */
/** @typedef {{ check: Check, computed: Computed, agrees: boolean, file: string }} Row */

const target = join(root, 'VALIDATION.md');

/** The order in which the light becomes flight; topics that are not named here follow by name. */
const topicOrder =
  'sun sky plane air cell array string converter battery motor propeller drive section shape wing structure aeroelastic balance flight day aircraft'.split(
    ' ',
  );

/** @param {string} topic */
const topicRank = (topic) => {
  const index = topicOrder.indexOf(topic);
  return index < 0 ? topicOrder.length : index;
};

/**
 * Decimals that show a hundredth of the tolerance. Finer digits say nothing here, and could differ between machines.
 * @param {number} tolerance
 */
export function decimalsFor(tolerance) {
  if (!(tolerance > 0)) return 9;
  return Math.min(20, Math.max(0, 2 - Math.floor(Math.log10(tolerance))));
}

/**
 * A computed number, rounded.
 * @param {number} value
 * @param {number} decimals
 */
export function written(value, decimals) {
  if (!Number.isFinite(value)) return 'not a number';
  // Adding zero turns a negative zero, which rounding may leave, into zero.
  const rounded = Number(value.toFixed(decimals)) + 0;
  if (rounded !== 0 && Math.abs(rounded) < 1e-4) return String(Number(rounded.toPrecision(6)));
  const text = rounded.toFixed(decimals);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/**
 * A number as the check states it, without what binary arithmetic adds in the sixteenth digit.
 * @param {number} value
 */
const stated = (value) => String(Number(value.toPrecision(12)));

/** @param {string} text */
const cell = (text) => text.replaceAll('\\', '\\\\').replaceAll('|', '\\|').replace(/\s+/g, ' ').trim();

/** @param {Row} row */
function resultText({ check, agrees }) {
  if (agrees) return check.miss === undefined ? 'agrees' : `agrees, but is marked as a miss: ${check.miss}`;
  return `**misses**: ${check.miss ?? 'no reason given'}`;
}

/** @param {Row} row */
function tableRow(row) {
  const { check, computed } = row;
  const decimals = decimalsFor(check.tolerance);
  const value = typeof computed === 'number' ? computed : computed.value;
  const band =
    typeof computed === 'number' ? '' : ` (${written(computed.low, decimals)} to ${written(computed.high, decimals)})`;
  const deviation = Number(value.toFixed(decimals)) - check.expected;
  const allowed = typeof computed === 'number' ? '± ' : 'in a band of ± ';
  const columns = [
    check.id,
    check.quantity,
    check.unit,
    stated(check.expected),
    written(value, decimals) + band,
    written(deviation, decimals),
    `${allowed}${stated(check.tolerance)}: ${check.why}`,
    resultText(row),
    check.provenance,
    check.source,
    check.calls,
  ];
  return `| ${columns.map(cell).join(' | ')} |`;
}

/** @param {readonly Row[]} rows */
export function render(rows) {
  const topics = [...new Set(rows.map((row) => row.check.topic))].sort(
    (a, b) => topicRank(a) - topicRank(b) || (a < b ? -1 : 1),
  );
  const count = (/** @type {readonly Row[]} */ of) => of.filter((row) => !row.agrees).length;
  const of = (/** @type {string} */ topic) => rows.filter((row) => row.check.topic === topic);
  const lines = [
    '# Validation',
    '',
    'Written by `npm run validation` from the checks beside the code (`*.checks.ts`); do not edit. `npm test` runs them all',
    'and fails where this file would differ. Each row compares one exported function with a number from outside the project.',
    'A row that misses stays here, with its reason. Computed values are shown to a hundredth of the tolerance.',
    '',
    '| topic | checks | agree | miss | published or recomputed | common practice | from memory |',
    '|---|---:|---:|---:|---:|---:|---:|',
  ];
  const by = (/** @type {readonly Row[]} */ some, /** @type {readonly string[]} */ kinds) =>
    some.filter((row) => kinds.includes(row.check.provenance)).length;
  const summary = (/** @type {string} */ name, /** @type {readonly Row[]} */ some) =>
    `| ${name} | ${some.length} | ${some.length - count(some)} | ${count(some)} | ${by(some, ['published', 'recomputed from the published formula'])} | ${by(some, ['common practice'])} | ${by(some, ['from memory'])} |`;
  for (const topic of topics) lines.push(summary(cell(topic), of(topic)));
  lines.push(summary('**all**', rows));
  for (const topic of topics) {
    lines.push('', `## ${topic}`, '');
    lines.push(
      '| id | quantity | unit | expected | computed | deviation | tolerance and why | result | provenance | source | calls |',
    );
    lines.push('|---|---|---|---:|---:|---:|---|---|---|---|---|');
    lines.push(...of(topic).map(tableRow));
  }
  return `${lines.join('\n')}\n`;
}

/**
 * @param {unknown} value
 * @returns {value is Check[]}
 */
const isCheckList = (value) =>
  Array.isArray(value) && value.every((entry) => typeof entry?.id === 'string' && typeof entry?.compute === 'function');

/** @returns {Promise<{ check: Check, file: string }[]>} */
async function collect() {
  const sources = listFiles(join(root, 'packages'), (path) => path.endsWith('.checks.ts'));
  const found = [];
  // A file that gathers the rows of its neighbours exports the same rows again.
  const seen = new Set();
  for (const source of sources) {
    // Found by their sources: a file whose source is gone may still lie in the build.
    const built = source.replace(/([\\/])src([\\/])/, '$1dist$2').replace(/\.ts$/, '.js');
    if (!existsSync(built)) throw new Error(`${shown(source)} is not built; run "npm run build"`);
    for (const exported of Object.values(await import(pathToFileURL(built).href))) {
      if (!isCheckList(exported)) continue;
      for (const check of exported) {
        if (seen.has(check)) continue;
        seen.add(check);
        found.push({ check, file: shown(source) });
      }
    }
  }
  return found;
}

/**
 * Faults that no reader should have to find in the table.
 * @param {readonly Row[]} rows
 */
export function faults(rows) {
  const messages = [];
  const ids = new Map();
  for (const { check, agrees, computed, file } of rows) {
    const other = ids.get(check.id);
    if (other !== undefined) messages.push(`${file}: the id "${check.id}" is used twice (also in ${other})`);
    ids.set(check.id, file);
    const value = typeof computed === 'number' ? computed : computed.value;
    if (!agrees && check.miss === undefined) {
      messages.push(
        `${file}: ${check.id}: ${check.quantity}: expected ${check.expected} ± ${check.tolerance} ${check.unit}, computed ${value}`,
      );
    }
    if (agrees && check.miss !== undefined) messages.push(`${file}: ${check.id} agrees, but is marked as a miss`);
    for (const key of /** @type {const} */ (['source', 'why', 'calls', 'unit', 'quantity', 'provenance'])) {
      if (!check[key]) messages.push(`${file}: ${check.id} has no ${key}`);
    }
  }
  return messages;
}

async function main() {
  const { agrees } = await import(pathToFileURL(join(root, 'packages/engine/dist/check.js')).href);
  /** @type {Row[]} */
  const rows = [];
  for (const { check, file } of await collect()) {
    const computed = check.compute();
    rows.push({ check, file, computed, agrees: agrees(check, computed) });
  }
  const messages = faults(rows);
  for (const message of messages) console.error(message);
  const text = render(rows);
  const current = readTextOr(target, '').replaceAll('\r\n', '\n');
  const compares = process.argv.includes('--check');
  if (compares && text !== current) {
    console.error('VALIDATION.md is not what the checks give now. Run "npm run validation" and look at what changed.');
  }
  if (!compares) writeFileSync(target, text);
  console.log(`${rows.length} checks, ${rows.filter((row) => !row.agrees).length} of them miss.`);
  return messages.length > 0 || (compares && text !== current) ? 1 : 0;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) process.exitCode = await main();
