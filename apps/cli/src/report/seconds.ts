import type { BusOfDay } from '@noonwing/verdict/bus-day';
import type { Answered } from '../input/run.js';
import { jsonQuantity } from '../output/json.js';
import { percent } from '../output/numbers.js';
import { wrapped } from '../output/table.js';

/** Trackers in turns, lowest voltages of the bus beside what fails below them, bursts at cloud edges. */
export function secondsLines({ verdict }: Answered, bus: BusOfDay | undefined): readonly string[] {
  const volts = (value: number) => `${value.toFixed(1)} V`;
  const trackers = verdict.trackers.map(
    ({ converter, share, caught }) =>
      `Tracker "${converter}" in a turn: finds ${percent(share, 1)}, below the best for ${percent(caught, 0)} of the time.`,
  );
  if (bus === undefined) return trackers;
  const { lowVoltageCut, regulatorDropOut, receiverBrownOut } = bus.floors;
  const floors = [
    ...(lowVoltageCut > 0 ? [`the speed controller cuts the motor below ${volts(lowVoltageCut)}`] : []),
    `the regulator drops out below ${volts(regulatorDropOut)}`,
    `the receiver restarts below ${volts(receiverBrownOut)}`,
  ];
  const turns = bus.turns.map(
    ({ name, lowestVoltage, stateOfCharge }) =>
      `  ${name}: ${volts(lowestVoltage)}, battery at ${percent(stateOfCharge, 0)}`,
  );
  const bursts = bus.bursts.map(
    ({ string, openCircuitVoltage, shortCircuitCurrent, power }) =>
      `  "${string}": ${power.toFixed(0)} W, ${volts(openCircuitVoltage)} open, ${shortCircuitCurrent.toFixed(1)} A shorted`,
  );
  return [
    ...trackers,
    '',
    ...(turns.length === 0
      ? []
      : [...wrapped(`Lowest voltage of the bus in seconds (${floors.join(', ')})`, 100, '', '  ')]),
    ...turns,
    ...(bursts.length === 0 ? [] : ['Most that strings give for seconds, cold cells in 1.3 suns at a cloud edge']),
    ...bursts,
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
