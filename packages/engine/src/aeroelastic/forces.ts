import { type ComplexMatrix, complexZeros, factorComplexLu, solveComplexLu } from '../math/complexLinear.js';
import { type Outcome, success } from '../result.js';
import type { Lattice } from '../wing/lattice.js';
import type { OscillatingInfluence } from './oscillatingInfluence.js';

/** Motions on the panels of one half of a lattice, row-major panels x count: of each generalised coordinate at unit amplitude. */
export interface PanelMotions {
  readonly count: number;
  /** Normal displacement at the middle of the bound vortex, where the panel's force acts. */
  readonly atForce: Float64Array;
  /** Normal displacement at the control point, and its slope aft. */
  readonly atControl: Float64Array;
  readonly slope: Float64Array;
}

/**
 * Generalised forces of the air on harmonic motions: force on coordinate i = dynamic pressure x sum of at(kappa)[i, j] x amplitude j.
 * Time goes as exp(i omega t), kappa = omega / airspeed.
 */
export interface GeneralisedForces {
  readonly count: number;
  /** kappa up to which the values are computed rather than continued [1/m]. */
  readonly highestWaveNumber: number;
  readonly at: (waveNumber: number) => ComplexMatrix;
}

/**
 * Generalised forces of a lattice at one wave number.
 * Force on panel j over dynamic pressure = 2 x circulation / airspeed x width.
 * forcing - motions whose work is asked for; motions - those that make the flow
 */
export function latticeForces(
  lattice: Lattice,
  influence: OscillatingInfluence,
  wave: number | 'steady',
  motions: PanelMotions,
  forcing: PanelMotions = motions,
): Outcome<ComplexMatrix> {
  const { size } = influence;
  const matrix =
    wave === 'steady'
      ? { re: influence.steady.slice(), im: new Float64Array(size * size) }
      : { re: influence.oscillating[wave].re.slice(), im: influence.oscillating[wave].im.slice() };
  const kappa = wave === 'steady' ? 0 : influence.waveNumbers[wave];
  const lu = factorComplexLu(matrix, size);
  if (!lu.ok) return { ...lu, where: 'lifting surfaces' };
  const right = complexZeros(size * motions.count);
  for (let i = 0; i < right.re.length; i++) {
    right.re[i] = -motions.slope[i];
    right.im[i] = -kappa * motions.atControl[i];
  }
  const circulation = solveComplexLu(lu.value, right, motions.count);
  const [n, m] = [forcing.count, motions.count];
  const result = complexZeros(n * m);
  for (let panel = 0; panel < size; panel++) {
    const width = 2 * lattice.strips.width[lattice.stripOfPanel[panel]];
    for (let i = 0; i < n; i++) {
      const arm = width * forcing.atForce[panel * n + i];
      if (arm === 0) continue;
      for (let j = 0; j < m; j++) {
        result.re[i * m + j] += arm * circulation.re[panel * m + j];
        result.im[i * m + j] += arm * circulation.im[panel * m + j];
      }
    }
  }
  return success(result);
}

/** Slopes of a curve through three neighbouring values (parabola), for cubic pieces. */
function nodeSlopes(x: Float64Array, values: readonly Float64Array[]): Float64Array[] {
  const last = x.length - 1;
  return values.map((_, k) => {
    const slopes = new Float64Array(values[k].length);
    const middle = Math.min(last - 1, Math.max(1, k));
    const [x0, x1, x2] = [x[middle - 1], x[middle], x[middle + 1]];
    for (let i = 0; i < slopes.length; i++) {
      const first = (values[middle][i] - values[middle - 1][i]) / (x1 - x0);
      const second = (values[middle + 1][i] - values[middle][i]) / (x2 - x1);
      const bend = (second - first) / (x2 - x0);
      slopes[i] = first + bend * (2 * x[k] - x0 - x1);
    }
    return slopes;
  });
}

/**
 * Forces between tabulated wave numbers: cubic pieces of the real part and of the imaginary part / kappa, which are smooth.
 * Beyond the last one apparent mass and damping carry on: the real part grows with the square, the imaginary part in proportion.
 *
 * waveNumbers - rising, first 0 [1/m]; matrices - generalised forces there, at least three
 */
export function tabulatedForces(
  waveNumbers: Float64Array,
  matrices: readonly ComplexMatrix[],
  count: number,
): GeneralisedForces {
  const last = waveNumbers.length - 1;
  const imaginaryPart = matrices.map(({ im }, k) => im.map((value) => value / (waveNumbers[k] || 1)));
  // The damping at rest is that of the first motion that is slow enough.
  const start = Float64Array.from(imaginaryPart[1], (value, i) => {
    const ratio = waveNumbers[1] / (waveNumbers[2] - waveNumbers[1]);
    return value - ratio * (imaginaryPart[2][i] - value);
  });
  const imaginary = [start, ...imaginaryPart.slice(1)];
  const real = matrices.map(({ re }) => re);
  const slopes = [nodeSlopes(waveNumbers, real), nodeSlopes(waveNumbers, imaginary)];
  return {
    count,
    highestWaveNumber: waveNumbers[last],
    at: (waveNumber) => {
      const kappa = Math.abs(waveNumber);
      const result = complexZeros(count * count);
      if (kappa >= waveNumbers[last]) {
        const ratio = kappa / waveNumbers[last];
        for (let i = 0; i < result.re.length; i++) {
          result.re[i] = real[last][i] * ratio * ratio;
          result.im[i] = imaginary[last][i] * waveNumber;
        }
        return result;
      }
      let k = 0;
      while (k < last - 1 && kappa > waveNumbers[k + 1]) k++;
      const step = waveNumbers[k + 1] - waveNumbers[k];
      const t = (kappa - waveNumbers[k]) / step;
      const [a, b] = [(1 + 2 * t) * (1 - t) ** 2, t * t * (3 - 2 * t)];
      const [c, d] = [step * t * (1 - t) ** 2, step * t * t * (t - 1)];
      for (let i = 0; i < result.re.length; i++) {
        result.re[i] = a * real[k][i] + b * real[k + 1][i] + c * slopes[0][k][i] + d * slopes[0][k + 1][i];
        result.im[i] =
          waveNumber * (a * imaginary[k][i] + b * imaginary[k + 1][i] + c * slopes[1][k][i] + d * slopes[1][k + 1][i]);
      }
      return result;
    },
  };
}

/** Generalised forces of motions on a lattice, tabulated at its wave numbers. */
export function generalisedForces(
  lattice: Lattice,
  influence: OscillatingInfluence,
  motions: PanelMotions,
): Outcome<GeneralisedForces> {
  const matrices: ComplexMatrix[] = [];
  for (const wave of ['steady', ...influence.waveNumbers.keys()] as const) {
    const forces = latticeForces(lattice, influence, wave, motions);
    if (!forces.ok) return forces;
    matrices.push(forces.value);
  }
  const waves = Float64Array.of(0, ...influence.waveNumbers);
  return success(tabulatedForces(waves, matrices, motions.count));
}
