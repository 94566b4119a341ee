import { assembleArray, completeDesign, readDesign } from '@noonwing/design';
import type { Check, Outcome } from '@noonwing/engine';
import { arrayMaxima, type ClosedDesign, closeDesign } from '@noonwing/engine/day';
import { planform, trapezoidalWing } from '@noonwing/engine/shape';
import {
  absoluteAirMass,
  airMassKastenYoung,
  bodyToSky,
  circleHeadings,
  clearSkyIneichen,
  extraterrestrialIrradiance,
  linkeTurbidity,
  solarTransit,
  standardPressureAt,
  sunPosition,
  upperSurface,
} from '@noonwing/engine/sun';

const degree = Math.PI / 180;

const demand = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

/** Cells of a published array: count, area of one [cm2], current [A] and voltage [V] at maximum power. */
interface PublishedArray {
  readonly cells: number;
  readonly area: number;
  readonly current: number;
  readonly voltage: number;
}

/**
 * Power at maximum power of an array in one string, 1000 W/m2 and 25 degC [W]; film and dust left out, the tabs between the
 * cells (2.5 mohm each, 1 to 2.4 %) included.
 */
function nameplate({ cells, area, current, voltage }: PublishedArray): number {
  const { design } = readDesign(`noonwing: design 1
name: published array
level power: 10 W
battery: none
array:
  cell:
    like: back-contact 125 mm
    area: ${area} cm2
    short circuit current: ${(current * 1.063).toFixed(4)} A
    open circuit voltage: ${(voltage * 1.183).toFixed(4)} V
    maximum power current: ${current} A
    maximum power voltage: ${voltage} V
  rows:
    all: {on: wing, cells: ${cells}}
  converters: {tracker: direct}
  wiring resistance: 0 mohm
  lamination: {transmittance: 100 %}
  dust: 0 %
`);
  if (design === undefined) throw new Error('a published array does not read');
  const { aircraft } = completeDesign(design);
  if (aircraft.array === undefined) throw new Error('a published array has no cells');
  const { plan } = demand(assembleArray(aircraft.array, undefined, 12));
  const facets = plan.facets.length;
  const maxima = arrayMaxima(plan, new Float64Array(facets).fill(1000), new Float64Array(facets).fill(298.15));
  return maxima.power.reduce((a, b) => a + b, 0);
}

const arrayRow = (row: Omit<Check, 'topic' | 'calls' | 'provenance'>): Check => ({
  ...row,
  ...{ topic: 'aircraft', provenance: 'published', calls: 'arrayMaxima' },
});

const seventySix: PublishedArray = { cells: 76, area: 149, current: 5.32, voltage: 0.56 };
const photon: PublishedArray = { cells: 14, area: 50, current: 1.8, voltage: 0.5 };
const eighteen: PublishedArray = { cells: 18, area: 153, current: 5.56, voltage: 0.55 };

const arrayChecks: readonly Check[] = [
  arrayRow({
    ...{ id: 'aircraft-array-76', quantity: 'nameplate of 76 back-contact cells of 20 %', expected: 225, unit: 'W' },
    ...{ tolerance: 4.5, why: '2 %: efficiency as printed' },
    source: 'aircraft of 4.75 m that flew 48 h in June 2005, DOE news of 29 June 2005; cells of 149 cm2',
    compute: () => nameplate(seventySix),
  }),
  arrayRow({
    ...{ id: 'aircraft-array-14', quantity: 'nameplate of 14 cells of 50 cm2 and 18 %', expected: 12.6, unit: 'W' },
    ...{ tolerance: 0.25, why: '2 %: efficiency as printed' },
    source: 'builder report of a 1.16 m solar aircraft, fun-flyer.de.tl, Berlin 2010',
    compute: () => nameplate(photon),
  }),
  arrayRow({
    ...{ id: 'aircraft-array-18', quantity: 'nameplate of 18 cells at 0.55 V', expected: 55, unit: 'W' },
    ...{ tolerance: 1.7, why: '3 %: as printed' },
    source: 'builder report of a 3.1 m solar aircraft, rcgroups thread 572000',
    compute: () => nameplate(eighteen),
  }),
];

const closed = (): ClosedDesign => demand(closeDesign(3.2, 13));
const method = 'A. Noth, ETH Zurich Diss. 18010, 2008 (constants from memory), against the aircraft that flew';
const whole = (
  id: string,
  row: Pick<Check, 'quantity' | 'expected' | 'unit' | 'tolerance' | 'why' | 'compute'>,
): Check => ({
  ...row,
  id: `aircraft-closure-${id}`,
  topic: 'aircraft',
  ...{ provenance: 'published', source: method, calls: 'closeDesign' },
});

const closureChecks: readonly Check[] = [
  whole('mass', {
    ...{ quantity: 'mass by the analytical method, span 3.2 m', expected: 2.44, unit: 'kg' },
    ...{ tolerance: 0.195, why: '8 %: averages over a class of aircraft' },
    compute: () => closed().mass,
  }),
  whole('power', {
    ...{ quantity: 'electric power by the analytical method, span 3.2 m', expected: 16, unit: 'W' },
    ...{ tolerance: 1.6, why: '10 %: averages over a class of aircraft' },
    compute: () => closed().electricPower,
  }),
  whole('airspeed', {
    ...{ quantity: 'airspeed by the analytical method, span 3.2 m', expected: 8.3, unit: 'm/s' },
    ...{ tolerance: 0.415, why: '5 %: lift coefficient and wing area' },
    compute: () => closed().airspeed,
  }),
];

