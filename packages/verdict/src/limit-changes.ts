import { type Stiffening, stiffenings } from '@noonwing/design';
import { type AeroelasticWing, type Limit, type LimitCondition, limitsReport } from '@noonwing/engine/aeroelastic';
import { standardGravity } from '@noonwing/engine/flight';
import type { Verdict } from './central.js';
import { limitModel, withStrength } from './limit-model.js';
import { aeroelasticWingOf, type LimitsAnswer, limitCondition } from './limits.js';
import { type Slices, whole } from './slices.js';
import type { Stages } from './stages.js';

/** A change of structure and the limit that comes first with it. */
export interface LimitChange {
  readonly name: string;
  /** Of the whole aircraft [kg]. */
  readonly mass: number;
  /** Lower edge with the change [m/s]; that of the end of the search where no limit is left. */
  readonly limitSpeed: number;
  readonly first: Limit | undefined;
  /** Rise of the limit speed for each gram [m/s per g]. */
  readonly perGram: number;
}

/**
 * What would raise the limit speed, the most for its mass first; strength follows from changes in materials of the design, and is taken as it is for the others. Solves every change anew, about a third of a second each; the lattice is remembered.
 */
export const limitChanges = (of: Verdict, answer: LimitsAnswer, stages: Stages): readonly LimitChange[] =>
  whole(limitChangeSlices(of, answer, stages));

/** The same with a look at what is wanted between the changes. */
export function* limitChangeSlices(of: Verdict, answer: LimitsAnswer, stages: Stages): Slices<readonly LimitChange[]> {
  const condition = limitCondition(of);
  const { airframe } = of.prepared.model;
  if (condition === undefined || airframe === undefined) return [];
  const { structure } = answer;
  const wing = aeroelasticWingOf(airframe, stages);
  const tried = stages.run('stiffenings', [structure], () => stiffenings(structure));
  const found: LimitChange[] = [];
  for (const [i, change] of tried.entries()) {
    const one = stages.run(`stiffening ${i + 1}`, [change, answer.report, wing, JSON.stringify(condition)], () =>
      limitChange(change, wing, condition, answer),
    );
    if (one !== undefined) found.push(one);
    yield (i + 1) / tried.length;
  }
  return found.toSorted((a, b) => b.perGram - a.perGram);
}

/** What raises the limit speed by less than half a per cent does not help (judgement). */
const leastRise = 1.005;

/** Changes that help; the others raise the limit by less than anybody would notice. */
export const usefulChanges = (
  changes: readonly LimitChange[],
  { report: { limits } }: Pick<LimitsAnswer, 'report'>,
): readonly LimitChange[] => changes.filter(({ limitSpeed }) => limitSpeed > leastRise * (limits[0]?.low ?? 0));

/** The first limit of a changed structure; undefined where the change cannot be modelled. */
function limitChange(
  { name, structure, mass }: Stiffening,
  wing: AeroelasticWing,
  condition: LimitCondition,
  { report: now, structure: unchanged }: LimitsAnswer,
): LimitChange | undefined {
  const built = limitModel(structure);
  if (!built.ok) return undefined;
  const weight = condition.trim.weight + mass * standardGravity;
  const heavier = withStrength({ ...condition, trim: { ...condition.trim, weight } }, structure);
  const spread = { stiffness: unchanged.stiffnessSigma };
  const report = limitsReport(wing, built.value, heavier, spread, { brief: true, kept: 10 });
  if (!report.ok) return undefined;
  const edge = (limits: readonly Limit[]) => limits[0]?.low ?? now.searchedTo;
  const limitSpeed = edge(report.value.limits);
  const [first] = report.value.limits;
  return { name, mass, limitSpeed, first, perGram: (limitSpeed - edge(now.limits)) / (1000 * mass) };
}
