import {
  type AircraftDesign,
  type AssembledSection,
  type CompleteAircraft,
  type CompletePlan,
  completeDesign,
  editDesignBy,
  type MeasuredRecord,
  readDesign,
  type SectionSources,
} from '@noonwing/design';
import { type Problem, problem, type Warning } from '@noonwing/engine';
import { centralVerdict, type Verdict } from './central.js';
import { isWithinReach, type KnownLimit } from './held-speed.js';
import { type Edit, type LeverCandidate, leverCandidates } from './lever-edits.js';
import { balanceEdits, stringEdits, weighingEdits } from './lever-restoring.js';
import { type MeasurementPayoff, measurementsOf } from './measurements.js';
import type { SkyRun } from './run.js';
import { type Slices, whole } from './slices.js';
import { type Stages, shareUnchanged } from './stages.js';
import { verdictSlices } from './verdict.js';

/** The figures by which levers are compared, under one sky. */
export interface LeverFigures {
  /** Time that sunlight carries on the first day [s]. */
  readonly carried: number;
  /** What the converters could deliver on the first day [J]. */
  readonly income: number;
  /** From launch to empty [s]; the end of the days computed where not empty by then. */
  readonly endurance: number;
  readonly solarRatio: number;
  /** Income over need at its best. */
  readonly bestRatio: number;
  readonly lowestCharge: number;
  /** Loads included [W]. */
  readonly levelPower: number;
  /** [kg] */
  readonly mass: number;
}

/** A lever with what it does once the aircraft is flyable again. */
export interface Lever {
  readonly key: string;
  readonly label: string;
  /** The change and the edits that restore balance, string range and mass, in the order in which they are applied. */
  readonly edits: readonly Edit[];
  /** Text of the design file with all edits; running it gives `after` again. */
  readonly text?: string;
  readonly after?: LeverFigures;
  /** Change of the solar ratio, of the time carried [s] and of the endurance [s]. */
  readonly payoff?: { readonly solarRatio: number; readonly carried: number; readonly endurance: number };
  /** Its limit speed, where the change lowers it so far that the flight comes close to it. */
  readonly limit?: KnownLimit;
  /** Why it cannot be had. */
  readonly problem?: Problem;
}

/** Levers of a design on a day, best first. */
export interface LeverReport {
  readonly sky: string;
  readonly base: LeverFigures;
  /** Sections of the design, with what they rest on; levers rest on the same. */
  readonly sections: readonly Pick<AssembledSection, 'name' | 'basis'>[];
  readonly levers: readonly Lever[];
  /** The cheapest measurements that would make the verdict surer, best first. */
  readonly measurements: readonly MeasurementPayoff[];
}

export interface LeverRequest {
  readonly designText: string;
  readonly plan: CompletePlan;
  readonly files: SectionSources;
  readonly stages: Stages;
  /** Which sky of the plan counts; the first when absent. */
  readonly sky?: number;
  /** Changes to try in place of the usual ones. */
  readonly candidates?: (design: AircraftDesign, complete: CompleteAircraft) => readonly LeverCandidate[];
  /** What the order follows; the gain in solar ratio where absent. */
  readonly rank?: (after: LeverFigures) => number;
  /** Whether any finding about the cells that the design has not yet, such as bent too far, refuses a change. */
  readonly strict?: boolean;
  /** The limit speed of a verdict; asked of the design and of every change of wing, structure or mass, which then are flown within it. */
  readonly limitOf?: (of: Verdict) => KnownLimit | undefined;
  /** Told the share of the levers done. */
  readonly onProgress?: (share: number) => void;
}

/**
 * Payoff of every lever by the central case, as its uncertainty moves all of them alike: the design file is edited, what keeps the aircraft flyable is restored, and the whole verdict
 * is run again from the edited text.
 * @returns the report; a problem when the design as it is has no verdict
 */
export const levers = (request: LeverRequest): LeverReport | Problem => whole(leverSlices(request), request.onProgress);

