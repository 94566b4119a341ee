import { describe, expect, it } from 'vitest';
import { buildModel, halfModel, pointRow, prepareStatic, readRow, solveStatic } from './index.js';
import type { StructuralMaterial } from './laminate.js';
import { joinerProfile, jointKept, jointReport, shearArm } from './panelJoint.js';
import { strengthAlong } from './strength.js';
import type { PanelJoint, SurfaceStructure } from './surface-types.js';
import { surfacePart } from './surfacePart.js';
import { surfaceSection } from './surfaceSection.js';

const material = (name: string, modulus: number, strength: number): StructuralMaterial => ({
  name,
  modulus,
  modulusAcross: modulus,
  shearModulus: modulus / 2.6,
  throughShear: modulus / 2.6,
  poisson: 0.3,
  density: 100,
  tension: strength,
  compression: strength,
  shearStrength: strength / 2,
  expansion: 0,
});
const carbon = material('carbon', 127e9, 600e6);
const plate: SurfaceStructure = {
  name: 'wing',
  stations: [0, 1].map((y) => ({
    y,
    xLeadingEdge: 0,
    chord: 0.2,
    shape: { stations: [0, 1], upper: [0.05, 0.05], lower: [-0.05, -0.05] },
  })),
  core: material('foam', 50e6, 1e6),
  zones: [],
  spars: [],
  cells: [],
  controls: [],
  bendingFactor: 1,
  torsionFactor: 1,
};
const joint: PanelJoint = {
  name: 'middle',
  y: 0.5,
  kind: 'tube',
  material: carbon,
  width: 0.008,
  height: 0.006,
  wall: 0,
  depth: 0.1,
  play: 1e-4,
  bearing: 10e6,
  torsionKept: 0.5,
};
const joined = (changes: Partial<PanelJoint> = {}): SurfaceStructure => ({
  ...plate,
  joints: [{ ...joint, ...changes }],
});

/** Rise of the tip of the free wing when its tip is pushed up. */
function tipSlope(structure: SurfaceStructure): number {
  const made = buildModel({ surfaces: [surfacePart(structure)], bodies: [], masses: [] });
  if (!made.ok) throw new Error(made.reason);
  const half = halfModel(made.value, 'symmetric');
  const system = prepareStatic(half);
  if (!system.ok) throw new Error(system.reason);
  const loads = new Float64Array(half.size);
  const row = pointRow(made.value, 'wing', 0.1, 1);
  row.dofs.forEach((dof, i) => {
    const index = half.indexOf[dof]!;
    if (index >= 0) loads[index]! += row.w[i]!;
  });
  return readRow(half, row.dofs, row.slopeY, solveStatic(system.value, loads).displacement);
}

