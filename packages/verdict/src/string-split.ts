import {
  CONVERTERS,
  type CompleteAircraft,
  type CompleteArray,
  type CompleteConverter,
  type CompleteRow,
  engineConverter,
  suitableTopology,
  usualConverter,
  type Valued,
} from '@noonwing/design';
import { type CellParameters, evenDiodes, sharedMaximum, stringVoltageFit } from '@noonwing/engine/array';
import { facetOfCells, type LitCell, litString, stringPoint } from '@noonwing/engine/day';
import { kindsOfCells } from './cell-sheets.js';
import { cellTrackAt } from './cell-track.js';
import type { Verdict } from './central.js';

/** What a string holds whole: the cells of a row on one half, or of a row that is not cut. */
export interface Half {
  readonly row: string;
  readonly side: CompleteRow['side'];
  /** From the root outwards, the right half first, in the cells of the array. */
  readonly cells: readonly number[];
}

/** What stands on one converter: strings in series, several side by side only where they are of equal length. */
export type Feed = readonly (readonly Half[])[];

/** Halves in strings on converters, with what these give of them in a day [J]. */
export interface StringSplit {
  readonly feeds: readonly Feed[];
  readonly energy: number;
}

/** Splits of an array into strings. */
export interface StringSplits {
  /** Most energy first. */
  readonly best: readonly StringSplit[];
  /** All cells in one string, the first thought of everybody; absent where cells are cut unlike. */
  readonly naive?: StringSplit;
}

/** Seconds between the instants at which splits are compared, and splits that are kept. */
const [comparedEvery, kept] = [3600, 4];
/** Halves of one side, beyond which there are too many ways to string them. */
const mostHalves = 6;

/** Halves of an array as its cells lie; a row whose cells are named or numbered one by one stays whole. */
export function halvesOf({ array }: CompleteAircraft, { prepared }: Pick<Verdict, 'prepared'>): readonly Half[] {
  const placed = prepared.run.array?.cells ?? [];
  const of = (row: string, side: 'right' | 'left') =>
    placed.flatMap((cell, index) => (cell.row === row && cell.side === side ? [index] : []));
  const numbered = (name: string) =>
    array?.strings.some(
      ({ rows, diodes, cracked }) => rows.includes(name) && (diodes !== undefined || cracked !== undefined),
    );
  return (array?.rows ?? []).flatMap((row): readonly Half[] => {
    const [right, left] = [of(row.name, 'right'), of(row.name, 'left')];
    if (right.length === 0 || left.length === 0) {
      return [{ row: row.name, side: row.side, cells: [...right, ...left] }];
    }
    if (row.places !== undefined || numbered(row.name) === true || right.length !== left.length)
      return [{ row: row.name, side: 'both', cells: [...right, ...left] }];
    return [
      { row: row.name, side: 'right', cells: right },
      { row: row.name, side: 'left', cells: left },
    ];
  });
}

/** Strings that are thought of: any halves of one side, the same of both, and all; as sets of halves. */
function blocksOf(halves: readonly Half[]): readonly number[] {
  const indices = (side: 'right' | 'left') => halves.flatMap((half, i) => (half.side === side ? [i] : []));
  const [right, left] = [indices('right'), indices('left')];
  const whole = halves.flatMap(({ side }, i) => (side === 'both' ? [i] : []));
  const all = 2 ** halves.length - 1;
  if (Math.max(right.length, left.length) > mostHalves || whole.length > mostHalves) {
    return [...new Set([...halves.map((_, i) => 2 ** i), all])];
  }
  const bits = (list: readonly number[], chosen: number) =>
    list.reduce((sum, index, k) => sum + ((chosen >> k) & 1) * 2 ** index, 0);
  const found = new Set<number>([all]);
  for (const list of [right, left, whole]) {
    for (let chosen = 1; chosen < 2 ** list.length; chosen++) found.add(bits(list, chosen));
  }
  if (right.length === left.length) {
    for (let chosen = 1; chosen < 2 ** right.length; chosen++) found.add(bits(right, chosen) + bits(left, chosen));
  }
  return [...found];
}

