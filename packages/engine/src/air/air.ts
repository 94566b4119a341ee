import {
  columnAt,
  gasConstantDryAir,
  geopotentialAltitude,
  heatCapacityRatio,
  lowestGeopotential,
} from './standard.js';

/** State of the air at a point. */
export interface Air {
  /** Geometric, above mean sea level [m] */
  readonly altitude: number;
  /** [K] */
  readonly temperature: number;
  /** Static [Pa] */
  readonly pressure: number;
  /** [kg/m3] */
  readonly density: number;
  /** 0 to 1 */
  readonly relativeHumidity: number;
  /** [Pa s] */
  readonly dynamicViscosity: number;
  /** [m2/s] */
  readonly kinematicViscosity: number;
  /** [m/s] */
  readonly soundSpeed: number;
  /** [W/(m K)] */
  readonly thermalConductivity: number;
  /** [-] */
  readonly prandtl: number;
}

/** Specific heat of air at constant pressure near ambient temperature [J/(kg K)]. Source: common practice, 1005 to 1007 between 250 and 320 K. */
export const specificHeat = 1006;

/**
 * Saturation pressure of water vapour over water (Magnus form).
 * @param temperature - air temperature [K], valid 228 to 333 K
 * @returns saturation vapour pressure [Pa]
 * Source: Sonntag, Zeitschrift fuer Meteorologie 70, 1990 (611.2 Pa, 17.62, 243.12 C).
 */
export function saturationVapourPressure(temperature: number): number {
  const celsius = Math.min(Math.max(temperature - 273.15, -100), 100);
  return 611.2 * Math.exp((17.62 * celsius) / (243.12 + celsius));
}

/**
 * Density of moist air: water vapour is lighter than the air that it replaces (virtual temperature).
 * @returns density [kg/m3]
 * Source: WMO Guide to Instruments and Methods of Observation, virtual temperature with the ratio of molar masses 0.622.
 */
export function moistAirDensity(state: {
  /** [Pa] */ readonly pressure: number;
  /** [K] */ readonly temperature: number;
  /** 0 to 1 */ readonly relativeHumidity: number;
}): number {
  const vapour = Math.min(
    state.relativeHumidity * saturationVapourPressure(state.temperature),
    // At very low pressure the saturation value may exceed the total pressure; air cannot hold more than itself.
    state.pressure,
  );
  return (state.pressure - 0.378 * vapour) / (gasConstantDryAir * state.temperature);
}

/**
 * Dynamic viscosity of air.
 * @param temperature - [K], valid 170 to 400 K
 * @returns dynamic viscosity [Pa s]
 * Source: U.S. Standard Atmosphere, 1976, eq. 51 (Sutherland).
 */
export function dynamicViscosity(temperature: number): number {
  return (1.458e-6 * temperature ** 1.5) / (temperature + 110.4);
}

/**
 * Thermal conductivity of air.
 * @param temperature - [K], valid 170 to 400 K
 * @returns thermal conductivity [W/(m K)]
 * Source: U.S. Standard Atmosphere, 1976, eq. 53.
 */
export function thermalConductivity(temperature: number): number {
  return (2.64638e-3 * temperature ** 1.5) / (temperature + 245.4 * 10 ** (-12 / temperature));
}

/**
 * Air of measured pressure and temperature, as read at the field.
 * @param state.pressure - static pressure [Pa], above 0
 * @param state.temperature - [K], above 150 K
 * @param state.relativeHumidity - 0 to 1, default 0
 * @param state.altitude - carried along for reference [m], default 0
 * @returns the state of the air; sound speed and transport properties are those of dry air (moisture changes them by less than 0.5 %)
 */
export function airFromState(state: {
  readonly pressure: number;
  readonly temperature: number;
  readonly relativeHumidity?: number;
  readonly altitude?: number;
}): Air {
  const { pressure, temperature } = state;
  if (!(pressure > 0) || !Number.isFinite(pressure))
    throw new RangeError(`pressure must be above 0 Pa, got ${pressure}`);
  if (!(temperature > 150 && temperature < 500)) throw new RangeError(`temperature out of range: ${temperature} K`);
  const relativeHumidity = Math.min(Math.max(state.relativeHumidity ?? 0, 0), 1);
  const density = moistAirDensity({ pressure, temperature, relativeHumidity });
  const viscosity = dynamicViscosity(temperature);
  const conductivity = thermalConductivity(temperature);
  return {
    altitude: state.altitude ?? 0,
    temperature,
    pressure,
    density,
    relativeHumidity,
    dynamicViscosity: viscosity,
    kinematicViscosity: viscosity / density,
    soundSpeed: Math.sqrt(heatCapacityRatio * gasConstantDryAir * temperature),
    thermalConductivity: conductivity,
    prandtl: (viscosity * specificHeat) / conductivity,
  };
}

/**
 * Air at a geometric altitude in the standard atmosphere, shifted in temperature, sea-level pressure and humidity.
 * @param place.altitude - geometric, above mean sea level [m], -5000 to 32000; held at the ends
 * @param place.temperatureOffset - above the standard temperature at that altitude [K], default 0
 * @param place.relativeHumidity - 0 to 1, default 0
 * @param place.seaLevelPressure - [Pa], default 101325
 * @returns the state of the air
 * Source: U.S. Standard Atmosphere, 1976; ISO 2533:1975.
 */
export function airAt(place: {
  readonly altitude: number;
  readonly temperatureOffset?: number;
  readonly relativeHumidity?: number;
  readonly seaLevelPressure?: number;
}): Air {
  if (!Number.isFinite(place.altitude)) throw new RangeError(`altitude is not a number: ${place.altitude}`);
  const { temperature, pressure } = columnAt({
    geopotential: geopotentialAltitude(Math.max(place.altitude, lowestGeopotential)),
    temperatureOffset: place.temperatureOffset ?? 0,
    ...(place.seaLevelPressure === undefined ? {} : { seaLevelPressure: place.seaLevelPressure }),
  });
  return airFromState({
    pressure,
    temperature,
    altitude: place.altitude,
    relativeHumidity: place.relativeHumidity ?? 0,
  });
}

/**
 * Difference from the standard temperature that a thermometer reading means.
 * @param reading.temperature - measured air temperature [K]
 * @param reading.altitude - geometric altitude of the thermometer [m]
 * @returns temperature offset for `airAt` [K]
 */
export function temperatureOffsetFrom(reading: { readonly temperature: number; readonly altitude: number }): number {
  const standard = columnAt({ geopotential: geopotentialAltitude(reading.altitude) });
  return reading.temperature - standard.temperature;
}
