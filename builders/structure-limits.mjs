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
    `${speed(found.warm?.flight.first?.low ?? first.low)} m/s`,
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
  const rows = [['bare', '-', `${speed(first.low)} m/s`, first.kind, ...dayOf(answer('bandeja', design, known))]];
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

/** Two tubes below the sheet, or glass on both of its faces, as a builder writes them into the file. @type {readonly { name: string, after: RegExp, line: string, grams: number }[]} */
const shown = [
  {
    name: 'two 6 mm carbon tubes below, at 25 and 60 % of the chord',
    after: /^ +rear strip:.*\n/m,
    line: `        front stiffener: {kind: tube, material: carbon tube, width: 6 mm, height: 4 mm, place: below, chord station: 25 %}
        rear stiffener:  {kind: tube, material: carbon tube, width: 6 mm, height: 4 mm, place: below, chord station: 60 %}\n`,
    // 2 tubes of 1.2 m, 1550 kg/m3 on 15.7 mm2.
    grams: 58,
  },
  {
    name: 'glass of 25 g/m2 on both faces',
    after: /^ +core: extruded polystyrene foam\n/m,
    line: '      skins: [glass fabric 25 g/m2 with epoxy]\n',
    // 2 faces of 0.72 m2, 55 g/m2 with its resin.
    grams: 79,
  },
];

/** Hours of a sky that sunlight carries, and the change against another verdict in minutes. @param {Answered} of @param {string} sky @param {Answered} bare */
function carriedText({ verdict: found }, sky, { verdict: before }) {
  /** @param {typeof found} one */
  const seconds = (one) => one.skies.find(({ run }) => run.sky.name === sky)?.carried.value ?? 0;
  const minutes = Math.round((seconds(found) - seconds(before)) / 60);
  const change = found === before ? '' : ` (${minutes < 0 ? '' : '+'}${minutes} min)`;
  return `${(seconds(found) / 3600).toFixed(1)} h${change}`;
}

/** The plank as drawn and stiffened in its design file: limit speeds, mass, and what that does to the verdict of its day. */
function asBuilt() {
  const design = text('../examples/bandeja.yaml');
  /** @type {{ name: string, text: string, grams: number }[]} */
  const variants = [
    { name: 'bare', text: design, grams: 0 },
    ...shown.map(({ name, after, line, grams }) => {
      if (!after.test(design)) throw new Error(`Bandeja's file has no place for "${name}"`);
      const built = design.replace(after, (found) => found + line);
      return { name, text: heavier(built, grams), grams };
    }),
  ];
  /** @type {Answered | undefined} */
  let bare;
  return variants.map(({ name, text: built }) => {
    const found = limitsOf(answer('bandeja', built));
    const known = knownLimit(found);
    const [first] = found.report.limits;
    if (known === undefined || first === undefined || found.warm?.parked.first === undefined)
      throw new Error(`Bandeja ${name} has no limit`);
    const day = answer('bandeja', built, known);
    bare ??= day;
    const { flight, levelPower, prepared, problems } = day.verdict;
    const { warnings } = day.verdict;
    const above = problems.some(({ code }) => code === 'limit-speed');
    const close = warnings.some(({ code }) => code === 'limit-speed');
    const room = above ? 'above its limit: a problem' : close ? 'close to its limit: a warning' : 'below its limit';
    const warm = found.warm.flight.first;
    return [
      name,
      `${(1000 * (prepared.model.balance?.mass ?? 0)).toFixed(0)} g`,
      `${speed(first.low)} (${speed(first.airspeed)}) m/s: ${first.kind}`,
      `${speed(warm?.low ?? 0)} m/s: ${warm?.kind ?? '-'}`,
      `${speed(found.warm.parked.first.low)} m/s: ${found.warm.parked.first.kind}`,
      `${speed(flight?.airspeed ?? 0)} m/s, ${room}`,
      `${(levelPower?.value ?? 0).toFixed(1)} W`,
      ...['clear', 'thin cloud', 'broken cloud'].map((sky) => carriedText(day, sky, bare ?? day)),
    ];
  });
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
  ['aircraft', 'flown at', 'limit speed', 'in the noon sun', 'times', 'reason', 'next, lower edges in m/s'],
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
const built = table(
  [
    'structure',
    'mass',
    'limit speed: what comes first',
    'in the noon sun',
    'parked in it, then thrown',
    'flown at',
    'level power',
    'clear: carried',
    'thin cloud',
    'broken cloud',
  ],
  asBuilt(),
);
const page = placed(placed(text(path), 'aircraft', aircraft), 'stiffened', stiffened);
writeFileSync(file(path), placed(page, 'built', built));
process.stdout.write(`${aircraft}\n\n${built}\n\n${stiffened}\n`);
