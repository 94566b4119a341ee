import type { Check } from '../check.js';
import {
  absoluteAirMass,
  airMassKasten1966,
  airMassKastenYoung,
  extraterrestrialIrradiance,
  standardPressureAt,
} from './air-mass.js';
import { clearSkyHaurwitz, clearSkyIneichen, type Sky } from './clear-sky.js';
import { clearSkyIndexFromOktas, diffuseFractionErbs } from './cloud.js';
import { sunTrack } from './position.js';
import { clearSkyTrack } from './sky-track.js';
import { turbidityFromColumn } from './turbidity.js';

const degree = Math.PI / 180;
const recomputed = 'recomputed from the published formula' as const;

const airMasses: readonly Check[] = (
  [
    [0, 0.99971],
    [30, 1.15399],
    [60, 1.99429],
    [75, 3.81291],
    [80, 5.58604],
    [85, 10.30579],
    [90, 37.91961],
  ] as const
).map(([zenith, expected]) => ({
  id: `air-mass-${zenith}`,
  topic: 'sky',
  quantity: `relative air mass at zenith angle ${zenith} deg`,
  expected,
  unit: '-',
  tolerance: 6e-6,
  why: 'rounded in the fifth decimal',
  provenance: recomputed,
  source: 'Kasten and Young, Applied Optics 28, 1989',
  calls: 'airMassKastenYoung',
  compute: () => airMassKastenYoung(zenith * degree),
}));

const otherAirMasses: readonly Check[] = [
  {
    id: 'air-mass-1966-80',
    topic: 'sky',
    quantity: 'relative air mass of the older fit at 80 deg',
    expected: 5.58,
    unit: '-',
    tolerance: 1e-3,
    why: 'printed digits',
    provenance: 'published',
    source: 'Kasten 1966, public reference values of the formula',
    calls: 'airMassKasten1966',
    compute: () => airMassKasten1966(80 * degree),
  },
  {
    id: 'air-mass-absolute',
    topic: 'sky',
    quantity: 'absolute air mass of 2 at 90000 Pa',
    expected: 1.776,
    unit: '-',
    tolerance: 1e-3,
    why: 'printed digits',
    provenance: 'published',
    source: 'Iqbal, An Introduction to Solar Radiation, 1983, pressure correction; public reference value',
    calls: 'absoluteAirMass',
    compute: () => absoluteAirMass(2, 90000),
  },
  {
    id: 'standard-pressure-3000',
    topic: 'sky',
    quantity: 'standard pressure at 3000 m',
    expected: 70108.5,
    unit: 'Pa',
    tolerance: 0.2,
    why: 'exponent rounded to five decimals',
    provenance: recomputed,
    source: 'ISO 2533:1975',
    calls: 'standardPressureAt',
    compute: () => standardPressureAt(3000),
  },
];

const extraterrestrial: readonly Check[] = [
  {
    id: 'extraterrestrial-january',
    topic: 'sky',
    quantity: 'irradiance above the air on 1 January (distance factor 1.035050)',
    expected: 1408.7,
    unit: 'W/m2',
    tolerance: 0.01,
    why: 'rounded in the second decimal',
    provenance: recomputed,
    source: 'Spencer, Search 2, 1971, with 1361 W/m2',
    calls: 'extraterrestrialIrradiance',
    compute: () => extraterrestrialIrradiance(1 / Math.sqrt(1.03505)),
  },
];

type Key = keyof Sky;
const letters: Readonly<Record<Key, string>> = {
  globalHorizontal: 'global',
  directNormal: 'direct normal',
  diffuseHorizontal: 'diffuse',
};

interface IneichenRow {
  readonly zenith: number;
  readonly airMass: number;
  readonly turbidity: number;
  readonly altitude: number;
  readonly above: number;
  readonly values: readonly [number, number, number];
  readonly provenance: Check['provenance'];
  readonly tolerance: number;
}

