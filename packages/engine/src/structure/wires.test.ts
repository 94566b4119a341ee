import { describe, expect, it } from 'vitest';
import type { SurfacePart, WirePart } from './index.js';
import {
  buildModel,
  halfModel,
  pointRow,
  prepareStatic,
  readRow,
  solveStatic,
  wireStiffness,
  wireTensions,
} from './index.js';
import { uniformPlate } from './panels.js';

const steel = { modulus: 200e9, diameter: 0.5e-3 };
const EA = (200e9 * Math.PI * 0.5e-3 ** 2) / 4;

describe('a bracing wire', () => {
  it('upright is E A / L against the rise; at 30 degrees a quarter of that of its length, and half its pull (two-force member)', () => {
    const upright = wireStiffness({ ...steel, wing: [0, 0, 0], end: [0, 0, -0.4] });
    expect(upright.upward).toBeCloseTo(EA / 0.4, 6);
    expect(upright.pull).toBeCloseTo(EA / 0.4, 6);
    const sloped = wireStiffness({ ...steel, wing: [0, 0.3 * Math.sqrt(3), 0], end: [0, 0, -0.3] });
    expect(sloped.length).toBeCloseTo(0.6, 12);
    expect(sloped.upward / (EA / 0.6)).toBeCloseTo(0.25, 12);
    expect(sloped.pull / (EA / 0.6)).toBeCloseTo(0.5, 12);
  });

  it('is slackened by a rise where it ends above, and none where it has no length', () => {
    expect(wireStiffness({ ...steel, wing: [0, 0.5, 0], end: [0, 0, 0.2] }).pull).toBeLessThan(0);
    expect(wireStiffness({ ...steel, wing: [0, 0, 0], end: [0, 0, 0] })).toEqual({ length: 0, pull: 0, upward: 0 });
  });
});

describe('a wing with a wire', () => {
  const surface: SurfacePart = {
    name: 'wing',
    stations: [0, 1].map((y) => ({ y, xLeadingEdge: 0, chord: 0.2 })),
    plateAt: () => uniformPlate(5, 0),
    beams: [],
    controls: [],
    mass: 0.2,
  };
  const wire: WirePart = {
    name: 'front',
    surface: 'wing',
    at: { x: 0.1, y: 0.6 },
    bodyX: 0.1,
    stiffness: wireStiffness({ ...steel, wing: [0.1, 0.6, 0], end: [0.1, 0, -0.2] }),
    breaks: 100,
  };
  const clamped = (wires: readonly WirePart[]) => {
    const made = buildModel({ surfaces: [surface], bodies: [], masses: [], wires });
    if (!made.ok) throw new Error(made.reason);
    const half = halfModel(made.value, 'clamped');
    const system = prepareStatic(half);
    if (!system.ok) throw new Error(system.reason);
    const row = (x: number, y: number) => pointRow(made.value, 'wing', x, y);
    /** Displacement under a unit load upwards at a place. */
    const under = (x: number, y: number) => {
      const loads = new Float64Array(half.size);
      const at = row(x, y);
      at.dofs.forEach((dof, i) => {
        const index = half.indexOf[dof]!;
        if (index >= 0) loads[index]! += at.w[i]!;
      });
      return solveStatic(system.value, loads).displacement;
    };
    const rise = (x: number, y: number, moved: Float64Array) => readRow(half, row(x, y).dofs, row(x, y).w, moved);
    return { model: made.value, half, under, rise };
  };
  const [bare, braced] = [clamped([]), clamped([wire])];
  const tip = [0.1, 1] as const;
  const tied = [0.1, 0.6] as const;

  it('rises at the wire by what compatibility says: f P / (1 + k f) (force method, S. Timoshenko, Strength of Materials)', () => {
    const byTip = bare.rise(...tied, bare.under(...tip));
    const byItself = bare.rise(...tied, bare.under(...tied));
    const expected = byTip / (1 + wire.stiffness.upward * byItself);
    expect(braced.rise(...tied, braced.under(...tip)) / expected).toBeCloseTo(1, 8);
  });

  it('pulls by its stretch, and its upright part is what the wing no longer bears at its root', () => {
    const moved = braced.under(...tip);
    const { tension } = wireTensions(braced.half, braced.model.wires, moved)[0]!;
    expect(tension).toBeGreaterThan(0);
    const upright = tension * (0.2 / Math.hypot(0.6, 0.2));
    expect(upright / (wire.stiffness.upward * braced.rise(...tied, moved))).toBeCloseTo(1, 9);
  });

  it('leaves the wing alone as it gets thin', () => {
    const thin = {
      ...wire,
      stiffness: wireStiffness({ ...steel, diameter: 1e-9, wing: [0.1, 0.6, 0], end: [0.1, 0, -0.2] }),
    };
    const ratio = clamped([thin]).rise(...tip, clamped([thin]).under(...tip)) / bare.rise(...tip, bare.under(...tip));
    expect(ratio).toBeCloseTo(1, 7);
  });
});
