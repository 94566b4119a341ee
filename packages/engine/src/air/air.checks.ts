import type { Check } from '../check.js';
import { airAt, airFromState, dynamicViscosity, saturationVapourPressure } from './air.js';
import { columnAt, densityAltitude, geometricAltitude, pressureAltitude } from './standard.js';
import { windByLogLaw, windByPowerLaw } from './wind.js';

const standard = 'U.S. Standard Atmosphere, 1976; ISO 2533:1975';
const rounding = 'printed digits';

function row(fields: Omit<Check, 'topic' | 'why' | 'provenance' | 'source'> & Partial<Check>): Check {
  return {
    topic: 'air',
    why: rounding,
    provenance: 'recomputed from the published formula',
    source: standard,
    ...fields,
  };
}

const pressures: readonly Check[] = (
  [
    [500, 95460.8],
    [1000, 89874.6],
    [3000, 70108.5],
    [5000, 54019.9],
    [11000, 22632.0],
    [20000, 5474.88],
  ] as const
).map(([geopotential, expected]) =>
  row({
    id: `air-pressure-${geopotential}`,
    quantity: `pressure at ${geopotential} m geopotential`,
    expected,
    unit: 'Pa',
    tolerance: geopotential < 20000 ? 0.06 : 0.006,
    calls: 'columnAt',
    compute: () => columnAt({ geopotential }).pressure,
  }),
);

const densities: readonly Check[] = (
  [
    [0, 1.225],
    [500, 1.167269],
    [2000, 1.00649],
    [5000, 0.736116],
    [11000, 0.363918],
  ] as const
).map(([geopotential, expected]) =>
  row({
    id: `air-density-${geopotential}`,
    quantity: `density at ${geopotential} m geopotential`,
    expected,
    unit: 'kg/m3',
    tolerance: 1e-6,
    calls: 'airAt',
    compute: () => airAt({ altitude: geometricAltitude(geopotential) }).density,
  }),
);

const geometric: readonly Check[] = [
  row({
    id: 'air-temperature-geometric-5000',
    quantity: 'temperature at 5000 m geometric',
    expected: 255.676,
    unit: 'K',
    tolerance: 0.0006,
    calls: 'airAt',
    compute: () => airAt({ altitude: 5000 }).temperature,
  }),
  row({
    id: 'air-pressure-geometric-5000',
    quantity: 'pressure at 5000 m geometric',
    expected: 54048.3,
    unit: 'Pa',
    tolerance: 0.06,
    calls: 'airAt',
    compute: () => airAt({ altitude: 5000 }).pressure,
  }),
  row({
    id: 'air-density-geometric-20000',
    quantity: 'density at 20000 m geometric',
    expected: 0.08891,
    unit: 'kg/m3',
    tolerance: 1e-6,
    calls: 'airAt',
    compute: () => airAt({ altitude: 20000 }).density,
  }),
];

const transport: readonly Check[] = [
  row({
    id: 'air-sound-speed-sea-level',
    quantity: 'speed of sound at sea level',
    expected: 340.294,
    unit: 'm/s',
    tolerance: 0.0006,
    calls: 'airAt',
    compute: () => airAt({ altitude: 0 }).soundSpeed,
  }),
  row({
    id: 'air-kinematic-viscosity-2000',
    quantity: 'kinematic viscosity at 2000 m geopotential',
    expected: 1.71483e-5,
    unit: 'm2/s',
    tolerance: 1e-10,
    calls: 'airAt',
    compute: () => airAt({ altitude: geometricAltitude(2000) }).kinematicViscosity,
  }),
  row({
    id: 'air-dynamic-viscosity-11000',
    quantity: 'dynamic viscosity at 216.65 K',
    expected: 1.42161e-5,
    unit: 'Pa s',
    tolerance: 1e-10,
    calls: 'dynamicViscosity',
    compute: () => dynamicViscosity(216.65),
  }),
  row({
    id: 'air-thermal-conductivity-303',
    quantity: 'thermal conductivity at 303.15 K',
    expected: 0.0264964,
    unit: 'W/(m K)',
    tolerance: 1e-7,
    calls: 'airFromState',
    compute: () => airFromState({ pressure: 101325, temperature: 303.15 }).thermalConductivity,
  }),
  row({
    id: 'air-prandtl-303',
    quantity: 'Prandtl number at 303.15 K',
    expected: 0.70652,
    unit: '-',
    tolerance: 1e-5,
    calls: 'airFromState',
    compute: () => airFromState({ pressure: 101325, temperature: 303.15 }).prandtl,
  }),
];

