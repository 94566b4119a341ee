import type { QuantityKind } from '@noonwing/quantities';
import { parseQuantity } from '@noonwing/quantities';
import { readColumn } from './column.js';
import type { FileOutcome, WarningList } from './outcome.js';
import { readAs, refused, warningList } from './outcome.js';
import type { Table } from './table.js';
import { findColumn, parseTable } from './table.js';

/** A measured current-voltage trace of a cell, string or array, by rising voltage. Current out of the cells is positive. */
export interface CurrentVoltageTrace {
  /** [V] */
  readonly voltage: readonly number[];
  /** [A] */
  readonly current: readonly number[];
  /** Light during the trace, where the file says it in a comment [W/m2]. */
  readonly irradiance?: number;
  /** Cell temperature during the trace, where the file says it in a comment [K]. */
  readonly cellTemperature?: number;
  /** Whether the trace comes within 5 % of its largest voltage to short circuit. */
  readonly reachesShortCircuit: boolean;
  /** Whether the trace comes within 5 % of its largest current to open circuit. */
  readonly reachesOpenCircuit: boolean;
}

const voltageNames = [
  'voltage',
  'volt',
  'volts',
  'u',
  'v',
  'spannung',
  'tension',
  'vpv',
  'array voltage',
  'cell voltage',
];
const currentNames = [
  'current',
  'ampere',
  'amps',
  'i',
  'a',
  'strom',
  'courant',
  'ipv',
  'array current',
  'cell current',
];

/** Fewer points show no curve. */
const fewestPoints = 4;

/** "# irradiance: 850 W/m2" or "# cell temperature = 41 °C". */
function stated(comments: readonly string[], names: RegExp, kind: QuantityKind): number | undefined {
  for (const comment of comments) {
    const found = /^([^:=]+)[:=]\s*(.+)$/.exec(comment);
    if (!found || !names.test(found[1]!.trim())) continue;
    const quantity = parseQuantity(found[2]!.trim(), kind);
    if (quantity.ok) return quantity.value;
  }
  return undefined;
}

interface Pair {
  readonly voltage: number;
  readonly current: number;
}

function readPairs(table: Table, warnings: WarningList): FileOutcome<Pair[]> {
  const isUnnamed = table.columns.every((column) => /^column \d+$/.test(column.text));
  const voltageAt = isUnnamed ? 0 : findColumn(table, voltageNames);
  const currentAt = isUnnamed ? 1 : findColumn(table, currentNames);
  if (voltageAt < 0 || currentAt < 0 || table.columns.length < 2) {
    return refused({
      code: 'columns',
      reason: `No column for ${voltageAt < 0 ? 'voltage' : 'current'} was found among: ${table.columns.map((column) => column.text).join(', ')}.`,
      where: 'heads',
      remedy: 'Name the columns "voltage (V)" and "current (A)".',
    });
  }
  const voltage = readColumn(table, voltageAt, 'voltage', 'V');
  if (!voltage.ok) return voltage;
  const current = readColumn(table, currentAt, 'current', 'A');
  if (!current.ok) return current;
  for (const { code, message, where } of [...voltage.warnings, ...current.warnings]) warnings.add(code, message, where);
  const pairs = voltage.value.flatMap((volts, at) => {
    const amperes = current.value[at];
    return volts === undefined || amperes === undefined ? [] : [{ voltage: volts, current: amperes }];
  });
  return readAs(pairs);
}

/** Traces of electronic loads and some curve tracers count the current, or both, the other way. */
function generatorSigns(pairs: readonly Pair[], warnings: WarningList): Pair[] {
  const middle = (values: number[]) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
  const currentSign = middle(pairs.map((pair) => pair.current)) < 0 ? -1 : 1;
  const voltageSign = middle(pairs.map((pair) => pair.voltage)) < 0 ? -1 : 1;
  if (currentSign < 0) warnings.add('sign', 'The currents are negative; they were turned, so that cells give current.');
  if (voltageSign < 0) warnings.add('sign of voltage', 'The voltages are negative; they were turned.');
  return pairs.map(({ voltage, current }) => ({ voltage: voltageSign * voltage, current: currentSign * current }));
}

/**
 * Reads a current-voltage trace from separated values. Conditions may stand in comment lines: `# irradiance: 850 W/m2`,
 * `# cell temperature: 41 °C`.
 * input - the file's bytes or text
 */
export function parseTrace(input: string | Uint8Array): FileOutcome<CurrentVoltageTrace> {
  const table = parseTable(input);
  if (!table.ok) return table;
  const warnings = warningList(table.warnings);
  const read = readPairs(table.value, warnings);
  if (!read.ok) return read;
  const pairs = generatorSigns(read.value, warnings).sort((a, b) => a.voltage - b.voltage);
  const largest = (of: (pair: Pair) => number) => pairs.reduce((most, pair) => Math.max(most, of(pair)), 0);
  const largestVoltage = largest((pair) => pair.voltage);
  const largestCurrent = largest((pair) => pair.current);
  const power = largest((pair) => pair.voltage * pair.current);
  if (pairs.length < fewestPoints || !(power > 0)) {
    return refused({
      code: 'no trace',
      reason:
        pairs.length < fewestPoints ? `Only ${pairs.length} points were found.` : 'No point of the trace gives power.',
      where: 'whole file',
      remedy: `Record at least ${fewestPoints} points between short and open circuit, in light.`,
    });
  }
  const rise = pairs.findIndex((pair, at) => at > 0 && pair.current > pairs[at - 1]!.current + 0.02 * largestCurrent);
  if (rise > 0) {
    warnings.add(
      'rising current',
      'The current rises with the voltage by more than 2 %: noise, or the light changed.',
      `${Number(pairs[rise]!.voltage.toPrecision(4))} V`,
    );
  }
  const irradiance = stated(table.value.comments, /^(?:irradiance|light)$/i, 'areal power');
  const cellTemperature = stated(table.value.comments, /^cell temperature$/i, 'temperature');
  return readAs(
    {
      voltage: pairs.map((pair) => pair.voltage),
      current: pairs.map((pair) => pair.current),
      ...(irradiance === undefined ? {} : { irradiance }),
      ...(cellTemperature === undefined ? {} : { cellTemperature }),
      reachesShortCircuit: pairs[0]!.voltage <= 0.05 * largestVoltage,
      reachesOpenCircuit: pairs.at(-1)!.current <= 0.05 * largestCurrent,
    },
    warnings.all(),
  );
}
