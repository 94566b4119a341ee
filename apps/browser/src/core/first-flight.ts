import { assumedValues } from '@noonwing/design';
import type { AssumptionView, Finding, PowerView, SkyView, VerdictView } from './view.js';
import type { LimitsView } from './view-limits-types.js';
import { confidenceText } from './words.js';

/** What the printable page for the first flight shows; SI, times in hours after the first local midnight. */
export interface FirstFlightData {
  readonly aircraft: string;
  readonly place: string;
  readonly date: VerdictView['plan']['date'];
  readonly mass?: { readonly value: number; readonly sigma: number; readonly assumed: number };
  readonly balance?: {
    readonly point: number;
    readonly sigma: number;
    readonly forward: number;
    readonly aft: number;
    /** In per cent of the mean chord, as shares. */
    readonly pointOfChord: number;
    readonly forwardOfChord: number;
    readonly aftOfChord: number;
    readonly neutralPoint: number;
    readonly staticMargin: number;
    readonly inside: boolean;
    readonly battery?: number;
  };
  /** [m/s]; stall in straight flight where the power report gives it. */
  readonly speeds?: {
    readonly stall: number;
    readonly stallStraight?: number;
    readonly flown: number;
    readonly leastPower: number;
    readonly bestRange?: number;
  };
  /** How fast it may fly [m/s] and why; absent where that is not known, which `limitUnknown` explains. */
  readonly limit?: {
    readonly speed: number;
    readonly words: string;
    readonly flown: number;
    readonly assumed: boolean;
    /** In the noon sun, where that is lower [m/s]. */
    readonly warm?: number;
  };
  readonly limitUnknown?: string;
  readonly throttle?: {
    readonly level: number;
    readonly propellerSpeed: number;
    readonly batteryCurrent: number;
    readonly motorCurrent: number;
    /** At full throttle at the speed flown [m/s]. */
    readonly climb?: number;
    readonly sink?: number;
  };
  readonly wind: {
    readonly expected: number;
    readonly gusts?: number;
    /** Mean wind at flying height below which there is headway to come home: share of the airspeed, field practice. */
    readonly most?: number;
  };
  readonly levelPower?: { readonly value: number; readonly low: number; readonly high: number };
  readonly skies: readonly {
    readonly name: string;
    readonly carried: number;
    readonly start?: number;
    readonly end?: number;
    readonly endurance: number;
    readonly lowestCharge: number;
    readonly confidence: string;
  }[];
  /** Values that nobody stated or measured, those of mass and balance first. */
  readonly onlyAssumed: readonly AssumptionView[];
  readonly measured: readonly string[];
  readonly findings: readonly Finding[];
  /** What stands against a first flight, in words; empty where nothing is known against it. */
  readonly against: readonly string[];
}

/** Mean wind over this share of the airspeed leaves too little headway (from memory, field practice; as in the verdict). */
const windShare = 0.55;

const skyLine = (sky: SkyView) => ({
  name: sky.name,
  carried: sky.carried.value,
  ...(sky.start === undefined ? {} : { start: sky.start.value }),
  ...(sky.end === undefined ? {} : { end: sky.end.value }),
  endurance: sky.endurance.value,
  lowestCharge: sky.lowestCharge.value,
  confidence: confidenceText(sky),
});

function balanceOf({ balance }: VerdictView): FirstFlightData['balance'] {
  if (balance === undefined) return undefined;
  const { balancePoint, range, meanChord, meanChordStart, battery } = balance;
  const ofChord = (x: number) => (x - meanChordStart) / meanChord;
  return {
    point: balancePoint.x,
    sigma: balance.balanceSigma,
    forward: range.forward,
    aft: range.aft,
    pointOfChord: ofChord(balancePoint.x),
    forwardOfChord: ofChord(range.forward),
    aftOfChord: ofChord(range.aft),
    neutralPoint: balance.neutralPoint,
    staticMargin: balance.staticMargin,
    inside: balancePoint.x >= range.forward && balancePoint.x <= range.aft,
    ...(battery === undefined ? {} : { battery: battery.x }),
  };
}

/** The point of the power report nearest to the speed flown. */
const nearestPoint = (power: PowerView | undefined, airspeed: number) =>
  power?.points.reduce<PowerView['points'][number] | undefined>(
    (best, point) =>
      best === undefined || Math.abs(point.airspeed - airspeed) < Math.abs(best.airspeed - airspeed) ? point : best,
    undefined,
  );

