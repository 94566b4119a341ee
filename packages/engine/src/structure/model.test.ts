import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { curvatureRows, shearRows, slopeRows, TRIANGLE_POINTS, triangleFields, triangleStiffness } from './element.js';
import {
  addForce,
  buildModel,
  halfModel,
  heatLoad,
  naturalModes,
  pointRow,
  prepareStatic,
  readRow,
  solveStatic,
} from './index.js';
import type { HalfAircraft } from './input-types.js';
import type { PlateProperties } from './model-types.js';
import { clampedModel, panel, uniformLoads, uniformPlate } from './panels.js';

/** Any triangle that is not a sliver. */
const triangle = fc
  .tuple(
    fc.double({ min: 0.3, max: 2, noNaN: true }),
    fc.double({ min: -1, max: 1, noNaN: true }),
    fc.double({ min: 0.3, max: 2, noNaN: true }),
  )
  .map(([a, b, c]) => ({
    x: [0.1, 0.1 + a, 0.1 + b] as [number, number, number],
    y: [0.2, 0.3, 0.25 + c] as [number, number, number],
  }))
  .filter(({ x, y }) => (x[1] - x[0]) * (y[2] - y[0]) - (x[2] - x[0]) * (y[1] - y[0]) > 0.1);

const stack = (plate: PlateProperties) => [plate, plate, plate];
const thin: PlateProperties = { ...uniformPlate(2, 0.3), d16: 0.1, d26: -0.05 };
const thick: PlateProperties = { ...thin, shear: { aft: 30, out: 50 } };

describe('plate triangle', () => {
  it('takes no force from rigid motion and the exact energy from any constant curvature', () => {
    fc.assert(
      fc.property(
        triangle,
        fc.constantFrom(thin, thick),
        fc.tuple(
          fc.double({ min: -1, max: 1, noNaN: true }),
          fc.double({ min: -1, max: 1, noNaN: true }),
          fc.double({ min: -1, max: 1, noNaN: true }),
        ),
        (corners, plate, [k1, k2, k12]) => {
          const fields = triangleFields(corners, stack(plate));
          const stiffness = triangleStiffness(fields, stack(plate));
          const u = [0, 1, 2].flatMap((i) => {
            const [x, y] = [corners.x[i], corners.y[i]];
            return [
              3 + 2 * x - y + (k1 * x * x + k2 * y * y + k12 * x * y) / 2,
              2 + k1 * x + (k12 * y) / 2,
              -1 + k2 * y + (k12 * x) / 2,
            ];
          });
          let energy = 0;
          for (let i = 0; i < 9; i++) for (let j = 0; j < 9; j++) energy += (u[i] * stiffness[9 * i + j] * u[j]) / 2;
          const m = [
            plate.d11 * k1 + plate.d12 * k2 + plate.d16 * k12,
            plate.d12 * k1 + plate.d22 * k2 + plate.d26 * k12,
            plate.d16 * k1 + plate.d26 * k2 + plate.d66 * k12,
          ];
          const exact = ((m[0] * k1 + m[1] * k2 + m[2] * k12) * fields.area) / 2;
          expect(energy).toBeCloseTo(exact, 8);
          const rows = curvatureRows(fields, [0.2, 0.3, 0.5]);
          [k1, k2, k12].forEach(
            (k, r) => void expect(u.reduce((sum, value, i) => sum + rows[9 * r + i] * value, 0)).toBeCloseTo(k, 8),
          );
          const shear = shearRows(fields, [0.2, 0.3, 0.5]);
          expect(Math.abs(u.reduce((sum, value, i) => sum + shear[i] * value, 0))).toBeLessThan(1e-8);
        },
      ),
    );
  });

  it('integrates a polynomial of sixth degree exactly', () => {
    // Integral of a^4 b^2 over a triangle of area 1: 2 * 4! 2! / 8!.
    const sum = TRIANGLE_POINTS.reduce((total, { at, weight }) => total + weight * at[0] ** 4 * at[1] ** 2, 0);
    expect(sum).toBeCloseTo((2 * 24 * 2) / 40320, 13);
  });

  it('has slopes that are those of the displacement for a parabola', () => {
    const corners = { x: [0, 1, 0.3] as const, y: [0, 0.1, 0.9] as const };
    const fields = triangleFields(corners, stack(thin));
    const u = [0, 1, 2].flatMap((i) => [corners.x[i] ** 2, 2 * corners.x[i], 0]);
    const at = [0.5, 0.3, 0.2] as const;
    const x = at.reduce((sum, share, i) => sum + share * corners.x[i], 0);
    const slopes = slopeRows(fields, at);
    expect(u.reduce((sum, value, i) => sum + slopes[i] * value, 0)).toBeCloseTo(2 * x, 12);
  });
});