/** The same in slices, one verdict each. */
export function* leverSlices(request: Omit<LeverRequest, 'onProgress'>): Slices<LeverReport | Problem> {
  const { designText, plan, files, stages, sky = 0 } = request;
  const start = readDesign(designText);
  if (!start.ok || start.design === undefined) {
    return problem({
      code: 'unreadable',
      reason: 'the design file has errors',
      where: 'design file',
      remedy: 'correct what `check` lists first',
    });
  }
  const { aircraft, assumptions: _ } = completeDesign(start.design);
  const free = yield* atStart(verdictSlices(aircraft, plan, files, stages, { samples: 0 }));
  const limit = request.limitOf?.(free);
  const base =
    limit !== undefined && reaches(limit, free)
      ? yield* atStart(verdictSlices(aircraft, plan, files, stages, { samples: 0, limit }))
      : { ...free, ...(limit === undefined ? {} : { limit }) };
  const baseFigures = figuresOf(base, sky);
  if (baseFigures === undefined) return base.problems[0] ?? noVerdict;
  const before: Before = {
    text: designText,
    verdict: base,
    figures: baseFigures,
    records: start.design.measured ?? [],
    refused: refusedFindings(base, request.strict === true),
  };
  const candidates = (request.candidates ?? leverCandidates)(start.design, aircraft);
  const run: RunOfText = (text, within) => runText(text, request, aircraft, within);
  const found: Lever[] = [];
  for (const [i, candidate] of candidates.entries()) {
    found.push(yield* pull(candidate, before, { run, limitOf: request.limitOf }, sky, i / candidates.length));
    yield (i + 1) / candidates.length;
  }
  const by = request.rank ?? (({ solarRatio }: LeverFigures) => solarRatio);
  const rank = ({ after }: Lever) => (after === undefined ? Number.NEGATIVE_INFINITY : by(after));
  return {
    sky: base.skies[sky]!.run.sky.name,
    base: baseFigures,
    sections: base.prepared.model.airframe?.assembled.sections ?? [],
    levers: found.sort((a, b) => rank(b) - rank(a)),
    measurements: measurementsOf(base),
  };
}

/**
 * Findings about cells that no change may bring: that they do not fit where they did, or still do not where the change lays them anew; and
 * where it is strict all that the design has not yet.
 */
function refusedFindings(base: Verdict, strict: boolean): Before['refused'] {
  const known = new Set(base.warnings.map(({ code }) => code));
  const unfit = new Set(base.warnings.flatMap(({ code, where }) => (code === 'cells-do-not-fit' ? [where] : [])));
  return ({ code, where }, edits) => {
    if (code === 'cells-do-not-fit') return !unfit.has(where) || edits.some(({ path }) => path.startsWith(`${where}.`));
    return strict && code.startsWith('cells-') && !known.has(code);
  };
}

/** Slices of work that comes before anything that is counted. */
function* atStart<T>(slices: Slices<T>): Slices<T> {
  for (;;) {
    const next = slices.next();
    if (next.done === true) return next.value;
    yield 0;
  }
}

const noVerdict = problem({
  code: 'no-verdict',
  reason: 'the design as it is has no verdict',
  where: 'design file',
  remedy: 'look at `day` first',
});

/** Runs a design from its text; unchanged parts keep their identity, so that their stages are reused. */
function runText(
  text: string,
  request: Omit<LeverRequest, 'onProgress'>,
  previous: unknown,
  limit: KnownLimit | undefined,
): Verdict | Problem {
  const read = readDesign(text);
  if (!read.ok || read.design === undefined) {
    const message = read.messages[0];
    return problem({
      code: 'edit-refused',
      reason: `the edited file is not valid: ${message?.path ?? ''} ${message?.found ?? ''}`.trim(),
      where: message?.path ?? 'design file',
      remedy: message?.hint ?? 'change it by hand',
    });
  }
  const { aircraft } = completeDesign(read.design);
  const within = limit === undefined ? {} : { limit };
  return centralVerdict(shareUnchanged(previous, aircraft), request.plan, request.files, request.stages, within);
}

