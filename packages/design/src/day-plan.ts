import { date, place, timeOfDay, timeZone } from './notations.js';
import {
  choice,
  either,
  labelled,
  object,
  POSITIVE,
  quantity,
  type Read,
  record,
  required,
  SHARE,
  shortForm,
  text,
} from './schema/field.js';
import { loadField, textOnly } from './shared-fields.js';

const placeField = shortForm(
  'place',
  place('latitude and longitude'),
  object('place', {
    at: required(labelled('coordinates', place('latitude and longitude'))),
    name: text('name of the place'),
    altitude: quantity('length', 'altitude of the ground above sea level', {
      bounds: { from: -430, to: 6000 },
      example: '0 m',
    }),
  }),
  (at) => ({ at }),
  (full) => (Object.keys(full).length === 1 ? full.at : undefined),
);

const windField = shortForm(
  'wind 10 m above the ground',
  quantity('speed', 'mean wind 10 m above the ground', {
    bounds: { from: 0, to: 60 },
    usual: { to: 20 },
    example: '3 m/s',
  }),
  object('wind', {
    speed: required(
      quantity('speed', 'mean wind 10 m above the ground', {
        bounds: { from: 0, to: 60 },
        usual: { to: 20 },
        example: '3 m/s',
      }),
    ),
    from: labelled(
      'comes from',
      quantity('angle', 'direction it comes from, from north clockwise', { example: '135 deg' }),
    ),
    gusts: quantity('speed', 'gusts', { bounds: { from: 0, to: 80 }, usual: { to: 30 } }),
  }),
  (speed) => ({ speed }),
  (full) => (Object.keys(full).length === 1 ? full.speed : undefined),
);

/** The day plan: where, when, in which weather, and what is flown. */
export const dayPlanField = object('day plan', {
  noonwing: required(textOnly('day 1')),
  name: text('name of the plan'),
  notes: text('notes'),
  place: required(placeField),
  date: required(date('first day')),
  days: quantity('count', 'how many days on end', { bounds: { from: 1, to: 14 } }),
  timeZone: timeZone('clock of the place'),
  sky: choice(['clear', 'thin', 'broken', 'overcast', 'all'], 'sky to compute; all: clear, thin and broken'),
  clearness: quantity('ratio', 'own share of the clear-sky light that comes through', {
    bounds: { from: 0, to: 1.3 },
    example: '70 % ± 10 %',
  }),
  surroundings: choice(
    ['mountain', 'rural', 'coast', 'urban', 'industrial', 'desert'],
    'kind of place, for the haze of the month',
  ),
  turbidity: quantity('ratio', 'own Linke turbidity, in place of that of the surroundings', {
    bounds: { from: 1, to: 12 },
    example: '3.2 ± 0.5',
  }),
  ground: choice(
    ['grass', 'water', 'sand', 'snow', 'concrete', 'forest', 'soil'],
    'ground below, for the light that it returns',
  ),
  albedo: quantity('ratio', 'own share of the light that the ground returns', { bounds: SHARE, example: '20 %' }),
  temperature: quantity('temperature', 'air temperature at the ground, afternoon', {
    bounds: { from: 213, to: 333 },
    usual: { from: 243, to: 323 },
    example: '25 degC',
  }),
  nightTemperature: quantity('temperature', 'lowest air temperature of the night', { bounds: { from: 213, to: 333 } }),
  humidity: quantity('ratio', 'relative humidity', { bounds: SHARE }),
  pressure: quantity('pressure', 'air pressure at the place', { bounds: { from: 30000, to: 110000 } }),
  wind: windField,
  launch: either('launch', timeOfDay('launch time'), choice(['sunrise'], 'as soon as the sun is up')),
  landing: timeOfDay('planned landing'),
  chargeAtLaunch: quantity('ratio', 'state of charge at launch', { bounds: SHARE, example: '90 %' }),
  height: quantity('length', 'height flown above the ground', {
    bounds: { from: 0, to: 20000 },
    usual: { from: 5, to: 5000 },
    example: '80 m',
  }),
  airspeed: quantity('speed', 'airspeed flown, in place of that of the design', { bounds: POSITIVE }),
  bank: quantity('angle', 'bank held, in place of that of the design', { bounds: { from: 0, to: 1.3 } }),
  loads: record(
    loadField('a load of this day: its power, or power with hours'),
    'loads of this day by name; they replace those of the design of the same name',
    'load',
  ),
});

/** A day plan as read from a file: what is written, no default filled in. */
export type DayPlan = Read<typeof dayPlanField>;
