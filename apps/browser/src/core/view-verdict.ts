import {
  confidenceWords,
  type Interval,
  measurementsOf,
  type SkyVerdict,
  stringReports,
  type Verdict,
} from '@noonwing/verdict';
import { findingOf } from './finding.js';
import type { AssumptionView, Band, ContributionView, SkyView, Stretch, SunView, VerdictView } from './view.js';
import { balanceView, flightView, stringView } from './view-balance.js';
import { shapeView } from './view-shape.js';

const hour = 3600;

type Clock = (time: number) => number;

const bandOf = ({ value, low, high }: Interval, of: (value: number) => number = (x) => x): Band => ({
  value: of(value),
  low: of(low),
  high: of(high),
});

const hours = (seconds: number): number => seconds / hour;

/** Mean over facets by area, for each step of arrays indexed step x facets + facet. */
function meanOverFacets(values: Float64Array, areas: readonly number[]): Float64Array {
  const facets = areas.length;
  const total = areas.reduce((sum, area) => sum + area, 0);
  const mean = new Float64Array(facets === 0 ? 0 : values.length / facets);
  for (let i = 0; i < values.length; i++) mean[Math.floor(i / facets)]! += (values[i]! * areas[i % facets]!) / total;
  return mean;
}

function skyView(sky: SkyVerdict, index: number, found: Verdict, clock: Clock): SkyView {
  const { run, start, end, leftAtDawn } = sky;
  const { figures, course } = run;
  const at = (time: number) => clock(time);
  const light = found.courses[index];
  const areas = (found.prepared.run.array?.facets ?? []).map(({ area }) => area);
  const none = new Float64Array(found.grid.hours.length);
  return {
    name: run.sky.name,
    confidence: sky.confidence,
    confidenceText: found.samples === 0 ? '' : confidenceWords(sky.confidence),
    windows: figures.windows.map((window) => ({ start: at(window.start), end: at(window.end) })),
    ...(start === undefined ? {} : { start: bandOf(start, at) }),
    ...(end === undefined ? {} : { end: bandOf(end, at) }),
    carried: bandOf(sky.carried, hours),
    endurance: bandOf(sky.endurance, hours),
    lasts: sky.lasts,
    ...(course.emptyAt === undefined ? {} : { emptyAt: at(course.emptyAt) }),
    ...(course.emptyBecause === undefined ? {} : { emptyBecause: course.emptyBecause }),
    ...(course.fullAt === undefined ? {} : { fullAt: at(course.fullAt) }),
    lowestCharge: bandOf(sky.lowestCharge),
    lowestChargeAt: at(figures.lowestChargeAt),
    ...(leftAtDawn === undefined ? {} : { leftAtDawn: bandOf(leftAtDawn, hours) }),
    fullBeforeDusk: bandOf(sky.fullBeforeDusk, hours),
    solarRatio: figures.solarRatio,
    bestRatio: bandOf(sky.bestRatio),
    bestRatioAt: at(figures.bestRatioAt),
    income: run.offered,
    taken: course.income,
    curtailed: course.curtailed,
    batteryLoss: course.batteryLoss,
    terminalVoltage: course.terminalVoltage,
    charge: course.stateOfCharge,
    globalHorizontal: light?.sky.globalHorizontal ?? none,
    directNormal: light?.sky.directNormal ?? none,
    diffuseHorizontal: light?.sky.diffuseHorizontal ?? none,
    light: light === undefined ? none : meanOverFacets(light.ledger.effective, areas),
    cellTemperature: light === undefined ? none : meanOverFacets(light.temperature, areas),
  };
}

/** Stretches with the sun up; its rising and setting between two steps by a straight line. */
function daylightOf(middles: Float64Array, up: Float64Array): readonly Stretch[] {
  const stretches: Stretch[] = [];
  const crossing = (i: number) =>
    middles[i - 1]! + ((middles[i]! - middles[i - 1]!) * up[i - 1]!) / (up[i - 1]! - up[i]!);
  let start: number | undefined;
  for (let i = 0; i < up.length; i++) {
    const isUp = up[i]! > 0;
    if (isUp && start === undefined) start = i === 0 ? middles[0]! : crossing(i);
    if (!isUp && start !== undefined) {
      stretches.push({ start, end: crossing(i) });
      start = undefined;
    }
  }
  if (start !== undefined) stretches.push({ start, end: middles.at(-1)! });
  return stretches;
}

