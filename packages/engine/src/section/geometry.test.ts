import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sectionGeometry, upperSurfaceAt } from './geometry.js';
import { nacaSection } from './naca.js';
import { normaliseOutline, signedArea } from './outline.js';

const section = (designation: string) => {
  const outcome = nacaSection(designation);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

/** Ellipse of thickness ratio t as an outline. */
const ellipse = (t: number, n = 400) => {
  const angles = Array.from({ length: n + 1 }, (_, i) => (2 * Math.PI * i) / n);
  return { x: angles.map((a) => 0.5 + 0.5 * Math.cos(a)), y: angles.map((a) => 0.5 * t * Math.sin(a)) };
};

describe('sectionGeometry', () => {
  it('an ellipse has its known area, thickness and nose radius', () => {
    const g = sectionGeometry({ name: 'ellipse', ...ellipse(0.2) });
    expect(g.area).toBeCloseTo((Math.PI / 4) * 0.2, 4);
    expect(g.maximumThickness).toBeCloseTo(0.2, 4);
    expect(g.maximumThicknessStation).toBeCloseTo(0.5, 2);
    // Radius of curvature at the end of the long axis: t^2 / 2.
    expect(g.leadingEdgeRadius).toBeCloseTo(0.02, 3);
  });
  it('scale, rotation and direction of the outline do not matter', () => {
    const base = section('4412');
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 500, noNaN: true }),
        fc.double({ min: -0.3, max: 0.3, noNaN: true }),
        fc.boolean(),
        (scale, angle, reversed) => {
          const x = base.outlineX.map((v, i) => scale * (v * Math.cos(angle) - base.outlineY[i] * Math.sin(angle)) + 3);
          const y = base.outlineX.map((v, i) => scale * (v * Math.sin(angle) + base.outlineY[i] * Math.cos(angle)) - 1);
          const g = sectionGeometry({ name: 'moved', x: reversed ? x.reverse() : x, y: reversed ? y.reverse() : y });
          expect(g.area).toBeCloseTo(base.area, 4);
          expect(g.maximumThickness).toBeCloseTo(base.maximumThickness, 3);
          // A turned outline is set on its longest chord, which starts 0.3 degrees above the formula's own.
          expect(Math.abs(g.maximumCamber - base.maximumCamber)).toBeLessThan(2e-3);
        },
      ),
      { numRuns: 40 },
    );
  });
  it('normalising twice changes nothing', () => {
    const { x, y } = ellipse(0.1);
    const tilted = normaliseOutline(
      x.map((v, i) => 80 * v - 3 * y[i]),
      y.map((v, i) => 80 * v + 3 * x[i]),
    );
    const again = normaliseOutline(tilted.x, tilted.y);
    again.x.forEach((value, i) => {
      expect(value).toBeCloseTo(tilted.x[i], 9);
    });
  });
  it('thickness across the mean line is less than across the chord', () => {
    const g = section('6412');
    expect(g.thicknessAcrossMeanLine).toBeLessThan(g.maximumThickness);
    expect(g.thicknessAcrossMeanLine).toBeGreaterThan(0.118);
  });
});

describe('upperSurfaceAt', () => {
  it('agrees with the derivatives of the thickness formula', () => {
    const at = upperSurfaceAt(section('0012'), 0.5);
    const f = (x: number) =>
      0.6 * (0.2969 * Math.sqrt(x) - 0.126 * x - 0.3516 * x * x + 0.2843 * x ** 3 - 0.1015 * x ** 4);
    const slope = (f(0.501) - f(0.499)) / 0.002;
    const second = (f(0.51) - 2 * f(0.5) + f(0.49)) / 1e-4;
    expect(at.ordinate).toBeCloseTo(0.05294, 4);
    expect(at.slope).toBeCloseTo(slope, 3);
    expect(Math.abs(at.curvature / second - 1)).toBeLessThan(0.05);
  });
  it('is finite at and beyond both ends', () => {
    for (const x of [-1, 0, 1, 2]) {
      const at = upperSurfaceAt(section('2412'), x);
      for (const value of Object.values(at)) expect(Number.isFinite(value)).toBe(true);
    }
  });
});

describe('signedArea', () => {
  it('changes sign with the direction', () => {
    const { x, y } = ellipse(0.1);
    expect(signedArea([...x].reverse(), [...y].reverse())).toBeCloseTo(-signedArea(x, y), 14);
  });
});
