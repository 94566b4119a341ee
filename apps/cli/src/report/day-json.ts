import { assumedValues, offsetText } from '@noonwing/design';
import type { Problem, Warning } from '@noonwing/engine';
import { formatDate } from '@noonwing/quantities';
import { confidenceWords, type KnownLimit, measurementsOf, type SkyVerdict, type Verdict } from '@noonwing/verdict';
import type { Answered } from '../input/run.js';
import { isoText } from '../output/clock.js';
import { jsonBand, jsonQuantity, jsonSeries } from '../output/json.js';
import type { Band } from '../output/numbers.js';
import { flyable, levelPowerParts, limitsOf, skyFinding } from './findings.js';
import { sectionsData, sectionsOf } from './sections.js';
import { withoutFlight } from './without-flight.js';

const limitSpeedData = ({ airspeed, ...said }: KnownLimit) => ({ ...jsonQuantity(airspeed, 'speed'), ...said });

/** The answer of `day` as data: every number is { value, unit } with its uncertainty or band where known. */
export function dayData(answered: Answered) {
  const { verdict, day, design } = answered;
  const { plan } = day;
  return {
    ok: true,
    design: design.path,
    name: design.aircraft.name,
    place: {
      ...(plan.placeName === undefined ? {} : { name: plan.placeName }),
      latitude: jsonQuantity(plan.latitude, 'angle'),
      longitude: jsonQuantity(plan.longitude, 'angle'),
      altitude: jsonQuantity(plan.altitude.value, 'length', plan.altitude.sigma),
    },
    date: formatDate(plan.date),
    days: jsonQuantity(plan.days, 'count'),
    clock: `UTC${offsetText(plan.utcOffset)}`,
    launch: isoText(verdict.prepared.run.launch, plan.utcOffset),
    canFly: flyable(verdict),
    notes: day.notes,
    skies: verdict.skies.map((sky) => skyData(sky, verdict)),
    ...(verdict.flight === undefined ? incomeData(answered) : {}),
    ...levelPowerData(verdict),
    ...massData(verdict),
    ...(verdict.limit === undefined ? {} : { limitSpeed: limitSpeedData(verdict.limit) }),
    sections: sectionsData(sectionsOf(verdict)),
    samples: jsonQuantity(verdict.samples, 'count'),
    sampleStepError: jsonQuantity(verdict.sampleStepError, 'ratio'),
    contributions: verdict.contributions.map(({ input, effect, share }) => ({
      input: input.label,
      origin: input.origin,
      effectOnSolarRatio: jsonQuantity(effect, 'ratio'),
      shareOfVariance: jsonQuantity(share, 'ratio'),
    })),
    measurements: measurementsOf(verdict).map(({ what, minutes, share }) => ({
      what,
      time: jsonQuantity(60 * minutes, 'time'),
      shareOfVariance: jsonQuantity(share, 'ratio'),
    })),
    measured: verdict.prepared.measured.map(({ stage, value, sigma, source }) => ({
      stage,
      source,
      ...(stage === 'mass'
        ? { value: jsonQuantity(value, 'mass', sigma * value) }
        : stage === 'balance'
          ? { value: jsonQuantity(value, 'length') }
          : { factor: jsonQuantity(value, 'ratio', sigma * value) }),
    })),
    assumed: jsonQuantity(assumedValues([...design.assumptions, ...day.assumptions]).length, 'count'),
    problems: problemData(verdict.problems),
    warnings: warningData(verdict.warnings),
  };
}

/** Income and stored energy of an aircraft that cannot fly. */
function incomeData(answered: Answered) {
  const { harvests, stored } = withoutFlight(answered);
  return {
    storedEnergy: jsonQuantity(stored, 'energy'),
    income: harvests.map(({ sky, most, mostAt, energy, eightHours }) => ({
      sky,
      most: { ...jsonQuantity(most, 'power'), at: isoText(mostAt, answered.day.plan.utcOffset) },
      energyOfTheDay: jsonQuantity(energy, 'energy'),
      needCarriedForEightHours: jsonQuantity(eightHours, 'power'),
    })),
  };
}

export const problemData = (problems: readonly Problem[]) =>
  problems.map(({ code, reason, where, remedy }) => ({ code, reason, where, remedy }));

