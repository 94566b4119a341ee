import type { Air } from '@noonwing/engine/air';
import type { BatteryPack, CellPack } from '@noonwing/engine/battery';
import {
  type ArrayMaxima,
  type ArrayPlan,
  airFactorAt,
  type BusPlan,
  type ChargeCourse,
  type DayFigures,
  dayFigures,
  incomePowerAt,
  type Load,
  loadPowerAt,
  runCharge,
} from '@noonwing/engine/day';
import { lightLedger, type SkyTrack } from '@noonwing/engine/sun';
import { type DayGrid, type LightCourse, type LightSetup, maximaOf, type SkyCase, skyTermsOf } from './day-setup.js';
import type { Deviations } from './deviations.js';
import type { FlightNeed } from './need.js';

/** What a run through the days needs beside grid, light and need; the same for the central case and for samples. */
export interface RunSetup {
  readonly array: ArrayPlan | undefined;
  /** Factor on the array by a reading in the sun; 1 without. */
  readonly arrayFactor: number;
  readonly pack: BatteryPack;
  /** Bus voltage where there is no battery [V]. */
  readonly busVoltage: number;
  readonly batteryTemperature: number;
  readonly chargeAtLaunch: number;
  readonly launch: number;
  readonly loads: readonly Load[];
  readonly airFactor: { readonly night: number; readonly midday: number };
  readonly turbidity: number;
  readonly albedo: number;
  readonly altitude: number;
  readonly air: Air;
}

/** One sky run through the days. */
export interface SkyRun {
  readonly sky: SkyCase;
  readonly figures: DayFigures;
  readonly course: ChargeCourse;
  /** Power that the converters could deliver, by step [W]. */
  readonly offered: Float64Array;
  /** Power that flight and loads take, by step [W]. */
  readonly need: Float64Array;
  readonly maxima: ArrayMaxima | undefined;
}

/** Need along the grid: drive power times the factor for air and control, and the loads of the hour. */
export function needCourse(grid: DayGrid, setup: RunSetup, flight: FlightNeed, deviations: Deviations): Float64Array {
  const { airFactor, loads } = setup;
  const factor = {
    night: airFactor.night,
    midday: Math.max(1, airFactor.midday + deviations.airFactor),
    sigma: 0,
  };
  const need = new Float64Array(grid.hours.length);
  for (let i = 0; i < need.length; i++) {
    const air = airFactorAt(factor, grid.sun.up[i]!, grid.greatestSine[i]!);
    need[i] = flight.drivePower * air + deviations.loads * loadPowerAt(loads, grid.hours[i]!);
  }
  return need;
}

/** Light of a sample: the clear sky of another haze, and another light level, on the remembered geometry; cells warm in proportion to the light. */
export function deviatedLight(
  grid: DayGrid,
  setup: RunSetup,
  light: LightSetup,
  central: LightCourse,
  clear: SkyTrack,
  sky: SkyCase,
  deviations: Deviations,
): LightCourse {
  const { terms, sky: track } = skyTermsOf(grid, clear, { clearSkyIndex: sky.clearSkyIndex, albedo: setup.albedo });
  const ledger = lightLedger(light.geometry, terms);
  const temperature = new Float64Array(central.temperature.length);
  const facets = light.geometry.facetCount;
  for (let i = 0; i < temperature.length; i++) {
    const effective = ledger.effective[i]! * deviations.light;
    ledger.effective[i] = effective;
    const before = central.ledger.effective[i]!;
    const ambient = central.ambient[Math.floor(i / facets)]!;
    const excess = before > 0 ? ((central.temperature[i]! - ambient) * effective) / before : 0;
    temperature[i] = ambient + excess + (effective > 0 ? deviations.cellTemperature : 0);
  }
  return { ...central, sky: track, ledger, temperature };
}

/** Share of the strings' power that reaches a motor hung directly on them, its throttle kept at the best point by hand or autopilot (judgement). */
const directThrottleShare = 0.9;

