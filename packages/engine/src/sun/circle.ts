import type { Vec3 } from '../math/vector.js';
import { circleHeadings } from './attitude.js';
import type { IncidenceModel } from './incidence.js';
import { lightGeometry, lightLedger } from './light-geometry.js';
import type { SunTrack } from './position.js';
import type { SkyTermsTrack } from './sky-terms.js';

/** Number of headings that stand for a full circle, and what that costs in accuracy. */
export interface HeadingChoice {
  readonly count: number;
  /** Greatest relative change of the light at any instant when the number of headings is doubled [-] */
  readonly errorEstimate: number;
  /** Whether the estimate is below the tolerance asked for */
  readonly reached: boolean;
  /** Whether the sun goes behind a facet on part of the circle at some instant, which slows the convergence */
  readonly clipped: boolean;
}

const instantsLookedAt = 64;
const fewestHeadings = 8;
const mostHeadings = 256;
/** Instants darker than this share of the brightest one are judged against that share: an error there moves no verdict. */
const darkShare = 0.05;

function everyNth(values: Float64Array, step: number): Float64Array {
  return values.filter((_, index) => index % step === 0);
}

function thinned<T extends object>(track: T, step: number): T {
  return Object.fromEntries(Object.entries(track).map(([key, values]) => [key, everyNth(values, step)])) as T;
}

/**
 * Number of headings needed for the average over a banked circle: doubled until the light with N and 2N headings agrees.
 * @param setup.sun - track of sun positions
 * @param setup.terms - sky along it
 * @param setup.facets - outward unit normals in body axes (forward, right, down)
 * @param setup.pitch - nose up [rad]
 * @param setup.bank - right wing down [rad]
 * @param setup.incidence - cover
 * @param setup.tolerance - greatest relative error wanted [-], default 0.003
 * @returns heading count (8 to 256) and its error estimate; facets count alike, their errors do not cancel
 */
export function chooseHeadings(setup: {
  readonly sun: SunTrack;
  readonly terms: SkyTermsTrack;
  readonly facets: readonly Vec3[];
  readonly pitch: number;
  readonly bank: number;
  readonly incidence: IncidenceModel;
  readonly tolerance?: number;
}): HeadingChoice {
  const tolerance = setup.tolerance ?? 0.003;
  const step = Math.max(1, Math.ceil(setup.sun.time.length / instantsLookedAt));
  const sun = thinned(setup.sun, step);
  const terms = thinned(setup.terms, step);
  const run = (count: number) => {
    const pattern = { pitch: setup.pitch, bank: setup.bank, headings: circleHeadings(count) };
    const geometry = lightGeometry({ sun, facets: setup.facets, pattern, incidence: setup.incidence });
    return { effective: lightLedger(geometry, terms).effective, beam: geometry.beam };
  };
  let count = fewestHeadings;
  let coarse = run(count);
  for (;;) {
    const fine = run(2 * count);
    const errorEstimate = greatestChange(coarse.effective, fine.effective, setup.facets.length);
    if (errorEstimate < tolerance || count >= mostHeadings) {
      const clipped = isClipped(fine.beam, 2 * count * setup.facets.length);
      return { count, errorEstimate, reached: errorEstimate < tolerance, clipped };
    }
    count *= 2;
    coarse = fine;
  }
}

function greatestChange(coarse: Float64Array, fine: Float64Array, facetCount: number): number {
  const instants = facetCount === 0 ? 0 : fine.length / facetCount;
  const sums = new Float64Array(instants);
  const changes = new Float64Array(instants);
  for (let index = 0; index < fine.length; index++) {
    const instant = Math.floor(index / facetCount);
    sums[instant]! += fine[index]!;
    changes[instant]! += Math.abs(fine[index]! - coarse[index]!);
  }
  const brightest = sums.reduce((most, sum) => Math.max(most, sum), 0);
  if (brightest === 0) return 0;
  return changes.reduce(
    (worst, change, instant) => Math.max(worst, change / Math.max(sums[instant]!, darkShare * brightest)),
    0,
  );
}

/** Some but not all beam coefficients of a daylight instant are zero. */
function isClipped(beam: Float64Array, valuesPerInstant: number): boolean {
  for (let start = 0; start < beam.length; start += valuesPerInstant) {
    const values = beam.subarray(start, start + valuesPerInstant);
    const lit = values.reduce((sum, value) => sum + (value > 0 ? 1 : 0), 0);
    if (lit > 0 && lit < values.length) return true;
  }
  return false;
}
