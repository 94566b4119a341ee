import { parseInstant, type QuantityKind } from '@noonwing/quantities';
import { readColumn } from './column.js';
import { type FileOutcome, readAs, refused, warningList } from './outcome.js';
import { findColumn, parseTable, type Table } from './table.js';

/** One line of readings of an array in the sun; what was not read is absent. SI; time as Unix seconds. */
export interface BenchRow {
  /** Of the file, from 1. */
  readonly line: number;
  readonly time?: number;
  readonly batteryVoltage?: number;
  readonly batteryCurrent?: number;
  readonly arrayVoltage?: number;
  readonly arrayCurrent?: number;
  readonly openCircuitVoltage?: number;
  readonly shortCircuitCurrent?: number;
  readonly irradiance?: number;
  readonly airTemperature?: number;
  readonly cellTemperature?: number;
  readonly worstCellVoltage?: number;
  readonly zeroCurrent?: number;
  readonly tilt?: number;
  readonly facing?: number;
  readonly nose?: number;
  readonly wind?: number;
  /** Another converter, known to be good, stood in the place of the own. */
  readonly otherConverter?: boolean;
}

type NumberKey = Exclude<keyof BenchRow, 'line' | 'time' | 'otherConverter'>;

/** Heads by key: names that people write, the quantity, and the unit where the head has none. */
const columns: Readonly<Record<NumberKey, readonly [names: readonly string[], kind: QuantityKind, unit: string]>> = {
  batteryVoltage: [['battery voltage', 'battery volts', 'voltage', 'volts', 'vbat'], 'voltage', 'V'],
  batteryCurrent: [['battery current', 'battery amps', 'current', 'amps', 'ibat'], 'current', 'A'],
  arrayVoltage: [['array voltage', 'array volts', 'input voltage', 'vpv'], 'voltage', 'V'],
  arrayCurrent: [['array current', 'array amps', 'input current', 'ipv'], 'current', 'A'],
  openCircuitVoltage: [['open circuit voltage', 'open voltage', 'voc'], 'voltage', 'V'],
  shortCircuitCurrent: [['short circuit current', 'short current', 'isc'], 'current', 'A'],
  irradiance: [['irradiance', 'light'], 'areal power', 'W/m2'],
  airTemperature: [['air temperature', 'temperature'], 'temperature', 'degC'],
  cellTemperature: [['cell temperature'], 'temperature', 'degC'],
  worstCellVoltage: [['worst cell voltage', 'worst cell'], 'voltage', 'V'],
  zeroCurrent: [['zero current', 'zero'], 'current', 'A'],
  tilt: [['tilt'], 'angle', 'deg'],
  facing: [['facing', 'azimuth', 'direction'], 'angle', 'deg'],
  nose: [['nose', 'heading'], 'angle', 'deg'],
  wind: [['wind', 'wind at the cells'], 'speed', 'm/s'],
};

const timeNames = ['time', 'date and time', 'date', 'timestamp'];
const converterNames = ['converter', 'other converter'];

/**
 * Reads readings of an array in the sun from separated values, one set to a line. Heads as in `battery voltage (V)`,
 * `array voltage (V)`, `time`; a column `converter` that says `other` marks readings with another converter.
 *
 * @param input - the file's bytes or text
 * @returns rows in the order of the file; a problem that names the line where a time or all readings cannot be read
 */
export function parseBenchReadings(input: string | Uint8Array): FileOutcome<readonly BenchRow[]> {
  const table = parseTable(input);
  if (!table.ok) return table;
  const warnings = warningList(table.warnings);
  const values = new Map<NumberKey, readonly (number | undefined)[]>();
  const known = new Set<number>();
  for (const [key, [names, kind, unit]] of Object.entries(columns) as [NumberKey, (typeof columns)[NumberKey]][]) {
    const at = findColumn(table.value, names);
    if (at < 0 || known.has(at)) continue;
    known.add(at);
    const read = readColumn(table.value, at, kind, unit);
    if (!read.ok) return read;
    for (const { code, message, where } of read.warnings) warnings.add(code, message, where);
    values.set(key, read.value);
  }
  if (values.size === 0) {
    return refused({
      code: 'columns',
      reason: `No column of readings was found among: ${table.value.columns.map(({ text }) => text).join(', ')}.`,
      where: 'heads',
      remedy: 'Name the columns "time", "battery voltage (V)", "battery current (A)", "array voltage (V)".',
    });
  }
  const times = readTimes(table.value);
  if (!times.ok) return times;
  const converterAt = findColumn(table.value, converterNames);
  const rows = table.value.rows.map((row, k): BenchRow => {
    const read = [...values].flatMap(([key, column]) => (column[k] === undefined ? [] : [[key, column[k]] as const]));
    const isOther = converterAt >= 0 && /^(other|yes|good)$/i.test(row.cells[converterAt] ?? '');
    return {
      line: row.line,
      ...(times.value[k] === undefined ? {} : { time: times.value[k] }),
      ...Object.fromEntries(read),
      ...(isOther ? { otherConverter: true } : {}),
    };
  });
  return readAs(rows, warnings.all());
}

/** Instants of the rows; all absent where there is no column of times. */
function readTimes(table: Table): FileOutcome<readonly (number | undefined)[]> {
  const at = findColumn(table, timeNames);
  if (at < 0) return readAs(table.rows.map(() => undefined));
  const times: (number | undefined)[] = [];
  for (const { line, cells } of table.rows) {
    const text = cells[at] ?? '';
    if (text === '') {
      times.push(undefined);
      continue;
    }
    const read = parseInstant(text);
    if (!read.ok) {
      return refused({
        code: 'time',
        reason: `"${text}" is no date and time with the offset of the clock.`,
        where: `line ${line}, column "${table.columns[at]!.text}"`,
        remedy: 'Write it as 2026-06-21T10:00+02:00, or with Z for UTC.',
      });
    }
    times.push(read.seconds);
  }
  return readAs(times);
}
