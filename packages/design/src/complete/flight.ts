import type { AircraftDesign, FlightDesign } from '../aircraft.js';
import type { Valued } from '../schema/field.js';
import { type Log, orDefault, withSpread } from './assumptions.js';

/** How it is flown; a stated level power also states the airspeed at which it holds. */
export function completeFlight(log: Log, design: AircraftDesign): FlightDesign {
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
    ...flight,
    airspeed: flight.airspeed ?? design.levelPower?.airspeed ?? 'least power',
    bank,
    stallFactor: orDefault(log, 'flight.stall factor', flight.stallFactor, {
      kind: 'ratio',
      value: 1.25,
      sigma: 0,
      why: 'margin over the stall, common practice',
    }),
    profileDragFactor: factor('profile drag factor', flight.profileDragFactor),
    inducedDragFactor: factor('induced drag factor', flight.inducedDragFactor),
    levelPowerFactor: factor('level power factor', flight.levelPowerFactor),
    airAndControlFactor: orDefault(log, 'flight.air and control factor', flight.airAndControlFactor, {
      kind: 'ratio',
      value: 1.15,
      sigma: 0.07,
      why: 'turbulence, control and height hold at midday, judgement',
    }),
  };
}

/** Loads as stated; where none is, receiver and servos by the size of the aircraft. */
export function completeLoads(
  log: Log,
  loads: AircraftDesign['loads'],
  sizeMass: number,
): NonNullable<AircraftDesign['loads']> {
  const entries = Object.entries(loads ?? {});
  const always: Valued = { value: 1, source: 'stated' };
  if (entries.length === 0) {
    const value = 0.5 + 0.5 * sizeMass;
    const why = 'no loads stated; receiver and servos usual for this size';
    const power = orDefault(log, 'loads.receiver and servos', undefined, {
      kind: 'power',
      value,
      sigma: 0.4 * value,
      why,
    });
    return { 'receiver and servos': { power, share: always } };
  }
  const complete = entries.map(([name, load]) => {
    const power = withSpread(
      log,
      `loads.${name}.power`,
      'power',
      load.power,
      { share: 0.15 },
      'small loads are seldom measured',
    );
    return [name, { ...load, power, share: load.share ?? always }] as const;
  });
  return Object.fromEntries(complete);
}