function flightOf({ flight }: VerdictView, power: PowerView | undefined): Pick<FirstFlightData, 'speeds' | 'throttle'> {
  const point = flight?.point;
  if (flight === undefined || point === undefined) return {};
  const near = nearestPoint(power, flight.airspeed);
  return {
    speeds: {
      stall: point.stallSpeed,
      ...(power !== undefined && Math.abs(power.bank) < 1e-6 ? { stallStraight: power.stallSpeed } : {}),
      flown: flight.airspeed,
      leastPower: point.leastPowerSpeed,
      ...(power?.bestRange === undefined ? {} : { bestRange: power.bestRange.airspeed }),
    },
    throttle: {
      level: point.drive.throttle,
      propellerSpeed: point.drive.propellerSpeed,
      batteryCurrent: point.drive.batteryCurrent,
      motorCurrent: point.drive.motorCurrent,
      ...(near?.climbRate === undefined ? {} : { climb: near.climbRate }),
      ...(near === undefined ? {} : { sink: near.sinkRate }),
    },
  };
}

const early = /^(masses|battery|all up mass|growth|glue|surfaces|bodies)/;

/** Limit speed, or why it is not known. */
function limitOf(limits: LimitsView | undefined, whyUnknown: string): Pick<FirstFlightData, 'limit' | 'limitUnknown'> {
  if (limits === undefined) return { limitUnknown: whyUnknown };
  const [first] = limits.limits;
  if (first === undefined) return { limitUnknown: 'none was found, which is no promise that there is none' };
  const { words, low } = first;
  const warm = limits.warm?.flight.first?.low ?? low;
  return {
    limit: {
      ...{ speed: low, words, flown: limits.airspeed, assumed: limits.layUps.length === 0 },
      ...(warm < low ? { warm } : {}),
    },
  };
}

function againstOf(
  view: VerdictView,
  balance: FirstFlightData['balance'],
  limit: FirstFlightData['limit'],
): readonly string[] {
  const found = view.findings.filter(({ severity }) => severity === 'problem');
  const problems = found.map(({ text }) => text);
  const outside = balance !== undefined && !balance.inside ? ['the balance point lies outside its range'] : [];
  const unweighed = view.measured.some(({ stage }) => stage === 'mass')
    ? []
    : ['the aircraft was not weighed ready to fly'];
  const unbalanced = view.measured.some(({ stage }) => /balance/.test(stage))
    ? []
    : ['its balance point was not measured'];
  // The verdict says so itself once it knows the limit.
  const isSaid = found.some(({ code }) => code === 'limit-speed');
  const isFast = limit !== undefined && limit.speed < limit.flown;
  const fast = isFast && !isSaid ? ['it is flown above its limit speed'] : [];
  return [...new Set([...problems, ...outside, ...fast, ...unweighed, ...unbalanced])];
}

/**
 * Collects the first-flight page.
 * power - level power against airspeed, best for straight flight; absent while it is computed
 * limits - how fast it may fly; absent while that is not known, for the reason in `whyUnknown`
 */
export function firstFlightData(
  view: VerdictView,
  power?: PowerView,
  limits?: LimitsView,
  whyUnknown = 'not computed yet',
): FirstFlightData {
  const balance = balanceOf(view);
  const limit = limitOf(limits, whyUnknown);
  const { plan } = view;
  const assumed = assumedValues(view.assumptions);
  return {
    aircraft: view.aircraft,
    place: plan.placeName ?? plan.name,
    date: plan.date,
    ...(view.balance === undefined
      ? {}
      : { mass: { value: view.balance.mass, sigma: view.balance.massSigma, assumed: view.balance.assumedMass } }),
    ...(balance === undefined ? {} : { balance }),
    ...flightOf(view, power),
    ...limit,
    wind: {
      expected: plan.wind.speed,
      ...(plan.wind.gusts === undefined ? {} : { gusts: plan.wind.gusts }),
      ...(view.flight === undefined ? {} : { most: windShare * view.flight.airspeed }),
    },
    ...(view.levelPower === undefined ? {} : { levelPower: { ...view.levelPower } }),
    skies: view.skies.map(skyLine),
    onlyAssumed: [
      ...assumed.filter(({ path }) => early.test(path)),
      ...assumed.filter(({ path }) => !early.test(path)),
    ],
    measured: view.measured.map(({ stage, source }) => `${stage}: ${source}`),
    findings: view.findings,
    against: againstOf(view, balance, limit.limit),
  };
}
