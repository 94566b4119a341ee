import type { CompleteAircraft, CompleteArray, CompleteConverter } from '@noonwing/design';
import type { Edit, LeverCandidate } from './lever-edits.js';

const percent = (share: number): string => `${Math.round(share * 1000) / 10} %`;
const why = 'the change';
const own = 'a converter of its own';

/**
 * Levers of the wiring: each half of a row on a string and converter of its own, each row of a string likewise, tracking
 * instead of a fixed voltage. Converters that they add bring their mass, which the balance then carries.
 */
export function stringLevers({ array }: CompleteAircraft): LeverCandidate[] {
  if (array === undefined) return [];
  return [...splitBySide(array), ...splitByRow(array), ...trackingLevers(array)];
}

const converterEdits = (name: string, like: CompleteConverter | undefined, share: number): Edit[] => [
  { path: `array.strings.${name}.converter`, text: name, why: own },
  { path: `array.converters.${name}.topology`, text: like?.topology ?? 'boost', why: own },
  {
    path: `array.converters.${name}.rated power`,
    text: `${Math.max(5, Math.round(share * (like?.ratedPower.value ?? 80)))} W`,
    why: own,
  },
];

/** A row that lies on both halves, alone on its string: the halves see the sun at different angles in a turn. */
function splitBySide(array: CompleteArray): LeverCandidate[] {
  return array.strings.flatMap((string): LeverCandidate[] => {
    const row = array.rows.find(({ name }) => name === string.rows[0]);
    const fits = string.rows.length === 1 && row?.side === 'both' && row.cells % (2 * string.parallel) === 0;
    const name = `${string.rows[0]} left`;
    const taken = array.rows.some((other) => other.name === name) || array.strings.some((one) => one.name === name);
    if (!fits || row === undefined || taken) return [];
    const half = String(row.cells / 2);
    const converter = array.converters.find((candidate) => candidate.name === string.converter);
    const edits: Edit[] = [
      { path: `array.rows.${row.name}.side`, text: 'right', why },
      { path: `array.rows.${row.name}.cells`, text: half, why },
      { path: `array.rows.${name}.on`, text: row.on, why },
      { path: `array.rows.${name}.side`, text: 'left', why },
      { path: `array.rows.${name}.face`, text: row.face, why },
      { path: `array.rows.${name}.from`, text: percent(row.from), why },
      { path: `array.rows.${name}.to`, text: percent(row.to), why },
      { path: `array.rows.${name}.chord station`, text: percent(row.chordStation.value), why },
      { path: `array.rows.${name}.cells`, text: half, why },
      { path: `array.strings.${name}.rows[0]`, text: name, why },
      ...(string.parallel > 1 ? [{ path: `array.strings.${name}.parallel`, text: String(string.parallel), why }] : []),
      ...converterEdits(name, converter, 0.5),
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
function splitByRow(array: CompleteArray): LeverCandidate[] {
  return array.strings.flatMap((string): LeverCandidate[] => {
    const last = string.rows.at(-1);
    const row = array.rows.find(({ name }) => name === last);
    const taken = array.strings.some(({ name }) => name === last);
    if (string.rows.length < 2 || row === undefined || taken || row.cells % string.parallel !== 0) return [];
    const all = array.rows.filter(({ name }) => string.rows.includes(name)).reduce((sum, { cells }) => sum + cells, 0);
    const converter = array.converters.find((candidate) => candidate.name === string.converter);
    const edits: Edit[] = [
      { path: `array.strings.${string.name}.rows[${string.rows.length}]`, why },
      { path: `array.strings.${row.name}.rows[0]`, text: row.name, why },
      ...converterEdits(row.name, converter, row.cells / all),
    ];
    return [{ key: `row ${row.name} apart`, label: `the row "${row.name}" on its own string and converter`, edits }];
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