describe('model of the half aircraft', () => {
  const free: HalfAircraft = {
    surfaces: [panel(0.2, 0.8, uniformPlate(5, 0.3, 2))],
    bodies: [{ name: 'pod', y: 0, fromX: -0.3, toX: 0.1, at: { bending: 50, torsion: 20, linearMass: 0.2 } }],
    masses: [
      { name: 'battery', x: -0.25, y: 0, mass: 0.15 },
      { name: 'servo', x: 0.12, y: 0.5, mass: 0.01 },
    ],
  };
  const built = buildModel(free);
  if (!built.ok) throw new Error(built.reason);
  const model = built.value;

  it('weighs what its parts weigh and balances where they do', () => {
    const wing = 0.2 * 0.8 * 2;
    const pod = 0.4 * 0.1;
    expect(model.totalMass).toBeCloseTo(wing + pod + 0.16, 10);
    const moment = wing * 0.1 + pod * -0.1 + 0.15 * -0.25 + 0.01 * 0.12;
    expect(model.balancePoint).toBeCloseTo(moment / model.totalMass, 10);
  });

  it('does not strain in rigid motion', () => {
    for (const symmetry of ['symmetric', 'antisymmetric'] as const) {
      const half = halfModel(model, symmetry);
      for (let r = 0; r < half.rigidCount; r++) {
        let largest = 0;
        for (let i = 0; i < half.size; i++) {
          let force = 0;
          for (let j = 0; j < half.size; j++)
            force += half.stiffness[i * half.size + j] * half.rigid[r * half.size + j];
          largest = Math.max(largest, Math.abs(force));
        }
        expect(largest).toBeLessThan(1e-6);
      }
    }
  });

  it('in free flight bends alike whatever holds the solution, and inertia takes up the load', () => {
    const half = halfModel(model, 'symmetric');
    const system = prepareStatic(half);
    if (!system.ok) throw new Error(system.reason);
    const loads = new Float64Array(half.size);
    addForce(half, loads, pointRow(model, 'panel', 0.05, 0.6), 3);
    const { displacement, acceleration } = solveStatic(system.value, loads);
    expect(acceleration[0]).toBeCloseTo(3 / model.totalMass, 9);
    const other = prepareStatic({ ...half, supports: Int32Array.from([...half.supports].map((index) => index + 3)) });
    if (!other.ok) throw new Error(other.reason);
    const again = solveStatic(other.value, loads).displacement;
    again.forEach((value, i) => void expect(value).toBeCloseTo(displacement[i], 9));
  });

  it('answers reciprocally: the deflection at A from a force at B is that at B from a force at A', () => {
    const half = halfModel(model, 'symmetric');
    const system = prepareStatic(half);
    if (!system.ok) throw new Error(system.reason);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.2, noNaN: true }),
        fc.double({ min: 0, max: 0.8, noNaN: true }),
        (x, y) => {
          const [a, b] = [pointRow(model, 'panel', x, y), pointRow(model, 'panel', 0.17, 0.33)];
          const loads = new Float64Array(half.size * 2);
          addForce(half, loads, a, 1, 0, 2);
          addForce(half, loads, b, 1, 1, 2);
          const { displacement } = solveStatic(system.value, loads, 2);
          expect(readRow(half, b.dofs, b.w, displacement, 0, 2)).toBeCloseTo(
            readRow(half, a.dofs, a.w, displacement, 1, 2),
            9,
          );
        },
      ),
      { numRuns: 20 },
    );
  });

  it('vibrates with the frequencies of its symmetries, without the rigid motions', () => {
    for (const symmetry of ['symmetric', 'antisymmetric'] as const) {
      const half = halfModel(model, symmetry);
      const modes = naturalModes(half, 4);
      if (!modes.ok) throw new Error(modes.reason);
      expect(modes.value.frequencies[0]).toBeGreaterThan(1);
      for (let r = 0; r < half.rigidCount; r++) {
        let momentum = 0;
        for (let i = 0; i < half.size; i++)
          for (let j = 0; j < half.size; j++)
            momentum += half.rigid[r * half.size + i] * half.mass[i * half.size + j] * modes.value.shapes[j];
        expect(Math.abs(momentum)).toBeLessThan(1e-6);
      }
    }
  });

  it('refuses a surface without stiffness, stations or mass', () => {
    const soft = panel(0.2, 0.8, uniformPlate(0, 0.3));
    expect(buildModel({ ...free, surfaces: [soft] })).toMatchObject({ ok: false, where: 'panel' });
    expect(buildModel({ ...free, surfaces: [] })).toMatchObject({ ok: false });
    const light = panel(0.2, 0.8, uniformPlate(1, 0.3, 0));
    expect(buildModel({ surfaces: [light], bodies: [], masses: [] })).toMatchObject({
      ok: false,
      code: 'structure-mass',
    });
  });
});

