import { largestRealEigenvalue } from '../math/arnoldi.js';
import { factorLu, solveLu } from '../math/linear.js';
import { type Outcome, success } from '../result.js';
import type { LiftingSurface } from '../shape/index.js';
import {
  type HalfModel,
  prepareStatic,
  type StaticSystem,
  type StructuralModel,
  solveStatic,
} from '../structure/index.js';
import { stripCurves } from '../wing/coupling.js';
import { influenceMatrices } from '../wing/influence.js';
import { buildLattice, type Lattice } from '../wing/lattice.js';
import { antisymmetricColumns, type Column, controlColumns, modelControls, symmetricColumns } from '../wing/solve.js';
import type { WingOptions, WingReference } from '../wing/types.js';
import type { Symmetry } from './oscillatingInfluence.js';
import { type HeldPanel, heldPanels, type PanelRows, panelRows } from './panelRows.js';

/** The lattice of one half of the motion with its causes: what depends on geometry and sections alone. */
export interface SteadyHalf {
  readonly symmetry: Symmetry;
  readonly lattice: Lattice;
  readonly surfaces: readonly LiftingSurface[];
  readonly panels: number;
  /** Minus the normal velocity per circulation, with the slopes of the sections' lift curves; row-major. */
  readonly air: Float64Array;
  /** Incidences of unit causes. Symmetric: camber and twist, angle of attack, pitch rate, controls; antisymmetric: sideslip, roll rate, yaw rate, controls. */
  readonly causes: readonly Column[];
  /** Forces on panels over dynamic pressure that stand for the sections' own moments [m2], symmetric half; zero where thin theory holds. */
  readonly couples: Float64Array;
}

/** Adds the sections' slopes: incidence that a strip loses by lifting less than a thin airfoil. */
function withSectionSlopes(lattice: Lattice, air: Float64Array, panels: number, options: WingOptions): void {
  const { strips, firstPanel } = lattice;
  const { compliance } = stripCurves(strips, strips.count, options);
  for (let s = 0; s < strips.count && firstPanel[s] < panels; s++)
    for (let i = firstPanel[s]; i < firstPanel[s + 1]; i++)
      for (let j = firstPanel[s]; j < firstPanel[s + 1]; j++)
        air[i * panels + j] -= (2 * compliance[s]) / strips.chord[s];
}

/** Pairs of forces at the first and last bound vortex of each strip that make the moment which the lattice leaves out. */
function sectionCouples(lattice: Lattice, panels: number, moments: Float64Array | undefined): Float64Array {
  const couples = new Float64Array(panels);
  if (moments === undefined) return couples;
  const { strips, firstPanel, ends } = lattice;
  for (let s = 0; s < strips.mirroredCount; s++) {
    const [first, last] = [firstPanel[s], firstPanel[s + 1] - 1];
    const arm = (ends[6 * last] + ends[6 * last + 3] - ends[6 * first] - ends[6 * first + 3]) / 2;
    if (!(arm > 0)) continue;
    const moment = (moments[s] - strips.latticeMoment[s]) * strips.area[s] * strips.chord[s];
    couples[first] += moment / arm;
    couples[last] -= moment / arm;
  }
  return couples;
}

/**
 * Both halves of a wing as the elastic problem needs them: the same lattice, sections and causes as `solveWing`.
 * moments - section moment coefficients about the quarter chord by strip, absent: those of thin camber lines
 */
export function steadyHalves(
  surfaces: readonly LiftingSurface[],
  options: WingOptions,
  reference: WingReference,
  momentsOf?: (lattice: Lattice) => Float64Array,
): { readonly symmetric: SteadyHalf; readonly antisymmetric: SteadyHalf } {
  const lattice = buildLattice(surfaces, options);
  const matrices = influenceMatrices(lattice, true);
  const controls = modelControls(lattice, surfaces);
  const half = (symmetry: Symmetry): SteadyHalf => {
    const panels = symmetry === 'symmetric' ? lattice.mirroredPanels : lattice.panelCount;
    const air = symmetry === 'symmetric' ? matrices.symmetric : matrices.antisymmetric!;
    withSectionSlopes(lattice, air, panels, options);
    const own = controlColumns(
      lattice,
      surfaces,
      controls.filter((control) => control[symmetry]),
    );
    const causes =
      symmetry === 'symmetric'
        ? symmetricColumns(lattice, reference, own)
        : antisymmetricColumns(lattice, reference, own);
    if (symmetry === 'symmetric') shiftZeroLift(lattice, causes[0][1], options);
    const moments = symmetry === 'symmetric' ? momentsOf?.(lattice) : undefined;
    return { symmetry, lattice, surfaces, panels, air, causes, couples: sectionCouples(lattice, panels, moments) };
  };
  return { symmetric: half('symmetric'), antisymmetric: half('antisymmetric') };
}

/** The angle by which a section's zero lift differs from that of its thin camber line. */
function shiftZeroLift(lattice: Lattice, incidence: Float64Array, options: WingOptions): void {
  const { strips, stripOfPanel, mirroredPanels } = lattice;
  const { shift } = stripCurves(strips, strips.count, options);
  for (let i = 0; i < mirroredPanels; i++) incidence[i] += shift[stripOfPanel[i]];
}

