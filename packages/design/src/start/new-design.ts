import { formatDate, parsePackLayout, parseQuantity, type QuantityKind } from '@noonwing/quantities';
import { type CompleteAircraft, completeDesign } from '../complete/index.js';
import { CELLS, type CellName } from '../library/cells.js';
import { offsetText } from '../notations.js';
import { readDesign } from '../read-files.js';
import { airframeText, type Layout, mainSurface, mm, type Outline, usualBalancePoint } from './airframe-text.js';
import { breakBetween, cellRows, cellsAlong, type NewRow } from './cell-rows.js';
import {
  type AnswerProblem,
  answerProblem,
  type NewDesignAnswers,
  type NewDesignKey,
  newDesignQuestions,
} from './questions.js';

export type NewDesign =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly AnswerProblem[] };

/** Usual aspect ratios by layout, common practice, and the usual wing loading of small solar aircraft [kg/m2]. */
const ASPECT_RATIO: Readonly<Record<Layout, number>> = { tailed: 11, 'flying wing': 8, plank: 2.1 };
const USUAL_LOADING: Readonly<Record<Layout, number>> = { tailed: 2.6, 'flying wing': 2.2, plank: 1.5 };

interface Given {
  readonly layout: Layout;
  readonly outline: Outline | undefined;
  /** [kg] */
  readonly mass: number;
  readonly answers: NewDesignAnswers;
}

const answerOf = (answers: NewDesignAnswers, key: NewDesignKey): string | undefined => {
  const written = answers[key]?.trim();
  return written === undefined || written === '' ? undefined : written;
};

function number(answers: NewDesignAnswers, key: NewDesignKey, kind: QuantityKind): number | undefined {
  const written = answerOf(answers, key);
  const parsed = written === undefined ? undefined : parseQuantity(written, kind);
  return parsed?.ok ? parsed.value : undefined;
}

/** Span and chord as answered, or from each other and the mass by usual proportions; none where level power stands alone. */
function given(answers: NewDesignAnswers): Given {
  const layout = (answerOf(answers, 'layout')?.toLowerCase() ?? 'tailed') as Layout;
  const [span, chord] = [number(answers, 'span', 'length'), number(answers, 'chord', 'length')];
  const aspect = ASPECT_RATIO[layout];
  const stated = number(answers, 'mass', 'mass');
  const known = span !== undefined || chord !== undefined;
  const area =
    span !== undefined && chord !== undefined
      ? span * chord
      : span !== undefined
        ? span ** 2 / aspect
        : chord !== undefined
          ? chord ** 2 * aspect
          : undefined;
  const mass = stated ?? (area === undefined ? 1.3 : USUAL_LOADING[layout] * area);
  const size = area ?? mass / USUAL_LOADING[layout];
  const wide = span ?? (chord === undefined ? Math.sqrt(size * aspect) : size / chord);
  const outline = {
    span: wide,
    chord: chord ?? size / wide,
    spanKnown: span !== undefined,
    chordKnown: chord !== undefined,
  };
  const bare = !known && answerOf(answers, 'level power') !== undefined;
  return { layout, outline: bare ? undefined : outline, mass, answers };
}

function massText({ answers, mass }: Given): string {
  const stated = answerOf(answers, 'mass');
  const digits = Math.round(mass * 100) / 100;
  return stated === undefined
    ? `all up mass: ${digits} kg ± ${Math.max(0.01, Math.round(mass * 25) / 100)} kg assumed`
    : `all up mass: ${stated}`;
}

function cellCount(answers: NewDesignAnswers, outline: Outline | undefined, cell: CellName): number {
  const stated = number(answers, 'cells', 'count');
  if (stated !== undefined) return stated;
  if (outline === undefined) return 12;
  // As many as one row takes over 85 % of the span, and as many rows as fit on 75 % of the chord.
  const rows = Math.max(1, Math.floor((0.75 * outline.chord) / CELLS[cell].width.value));
  return Math.max(2, cellsAlong(cell, outline, 0.85) * rows);
}

const cellOf = ({ answers }: Given): CellName =>
  (Object.keys(CELLS).find((name) => name === answerOf(answers, 'cell')?.toLowerCase()) ??
    'back-contact 125 mm') as CellName;