/** Noon of 20 December 2011 at 48.2 N 16.4 E, about 200 m. */
function winterNoon(): { elevation: number; globalHorizontal: number } {
  const place = { latitude: 48.2 * degree, longitude: 16.4 * degree, altitude: 200 };
  const time = solarTransit({ ...place, near: Date.UTC(2011, 11, 20, 11) / 1000 });
  const sun = sunPosition({ ...place, time });
  const turbidity = linkeTurbidity({ month: 12, place: 'rural', latitude: place.latitude }).value;
  const sky = clearSkyIneichen({
    apparentZenith: sun.apparentZenith,
    turbidity,
    altitude: place.altitude,
    extraterrestrial: extraterrestrialIrradiance(sun.distance),
    absoluteAirMass: absoluteAirMass(airMassKastenYoung(sun.apparentZenith), standardPressureAt(place.altitude)),
  });
  return { elevation: 90 - sun.apparentZenith / degree, globalHorizontal: sky.globalHorizontal };
}

const winterSource =
  'Wallner and Czepa, aufwind 5/2013: a 1.6 m solar aircraft without battery flew at about 48 N on 20 December 2011; sun and light recomputed';

const winterChecks: readonly Check[] = [
  {
    ...{ id: 'aircraft-winter-elevation', topic: 'aircraft', quantity: 'sun at noon, 48.2 N, 20 December' },
    ...{ expected: 18.4, unit: 'deg', tolerance: 0.3, why: 'place known to a quarter of a degree' },
    ...{ provenance: 'recomputed from the published formula', source: winterSource, calls: 'sunPosition' },
    compute: () => winterNoon().elevation,
  },
  {
    ...{ id: 'aircraft-winter-light', topic: 'aircraft', quantity: 'clear light at noon, 48.2 N, 20 December' },
    ...{ expected: 290, unit: 'W/m2', tolerance: 35, why: '12 %: haze of that day is unknown' },
    ...{ provenance: 'recomputed from the published formula', source: winterSource, calls: 'clearSkyIneichen' },
    compute: () => winterNoon().globalHorizontal,
  },
];

/** Direct light on a wing around a banked circle over that of level flight, by heading. */
function circleShares(elevation: number, bank: number): number[] {
  const [south, up] = [Math.cos(elevation * degree), Math.sin(elevation * degree)];
  return Array.from(circleHeadings(360), (heading) => {
    const normal = bodyToSky(upperSurface, { heading, bank: bank * degree, pitch: 0 });
    return Math.max(0, -normal[1] * south + normal[2] * up) / up;
  });
}

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

const circle = (id: string, quantity: string, expected: number, tolerance: number, compute: () => number): Check => ({
  ...{ id: `aircraft-circle-${id}`, topic: 'aircraft', quantity: `${quantity}, direct light over level flight` },
  ...{ expected, unit: '-', tolerance, why: 'rounding of the printed digits' },
  ...{ provenance: 'recomputed from the published formula', calls: 'bodyToSky' },
  source:
    'geometry of a banked circle, recomputed for this project: cos(bank) while the sun stands above the bank angle',
  compute,
});

const circleChecks: readonly Check[] = [
  circle('10', 'mean of a circle at 10 deg bank, sun at 45 deg', 0.985, 1e-3, () => mean(circleShares(45, 10))),
  circle('20', 'mean of a circle at 20 deg bank, sun at 45 deg', 0.94, 1e-3, () => mean(circleShares(45, 20))),
  circle('30', 'mean of a circle at 30 deg bank, sun at 45 deg', 0.866, 1e-3, () => mean(circleShares(45, 30))),
  circle('low-sun', 'mean of a circle at 30 deg bank, sun at 10 deg', 1.38, 0.01, () => mean(circleShares(10, 30))),
  circle('least-60', 'least of a circle at 30 deg bank, sun at 60 deg', 0.58, 5e-3, () =>
    Math.min(...circleShares(60, 30)),
  ),
  circle('least-45', 'least of a circle at 30 deg bank, sun at 45 deg', 0.37, 5e-3, () =>
    Math.min(...circleShares(45, 30)),
  ),
];

const shapeChecks: readonly Check[] = [
  {
    ...{ id: 'aircraft-low-aspect', topic: 'aircraft', quantity: 'aspect ratio of a wing of 0.813 m and 0.216 m' },
    ...{ expected: 3.76, unit: '-', tolerance: 0.01, why: 'rounding of the printed digits' },
    provenance: 'published',
    source: 'builder report of a 0.813 m flying wing, rcgroups thread 3007750, 2017',
    calls: 'planform',
    compute: () => {
      const wing = trapezoidalWing({ span: 0.813, aspectRatio: 1 });
      const stations = wing.stations.map((station) => ({ ...station, xLeadingEdge: 0, chord: 0.216 }));
      return planform({ ...wing, stations }).aspectRatio;
    },
  },
];

/** Published arrays, places and shapes that a whole-aircraft model must reproduce before anything else. */
export const sanityChecks: readonly Check[] = [
  ...arrayChecks,
  ...closureChecks,
  ...winterChecks,
  ...circleChecks,
  ...shapeChecks,
];
