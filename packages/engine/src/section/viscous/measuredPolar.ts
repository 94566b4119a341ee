import { interpolateLinear } from '../../math/interpolate.js';
import { type PolarPoint, polarDragAtLift, risingBranch, type SectionPolar } from './polar.js';

/** A measured point of a section; what was not measured is absent. Angles [rad], moment about the quarter chord. */
export interface MeasuredPoint {
  readonly reynolds: number;
  readonly incidence?: number;
  readonly lift: number;
  readonly drag?: number;
  readonly moment?: number;
}

/** Measured points of one Reynolds number, by rising incidence (those without one by rising lift, behind them). */
export interface MeasuredRun {
  readonly reynolds: number;
  readonly points: readonly MeasuredPoint[];
  /** Points taken on the way back from stall: kept, but not used, because the flow was still separated. */
  readonly returning: readonly MeasuredPoint[];
}

/** Reynolds numbers that differ by less than this share belong to one run. */
const SAME_RUN = 0.03;

/** Incidences closer than this are repeats of one point, and are averaged [rad]. */
const SAME_POINT = 0.002;

const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

/** Average of repeats; a quantity that only some of them have is averaged over those. */
function averaged(points: readonly MeasuredPoint[]): MeasuredPoint {
  const of = (key: 'incidence' | 'drag' | 'moment') => {
    const values = points.map((point) => point[key]).filter((one) => one !== undefined);
    return values.length === 0 ? {} : { [key]: mean(values) };
  };
  return {
    reynolds: mean(points.map(({ reynolds }) => reynolds)),
    lift: mean(points.map(({ lift }) => lift)),
    ...of('incidence'),
    ...of('drag'),
    ...of('moment'),
  };
}

/** Position from which incidence only falls, after it only rose; the length of the list where it does otherwise. */
function turningPoint(points: readonly MeasuredPoint[]): number {
  const angles = points.map(({ incidence }) => incidence ?? Number.NaN);
  const top = angles.indexOf(Math.max(...angles));
  const rises = angles.slice(1, top + 1).every((angle, i) => angle >= angles[i]);
  const falls = angles.slice(top + 1).every((angle, i) => angle < angles[top + i]);
  return top > 1 && rises && falls ? top + 1 : points.length;
}

/**
 * Measured points gathered into runs of one Reynolds number, rising, repeats averaged; the way back from stall is set aside.
 * points - in the order of measurement
 */
export function measuredRuns(points: readonly MeasuredPoint[]): readonly MeasuredRun[] {
  const groups: MeasuredPoint[][] = [];
  for (const point of points) {
    const group = groups.find(([first]) => Math.abs(first.reynolds / point.reynolds - 1) < SAME_RUN);
    if (group === undefined) groups.push([point]);
    else group.push(point);
  }
  return groups
    .map((group): MeasuredRun => {
      const turn = turningPoint(group);
      const way = group.slice(0, turn);
      const angled = way.filter(({ incidence }) => incidence !== undefined);
      const rising = angled.sort((a, b) => a.incidence! - b.incidence!);
      const bare = way.filter(({ incidence }) => incidence === undefined).sort((a, b) => a.lift - b.lift);
      const merged: MeasuredPoint[][] = [];
      for (const point of rising) {
        const last = merged[merged.length - 1];
        if (last !== undefined && point.incidence! - last[0].incidence! < SAME_POINT) last.push(point);
        else merged.push([point]);
      }
      return {
        reynolds: mean(group.map(({ reynolds }) => reynolds)),
        points: [...merged.map(averaged), ...bare],
        returning: group.slice(turn),
      };
    })
    .sort((a, b) => a.reynolds - b.reynolds);
}

type Part = 'lift' | 'drag' | 'moment';
const PARTS: readonly Part[] = ['lift', 'drag', 'moment'];

/** Scale on which a quantity is compared and blended: drag by its logarithm. */
const scaled = (part: Part, value: number): number => (part === 'drag' ? Math.log(value) : value);

/** Value of a polar at an incidence on that scale, held beyond its ends. */
function scaledAt(points: readonly PolarPoint[], part: Part, alpha: number): number {
  return interpolateLinear(
    points.map((point) => point.alpha),
    points.map((point) => scaled(part, point[part])),
    alpha,
  );
}

const risingUnion = (lists: readonly (readonly number[])[]): readonly number[] => {
  const all = lists.flat().sort((a, b) => a - b);
  return all.filter((angle, i) => i === 0 || angle - all[i - 1] > 1e-6);
};