/** Cells of the design, in rows where there is a wing to lay them on. */
function cellsOf(source: Given): { readonly count: number; readonly rows: readonly NewRow[] } {
  const { answers, layout, outline } = source;
  const cell = cellOf(source);
  const count = cellCount(answers, outline, cell);
  return { count, rows: outline === undefined ? [] : cellRows(count, cell, layout, outline) };
}

const shareText = (share: number): string => `${Math.round(1000 * share) / 10} %`;

function arrayText(source: Given): string {
  const { count, rows } = cellsOf(source);
  if (count === 0) return 'array: none\n';
  const mark = number(source.answers, 'cells', 'count') === undefined ? '       # assumed: as many as fit' : '';
  const lines =
    source.outline === undefined
      ? [`    top: {on: wing, cells: ${count}}${mark}`]
      : rows.map(
          ({ cells, from, to, station }, i) =>
            `    row ${i + 1}: {on: ${mainSurface(source.layout)}, side: both, from: ${shareText(from)}, to: ${shareText(to)}, chord station: ${shareText(station)}, cells: ${cells}}${i === 0 ? mark : ''}`,
        );
  return `array:
  cell: ${cellOf(source)}
  rows:
${lines.join('\n')}
  # Without "strings" all cells are one string. Converter and film are assumed; noonwing check lists every assumption.
  lamination:
    transmittance: 96 % ± 3 % assumed
`;
}

function batteryText({ answers, mass }: Given, x: number): string {
  const pack = answerOf(answers, 'battery');
  if (pack?.toLowerCase() === 'none') return 'battery: none\n';
  const cell = answerOf(answers, 'battery cell')?.toLowerCase();
  const known = Object.values(newDesignQuestions).find((question) => question.key === 'battery cell') as {
    choices: readonly string[];
  };
  const name = known.choices.find((choice) => choice.toLowerCase() === cell) ?? 'lithium-ion 18650 3.4 Ah';
  const series = mass < 0.4 ? 2 : mass < 2.5 ? 3 : mass < 4.5 ? 4 : 6;
  // About a quarter of the mass, common practice for a day of sun and a reserve.
  const parallel = Math.max(1, Math.round((0.22 * mass) / (series * 0.05)));
  const layout = pack === undefined ? `${series}S${parallel}P` : pack;
  const shown = parsePackLayout(layout).ok ? layout : '3S1P';
  return `battery:
  cell: ${name}
  layout: ${shown}${pack === undefined ? '                     # assumed' : ''}
  x: ${mm(x)} assumed               # where it balances the aircraft by its assumed masses
`;
}

function driveText({ answers }: Given): string {
  const motor = answerOf(answers, 'motor');
  const propeller = answerOf(answers, 'propeller');
  const lines = [
    motor === undefined
      ? ''
      : `  motor:\n    speed constant: ${motor}\n    # resistance and no-load current are estimated until they are written here\n`,
    propeller === undefined ? '' : `  propeller: ${propeller}\n`,
  ].join('');
  return lines === ''
    ? '# drive:                             # motor and propeller usual for this size are assumed\n'
    : `drive:\n${lines}`;
}

function compose(source: Given, batteryX: number): string {
  const { answers, outline, layout } = source;
  const power = answerOf(answers, 'level power');
  const name = answerOf(answers, 'name') ?? 'my aircraft';
  return [
    'noonwing: design 1',
    `name: ${JSON.stringify(name)}`,
    '# Every number carries its unit; ± gives a standard uncertainty. What is marked assumed, or left out, is a guess',
    '# with a wide uncertainty: replace it by what you know, and write "weighed" or "measured" behind what you measured.',
    '# x aft, y to the right wing, z up.',
    'datum: leading edge of the wing at the root',
    '',
    massText(source),
    power === undefined
      ? '# level power: 11 W ± 2 W          # electric power in level flight, once you know it'
      : `level power: ${power}`,
    '',
    outline === undefined
      ? '# No airframe: the level power is stated. Add "surfaces" to have it computed.\n'
      : airframeText(layout, outline, breakBetween(cellsOf(source).rows, outline)),
    batteryText(source, batteryX),
    driveText(source),
    arrayText(source),
    '# loads:                             # receiver and servos usual for this size are assumed',
    '#   receiver: 0.3 W',
    '#   camera: {power: 2 W, from: 09:00, to: 12:00}',
    '',
    'flight:',
    '  airspeed: least power',
    '  bank: 15 deg ± 5 deg assumed',
    '',
  ].join('\n');
}