describe('controls', () => {
  const wing = { ...panel(0.2, 0.8, uniformPlate(5, 0.3, 2)) };
  const hinged = (linkageStiffness: number) => ({
    ...wing,
    controls: [{ name: 'elevon', fromY: 0.2, toY: 0.7, hinge: 0.75, hingeStiffness: 0, linkageStiffness, hornY: 0.4 }],
  });

  it('turn about their hinge by moment over linkage stiffness', () => {
    const held = clampedModel({ surfaces: [{ ...hinged(0.5), plateAt: () => uniformPlate(500, 0.3, 2) }] });
    const loads = new Float64Array(held.half.size);
    const trailing = pointRow(held.model, 'panel', 0.2, 0.4);
    addForce(held.half, loads, trailing, 0.1);
    const { displacement } = solveStatic(held.system, loads);
    const { surfaceSlope, controlSlope } = held.model.controls[0];
    const turn = (i: number) =>
      displacement[held.half.indexOf[controlSlope[i]]] - displacement[held.half.indexOf[surfaceSlope[i]]];
    expect(turn(2)).toBeCloseTo((0.1 * 0.05) / 0.5, 4);
  });

  it('follow the surface without a gap when the linkage is stiff and the hinge runs along the span', () => {
    const held = clampedModel({ surfaces: [hinged(1e4)] });
    const whole = clampedModel({ surfaces: [wing] });
    const tip = ({ model, half, system }: typeof held) => {
      const row = pointRow(model, 'panel', 0.05, 0.8);
      return readRow(half, row.dofs, row.w, solveStatic(system, uniformLoads({ model, half })).displacement);
    };
    // The control carries along the span still, but is cut off chordwise at its ends and free to turn away from its horn.
    expect(tip(held) / tip(whole)).toBeGreaterThan(1);
    expect(tip(held) / tip(whole)).toBeLessThan(1.15);
  });
});

describe('heat', () => {
  it('bends a free plate to a sphere of the free curvature, edges down', () => {
    const plate = { ...uniformPlate(0.3, 0.25, 0.4), heatCurvature: 6e-3 };
    const built = buildModel({ surfaces: [panel(0.3, 0.5, plate)], bodies: [], masses: [] });
    if (!built.ok) throw new Error(built.reason);
    const half = halfModel(built.value, 'symmetric');
    const system = prepareStatic(half);
    if (!system.ok) throw new Error(system.reason);
    const { displacement } = solveStatic(system.value, heatLoad(built.value, half, 20));
    const at = (x: number, y: number) => {
      const row = pointRow(built.value, 'panel', x, y);
      return readRow(half, row.dofs, row.w, displacement);
    };
    const curvature = 6e-3 * 20;
    expect(at(0.15, 0) - (at(0, 0) + at(0.3, 0)) / 2).toBeCloseTo((curvature * 0.15 ** 2) / 2, 6);
    expect(at(0.15, 0) - at(0.15, 0.5)).toBeCloseTo((curvature * 0.5 ** 2) / 2, 6);
  });
});
