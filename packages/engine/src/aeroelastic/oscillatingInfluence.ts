import { type ComplexMatrix, complexZeros } from '../math/complexLinear.js';
import type { Lattice } from '../wing/lattice.js';
import { abscissae, intervalWeights, points, type WaveGrid, waveGrid } from './kernel.js';

export type Symmetry = 'symmetric' | 'antisymmetric';

/** Of a trailing leg as another surface sees it, in strip widths; the same as in the steady lattice. */
const coreRadius = 0.3;

const quarterOverPi = 1 / (4 * Math.PI);

/** One horseshoe vortex as one point sees it, as a function of the distance X of the point behind the bound vortex. */
interface Pair {
  /** Ends of the bound vortex ahead of where X is counted from. */
  aheadA: number;
  aheadB: number;
  /** Squares of the lateral distances to both legs, without and with the core. */
  squareA: number;
  squareB: number;
  coreA: number;
  coreB: number;
  /** Cross products of the lateral distances with the normal of the point. */
  crossA: number;
  crossB: number;
  /** Distance from the strip across the flow [m], and strip width. */
  distance: number;
  width: number;
}

/** Minus the normal velocity at a point a distance X behind the bound vortex, for unit circulation (as in the steady lattice). */
function normalwash(pair: Pair, x: number): number {
  const ax = x + pair.aheadA;
  const bx = x + pair.aheadB;
  const a = Math.sqrt(ax * ax + pair.squareA);
  const b = Math.sqrt(bx * bx + pair.squareB);
  const lateral = (pair.squareA + pair.squareB - pair.width * pair.width) / 2;
  const bound = (a + b) / (a * b * (a * b + ax * bx + lateral) + 1e-30);
  // 1 + ax / a without loss of digits far upstream.
  const legA = ax < 0 ? pair.squareA / (a * (a - ax) + 1e-30) : 1 + ax / (a + 1e-30);
  const legB = bx < 0 ? pair.squareB / (b * (b - bx) + 1e-30) : 1 + bx / (b + 1e-30);
  return (
    -quarterOverPi *
    ((ax * pair.crossB + bx * pair.crossA) * bound +
      (pair.crossA * legA) / (pair.coreA + 1e-30) +
      (pair.crossB * legB) / (pair.coreB + 1e-30))
  );
}

/** Describes panel j to a point; returns the distance of the point behind the bound vortex. */
function setPair(
  pair: Pair,
  lattice: Lattice,
  j: number,
  at: { x: number; y: number; z: number; ny: number; nz: number; core2: number },
): number {
  const { ends } = lattice;
  const e = 6 * j;
  const [ay, az, by, bz] = [at.y - ends[e + 1], at.z - ends[e + 2], at.y - ends[e + 4], at.z - ends[e + 5]];
  const [dy, dz] = [ay - by, az - bz];
  pair.width = Math.hypot(dy, dz);
  const along = Math.min(1, Math.max(0, (ay * dy + az * dz) / (pair.width * pair.width)));
  pair.distance = Math.hypot(ay - along * dy, az - along * dz);
  const line = ends[e] + along * (ends[e + 3] - ends[e]);
  pair.aheadA = line - ends[e];
  pair.aheadB = line - ends[e + 3];
  pair.squareA = ay * ay + az * az;
  pair.squareB = by * by + bz * bz;
  pair.coreA = pair.squareA + at.core2;
  pair.coreB = pair.squareB + at.core2;
  pair.crossA = az * at.ny - ay * at.nz;
  pair.crossB = by * at.nz - bz * at.ny;
  return at.x - line;
}

/** Sums an interval about `middle` with given weights to the integral; a pole `strength` / X is taken off the values. */
function addInterval(
  pair: Pair,
  span: { middle: number; half: number; strength: number },
  weights: Float64Array,
  offset: number,
  sum: Float64Array,
): void {
  const waves = sum.length / 2;
  for (let j = 0; j < points; j++) {
    const x = span.middle + span.half * abscissae[j];
    // The middle point of a core sits on the pole: what is left there is odd and small, and its neighbours' mean stands for it.
    const value =
      span.strength === 0
        ? normalwash(pair, x)
        : x === 0
          ? regularAtPole(pair, span)
          : normalwash(pair, x) - span.strength / x;
    for (let w = 0, at = offset + j; w < waves; w++, at += 2 * points) {
      sum[2 * w] += value * weights[at];
      sum[2 * w + 1] += value * weights[at + points];
    }
  }
}