/** A polar at given incidences, held beyond its ends. */
function resampled(points: readonly PolarPoint[], alphas: readonly number[]): readonly PolarPoint[] {
  const angles = points.map((point) => point.alpha);
  const at = (key: 'upperTransition' | 'lowerTransition', alpha: number) =>
    interpolateLinear(
      angles,
      points.map((point) => point[key]),
      alpha,
    );
  return alphas.map((alpha) => ({
    alpha,
    lift: scaledAt(points, 'lift', alpha),
    drag: Math.exp(scaledAt(points, 'drag', alpha)),
    moment: scaledAt(points, 'moment', alpha),
    upperTransition: at('upperTransition', alpha),
    lowerTransition: at('lowerTransition', alpha),
  }));
}

/**
 * Polar between two, linear in incidence by incidence (drag in its logarithm), each held beyond its ends.
 * a, b - points by rising incidence; t - 0 gives a, 1 gives b; from, to - incidences outside of which no point is wanted [rad]
 */
export function mixedPoints(
  a: readonly PolarPoint[],
  b: readonly PolarPoint[],
  t: number,
  from = Number.NEGATIVE_INFINITY,
  to = Number.POSITIVE_INFINITY,
): readonly PolarPoint[] {
  const all = risingUnion([a, b].map((points) => points.map(({ alpha }) => alpha)));
  const alphas = all.filter((alpha) => alpha >= from && alpha <= to);
  const [low, high] = [resampled(a, alphas), resampled(b, alphas)];
  const mix = (x: number, y: number) => x + t * (y - x);
  return low.map((p, i) => ({
    alpha: p.alpha,
    lift: mix(p.lift, high[i].lift),
    drag: Math.exp(mix(Math.log(p.drag), Math.log(high[i].drag))),
    moment: mix(p.moment, high[i].moment),
    upperTransition: mix(p.upperTransition, high[i].upperTransition),
    lowerTransition: mix(p.lowerTransition, high[i].lowerTransition),
  }));
}

/**
 * Polar at a Reynolds number between those of a list, linear in the logarithm of the Reynolds number (drag in its own); that of the
 * nearest end beyond them.
 * polars - by rising Reynolds number, each with points
 */
export function polarBetween(polars: readonly SectionPolar[], reynolds: number): SectionPolar {
  const upper = polars.findIndex((polar) => polar.reynolds >= reynolds);
  if (upper <= 0) return { ...polars[upper === 0 ? 0 : polars.length - 1], reynolds };
  const [a, b] = [polars[upper - 1], polars[upper]];
  const t = Math.log(reynolds / a.reynolds) / Math.log(b.reynolds / a.reynolds);
  const points = mixedPoints(a.points, b.points, t);
  return { reynolds, points, holes: [] };
}

/** What measurement adds to a computed polar, by incidence: to lift and moment, and to the logarithm of drag. */
interface Correction {
  readonly reynolds: number;
  readonly alphas: readonly number[];
  readonly added: readonly number[];
}

/** Incidence of a point without one: where the computed polar has its lift; undefined beyond the rising branch. */
function incidenceOf(point: MeasuredPoint, branch: readonly PolarPoint[]): number | undefined {
  if (point.incidence !== undefined) return point.incidence;
  const last = branch[branch.length - 1];
  if (last === undefined || point.lift < branch[0].lift || point.lift > last.lift) return undefined;
  return interpolateLinear(
    branch.map(({ lift }) => lift),
    branch.map(({ alpha }) => alpha),
    point.lift,
  );
}

function correctionOf(polar: SectionPolar, run: MeasuredRun, part: Part): Correction | undefined {
  const branch = risingBranch(polar);
  const found = run.points
    .flatMap((point) => {
      const alpha = incidenceOf(point, branch);
      const value = point[part];
      return alpha === undefined || value === undefined
        ? []
        : [{ alpha, added: scaled(part, value) - scaledAt(polar.points, part, alpha) }];
    })
    .sort((a, b) => a.alpha - b.alpha);
  if (found.length < 2) return undefined;
  return {
    reynolds: run.reynolds,
    alphas: found.map(({ alpha }) => alpha),
    added: found.map(({ added }) => added),
  };
}

/** Incidence over which a correction dies out beyond its measured ends [rad]. */
const ANGLE_FADE = (3 * Math.PI) / 180;
/** Logarithm of the ratio of Reynolds numbers over which it dies out: a factor of two, the distance of stored rows. */
const REYNOLDS_FADE = Math.LN2;

/** 1 at nought, 0 from one on, level at both. */
const fade = (t: number): number => (t <= 0 ? 1 : t >= 1 ? 0 : 1 - t * t * (3 - 2 * t));

function correctionAt({ alphas, added }: Correction, alpha: number): number {
  const away = Math.max(alphas[0] - alpha, alpha - alphas[alphas.length - 1], 0);
  return fade(away / ANGLE_FADE) * interpolateLinear(alphas, added, alpha);
}