export const warningData = (warnings: readonly Warning[]) =>
  warnings.map(({ code, message, where }) => ({ code, message, ...(where === undefined ? {} : { where }) }));

const times = (band: Band, utcOffset: number) => ({
  time: isoText(band.value, utcOffset),
  earliest: isoText(band.low, utcOffset),
  latest: isoText(band.high, utcOffset),
});

function skyData(sky: SkyVerdict, verdict: Verdict) {
  const { run, start, end } = sky;
  const { utcOffset } = verdict.prepared.plan;
  const { figures } = run;
  return {
    sky: run.sky.name,
    finding: skyFinding(sky, verdict),
    weather: { shareOfClearLight: jsonQuantity(run.sky.clearSkyIndex, 'ratio', run.sky.indexSigma) },
    carried: figures.longest !== undefined,
    confidence: {
      words: confidenceWords(sky.confidence),
      ...jsonQuantity(Math.round(10 * sky.confidence) / 10, 'ratio'),
    },
    ...(start === undefined || end === undefined
      ? {}
      : { window: { start: times(start, utcOffset), end: times(end, utcOffset) } }),
    windows: figures.windows.map((window) => ({
      start: isoText(window.start, utcOffset),
      end: isoText(window.end, utcOffset),
    })),
    timeCarried: jsonBand(sky.carried, 'time'),
    endurance: {
      ...jsonBand(sky.endurance, 'time'),
      reached: figures.endurance === undefined ? 'end of the days computed' : 'empty',
    },
    lasts: jsonQuantity(Math.round(10 * sky.lasts) / 10, 'ratio'),
    ...(verdict.prepared.run.pack.kind === 'none' ? {} : chargeData(sky)),
    bestSolarRatio: { ...jsonBand(sky.bestRatio, 'ratio'), at: isoText(figures.bestRatioAt, utcOffset) },
    limits: limitsOf(sky, verdict),
    course: courseData(sky, verdict),
  };
}

function chargeData(sky: SkyVerdict) {
  return {
    lowestCharge: jsonBand(sky.lowestCharge, 'ratio'),
    ...(sky.leftAtDawn === undefined ? {} : { leftAtDawn: jsonBand(sky.leftAtDawn, 'time') }),
    fullBeforeDusk: jsonBand(sky.fullBeforeDusk, 'time'),
  };
}

/** Half-hourly course from the first midnight on: instants, charge, offered income and need. */
function courseData({ run }: SkyVerdict, { grid, prepared }: Verdict) {
  const stride = Math.max(1, Math.round(1800 / (grid.times[1]! - grid.times[0]!)));
  const every = (values: Float64Array) =>
    values.filter((_, i) => i % stride === 0).subarray(0, run.need.length / stride);
  return {
    times: [...every(grid.times)].map((time) => isoText(time, prepared.plan.utcOffset)),
    stateOfCharge: jsonSeries(every(run.course.stateOfCharge), 'ratio'),
    income: jsonSeries(every(run.offered), 'power'),
    need: jsonSeries(every(run.need), 'power'),
  };
}

function levelPowerData(verdict: Verdict) {
  const { levelPower, flight } = verdict;
  if (levelPower === undefined || flight === undefined) return {};
  const { chosen } = flight;
  return {
    levelPower: {
      ...jsonBand(levelPower, 'power'),
      parts: levelPowerParts(verdict).map(({ label, watts }) => ({ part: label, ...jsonQuantity(watts, 'power') })),
    },
    airspeed: jsonQuantity(flight.airspeed, 'speed'),
    bank: jsonQuantity(flight.bank, 'angle'),
    ...(chosen === undefined
      ? {}
      : {
          stallSpeed: jsonQuantity(chosen.stallSpeed, 'speed'),
          costOfAirspeed: jsonQuantity(chosen.cost, 'power'),
          airspeedBecause: chosen.reason,
        }),
  };
}

function massData({ prepared }: Verdict) {
  const { balance } = prepared.model;
  if (balance === undefined) return {};
  return {
    mass: jsonQuantity(balance.mass, 'mass', balance.uncertainty.mass),
    balancePoint: jsonQuantity(balance.x, 'length', balance.uncertainty.x),
  };
}