function regularAtPole(pair: Pair, { half }: { half: number }): number {
  const x = 1e-3 * half;
  return (normalwash(pair, x) + normalwash(pair, -x)) / 2;
}

const partial = { weights: new Float64Array(0) };

/**
 * Integral over X from minus infinity to `end` of the normalwash times exp(i kappa X), for every wave number, added to `sum`.
 * Whole intervals have prepared weights; the last, partial one its own.
 */
function integrate(pair: Pair, end: number, grid: WaveGrid, sum: Float64Array): void {
  const { base, levels, waveNumbers } = grid;
  const waves = waveNumbers.length;
  const size = waves * 2 * points;
  const within = pair.distance < 1e-6 * pair.width;
  const reach = within ? Math.min(pair.width / 4, Math.abs(end)) : pair.distance / 2;
  const first = Math.max(0, Math.min(levels, Math.floor(Math.log2(reach / base) + 1e-9)));
  const near = base * 2 ** first;
  const far = base * 2 ** levels;
  const tail = normalwash(pair, -far);
  for (let w = 0; w < waves; w++) {
    sum[2 * w] += tail * grid.tail[2 * w];
    sum[2 * w + 1] += tail * grid.tail[2 * w + 1];
  }
  const add = (from: number, to: number, table?: Float64Array, offset = 0, strength = 0) => {
    const span = { middle: (from + to) / 2, half: (to - from) / 2, strength };
    if (table === undefined) intervalWeights(waveNumbers, span.middle, span.half, partial.weights);
    addInterval(pair, span, table ?? partial.weights, offset, sum);
  };
  for (let k = levels - 1; k >= first; k--) {
    const to = -base * 2 ** k;
    if (end < to) {
      add(2 * to, end);
      return;
    }
    add(2 * to, to, grid.upstream, k * size);
  }
  if (end < near) {
    add(-near, end);
    return;
  }
  // The strength of the pole: what the shed vorticity does where it passes the point.
  const tiny = 1e-5 * near;
  const strength = within ? (tiny * (normalwash(pair, tiny) - normalwash(pair, -tiny))) / 2 : 0;
  add(-near, near, grid.core, first * size, strength);
  for (let w = 0; w < waves; w++) sum[2 * w + 1] += strength * grid.pole[first * waves + w];
  for (let k = first; ; k++) {
    const from = base * 2 ** k;
    if (2 * from > end || k === levels) {
      if (end > from * (1 + 1e-12)) add(from, end);
      return;
    }
    add(from, 2 * from, grid.downstream, k * size);
  }
}

/** Smallest distance of the lattice that the grid must resolve, and its reach. */
function gridFor(lattice: Lattice, waveNumbers: Float64Array): WaveGrid {
  const { strips, firstPanel, points: control, panelCount } = lattice;
  let base = Infinity;
  for (let s = 0; s < strips.count; s++) {
    const panels = firstPanel[s + 1] - firstPanel[s];
    base = Math.min(base, strips.width[s] / 4, (0.45 * strips.chord[s]) / panels);
  }
  const [low, high] = [new Float64Array(3).fill(Infinity), new Float64Array(3).fill(-Infinity)];
  for (let i = 0; i < 3 * panelCount; i++) {
    low[i % 3] = Math.min(low[i % 3], control[i]);
    high[i % 3] = Math.max(high[i % 3], control[i]);
  }
  const extent = Math.hypot(high[0] - low[0], 2 * high[1], high[2] - low[2]);
  return waveGrid(waveNumbers, base, 16 * extent);
}

/** Matrices of minus the normal velocity at control points for unit circulation, row-major. */
export interface OscillatingInfluence {
  readonly symmetry: Symmetry;
  readonly size: number;
  /** omega / airspeed of each matrix [1/m]. */
  readonly waveNumbers: Float64Array;
  readonly steady: Float64Array;
  readonly oscillating: readonly ComplexMatrix[];
}

const emptyInfluence = (symmetry: Symmetry, size: number, waveNumbers: Float64Array): OscillatingInfluence => ({
  symmetry,
  size,
  waveNumbers,
  steady: new Float64Array(size * size),
  oscillating: Array.from(waveNumbers, () => complexZeros(size * size)),
});