describe('a joint of wing panels', () => {
  it('has the second moment of the peg: a tube of 8 over 6 mm of 127 GPa is 17.455 N m2 (textbook), a box its two rectangles', () => {
    expect(127e9 * joinerProfile(joint).inertia).toBeCloseTo(17.455, 2);
    const box = joinerProfile({ kind: 'box', width: 0.02, height: 0.01, wall: 0.001 });
    expect(box.inertia).toBeCloseTo((0.02 * 0.01 ** 3 - 0.018 * 0.008 ** 3) / 12, 14);
    expect(
      joinerProfile({ kind: 'box', width: 0.01, height: 0.01, wall: 1e-4 }).torsion / (0.0099 ** 3 * 1e-4),
    ).toBeCloseTo(1, 9);
  });

  it('has the arm of elliptic lift: 0.424413 of the half span at the root, two fifths of what is left near the tip', () => {
    expect(shearArm(plate, 0)).toBeCloseTo(4 / (3 * Math.PI), 6);
    expect(shearArm(plate, 0.99) / 0.01).toBeCloseTo(0.4, 2);
  });

  it('keeps no more than the whole section, less with a softer joiner, and nothing is lost beside it', () => {
    expect(jointKept(joined({ width: 0.08, height: 0 }), 0.5).bending).toBe(1);
    const panel = surfaceSection(plate, 0.5).bending;
    const thin = { width: 0.004, height: 0 };
    const rod = 127e9 * joinerProfile({ ...joint, ...thin }).inertia;
    expect(jointKept(joined(thin), 0.5).bending).toBeCloseTo(2 / (1 + panel / rod), 9);
    expect(jointKept(joined({ bendingKept: 0.3 }), 0.45)).toEqual({ bending: 0.3, torsion: 0.5 });
    expect(jointKept(joined(), 0.61)).toEqual({ bending: 1, torsion: 1 });
  });

  it('bends the wing by the moment over what is lost, over the length of the joiner', () => {
    const [bare, soft] = [tipSlope(plate), tipSlope(joined({ bendingKept: 0.25 }))];
    const free = tipSlope(joined({ bendingKept: 1, torsionKept: 1 }));
    expect(free / bare).toBeCloseTo(1, 2);
    // Free beam pushed at both tips: moment 1 N x (1 - y) less that of its inertia, 1/2 (1 - y)^2 of 1 N per half.
    const moment = (y: number) => 1 - y - (1 - y) ** 2 / 2;
    let extra = 0;
    for (let i = 0; i < 200; i++) extra += moment(0.4 + (i + 0.5) * 1e-3) * 1e-3;
    const added = (extra * (1 / 0.25 - 1)) / surfaceSection(plate, 0.5).bending;
    // 5 %: the plate bends across its chord too, and slopes vary linearly between mesh lines.
    expect((soft - free) / added).toBeGreaterThan(0.95);
    expect((soft - free) / added).toBeLessThan(1.05);
  });

  it('breaks by its outer fibre (20.6 N m for that tube at 600 MPa), and its socket is crushed in a short one', () => {
    const report = jointReport(plate, joint);
    expect(report.breaks).toBeCloseTo(20.6, 1);
    expect(report.kink).toBeCloseTo(0.002, 9);
    expect(jointReport(plate, { ...joint, depth: 0.05 }).crushes).toBeLessThan(0.3 * report.crushes);
    const weak = strengthAlong(joined({ bearing: 1e4 }));
    expect(weak.reasons[weak.y.indexOf(0.5)]).toBe('joiner middle crushes its socket');
  });
});

const { core: _, ...hollow } = plate;
const spared = (thickness: number): SurfaceStructure => ({
  ...hollow,
  spars: [
    {
      name: 'spar',
      kind: 'caps',
      material: carbon,
      place: 'middle',
      web: { material: material('balsa', 3e9, 1e6), thickness },
      sizes: [0, 1].map((y) => ({ y, chordFraction: 0.3, width: 0.01, depth: 0.001 })),
    },
  ],
});

describe('a wing that a load test found softer', () => {
  it('gives way at the same moment of its joiner and its web: strength is not stiffness', () => {
    // Curvatures at which things give way, times the stiffness there: the factor was once counted twice.
    const momentAtJoint = (bendingFactor: number) => {
      const wing = { ...joined({ bearing: 1e4 }), bendingFactor };
      const strength = strengthAlong(wing);
      const at = strength.y.indexOf(0.5);
      expect(strength.reasons[at]).toBe('joiner middle crushes its socket');
      return strength.up[at]! * jointKept(wing, 0.5).bending * surfaceSection(wing, 0.5).bending;
    };
    expect(momentAtJoint(0.6) / momentAtJoint(1)).toBeCloseTo(1, 9);
    const momentOfWeb = (bendingFactor: number) => {
      const wing = { ...spared(2e-3), bendingFactor };
      const strength = strengthAlong(wing);
      expect(strength.reasons[0]).toBe('web of spar shears');
      return strength.up[0]! * surfaceSection(wing, strength.y[0]!).bending;
    };
    expect(momentOfWeb(0.6) / momentOfWeb(1)).toBeCloseTo(1, 9);
  });
});

describe('the web of a spar', () => {
  it('limits the bending where its shear comes first, in proportion to its thickness', () => {
    const [thin, thick] = [2e-3, 4e-3].map((t) => strengthAlong(spared(t)));
    expect(thin!.reasons[0]).toBe('web of spar shears');
    expect(thick!.up[0]! / thin!.up[0]!).toBeCloseTo(2, 1);
  });
});