/** Runs a design from its text, within a limit speed where one is known. */
type RunOfText = (text: string, limit?: KnownLimit) => Verdict | Problem;

const isProblem = (value: Verdict | Problem): value is Problem => 'ok' in value;

/** Applies edits one after the other; a refused edit ends it. */
export function applyEdits(text: string, edits: readonly Edit[]): { readonly text: string } | Problem {
  const result = editDesignBy(text, edits);
  if (result.ok) return { text: result.text };
  return problem({ code: 'edit-refused', reason: result.reason, where: result.where, remedy: result.remedy });
}

/** What a lever is measured against. */
interface Before {
  readonly text: string;
  readonly verdict: Verdict;
  readonly figures: LeverFigures;
  /** Records as the file has them, those not in use too. */
  readonly records: readonly MeasuredRecord[];
  /** Findings that a change must not bring. */
  readonly refused: (finding: Warning, edits: readonly Edit[]) => boolean;
}

/** Rounds of restoring: string and weighed mass, then balance, until nothing is left to do; the trim settles in two or three. */
const restoringRounds = 9;

const unbalanced = problem({
  code: 'balance-not-restored',
  reason: 'neither the battery within its span nor ballast brings the static margin back',
  where: 'battery.x',
  remedy: 'give the battery more room to move, or move other parts by hand',
});

function* pull(
  candidate: LeverCandidate,
  before: Before,
  { run, limitOf }: { readonly run: RunOfText; readonly limitOf: LeverRequest['limitOf'] },
  sky: number,
  share: number,
): Slices<Lever> {
  const fail = (found: Problem, edits: readonly Edit[] = candidate.edits): Lever => ({
    ...candidate,
    edits,
    problem: found,
  });
  // A change of the stated mass itself is not to be undone by restoring it.
  const changesMass = candidate.edits.some(({ path }) => path === 'all up mass');
  let edits: readonly Edit[] = candidate.edits;
  let changed = applyEdits(before.text, edits);
  if ('ok' in changed) return fail(changed);
  let result = run(changed.text, before.verdict.limit);
  if (isProblem(result)) return fail(result);
  for (let round = 0; round <= restoringRounds; round++) {
    const { model } = result.prepared;
    const weighing = changesMass ? [] : weighingEdits(before.verdict.prepared.model, model, before.records);
    const wanted = [...stringEdits(result), ...weighing];
    const first = wanted.filter((edit) => !edits.some(({ path, text }) => path === edit.path && text === edit.text));
    const balance = first.length > 0 ? [] : balanceEdits(result, before.verdict.balance);
    if (balance === undefined) return fail(unbalanced, edits);
    if (first.length + balance.length === 0) break;
    if (round === restoringRounds) return fail(unbalanced, edits);
    edits = replacing(edits, [...first, ...balance]);
    changed = applyEdits(before.text, edits);
    if ('ok' in changed) return fail(changed, edits);
    yield share;
    result = run(changed.text, before.verdict.limit);
    if (isProblem(result)) return fail(result, edits);
  }
  const limit = isElsewise(before.verdict, result) ? limitOf?.(result) : before.verdict.limit;
  const isOther = limit !== undefined && limit.airspeed !== before.verdict.limit?.airspeed;
  if (isOther && [limit, before.verdict.limit].some((one) => one !== undefined && reaches(one, result as Verdict))) {
    result = run(changed.text, limit);
    if (isProblem(result)) return fail(result, edits);
  }
  const after = figuresOf(result, sky);
  if (after === undefined) return fail(result.problems[0] ?? noVerdict, edits);
  const blocking = result.problems.find(({ code }) => blockingCodes.includes(code));
  if (blocking !== undefined) return fail(blocking, edits);
  const unlike = unlikeSections(before.verdict, result);
  if (unlike !== undefined) return fail(unlike, edits);
  const tight = result.warnings.find((finding) => before.refused(finding, edits));
  if (tight !== undefined) {
    return fail(
      problem({
        code: tight.code,
        reason: tight.message,
        where: tight.where ?? '',
        remedy: 'a longer or broader wing first',
      }),
      edits,
    );
  }
  return {
    ...candidate,
    edits,
    text: changed.text,
    after,
    ...(limit === undefined || !comesClose(before.verdict, result, limit) ? {} : { limit }),
    payoff: {
      solarRatio: after.solarRatio - before.figures.solarRatio,
      carried: after.carried - before.figures.carried,
      endurance: after.endurance - before.figures.endurance,
    },
  };
}

