import { cellBatchAt, maximumPowerPoints } from '@noonwing/engine/array';
import type { PlacedCell } from '@noonwing/engine/light';
import { lightLedger, type SkyTermsTrack, skyTermsTrack } from '@noonwing/engine/sun';
import { kindsOfCells } from './cell-sheets.js';
import { cellsWarmth } from './cell-warmth.js';
import type { Verdict } from './central.js';
import { shadeCourse } from './shade-course.js';

/** One cell over the first day. Energies [J]. */
export interface CellDay {
  readonly cell: PlacedCell;
  /** Light that gets in, before film and dust. */
  readonly light: number;
  /** Light lost to shade. */
  readonly shade: number;
  /** Hottest in the day [K]. */
  readonly warmest: number;
  /** Electricity at its own maximum at every instant, under film and dust. */
  readonly electricity: number;
}

/** What casts the shade, direct and circumsolar light, over all cells and the first day. */
export interface CasterDay {
  readonly name: string;
  /** [J] */
  readonly energy: number;
}

/** Light and electricity of the first day, cell by cell. */
export interface CellsOfDay {
  readonly sky: string;
  readonly cells: readonly CellDay[];
  readonly casters: readonly CasterDay[];
}

/**
 * Energy of the first day on every cell under one sky of a verdict.
 * @returns undefined where the aircraft has no cells placed one by one, or cannot fly
 */
export function cellsOfDay(verdict: Verdict, skyIndex: number): CellsOfDay | undefined {
  const { prepared, grid, light, courses } = verdict;
  const { array, albedo } = prepared.run;
  const course = courses[skyIndex];
  if (array?.cells === undefined || light?.cells === undefined || course === undefined) return undefined;
  const terms = skyTermsTrack(grid.sun, course.sky, { model: 'perez', albedo });
  const ledger = lightLedger(light.cells, terms);
  const step = grid.times[1]! - grid.times[0]!;
  const { cells } = array;
  const column = (values: Float64Array, cell: number) =>
    Float64Array.from({ length: grid.stepsPerDay }, (_, i) => values[i * cells.length + cell]!);
  const kinds = kindsOfCells(array);
  const warmth = cellsWarmth(verdict, ledger.effective, course.ambient);
  return {
    sky: prepared.skies[skyIndex]!.name,
    cells: cells.map((cell, c): CellDay => {
      const effective = column(ledger.effective, c);
      const temperature = column(warmth, c);
      const irradiance = effective.map((watts) => watts * array.lightFactor);
      const power = maximumPowerPoints(cellBatchAt(kinds[c]!, { irradiance, temperature })).power;
      return {
        cell,
        light: sum(effective) * step * cell.area,
        shade: sum(column(ledger.shadeLoss, c)) * step * cell.area,
        warmest: temperature.reduce((most, kelvin) => Math.max(most, kelvin), 0),
        electricity: sum(power) * step,
      };
    }),
    casters: castersOf(verdict, cells, terms),
  };
}

const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);

function castersOf(verdict: Verdict, cells: readonly PlacedCell[], terms: SkyTermsTrack): CasterDay[] {
  const course = shadeCourse(verdict);
  if (course === undefined) return [];
  return course.casters
    .map(({ name, taken }) => {
      let energy = 0;
      for (const [i, step] of course.steps.entries()) {
        const watts = terms.direct[step]! + terms.circumsolar[step]!;
        for (const [c, { area }] of cells.entries()) energy += watts * area * taken[i * cells.length + c]!;
      }
      return { name, energy: energy * course.every };
    })
    .sort((a, b) => b.energy - a.energy);
}
