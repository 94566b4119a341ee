import { factorLu, solveLu } from '../math/linear.js';
import { type Outcome, success, type Warning } from '../result.js';
import { type ControlSurface, checkShape, type LiftingSurface, planform, type Shape } from '../shape/index.js';
import { bodyMomentSlope } from './body.js';
import { coupleSections, type Half } from './coupling.js';
import { tipIsJoined } from './division.js';
import { farFieldMatrix, influenceMatrices } from './influence.js';
import { buildLattice, controlCoverage, type Lattice } from './lattice.js';
import { sideEdgeCoefficient } from './sideEdge.js';
import { thinFlap } from './thin.js';
import type { BasisSolutions, ModelControl, SurfaceSummary, WingModel, WingOptions, WingReference } from './types.js';

const symmetricKinds = new Set(['elevator', 'elevon', 'ruddervator', 'flap']);
const antisymmetricKinds = new Set(['aileron', 'elevon', 'ruddervator', 'rudder']);

/** Area, span and mean chord of all surfaces of the kind wing together. */
export function wingReference(surfaces: readonly LiftingSurface[]): WingReference {
  const wings = surfaces.filter((surface) => surface.kind === 'wing').map(planform);
  const area = wings.reduce((sum, wing) => sum + wing.projectedArea, 0);
  const weighted = (value: (wing: (typeof wings)[number]) => number) =>
    wings.reduce((sum, wing) => sum + value(wing) * wing.projectedArea, 0) / area;
  return {
    area,
    span: Math.max(...wings.map((wing) => wing.span)),
    chord: weighted((wing) => wing.meanAerodynamicChord),
    xMeanChord: weighted((wing) => wing.xMeanChord),
  };
}

function summaries(surfaces: readonly LiftingSurface[], reference: WingReference): SurfaceSummary[] {
  return surfaces.map((surface) => {
    const form = planform(surface);
    const tip = surface.stations[surface.stations.length - 1];
    const lifting = surface.kind !== 'fin' && surface.mirrored;
    return {
      name: surface.name,
      kind: surface.kind,
      mirrored: surface.mirrored,
      suction: surface.suction ?? 1,
      sideEdge: lifting
        ? ((surface.sideEdge ?? (tipIsJoined(surface, surfaces) ? 0 : 1)) *
            sideEdgeCoefficient(form.aspectRatio, form.taper) *
            form.area) /
          reference.area
        : 0,
      xSideEdge: tip.xLeadingEdge + tip.chord / 2,
    };
  });
}

export function modelControls(lattice: Lattice, surfaces: readonly LiftingSurface[]): ModelControl[] {
  return surfaces.flatMap((surface, index) =>
    surface.controls.map((control) => {
      const coverage = controlCoverage(lattice, surface, index, control);
      return {
        name: control.name,
        kind: control.kind,
        surface: index,
        coverage,
        symmetric: surface.mirrored && symmetricKinds.has(control.kind),
        antisymmetric: antisymmetricKinds.has(control.kind),
        chord: coveredChord(lattice, coverage),
        layerAhead: control.layerAhead ?? 0,
        ...(control.turning === undefined ? {} : { turning: control.turning }),
      };
    }),
  );
}

/** Mean chord of the strips that a control lies on [m]. */
function coveredChord({ strips }: Lattice, coverage: Float64Array): number {
  let [area, width] = [0, 0];
  coverage.forEach((share, i) => {
    area += share * strips.area[i];
    width += share * strips.width[i];
  });
  return width > 0 ? area / width : 0;
}

/** Incidence of every panel for one radian of a control. A rudder deflects so that its side force is to the right. */
function controlIncidence(lattice: Lattice, control: ModelControl, definition: ControlSurface): Float64Array {
  const incidence = new Float64Array(lattice.panelCount);
  for (let i = 0; i < lattice.strips.count; i++) {
    if (control.coverage[i] === 0) continue;
    const first = lattice.firstPanel[i];
    const count = lattice.firstPanel[i + 1] - first;
    const sign = control.kind === 'rudder' && lattice.strips.ny[i] < 0 ? -1 : 1;
    const factor = sign * control.coverage[i] * definition.effectiveness;
    const flap = thinFlap(definition.chordFraction, lattice.thin.get(count)!);
    for (let k = 0; k < count; k++) incidence[first + k] = factor * flap[k];
  }
  return incidence;
}

