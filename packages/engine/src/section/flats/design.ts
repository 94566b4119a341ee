import { interpolateLinear } from '../../math/interpolate.js';
import { type Outcome, problem, success } from '../../result.js';
import type { Corner } from '../facets.js';
import { sectionFromPoints } from '../points.js';
import type { SectionGeometry } from '../types.js';
import { edgeEffect, edgesOn, preparedOutline, solutionAtLift } from '../viscous/covering.js';
import { risingBranch } from '../viscous/polar.js';
import type { SectionFlow } from '../viscous/result.js';
import type { ViscousInput, ViscousSolution } from '../viscous/solve.js';
import { sweepPolar } from '../viscous/sweep.js';
import {
  cornerAngles,
  type FlatRow,
  type Morph,
  morphedOutline,
  NO_MORPH,
  type Outline,
  outlineInFlats,
} from './morph.js';
import { patternSearch, type SearchVariable } from './search.js';

/** What a section for flat cells is asked for. Lengths / chord. */
export interface FlatsInput {
  /** Section to begin with, and to compare with. */
  readonly start: SectionGeometry;
  /** Width of a flat cell along the chord. */
  readonly cell: number;
  /** Flats one behind the other; as many as the chord carries where absent. */
  readonly count?: number;
  /** Height of cells and film over the skin at both ends of the flats; 0 where they lie flush. */
  readonly edge: number;
  readonly reynolds: number;
  /** Lift coefficient at which drag is to be least. */
  readonly lift: number;
  /** Logarithm of amplitude at transition. */
  readonly critical: number;
  /** Moment coefficient about the quarter chord that must not be passed downwards; that of the bare start where absent. */
  readonly leastMoment?: number;
  /** Greatest thickness, flats included, must not fall below this; that of the start under the same cells where absent. */
  readonly leastThickness?: number;
  /** Evaluations at most. */
  readonly evaluations?: number;
}

/** A covered section at the design point. */
export interface FlatsState {
  readonly outline: Outline;
  readonly corners: readonly Corner[];
  readonly drag: number;
  readonly moment: number;
  readonly flow: SectionFlow;
}

export interface FlatsProgress {
  /** Done, 0 to 1: of the evaluations allowed. */
  readonly share: number;
  readonly evaluations: number;
  /** Drag of the naive cover and of the best so far. */
  readonly naive: number;
  readonly best: number;
}

/** The same comparison at another condition, which the search did not see. */
export interface FlatsCheck {
  readonly what: string;
  readonly naive: number;
  readonly designed: number;
}

/** What the search varies: the departure from the start, front of the first flat, heights added at the inner corners. / chord */
export interface FlatsLayout {
  readonly morph: Morph;
  readonly from: number;
  readonly raised: readonly number[];
}

export interface FlatsDesign {
  readonly layout: FlatsLayout;
  readonly section: SectionGeometry;
  readonly corners: readonly Corner[];
  /** Turns of the upper surface at the inner corners [rad]. */
  readonly angles: readonly number[];
  readonly row: FlatRow;
  /** Start without cells, start under cells, designed. */
  readonly bare: SectionFlow;
  readonly naive: FlatsState;
  readonly designed: FlatsState;
  readonly evaluations: number;
  readonly checks: readonly FlatsCheck[];
  /** Greatest lift under the cells, edges left out; absent where no polar converged. */
  readonly maximumLift?: { readonly naive: number; readonly designed: number };
  /** Whether the moment limit holds, within 0.002. */
  readonly withinMoment: boolean;
}

const NODES = 140;
/** Flats end this far ahead of the trailing edge at least. */
const TAIL = 0.03;
const FRONT = { least: 0.03, usual: 0.08, most: 0.25 };
/** Lift added for the guard: a section that is good at one lift alone is of no use in a gust. */
const GUARD_LIFT = 0.2;
const GUARD_WEIGHT = 1 / 3;
/** Cost per unit of moment or thickness below its limit, as a share of drag: a hundredth weighs 30 %. */
const LIMIT_WEIGHT = 30;
const MOMENT_SLACK = 0.002;

interface Setting extends Pick<ViscousInput, 'reynolds' | 'critical'> {
  readonly lift: number;
  readonly edge: number;
}

