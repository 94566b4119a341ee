import type { Assumption } from '@noonwing/design';
import { formatDate, formatPlace, formatQuantity } from '@noonwing/quantities';
import { confidenceWords, dayLedger, type Interval, type SkyVerdict, type Verdict } from '@noonwing/verdict';
import type { AssumptionResult, Band, DayResult, Fact, LedgerResult, SkyResult, Stretch } from './answer.js';
import { offsetText } from './clock.js';
import { wattsText } from './words.js';

const hour = 3600;

/** What the page shows of a verdict: plain data with clock times in hours. */
export function dayResult(found: Verdict, assumptions: readonly AssumptionResult[]): DayResult {
  const { prepared, grid } = found;
  const { plan, model } = prepared;
  const clock = (time: number): number => (time - plan.midnight) / hour;
  const figures = found.skies[0]?.run.figures;
  const ledger = ledgerResult(found, clock);
  return {
    aircraft: model.complete.name,
    placeText: [plan.placeName, formatPlace(plan)].filter((part) => part !== undefined).join(', '),
    date: formatDate(plan.date),
    clock: `UTC${offsetText(plan.utcOffset)}`,
    launch: clock(prepared.run.launch),
    horizon: (figures?.horizon ?? 0) / hour,
    hasBattery: prepared.run.pack.kind !== 'none',
    facts: factsOf(found),
    problems: found.problems.map(({ reason, where, remedy }) => ({ text: reason, where, remedy })),
    warnings: found.warnings.map(({ message, where = '' }) => ({ text: message, where, remedy: '' })),
    measured: prepared.measured.map(({ stage, source }) => `${stage}: ${source}`),
    times: grid.times.map(clock),
    need: found.skies[0]?.run.need ?? new Float64Array(0),
    daylight: daylightOf(grid.times.map(clock), grid.sun.up),
    skies: found.skies.map((sky) => skyResult(sky, found, clock)),
    ...(ledger === undefined ? {} : { ledger }),
    contributions: found.contributions.map(({ input, effect, share }) => ({
      label: input.label,
      origin: input.origin,
      effect,
      share,
      measurement:
        input.measurement === undefined ? '' : `${input.measurement.what}, about ${input.measurement.minutes} min`,
    })),
    assumptions,
    samples: found.samples,
    stepError: found.sampleStepError,
  };
}

function skyResult(sky: SkyVerdict, found: Verdict, clock: (time: number) => number): SkyResult {
  const { figures, course, offered, need } = sky.run;
  const { dayEnd, times } = found.grid;
  const band = ({ value, low, high }: Interval, per = 1): Band => ({
    value: value / per,
    low: low / per,
    high: high / per,
  });
  const clockBand = ({ value, low, high }: Interval): Band => ({
    value: clock(value),
    low: clock(low),
    high: clock(high),
  });
  const best = stepOf(times, figures.bestRatioAt);
  return {
    name: sky.run.sky.name,
    confidence: confidenceWords(sky.confidence),
    windows: figures.windows
      .filter(({ start }) => start < dayEnd)
      .map(({ start, end }) => ({ start: clock(start), end: clock(end) })),
    ...(sky.start === undefined || sky.end === undefined
      ? {}
      : { start: clockBand(sky.start), end: clockBand(sky.end) }),
    carried: band(sky.carried, hour),
    endurance: band(sky.endurance, hour),
    ...(course.emptyAt === undefined ? {} : { emptyAt: clock(course.emptyAt) }),
    ...(course.fullAt === undefined ? {} : { fullAt: clock(course.fullAt) }),
    lowestCharge: band(sky.lowestCharge),
    lowestChargeAt: clock(figures.lowestChargeAt),
    ...(sky.leftAtDawn === undefined ? {} : { leftAtDawn: band(sky.leftAtDawn, hour) }),
    fullBeforeDusk: band(sky.fullBeforeDusk, hour),
    bestRatio: band(sky.bestRatio),
    bestRatioAt: clock(figures.bestRatioAt),
    bestIncome: offered[best]!,
    bestNeed: need[best]!,
    income: offered,
    charge: course.stateOfCharge,
  };
}

function stepOf(times: Float64Array, time: number): number {
  const step = times[1]! - times[0]!;
  return Math.min(times.length - 2, Math.max(0, Math.floor((time - times[0]!) / step)));
}

