import type { CompleteAircraft, CompleteArray, CompleteConverter, CompleteRow } from '@noonwing/design';
import type { Edit, LeverCandidate } from './lever-edits.js';

const percent = (share: number): string => `${Number((100 * share).toFixed(4))} %`;
const why = 'the change';
const own = 'a converter of its own';

/**
 * Levers of the wiring: each half of a row on a string and converter of its own, each row of a string likewise, two converters
 * in one, tracking instead of a fixed voltage, bypass diodes, better settings. What they add brings its mass, which the balance
 * then carries.
 *
 * @param written - whether the file has strings: diodes need one to be written at, and a split writes down what was assumed
 */
export function stringLevers({ array }: CompleteAircraft, written = true): LeverCandidate[] {
  if (array === undefined) return [];
  return [
    ...splitBySide(array, written),
    ...splitByRow(array, written),
    ...sharedConverters(array),
    ...(written ? diodeLevers(array) : []),
    ...trackingLevers(array),
    ...settingLevers(array),
  ];
}

const powerOf = (name: string, like: CompleteConverter | undefined, share: number): Edit => ({
  path: `array.converters.${name}.rated power`,
  text: `${Math.max(5, Math.round(share * (like?.ratedPower.value ?? 80)))} W`,
  why: own,
});

/** A converter as edits: of the topology of another, for a share of its power. */
export const converterLike = (name: string, like: CompleteConverter | undefined, share: number): readonly Edit[] => [
  { path: `array.converters.${name}.topology`, text: like?.topology ?? 'boost', why: own },
  powerOf(name, like, share),
];

/** What a row that is taken from another has of it, beside its side, its stretch of the span and its number of cells. */
export const rowLike = (name: string, row: CompleteRow): readonly Edit[] => {
  const path = `array.rows.${name}`;
  return [
    { path: `${path}.on`, text: row.on, why },
    { path: `${path}.face`, text: row.face, why },
    { path: `${path}.chord station`, text: percent(row.chordStation.value), why },
    ...(row.gap === undefined ? [] : [{ path: `${path}.gap`, text: `${Number((1000 * row.gap).toFixed(2))} mm`, why }]),
    ...(row.pieces === 1 ? [] : [{ path: `${path}.pieces`, text: String(row.pieces), why }]),
    ...(row.turned ? [{ path: `${path}.turned`, text: 'yes', why }] : []),
  ];
};

/** The left half of a row that lies on both halves, as a row of its own. */
export function leftHalf(row: CompleteRow, name: string): readonly Edit[] {
  const half = String(row.cells / 2);
  return [
    { path: `array.rows.${row.name}.side`, text: 'right', why },
    { path: `array.rows.${row.name}.cells`, text: half, why },
    ...rowLike(name, row),
    { path: `array.rows.${name}.side`, text: 'left', why },
    { path: `array.rows.${name}.from`, text: percent(row.from), why },
    { path: `array.rows.${name}.to`, text: percent(row.to), why },
    { path: `array.rows.${name}.cells`, text: half, why },
  ];
}

/** The converter of a new string; of which topology an assumed one is, follows from its cells and the battery. */
const converterEdits = (
  name: string,
  like: CompleteConverter | undefined,
  share: number,
  written: boolean,
): readonly Edit[] => [
  { path: `array.strings.${name}.converter`, text: name, why: own },
  ...(written ? converterLike(name, like, share) : [powerOf(name, like, share)]),
];

/** Writes down an assumed string with the rows that stay on it, and its converter: what is added beside it takes the assumption away. */
function writtenOut(
  { converters }: CompleteArray,
  { name, converter }: CompleteArray['strings'][number],
  rows: readonly string[],
): readonly Edit[] {
  const like = converters.find((candidate) => candidate.name === converter);
  return [
    ...rows.map((row) => ({ path: `array.strings.${name}.rows[0]`, text: row, why: 'as it was assumed' })),
    { path: `array.strings.${name}.converter`, text: converter, why: 'as it was assumed' },
    powerOf(converter, like, 1),
  ];
}

