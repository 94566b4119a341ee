import { cellBatchAt, maximumPowerPoints } from '@noonwing/engine/array';
import type { ArrayPlan } from '@noonwing/engine/day';
import { eachSun, litFrom, type PlacedCell } from '@noonwing/engine/light';
import { lightLedger, type SkyTermsTrack, type SunTrack, skyTermsTrack } from '@noonwing/engine/sun';
import type { Verdict } from './verdict.js';

/** One cell over the first day. Energies [J]. */
export interface CellDay {
  readonly cell: PlacedCell;
  /** Light that gets in, before film and dust. */
  readonly light: number;
  /** Light lost to shade. */
  readonly shade: number;
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
  const facetOf = cells.map((_, c) => array.facets.findIndex((facet) => facet.cells?.includes(c)));
  return {
    sky: prepared.skies[skyIndex]!.name,
    cells: cells.map((cell, c): CellDay => {
      const effective = column(ledger.effective, c);
      const temperature = Float64Array.from(
        effective,
        (_, i) => course.temperature[i * array.facets.length + facetOf[c]!]!,
      );
      const irradiance = effective.map((watts) => watts * array.lightFactor);
      const power = maximumPowerPoints(cellBatchAt(cellOf(array, c, facetOf[c]!), { irradiance, temperature })).power;
      return {
        cell,
        light: sum(effective) * step * cell.area,
        shade: sum(column(ledger.shadeLoss, c)) * step * cell.area,
        electricity: sum(power) * step,
      };
    }),
    casters: castersOf(verdict, array, terms, step),
  };
}

const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);

/** Kind of a cell: that of the string that it is wired into. */
const cellOf = (array: ArrayPlan, cell: number, facet: number) =>
  (
    array.strings.find(({ members }) => members?.some((cells) => cells.includes(cell))) ??
    array.strings.find(({ groups }) => groups.some((group) => group.facet === facet)) ??
    array.strings[0]!
  ).cell;

/** Steps between the instants at which shade is told apart by what casts it [s]. */
const casterStep = 1800;

function castersOf({ grid, light }: Verdict, array: ArrayPlan, terms: SkyTermsTrack, step: number): CasterDay[] {
  const { shade, cells } = array;
  if (shade === undefined || cells === undefined || light === undefined) return [];
  const stride = Math.max(1, Math.round(casterStep / step));
  const at = Array.from({ length: Math.floor(grid.stepsPerDay / stride) }, (_, i) => i * stride);
  const sun = Object.fromEntries(
    Object.entries(grid.sun).map(([key, values]) => [key, Float64Array.from(at, (i) => values[i]!)]),
  ) as unknown as SunTrack;
  const { headings } = light.geometry;
  const shares = new Float64Array(cells.length);
  const energies = shade.casters.map(() => 0);
  eachSun(sun, { ...light.attitude, headings }, (instant, _, x, y, z) => {
    const watts = terms.direct[at[instant]!]! + terms.circumsolar[at[instant]!]!;
    for (const [k, caster] of shade.casters.entries()) {
      litFrom(shade, [x, y, z], shares, caster.shade);
      for (const [c, { normal, area }] of cells.entries()) {
        const cosine = Math.max(0, x * normal[0] + y * normal[1] + z * normal[2]);
        energies[k]! += watts * cosine * area * shares[c]!;
      }
    }
  });
  return shade.casters
    .map(({ name }, k) => ({ name, energy: (energies[k]! * step * stride) / headings.length }))
    .sort((a, b) => b.energy - a.energy);
}