/** Moment of everything but the battery about the wanted balance point, and the battery's mass: where it has to be. */
function balancingBattery(aircraft: CompleteAircraft, wanted: number): number | undefined {
  const battery = aircraft.battery;
  if (battery === undefined) return undefined;
  let moment = 0;
  for (const item of aircraft.masses) {
    const x = item.group === 'battery' ? undefined : placeOf(item.place, aircraft);
    if (x !== undefined) moment += item.count * item.mass.value * (x - wanted);
  }
  return wanted - moment / battery.mass.value;
}

/** x of a mass: a surface at 40 % of its mean chord, a body at 45 % of its length, cells in their row [m]. */
function placeOf(place: CompleteAircraft['masses'][number]['place'], aircraft: CompleteAircraft): number | undefined {
  if ('x' in place) return place.x.value;
  if ('everywhere' in place) return undefined;
  const row = 'row' in place ? aircraft.array?.rows.find((candidate) => candidate.name === place.row) : undefined;
  const on = 'row' in place ? row?.on : place.on;
  const body = aircraft.bodies.find((candidate) => candidate.name === on);
  if (body !== undefined) return body.x.value + 0.45 * body.length.value;
  const surface = aircraft.surfaces.find((candidate) => candidate.name === on);
  if (surface === undefined) return undefined;
  const { stations, x } = surface;
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const chord = mean(stations.map((station) => station.chord.value));
  return x.value + mean(stations.map((station) => station.leadingEdge)) + (row?.chordStation.value ?? 0.4) * chord;
}

/** Place of the battery that balances the aircraft by its assumed masses, within what a nose can hold [m]. */
function batteryPlace(source: Given): number {
  const { outline, layout } = source;
  if (outline === undefined) return 0;
  const draft = readDesign(compose(source, -0.3 * outline.chord));
  if (draft.design === undefined) return -0.3 * outline.chord;
  const x = balancingBattery(completeDesign(draft.design).aircraft, usualBalancePoint(layout, outline));
  return Math.max(-1.2 * outline.chord, Math.min(0.6 * outline.chord, x ?? 0));
}

/**
 * Text of a commented design file from the answers to `newDesignQuestions`. What was not answered is filled in by usual
 * proportions and marked assumed. Answers that cannot be used are returned as problems.
 */
export function newDesignText(answers: NewDesignAnswers): NewDesign {
  const problems = newDesignQuestions.flatMap(({ key }) => answerProblem(key, answers[key] ?? '') ?? []);
  if (problems.length > 0) return { ok: false, problems };
  const source = given(answers);
  return { ok: true, text: compose(source, batteryPlace(source)) };
}

/**
 * Text of a day plan for a new design.
 * place - as written; date - calendar date; utcOffset - local clock minus UTC [s], left out where unknown
 */
export function newDayPlanText(plan: {
  readonly place: string;
  readonly date: { readonly year: number; readonly month: number; readonly day: number };
  readonly utcOffset?: number;
}): string {
  return [
    'noonwing: day 1',
    'place:',
    `  at: ${JSON.stringify(plan.place)}`,
    '  altitude: 0 m ± 100 m assumed',
    `date: ${formatDate(plan.date)}`,
    plan.utcOffset === undefined
      ? '# time zone: Europe/Madrid          # or +02:00; from the longitude where it is left out'
      : `time zone: ${JSON.stringify(offsetText(plan.utcOffset))}`,
    'sky: all                            # clear, thin, broken, overcast, or all: clear, thin and broken',
    '# surroundings: rural               # mountain, rural, coast, urban, industrial or desert: for the haze of the month',
    '# temperature: 25 degC',
    '# wind: 3 m/s',
    'launch: 09:00',
    'charge at launch: 95 % ± 4 %',
    'height: 80 m',
    '',
  ].join('\n');
}
