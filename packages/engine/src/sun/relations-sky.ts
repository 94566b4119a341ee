import type { Relation, RelationValues } from '../relation.js';
import { absoluteAirMass, airMassKastenYoung, solarConstant, standardPressureAt } from './air-mass.js';
import { clearSkyBird } from './bird.js';
import { clearSkyIneichen } from './clear-sky.js';
import { highestClearSkyIndex, skyUnderCloud } from './cloud.js';
import { sunPosition } from './position.js';
import { sunriseSunset } from './rise-set.js';
import { spencerDay } from './spencer.js';
import { linkeTurbidity, monthlyTurbidity, type PlaceKind } from './turbidity.js';

/** A value of a relation that its kind declares to be a number. */
export const numberOf = (values: RelationValues, key: string): number => values[key] as number;

const halfDay = 43200;
/** The years for which the sun's position is checked: 1961 to 2150 [s since 1970-01-01]. */
const earliest = -284000000;
const latest = 5712000000;

function placeProblem(values: RelationValues): { reason: string; remedy: string } | undefined {
  if (Math.abs(numberOf(values, 'latitude')) > Math.PI / 2 + 1e-12) {
    return { reason: 'latitude ends at the poles', remedy: 'give a latitude from -90 to 90 degrees' };
  }
  const instant = numberOf(values, 'instant');
  if (instant < earliest || instant > latest) {
    return { reason: 'the sun is known here from 1961 to 2150', remedy: 'give a date within those years' };
  }
  return undefined;
}

const placeInputs: Relation['inputs'] = [
  { key: 'latitude', kind: 'angle', help: 'north positive' },
  { key: 'longitude', kind: 'angle', help: 'east positive' },
  { key: 'instant', kind: 'instant', help: 'date and time with its offset from UTC' },
  { key: 'altitude', kind: 'length', help: 'above mean sea level', default: 0 },
];

const sunRelation: Relation = {
  topic: 'sun',
  title: 'Position of the sun',
  inputs: [
    ...placeInputs,
    { key: 'pressure', kind: 'pressure', help: 'at the place, for refraction', default: 101325 },
    { key: 'temperature', kind: 'temperature', help: 'at the place, for refraction', default: 288.15 },
  ],
  outputs: [
    { key: 'trueZenith', kind: 'angle', help: 'from the vertical, without refraction' },
    { key: 'apparentZenith', kind: 'angle', help: 'from the vertical, as seen' },
    { key: 'elevation', kind: 'angle', help: 'above the horizon, as seen' },
    { key: 'azimuth', kind: 'angle', help: 'from north, clockwise' },
    { key: 'distance', kind: 'ratio', help: 'to the sun in astronomical units' },
    { key: 'declination', kind: 'angle', help: 'apparent, geocentric' },
    { key: 'equationOfTime', kind: 'time', help: 'sundial ahead of the clock' },
  ],
  compute: (values) => {
    const wrong = placeProblem(values);
    if (wrong) return wrong;
    const pressure = numberOf(values, 'pressure');
    const temperature = numberOf(values, 'temperature');
    if (!(pressure >= 0 && pressure <= 120000 && temperature > 150 && temperature < 400)) {
      return { reason: 'no such air occurs', remedy: 'give pressure and temperature at the place' };
    }
    const sun = sunPosition({
      time: numberOf(values, 'instant'),
      latitude: numberOf(values, 'latitude'),
      longitude: numberOf(values, 'longitude'),
      altitude: numberOf(values, 'altitude'),
      pressure,
      temperature,
    });
    const { trueZenith, apparentZenith, azimuth, distance, declination, equationOfTime } = sun;
    const elevation = Math.PI / 2 - apparentZenith;
    return { trueZenith, apparentZenith, elevation, azimuth, distance, declination, equationOfTime };
  },
};

