import { type Outcome, problem, success, type Warning } from '../result.js';
import { openCircuitVoltage } from './cell.js';
import { type Converter, inputWindow, type Topology } from './converter.js';
import { maximumPowerPoint } from './maximum.js';
import { type CellParameters, cellAt } from './translate.js';

/** What is asked of a string and its converter. */
export interface StringVoltageQuestion {
  readonly string: { readonly cell: CellParameters; readonly count: number };
  readonly converter: Converter;
  /** At the battery terminals, empty and full [V]. */
  readonly batteryVoltageRange: { readonly minimum: number; readonly maximum: number };
  /** Cell temperatures between which the day lies [K]: coldest in full sun, hottest in full sun. */
  readonly temperatures: { readonly coldest: number; readonly hottest: number };
  /** Irradiance of low light [W/m2], default 200; full light is 1000. */
  readonly lowIrradiance?: number;
}

/** Voltages of one cell at the corners of its range [V]. */
interface CellVoltages {
  readonly openHighest: number;
  readonly powerHighest: number;
  readonly powerLowest: number;
}

/** How a string's voltage meets its battery through a converter. */
export interface StringVoltageFit {
  /** Whether the converter works at maximum power over the whole range, or only over part of it. */
  readonly fit: 'always' | 'part of the range';
  /** Of the string, cold and in full light [V]. */
  readonly openCircuitVoltageHighest: number;
  /** Of the string at maximum power: cold, and the lower of hot or low light [V]. */
  readonly maximumPowerVoltage: { readonly lowest: number; readonly highest: number };
  /** Input window with the battery empty and full [V]. */
  readonly window: { readonly empty: { low: number; high: number }; readonly full: { low: number; high: number } };
  /** Counts of cells in series that work over the whole range; absent where there are none. */
  readonly cellCounts?: { readonly fewest: number; readonly most: number };
}

/** Voltages of one cell over the range of temperature and light. */
function cellVoltages(question: StringVoltageQuestion): CellVoltages {
  const { cell } = question.string;
  const { coldest, hottest } = question.temperatures;
  const cold = cellAt(cell, { irradiance: 1000, temperature: coldest });
  const hot = cellAt(cell, { irradiance: 1000, temperature: hottest });
  const dim = cellAt(cell, { irradiance: question.lowIrradiance ?? 200, temperature: coldest });
  return {
    openHighest: openCircuitVoltage(cold),
    powerHighest: maximumPowerPoint(cold).voltage,
    powerLowest: Math.min(maximumPowerPoint(hot).voltage, maximumPowerPoint(dim).voltage),
  };
}

/** Counts of cells in series that work with a converter over the whole range. */
function workingCounts(
  voltages: CellVoltages,
  converter: Converter,
  battery: StringVoltageQuestion['batteryVoltageRange'],
): { readonly fewest: number; readonly most: number } | undefined {
  const full = inputWindow(converter, battery.maximum);
  const empty = inputWindow(converter, battery.minimum);
  const rating = converter.limits.maximumInputVoltage ?? Number.MAX_VALUE;
  const fewest = Math.max(Math.ceil(full.low / voltages.powerLowest), 1);
  // A boost converter must keep authority: even open circuit in the cold stays below the empty battery.
  const byTopology: Readonly<Record<Topology, number>> = {
    boost: battery.minimum / voltages.openHighest,
    buck: empty.high / voltages.powerHighest,
    'buck-boost': empty.high / voltages.powerHighest,
    // Beyond twice the battery's voltage a direct connection gives away more than half of the power.
    direct: (2 * battery.maximum) / voltages.powerHighest,
  };
  const most = Math.floor(Math.min(byTopology[converter.topology], rating / voltages.openHighest));
  return most >= fewest ? { fewest, most } : undefined;
}

/** Plain advice: the nearest count of cells that works, else another topology that works with this count. */
function nearestRemedy(question: StringVoltageQuestion, voltages: CellVoltages): string {
  const { converter, batteryVoltageRange: battery } = question;
  const { count } = question.string;
  const counts = workingCounts(voltages, converter, battery);
  const parts: string[] = [];
  if (counts !== undefined) {
    const nearest = Math.min(Math.max(count, counts.fewest), counts.most);
    const change = nearest - count;
    const verb = change > 0 ? 'add' : 'remove';
    const means = converter.topology === 'direct' ? 'direct connection' : `${converter.topology} converter`;
    const cells = Math.abs(change) === 1 ? 'cell' : 'cells';
    if (change !== 0) parts.push(`${verb} ${Math.abs(change)} ${cells} in series (${nearest} with this ${means})`);
  }
  const others: readonly Topology[] = ['boost', 'buck', 'buck-boost'];
  const working = others.filter((topology) => {
    if (topology === converter.topology) return false;
    const range = workingCounts(voltages, { ...converter, topology }, battery);
    return range !== undefined && count >= range.fewest && count <= range.most;
  });
  if (working.length > 0) parts.push(`use a ${working.join(' or ')} converter with these ${count} cells`);
  return parts.length > 0 ? parts.join(', or ') : 'choose a battery with another number of cells in series';
}

