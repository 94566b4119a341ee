import type { BusOfDay } from '@noonwing/verdict/bus-day';
import type { Answered } from '../input/run.js';
import { jsonQuantity } from '../output/json.js';
import { percent } from '../output/numbers.js';

/** Trackers in turns, lowest voltages of the bus, bursts at cloud edges. */
export function secondsLines({ verdict }: Answered, bus: BusOfDay | undefined): readonly string[] {
  const volts = (value: number) => `${value.toFixed(1)} V`;
  return [
    ...verdict.trackers.map(
      ({ converter, share, caught }) =>
        `Tracker "${converter}" in a turn: finds ${percent(share, 1)}, below the best for ${percent(caught, 0)} of the time.`,
    ),
    ...(bus?.turns ?? []).map(
      ({ name, lowestVoltage, stateOfCharge }) =>
        `Bus, ${name}: not below ${volts(lowestVoltage)} at a charge of ${percent(stateOfCharge, 0)}.`,
    ),
    ...(bus?.bursts ?? []).map(
      ({ string, openCircuitVoltage, shortCircuitCurrent, power }) =>
        `Burst at a cloud edge on "${string}": ${volts(openCircuitVoltage)} open, ${shortCircuitCurrent.toFixed(1)} A shorted, ${power.toFixed(0)} W.`,
    ),
  ];
}

/** The same as data. */
export function secondsData({ verdict }: Answered, bus: BusOfDay | undefined) {
  return {
    trackers: verdict.trackers.map(({ converter, share, caught }) => ({
      converter,
      share: jsonQuantity(share, 'ratio'),
      caught: jsonQuantity(caught, 'ratio'),
    })),
    bus: (bus?.turns ?? []).map(({ name, lowestVoltage, stateOfCharge, share }) => ({
      name,
      lowestVoltage: jsonQuantity(lowestVoltage, 'voltage'),
      charge: jsonQuantity(stateOfCharge, 'ratio'),
      share: jsonQuantity(share, 'ratio'),
    })),
    bursts: (bus?.bursts ?? []).map((burst) => ({
      string: burst.string,
      openCircuitVoltage: jsonQuantity(burst.openCircuitVoltage, 'voltage'),
      shortCircuitCurrent: jsonQuantity(burst.shortCircuitCurrent, 'current'),
      power: jsonQuantity(burst.power, 'power'),
    })),
  };
}