const daylightRelation: Relation = {
  topic: 'daylight',
  title: 'Sunrise, transit and sunset of the solar day about an instant',
  inputs: placeInputs,
  outputs: [
    { key: 'sunrise', kind: 'instant', help: 'upper edge on a level horizon' },
    { key: 'transit', kind: 'instant', help: 'sun on the meridian' },
    { key: 'sunset', kind: 'instant', help: 'upper edge on a level horizon' },
    { key: 'dayLength', kind: 'time', help: 'from sunrise to sunset' },
    { key: 'transitElevation', kind: 'angle', help: 'above the horizon at transit, without refraction' },
  ],
  compute: (values) => {
    const wrong = placeProblem(values);
    if (wrong) return wrong;
    const day = sunriseSunset({
      dayStart: numberOf(values, 'instant') - halfDay,
      latitude: numberOf(values, 'latitude'),
      longitude: numberOf(values, 'longitude'),
      altitude: numberOf(values, 'altitude'),
    });
    if (day.kind !== 'rises and sets') {
      return { reason: `there the sun ${day.kind} on that day`, remedy: 'ask topic sun for its height at an instant' };
    }
    const { sunrise, sunset, transit, transitElevation } = day;
    return { sunrise, transit, sunset, dayLength: sunset - sunrise, transitElevation };
  },
};

/** Says what is wrong with the inputs of a sky, or nothing. */
export function skyProblem(values: RelationValues): { reason: string; remedy: string } | undefined {
  const turbidity = numberOf(values, 'turbidity');
  if (!(turbidity >= 1 && turbidity <= 12)) {
    return { reason: 'clean dry air has turbidity 1, smog about 10', remedy: 'give a turbidity from 1 to 12' };
  }
  const altitude = numberOf(values, 'altitude');
  if (!(altitude >= -450 && altitude <= 5000)) {
    return {
      reason: 'the clear-sky model is fitted to places on the ground',
      remedy: 'give an altitude from -450 m to 5000 m',
    };
  }
  const zenith = numberOf(values, 'zenith');
  if (!(zenith >= 0 && zenith <= Math.PI)) {
    return {
      reason: 'the zenith angle is counted from the vertical',
      remedy: 'give a zenith angle from 0 to 180 degrees',
    };
  }
  const extraterrestrial = numberOf(values, 'extraterrestrial');
  if (!(extraterrestrial > 0 && extraterrestrial <= 2000)) {
    return {
      reason: 'sunlight above the air is about 1361 W/m2',
      remedy: 'give an irradiance above 0 and up to 2000 W/m2',
    };
  }
  const day = numberOf(values, 'day');
  if (!(day >= 0 && day <= 366)) {
    return {
      reason: 'days of the year count from 1 to 366',
      remedy: 'give a day from 1 to 366, or 0 for the mean distance',
    };
  }
  const index = numberOf(values, 'clearSkyIndex');
  if (!(index >= 0 && index <= highestClearSkyIndex)) {
    return {
      reason: 'clouds let through 0 to 1.5 times the clear sky',
      remedy: 'give a clear-sky index from 0 to 1.5',
    };
  }
  return undefined;
}

/** Inputs shared by the relations that start from a clear sky. */
export const skyInputs: Relation['inputs'] = [
  { key: 'zenith', kind: 'angle', help: 'of the sun from the vertical, as seen' },
  { key: 'turbidity', kind: 'ratio', help: 'Linke turbidity', default: 3 },
  { key: 'altitude', kind: 'length', help: 'above mean sea level', default: 0 },
  {
    key: 'extraterrestrial',
    kind: 'areal power',
    help: 'facing the sun above the air, at its mean distance',
    default: solarConstant,
  },
  {
    key: 'day',
    kind: 'count',
    help: 'of the year, for the distance of the sun; 0 means the mean distance',
    default: 0,
  },
  { key: 'clearSkyIndex', kind: 'ratio', help: 'light under cloud over light of the clear sky', default: 1 },
];