const volts = (value: number): string => `${value.toFixed(1)} V`;

/** Problem of a question that cannot be asked. */
function questionProblem(question: StringVoltageQuestion): ReturnType<typeof problem> | undefined {
  const { batteryVoltageRange: battery, temperatures, string } = question;
  const ordered = battery.minimum > 0 && battery.maximum >= battery.minimum && string.count >= 1;
  if (ordered && temperatures.hottest >= temperatures.coldest && temperatures.coldest > 0) return undefined;
  return problem({
    code: 'string-question',
    reason: 'a string needs at least one cell, a battery voltage above zero, and ranges given from low to high',
    where: 'string',
    remedy: 'check the number of cells, the battery voltages (empty, full) and the temperatures (coldest, hottest)',
  });
}

/** Warnings of a string that works over part of the range only, or exceeds a rating. */
function fitWarnings(
  question: StringVoltageQuestion,
  voltages: CellVoltages,
  fit: StringVoltageFit['fit'],
): readonly Warning[] {
  const { converter, batteryVoltageRange: battery } = question;
  const { count } = question.string;
  const warnings: Warning[] = [];
  const open = voltages.openHighest * count;
  const rating = converter.limits.maximumInputVoltage;
  if (rating !== undefined && open > rating) {
    warnings.push({
      code: 'string-above-input-rating',
      message: `cold open-circuit voltage ${volts(open)} exceeds the converter's input rating of ${volts(rating)}`,
      where: 'string',
    });
  }
  if (converter.topology === 'boost' && open >= battery.minimum) {
    warnings.push({
      code: 'string-feeds-through',
      message: `cold open-circuit voltage ${volts(open)} reaches the empty battery (${volts(battery.minimum)}): the boost converter cannot hold back the current then`,
      where: 'string',
    });
  }
  if (fit !== 'always') {
    warnings.push({
      code: 'string-fits-part-of-range',
      message: `the ${converter.topology === 'direct' ? 'direct connection' : `${converter.topology} converter`} suits part of the range only; ${nearestRemedy(question, voltages)}`,
      where: 'string',
    });
  }
  return warnings;
}

/**
 * Whether a string's voltage fits its battery through its converter over the temperatures of the day.
 *
 * @param question - cell and count, converter, battery voltages empty and full [V], cell temperatures [K]
 * @returns how it fits, with warnings; a problem where the string can never feed the battery under control: for buck
 *   and direct its highest open-circuit voltage stays below what the empty battery needs, for boost its lowest voltage
 *   at maximum power lies above the full battery
 * Source: ideal voltage ratios of the topologies; headroom 1.05 times and 0.3 V: common practice, no source.
 */
export function stringVoltageFit(question: StringVoltageQuestion): Outcome<StringVoltageFit> {
  const wrong = questionProblem(question);
  if (wrong !== undefined) return wrong;
  const { converter, batteryVoltageRange: battery } = question;
  const { count } = question.string;
  const voltages = cellVoltages(question);
  const window = { empty: inputWindow(converter, battery.minimum), full: inputWindow(converter, battery.maximum) };
  const lowest = voltages.powerLowest * count;
  const highest = voltages.powerHighest * count;
  const open = voltages.openHighest * count;
  const never = (relation: string): Outcome<StringVoltageFit> =>
    problem({
      code: 'string-voltage-never-fits',
      reason: `this string can never feed the battery with this converter: ${relation}`,
      where: 'string',
      remedy: nearestRemedy(question, voltages),
    });
  if (open <= window.empty.low) {
    return never(
      `${count} cells give at most ${volts(open)}, and the ${converter.topology === 'direct' ? 'direct connection' : `${converter.topology} converter`} needs more than ${volts(window.empty.low)} even with the battery empty (${volts(battery.minimum)})`,
    );
  }
  const ceiling = converter.topology === 'boost' ? Math.min(battery.maximum, window.full.high) : window.full.high;
  if (converter.topology !== 'direct' && lowest > ceiling) {
    return never(
      `${count} cells give at least ${volts(lowest)} at maximum power, and the ${converter.topology} converter can work up to ${volts(ceiling)} only, even with the battery full (${volts(battery.maximum)})`,
    );
  }
  const cellCounts = workingCounts(voltages, converter, battery);
  const inside = cellCounts !== undefined && count >= cellCounts.fewest && count <= cellCounts.most;
  const fit = inside ? 'always' : 'part of the range';
  const value: StringVoltageFit = {
    fit,
    openCircuitVoltageHighest: open,
    maximumPowerVoltage: { lowest, highest },
    window,
    ...(cellCounts === undefined ? {} : { cellCounts }),
  };
  return success(value, fitWarnings(question, voltages, fit));
}