/** Flow about a faceted section at a lift, with what both ends of its flats do to the layer. */
function faceted(
  shape: Outline & { readonly corners: readonly Corner[] },
  setting: Setting,
  nodes: number,
  start?: ViscousSolution,
): Outcome<ViscousSolution> {
  const { lift, edge, ...input } = setting;
  const prepared = preparedOutline(shape.x, shape.y, nodes);
  if (!prepared.ok) return prepared;
  const section = prepared.value;
  const flush = solutionAtLift(section, lift, input, start);
  if (!flush.ok || !(edge > 0)) return flush;
  const ends = [shape.corners[0].x, shape.corners[shape.corners.length - 1].x];
  const effects = ends.map((at, i) => edgeEffect(flush.value.flow, at, edge, i === 0 ? 'up' : 'down'));
  return solutionAtLift(section, lift, { ...input, ...edgesOn(section, effects) }, flush.value);
}

/** Bow that undoes the moment of lead, in thin-airfoil theory: A1 = bow, A2 = 3/4 lead, moment pi/4 (A2 - A1). */
const BOW_WITH_LEAD = 0.75;

/** Lead is varied with bow at equal moment, so that a search along a moment limit is free to move. */
const unpack = ([thickness, shift, bow, lead, from, ...raised]: readonly number[]): FlatsLayout => ({
  morph: { thickness, shift, bow: bow + BOW_WITH_LEAD * lead, lead },
  from,
  raised,
});

function variablesOf(row: FlatRow): readonly SearchVariable[] {
  const last = Math.min(FRONT.most, 1 - TAIL - row.count * row.cell);
  const variable = (begin: number, step: number, low: number, high: number) => ({
    start: begin,
    step,
    least: low,
    most: high,
  });
  return [
    variable(1, 0.06, 0.7, 1.5),
    variable(0, 0.15, -0.45, 0.45),
    variable(0, 0.03, -0.3, 0.3),
    variable(0, 0.03, -0.3, 0.3),
    variable(row.from, 0.03, FRONT.least, last),
    ...Array.from({ length: row.count - 1 }, () => variable(0, 0.002, -0.01, 0.01)),
  ];
}

/** How many flats lie on the chord, and where the first begins; undefined where not even one does. */
function rowOf({ cell, count }: Pick<FlatsInput, 'cell' | 'count'>): FlatRow | undefined {
  const room = 1 - TAIL - FRONT.least;
  const fits = Math.floor(room / cell + 1e-9);
  const used = Math.min(count ?? fits, fits);
  if (!(cell > 0) || used < 1 || (count !== undefined && count > fits)) return undefined;
  return { cell, count: used, from: Math.min(FRONT.usual, 1 - TAIL - used * cell) };
}

const shapeOf = (start: SectionGeometry, row: FlatRow, { morph, from, raised }: FlatsLayout) =>
  outlineInFlats(morphedOutline(start, morph), { ...row, from }, raised);

const stateOf = (shape: Outline & { readonly corners: readonly Corner[] }, flow: SectionFlow): FlatsState => ({
  outline: { x: shape.x, y: shape.y },
  corners: shape.corners,
  drag: flow.drag,
  moment: flow.moment,
  flow,
});

/** Greatest thickness of an outline: the lower side is looked up at each point of the upper. */
function thicknessOf({ x, y }: Outline): number {
  const nose = x.indexOf(Math.min(...x));
  const [lowerX, lowerY] = [x.slice(nose), y.slice(nose)];
  let most = 0;
  for (let i = 0; i <= nose; i++) most = Math.max(most, y[i] - interpolateLinear(lowerX, lowerY, x[i]));
  return most;
}

/** Greatest lift on the rising branch of a shape. */
function greatestLift(shape: Outline, input: Pick<Setting, 'reynolds' | 'critical'>): number | undefined {
  const prepared = preparedOutline(shape.x, shape.y, NODES);
  if (!prepared.ok) return undefined;
  return risingBranch(sweepPolar(prepared.value, { ...input, step: Math.PI / 180 })).at(-1)?.lift;
}

/** Conditions that the search did not see: another lift, speed and air, and a finer mesh. */
const checkSettings = (setting: Setting): readonly (readonly [string, Setting, number])[] => [
  ['finer mesh', setting, 200],
  ['lift 0.15 lower', { ...setting, lift: setting.lift - 0.15 }, NODES],
  ['lift 0.15 higher', { ...setting, lift: setting.lift + 0.15 }, NODES],
  ['Reynolds number 30 % lower', { ...setting, reynolds: 0.7 * setting.reynolds }, NODES],
  ['Reynolds number 40 % higher', { ...setting, reynolds: 1.4 * setting.reynolds }, NODES],
  ['rougher air (N 2 less)', { ...setting, critical: setting.critical - 2 }, NODES],
  ['calmer air (N 2 more)', { ...setting, critical: setting.critical + 2 }, NODES],
];

