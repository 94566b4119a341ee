import { parseBenchReadings, parseTrace } from '@noonwing/files';
import { parseInstant, parseQuantity, type QuantityKind } from '@noonwing/quantities';
import type { BenchNumbers } from '@noonwing/verdict/bench';
import type { Command } from 'commander';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { readText } from './file.js';
import { type Options, typed } from './plan-options.js';

/** A reading that can be typed. */
interface ReadingOption {
  readonly flags: string;
  readonly attribute: string;
  readonly key: Exclude<keyof BenchNumbers, 'time' | 'otherConverter'>;
  readonly kind: QuantityKind;
  readonly help: string;
}

const option = (
  flag: string,
  key: ReadingOption['key'],
  kind: QuantityKind,
  value: string,
  help: string,
): ReadingOption => ({
  flags: `--${flag} <${value}>`,
  attribute: flag.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase()),
  key,
  kind,
  help,
});

const readingOptions: readonly ReadingOption[] = [
  option('volts', 'batteryVoltage', 'voltage', 'voltage', 'at the battery'),
  option('amps', 'batteryCurrent', 'current', 'current', 'into the battery'),
  option('array-volts', 'arrayVoltage', 'voltage', 'voltage', 'at the input of the converter'),
  option('array-amps', 'arrayCurrent', 'current', 'current', 'into the converter'),
  option('open-volts', 'openCircuitVoltage', 'voltage', 'voltage', 'of the array, converter unplugged'),
  option('short-amps', 'shortCircuitCurrent', 'current', 'current', 'of the array, shorted'),
  option('light', 'irradiance', 'areal power', 'irradiance', 'on the plane of the array'),
  option('air', 'airTemperature', 'temperature', 'temperature', 'in the shade'),
  option('breeze', 'wind', 'speed', 'speed', 'wind at the cells'),
  option('cell-temperature', 'cellTemperature', 'temperature', 'temperature', 'of the cells'),
  option('worst-cell', 'worstCellVoltage', 'voltage', 'voltage', 'of the cell that gives least, at work'),
  option('zero', 'zeroCurrent', 'current', 'current', 'of the sensor, cells covered'),
  option('tilt', 'tilt', 'angle', 'angle', 'of the array from level'),
  option('facing', 'facing', 'angle', 'angle', 'towards which it tilts, from north clockwise'),
  option(
    'nose',
    'nose',
    'angle',
    'angle',
    'in which it points, from north clockwise: halves at an angle see unequal light',
  ),
];

/** Options of readings; what --readings holds comes before what is typed. */
export function addReadingOptions(command: Command): Command {
  command.optionsGroup('What was read:');
  command.option('--time <instant>', 'date and time with the offset of the clock, such as 2026-06-21T10:00+02:00');
  for (const { flags, help } of readingOptions) command.option(flags, help);
  return command
    .option('--other-amps <current>', 'into the battery with another converter, known to be good, in its place')
    .option('--readings <file>', 'CSV, one set of readings to a line, with heads such as "battery voltage (V)"')
    .option('--trace <file>', 'CSV of a current-voltage trace of the array');
}

/** Readings of a bench as named on the command line. */
export interface TypedBench {
  readonly readings: readonly BenchNumbers[];
  readonly trace?: {
    readonly voltage: readonly number[];
    readonly current: readonly number[];
    readonly irradiance?: number;
    readonly cellTemperature?: number;
  };
  readonly notes: readonly string[];
}

