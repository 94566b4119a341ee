import type { DiodeCurve } from './cell.js';
import { openCircuitVoltage } from './cell.js';
import type { Bypass, CellGroup, SeriesString, Substring } from './string.js';
import { type CellParameters, cellAt } from './translate.js';

/** What is wrong with one cell, or how it differs from its fellows. */
export interface CellCondition {
  /** Share of its area that a crack has cut off: gives neither current nor contact, 0 to below 1. */
  readonly lostArea?: number;
  /** Series resistance that lost fingers, a torn tab or a bad joint add [ohm]. */
  readonly contactResistance?: number;
  /** Current and voltage relative to the nominal cell of its bin, default 1. */
  readonly currentFactor?: number;
  readonly voltageFactor?: number;
}

/** One cell of a string under its own light. */
export interface StringCell extends CellCondition {
  /** Effective irradiance [W/m2]. */
  readonly irradiance: number;
  /** Of the cell [K]. */
  readonly temperature: number;
}

/** A bypass diode across neighbouring cells. */
export interface BypassSpan extends Bypass {
  /** First cell that it spans, from 0. */
  readonly from: number;
  /** First cell after it. */
  readonly to: number;
}

/** How cells in series are wired; their light is not part of it. */
export interface StringWiring {
  readonly cell: CellParameters;
  /** Diodes where the builder put them, in the order of the cells, without overlap. */
  readonly diodes?: readonly BypassSpan[];
  /** Tabs, joints, connectors and wires of the string [ohm]; `stringLeadResistance` adds them up. */
  readonly seriesResistance: number;
}

/**
 * Curve of a cell with its damage and its place in the bin.
 *
 * @param curve - the sound cell at its light and temperature
 * @param condition - lost area scales photocurrent, saturation current and both conductances; lost contact adds series
 *   resistance; the factors of the bin scale photocurrent and, by the saturation current, the open-circuit voltage
 * @returns the curve; an open cell (all area lost) keeps a millionth of its area
 * Source: cells of equal material in parallel add their currents; open-circuit voltage a ln(IL / I0).
 */
export function conditionedCurve(curve: DiodeCurve, condition: CellCondition): DiodeCurve {
  const { lostArea = 0, contactResistance = 0, currentFactor = 1, voltageFactor = 1 } = condition;
  const left = Math.max(1 - lostArea, 1e-6);
  const shift = (voltageFactor - 1) * openCircuitVoltage(curve);
  return {
    ...curve,
    photocurrent: curve.photocurrent * left * currentFactor,
    saturationCurrent: curve.saturationCurrent * left * currentFactor * Math.exp(-shift / curve.modifiedIdeality),
    seriesResistance: curve.seriesResistance / left + contactResistance,
    shuntResistance: curve.shuntResistance / left,
  };
}

/** Whether a cell is as its data sheet says. */
const isSound = (cell: StringCell): boolean =>
  cell.lostArea === undefined &&
  cell.contactResistance === undefined &&
  cell.currentFactor === undefined &&
  cell.voltageFactor === undefined;

/** Relative difference of light, and difference of temperature [K], below which neighbours share one curve. */
const likeLight = 5e-4;
const likeTemperature = 0.25;

const alike = (a: StringCell, b: StringCell): boolean =>
  Math.abs(a.irradiance - b.irradiance) <= likeLight * Math.max(a.irradiance, b.irradiance) &&
  Math.abs(a.temperature - b.temperature) <= likeTemperature &&
  a.lostArea === b.lostArea &&
  a.contactResistance === b.contactResistance &&
  a.currentFactor === b.currentFactor &&
  a.voltageFactor === b.voltageFactor;

/** Cells from one index to another as groups; cells of one condition in like light become one group with their mean light. */
function groupsBetween(
  wiring: StringWiring,
  cells: readonly StringCell[],
  from: number,
  to: number,
): readonly CellGroup[] {
  const gathered: { count: number; first: StringCell; light: number; heat: number }[] = [];
  for (let k = from; k < to; k++) {
    const next = cells[k]!;
    const known = gathered.find(({ first }) => alike(first, next));
    if (known === undefined) gathered.push({ count: 1, first: next, light: next.irradiance, heat: next.temperature });
    else {
      known.count += 1;
      known.light += next.irradiance;
      known.heat += next.temperature;
    }
  }
  return gathered.map(({ count, first, light, heat }) => {
    const curve = cellAt(wiring.cell, { irradiance: light / count, temperature: heat / count });
    return { count, curve: isSound(first) ? curve : conditionedCurve(curve, first) };
  });
}