/**
 * Lays out flats, thickness and camber of a section for least drag at a lift under flat cells, within a limit of moment.
 *
 * input - start, cells and design point; the start under the same cells is what the gain is told against
 * Yields progress after every evaluation, so that the work can be shown and given up; deterministic.
 * Returns the section with what it gains, at the design point and at conditions that the search did not see; or why there is none.
 */
export function* designForFlats(input: FlatsInput): Generator<FlatsProgress, Outcome<FlatsDesign>, void> {
  const { start, lift, reynolds, critical } = input;
  const row = rowOf(input);
  if (row === undefined) return noRoom(input);
  const setting: Setting = { reynolds, critical, lift, edge: input.edge };
  const prepared = preparedOutline(start.outlineX, start.outlineY, NODES);
  if (!prepared.ok) return prepared;
  const bare = solutionAtLift(prepared.value, lift, { reynolds, critical });
  if (!bare.ok) return bare;
  const leastMoment = input.leastMoment ?? bare.value.flow.moment;
  const plain = shapeOf(start, row, { morph: NO_MORPH, from: row.from, raised: [] });
  const leastThickness = input.leastThickness ?? thicknessOf(plain);
  const naive = faceted(plain, setting, NODES, bare.value);
  if (!naive.ok) return naive;
  let warm = naive.value;
  let warmCost = Number.POSITIVE_INFINITY;
  const cost = (values: readonly number[]): number => {
    const shape = shapeOf(start, row, unpack(values));
    const at = faceted(shape, setting, NODES, warm);
    if (!at.ok) return Number.POSITIVE_INFINITY;
    const guard = faceted(shape, { ...setting, lift: lift + GUARD_LIFT }, NODES, at.value);
    if (!guard.ok) return Number.POSITIVE_INFINITY;
    const drag = (1 - GUARD_WEIGHT) * at.value.flow.drag + GUARD_WEIGHT * guard.value.flow.drag;
    const short = Math.max(0, leastMoment - at.value.flow.moment) + Math.max(0, leastThickness - thicknessOf(shape));
    const total = drag * (1 + LIMIT_WEIGHT * short);
    if (total < warmCost) [warm, warmCost] = [at.value, total];
    return total;
  };
  const most = input.evaluations ?? 200;
  const search = patternSearch(variablesOf(row), cost, most);
  let next = search.next();
  while (!next.done) {
    const { evaluations } = next.value;
    yield { share: Math.min(1, evaluations / most), evaluations, naive: naive.value.flow.drag, best: warm.flow.drag };
    next = search.next();
  }
  const { values, evaluations } = next.value;
  const shape = shapeOf(start, row, unpack(values));
  const designed = faceted(shape, setting, NODES, warm);
  if (!designed.ok) return designed;
  const section = sectionFromPoints({ name: `${start.name} for flat cells`, x: shape.x, y: shape.y });
  if (!section.ok) return section;
  const checks = checkSettings(setting).flatMap(([what, other, nodes]): FlatsCheck[] => {
    const [a, b] = [plain, shape].map((one) => faceted(one, other, nodes));
    return a.ok && b.ok ? [{ what, naive: a.value.flow.drag, designed: b.value.flow.drag }] : [];
  });
  const [naiveLift, designedLift] = [plain, shape].map((one) => greatestLift(one, { reynolds, critical }));
  return success({
    ...(naiveLift === undefined || designedLift === undefined
      ? {}
      : { maximumLift: { naive: naiveLift, designed: designedLift } }),
    layout: unpack(values),
    section: section.value,
    corners: shape.corners,
    angles: cornerAngles(shape.corners),
    row: { ...row, from: shape.corners[0].x },
    bare: bare.value.flow,
    naive: stateOf(plain, naive.value.flow),
    designed: stateOf(shape, designed.value.flow),
    evaluations,
    checks,
    withinMoment: designed.value.flow.moment >= leastMoment - MOMENT_SLACK,
  });
}

const noRoom = ({ cell, count }: Pick<FlatsInput, 'cell' | 'count'>) =>
  problem({
    code: 'section.flats',
    reason: `${count ?? 1} flats of ${(100 * cell).toFixed(0)} % of the chord do not lie on it`,
    where: 'cell',
    remedy: 'use fewer or narrower cells, or a longer chord',
  });