/** Stretches of steps in which the sun is above the horizon. times - ends of the steps; up - sine of its height by step */
export function daylightOf(times: Float64Array, up: Float64Array): readonly Stretch[] {
  const found: Stretch[] = [];
  for (let i = 0; i < up.length; i++) {
    if (!(up[i]! > 0)) continue;
    const from = i;
    while (i < up.length && up[i]! > 0) i++;
    found.push({ start: times[from]!, end: times[i]! });
  }
  return found;
}

function factsOf({ prepared, flight, levelPower }: Verdict): readonly Fact[] {
  const facts: Fact[] = [];
  if (levelPower !== undefined) {
    const { value, low, high } = levelPower;
    const band = high > low ? ` (${wattsText(low)} to ${wattsText(high)})` : '';
    facts.push({
      label: 'Level power',
      value: `${wattsText(value)}${band} from the battery, loads included, in calm air`,
    });
  }
  if (flight !== undefined) {
    facts.push({ label: 'Airspeed', value: speedText(prepared.conditions.stallFactor, flight) });
    const bank = (flight.bank * 180) / Math.PI;
    if (bank > 0.5) facts.push({ label: 'Bank', value: `${bank.toFixed(0)} deg, held in the circle` });
  }
  const { balance } = prepared.model;
  if (balance !== undefined) {
    const { mass, x, uncertainty } = balance;
    facts.push({ label: 'Mass', value: formatQuantity({ value: mass, sigma: uncertainty.mass }, 'mass') });
    facts.push({ label: 'Balance point (CG)', value: `${(1000 * x).toFixed(0)} mm aft of the datum` });
  }
  facts.push({ label: 'Air at the ground', value: airText(prepared.plan) });
  facts.push({
    label: 'Haze',
    value: `Linke turbidity ${prepared.turbidity.value.toFixed(1)} ± ${prepared.turbidity.sigma.toFixed(1)}`,
  });
  return facts;
}

function airText({ temperature, nightTemperature }: Verdict['prepared']['plan']): string {
  const celsius = (kelvin: number): string => (kelvin - 273.15).toFixed(0);
  const spread = temperature.sigma === undefined ? '' : ` ± ${temperature.sigma.toFixed(0)}`;
  return `${celsius(temperature.value)}${spread} degC in the afternoon, ${celsius(nightTemperature.value)} degC at the end of the night`;
}

function speedText(stallFactor: number, { airspeed, chosen }: NonNullable<Verdict['flight']>): string {
  const speed = `${airspeed.toFixed(1)} m/s`;
  if (chosen === undefined) return `${speed}, as stated`;
  const stall = `the stall is at ${chosen.stallSpeed.toFixed(1)} m/s`;
  const cost = chosen.cost > 0.05 ? `, which costs ${wattsText(chosen.cost)}` : '';
  if (chosen.reason === 'stall floor')
    return `${speed}: held up by the margin of ${stallFactor} above the stall${cost}; ${stall}`;
  return `${speed}, ${chosen.reason === 'stated' ? `as stated${cost}` : 'that of least power'}; ${stall}`;
}

function ledgerResult(found: Verdict, clock: (time: number) => number): LedgerResult | undefined {
  const ledger = dayLedger(found, 0);
  if (ledger === undefined) return undefined;
  return {
    sky: ledger.sky,
    at: clock(ledger.at),
    light: ledger.light,
    rows: ledger.rows.map(({ label, watts, share, partOf, note = '' }) => ({
      label,
      watts,
      share,
      isPart: partOf !== undefined,
      note,
    })),
  };
}

/** Assumptions with their values as a person would write them. */
export const assumptionsOf = (file: 'design' | 'day', list: readonly Assumption[]): readonly AssumptionResult[] =>
  list.map((assumption) => ({ file, path: assumption.path, value: assumedText(assumption), why: assumption.why }));

function assumedText({ what, kind, value, uncertainty }: Assumption): string {
  if (kind === 'choice' || typeof value === 'string') return String(value);
  const written = formatQuantity({ value, sigma: uncertainty }, kind);
  // Where only the uncertainty was filled in, the value itself is the builder's.
  return what === 'uncertainty' ? `± of ${written}` : written;
}