const ineichenRows: readonly IneichenRow[] = [
  {
    zenith: 10,
    airMass: 1,
    turbidity: 3,
    altitude: 0,
    above: 1364,
    values: [1038.159219, 942.208186, 110.265293],
    provenance: 'published',
    tolerance: 1e-6,
  },
  {
    zenith: 10,
    airMass: 1,
    turbidity: 3,
    altitude: 0,
    above: 1370,
    values: [1042.725902, 946.352797, 110.750331],
    provenance: 'published',
    tolerance: 1e-6,
  },
  {
    zenith: 10,
    airMass: 1,
    turbidity: 3,
    altitude: 2000,
    above: 1364,
    values: [1134.243124, 994.953778, 154.404929],
    provenance: 'published',
    tolerance: 1e-6,
  },
  {
    zenith: 46.0467599,
    airMass: 1.32355476,
    turbidity: 3,
    altitude: 0,
    above: 1364,
    values: [704.696813, 888.90147, 87.736013],
    provenance: 'published',
    tolerance: 1e-6,
  },
  {
    zenith: 0,
    airMass: 1,
    turbidity: 2,
    altitude: 0,
    above: 1364,
    values: [1095.770748, 1014.388074, 81.382674],
    provenance: 'published',
    tolerance: 1e-6,
  },
  {
    zenith: 0,
    airMass: 1,
    turbidity: 4,
    altitude: 0,
    above: 1364,
    values: [1014.157273, 861.113444, 153.043829],
    provenance: 'published',
    tolerance: 1e-6,
  },
  {
    zenith: 60,
    airMass: 1.99429,
    turbidity: 3,
    altitude: 0,
    above: 1361,
    values: [468.59, 786.07, 75.55],
    provenance: recomputed,
    tolerance: 0.006,
  },
  {
    zenith: 60,
    airMass: 1.66424,
    turbidity: 2,
    altitude: 1500,
    above: 1361,
    values: [534.95, 1002.86, 33.52],
    provenance: recomputed,
    tolerance: 0.006,
  },
  {
    zenith: 30,
    airMass: 0.96301,
    turbidity: 2.5,
    altitude: 1500,
    above: 1361,
    values: [986.95, 1028.5, 96.23],
    provenance: recomputed,
    tolerance: 0.006,
  },
];

const ineichen: readonly Check[] = ineichenRows.flatMap((row) =>
  (['globalHorizontal', 'directNormal', 'diffuseHorizontal'] as const).map((key, index) => ({
    id: `clear-sky-${letters[key].replace(' ', '-')}-z${row.zenith}-t${row.turbidity}-h${row.altitude}-e${row.above}`,
    topic: 'sky',
    quantity: `clear-sky ${letters[key]}, zenith ${row.zenith} deg, turbidity ${row.turbidity}, ${row.altitude} m, ${row.above} W/m2 above the air`,
    expected: row.values[index]!,
    unit: 'W/m2',
    tolerance: row.tolerance,
    why: 'rounded in the last digit',
    provenance: row.provenance,
    source:
      row.provenance === 'published'
        ? 'Ineichen and Perez, Solar Energy 73, 2002, public reference values of the formula'
        : 'Ineichen and Perez, Solar Energy 73, 2002',
    calls: 'clearSkyIneichen',
    compute: () =>
      clearSkyIneichen({
        apparentZenith: row.zenith * degree,
        absoluteAirMass: row.airMass,
        turbidity: row.turbidity,
        altitude: row.altitude,
        extraterrestrial: row.above,
      })[key],
  })),
);

const haurwitz: readonly Check[] = (
  [
    [85, 48.62987],
    [60, 487.89413],
    [0, 1035.09203],
  ] as const
).map(([zenith, expected]) => ({
  id: `haurwitz-${zenith}`,
  topic: 'sky',
  quantity: `clear-sky global from the zenith angle alone, ${zenith} deg`,
  expected,
  unit: 'W/m2',
  tolerance: 1e-5,
  why: 'rounded in the last digit',
  provenance: 'published' as const,
  source: 'Haurwitz, Journal of Meteorology 2, 1945, public reference values of the formula',
  calls: 'clearSkyHaurwitz',
  compute: () => clearSkyHaurwitz(zenith * degree),
}));