/** A half of the wing on a structure that gives. */
export interface ElasticHalf {
  readonly steady: SteadyHalf;
  readonly half: HalfModel;
  /** The half with its stiffness factored. */
  readonly system: StaticSystem;
  readonly rows: PanelRows;
  /** Displacement of the structure for a unit force on each panel, row-major size x panels, free of rigid motion. */
  readonly displacement: Float64Array;
  /** Incidence that a unit circulation on panel j makes at panel i by its force, over dynamic pressure; row-major. */
  readonly bentByLift: Float64Array;
  /** Incidence that the sections' own moments make at each panel, over dynamic pressure. */
  readonly bentByMoments: Float64Array;
}

/** rows (a x b) times columns (b x c). */
function multiply(
  rows: Float64Array,
  columns: Float64Array,
  [a, b, c]: readonly [number, number, number],
): Float64Array {
  const result = new Float64Array(a * c);
  for (let i = 0; i < a; i++)
    for (let k = 0; k < b; k++) {
      const value = rows[i * b + k];
      if (value === 0) continue;
      for (let j = 0, r = i * c, s = k * c; j < c; j++) result[r + j] += value * columns[s + j];
    }
  return result;
}

/**
 * Puts a half of the wing on its structure: one static solution with as many loads as panels. A change of stiffness needs this again, but
 * no new lattice. The free aircraft is balanced by its own inertia.
 * held - panels on the structure where they are known already, from `heldPanels`
 */
export function elasticHalf(
  steady: SteadyHalf,
  model: StructuralModel,
  half: HalfModel,
  held: readonly HeldPanel[] = heldPanels(steady.lattice, steady.surfaces, model),
): Outcome<ElasticHalf> {
  const system = prepareStatic(half);
  if (!system.ok) return system;
  const { panels, lattice, couples } = steady;
  const rows = panelRows(held, half, panels);
  const loads = new Float64Array(half.size * panels);
  for (let p = 0; p < panels; p++)
    for (let i = 0; i < half.size; i++) loads[i * panels + p] = rows.force[p * half.size + i];
  const { displacement } = solveStatic(system.value, loads, panels);
  const bentByLift = multiply(rows.slope, displacement, [panels, half.size, panels]);
  const bentByMoments = new Float64Array(panels);
  for (let i = 0; i < panels; i++)
    for (let j = 0; j < panels; j++) {
      // The incidence falls as the slope aft rises; a circulation carries twice the width of its strip.
      const incidence = -bentByLift[i * panels + j];
      bentByMoments[i] += incidence * couples[j];
      bentByLift[i * panels + j] = 2 * lattice.strips.width[lattice.stripOfPanel[j]] * incidence;
    }
  return success({ steady, half, system: system.value, rows, displacement, bentByLift, bentByMoments });
}

/** Circulations per airspeed for each cause at a dynamic pressure, row-major panels x causes. */
export interface LoadedHalf {
  readonly pressure: number;
  readonly circulation: Float64Array;
}

/**
 * Equilibrium of lattice and structure at a dynamic pressure, for a unit of each cause. Section moments load the structure with the first
 * cause of symmetric flight (camber). Undefined exactly at divergence.
 * causes - absent: all of the half
 */
export function loadHalf(
  elastic: ElasticHalf,
  pressure: number,
  causes: readonly Column[] = elastic.steady.causes,
): LoadedHalf | undefined {
  const { steady, bentByLift, bentByMoments } = elastic;
  const { panels: n, air } = steady;
  const count = causes.length;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < matrix.length; i++) matrix[i] = air[i] - pressure * bentByLift[i];
  const lu = factorLu(matrix, n);
  if (!lu.ok) return undefined;
  const right = new Float64Array(n * count);
  for (let c = 0; c < count; c++) {
    const [, incidence] = causes[c];
    for (let i = 0; i < n; i++) right[i * count + c] = incidence[i];
  }
  if (steady.symmetry === 'symmetric') for (let i = 0; i < n; i++) right[i * count] += pressure * bentByMoments[i];
  return { pressure, circulation: solveLu(lu.value, right, count) };
}

/**
 * Lowest dynamic pressure at which this half diverges: the deformation feeds itself while the aircraft as a whole keeps its attitude.
 * Undefined where it never does.
 */
export function divergencePressure({ steady, bentByLift }: ElasticHalf): number | undefined {
  const { panels: n, air } = steady;
  const lu = factorLu(air.slice(), n);
  if (!lu.ok) return undefined;
  const bent = (circulation: Float64Array): Float64Array => {
    const incidence = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j < n; j++) sum += bentByLift[i * n + j] * circulation[j];
      incidence[i] = sum;
    }
    return incidence;
  };
  const largest = largestRealEigenvalue((circulation) => solveLu(lu.value, bent(circulation)), n);
  return largest === undefined ? undefined : 1 / largest;
}
