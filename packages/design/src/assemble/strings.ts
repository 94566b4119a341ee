import { type Outcome, problem, success } from '@noonwing/engine';
import {
  type BypassSpan,
  backContactBreakdown,
  type CellCondition,
  type CellParameters,
  evenDiodes,
  fitFourParameters,
  frontContactBreakdown,
  type ReverseBreakdown,
} from '@noonwing/engine/array';
import type { ArrayGroup, ArrayString } from '@noonwing/engine/day';
import type { CompleteArray, CompleteCell, CompleteRow, CompleteString } from '../complete/index.js';
import { type AssembledCells, rowKey } from './cells.js';

/** Single-diode cell from a data sheet, ideality 1.05: the temperature coefficient alone would drive it below 1. */
export function cellParameters(sheet: CompleteCell): Outcome<CellParameters> {
  return fitFourParameters({
    shortCircuitCurrent: sheet.shortCircuitCurrent.value,
    openCircuitVoltage: sheet.openCircuitVoltage.value,
    maximumPowerCurrent: sheet.maximumPowerCurrent.value,
    maximumPowerVoltage: sheet.maximumPowerVoltage.value,
    currentTemperatureCoefficient: sheet.currentCoefficient.value,
    voltageTemperatureCoefficient: sheet.voltageCoefficient.value,
    cellsInSeries: 1,
    area: sheet.area.value,
  });
}

/** One of some equal pieces of a cell: its share of current and area, the edge loss on the current at maximum power. */
function cutSheet(sheet: CompleteCell, pieces: number): CompleteCell {
  if (pieces === 1) return sheet;
  const part = <T extends { readonly value: number }>(of: T, factor = 1): T => ({
    ...of,
    value: (of.value * factor) / pieces,
  });
  return {
    ...sheet,
    area: part(sheet.area),
    shortCircuitCurrent: part(sheet.shortCircuitCurrent),
    maximumPowerCurrent: part(sheet.maximumPowerCurrent, 1 - (sheet.edgeLoss?.value ?? 0)),
    currentCoefficient: part(sheet.currentCoefficient),
  };
}

/**
 * Strings of a completed array with their cells, diodes and damage.
 *
 * @param groupsOfRow - cells of each row by facet
 * @param facetOf - facet after merging, by facet before
 * @param placed - cells one by one, where the shape is known
 */
export function assembleStrings(
  design: CompleteArray,
  groupsOfRow: ReadonlyMap<string, readonly ArrayGroup[]>,
  facetOf: readonly number[],
  placed: AssembledCells | undefined,
): Outcome<readonly ArrayString[]> {
  const strings: ArrayString[] = [];
  for (const string of design.strings) {
    const { name, rows, parallel } = string;
    const groups = gathered(rows, groupsOfRow, facetOf);
    const cells = groups.reduce((sum, group) => sum + group.count, 0);
    if (cells === 0 || cells % parallel !== 0) return unequalSplit(name, cells, parallel);
    const kind = cellOfString(design, string);
    if (!kind.ok) return kind;
    strings.push({
      name,
      cell: kind.value,
      groups: groups.map((group) => ({ ...group, count: group.count / parallel })),
      parallel,
      seriesResistance: (design.jointResistance.value * cells) / parallel + design.wiringResistance.value,
      converter: design.converters.findIndex((candidate) => candidate.name === string.converter),
      ...wiringOf(string, cells / parallel),
      ...(placed === undefined ? {} : { members: wiredCells(rows, parallel, placed) }),
    });
  }
  return success(strings);
}

const unequalSplit = (name: string, cells: number, parallel: number) =>
  problem({
    code: 'string-split',
    reason: `${cells} cells do not split into ${parallel} equal strings`,
    where: `array.strings.${name}`,
    remedy: `change the number of cells to ${Math.max(1, Math.round(cells / parallel)) * parallel}, or the number of strings`,
  });

