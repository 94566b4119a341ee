import type { Warning } from '@noonwing/engine';
import { type CellPack, packOpenCircuitVoltage, packResistance } from '@noonwing/engine/battery';
import { type BurstString, type BusFloors, cloudEdgeBurst, floorWarnings } from '@noonwing/engine/bus';
import type { ArrayPlan, ArrayString } from '@noonwing/engine/day';
import type { DayGrid } from './day-setup.js';
import type { Prepared } from './prepare.js';
import type { SkyRun } from './run.js';

/** Voltages below which something on the bus of a design fails. */
export function floorsOf({ model }: Pick<Prepared, 'model'>): Required<BusFloors> {
  const { regulatorDropOut, receiverBrownOut, drive } = model.complete;
  return {
    regulatorDropOut: regulatorDropOut.value,
    receiverBrownOut: receiverBrownOut.value,
    lowVoltageCut: drive?.speedController.lowVoltageCut?.value ?? 0,
  };
}

/** Where a floor is stated. */
const stated: Readonly<Record<string, string>> = {
  regulatorDropOut: 'regulator drop out',
  receiverBrownOut: 'receiver brown out',
  lowVoltageCut: 'drive.speed controller.low voltage cut',
};

/** Steps of a day in which the aircraft is in the air. */
export const flownSteps = ({ run: { launch } }: Prepared, grid: DayGrid, { need, course }: SkyRun): readonly number[] =>
  Array.from({ length: need.length }, (_, i) => i).filter(
    (i) => grid.times[i]! >= launch && grid.times[i]! < (course.emptyAt ?? grid.times.at(-1)!),
  );

/**
 * What fails on the bus of a day, from what the day has already: the voltage of the battery that carries the whole need by itself,
 * as under a thick cloud or with the sun behind the cells, against the floors; and a burst of light at a cloud edge on cells as
 * cold as the air against the ratings of converters. `busOfDay` runs the seconds of turns.
 */
export function busWarnings(prepared: Prepared, grid: DayGrid, sky: SkyRun | undefined): readonly Warning[] {
  const { pack, array } = prepared.run;
  const bursts = array === undefined ? [] : burstWarnings(prepared, array);
  if (pack.kind !== 'cells' || sky === undefined) return bursts;
  const lowest = lowestUnderCloud(prepared, pack, grid, sky);
  const low = floorWarnings(lowest, floorsOf(prepared)).map(({ code, message, where = '' }) => ({
    code,
    message: `without sun for a moment ${message}`,
    where: stated[where] ?? where,
  }));
  return [...low, ...bursts];
}

function lowestUnderCloud(prepared: Prepared, pack: CellPack, grid: DayGrid, sky: SkyRun): number {
  const { batteryTemperature } = prepared.run;
  let lowest = Number.MAX_VALUE;
  for (const step of flownSteps(prepared, grid, sky)) {
    const charge = Math.min(1, Math.max(0.005, sky.course.stateOfCharge[step]!));
    const open = packOpenCircuitVoltage(pack, charge);
    const resistance = packResistance(pack, charge, batteryTemperature);
    // V = E - R P / V; beyond the greatest power of the pack its half voltage.
    const root = Math.sqrt(Math.max(0, open * open - 4 * resistance * sky.need[step]!));
    lowest = Math.min(lowest, (open + root) / 2);
  }
  return lowest;
}

/** A string of the array on cells as cold as the air of the day, as a burst finds it. */
export const burstString = ({ cell, groups, parallel }: ArrayString, temperature: number): BurstString => ({
  cell,
  cells: groups.reduce((sum, { count }) => sum + count, 0),
  parallel,
  temperature,
});

/** Ratings of converters that a burst on all their strings together passes. */
export function burstWarnings({ model, plan }: Prepared, array: ArrayPlan): readonly Warning[] {
  return array.converters.flatMap(({ limits }, c) => {
    const hung = array.strings.filter(({ converter }) => converter === c);
    const { warnings } = cloudEdgeBurst(
      hung.map((string) => burstString(string, plan.temperature.value)),
      limits,
    );
    const name = model.complete.array?.converters[c]?.name ?? String(c + 1);
    return warnings.map((warning) => ({ ...warning, where: `array.converters.${name}` }));
  });
}
