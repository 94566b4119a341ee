import { factorLu, solveLu } from '../math/linear.js';
import { thinAirfoilIntegrals } from './thin.js';
import type { BasisSolutions, SectionLift, Strips, WingOptions } from './types.js';

export interface StripCurve {
  /** 1 / (2 pi) - 1 / slope. */
  readonly compliance: Float64Array;
  /** Thin-airfoil zero-lift angle - that of the section [rad]. */
  readonly shift: Float64Array;
}

export function stripCurves(strips: Strips, n: number, options: WingOptions): StripCurve {
  const curve = { compliance: new Float64Array(n), shift: new Float64Array(n) };
  const thinAngle = new Map<string, number>();
  const of = (section: string): { slope: number; shift: number } => {
    if (!thinAngle.has(section)) thinAngle.set(section, thinAirfoilIntegrals(options.camber?.[section]).zeroLiftAngle);
    const thin = thinAngle.get(section)!;
    const known: SectionLift = options.sectionLift?.[section] ?? { liftSlope: 2 * Math.PI, zeroLiftAngle: thin };
    return { slope: known.liftSlope, shift: thin - known.zeroLiftAngle };
  };
  for (let i = 0; i < n; i++) {
    const [a, b] = [of(strips.sections[i]), of(strips.outerSections[i])];
    const slope = a.slope + (b.slope - a.slope) * strips.blend[i];
    curve.compliance[i] = 1 / (2 * Math.PI) - 1 / slope;
    curve.shift[i] = a.shift + (b.shift - a.shift) * strips.blend[i];
  }
  return curve;
}

/** Adds unit-strip responses, weighted by `incidence` (one column), to a column of a basis. */
function addResponses(basis: BasisSolutions, column: number, response: BasisSolutions, incidence: Float64Array): void {
  const n = incidence.length;
  for (let j = 0; j < n; j++) {
    const weight = incidence[j];
    if (weight === 0) continue;
    for (let i = 0; i < n; i++) {
      basis.circulation[column * n + i] += weight * response.circulation[j * n + i];
      basis.firstMoment[column * n + i] += weight * response.firstMoment[j * n + i];
      basis.leadingEdge[column * n + i] += weight * response.leadingEdge[j * n + i];
    }
  }
}

const copied = (basis: BasisSolutions): BasisSolutions => ({
  names: basis.names,
  circulation: basis.circulation.slice(),
  firstMoment: basis.firstMoment.slice(),
  leadingEdge: basis.leadingEdge.slice(),
});

/** One half of the problem (symmetric or antisymmetric): its causes, and unit incidence on each of its strips. */
export interface Half {
  readonly causes: BasisSolutions;
  readonly response: BasisSolutions;
}

/**
 * Bends the lattice's thin-airfoil strips to the straight lift curves of their sections: every strip gets the extra incidence
 * cl (1/(2 pi) - 1/slope) + shift of zero lift, solved together for all strips and every column.
 *
 * shiftedColumn - the column that holds camber, which takes the shift of zero lift; -1 for none
 */
export function coupleSections(strips: Strips, half: Half, options: WingOptions, shiftedColumn: number): Half {
  const { response } = half;
  const n = response.names.length;
  const { compliance, shift } = stripCurves(strips, n, options);
  const lift = (circulation: number, strip: number) => (2 * circulation) / strips.chord[strip];
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++)
      matrix[i * n + j] = (i === j ? 1 : 0) - lift(response.circulation[j * n + i], i) * compliance[j];
  const lu = factorLu(matrix, n);
  // Singular only for a section slope beyond any real one; the thin-airfoil solution then stands.
  if (!lu.ok) return half;
  const bend = (basis: BasisSolutions, shifted: number): BasisSolutions => {
    const bent = copied(basis);
    if (shifted >= 0) addResponses(bent, shifted, response, shift);
    const columns = basis.names.length;
    const right = new Float64Array(n * columns);
    for (let i = 0; i < n; i++)
      for (let c = 0; c < columns; c++) right[i * columns + c] = lift(bent.circulation[c * n + i], i);
    const solved = solveLu(lu.value, right, columns);
    for (let c = 0; c < columns; c++) {
      const extra = Float64Array.from({ length: n }, (_, i) => compliance[i] * solved[i * columns + c]);
      addResponses(bent, c, response, extra);
    }
    return bent;
  };
  return { causes: bend(half.causes, shiftedColumn), response: bend(response, -1) };
}
