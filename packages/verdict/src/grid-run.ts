import { type ArrayMaxima, type ArrayPlan, type CellWarmth, cellWarmth } from '@noonwing/engine/day';
import { lightLedger } from '@noonwing/engine/sun';
import {
  clearSkyOf,
  type DayGrid,
  dayGrid,
  gridPlanOf,
  type LightCourse,
  type LightSetup,
  lightCourse,
  lightSetup,
  maximaOf,
  type SkyCourse,
  skyTermsOf,
  unequalLight,
} from './day-setup.js';
import { type Deviations, noDeviation } from './deviations.js';
import type { FlightNeed } from './need.js';
import type { Prepared } from './prepare.js';
import { deviatedLight, type RunSetup, runSky, type SkyRun } from './run.js';
import type { Stages } from './stages.js';

/** A grid with the light on the array under each sky. */
export interface GridRun {
  readonly grid: DayGrid;
  readonly light: LightSetup | undefined;
  readonly courses: readonly (LightCourse | undefined)[];
  /** What the strings can give under each of them. */
  readonly maxima: readonly (ArrayMaxima | undefined)[];
}

/**
 * Sun, light, cell temperatures and string maxima along a grid, each remembered by what it reads.
 * @param step - [s], divides a day
 */
export function gridRun(prepared: Prepared, flight: FlightNeed | undefined, step: number, stages: Stages): GridRun {
  const { plan, run, skies } = prepared;
  const gridPlan = gridPlanOf(plan);
  const grid = stages.run(`sun at ${step} s`, [JSON.stringify(gridPlan)], () => dayGrid(gridPlan, step));
  const { array } = run;
  if (array === undefined || flight === undefined) {
    const none = skies.map(() => undefined);
    return { grid, light: undefined, courses: none, maxima: none };
  }
  const pitch = flight.chosen?.flight.trim.alpha ?? 0;
  const attitude = { bank: round(flight.bank, 2e-3), pitch: round(pitch, 1e-2) };
  const light = stages.run(`light geometry at ${step} s`, [grid, array, attitude.bank, attitude.pitch], () =>
    lightSetup(grid, array, attitude),
  );
  const swing = plan.temperature.value - plan.nightTemperature.value;
  const air = { warmth: warmthStage(run, array, roundedSpeed(flight.airspeed), stages), swing };
  const courses = skyStages(prepared, grid, step, stages).map((sky) => {
    const ledger = stages.run(`light at ${step} s`, [light, sky], () => lightLedger(light.geometry, sky.terms));
    const unequal = stages.run(`unequal light at ${step} s`, [array, light, ledger], () =>
      unequalLight(grid, array, light, sky, ledger),
    );
    return stages.run(`cell temperature at ${step} s`, [ledger, unequal, air.warmth, swing], () =>
      lightCourse(grid, array, sky, ledger, unequal, air),
    );
  });
  const maxima = courses.map((course) =>
    stages.run(`strings at ${step} s`, [array, course], () => maximaOf(array, course)),
  );
  return { grid, light, courses, maxima };
}

const warmthStage = ({ air }: RunSetup, array: ArrayPlan, airspeed: number, stages: Stages): CellWarmth =>
  stages.run('cells in the air', [array, airspeed, air.temperature, air.pressure], () =>
    cellWarmth(array.facets, { air, airspeed }),
  );

/** Every sky of the plan along a grid; they share one clear sky. */
function skyStages({ run, skies }: Prepared, grid: DayGrid, step: number, stages: Stages): readonly SkyCourse[] {
  const { turbidity, altitude, albedo } = run;
  const clear = stages.run(`clear sky at ${step} s`, [grid, turbidity, altitude], () => clearSkyOf(grid, run));
  return skies.map(({ clearSkyIndex }) =>
    stages.run(`sky at ${step} s`, [clear, clearSkyIndex, albedo], () =>
      skyTermsOf(grid, clear, { clearSkyIndex, albedo }),
    ),
  );
}

/** Cells cool with about the root of the airspeed: half a per cent of it is 0.05 K or 0.02 % of the power, and is remembered. */
const roundedSpeed = (airspeed: number): number => Math.exp(round(Math.log(Math.max(airspeed, 0.1)), 5e-3));

/** Steps below which the attitude changes the mean light of a circle by less than 0.05 %, so that it is remembered. */
const round = (value: number, to: number): number => Math.round(value / to) * to;

/** Every sky of the plan run through the days of a grid. */
export function skyRuns(
  prepared: Prepared,
  at: GridRun,
  flight: FlightNeed,
  deviations: Deviations,
): readonly SkyRun[] {
  const central = deviations === noDeviation;
  const courses = central ? at.courses : deviatedCourses(prepared, at, deviations);
  return prepared.skies.map((sky, i) =>
    runSky(at.grid, prepared.run, sky, courses[i], flight, deviations, central ? at.maxima[i] : undefined),
  );
}

/** Light under every sky of a sample; the clear sky of its haze is computed once. */
function deviatedCourses(prepared: Prepared, at: GridRun, deviations: Deviations): GridRun['courses'] {
  const { run, skies } = prepared;
  const { light } = at;
  if (light === undefined) return at.courses;
  const sky = { turbidity: run.turbidity + deviations.turbidity, altitude: run.altitude };
  const clear = clearSkyOf(at.grid, sky, at.courses[0]?.sky);
  return skies.map((next, i) => {
    const central = at.courses[i];
    return central === undefined ? undefined : deviatedLight(at.grid, run, light, central, clear, next, deviations);
  });
}