/** Ways to wire some halves to one converter: all in series; or side by side each side, each row or each half, where these are of equal length. */
function wiringsOf(halves: readonly Half[]): readonly Feed[] {
  const by = (key: (half: Half) => string): Feed =>
    [...new Set(halves.map(key))].map((name) => halves.filter((half) => key(half) === name));
  const feeds = [[halves], by(({ side }) => side), by(({ row }) => row), halves.map((half) => [half])];
  const length = (string: readonly Half[]) => string.reduce((sum, { cells }) => sum + cells.length, 0);
  return feeds.filter(
    (feed, k) =>
      feed.every((string) => length(string) === length(feed[0]!)) &&
      feeds.findIndex((other) => other.length === feed.length && sameStrings(other, feed)) === k,
  );
}

const sameStrings = (a: Feed, b: Feed): boolean =>
  a.every((string, k) => string.length === b[k]!.length && string.every((half, i) => half === b[k]![i]));

/**
 * The best ways to share the cells of a verdict out over strings and these over converters, by the energy of the first day under one
 * sky: whatever is thought of for one converter is computed cell by cell once, then the best sum over all partitions is found.
 *
 * @param skyIndex - of its skies
 * @returns undefined where no cells are placed one by one or it cannot fly
 */
export function stringSplits(verdict: Verdict, skyIndex: number): StringSplits | undefined {
  const { complete } = verdict.prepared.model;
  const energyOf = stringEnergy(verdict, skyIndex);
  if (energyOf === undefined) return undefined;
  const halves = halvesOf(complete, verdict);
  const all = 2 ** halves.length - 1;
  const made = (set: number) => halves.filter((_, i) => (set >> i) & 1);
  const blocks = blocksOf(halves).flatMap((set) =>
    wiringsOf(made(set)).flatMap((feed): readonly Block[] => {
      const energy = energyOf(feed);
      return energy === undefined ? [] : [{ set, feed, energy }];
    }),
  );
  const whole = blocks.find(({ set, feed }) => set === all && feed.length === 1);
  return {
    best: bestPartitions(blocks, all),
    ...(whole === undefined ? {} : { naive: { feeds: [[halves]], energy: whole.energy } }),
  };
}

/** What one converter may get: a set of halves, wired in one way. */
interface Block {
  readonly set: number;
  readonly feed: Feed;
  readonly energy: number;
}

/** The few best partitions of all halves into sets; the next set always holds the first half that is left. */
function bestPartitions(blocks: readonly Block[], all: number): readonly StringSplit[] {
  const known = new Map<number, readonly StringSplit[]>([[0, [{ feeds: [], energy: 0 }]]]);
  const of = (left: number): readonly StringSplit[] => {
    const found = known.get(left);
    if (found !== undefined) return found;
    const first = left & -left;
    const made = blocks
      .filter(({ set }) => (set & first) !== 0 && (set & ~left) === 0)
      .flatMap(({ set, feed, energy }) =>
        of(left & ~set).map((rest): StringSplit => ({ feeds: [feed, ...rest.feeds], energy: energy + rest.energy })),
      )
      .sort((a, b) => b.energy - a.energy)
      .slice(0, kept);
    known.set(left, made);
    return made;
  };
  return of(all);
}

/** What a converter of some strings of halves gives in the first day [J]; undefined where its cells are cut unlike or no converter takes them. */
function stringEnergy(verdict: Verdict, skyIndex: number) {
  const { prepared, grid, courses } = verdict;
  const { array } = prepared.run;
  const course = courses[skyIndex];
  const design = prepared.model.complete.array;
  if (array?.cells === undefined || course === undefined || design === undefined) return undefined;
  const { cells } = array;
  const step = grid.times[1]! - grid.times[0]!;
  const stride = Math.max(1, Math.round(comparedEvery / step));
  const at = Array.from({ length: Math.floor(grid.stepsPerDay / stride) }, (_, i) => i * stride).filter(
    (i) => grid.sun.up[i]! > 0,
  );
  const track = cellTrackAt(verdict, course, at);
  if (track === undefined) return undefined;
  const { effective, headingCount } = track;
  const [kinds, facetOf, facets] = [kindsOfCells(array), facetOfCells(array), array.facets.length];
  const perDiode = design.strings[0]?.cellsPerDiode ?? 0;
  return (feed: Feed): number | undefined => {
    const members = feed.map(wired);
    const all = members.flat();
    const share = cells[all[0] ?? 0]?.share;
    if (all.length === 0 || all.some((cell) => cells[cell]!.share !== share)) return undefined;
    const length = members[0]!.length;
    const string = { cell: kinds[all[0]!]!, diodes: evenDiodes(length, perDiode, 0.5) };
    const resistance = design.jointResistance.value * length + design.wiringResistance.value;
    const give = converterOf(prepared, string.cell, length, all.length * (share ?? 1));
    if (give === undefined) return undefined;
    let energy = 0;
    for (const [k, instant] of at.entries()) {
      let power = 0;
      for (let h = 0; h < headingCount; h++) {
        const row = (k * headingCount + h) * cells.length;
        const lit = (cell: number): LitCell => ({
          count: 1,
          irradiance: effective[row + cell]! * array.lightFactor,
          temperature: course.temperature[instant * facets + facetOf[cell]!]!,
          condition: undefined,
        });
        power += powerOf(
          string,
          members.map((order) => order.map(lit)),
          resistance,
        );
      }
      energy += Math.max(0, give(power / headingCount)) * stride * step;
    }
    return energy;
  };
}