/** Light of the sky for the inputs of `skyInputs`. */
export function skyOf(values: RelationValues) {
  const day = numberOf(values, 'day');
  const distanceFactor = day > 0 ? spencerDay(day).distanceFactor : 1;
  const extraterrestrial = numberOf(values, 'extraterrestrial') * distanceFactor;
  const apparentZenith = numberOf(values, 'zenith');
  const altitude = numberOf(values, 'altitude');
  const clear = clearSkyIneichen({
    apparentZenith,
    altitude,
    extraterrestrial,
    turbidity: numberOf(values, 'turbidity'),
  });
  const cosZenith = Math.cos(apparentZenith);
  const sky = skyUnderCloud(clear, { clearSkyIndex: numberOf(values, 'clearSkyIndex'), cosZenith, extraterrestrial });
  return { ...sky, cosZenith, extraterrestrial, airMass: airMassKastenYoung(apparentZenith) };
}

const skyRelation: Relation = {
  topic: 'sky',
  title: 'Sunlight on the ground under a clear or cloudy sky',
  inputs: skyInputs,
  outputs: [
    { key: 'globalHorizontal', kind: 'areal power', help: 'on a level plane' },
    { key: 'directNormal', kind: 'areal power', help: 'from the sun, on a plane facing it' },
    { key: 'diffuseHorizontal', kind: 'areal power', help: 'from the rest of the sky, on a level plane' },
    { key: 'airMass', kind: 'ratio', help: 'relative' },
    { key: 'absoluteAirMass', kind: 'ratio', help: 'corrected for pressure' },
    {
      key: 'secondGlobalHorizontal',
      kind: 'areal power',
      help: 'clear sky by Bird and Hulstrom with default gases and aerosol',
    },
    { key: 'secondDirectNormal', kind: 'areal power', help: 'the same, from the sun, on a plane facing it' },
  ],
  compute: (values) => {
    const wrong = skyProblem(values);
    if (wrong) return wrong;
    const sky = skyOf(values);
    const pressure = standardPressureAt(numberOf(values, 'altitude'));
    const second = clearSkyBird({
      zenith: numberOf(values, 'zenith'),
      extraterrestrial: sky.extraterrestrial,
      pressure,
    });
    return {
      globalHorizontal: sky.globalHorizontal,
      directNormal: sky.directNormal,
      diffuseHorizontal: sky.diffuseHorizontal,
      airMass: sky.airMass,
      absoluteAirMass: absoluteAirMass(sky.airMass, pressure),
      secondGlobalHorizontal: second.globalHorizontal,
      secondDirectNormal: second.directNormal,
    };
  },
};

const turbidityRelation: Relation = {
  topic: 'turbidity',
  title: 'Linke turbidity to expect for a month and kind of place',
  inputs: [
    { key: 'month', kind: 'count', help: '1 to 12' },
    { key: 'place', kind: 'choice', choices: Object.keys(monthlyTurbidity), help: 'kind of place', default: 'rural' },
    { key: 'latitude', kind: 'angle', help: 'south of the equator the month is shifted by six', default: Math.PI / 4 },
  ],
  outputs: [
    { key: 'turbidity', kind: 'ratio', help: 'monthly mean' },
    { key: 'standardUncertainty', kind: 'ratio', help: 'of a value not measured on the day' },
  ],
  compute: (values) => {
    const month = numberOf(values, 'month');
    if (!Number.isInteger(month) || month < 1 || month > 12) {
      return { reason: 'there are twelve months', remedy: 'give a month from 1 to 12' };
    }
    const estimate = linkeTurbidity({
      month,
      place: values.place as PlaceKind,
      latitude: numberOf(values, 'latitude'),
    });
    return { turbidity: estimate.value, standardUncertainty: estimate.standardUncertainty };
  },
};

export const skyRelations: readonly Relation[] = [sunRelation, daylightRelation, skyRelation, turbidityRelation];
