/**
 * Writes docs/arrays.md and its pictures: energy of the day of every cell of the demo aircraft, the ledger of their losses, the best string
 * splits and layouts against the naive one; all as `noonwing array` gives it. Run after a build: node builders/arrays.mjs
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** @param {string} path */
const file = (path) => fileURLToPath(new URL(path, import.meta.url));

/** @typedef {{ value: number, unit: string }} Quantity */
/** @typedef {{ key: string, label: string, energy: Quantity }} Loss */
/** @typedef {{ solarRatio: Quantity, income: Quantity, mass: Quantity }} Figures */
/** @typedef {{ label: string, edits: readonly unknown[], after?: Figures }} Layout */

/** Answer of the command line. @param {string} name @param {readonly string[]} options @returns {any} */
function asked(name, options) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [
      file('../apps/cli/bin/noonwing.js'),
      'array',
      file(`../examples/${name}.yaml`),
      '--sky',
      'clear',
      '--json',
      ...options,
    ],
    { encoding: 'utf8', maxBuffer: 1 << 26 },
  );
  if (status !== 0) throw new Error(`array of ${name}: ${stderr}`);
  return JSON.parse(stdout);
}

/** @param {string} name */
const titled = (name) => `${name[0]?.toUpperCase()}${name.slice(1)}`;

const naiveLabel = 'cells as they lie, all in one string';

/** Best split of the cells as they lie against all in one string. @param {readonly Layout[]} layouts @param {Figures} base */
function splitWords(layouts, base) {
  const energy = (/** @type {Layout} */ { after }) => after?.income.value ?? 0;
  const splits = layouts.filter(({ label, edits }) => edits.length === 0 || label.startsWith('cells as they lie'));
  const best = splits.reduce((most, one) => (energy(one) > energy(most) ? one : most));
  const naive = layouts.find(({ label }) => label === naiveLabel);
  const over = (/** @type {number} */ value) => `${(100 * (energy(best) / value - 1)).toFixed(1)} %`;
  const built = `As built: ${base.income.value.toFixed(1)} Wh.`;
  if (naive === undefined)
    return `${built} All cells in one string, the naive split, is how it is built${
      best.edits.length === 0
        ? ', and no other gives more'
        : `; best found: ${best.label}, ${energy(best).toFixed(1)} Wh, ${over(base.income.value)} more`
    }.`;
  const found =
    best.edits.length === 0
      ? `The best split found is that as built, ${over(energy(naive))} over the naive one`
      : `Best split found: ${best.label}, ${energy(best).toFixed(1)} Wh, ${over(energy(naive))} over the naive one and ${over(base.income.value)} over that as built`;
  return `${built} Naive, all cells in one string: ${energy(naive).toFixed(1)} Wh. ${found}.`;
}

/** @param {string} name */
function section(name) {
  const day = asked(name, ['--picture', file(`../docs/pictures/array-${name}.svg`)]);
  const { base, layouts } = asked(name, ['--layout']);
  const light = day.light.value;
  const losses = [
    `| light | ${light.toFixed(0)} | 100 % |`,
    ...day.losses.map(
      (/** @type {Loss} */ { label, energy }) =>
        `| ${label} | ${energy.value.toFixed(1)} | ${((100 * energy.value) / light).toFixed(1)} % |`,
    ),
  ];
  const rows = layouts.flatMap((/** @type {Layout} */ { label, after }) =>
    after === undefined
      ? []
      : [
          `| ${label} | ${after.income.value.toFixed(1)} | ${after.solarRatio.value.toFixed(3)} | ${(1000 * (after.mass.value - base.mass.value)).toFixed(0)} g |`,
        ],
  );
  return `## ${titled(name)}

${splitWords(layouts, base)}

![Energy of the day of every cell of ${titled(name)}](pictures/array-${name}.svg)

| from the light on the open cells | Wh | share |
|---|---|---|
${losses.join('\n')}

| strings and layout | Wh of the day | solar ratio | mass |
|---|---|---|---|
${rows.join('\n')}`;
}

const opening = `# The three demo arrays: where the energy of the day goes, and which strings give most

Under a clear sky on the day of each plan, as \`noonwing array FILE --sky clear\`, \`noonwing array FILE --layout --sky clear\` and the
Cells place give it. The pictures come from \`noonwing array FILE --sky clear --picture cells.svg\`: energy of every cell over the day.
Splits are compared cell by cell at every hour on every heading, for all halves of rows in any string of one half of the aircraft, of
both halves alike, or of all, in series or, where of equal length, side by side on one converter; the best few and new layouts are then run as the whole day, balance restored. In their order
0.2 % of the energy weigh as much as 2 % of the solar ratio. Written by \`builders/arrays.mjs\`.

The aircraft and their numbers are invented for the demo; models and their errors are in [VALIDATION.md](../VALIDATION.md). No published
flight with its income, attitude and irradiance is among the data of the project: how far the mean income of a real flight is off is
not known here.`;

mkdirSync(file('../docs/pictures'), { recursive: true });
const sections = ['alondra', 'bandeja', 'vigilia'].map(section);
writeFileSync(file('../docs/arrays.md'), `${[opening, ...sections].join('\n\n')}\n`);