function sunView(found: Verdict, middles: Float64Array): SunView {
  const { sun } = found.grid;
  const direction = new Float64Array(3 * middles.length);
  for (let i = 0; i < middles.length; i++) direction.set([sun.east[i]!, sun.north[i]!, sun.up[i]!], 3 * i);
  return {
    direction,
    elevation: sun.apparentZenith.map((zenith) => Math.PI / 2 - zenith),
    azimuth: sun.azimuth,
    daylight: daylightOf(middles, sun.up),
  };
}

function contributionView({ input, effect, share }: Verdict['contributions'][number]): ContributionView {
  const { label, origin, measurement } = input;
  return {
    label,
    origin,
    effect,
    share,
    ...(measurement === undefined ? {} : { measurement: { what: measurement.what, minutes: measurement.minutes } }),
  };
}

function planView({ prepared }: Verdict): VerdictView['plan'] {
  const { plan, turbidity } = prepared;
  const { speed, gusts, from } = plan.wind;
  return {
    name: plan.name,
    ...(plan.placeName === undefined ? {} : { placeName: plan.placeName }),
    latitude: plan.latitude,
    longitude: plan.longitude,
    altitude: plan.altitude.value,
    date: { ...plan.date },
    days: plan.days,
    utcOffset: plan.utcOffset,
    midnight: plan.midnight,
    height: plan.height.value,
    wind: {
      speed: speed.value,
      ...(gusts === undefined ? {} : { gusts: gusts.value }),
      ...(from === undefined ? {} : { from: from.value }),
    },
    temperature: plan.temperature.value,
    nightTemperature: plan.nightTemperature.value,
    turbidity: turbidity.value,
  };
}

const findingsOf = ({ problems, warnings }: Verdict): VerdictView['findings'] => [
  ...problems.map(({ code, reason, where, remedy }) => findingOf('problem', { code, text: reason, where, remedy })),
  ...warnings.map(({ code, message, where = '' }) => findingOf('warning', { code, text: message, where, remedy: '' })),
];

/**
 * A verdict as plain data.
 * assumptions - of design and plan, as views; they are the same as long as the texts are
 */
export function verdictView(found: Verdict, assumptions: readonly AssumptionView[]): VerdictView {
  const { prepared, grid, balance, flight, levelPower } = found;
  const { plan, model, conditions } = prepared;
  const clock: Clock = (time) => (time - plan.midnight) / hour;
  const temperatures = { coldest: plan.nightTemperature.value, hottest: plan.temperature.value };
  return {
    aircraft: model.complete.name,
    plan: planView(found),
    launch: clock(prepared.run.launch),
    horizon: hours(found.skies[0]?.run.figures.horizon ?? 0),
    hasBattery: prepared.run.pack.kind !== 'none',
    // An unstable aircraft trims in the sums, not in the hands: nobody flies it for hours.
    canFly: flight !== undefined && !found.problems.some(({ code }) => code === 'unstable'),
    ...(levelPower === undefined ? {} : { levelPower: bandOf(levelPower) }),
    ...(flight === undefined ? {} : { flight: flightView(flight, conditions.steadyLoads) }),
    ...(balance === undefined ? {} : { balance: balanceView(balance) }),
    shape: shapeView(model),
    sections: (model.airframe?.assembled.sections ?? []).map(({ name, basis }) => ({ name, basis })),
    strings: stringReports(model, temperatures).map(stringView),
    times: grid.times.map(clock),
    middles: grid.hours,
    need: found.skies[0]?.run.need ?? new Float64Array(grid.hours.length),
    sun: sunView(found, grid.hours),
    skies: found.skies.map((sky, index) => skyView(sky, index, found, clock)),
    contributions: found.contributions.map(contributionView),
    measurements: measurementsOf(found).map((one) => ({ ...one })),
    measured: prepared.measured.map(({ stage, value, source }) => ({ stage, value, source })),
    assumptions,
    findings: findingsOf(found),
    samples: found.samples,
    stepError: found.sampleStepError,
  };
}
