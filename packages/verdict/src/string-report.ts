import type { Outcome } from '@noonwing/engine';
import { type StringVoltageFit, stringVoltageFit } from '@noonwing/engine/array';
import type { AircraftModel } from './aircraft.js';

/** How the voltage of one string meets the battery through its converter. */
export interface StringReport {
  readonly name: string;
  readonly cells: number;
  readonly parallel: number;
  readonly fit: Outcome<StringVoltageFit>;
}

/**
 * Voltage fit of every string over the battery's range.
 * @param temperatures - coldest and hottest air of the day [K]; cells in full sun run 10 to 35 K above it
 */
export function stringReports(
  model: AircraftModel,
  temperatures: { readonly coldest: number; readonly hottest: number },
): readonly StringReport[] {
  const { array, battery } = model;
  if (array === undefined || battery.highestVoltage === 0) return [];
  return array.plan.strings.map((string) => {
    const cells = string.groups.reduce((sum, group) => sum + group.count, 0);
    const fit = stringVoltageFit({
      string: { cell: string.cell, count: cells },
      converter: array.plan.converters[string.converter]!,
      batteryVoltageRange: { minimum: battery.lowestVoltage, maximum: battery.highestVoltage },
      temperatures: { coldest: temperatures.coldest, hottest: temperatures.hottest + 35 },
    });
    return {
      name: string.name,
      cells,
      parallel: string.parallel,
      fit: fit.ok ? fit : { ...fit, where: `array.strings.${string.name}` },
    };
  });
}
