import { factorLu, type LuFactors, solveLu } from '../math/linear.js';
import { glauertFlap } from '../section/index.js';
import type { CamberLine } from './types.js';

/**
 * A flat section cut into equal panels, each with a vortex at its quarter and a control point at its three-quarter chord:
 * the two-dimensional limit of the lattice, against which it is corrected to thin-airfoil theory.
 */
export interface ThinLattice {
  readonly count: number;
  readonly lu: LuFactors;
  /**
   * Weights of the circulations of the first two panels (unit chord and speed) that give the incidence whose leading-edge singularity
   * they hold: exact for a flat plate (1) and for a parabolic arc at its ideal angle (0).
   */
  readonly leadingWeights: readonly [number, number];
}

/** The two-dimensional lattice of `count` panels. */
export function thinLattice(count: number): ThinLattice {
  const matrix = new Float64Array(count * count);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) matrix[i * count + j] = count / (2 * Math.PI * (i + 0.75 - (j + 0.25)));
  const lu = factorLu(matrix, count);
  if (!lu.ok) throw new Error('the two-dimensional lattice is regular for every count');
  const flat = solveLu(lu.value, new Float64Array(count).fill(1));
  const arc = solveLu(
    lu.value,
    Float64Array.from({ length: count }, (_, i) => (2 * (i + 0.75)) / count - 1),
  );
  const determinant = count > 1 ? flat[0] * arc[1] - flat[1] * arc[0] : flat[0];
  const leadingWeights: readonly [number, number] =
    count > 1 ? [arc[1] / determinant, -arc[0] / determinant] : [1 / determinant, 0];
  return { count, lu: lu.value, leadingWeights };
}

/** Lift and quarter-chord moment coefficients of the two-dimensional lattice for incidences of its panels. */
export function thinResponse(lattice: ThinLattice, incidence: Float64Array): { lift: number; moment: number } {
  const circulation = solveLu(lattice.lu, incidence);
  let lift = 0;
  let moment = 0;
  for (let j = 0; j < lattice.count; j++) {
    lift += 2 * circulation[j];
    moment -= 2 * circulation[j] * ((j + 0.25) / lattice.count - 0.25);
  }
  return { lift, moment };
}

function slopeAt(line: CamberLine, fraction: number): number {
  const { chordFractions: x, slopes } = line;
  let i = 1;
  while (i < x.length - 1 && fraction > x[i]) i++;
  const t = Math.min(1, Math.max(0, (fraction - x[i - 1]) / (x[i] - x[i - 1])));
  return slopes[i - 1] + t * (slopes[i] - slopes[i - 1]);
}

/** Camber of one section as panel incidences that reproduce its thin-airfoil zero-lift angle, and its moments. */
export interface ThinCamber {
  readonly incidence: Float64Array;
  readonly thinMoment: number;
  readonly latticeMoment: number;
}

/** Midpoints in the angle theta, where x = (1 - cos theta) / 2. */
const integrationPoints = 180;

/**
 * Zero-lift angle [rad] and quarter-chord moment coefficient of a camber line in thin-airfoil theory.
 * Source: Abbott and von Doenhoff, Theory of Wing Sections, 1959, section 4.3.
 */
export function thinAirfoilIntegrals(line: CamberLine | undefined): { zeroLiftAngle: number; moment: number } {
  if (!line || line.slopes.length < 2) return { zeroLiftAngle: 0, moment: 0 };
  let zeroLift = 0;
  let first = 0;
  let second = 0;
  for (let i = 0; i < integrationPoints; i++) {
    const theta = ((i + 0.5) * Math.PI) / integrationPoints;
    const slope = slopeAt(line, (1 - Math.cos(theta)) / 2);
    zeroLift += (slope * (1 - Math.cos(theta))) / integrationPoints;
    first += (2 * slope * Math.cos(theta)) / integrationPoints;
    second += (2 * slope * Math.cos(2 * theta)) / integrationPoints;
  }
  return { zeroLiftAngle: zeroLift, moment: (Math.PI / 4) * (second - first) };
}

/**
 * Panel incidences of a camber line. Slopes are averaged over each panel; what is left of the difference to thin-airfoil theory in the
 * zero-lift angle is put right by a constant.
 */
export function thinCamber(line: CamberLine | undefined, lattice: ThinLattice): ThinCamber {
  const { count } = lattice;
  const incidence = new Float64Array(count);
  if (!line || line.slopes.length < 2) return { incidence, thinMoment: 0, latticeMoment: 0 };
  const samples = 8;
  for (let j = 0; j < count; j++)
    for (let k = 0; k < samples; k++) incidence[j] -= slopeAt(line, (j + (k + 0.5) / samples) / count) / samples;
  const exact = thinAirfoilIntegrals(line);
  const offset = -exact.zeroLiftAngle - thinResponse(lattice, incidence).lift / (2 * Math.PI);
  for (let j = 0; j < count; j++) incidence[j] += offset;
  return {
    incidence,
    thinMoment: exact.moment,
    latticeMoment: thinResponse(lattice, incidence).moment,
  };
}

/**
 * Panel incidences for one radian of a sealed flap. The panel that holds the hinge takes its part; a small linear term puts the
 * quarter-chord moment of the two-dimensional lattice right, and a constant its lift (8 panels alone would give 5 % too little).
 * Source: H. Glauert, ARC R&M 1095, 1927.
 */
export function thinFlap(chordFraction: number, lattice: ThinLattice): Float64Array {
  const exact = glauertFlap(chordFraction);
  const { count } = lattice;
  const hinge = (1 - chordFraction) * count;
  const step = Float64Array.from({ length: count }, (_, j) => Math.min(1, Math.max(0, j + 1 - hinge)));
  const linear = Float64Array.from({ length: count }, (_, j) => (2 * (j + 0.75)) / count - 1);
  const [byStep, byLinear] = [thinResponse(lattice, step), thinResponse(lattice, linear)];
  // A single panel makes no moment about the quarter chord at all.
  const part = count > 1 ? (exact.moment - byStep.moment) / byLinear.moment : 0;
  const offset = exact.effectiveness - (byStep.lift + part * byLinear.lift) / (2 * Math.PI);
  return step.map((value, j) => value + part * linear[j] + offset);
}
