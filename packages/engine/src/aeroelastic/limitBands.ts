import type { Limit, LimitKind, LimitSpread } from './limitTypes.js';

/**
 * Relative standard deviation of each limit by the model alone (judgement; plane and lattice results of the same wings differ by such amounts:
 * divergence and reversal 8 %, flutter 12 %, what depends on small differences of moments 15 %).
 */
const modelSpread: Record<LimitKind, number> = {
  divergence: 0.08,
  'antisymmetric divergence': 0.08,
  'roll reversal': 0.1,
  'pitch reversal': 0.1,
  tuck: 0.15,
  'pitch stability': 0.15,
  'pitch trim': 0.15,
  'elevon float': 0.2,
  flutter: 0.12,
  'antisymmetric flutter': 0.12,
  buzz: 0.2,
  gust: 0.1,
  manoeuvre: 0.08,
  drag: 0.15,
};

/** 5 and 95 % of a normal distribution. */
const ninety = 1.645;

/** Speeds of elastic limits go with the root of stiffness, exactly where all of it changes alike. */
const elasticKinds: ReadonlySet<LimitKind> = new Set<LimitKind>([
  'divergence',
  'antisymmetric divergence',
  'roll reversal',
  'pitch reversal',
  'tuck',
  'pitch stability',
  'pitch trim',
  'flutter',
  'antisymmetric flutter',
  'buzz',
]);

/** Ratio of the best estimate to the ends of the 90 % band of a kind of limit. */
export function bandWidth(kind: LimitKind, spread: LimitSpread): number {
  const stiffness = elasticKinds.has(kind) ? Math.log1p(spread.stiffness) / 2 : 0;
  return Math.exp(ninety * Math.hypot(stiffness, modelSpread[kind], spread.control ?? 0));
}

/** A limit with its 90 % band: stiffness, model and controls as independent log-normal factors. */
export function bandedLimit(
  kind: LimitKind,
  words: string,
  airspeed: number,
  spread: LimitSpread,
  frequency?: number,
): Limit {
  const width = bandWidth(kind, spread);
  const band = { low: airspeed / width, high: airspeed * width };
  return { kind, words, airspeed, ...band, ...(frequency === undefined ? {} : { frequency }) };
}
