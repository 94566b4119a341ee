import type { AircraftDesign } from '../aircraft.js';
import type { Valued } from '../schema/field.js';
import { type Log, orChoice, orDefault, withSpread } from './assumptions.js';
import type { CompleteFlight, CompleteLoad } from './types.js';

const optional = <K extends string>(key: K, value: Valued | undefined): { [P in K]?: Valued } =>
  (value === undefined ? {} : { [key]: value }) as { [P in K]?: Valued };

/** How it is flown; a stated level power also states the airspeed at which it holds. */
export function completeFlight(log: Log, design: AircraftDesign): CompleteFlight {
  const flight = design.flight ?? {};
  const circles = flight.circleRadius !== undefined || flight.bank !== undefined;
  const factor = (key: string, given: Valued | undefined): Valued => {
    if (given !== undefined)
      return withSpread(log, `flight.${key}`, 'ratio', given, { share: 0.05 }, 'usual for a factor from flights');
    // The uncertainty of the model itself is the engine's and is not counted twice here.
    return { value: 1, sigma: 0, source: 'assumed' };
  };
  const bank = circles
    ? flight.bank
    : orDefault(log, 'flight.bank', undefined, {
        kind: 'angle',
        value: 0.26,
        sigma: 0.09,
        why: 'wide circles of about 15 deg, common practice',
      });
  return {
    airspeed: flight.airspeed ?? design.levelPower?.airspeed ?? 'least power',
    ...optional('bank', bank),
    ...optional('circleRadius', flight.circleRadius),
    ...optional('height', flight.height),
    stallFactor: orDefault(log, 'flight.stall factor', flight.stallFactor, {
      kind: 'ratio',
      value: 1.25,
      sigma: 0,
      why: 'margin over the stall, common practice',
    }),
    ...optional('maximumLift', flight.maximumLift),
    profileDragFactor: factor('profile drag factor', flight.profileDragFactor),
    inducedDragFactor: factor('induced drag factor', flight.inducedDragFactor),
    levelPowerFactor: factor('level power factor', flight.levelPowerFactor),
    airAndControlFactor: orDefault(log, 'flight.air and control factor', flight.airAndControlFactor, {
      kind: 'ratio',
      value: 1.15,
      sigma: 0.07,
      why: 'turbulence, control and height hold at midday, judgement',
    }),
    turbulence: orChoice(
      log,
      'flight.turbulence',
      flight.turbulence,
      'outdoors',
      'usual; what boundary layers feel of it: amplification 9 ± 2 at transition, judgement',
    ),
  };
}

type StatedLoads = NonNullable<AircraftDesign['loads']>;

const always: Valued = { value: 1, source: 'stated' };

/** Loads that a design or a plan states. */
export const statedLoads = (log: Log, loads: StatedLoads = {}): readonly CompleteLoad[] =>
  Object.entries(loads).map(([name, load]) => ({
    name,
    power: withSpread(
      log,
      `loads.${name}.power`,
      'power',
      load.power,
      { share: 0.15 },
      'small loads are seldom measured',
    ),
    ...(load.from === undefined ? {} : { from: load.from }),
    ...(load.to === undefined ? {} : { to: load.to }),
    share: load.share ?? always,
  }));

/** Loads as stated; where none is, receiver and servos by the size of the aircraft. */
export function completeLoads(log: Log, design: AircraftDesign, sizeMass: number): readonly CompleteLoad[] {
  const entries = Object.entries(design.loads ?? {});
  if (entries.length === 0) {
    const value = 0.5 + 0.5 * sizeMass;
    const why = 'no loads stated; receiver and servos usual for this size';
    return [
      {
        name: 'receiver and servos',
        power: orDefault(log, 'loads.receiver and servos', undefined, {
          kind: 'power',
          value,
          sigma: 0.4 * value,
          why,
        }),
        share: always,
      },
    ];
  }
  return statedLoads(log, design.loads);
}