/** Adds the integral's part of one vortex at one point to entry `at` of a matrix of every wave number. */
function addToEntry(
  to: OscillatingInfluence,
  at: number,
  factor: number,
  { direct, end, sum }: { direct: number; end: number; sum: Float64Array },
): void {
  to.steady[at] += factor * direct;
  for (let w = 0; w < to.waveNumbers.length; w++) {
    const kappa = to.waveNumbers[w];
    const [cosine, sine] = [Math.cos(kappa * end), Math.sin(kappa * end)];
    // -i kappa exp(-i kappa xi) (p + i q) = kappa [(q c - p s) - i (p c + q s)].
    const [p, q] = [sum[2 * w], sum[2 * w + 1]];
    to.oscillating[w].re[at] += factor * (direct + kappa * (q * cosine - p * sine));
    to.oscillating[w].im[at] -= factor * kappa * (p * cosine + q * sine);
  }
}

/**
 * Influence of the oscillating lattice for symmetric and, where wanted, antisymmetric motion. Every panel carries a pressure that moves as
 * exp(i omega t); what it sheds is carried aft with the airspeed, so that its doublet strength at a distance s behind it is that of the bound
 * vortex times exp(-i omega s / U). With H(X) the normal velocity of the steady horseshoe a distance X ahead of the point,
 *   D = H(xi) - i kappa exp(-i kappa xi) integral from -infinity to xi of H(X) exp(i kappa X) dX,  kappa = omega / U,
 * exact for a strip of constant strength; at kappa = 0 it is the steady lattice. The apparent mass of the air is part of it.
 *
 * lattice - of the steady wing
 * waveNumbers - omega / airspeed [1/m], positive
 * lateral - whether the antisymmetric half is wanted too
 * Source: E. Albano and W. P. Rodden, AIAA Journal 7(2), 1969 (pressure doublets on a lattice); derivation from the horseshoe ours.
 */
export function oscillatingInfluence(
  lattice: Lattice,
  waveNumbers: Float64Array,
  lateral: boolean,
): { readonly symmetric: OscillatingInfluence; readonly antisymmetric: OscillatingInfluence | undefined } {
  const { mirroredPanels: half, strips, stripOfPanel, points: control, panelCount } = lattice;
  const symmetric = emptyInfluence('symmetric', half, waveNumbers);
  const antisymmetric = lateral ? emptyInfluence('antisymmetric', panelCount, waveNumbers) : undefined;
  const rows = lateral ? panelCount : half;
  const grid = gridFor(lattice, waveNumbers);
  partial.weights = new Float64Array(waveNumbers.length * 2 * points);
  const sum = new Float64Array(2 * waveNumbers.length);
  const pair = {} as Pair;
  for (let i = 0; i < rows; i++) {
    const strip = stripOfPanel[i];
    const [x, y, z] = [control[3 * i], control[3 * i + 1], control[3 * i + 2]];
    for (let j = 0; j < rows; j++) {
      const source = stripOfPanel[j];
      const core2 = strips.surface[source] === strips.surface[strip] ? 0 : (coreRadius * strips.width[source]) ** 2;
      // The image vortex at this point is this vortex at the mirrored point, with the y component reversed.
      for (let side = 1; side >= (j < half ? -1 : 1); side -= 2) {
        const at = { x, y: side * y, z, ny: side * strips.ny[strip], nz: strips.nz[strip], core2 };
        const end = setPair(pair, lattice, j, at);
        sum.fill(0);
        integrate(pair, end, grid, sum);
        const value = { direct: normalwash(pair, end), end, sum };
        if (i < half && j < half) addToEntry(symmetric, i * half + j, 1, value);
        if (antisymmetric) addToEntry(antisymmetric, i * panelCount + j, side, value);
      }
    }
  }
  addShedCorrection(lattice, symmetric);
  if (antisymmetric) addShedCorrection(lattice, antisymmetric);
  return { symmetric, antisymmetric };
}

/**
 * The vorticity shed between neighbouring panels makes a normalwash that goes as the logarithm of the distance. Its sum over points halfway
 * between the vortices is too large by ln 2 times the local circulation (Stirling's series); taken off, the lattice converges with the
 * square of the panel length instead of the length.
 */
function addShedCorrection(lattice: Lattice, { size, waveNumbers, oscillating }: OscillatingInfluence): void {
  const { firstPanel, stripOfPanel, ends, strips } = lattice;
  for (let i = 0; i < size; i++) {
    const strip = stripOfPanel[i];
    const slope = (ends[6 * i + 3] - ends[6 * i]) / strips.width[strip];
    const strength = (Math.LN2 * Math.hypot(1, slope)) / (2 * Math.PI);
    const last = i + 1 === firstPanel[strip + 1];
    waveNumbers.forEach((kappa, w) => {
      const value = (kappa * strength) / 2;
      oscillating[w].im[i * size + i] += value;
      if (!last) oscillating[w].im[i * size + i + 1] += value;
    });
  }
}