/** A change to a section whose polars are not computed, of a design whose are: an estimate beside a computation says nothing of the change. */
function unlikeSections(base: Verdict, changed: Verdict): Problem | undefined {
  const [before, after] = [base, changed].map(({ prepared }) =>
    (prepared.model.airframe?.assembled.sections ?? []).filter(({ basis }) => basis.kind === 'not computed'),
  );
  const [first] = after!;
  if (before!.length > 0 || first === undefined) return undefined;
  return problem({
    code: 'section.estimate',
    reason: `the polars of ${first.name} are not computed, those of the design are: the two cannot be compared`,
    where: first.name,
    remedy: 'compute its polars first',
  });
}

/** Whether a limit can change anything of a verdict. */
const reaches = (limit: KnownLimit, { flight }: Verdict): boolean =>
  flight === undefined || isWithinReach(limit, flight.airspeed);

/** Part of its mass that a change must bring to ask for the limit speed anew: with less it moves by a percent at most. */
const noticedMass = 0.02;

/** Whether a change touches what the limit speed rests on: wing, structure, or mass by more than a little. */
function isElsewise(base: Verdict, changed: Verdict): boolean {
  const [from, to] = [base, changed].map(({ prepared }) => prepared.model);
  const mass = (from!.balance?.mass ?? 0) * noticedMass;
  const heavier = Math.abs((to!.balance?.mass ?? 0) - (from!.balance?.mass ?? 0)) > mass;
  return heavier || from!.complete.surfaces !== to!.complete.surfaces;
}

/** Whether a change brings a lower limit with a finding about it. */
const comesClose = (base: Verdict, changed: Verdict, { airspeed }: KnownLimit): boolean =>
  airspeed < (base.limit?.airspeed ?? Number.POSITIVE_INFINITY) &&
  [...changed.warnings, ...changed.problems].some(({ code }) => code === 'limit-speed');

/** Earlier edits followed by new ones; a new edit of the same place takes over. */
const replacing = (edits: readonly Edit[], next: readonly Edit[]): readonly Edit[] => [
  ...edits.filter(({ path }) => !next.some((edit) => edit.path === path)),
  ...next,
];

const blockingCodes = ['unstable', 'string-voltage-never-fits'];

/** Energy that the converters could deliver on the first day [J]; stand-by in the dark is no income. */
function incomeOf({ grid }: Verdict, { offered }: SkyRun): number {
  const step = grid.times[1]! - grid.times[0]!;
  return offered.subarray(0, grid.stepsPerDay).reduce((sum, watts) => sum + Math.max(0, watts) * step, 0);
}

/** Figures of a verdict under one sky, or undefined where it cannot fly. */
export function figuresOf(result: Verdict, sky: number): LeverFigures | undefined {
  const run = result.skies[sky]?.run;
  if (run === undefined || result.levelPower === undefined) return undefined;
  const { figures } = run;
  return {
    carried: figures.carried,
    income: incomeOf(result, run),
    endurance: figures.endurance ?? figures.horizon,
    solarRatio: figures.solarRatio,
    bestRatio: figures.bestRatio,
    lowestCharge: figures.lowestCharge,
    levelPower: result.levelPower.value,
    mass: result.prepared.model.balance?.mass ?? 0,
  };
}