/** Kind of cell of a string: all its rows are cut alike, since the smallest piece sets the current. */
function cellOfString({ rows, cell }: CompleteArray, string: CompleteString): Outcome<CellParameters> {
  const cuts = rows.filter(({ name }) => string.rows.includes(name)).map(({ pieces }: CompleteRow) => pieces);
  const pieces = cuts[0] ?? 1;
  if (cuts.some((other) => other !== pieces)) {
    return problem({
      code: 'string-pieces',
      reason: 'whole cells and pieces in series: the smallest piece holds all of them to its current',
      where: `array.strings.${string.name}`,
      remedy: 'cut the cells of all its rows alike, or give each cut a string of its own',
    });
  }
  const fitted = cellParameters(cutSheet(cell, pieces));
  if (!fitted.ok) return { ...fitted, where: 'array.cell' };
  return success({ ...fitted.value, breakdown: breakdownOf(cell) });
}

/** Schottky bypass diodes (common practice, no source) [V]. */
const bypassVoltage = 0.5;

/** Diodes and damage of a string of so many cells. */
function wiringOf(
  string: CompleteString,
  cells: number,
): Pick<ArrayString, 'cellsPerDiode' | 'diodes' | 'blockingVoltage' | 'conditions'> {
  const { cellsPerDiode = 0, blockingDiode, cracked } = string;
  const stated = string.diodes?.map(
    ({ from, to }): BypassSpan => ({ from: from - 1, to, forwardVoltage: bypassVoltage }),
  );
  const diodes = stated ?? evenDiodes(cells, cellsPerDiode, bypassVoltage);
  const widest = diodes.reduce((most, { from, to }) => Math.max(most, to - from), 0);
  return {
    cellsPerDiode: widest,
    ...(diodes.length === 0 ? {} : { diodes }),
    ...(blockingDiode === undefined ? {} : { blockingVoltage: blockingDiode.value }),
    ...(cracked === undefined ? {} : { conditions: conditionsOf(cracked) }),
  };
}

/** Damage by number of the cell along the wiring, from 0. */
const conditionsOf = (cracked: NonNullable<CompleteString['cracked']>): ReadonlyMap<number, CellCondition> =>
  new Map(cracked.map(({ cell, lostArea, contactResistance }) => [cell - 1, { lostArea, contactResistance }]));

/**
 * Cells of a string in the order in which they are wired: along a row from the right tip to the left one and back along the
 * next, or along its lower face (common practice, no source), then cut into the parallel strings.
 */
function wiredCells(rows: readonly string[], parallel: number, { byRow }: AssembledCells): readonly number[][] {
  const passes = rows
    .flatMap((row) =>
      (['upper', 'lower'] as const).map((face) => [
        ...[...(byRow.get(rowKey(row, 'right', face)) ?? [])].reverse(),
        ...(byRow.get(rowKey(row, 'left', face)) ?? []),
      ]),
    )
    .filter((along) => along.length > 0);
  const order = passes.flatMap((along, n) => (n % 2 === 0 ? along : along.reverse()));
  const each = order.length / parallel;
  return Array.from({ length: parallel }, (_, k) => order.slice(k * each, (k + 1) * each));
}

/** Front-contact wafers break down far later than back-contact ones; thin film is taken like the latter. */
const breakdownOf = (sheet: CompleteCell): ReverseBreakdown =>
  sheet.like?.startsWith('front-contact') === true ? frontContactBreakdown : backContactBreakdown;

/** Cells of some rows by facet. */
function gathered(
  rows: readonly string[],
  groupsOfRow: ReadonlyMap<string, readonly ArrayGroup[]>,
  facetOf: readonly number[],
): ArrayGroup[] {
  const counts = new Map<number, number>();
  for (const row of rows) {
    for (const { facet: index, count } of groupsOfRow.get(row) ?? []) {
      const merged = facetOf[index]!;
      counts.set(merged, (counts.get(merged) ?? 0) + count);
    }
  }
  return [...counts].map(([index, count]) => ({ facet: index, count }));
}
