import { brentRoot } from '../math/roots.js';

/** Standard gravity [m/s2]. Source: ISO 2533:1975, table 1. */
export const standardGravity = 9.80665;
/** Specific gas constant of dry air [J/(kg K)]. Source: ISO 2533:1975, table 1. */
export const gasConstantDryAir = 287.05287;
/** Ratio of specific heats of dry air [-]. Source: U.S. Standard Atmosphere, 1976, section 1.2. */
export const heatCapacityRatio = 1.4;
/** Pressure at mean sea level in the standard atmosphere [Pa]. Source: ISO 2533:1975, table 1. */
export const standardPressure = 101325;
/** Temperature at mean sea level in the standard atmosphere [K]. Source: ISO 2533:1975, table 1. */
export const standardTemperature = 288.15;
/** Radius of the Earth that turns geometric into geopotential altitude [m]. Source: U.S. Standard Atmosphere, 1976, eq. 18. */
export const nominalEarthRadius = 6356766;

/** Geopotential range of the layers kept here [m]: from 5 km below sea level to the top of the second stratosphere layer. */
export const lowestGeopotential = -5000;
export const highestGeopotential = 32000;

interface Layer {
  readonly base: number;
  readonly baseTemperature: number;
  readonly lapse: number;
}

/** Source: U.S. Standard Atmosphere, 1976, table 4. */
const layers: readonly Layer[] = [
  { base: 0, baseTemperature: 288.15, lapse: -0.0065 },
  { base: 11000, baseTemperature: 216.65, lapse: 0 },
  { base: 20000, baseTemperature: 216.65, lapse: 0.001 },
];

/** Ratio of the pressure at `rise` above a layer's base to that at its base. Source: U.S. Standard Atmosphere, 1976, eqs. 33a, 33b. */
function pressureRatio(baseTemperature: number, lapse: number, rise: number): number {
  const exponent = standardGravity / gasConstantDryAir;
  if (lapse === 0) return Math.exp((-exponent * rise) / baseTemperature);
  return (1 + (lapse * rise) / baseTemperature) ** (-exponent / lapse);
}

/**
 * Geopotential altitude of a geometric altitude.
 * @param geometric - height above mean sea level [m]
 * @returns geopotential altitude [m]
 * Source: U.S. Standard Atmosphere, 1976, eq. 18.
 */
export function geopotentialAltitude(geometric: number): number {
  return (nominalEarthRadius * geometric) / (nominalEarthRadius + geometric);
}

/**
 * Geometric altitude of a geopotential altitude; the inverse of `geopotentialAltitude`.
 * @param geopotential - geopotential altitude [m]
 * @returns height above mean sea level [m]
 * Source: U.S. Standard Atmosphere, 1976, eq. 19.
 */
export function geometricAltitude(geopotential: number): number {
  return (nominalEarthRadius * geopotential) / (nominalEarthRadius - geopotential);
}

export interface Column {
  /** [m], between `lowestGeopotential` and `highestGeopotential`; values outside are held at the ends */
  readonly geopotential: number;
  /** Added to the standard temperature at every altitude [K] */
  readonly temperatureOffset?: number;
  /** [Pa] */
  readonly seaLevelPressure?: number;
}

/**
 * Temperature and pressure of a column of air at rest whose temperature is the standard one plus a constant.
 * The pressure follows the warmer or colder column (hydrostatic), so at a given geometric altitude a warm day has
 * a higher pressure than the standard; at sea level it is `seaLevelPressure`.
 * @returns temperature [K], pressure [Pa]
 * Source: U.S. Standard Atmosphere, 1976, eqs. 23, 33a, 33b, with the base temperatures shifted.
 */
export function columnAt(column: Column): { readonly temperature: number; readonly pressure: number } {
  const offset = column.temperatureOffset ?? 0;
  const altitude = Math.min(Math.max(column.geopotential, lowestGeopotential), highestGeopotential);
  let pressure = column.seaLevelPressure ?? standardPressure;
  let temperature = standardTemperature + offset;
  for (const [index, layer] of layers.entries()) {
    const top = layers[index + 1]?.base ?? Number.POSITIVE_INFINITY;
    const rise = Math.min(altitude, top) - layer.base;
    if (index > 0 && rise <= 0) break;
    pressure *= pressureRatio(layer.baseTemperature + offset, layer.lapse, rise);
    temperature = layer.baseTemperature + offset + layer.lapse * rise;
  }
  return { temperature, pressure };
}

/** Geopotential altitude at which a quantity that falls with altitude in the standard column has a value; ends are held. */
function altitudeWhere(value: number, quantity: (altitude: number) => number): number {
  if (value >= quantity(lowestGeopotential)) return lowestGeopotential;
  const excess = (altitude: number) => quantity(altitude) - value;
  // A tenth of a micrometre; outside the bracket only the upper end remains.
  return brentRoot(excess, lowestGeopotential, highestGeopotential, { tolerance: 1e-7 }) ?? highestGeopotential;
}

/**
 * Density altitude: the geopotential altitude at which the standard atmosphere has this density.
 * @param density - density of the air [kg/m3]
 * @returns geopotential altitude [m], held between -5000 and 32000 m
 * Source: U.S. Standard Atmosphere, 1976, eqs. 33a, 33b and 42, inverted.
 */
export function densityAltitude(density: number): number {
  return altitudeWhere(density, (geopotential) => {
    const { pressure, temperature } = columnAt({ geopotential });
    return pressure / (gasConstantDryAir * temperature);
  });
}

/**
 * Pressure altitude: the geopotential altitude at which the standard atmosphere has this pressure.
 * @param pressure - static pressure [Pa]
 * @returns geopotential altitude [m], held between -5000 and 32000 m
 * Source: U.S. Standard Atmosphere, 1976, eqs. 33a, 33b, inverted.
 */
export function pressureAltitude(pressure: number): number {
  return altitudeWhere(pressure, (geopotential) => columnAt({ geopotential }).pressure);
}
