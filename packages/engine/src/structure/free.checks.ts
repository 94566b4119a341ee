import type { Check } from '../check.js';
import { row } from './checkRow.js';
import { buildModel, halfModel, naturalModes, prepareStatic, solveStatic } from './index.js';
import type { StructuralMaterial } from './laminate.js';
import type { HalfModel } from './model-types.js';
import { clampedModel, deflectionAt, panel, pointLoads, uniformLoads, uniformPlate } from './panels.js';
import type { PanelJoint, SurfaceStructure } from './surface-types.js';
import { surfacePart } from './surfacePart.js';
import { surfaceSection } from './surfaceSection.js';

/** A free half model of a rectangular plate, its mode shapes and what solves it; a mistake of the check throws. */
function freePlate(chord: number, length: number) {
  const built = buildModel(
    { surfaces: [panel(chord, length, uniformPlate(1, 0))], bodies: [], masses: [] },
    { corners: 40 },
  );
  if (!built.ok) throw new Error(built.reason);
  return { model: built.value, half: halfModel(built.value, 'symmetric') };
}

const times = (a: Float64Array, x: Float64Array) =>
  Float64Array.from(x, (_, i) => x.reduce((sum, value, j) => sum + a[i * x.length + j] * value, 0));
const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i], 0);

/** Energy of a free vibration of two modes after some periods over that at the start, by implicit midpoints, which add and take none. */
export function energyKept(half: HalfModel, steps: number): number {
  const [modes, n] = [naturalModes(half, 3), half.size];
  if (!modes.ok) throw new Error(modes.reason);
  const step = 0.05 / modes.value.frequencies[0];
  const stiffness = half.mass.map((m, i) => m + (step * step * half.stiffness[i]) / 4);
  const system = prepareStatic({ ...half, rigidCount: 0, supports: new Int32Array(0), stiffness });
  if (!system.ok) throw new Error(system.reason);
  let u = Float64Array.from({ length: n }, (_, i) => modes.value.shapes[i] + 0.3 * modes.value.shapes[n + i]);
  let v = new Float64Array(n);
  const energy = () => (dot(u, times(half.stiffness, u)) + dot(v, times(half.mass, v))) / 2;
  const start = energy();
  for (let k = 0; k < steps; k++) {
    const middle = Float64Array.from(u, (value, i) => value + (step * v[i]) / 2);
    const loads = times(half.stiffness, middle).map((value) => -step * value);
    const change = solveStatic(system.value, loads).displacement;
    const next = Float64Array.from(v, (value, i) => value + change[i]);
    u = Float64Array.from(u, (value, i) => value + (step * (v[i] + next[i])) / 2);
    v = next;
  }
  return energy() / start;
}

const foam: StructuralMaterial = {
  name: 'foam',
  modulus: 50e6,
  modulusAcross: 50e6,
  shearModulus: 25e6,
  throughShear: 25e9,
  poisson: 0,
  density: 100,
  tension: 1e6,
  compression: 1e6,
  shearStrength: 1e6,
  expansion: 0,
};

/** A slender slab, 1 m long, with a soft joint of 20 mm in its middle. */
const [jointAt, jointDepth, kept] = [0.4, 0.01, 0.1];
const joint: PanelJoint = {
  name: 'middle',
  y: jointAt,
  kind: 'tube',
  material: foam,
  width: 0.008,
  height: 0,
  wall: 0,
  depth: jointDepth,
  play: 0,
  bearing: 1e6,
  bendingKept: kept,
  torsionKept: 1,
};
const slab = (joints: readonly PanelJoint[]): SurfaceStructure => ({
  name: 'panel',
  stations: [0, 1].map((y) => ({
    y,
    xLeadingEdge: 0,
    chord: 0.1,
    shape: { stations: [0, 1], upper: [0.05, 0.05], lower: [-0.05, -0.05] },
  })),
  core: foam,
  zones: [],
  spars: [],
  cells: [],
  controls: [],
  joints,
  bendingFactor: 1,
  torsionFactor: 1,
});

/** Deflection of the tip of the clamped slab, 1 N at the tip. */
function tipDeflection(joints: readonly PanelJoint[]): number {
  const plate = clampedModel({ surfaces: [surfacePart(slab(joints))] }, { corners: 80 });
  return deflectionAt(plate, pointLoads(plate, [[0.05, 1, 1]]), 0.05, 1);
}

/** Of a rotational spring that is as soft as the joint [N m/rad], and of the slab [N m2]. */
const slabBending = () => surfaceSection(slab([]), jointAt).bending;
const jointSpring = () => (slabBending() * kept) / (2 * jointDepth * (1 - kept));

const jointRows: readonly Check[] = [
  row({
    id: 'joiner-spring',
    quantity:
      'deflection of the tip of a cantilever with a rotational spring in it under a force at the tip, over P L^3 / 3 EI + P (L - a)^2 / k',
    expected: 1,
    unit: '-',
    tolerance: 0.01,
    why: '1 %: the joint gives over 20 mm of 1 m, not in one place, and the slab is a plate of a tenth of its length',
    source: 'superposition of beam deflections, Gere and Timoshenko, Mechanics of Materials, appendix G',
    calls: 'jointKept',
    compute: () => tipDeflection([joint]) / (1 / (3 * slabBending()) + (1 - jointAt) ** 2 / jointSpring()),
  }),
  row({
    id: 'joiner-none',
    quantity: 'deflection of the tip of the same cantilever without the spring, over P L^3 / 3 EI',
    expected: 1,
    unit: '-',
    tolerance: 0.01,
    why: '1 %: the slab is a plate of a tenth of its length',
    source: 'Gere and Timoshenko, Mechanics of Materials, appendix G',
    calls: 'solveStatic',
    compute: () => 3 * slabBending() * tipDeflection([]),
  }),
];

/** Greatest displacement of the free plate under loads in proportion to its masses, over that of the clamped one. */
function bentByOwnWeight(): number {
  const { model, half } = freePlate(0.2, 1);
  const system = prepareStatic(half);
  if (!system.ok) throw new Error(system.reason);
  const free = solveStatic(system.value, uniformLoads({ model, half })).displacement;
  const held = clampedModel({ surfaces: [panel(0.2, 1, uniformPlate(1, 0))] }, { corners: 40 });
  return Math.max(...free.map(Math.abs)) / deflectionAt(held, uniformLoads(held), 0.1, 1);
}

const freeRows: readonly Check[] = [
  row({
    id: 'inertia-relief-uniform',
    quantity:
      'bending of a free uniform wing under uniform load, balanced by its own inertia, over that of the clamped one',
    expected: 0,
    unit: '-',
    tolerance: 1e-9,
    why: 'rounding: load and inertia balance in every place',
    source: "statics: d'Alembert",
    calls: 'solveStatic',
    compute: bentByOwnWeight,
  }),
  row({
    id: 'free-vibration-energy',
    quantity: 'energy of a free vibration after 200 steps of an integration that keeps energy, over that at its start',
    expected: 1,
    unit: '-',
    tolerance: 1e-8,
    why: 'rounding of 200 steps: stiffness and mass are symmetric',
    source: 'conservation of energy',
    calls: 'naturalModes',
    compute: () => energyKept(freePlate(0.3, 0.6).half, 200),
  }),
];

/** Joiners, free flight and free vibration. */
export const freeChecks: readonly Check[] = [...jointRows, ...freeRows];
