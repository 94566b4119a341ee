import { describe, expect, it } from 'vitest';
import { glauertFlap } from '../flap.js';
import { nacaSection } from '../naca.js';
import { preparedOutline, solveAtLift } from './covering.js';
import { deflectedOutline } from './deflected.js';
import { inviscidFlow, inviscidSpeeds, pressureForces } from './inviscid.js';
import { sectionMesh } from './mesh.js';
import { hingeMoment, type SectionFlow } from './result.js';

const outline = (digits: string) => {
  const made = nacaSection(digits);
  if (!made.ok) throw new Error(made.reason);
  return { x: made.value.outlineX, y: made.value.outlineY };
};

/** Inviscid flow about an outline. */
function solved(x: readonly number[], y: readonly number[]) {
  const mesh = sectionMesh(x, y, 200);
  if (!mesh.ok) throw new Error(mesh.reason);
  const flow = inviscidFlow(mesh.value);
  if (!flow.ok) throw new Error(flow.reason);
  const speeds = new Float64Array(mesh.value.count);
  const at = (alpha: number) => {
    inviscidSpeeds(flow.value, alpha, speeds);
    return speeds;
  };
  return { mesh: mesh.value, at };
}

/** Value at no thickness by the straight line through those at 2 and 3 %: thickness enters linearly to first order. */
const thin = (of: (digits: string) => number): number => 3 * of('0002') - 2 * of('0003');

describe('a hinge', () => {
  /** Load 4 alpha sqrt((1 - x) / x) of the flat plate behind a hinge, about it, by x = (1 - cos t) / 2. */
  const plateHingeMoment = (hinge: number): number => {
    const from = Math.acos(1 - 2 * hinge);
    const step = (Math.PI - from) / 2000;
    let sum = 0;
    for (let i = 0; i < 2000; i++) {
      const t = from + (i + 0.5) * step;
      sum += 2 * (1 + Math.cos(t)) * ((1 - Math.cos(t)) / 2 - hinge) * step;
    }
    return -sum;
  };

  const slope = (digits: string, hinge: number): number => {
    const { x, y } = outline(digits);
    const { mesh, at } = solved(x, y);
    const moment = (alpha: number): number => {
      const pressure = at(alpha).map((q) => 1 - q * q);
      return hingeMoment({ station: mesh.x, pressure } as unknown as SectionFlow, mesh.y, hinge, 0);
    };
    return (moment(0.02) - moment(-0.02)) / 0.04;
  };

  // Source: load of the flat plate, H. Glauert, The Elements of Aerofoil and Airscrew Theory, 1926. 1 %: what is left of second order in thickness.
  it.each([0.6, 0.7, 0.8])('at %d of the chord bears the moment of thin-section theory', (hinge) => {
    const computed = thin((digits) => slope(digits, hinge));
    expect(Math.abs(computed / plateHingeMoment(hinge) - 1)).toBeLessThan(0.01);
    expect(computed).toBeLessThan(0);
  });

  it('at the trailing edge bears nothing', () => {
    expect(Math.abs(slope('0003', 1.01))).toBe(0);
  });
});

describe('a deflected flap', () => {
  const lift = (digits: string, fraction: number, deflection: number): number => {
    const { x, y } = outline(digits);
    const bent = deflectedOutline(x, y, { hingeX: 1 - fraction, hingeY: 0, deflection });
    const { mesh, at } = solved(bent.x, bent.y);
    return pressureForces(mesh, at(0), 0).lift;
  };

  // Source: H. Glauert, ARC R&M 1095, 1927. 1 %: what is left of second order in thickness, and the joint.
  it.each([0.2, 0.3])('of %d of the chord lifts as thin-section theory says', (fraction) => {
    const computed = thin((digits) => (lift(digits, fraction, 0.02) - lift(digits, fraction, -0.02)) / 0.04);
    expect(Math.abs(computed / (2 * Math.PI * glauertFlap(fraction).effectiveness) - 1)).toBeLessThan(0.01);
  });

  it('up and down mirror each other on a symmetric section', () => {
    expect(lift('0009', 0.25, 0.1)).toBeCloseTo(-lift('0009', 0.25, -0.1), 6);
  });

  it('without deflection is the section itself, and keeps its order', () => {
    const { x, y } = outline('0009');
    expect(deflectedOutline(x, y, { hingeX: 0.75, hingeY: 0, deflection: 0 })).toEqual({ x, y });
    const bent = deflectedOutline(x, y, { hingeX: 0.75, hingeY: 0, deflection: 0.3 });
    expect(bent.x.length).toBeLessThanOrEqual(x.length);
    expect(bent.y[0]).toBeLessThan(-0.05);
  });
});

describe('a sealed flap behind its boundary layer', () => {
  /** Shift of the zero-lift angle by a quarter-chord flap / that of thin-section theory. */
  const efficiency = (reynolds: number, trips: [number, number], deflection: number): number => {
    const { x, y } = outline('0009');
    const bent = deflectedOutline(x, y, { hingeX: 0.75, hingeY: 0, deflection });
    const prepared = preparedOutline(bent.x, bent.y, 120);
    if (!prepared.ok) throw new Error(prepared.reason);
    const flow = solveAtLift(prepared.value, 0, { reynolds, critical: 9, trips });
    if (!flow.ok) throw new Error(flow.reason);
    return -flow.value.alpha / (deflection * glauertFlap(0.25).effectiveness);
  };
  const free: [number, number] = [Number.NaN, Number.NaN];

  // Source: common practice, trend of DATCOM section 6.1.1: 0.7 to 0.85 for real flaps, some more where sealed.
  it('turns the flow by 0.75 to 0.97 of theory where the layer is turbulent ahead of the hinge', () => {
    for (const reynolds of [1e5, 2e5]) {
      const found = efficiency(reynolds, [0.6, 0.6], 0.09);
      expect(found).toBeGreaterThan(0.75);
      expect(found).toBeLessThan(0.97);
    }
  });

  it('loses half of that at 100 000 where the laminar layer separates ahead of the hinge, and less at 200 000', () => {
    const [slow, fast] = [efficiency(1e5, free, 0.09), efficiency(2e5, free, 0.09)];
    expect(slow).toBeLessThan(0.6);
    expect(fast).toBeGreaterThan(slow + 0.15);
    expect(fast).toBeLessThan(efficiency(2e5, [0.6, 0.6], 0.09));
  });
});