/** What lies outside the model's range. */
function validityWarnings(surfaces: readonly LiftingSurface[]): Warning[] {
  return surfaces.flatMap((surface) => {
    const { aspectRatio, sweep } = planform(surface);
    const warn = (code: string, message: string): Warning => ({ code, message, where: surface.name });
    const found: Warning[] = [];
    if (surface.kind === 'wing' && aspectRatio < 0.5)
      found.push(warn('very-low-aspect-ratio', 'below an aspect ratio of 0.5 edge vortices carry much of the lift'));
    if (Math.abs(sweep) > Math.PI / 4)
      found.push(
        warn('high-sweep', 'beyond 45 degrees of sweep leading-edge vortices add lift that is not in the model'),
      );
    if (surface.stations.some((station) => Math.abs(station.twist) > Math.PI / 12))
      found.push(warn('large-incidence', 'the lattice is linear: incidences above 15 degrees are too large for it'));
    return found;
  });
}

export type Column = readonly [name: string, incidence: Float64Array];

const filled = (lattice: Lattice, value: (panel: number, strip: number) => number): Float64Array =>
  Float64Array.from({ length: lattice.panelCount }, (_, panel) => value(panel, lattice.stripOfPanel[panel]));

export function symmetricColumns(lattice: Lattice, reference: WingReference, controls: readonly Column[]): Column[] {
  const { strips, points } = lattice;
  return [
    ['camber and twist', filled(lattice, (panel, strip) => lattice.camberIncidence[panel] + strips.twist[strip])],
    ['angle of attack', filled(lattice, (_, strip) => strips.nz[strip])],
    ['pitch rate', filled(lattice, (panel, strip) => (strips.nz[strip] * 2 * points[3 * panel]) / reference.chord)],
    ...controls,
  ];
}

export function antisymmetricColumns(
  lattice: Lattice,
  reference: WingReference,
  controls: readonly Column[],
): Column[] {
  const { strips, points } = lattice;
  const perSpan = 2 / reference.span;
  return [
    ['sideslip', filled(lattice, (_, strip) => -strips.ny[strip])],
    ['roll rate', filled(lattice, (_, s) => perSpan * (strips.nz[s] * strips.y[s] - strips.ny[s] * strips.z[s]))],
    ['yaw rate', filled(lattice, (panel, s) => perSpan * strips.ny[s] * points[3 * panel])],
    ...controls,
  ];
}

/** Sums panel solutions over each strip. */
function byStrip(lattice: Lattice, columns: readonly Column[], solution: Float64Array, strips: number): BasisSolutions {
  const count = columns.length;
  const circulation = new Float64Array(count * strips);
  const firstMoment = new Float64Array(count * strips);
  const leadingEdge = new Float64Array(count * strips);
  for (let s = 0; s < strips; s++) {
    const first = lattice.firstPanel[s];
    const { leadingWeights: weights } = lattice.thin.get(lattice.firstPanel[s + 1] - first)!;
    for (let panel = first; panel < lattice.firstPanel[s + 1]; panel++) {
      const x = (lattice.ends[6 * panel] + lattice.ends[6 * panel + 3]) / 2;
      for (let c = 0; c < count; c++) {
        const value = solution[panel * count + c];
        circulation[c * strips + s] += value;
        firstMoment[c * strips + s] += value * x;
        if (panel < first + 2)
          leadingEdge[c * strips + s] += (weights[panel - first] * value) / lattice.strips.chord[s];
      }
    }
  }
  return { names: columns.map(([name]) => name), circulation, firstMoment, leadingEdge };
}

function slice(basis: BasisSolutions, from: number, to: number, strips: number): BasisSolutions {
  return {
    names: basis.names.slice(from, to),
    circulation: basis.circulation.slice(from * strips, to * strips),
    firstMoment: basis.firstMoment.slice(from * strips, to * strips),
    leadingEdge: basis.leadingEdge.slice(from * strips, to * strips),
  };
}

interface HalfSize {
  readonly panels: number;
  readonly strips: number;
}

interface SolvedHalf extends Half {
  /** Circulation of each panel for the second cause. */
  readonly secondCause: Float64Array;
}