/** Reads options and files; lines of what cannot be read. */
export function readBench(options: Options): Attempt<TypedBench> {
  const numbers: Partial<Record<string, number>> = {};
  const wrong: string[] = [];
  const take = (attribute: string, flag: string, kind: QuantityKind): number | undefined => {
    const text = typed(options, attribute);
    if (text === undefined) return undefined;
    const read = parseQuantity(text, kind);
    if (read.ok) return read.value;
    wrong.push(`${flag}: found "${read.found}"; expected ${read.expected}; ${read.hint}`);
    return undefined;
  };
  for (const { attribute, flags, key, kind } of readingOptions) {
    const value = take(attribute, flags.split(' ')[0]!, kind);
    if (value !== undefined) numbers[key] = value;
  }
  const otherAmps = take('otherAmps', '--other-amps', 'current');
  const written = typed(options, 'time');
  const instant = written === undefined ? undefined : parseInstant(written);
  if (instant !== undefined && !instant.ok) {
    wrong.push(`--time: found "${instant.found}"; expected ${instant.expected}; ${instant.hint}`);
  }
  if (wrong.length > 0) return refuse(exitCode.wrongUsage, ...wrong);
  const file = readingsFile(options, numbers, instant?.ok === true ? instant.seconds : undefined);
  if (!file.ok) return file;
  const trace = traceFile(options);
  if (!trace.ok) return trace;
  const readings = [...file.value.readings];
  if (instant?.ok === true && numbers.batteryVoltage !== undefined) {
    const basic = { ...numbers, time: instant.seconds } as BenchNumbers;
    readings.push(basic);
    if (otherAmps !== undefined) {
      const { time, batteryVoltage, tilt, facing, nose, wind, airTemperature } = basic;
      readings.push({
        time,
        batteryVoltage,
        batteryCurrent: otherAmps,
        otherConverter: true,
        ...(tilt === undefined ? {} : { tilt }),
        ...(facing === undefined ? {} : { facing }),
        ...(nose === undefined ? {} : { nose }),
        ...(wind === undefined ? {} : { wind }),
        ...(airTemperature === undefined ? {} : { airTemperature }),
      });
    }
  } else if (readings.length === 0) {
    const missing = [instant === undefined ? '--time' : '', numbers.batteryVoltage === undefined ? '--volts' : ''];
    return refuse(
      exitCode.wrongUsage,
      `missing: ${missing.filter((flag) => flag !== '').join(' and ')}; a reading needs date, time and the volts of the battery`,
      'or give --readings with a CSV file',
    );
  }
  return ready({ readings, notes: file.value.notes, ...(trace.value === undefined ? {} : { trace: trace.value }) });
}

/** Rows of --readings; volts and time that are typed stand in where a row has none. */
function readingsFile(
  options: Options,
  numbers: Partial<Record<string, number>>,
  time: number | undefined,
): Attempt<{ readonly readings: readonly BenchNumbers[]; readonly notes: readonly string[] }> {
  const path = typed(options, 'readings');
  if (path === undefined) return ready({ readings: [], notes: [] });
  const text = readText(path);
  if (!text.ok) return text;
  const read = parseBenchReadings(text.value);
  if (!read.ok) return refuse(exitCode.unusableInput, `${path}: ${read.where}: ${read.reason} ${read.remedy}`);
  const readings: BenchNumbers[] = [];
  for (const { line, ...row } of read.value) {
    const at = row.time ?? time;
    const voltage = row.batteryVoltage ?? numbers.batteryVoltage;
    if (at === undefined || voltage === undefined) {
      const what = at === undefined ? 'time' : 'battery voltage';
      return refuse(exitCode.unusableInput, `${path}: line ${line}: no ${what}; add it, or give it as an option`);
    }
    const shared = ['tilt', 'facing', 'airTemperature'].flatMap((key) =>
      numbers[key] === undefined ? [] : [[key, numbers[key]] as const],
    );
    readings.push({ ...Object.fromEntries(shared), ...row, time: at, batteryVoltage: voltage });
  }
  return ready({ readings, notes: read.warnings.map(({ message, where }) => `${path}: ${where ?? ''} ${message}`) });
}

function traceFile(options: Options): Attempt<TypedBench['trace'] | undefined> {
  const path = typed(options, 'trace');
  if (path === undefined) return ready(undefined);
  const text = readText(path);
  if (!text.ok) return text;
  const read = parseTrace(text.value);
  return read.ok
    ? ready(read.value)
    : refuse(exitCode.unusableInput, `${path}: ${read.where}: ${read.reason} ${read.remedy}`);
}
