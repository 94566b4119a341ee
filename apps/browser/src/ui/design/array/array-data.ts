import {
  type CellPictureData,
  cellPictureData,
  hourText,
  type LedgerData,
  type ShadeCourseData,
  type StringCurveData,
} from '@noonwing/drawing';
import type { ArrayCellView, ArrayView } from '../../../core/view-array-types.js';

const wattHour = 3600;

/** "cell 3 of row top, left side"; the side only where the row has both. */
export function cellName({ cells }: Pick<ArrayView, 'cells'>, { row, side, place }: ArrayCellView): string {
  const both = cells.some((other) => other.row === row && other.side !== side);
  return `cell ${place + 1} of row "${row}"${both ? `, ${side} side` : ''}`;
}

/** "12:30, heading 90°". */
export const instantWords = ({ hour, heading }: Pick<ArrayView, 'hour' | 'heading'>): string =>
  `at ${hourText(hour)}, heading ${Math.round((heading * 180) / Math.PI)}°`;

export type Shown = 'day' | 'hour';

/** Cells of a string that conducting diodes take out at the hour. */
export function bypassedCells({ cells, strings, now }: ArrayView): readonly number[] {
  return (now?.strings ?? []).flatMap(({ conducting }, string) => {
    const { cells: length, diodes } = strings[string]!;
    return conducting.flatMap((numbers, parallel) => {
      const spans = numbers.flatMap((number) => diodes[number - 1] ?? []);
      return cells.flatMap((cell, c) => {
        if (cell.string !== string || Math.floor(cell.position! / length) !== parallel) return [];
        const place = cell.position! % length;
        return spans.some(({ from, to }) => place >= from && place < to) ? [c] : [];
      });
    });
  });
}

/** The picture of the cells: energy of the day, or light at the hour. */
export function pictureData(
  view: ArrayView,
  shown: Shown,
  { selected, marked }: { readonly selected?: number; readonly marked: readonly number[] },
): CellPictureData {
  const { now } = view;
  const at = shown === 'hour' && now !== undefined;
  return cellPictureData({
    aircraft: view.aircraft,
    when: at ? `under a ${view.sky} sky ${instantWords(view)}` : `over the day under a ${view.sky} sky`,
    value: at ? { label: 'light', unit: 'W/m2', decimals: 0 } : { label: 'energy', unit: 'Wh', decimals: 1 },
    faces: view.sheets,
    values: at ? now.cells.map(({ light }) => light) : view.cells.map(({ electricity }) => electricity / wattHour),
    marked,
    bypassed: at ? bypassedCells(view) : [],
    strings: view.strings,
    ...(selected === undefined ? {} : { selected }),
  });
}

/** What takes direct light from a cell at the hour, in words. */
export function shadeWords(view: ArrayView, cell: number): string {
  const now = view.now?.cells[cell];
  if (now === undefined) return 'not known';
  const takers = view.casters
    .map(({ name, shares }) => ({ name, share: shares[cell]! }))
    .filter(({ share }) => share > 0.005)
    .sort((a, b) => b.share - a.share);
  if (takers.length > 0) {
    return takers.map(({ name, share }) => `${name} takes ${Math.round(100 * share)} % of the direct light`).join(', ');
  }
  if (now.shadedBeam > 0.995) return now.light > 0 ? 'it looks away from the sun' : 'the sun is down';
  return 'nothing';
}

/** Shade through the day by what casts it, on the array or on one cell: share of the direct light [%]. */
export function shadeData(view: ArrayView, cell: number | undefined, cursor: number | undefined): ShadeCourseData {
  const { shade, cells } = view;
  const of = cell === undefined ? 'on the whole array' : `on ${cellName(view, cells[cell]!)}`;
  const when = `${of}, mean over the headings flown:`;
  if (shade === undefined) return { when, curves: [] };
  const chosen = cell === undefined ? cells.map((_, c) => c) : [cell];
  const sum = (values: Float64Array, i: number) =>
    chosen.reduce((total, c) => total + cells[c]!.area * values[i * cells.length + c]!, 0);
  const lit = shade.hours.flatMap((hour, i) => (sum(shade.open, i) > 0 ? [{ hour, i }] : []));
  const casters = shade.casters
    .map(({ name, taken }) => ({
      name,
      points: lit.map(({ hour, i }) => [hour, (100 * sum(taken, i)) / sum(shade.open, i)] as const),
    }))
    .filter(({ points }) => points.some(([, share]) => share > 0.05))
    .sort((a, b) => mostOf(b.points) - mostOf(a.points));
  const all = {
    id: 'all',
    label: 'all together',
    points: lit.map(({ hour }, k) => [hour, totalAt(casters, k)] as const),
  };
  const curves = [
    ...(casters.length === 1 ? [] : [all]),
    ...casters.slice(0, 3).map((one) => ({ id: one.name, label: one.name, points: one.points })),
  ];
  return { when, curves, ...(cursor === undefined ? {} : { cursor }) };
}

