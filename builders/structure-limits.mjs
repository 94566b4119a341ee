/**
 * Tables of docs/structure-limits.md: limit speeds of the three examples with their reasons, and Bandeja bare and stiffened, with what each
 * change does to its day. The battery is not moved; added mass lies where the sheet lies. Run after `npm run build`:
 * node builders/structure-limits.mjs
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  completeDesign,
  completePlan,
  computedSections,
  readDayPlan,
  readDesign,
  readStoredText,
} from '../packages/design/dist/index.js';
import { createStages, verdict } from '../packages/verdict/dist/index.js';
import { limitChanges } from '../packages/verdict/dist/limit-changes.js';
import { knownLimit, limits } from '../packages/verdict/dist/limits.js';

/** @param {string} path */
const file = (path) => fileURLToPath(new URL(path, import.meta.url));
/** @param {string} path */
const text = (path) => readFileSync(file(path), 'utf8');

const stored = readStoredText(text('../examples/polars.json'));
if (stored === undefined) throw new Error('examples/polars.json cannot be read');
const sections = { computed: computedSections(stored, 'polars.json') };

const builds = { alondra: 'built-up, 2.4 m', vigilia: 'moulded, 4.6 m', bandeja: 'foam sheet of 9 mm' };

/** @typedef {keyof typeof builds} Name */
/** @typedef {import('../packages/verdict/dist/index.js').KnownLimit} KnownLimit */

/** Verdict of an example's text, flown within a limit where one is given. @param {Name} name @param {string} design @param {KnownLimit} [limit] */
function answer(name, design, limit) {
  const read = readDesign(design).design;
  const plan = readDayPlan(text(`../examples/${name}.day.yaml`)).plan;
  if (read === undefined || plan === undefined) throw new Error(`${name} cannot be read`);
  const stages = createStages();
  const within = limit === undefined ? {} : { limit };
  const { aircraft } = completeDesign(read);
  return { stages, verdict: verdict(aircraft, completePlan(plan).plan, sections, stages, { samples: 0, ...within }) };
}

/** @typedef {ReturnType<typeof answer>} Answered */

/** @param {Answered} answered */
function limitsOf({ verdict: of, stages }) {
  const found = limits(of, stages);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
}

/** @param {number} value */
const speed = (value) => value.toFixed(1);
/** @param {string} name */
const capital = (name) => name.charAt(0).toUpperCase() + name.slice(1);

/** @param {Name} name */
function row(name) {
  const found = limitsOf(answer(name, text(`../examples/${name}.yaml`)));
  const [first, ...others] = found.report.limits;
  if (first === undefined) throw new Error(`${name} has no limit`);
  const next = others.slice(0, 3).map(({ kind, low }) => `${kind} ${speed(low)}`);
  return [
    `${capital(name)}, ${builds[name]}`,
    `${speed(found.airspeed)} m/s`,
    `${speed(first.low)} m/s (${speed(first.airspeed)})`,
    (first.low / found.airspeed).toFixed(1),
    `${first.kind}: ${first.words}`,
    next.join(', '),
  ];
}

/** Bandeja's sheet heavier by some grams. @param {string} design @param {number} grams */
const heavier = (design, grams) =>
  design.replace(/(plank:\s+\{mass: )(\d+) g/, (_, before, mass) => `${before}${(Number(mass) + grams).toFixed(0)} g`);

/** What a day makes of a structure. @param {Answered} answered */
function dayOf({ verdict: found }) {
  const { levelPower, flight, skies, problems } = found;
  /** @param {string} name */
  const carried = (name) => {
    const sky = skies.find(({ run }) => run.sky.name === name);
    return sky === undefined ? '-' : `${(sky.carried.value / 3600).toFixed(1)} h`;
  };
  const above = problems.some(({ code }) => code === 'limit-speed');
  return [
    `${speed(flight?.airspeed ?? 0)} m/s${above ? ', above its limit' : ''}`,
    `${(levelPower?.value ?? 0).toFixed(1)} W`,
    carried('clear'),
    carried('broken cloud'),
  ];
}

function bandeja() {
  const design = text('../examples/bandeja.yaml');
  const bare = answer('bandeja', design);
  const found = limitsOf(bare);
  const known = knownLimit(found);
  const first = found.report.limits[0];
  if (known === undefined || first === undefined) throw new Error('Bandeja has no limit');
  const rows = [['bare', '-', `${speed(known.airspeed)} m/s`, first.kind, ...dayOf(answer('bandeja', design, known))]];
  for (const change of limitChanges(bare.verdict, found, bare.stages)) {
    if (change.limitSpeed < first.low + 0.1) continue;
    const grams = 1000 * change.mass;
    const limit = { airspeed: change.limitSpeed, words: change.first?.words ?? 'none', assumed: true };
    const day = dayOf(answer('bandeja', heavier(design, grams), limit));
    const quoted = `${speed(change.limitSpeed)} m/s`;
    rows.push([change.name, `${grams.toFixed(0)} g`, quoted, change.first?.kind ?? 'none found', ...day]);
  }
  return rows;
}

/** @param {string[]} head @param {string[][]} rows */
const table = (head, rows) =>
  [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');

/** Puts a table in the place of the one after a mark. @param {string} page @param {string} mark @param {string} made */
function placed(page, mark, made) {
  const pattern = new RegExp(`(<!-- ${mark} -->\n\n)(?:\\|.*\n)*`);
  if (!pattern.test(page)) throw new Error(`the page has no place for "${mark}"`);
  return page.replace(pattern, `$1${made}\n`);
}

const path = '../docs/structure-limits.md';
const aircraft = table(
  ['aircraft', 'flown at', 'limit speed', 'times', 'reason', 'next, lower edges in m/s'],
  [row('alondra'), row('vigilia'), row('bandeja')],
);
const stiffened = table(
  [
    'structure',
    'added',
    'limit speed',
    'what comes first',
    'flown at',
    'level power',
    'clear: carried',
    'broken cloud',
  ],
  bandeja(),
);
writeFileSync(file(path), placed(placed(text(path), 'aircraft', aircraft), 'stiffened', stiffened));
process.stdout.write(`${aircraft}\n\n${stiffened}\n`);