/** A row that lies on both halves, alone on its string: the halves see the sun at different angles in a turn. */
function splitBySide(array: CompleteArray, written: boolean): LeverCandidate[] {
  return array.strings.flatMap((string): LeverCandidate[] => {
    const row = array.rows.find(({ name }) => name === string.rows[0]);
    const isWhole = string.rows.length === 1 && row?.side === 'both' && row.cells % (2 * string.parallel) === 0;
    // Cells named one by one and diodes or cracks by number would change hands.
    const isPlain = row?.places === undefined && string.diodes === undefined && string.cracked === undefined;
    const fits = isWhole && isPlain;
    const name = `${string.rows[0]} left`;
    const taken = array.rows.some((other) => other.name === name) || array.strings.some((one) => one.name === name);
    if (!fits || row === undefined || taken) return [];
    const converter = array.converters.find((candidate) => candidate.name === string.converter);
    const edits: Edit[] = [
      ...leftHalf(row, name),
      ...(written ? [] : writtenOut(array, string, [row.name])),
      { path: `array.strings.${name}.rows[0]`, text: name, why },
      ...(string.parallel > 1 ? [{ path: `array.strings.${name}.parallel`, text: String(string.parallel), why }] : []),
      ...converterEdits(name, converter, 0.5, written),
    ];
    return [
      {
        key: `sides of ${row.name}`,
        label: `each half of the row "${row.name}" on its own string and converter`,
        edits,
      },
    ];
  });
}

/** Rows in series on one string: the last one gets a string and converter of its own. */
function splitByRow(array: CompleteArray, written: boolean): LeverCandidate[] {
  return array.strings.flatMap((string): LeverCandidate[] => {
    const last = string.rows.at(-1);
    const row = array.rows.find(({ name }) => name === last);
    const taken = array.strings.some(({ name }) => name === last);
    if (string.rows.length < 2 || row === undefined || taken || row.cells % string.parallel !== 0) return [];
    const all = array.rows.filter(({ name }) => string.rows.includes(name)).reduce((sum, { cells }) => sum + cells, 0);
    const converter = array.converters.find((candidate) => candidate.name === string.converter);
    const edits: Edit[] = [
      ...(written
        ? [{ path: `array.strings.${string.name}.rows[${string.rows.length}]`, why }]
        : writtenOut(array, string, string.rows.slice(0, -1))),
      { path: `array.strings.${row.name}.rows[0]`, text: row.name, why },
      ...converterEdits(row.name, converter, row.cells / all, written),
    ];
    return [{ key: `row ${row.name} apart`, label: `the row "${row.name}" on its own string and converter`, edits }];
  });
}

/** A converter of twice the power weighs less than two of them (judgement). */
const massExponent = 0.5;

/** Two converters of one topology, fed by strings of as many cells in series: one as strong as both, with what it weighs. */
function sharedConverters(array: CompleteArray): LeverCandidate[] {
  const { converters, strings } = array;
  const fed = converters.map((converter) => strings.filter(({ converter: name }) => name === converter.name));
  return converters.flatMap((kept, k) =>
    converters.slice(k + 1).flatMap((gone, n): LeverCandidate[] => {
      const all = [...fed[k]!, ...fed[k + 1 + n]!];
      const isAlike = new Set(all.map(({ cellsInSeries }) => cellsInSeries)).size === 1;
      if (!isAlike || kept.topology !== gone.topology || kept.topology === 'direct') return [];
      const path = `array.converters.${kept.name}`;
      const [power, current] = [kept, gone].reduce(
        ([p, i], one) => [p! + one.ratedPower.value, i! + one.outputCurrentLimit.value],
        [0, 0],
      ) as [number, number];
      const grams = 1000 * kept.mass.value * (power / kept.ratedPower.value) ** massExponent;
      return [
        {
          key: `${kept.name} and ${gone.name} share`,
          label: `one converter of ${Math.round(power)} W for ${all.map(({ name }) => `"${name}"`).join(' and ')} instead of two`,
          edits: [
            ...fed[k + 1 + n]!.map(({ name }) => ({ path: `array.strings.${name}.converter`, text: kept.name, why })),
            { path: `${path}.rated power`, text: `${Math.round(power)} W`, why: 'as strong as both' },
            { path: `${path}.output current limit`, text: `${+current.toFixed(2)} A`, why: 'as strong as both' },
            ...(kept.mass.source === 'stated'
              ? [{ path: `${path}.mass`, text: `${+grams.toFixed(1)} g`, why: 'heavier than one, lighter than two' }]
              : []),
            { path: `array.converters.${gone.name}`, why },
          ],
        },
      ];
    }),
  );
}