type Line = readonly (readonly [number, number])[];
const mostOf = (points: Line): number => Math.max(0, ...points.map(([, share]) => share));
const totalAt = (casters: readonly { readonly points: Line }[], k: number): number =>
  casters.reduce((sum, { points }) => sum + points[k]![1], 0);

/** Curve of a string at the hour. */
export function curveData(view: ArrayView, string: number): StringCurveData | undefined {
  const now = view.now?.strings[string];
  if (now === undefined) return undefined;
  return {
    name: now.name,
    when: instantWords(view),
    points: Array.from(now.voltage, (voltage, k) => ({ voltage, current: now.current[k]!, power: now.power[k]! })),
    maxima: now.maxima.map(({ voltage, power }) => ({ voltage, power })),
    held: now.held,
    cells: now.cells,
    conducting: [...new Set(now.conducting.flat())].sort((a, b) => a - b),
  };
}

/** Losses of the day from the light on the cells to the battery [Wh]. */
export function lossData({ losses, sky }: ArrayView): LedgerData {
  const least = 1e-6 * (losses?.light ?? 1);
  return {
    when: `the day under a ${sky} sky`,
    power: { label: 'energy', unit: 'Wh', decimals: 0 },
    rows: (losses?.rows ?? [])
      .filter(({ energy }) => Math.abs(energy) > least)
      .map(({ key, label, group, energy }) => ({ id: key, label, group, value: energy / wattHour })),
  };
}

/** The losses in one sentence: what of the light arrives, and the three that cost most behind the cells' own limit. */
export function lossWords({ losses }: ArrayView): string {
  if (losses === undefined) return 'What is lost is not known: it can not fly.';
  const wh = (joules: number) => `${Math.round(joules / wattHour)} Wh`;
  const share = losses.light > 0 ? (100 * losses.taken) / losses.light : 0;
  const ends = ['used', 'charged', 'conversion'];
  const most = losses.rows
    .filter(({ key, energy }) => !ends.includes(key) && energy > 0)
    .sort((a, b) => b.energy - a.energy)
    .slice(0, 3)
    .map(({ label, energy }) => `${label} ${wh(energy)}`);
  return `Of ${wh(losses.light)} of light on the open cells ${wh(losses.taken)} arrive at the bus (${share.toFixed(1)} %), ${wh(losses.charged)} of them go into the battery. Beside what cells of this kind cannot turn into electricity, most is lost here: ${most.join('; ')}.`;
}

const keysOfArrows: Readonly<Record<string, readonly [aft: number, across: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/** The next cell in the direction of an arrow key, on the same face or, at its edge, on the next one. */
export function nextCell(sheets: ArrayView['sheets'], from: number, key: string): number | undefined {
  const direction = keysOfArrows[key];
  const at = sheets.findIndex(({ cells }) => cells.some(({ index }) => index === from));
  if (direction === undefined || at < 0) return undefined;
  const middles = sheets[at]!.cells.map(({ index, corners }) => ({
    index,
    aft: corners.reduce((sum, [aft]) => sum + aft, 0) / corners.length,
    across: corners.reduce((sum, [, across]) => sum + across, 0) / corners.length,
  }));
  const own = middles.find(({ index }) => index === from)!;
  const [dx, dy] = direction;
  const ahead = middles
    .map(({ index, aft, across }) => {
      const [x, y] = [aft - own.aft, across - own.across];
      return { index, along: x * dx + y * dy, beside: Math.abs(x * dy) + Math.abs(y * dx) };
    })
    .filter(({ along, beside }) => along > 1e-6 && beside < along * 1.2)
    .sort((a, b) => a.along + 2 * a.beside - (b.along + 2 * b.beside));
  if (ahead.length > 0) return ahead[0]!.index;
  if (dx === 0) return undefined;
  const next = sheets[at + dx];
  return next?.cells[0]?.index;
}
