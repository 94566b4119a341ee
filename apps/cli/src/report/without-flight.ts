import type { CompleteAircraft } from '@noonwing/design';
import { windowEnergy } from '@noonwing/engine/battery';
import { type Verdict, verdict } from '@noonwing/verdict';
import type { Answered } from '../input/run.js';

/** What the sun would deliver under one sky on the first day, whatever flies. */
export interface Harvest {
  readonly sky: string;
  /** Greatest power that the converters could deliver [W], and when [s, Unix]. */
  readonly most: number;
  readonly mostAt: number;
  /** Over the day [J]. */
  readonly energy: number;
  /** Level power with all loads that sunlight would carry for eight hours [W]; 0 where it carries none. */
  readonly eightHours: number;
}

/** What can be said of an aircraft that cannot fly: income and stored energy depend on no flight. */
export interface WithoutFlight {
  readonly harvests: readonly Harvest[];
  /** Of the usable battery, before losses [J]. */
  readonly stored: number;
}

/** A level power that stands for any: what the sun delivers hardly depends on it. Usual watts per kilogram, from memory. */
const usualPowerPerMass = 8;

/**
 * Income and stored energy of an aircraft without a flight: the same stages, with a usual level power in the place of
 * the one that cannot be found. Cells are taken level in pitch and at the bank of the design.
 */
export function withoutFlight({ design, day, stages }: Answered): WithoutFlight {
  const { drive: _drive, ...glider } = design.aircraft;
  const power = { value: usualPowerPerMass * design.aircraft.sizeMass, sigma: 0, source: 'assumed' as const };
  const stand: CompleteAircraft = { ...glider, measured: [], levelPower: { power } };
  const found = verdict(stand, day.plan, design.files, stages, { samples: 0 });
  const { array, pack } = found.prepared.run;
  const harvests = array === undefined ? [] : found.skies.map((_, i) => harvestOf(found, i));
  return { harvests, stored: windowEnergy(pack) };
}

function harvestOf({ grid, skies }: Verdict, index: number): Harvest {
  const { run } = skies[index]!;
  const first = run.offered.subarray(0, grid.stepsPerDay);
  const step = grid.times[1]! - grid.times[0]!;
  const best = first.reduce((most, power, i) => (power > first[most]! ? i : most), 0);
  const eight = Math.min(first.length, Math.round((8 * 3600) / step));
  return {
    sky: run.sky.name,
    most: Math.max(0, first[best]!),
    mostAt: grid.sun.time[best]!,
    energy: first.reduce((sum, power) => sum + Math.max(0, power) * step, 0),
    eightHours: Math.max(0, [...first].sort((a, b) => b - a)[eight - 1] ?? 0),
  };
}
