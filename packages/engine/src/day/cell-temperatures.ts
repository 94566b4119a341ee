import type { Air } from '../air/index.js';
import { flightCellTemperature } from '../array/index.js';
import type { PlacedCell } from '../light/index.js';
import type { ArrayFacet } from './array-course.js';

/** Where in the flow cells lie: what sets their cooling beside air and airspeed. */
export type CellCooling = Pick<ArrayFacet, 'from' | 'length' | 'laminarFraction' | 'rearFraction'>;

/**
 * Part of the chord with a laminar boundary layer: the rise of pressure behind the thickest part ends it about the middle of the
 * chord, long before a flat plate would (judgement; with 0.3 or 0.7 a row across the middle is 4 K colder or 5 K hotter, which is
 * the uncertainty said of these temperatures).
 */
const laminarChord = 0.5;

/** Cooling of one cell where it lies along its chord, on a closed surface. */
export const coolingOf = ({ flowFrom, flowTo, chord }: PlacedCell): CellCooling => ({
  from: flowFrom,
  length: flowTo,
  laminarFraction: Math.min(1, (laminarChord * chord) / flowTo),
  rearFraction: 0,
});

/** Temperatures of cells in one air and at one airspeed, by irradiance. */
export interface CellWarmth {
  readonly airTemperature: number;
  /** Facet by facet or cell by cell, at multiples of the irradiance step [K]. */
  readonly tables: readonly Float64Array[];
}

/**
 * Temperature of a cell in flight on a mild day by the light on it [W/m2], without wind or weather [K]. For ratios of two powers at
 * the same temperature alone, such as what unequal light leaves of a string: 30 K more or less change those by less than 0.1 % of
 * the power, so that they are remembered through edits of weather and speed.
 */
export const usualCellTemperature = (light: number): number => 293 + 0.02 * light;

/** Nodes of the tables [W/m2]: the temperature between them is nearly straight, off by less than 1e-4 K. */
const irradianceStep = 20;
/** More light than a wing ever sees; beyond it the last slope is kept [W/m2]. */
const mostIrradiance = 2000;

/**
 * Tables of cell temperature in flight: a day asks for thousands of temperatures in the same air, each a heat balance to be solved.
 * @param places - where in the flow the facets of an array lie, or its cells one by one
 * @param flow - air and airspeed [m/s]
 */
export function cellWarmth(
  places: readonly CellCooling[],
  flow: { readonly air: Air; readonly airspeed: number },
): CellWarmth {
  const { air, airspeed } = flow;
  const known = new Map<string, Float64Array>();
  const tables = places.map(({ from, length, laminarFraction, rearFraction }) => {
    const key = `${from} ${length} ${laminarFraction} ${rearFraction}`;
    const table =
      known.get(key) ??
      Float64Array.from(
        { length: mostIrradiance / irradianceStep + 1 },
        (_, node) =>
          flightCellTemperature({
            air,
            airspeed,
            irradiance: node * irradianceStep,
            from,
            length,
            laminarFraction,
            rearFraction,
          }).temperature,
      );
    known.set(key, table);
    return table;
  });
  return { airTemperature: air.temperature, tables };
}

/**
 * Temperature of each facet, or of each cell, in flight [K], index instant x places + place; that of the air where there is no light.
 * @param warmth - from `cellWarmth`
 * @param light - effective light on each of them, same index [W/m2]
 */
export function cellTemperatures(warmth: CellWarmth, light: Float64Array): Float64Array {
  const { airTemperature, tables } = warmth;
  const temperatures = new Float64Array(light.length);
  for (let i = 0; i < light.length; i++) {
    const irradiance = light[i]!;
    temperatures[i] =
      irradiance > 0 ? between(tables[i % tables.length]!, irradiance / irradianceStep) : airTemperature;
  }
  return temperatures;
}

/** Value of a table between its nodes; beyond the last one along the last slope. */
function between(table: Float64Array, position: number): number {
  const node = Math.min(Math.floor(position), table.length - 2);
  const low = table[node]!;
  return low + (position - node) * (table[node + 1]! - low);
}