/** Of a bypass diode with its leads [g] (common practice, no source), and cells that one guards at most. */
const [diodeGrams, guarded] = [0.7, 8];

/** Bypass diodes: groups as even as they can be, small enough to guard a dark cell; half as long where there are some. */
function diodeLevers(array: CompleteArray): LeverCandidate[] {
  return array.strings.flatMap(({ name, rows, parallel, cellsInSeries, cellsPerDiode, diodes }): LeverCandidate[] => {
    if (diodes !== undefined || cellsInSeries < 4 || (cellsPerDiode ?? guarded) < 2) return [];
    const there = cellsPerDiode === undefined ? 0 : Math.ceil(cellsInSeries / cellsPerDiode);
    const count = there === 0 ? Math.max(2, Math.ceil(cellsInSeries / guarded)) : Math.min(2 * there, cellsInSeries);
    const span = Math.ceil(cellsInSeries / count);
    const on = array.rows.find((row) => row.name === rows[0])?.on;
    const mass = `masses.${there === 0 ? '' : 'more '}diodes of ${name}`;
    return [
      {
        key: `diodes of ${name}`,
        label: `a bypass diode for every ${span} cells of the string "${name}"${there === 0 ? '' : `, not ${cellsPerDiode}`}`,
        edits: [
          { path: `array.strings.${name}.cells per diode`, text: String(span), why },
          {
            path: `${mass}.mass`,
            text: `${+((count - there) * parallel * diodeGrams).toFixed(1)} g`,
            why: 'their mass',
          },
          ...(on === undefined ? [] : [{ path: `${mass}.on`, text: on, why: 'where they lie' }]),
        ],
      },
    ];
  });
}

/** Open-circuit fraction near the best of good cells over the temperatures of a day: sun-hot cells want 0.82, cool ones 0.85. */
const goodFraction = 0.83;

/** Voltage at maximum power of cells in series that are 30 K above the data sheet, as in flight at noon [V]. */
export const hotVoltage = ({ cell }: Pick<CompleteArray, 'cell'>, cells: number): number =>
  cells * (cell.maximumPowerVoltage.value + 30 * cell.voltageCoefficient.value);

/** Settings of converters that look with half an eye: a fraction that is off, a fixed voltage of cool cells, a hill climber that is caught. */
function settingLevers(array: CompleteArray): LeverCandidate[] {
  return array.converters.flatMap(({ name, tracker, fixedInputVoltage }): LeverCandidate[] => {
    const path = `array.converters.${name}`;
    const cells = Math.max(...array.strings.filter((one) => one.converter === name).map((one) => one.cellsInSeries));
    const hot = hotVoltage(array, cells);
    const levers: LeverCandidate[] = [];
    if (fixedInputVoltage !== undefined && Math.abs(fixedInputVoltage.value / hot - 1) > 0.02) {
      const text = `${hot.toFixed(1)} V`;
      levers.push({
        key: `setting of ${name}`,
        label: `the converter "${name}" set to ${text}, for hot cells`,
        edits: [{ path: `${path}.fixed input voltage`, text, why }],
      });
    }
    if (
      tracker?.method === 'fraction of open circuit' &&
      Math.abs(tracker.openCircuitFraction.value - goodFraction) > 0.01
    ) {
      levers.push({
        key: `setting of ${name}`,
        label: `the converter "${name}" holds ${100 * goodFraction} % of open circuit`,
        edits: [{ path: `${path}.open circuit fraction`, text: `${100 * goodFraction} %`, why }],
      });
    }
    if (tracker?.method === 'perturb and observe') {
      levers.push({
        key: `sweep of ${name}`,
        label: `the converter "${name}" sweeps for the best voltage`,
        edits: [{ path: `${path}.tracking`, text: 'sweep', why }],
      });
    }
    return levers;
  });
}

/** A converter that holds a fixed voltage tracks instead. */
const trackingLevers = (array: CompleteArray): LeverCandidate[] =>
  array.converters
    .filter(({ fixedInputVoltage }) => fixedInputVoltage !== undefined)
    .map(({ name }) => ({
      key: `tracking of ${name}`,
      label: `the converter "${name}" tracks instead of holding a fixed voltage`,
      edits: [{ path: `array.converters.${name}.fixed input voltage`, why }],
    }));