/** Greatest power of strings side by side, less the heat of their leads [W]. */
function powerOf(
  string: Parameters<typeof stringPoint>[0],
  members: readonly (readonly LitCell[])[],
  seriesResistance: number,
): number {
  if (members.length > 1) {
    const strings = members.map((lit) => ({ substrings: litString(string, lit), seriesResistance }));
    return sharedMaximum([{ strings }]).maximum.power;
  }
  const point = stringPoint(string, members[0]!);
  const current = point.voltage > 0 ? point.power / point.voltage : 0;
  return point.power - seriesResistance * current ** 2;
}

/** Order of the cells of some halves along their string: outwards to inwards, over to the other half, and back along the next row. */
function wired(halves: readonly Half[]): readonly number[] {
  const rows = [...new Set(halves.map(({ row }) => row))];
  return rows.flatMap((name, n) => {
    const own = halves.filter(({ row }) => row === name);
    const along = own.flatMap(({ side, cells }) => (side === 'left' ? cells : [...cells].reverse()));
    return n % 2 === 0 ? along : along.reverse();
  });
}

/** What a converter that such a string would get gives by its input [W]; undefined where no string so long can feed the battery. */
function converterOf({ model, plan }: Verdict['prepared'], cell: CellParameters, cells: number, wholeCells: number) {
  const { array, battery } = model.complete;
  const sheet = sheetFor(array!, battery, cells, wholeCells);
  const { lowestVoltage, highestVoltage, nominalVoltage } = model.battery;
  if (highestVoltage > 0) {
    const fit = stringVoltageFit({
      string: { cell, count: cells },
      converter: engineConverter(sheet, nominalVoltage),
      batteryVoltageRange: { minimum: lowestVoltage, maximum: highestVoltage },
      temperatures: { coldest: plan.nightTemperature.value, hottest: plan.temperature.value + 35 },
    });
    if (!fit.ok) return undefined;
  }
  const share = sheet.efficiency.value * sheet.trackingEfficiency.value;
  return (input: number): number => share * input - sheet.standbyPower.value;
}

/** Converter like one of the design that suits a string, or the usual one of the library, as large as it needs to be. */
function sheetFor(
  { cell, converters }: CompleteArray,
  battery: CompleteAircraft['battery'],
  cells: number,
  wholeCells: number,
): CompleteConverter {
  const topology = suitableTopology(cells, cell, battery);
  const own = converters.find((one) => one.topology === topology);
  if (own !== undefined) return own;
  const power = wholeCells * cell.maximumPowerCurrent.value * cell.maximumPowerVoltage.value;
  const sheet = CONVERTERS[usualConverter(topology, power)];
  const assumed = (value: number): Valued => ({ value, source: 'assumed' });
  return {
    name: topology,
    topology,
    efficiency: assumed(sheet.efficiency.value),
    trackingEfficiency: assumed(sheet.trackingEfficiency.value),
    standbyPower: assumed(sheet.standbyPower.value),
    ratedPower: assumed(Math.max(sheet.ratedPower, 1.1 * power)),
    outputCurrentLimit: assumed(sheet.outputCurrentLimit),
    inputVoltageLow: assumed(sheet.inputVoltageLow),
    inputVoltageHigh: assumed(Math.max(sheet.inputVoltageHigh, 1.1 * cells * cell.openCircuitVoltage.value)),
    mass: assumed(sheet.mass.value),
  };
}
