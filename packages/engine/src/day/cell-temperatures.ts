import type { Air } from '../air/index.js';
import { flightCellTemperature } from '../array/index.js';
import type { ArrayPlan } from './array-course.js';

/** Temperatures of the cells of an array in one air and at one airspeed, by irradiance. */
export interface CellWarmth {
  readonly airTemperature: number;
  /** Facet by facet, at multiples of the irradiance step [K]. */
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
 * @param plan - array; cooling length, transition and rear side of its facets
 * @param flow - air and airspeed [m/s]
 */
export function cellWarmth(plan: ArrayPlan, flow: { readonly air: Air; readonly airspeed: number }): CellWarmth {
  const { air, airspeed } = flow;
  const known = new Map<string, Float64Array>();
  const tables = plan.facets.map(({ length, laminarFraction, rearFraction }) => {
    const key = `${length} ${laminarFraction} ${rearFraction}`;
    const table =
      known.get(key) ??
      Float64Array.from(
        { length: mostIrradiance / irradianceStep + 1 },
        (_, node) =>
          flightCellTemperature({
            air,
            airspeed,
            irradiance: node * irradianceStep,
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
 * Mean cell temperature of each facet in flight [K], index instant x facets + facet; that of the air where there is no light.
 * @param warmth - from `cellWarmth`
 * @param light - effective light on each facet, same index [W/m2]
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