/** Correction at a Reynolds number: between runs by its logarithm, dying out beyond the outermost. */
function blended(corrections: readonly Correction[], reynolds: number, alpha: number): number {
  const logs = corrections.map((one) => Math.log(one.reynolds));
  const log = Math.log(reynolds);
  const away = Math.max(logs[0] - log, log - logs[logs.length - 1], 0);
  const values = corrections.map((one) => correctionAt(one, alpha));
  return fade(away / REYNOLDS_FADE) * (values.length === 1 ? values[0] : interpolateLinear(logs, values, log));
}

/**
 * Computed polars with measured points laid over them: inside the measured range of incidence and Reynolds number the measured values
 * stand, between runs the difference is interpolated, and beyond the ends it dies out over 3 degrees and a factor of two.
 * polars - computed, by rising Reynolds number; runs - from `measuredRuns`
 * Returns polars of the same Reynolds numbers.
 */
export function withMeasured(polars: readonly SectionPolar[], runs: readonly MeasuredRun[]): readonly SectionPolar[] {
  const filled = polars.filter((polar) => polar.points.length > 1);
  if (filled.length === 0) return polars;
  const bases = runs.map((run) => polarBetween(filled, run.reynolds));
  const of = (part: Part): readonly Correction[] => runs.flatMap((run, i) => correctionOf(bases[i], run, part) ?? []);
  const corrections: Readonly<Record<Part, readonly Correction[]>> = {
    lift: of('lift'),
    drag: of('drag'),
    moment: of('moment'),
  };
  const measuredAngles = PARTS.flatMap((part) => corrections[part].map(({ alphas }) => alphas));
  const corrected = (part: Part, reynolds: number, alpha: number): number =>
    corrections[part].length === 0 ? 0 : blended(corrections[part], reynolds, alpha);
  return polars.map((polar) => {
    const { reynolds } = polar;
    const touched = PARTS.some((part) =>
      corrections[part].some((one) => fade(Math.abs(Math.log(reynolds / one.reynolds)) / REYNOLDS_FADE) > 0),
    );
    const between = PARTS.some((part) => {
      const list = corrections[part];
      return list.length > 1 && reynolds > list[0].reynolds && reynolds < list[list.length - 1].reynolds;
    });
    if (polar.points.length < 2 || !(touched || between)) return polar;
    const alphas = risingUnion([polar.points.map(({ alpha }) => alpha), ...measuredAngles]);
    const points = resampled(polar.points, alphas).map((point) => ({
      ...point,
      lift: point.lift + corrected('lift', reynolds, point.alpha),
      drag: point.drag * Math.exp(corrected('drag', reynolds, point.alpha)),
      moment: point.moment + corrected('moment', reynolds, point.alpha),
    }));
    return { ...polar, points };
  });
}

/** How a run lies beside a computed polar. Ratios are measured / computed at equal lift. */
export interface MeasuredComparison {
  readonly reynolds: number;
  /** Measured drags inside the computed rising branch, and those that could not be compared. */
  readonly compared: number;
  readonly outside: number;
  readonly medianRatio?: number;
  readonly worst?: { readonly lift: number; readonly ratio: number };
  readonly maximumLift?: { readonly measured: number; readonly computed: number };
}

/**
 * Compares measured drag with computed drag at equal lift, and greatest lift where incidence shows that the run passed it.
 * polar - computed at the Reynolds number of the run
 */
export function compareMeasured(polar: SectionPolar, run: MeasuredRun): MeasuredComparison {
  const drags = run.points.filter(({ drag }) => drag !== undefined);
  const ratios = drags.flatMap(({ lift, drag }) => {
    const computed = polarDragAtLift(polar, lift);
    return computed === undefined ? [] : [{ lift, ratio: drag! / computed }];
  });
  const sorted = ratios.map(({ ratio }) => ratio).sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const median = sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
  const branch = risingBranch(polar);
  const angled = run.points.filter(({ incidence }) => incidence !== undefined);
  const top = angled.reduce((best, point, i) => (point.lift > angled[best].lift ? i : best), 0);
  const passed = top > 0 && top < angled.length - 1 && branch.length > 0;
  return {
    reynolds: run.reynolds,
    compared: ratios.length,
    outside: drags.length - ratios.length,
    ...(ratios.length === 0
      ? {}
      : {
          medianRatio: median,
          worst: ratios.reduce((a, b) => (Math.abs(Math.log(b.ratio)) > Math.abs(Math.log(a.ratio)) ? b : a)),
        }),
    ...(passed ? { maximumLift: { measured: angled[top].lift, computed: branch[branch.length - 1].lift } } : {}),
  };
}