const field = { pressure: 90000, temperature: 303.15 };

const fieldDay: readonly Check[] = [
  row({
    id: 'air-field-dry-density',
    quantity: 'dry density at 900 hPa, 30 C',
    expected: 1.03424,
    unit: 'kg/m3',
    tolerance: 6e-6,
    calls: 'airFromState',
    compute: () => airFromState(field).density,
  }),
  row({
    id: 'air-field-moist-density',
    quantity: 'density at 900 hPa, 30 C, 60 % humidity',
    expected: 1.02321,
    unit: 'kg/m3',
    tolerance: 6e-6,
    calls: 'airFromState',
    compute: () => airFromState({ ...field, relativeHumidity: 0.6 }).density,
  }),
  row({
    id: 'air-field-vapour-pressure',
    quantity: 'vapour pressure at 30 C, 60 % humidity',
    expected: 2540,
    unit: 'Pa',
    tolerance: 1,
    source: 'Sonntag, Zeitschrift fuer Meteorologie 70, 1990',
    calls: 'saturationVapourPressure',
    compute: () => 0.6 * saturationVapourPressure(303.15),
  }),
  row({
    id: 'air-field-pressure-altitude',
    quantity: 'pressure altitude of 900 hPa',
    expected: 988.5,
    unit: 'm',
    tolerance: 0.06,
    calls: 'pressureAltitude',
    compute: () => pressureAltitude(90000),
  }),
  row({
    id: 'air-field-density-altitude',
    quantity: 'density altitude of dry air at 900 hPa, 30 C',
    expected: 1728.6,
    unit: 'm',
    tolerance: 0.06,
    calls: 'densityAltitude',
    compute: () => densityAltitude(airFromState(field).density),
  }),
  row({
    id: 'air-reynolds-sea-level',
    quantity: 'Reynolds number of 0.2 m at 10 m/s, sea level',
    expected: 136918,
    unit: '-',
    tolerance: 1,
    why: 'the source has viscosity to six digits',
    calls: 'airAt',
    compute: () => (10 * 0.2) / airAt({ altitude: 0 }).kinematicViscosity,
  }),
];

const wind: readonly Check[] = [
  row({
    id: 'wind-power-law-80',
    topic: 'wind',
    quantity: 'wind at 80 m over that at 10 m, exponent 1/7',
    expected: 1.3459,
    unit: '-',
    tolerance: 5e-5,
    why: 'rounded to four decimals',
    provenance: 'common practice',
    source: 'power law with exponent 1/7',
    calls: 'windByPowerLaw',
    compute: () => windByPowerLaw({ height: 80, referenceSpeed: 1 }),
  }),
  row({
    id: 'wind-log-law-100',
    topic: 'wind',
    quantity: 'wind at 100 m over that at 10 m, roughness 0.1 m',
    expected: 1.5,
    unit: '-',
    tolerance: 1e-9,
    why: 'ln 1000 / ln 100 is exact',
    source: 'logarithmic law, Wieringa, J. Wind Eng. Ind. Aerodyn. 41, 1992',
    calls: 'windByLogLaw',
    compute: () => windByLogLaw({ height: 100, referenceSpeed: 1, roughness: 0.1 }),
  }),
];

/** External checks of the air. */
export const airChecks: readonly Check[] = [
  ...pressures,
  ...densities,
  ...geometric,
  ...transport,
  ...fieldDay,
  ...wind,
];