/** Sums over every whole minute of a day: global and direct [kWh/m2], highest global [W/m2]. */
function dayTotals(day: readonly [number, number, number], latitude: number, altitude: number) {
  const start = Date.UTC(day[0], day[1] - 1, day[2]) / 1000;
  const times = Float64Array.from({ length: 1440 }, (_, minute) => start + 60 * minute);
  const pressure = standardPressureAt(altitude);
  const sun = sunTrack({ times, latitude: latitude * degree, longitude: 0, altitude, pressure });
  const sky = clearSkyTrack(sun, { turbidity: 3, altitude });
  const total = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / 60000;
  return {
    global: total(sky.globalHorizontal),
    direct: total(sky.directNormal),
    peak: sky.globalHorizontal.reduce((most, value) => Math.max(most, value), 0),
  };
}

const dayRows = [
  { date: [2024, 6, 21] as const, latitude: 47.4, altitude: 400, global: 8.409, direct: 11.306, peak: 933.6 },
  { date: [2024, 12, 21] as const, latitude: 47.4, altitude: 400, global: 1.341, direct: 4.077, peak: 282.2 },
  { date: [2024, 6, 21] as const, latitude: 40, altitude: 0, global: 8.41, direct: 10.628, peak: 971.4 },
];

const daily: readonly Check[] = dayRows.flatMap((row) =>
  (['global', 'direct', 'peak'] as const).map((key) => ({
    id: `day-${key}-${row.date.join('-')}-${row.latitude}`,
    topic: 'sky',
    quantity: `clear day ${row.date.join('-')}, ${row.latitude} N, ${row.altitude} m, turbidity 3: ${key === 'peak' ? 'highest global' : `${key} energy`}`,
    expected: row[key],
    unit: key === 'peak' ? 'W/m2' : 'kWh/m2',
    tolerance: 0.003 * row[key],
    why: '0.3 %',
    provenance: recomputed,
    source:
      'Reda and Andreas 2008 positions, Kasten and Young 1989, Ineichen and Perez 2002, 1361 W/m2, summed by minutes',
    calls: 'clearSkyTrack',
    compute: () => dayTotals(row.date, row.latitude, row.altitude)[key],
  })),
);

const turbidity: readonly Check[] = (
  [
    [3, 2.5, 0.1, 3.38435],
    [1, 0, 0, 1.3802],
    [5, 5, 0.1, 3.62135],
  ] as const
).map(([airMass, water, aerosol, expected]) => ({
  id: `turbidity-column-${airMass}`,
  topic: 'sky',
  quantity: `Linke turbidity, air mass ${airMass}, water ${water} cm, aerosol ${aerosol}`,
  expected,
  unit: '-',
  tolerance: 1e-4,
  why: 'printed digits',
  provenance: 'published' as const,
  source: 'Kasten, Solar Energy 56, 1996; Molineaux et al. 1998, public reference values of the formula',
  calls: 'turbidityFromColumn',
  compute: () => turbidityFromColumn({ absoluteAirMass: airMass, water, aerosol }),
}));

const cloud: readonly Check[] = [
  {
    id: 'cloud-overcast',
    topic: 'sky',
    quantity: 'clear-sky index at full cloud cover',
    expected: 0.25,
    unit: '-',
    tolerance: 1e-9,
    why: 'follows from the formula',
    provenance: 'from memory',
    source: 'Kasten and Czeplak, Solar Energy 24, 1980: 1 - 0.75 (N/8)^3.4',
    calls: 'clearSkyIndexFromOktas',
    compute: () => clearSkyIndexFromOktas(8),
  },
  {
    id: 'cloud-erbs-half',
    topic: 'sky',
    quantity: 'diffuse fraction at clearness index 0.5',
    expected: 0.659,
    unit: '-',
    tolerance: 5e-4,
    why: 'rounded in the third decimal',
    provenance: 'from memory',
    source: 'Erbs, Klein and Duffie, Solar Energy 28, 1982, eq. 1 by hand',
    calls: 'diffuseFractionErbs',
    compute: () => diffuseFractionErbs(0.5),
  },
];

/** External checks of air mass, clear sky and cloud. */
export const skyChecks: readonly Check[] = [
  ...airMasses,
  ...otherAirMasses,
  ...extraterrestrial,
  ...ineichen,
  ...haurwitz,
  ...daily,
  ...turbidity,
  ...cloud,
];
