import { farFieldMatrix } from '../wing/influence.js';
import type { ElasticHalf } from './elasticHalf.js';
import { type ElasticTrim, elasticTrim, type TrimCondition, trimWeights } from './elasticTrim.js';

/** What bending by its own loads does to an aircraft in normal flight, against the same aircraft held stiff. */
export interface BentFlight {
  /** Change of the trimmed pitch control, negative up, and of the angle of attack [rad]. */
  readonly control: number;
  readonly alpha: number;
  /** Change of the static margin [mean chords]. */
  readonly staticMargin: number;
  /** Induced drag over that of the stiff aircraft. */
  readonly inducedDrag: number;
  /** Stall speed over that of the stiff aircraft: where lift gathers on some sections they stall sooner. */
  readonly stallSpeed: number;
}

/** The same lattice on a structure that gives nowhere. */
const heldStiff = (elastic: ElasticHalf): ElasticHalf => ({
  ...elastic,
  bentByLift: new Float64Array(elastic.bentByLift.length),
  bentByMoments: new Float64Array(elastic.bentByMoments.length),
});

/** Circulation over airspeed of the strips of the right half in trim [m]. */
function stripCirculations({ steady }: ElasticHalf, trim: ElasticTrim, pitchControls: readonly string[]): Float64Array {
  const { causes, lattice, panels } = steady;
  const { strips, stripOfPanel } = lattice;
  const circulation = new Float64Array(strips.mirroredCount);
  trimWeights(steady, trim, pitchControls).forEach((weight, c) => {
    if (weight === 0) return;
    for (let p = 0; p < panels; p++)
      circulation[stripOfPanel[p]] += weight * trim.loaded.circulation[p * causes.length + c];
  });
  return circulation;
}

/** Induced drag of the right half over dynamic pressure, from the wake far behind [m2]. */
function farFieldDrag({ steady: { lattice } }: ElasticHalf, circulation: Float64Array): number {
  const wash = farFieldMatrix(lattice);
  const n = circulation.length;
  let sum = 0;
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) sum += lattice.strips.width[i] * circulation[i] * wash[i * n + j] * circulation[j];
  return sum;
}

/** Lift coefficient of the most loaded section of the wing. */
function greatestLift({ steady: { lattice, surfaces } }: ElasticHalf, circulation: Float64Array): number {
  const { strips } = lattice;
  let most = 0;
  for (let s = 0; s < circulation.length; s++)
    if (surfaces[strips.surface[s]].kind === 'wing') most = Math.max(most, (2 * circulation[s]) / strips.chord[s]);
  return most;
}

/**
 * Trim, induced drag and stall of the bent aircraft against the stiff one.
 *
 * flown, stall - dynamic pressures of normal flight and of the stall [Pa]
 * Returns undefined where it cannot be trimmed. Sections are taken to stall at one lift coefficient; profile drag is left out.
 */
export function bentFlight(
  elastic: ElasticHalf,
  condition: TrimCondition,
  { flown, stall }: { readonly flown: number; readonly stall: number },
): BentFlight | undefined {
  const stiff = heldStiff(elastic);
  const at = (half: ElasticHalf, pressure: number) => {
    const trim = elasticTrim(half, pressure, condition);
    return trim && { trim, circulation: stripCirculations(half, trim, condition.pitchControls) };
  };
  const [bent, held, bentStall, heldStall] = [
    at(elastic, flown),
    at(stiff, flown),
    at(elastic, stall),
    at(stiff, stall),
  ];
  if (bent === undefined || held === undefined || bentStall === undefined || heldStall === undefined) return undefined;
  const most = greatestLift(stiff, heldStall.circulation);
  const drag = farFieldDrag(stiff, held.circulation);
  if (!(most > 0 && drag > 0)) return undefined;
  return {
    control: bent.trim.control - held.trim.control,
    alpha: bent.trim.alpha - held.trim.alpha,
    staticMargin: bent.trim.staticMargin - held.trim.staticMargin,
    inducedDrag: farFieldDrag(elastic, bent.circulation) / drag,
    stallSpeed: Math.sqrt(greatestLift(elastic, bentStall.circulation) / most),
  };
}
