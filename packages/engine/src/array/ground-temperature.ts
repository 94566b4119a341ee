import { type AirAtPlate, flightCellTemperature } from './cell-temperature.js';

/** Light, air and wind at a panel on the ground. */
export interface GroundConditions {
  /** Irradiance in the plane of the panel [W/m2]. */
  readonly irradiance: number;
  /** Air temperature [K]. */
  readonly airTemperature: number;
  /** Wind speed at the height of the model's measurements [m/s]; fitted to 0 to 10. */
  readonly windSpeed: number;
}

/**
 * Cell temperature on the ground after Faiman.
 *
 * @param conditions - light, air, wind
 * @param coefficients.constant - heat loss without wind [W/(m2 K)], default 25
 * @param coefficients.wind - heat loss by wind [W s/(m3 K)], default 6.84
 * @returns temperature [K]
 * Source: Faiman, Assessing the outdoor operating temperature of photovoltaic modules, Prog. Photovolt. 16, 2008.
 */
export function faimanTemperature(
  conditions: GroundConditions,
  coefficients: { readonly constant?: number; readonly wind?: number } = {},
): number {
  const { constant = 25, wind = 6.84 } = coefficients;
  return conditions.airTemperature + conditions.irradiance / (constant + wind * conditions.windSpeed);
}

/**
 * Cell temperature on the ground from two heat-loss coefficients with absorption and efficiency.
 *
 * @param conditions - light, air, wind
 * @param coefficients.constant - heat loss without wind [W/(m2 K)]: 29 open rack (default), 20 semi-integrated, 15 insulated back
 * @param coefficients.wind - heat loss by wind [W s/(m3 K)], default 0
 * @param coefficients.absorptance - default 0.9
 * @param coefficients.efficiency - default 0.1
 * @returns temperature [K]
 * Source: two-coefficient module temperature model in common use (from memory), after Faiman 2008.
 */
export function twoCoefficientTemperature(
  conditions: GroundConditions,
  coefficients: {
    readonly constant?: number;
    readonly wind?: number;
    readonly absorptance?: number;
    readonly efficiency?: number;
  } = {},
): number {
  const { constant = 29, wind = 0, absorptance = 0.9, efficiency = 0.1 } = coefficients;
  const heat = absorptance * (1 - efficiency) * conditions.irradiance;
  return conditions.airTemperature + heat / (constant + wind * conditions.windSpeed);
}

/**
 * Cell temperature on the ground from the nominal operating cell temperature.
 *
 * @param conditions - light and air; wind is that of the definition (1 m/s)
 * @param nominalTemperature - nominal operating cell temperature at 800 W/m2, 20 C, 1 m/s [K]
 * @returns temperature [K]
 * Source: IEC 61215 definition of NOCT; linear law of Ross, 1980.
 */
export function nominalOperatingTemperature(
  conditions: Pick<GroundConditions, 'irradiance' | 'airTemperature'>,
  nominalTemperature: number,
): number {
  return conditions.airTemperature + ((nominalTemperature - 293.15) * conditions.irradiance) / 800;
}

/** Coefficients of King's module temperature law. */
export interface MountingCoefficients {
  readonly a: number;
  /** [s/m] */
  readonly b: number;
  /** Cell above module at 1000 W/m2 [K]. */
  readonly cellExcess: number;
}

/** Mountings of King's law. Source: King, Boyson and Kratochvil, SAND2004-3535, 2004, table 1. */
export const mountings = {
  'open rack, glass and glass': { a: -3.47, b: -0.0594, cellExcess: 3 },
  'open rack, glass and polymer': { a: -3.56, b: -0.075, cellExcess: 3 },
  'insulated back, glass and polymer': { a: -2.81, b: -0.0455, cellExcess: 0 },
  'close roof mount, glass and glass': { a: -2.98, b: -0.0471, cellExcess: 1 },
} as const satisfies Readonly<Record<string, MountingCoefficients>>;

/**
 * Module and cell temperature on the ground after King.
 *
 * @param conditions - light, air, wind at 10 m height
 * @param mounting - coefficients, see `mountings`
 * @returns module (rear) and cell temperature [K]
 * Source: King, Boyson and Kratochvil, Photovoltaic array performance model, SAND2004-3535, 2004, eqs. 11 and 12.
 */
export function mountedTemperature(
  conditions: GroundConditions,
  mounting: MountingCoefficients,
): { readonly module: number; readonly cell: number } {
  const rise = conditions.irradiance * Math.exp(mounting.a + mounting.b * conditions.windSpeed);
  const module = conditions.airTemperature + rise;
  return { module, cell: module + (conditions.irradiance / 1000) * mounting.cellExcess };
}

/** A row of cells on a part that stands on the ground. */
export interface StandingRow {
  /** Of the plate in the wind: from its edge to the end of the cells, or its chord [m]. */
  readonly length: number;
  /** Convection from behind as a fraction of that from the front: 0 on foam or a closed wing. */
  readonly rearFraction: number;
  /** [Pa], default of sea level. */
  readonly pressure?: number;
}

/**
 * Cell temperature of a row on a wing that stands in the sun: the heat balance of flight in the wind at the cells. Foam or a closed
 * wing behind the cells keeps their heat, so that they are 5 to 20 K hotter than a panel on an open rack.
 *
 * @param conditions - light on the row, air, wind at the cells [m/s]
 * @param row - plate and backing; outdoor wind is turbulent and comes from any side, so that no part counts as laminar
 * @returns temperature [K], off by about 8 K: at 2 m/s the balance is 33 K above the air in 1000 W/m2, the law of King for an
 *   insulated back (see `mountings`, large panels) 52 K, that of Faiman for an open rack 26 K
 * Source: `flightCellTemperature`.
 */
export function groundCellTemperature(conditions: GroundConditions, row: StandingRow): number {
  const { irradiance, airTemperature, windSpeed } = conditions;
  const air: AirAtPlate = { temperature: airTemperature, pressure: row.pressure ?? 101325 };
  const { length, rearFraction } = row;
  return flightCellTemperature({ air, airspeed: windSpeed, irradiance, length, rearFraction, laminarFraction: 0 })
    .temperature;
}