/** Solves one half for its causes and for unit incidence on each strip, then couples the sections. */
function solveHalf(
  lattice: Lattice,
  matrix: Float64Array,
  causes: readonly Column[],
  { size, options, shifted }: { size: HalfSize; options: WingOptions; shifted: number },
): Outcome<SolvedHalf> {
  const lu = factorLu(matrix, size.panels);
  if (!lu.ok) return { ...lu, where: 'lifting surfaces' };
  const unit: Column[] = Array.from({ length: size.strips }, (_, s) => [
    `strip ${s}`,
    filled(lattice, (_, strip) => (strip === s ? 1 : 0)),
  ]);
  const columns = [...causes, ...unit];
  const right = new Float64Array(size.panels * columns.length);
  columns.forEach(([, incidence], c) => {
    for (let i = 0; i < size.panels; i++) right[i * columns.length + c] = incidence[i];
  });
  const solution = solveLu(lu.value, right, columns.length);
  const basis = byStrip(lattice, columns, solution, size.strips);
  const half = {
    causes: slice(basis, 0, causes.length, size.strips),
    response: slice(basis, causes.length, columns.length, size.strips),
  };
  const secondCause = Float64Array.from({ length: size.panels }, (_, p) => solution[p * columns.length + 1]);
  return success({
    ...(options.sectionLift ? coupleSections(lattice.strips, half, options, shifted) : half),
    secondCause,
  });
}

/** Incidences of the controls of one half. */
export function controlColumns(
  lattice: Lattice,
  surfaces: readonly LiftingSurface[],
  controls: readonly ModelControl[],
): Column[] {
  const definitions = surfaces.flatMap((surface) => surface.controls);
  return controls.map((control) => {
    const definition = definitions.find(({ name }) => name === control.name)!;
    return [control.name, controlIncidence(lattice, control, definition)];
  });
}

/**
 * Solves the lifting surfaces of a shape by a vortex lattice: once for every unit cause, so that any state is a sum of them.
 * Linear: thin surfaces, wake straight aft, incidence on the undeflected lattice. The right half carries the unknowns.
 *
 * shape - surfaces and bodies, x aft, y right, z up [m]
 * options - camber lines and straight lift curves of the sections by name; unknowns; reference sizes
 * Returns the model that wingForces, maximumLift and wingDerivatives evaluate, with warnings; or a problem of the shape.
 * Source: Katz and Plotkin, Low-Speed Aerodynamics, 2nd ed. 2001, section 12.1 (numbering from memory); Hough, J. Aircraft 10(5), 1973 (tip inset).
 */
export function solveWing(shape: Shape, options: WingOptions = {}): Outcome<WingModel> {
  const checked = checkShape(shape);
  if (!checked.ok) return checked;
  const { surfaces } = shape;
  const reference = { ...wingReference(surfaces), ...options.reference };
  const lattice = buildLattice(surfaces, options);
  const { strips } = lattice;
  const controls = modelControls(lattice, surfaces);
  const matrices = influenceMatrices(lattice, options.lateral ?? true);
  const controlsOf = (half: 'symmetric' | 'antisymmetric') =>
    controlColumns(
      lattice,
      surfaces,
      controls.filter((control) => control[half]),
    );
  const symmetric = solveHalf(
    lattice,
    matrices.symmetric,
    symmetricColumns(lattice, reference, controlsOf('symmetric')),
    { size: { panels: lattice.mirroredPanels, strips: strips.mirroredCount }, options, shifted: 0 },
  );
  if (!symmetric.ok) return symmetric;
  const antisymmetric =
    matrices.antisymmetric &&
    solveHalf(lattice, matrices.antisymmetric, antisymmetricColumns(lattice, reference, controlsOf('antisymmetric')), {
      size: { panels: lattice.panelCount, strips: strips.count },
      options,
      shifted: -1,
    });
  if (antisymmetric && !antisymmetric.ok) return antisymmetric;
  const { causes, response, secondCause } = symmetric.value;
  const model: WingModel = {
    reference,
    surfaces: summaries(surfaces, reference),
    controls,
    strips,
    symmetric: causes,
    response,
    antisymmetric: antisymmetric?.value.causes,
    farField: farFieldMatrix(lattice),
    bodyMomentSlope: bodyMomentSlope(shape, lattice, secondCause, reference),
    unknowns: lattice.panelCount,
  };
  return success(model, [...checked.warnings, ...validityWarnings(surfaces)]);
}
