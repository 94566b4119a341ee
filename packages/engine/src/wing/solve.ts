import { factorLu, solveLu } from '../math/linear.js';
import { type Outcome, success } from '../result.js';
import { type ControlSurface, checkShape, type LiftingSurface, planform, type Shape } from '../shape/index.js';
import { bodyMomentSlope } from './body.js';
import { coupleSections } from './coupling.js';
import { farFieldMatrix, influenceMatrices } from './influence.js';
import { buildLattice, controlCoverage, type Lattice } from './lattice.js';
import { sideEdgeCoefficient } from './sideEdge.js';
import { thinFlap, thinLattice } from './thin.js';
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
        ? ((surface.sideEdge ?? 1) * sideEdgeCoefficient(form.aspectRatio, form.taper) * form.area) / reference.area
        : 0,
      xSideEdge: tip.xLeadingEdge + tip.chord / 2,
    };
  });
}

function modelControls(lattice: Lattice, surfaces: readonly LiftingSurface[]): ModelControl[] {
  return surfaces.flatMap((surface, index) =>
    surface.controls.map((control) => ({
      name: control.name,
      kind: control.kind,
      surface: index,
      coverage: controlCoverage(lattice, surface, index, control),
      symmetric: surface.mirrored && symmetricKinds.has(control.kind),
      antisymmetric: antisymmetricKinds.has(control.kind),
    })),
  );
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
    const flap = thinFlap(definition.chordFraction, count);
    for (let k = 0; k < count; k++) incidence[first + k] = factor * flap[k];
  }
  return incidence;
}

type Column = readonly [name: string, incidence: Float64Array];

const filled = (lattice: Lattice, value: (panel: number, strip: number) => number): Float64Array =>
  Float64Array.from({ length: lattice.panelCount }, (_, panel) => value(panel, lattice.stripOfPanel[panel]));

function symmetricColumns(lattice: Lattice, reference: WingReference, controls: readonly Column[]): Column[] {
  const { strips, points } = lattice;
  return [
    ['camber and twist', filled(lattice, (panel, strip) => lattice.camberIncidence[panel] + strips.twist[strip])],
    ['angle of attack', filled(lattice, (_, strip) => strips.nz[strip])],
    ['pitch rate', filled(lattice, (panel, strip) => (strips.nz[strip] * 2 * points[3 * panel]) / reference.chord)],
    ...controls,
  ];
}

function antisymmetricColumns(lattice: Lattice, reference: WingReference, controls: readonly Column[]): Column[] {
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
    const weights = thinLattice(lattice.firstPanel[s + 1] - first).leadingWeights;
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

function solveColumns(
  lattice: Lattice,
  matrix: Float64Array,
  columns: readonly Column[],
  { panels, strips }: { panels: number; strips: number },
): Outcome<{ basis: BasisSolutions; panelSolution: Float64Array }> {
  const lu = factorLu(matrix, panels);
  if (!lu.ok) return { ...lu, where: 'lifting surfaces' };
  const right = new Float64Array(panels * columns.length);
  columns.forEach(([, incidence], c) => {
    for (let i = 0; i < panels; i++) right[i * columns.length + c] = incidence[i];
  });
  const panelSolution = solveLu(lu.value, right, columns.length);
  return success({ basis: byStrip(lattice, columns, panelSolution, strips), panelSolution });
}

function slice(basis: BasisSolutions, from: number, to: number, strips: number): BasisSolutions {
  return {
    names: basis.names.slice(from, to),
    circulation: basis.circulation.slice(from * strips, to * strips),
    firstMoment: basis.firstMoment.slice(from * strips, to * strips),
    leadingEdge: basis.leadingEdge.slice(from * strips, to * strips),
  };
}

/**
 * Solves the lifting surfaces of a shape by a vortex lattice: once for every unit cause, so that any state is a sum of them.
 * Linear: thin surfaces, wake straight aft, incidence on the undeflected lattice. The right half carries the unknowns.
 *
 * shape - surfaces and bodies, x aft, y right, z up [m]
 * options - camber lines and straight lift curves of the sections by name; unknowns; reference sizes
 * Returns the model that wingForces, maximumLift and wingDerivatives evaluate, with warnings; or a problem of the shape.
 * Source: Katz and Plotkin, Low-Speed Aerodynamics, 2nd ed. 2001, section 12.1; Hough, J. Aircraft 10(5), 1973 (tip inset).
 */
export function solveWing(shape: Shape, options: WingOptions = {}): Outcome<WingModel> {
  const checked = checkShape(shape);
  if (!checked.ok) return checked;
  const { surfaces } = shape;
  const reference = { ...wingReference(surfaces), ...options.reference };
  const lattice = buildLattice(surfaces, options);
  const controls = modelControls(lattice, surfaces);
  const lateral = options.lateral ?? true;
  const matrices = influenceMatrices(lattice, lateral);
  const definitions = surfaces.flatMap((surface) => surface.controls);
  const column = (control: ModelControl): Column => [
    control.name,
    controlIncidence(lattice, control, definitions.find((definition) => definition.name === control.name)!),
  ];
  const mirrored = lattice.strips.mirroredCount;
  const unit: Column[] = Array.from({ length: mirrored }, (_, s) => [
    `strip ${s}`,
    filled(lattice, (_, strip) => (strip === s ? 1 : 0)),
  ]);
  const causes = symmetricColumns(lattice, reference, controls.filter((c) => c.symmetric).map(column));
  const size = { panels: lattice.mirroredPanels, strips: mirrored };
  const symmetric = solveColumns(lattice, matrices.symmetric, [...causes, ...unit], size);
  if (!symmetric.ok) return symmetric;
  let antisymmetric: BasisSolutions | undefined;
  if (matrices.antisymmetric) {
    const columns = antisymmetricColumns(lattice, reference, controls.filter((c) => c.antisymmetric).map(column));
    const all = { panels: lattice.panelCount, strips: lattice.strips.count };
    const solved = solveColumns(lattice, matrices.antisymmetric, columns, all);
    if (!solved.ok) return solved;
    antisymmetric = solved.value.basis;
  }
  const { basis, panelSolution } = symmetric.value;
  const alphaCirculation = Float64Array.from(
    { length: size.panels },
    (_, p) => panelSolution[p * basis.names.length + 1],
  );
  const model: WingModel = {
    reference,
    surfaces: summaries(surfaces, reference),
    controls,
    strips: lattice.strips,
    symmetric: slice(basis, 0, causes.length, mirrored),
    response: slice(basis, causes.length, causes.length + mirrored, mirrored),
    antisymmetric,
    farField: farFieldMatrix(lattice),
    bodyMomentSlope: bodyMomentSlope(shape, lattice, alphaCirculation, reference),
    unknowns: lattice.panelCount,
  };
  return success(options.sectionLift ? coupleSections(model, options) : model, checked.warnings);
}