/**
 * String of cells that each have their own light, temperature and damage, with diodes where the builder put them.
 *
 * @param wiring - kind of cell, diodes, resistance beside the cells
 * @param cells - every cell in the order of the wiring
 * @returns the string; cells that no diode spans stand free in it. Neighbours whose light differs by less than 0.05 %
 *   share one curve, which moves the greatest power by less than 1e-4
 * @throws RangeError where a diode spans no cell, overlaps another or reaches beyond the string
 */
export function cellString(wiring: StringWiring, cells: readonly StringCell[]): SeriesString {
  const groups = (from: number, to: number) => groupsBetween(wiring, cells, from, to);
  return {
    substrings: spannedSubstrings(cells.length, wiring.diodes ?? [], groups),
    seriesResistance: wiring.seriesResistance,
  };
}

/**
 * The parts of a string between the ends of its diodes, those that no diode spans included.
 *
 * @param count - cells of the string
 * @param groups - of the cells from one index up to another
 * @throws RangeError where a diode spans no cell, overlaps another or reaches beyond the string
 */
export function spannedSubstrings(
  count: number,
  diodes: readonly BypassSpan[],
  groups: (from: number, to: number) => readonly CellGroup[],
): readonly Substring[] {
  const substrings: Substring[] = [];
  let next = 0;
  for (const { from, to, forwardVoltage } of diodes) {
    if (!(from >= next && to > from && to <= count)) {
      throw new RangeError(`a bypass diode from cell ${from} to ${to} does not fit a string of ${count}`);
    }
    if (from > next) substrings.push({ groups: groups(next, from) });
    substrings.push({ groups: groups(from, to), bypass: { forwardVoltage } });
    next = to;
  }
  if (next < count) substrings.push({ groups: groups(next, count) });
  return substrings;
}

/**
 * Diodes that each span so many cells, the last one perhaps fewer.
 *
 * @param count - cells of the string
 * @param span - cells per diode
 * @param forwardVoltage - [V]
 */
export function evenDiodes(count: number, span: number, forwardVoltage = 0.5): readonly BypassSpan[] {
  if (!(span >= 1)) return [];
  return Array.from({ length: Math.ceil(count / span) }, (_, k) => ({
    from: k * span,
    to: Math.min((k + 1) * span, count),
    forwardVoltage,
  }));
}

/**
 * Most cells that a bypass diode can guard: the cells in good light must not drive a dark one to its breakdown before
 * the diode takes over.
 *
 * @param cell - with breakdown data
 * @param coldest - cell temperature in full sun [K]
 * @param forwardVoltage - of the diode [V]
 * @returns count of cells, the dark one included; undefined where no breakdown voltage is known
 * Source: the sum of voltages around the diode: (n - 1) V of the lit cells + forward voltage < breakdown voltage.
 */
export function mostCellsPerDiode(cell: CellParameters, coldest: number, forwardVoltage = 0.5): number | undefined {
  if (cell.breakdown === undefined) return undefined;
  const lit = openCircuitVoltage(cellAt(cell, { irradiance: 1000, temperature: coldest }));
  return Math.max(1, 1 + Math.floor((-cell.breakdown.voltage - forwardVoltage) / lit));
}

/**
 * Cells of one bin: current and voltage drawn about the nominal cell.
 *
 * @param count - cells
 * @param spread.current, spread.voltage - relative standard deviations (sorted cells about 0.01 and 0.003, unsorted 0.03
 *   and 0.007; common practice, no source)
 * @param normal - gives the next standard normal number; repeats exactly with the same seed
 * @returns factors of each cell
 */
export function binnedCells(
  count: number,
  spread: { readonly current: number; readonly voltage: number },
  normal: () => number,
): readonly Required<Pick<CellCondition, 'currentFactor' | 'voltageFactor'>>[] {
  return Array.from({ length: count }, () => ({
    currentFactor: Math.max(1 + spread.current * normal(), 0.01),
    voltageFactor: Math.max(1 + spread.voltage * normal(), 0.01),
  }));
}