/** Power that the converters deliver at a step and bus voltage [W], deviations included. */
function offeredPower(setup: RunSetup, array: ArrayPlan, maxima: ArrayMaxima, deviations: Deviations) {
  const unbuffered = setup.pack.kind === 'none' && array.converters.every(({ topology }) => topology === 'direct');
  const factor = deviations.converter * setup.arrayFactor;
  return (step: number, busVoltage: number): number => {
    if (unbuffered) {
      let power = 0;
      for (let s = 0; s < array.strings.length; s++) power += maxima.power[s * maxima.instants + step]!;
      return power * directThrottleShare * factor;
    }
    const power = incomePowerAt(array, maxima, step, busVoltage > 0 ? busVoltage : setup.busVoltage);
    return power > 0 ? power * factor : power;
  };
}

/** Battery of a sample. */
function deviatedPack(pack: BatteryPack, deviations: Deviations): BatteryPack {
  const { capacity, batteryResistance } = deviations;
  if (pack.kind === 'none' || (capacity === 1 && batteryResistance === 1)) return pack;
  if (pack.kind === 'energy') return { ...pack, energy: pack.energy * capacity };
  const cellResistance: CellPack['cellResistance'] = {
    ...pack.cellResistance,
    resistance: pack.cellResistance.resistance.map((ohms) => ohms * batteryResistance),
  };
  return { ...pack, cellCapacity: pack.cellCapacity * capacity, cellResistance };
}

/**
 * Runs one sky through the days of a grid.
 * @param remembered - what the strings can give under this light, where it is known already
 */
export function runSky(
  grid: DayGrid,
  setup: RunSetup,
  sky: SkyCase,
  light: LightCourse | undefined,
  flight: FlightNeed,
  deviations: Deviations,
  remembered?: ArrayMaxima,
): SkyRun {
  const { array } = setup;
  const need = needCourse(grid, setup, flight, deviations);
  const maxima =
    array === undefined || light === undefined
      ? undefined
      : scaledMaxima(remembered ?? maximaOf(array, light), deviations);
  const income = array === undefined || maxima === undefined ? () => 0 : offeredPower(setup, array, maxima, deviations);
  const steps = need.length;
  const offered = new Float64Array(steps);
  const pack = deviatedPack(setup.pack, deviations);
  const from = firstStepAfter(grid, setup.launch);
  const plan: BusPlan = {
    times: grid.times,
    need,
    income: (step, voltage) => {
      offered[step] = income(step, voltage);
      return offered[step]!;
    },
    from,
    to: steps,
  };
  const charge = Math.min(1, Math.max(0, setup.chargeAtLaunch + deviations.chargeAtLaunch));
  const start = { stateOfCharge: charge, temperature: setup.batteryTemperature };
  const course = runCharge(pack, start, plan);
  // Steps that are not flown (before the launch, after the end) still show what the sun would have given.
  const last = course.emptyAt === undefined ? steps : lastStepBefore(grid, course.emptyAt);
  for (let i = 0; i < steps; i++) if (i < from || i > last) offered[i] = income(i, setup.busVoltage);
  const figures = dayFigures(pack, setup.batteryTemperature, course, {
    times: grid.times,
    offered,
    need,
    launch: grid.times[from]!,
    dayEnd: grid.dayEnd,
  });
  return { sky, figures, course, offered, need, maxima };
}

function scaledMaxima(maxima: ArrayMaxima, deviations: Deviations): ArrayMaxima {
  const factor = deviations.cellPower * deviations.cover;
  if (factor === 1) return maxima;
  const scaled = (power: Float64Array) => power.map((watts) => watts * factor);
  return {
    ...maxima,
    power: scaled(maxima.power),
    ownPower: scaled(maxima.ownPower),
    equalLightPower: scaled(maxima.equalLightPower),
  };
}

function firstStepAfter(grid: DayGrid, time: number): number {
  const step = grid.times[1]! - grid.times[0]!;
  const index = Math.round((time - grid.times[0]!) / step);
  return Math.min(grid.times.length - 2, Math.max(0, index));
}

function lastStepBefore(grid: DayGrid, time: number): number {
  const step = grid.times[1]! - grid.times[0]!;
  return Math.min(grid.times.length - 2, Math.max(0, Math.floor((time - grid.times[0]!) / step)));
}
