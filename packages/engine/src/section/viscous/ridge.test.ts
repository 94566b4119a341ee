import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nacaSection } from '../index.js';
import { preparedOutline } from './covering.js';
import { ridgeLoss } from './ridge.js';
import { solveViscous } from './solve.js';

const made = nacaSection('2410');
if (!made.ok) throw new Error(made.reason);
const prepared = preparedOutline(made.value.outlineX, made.value.outlineY, 120);
if (!prepared.ok) throw new Error(prepared.reason);
const section = prepared.value;

describe('ridgeLoss', () => {
  it('is half the drag coefficient times height far above the layer, less what the layer lacks', () => {
    // Displacement + momentum thickness of a sine profile: half its thickness, theta / (2 / pi - 1 / 2) / 2.
    const lacking = 0.5 / (2 / Math.PI - 0.5);
    expect(ridgeLoss(20, 0.1)).toBeCloseTo(0.3 * (20 - 0.1 * lacking), 9);
    expect(ridgeLoss(1, 1e-9)).toBeCloseTo(0.3, 6);
  });

  it('deep in the layer grows as the cube of height, and always less than the height alone gives', () => {
    expect(ridgeLoss(0.02, 1) / ridgeLoss(0.01, 1)).toBeCloseTo(8, 2);
    expect(ridgeLoss(0, 1)).toBe(0);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 3e-3, noNaN: true }),
        fc.double({ min: 1e-5, max: 1e-3, noNaN: true }),
        (height, theta) => {
          const loss = ridgeLoss(height, theta);
          expect(loss).toBeGreaterThanOrEqual(-1e-15);
          expect(loss).toBeLessThanOrEqual(0.3 * height + 1e-15);
        },
      ),
    );
  });
});

describe('a trip that stands up', () => {
  const drag = (height: number, alpha: number): number => {
    const solved = solveViscous(section, {
      alpha,
      reynolds: 3e5,
      critical: 9,
      trips: [0.1, 0.1],
      tripHeights: [height, height],
    });
    if (!solved.ok) throw new Error(solved.reason);
    return solved.value.flow.drag;
  };

  it('costs no less than its own loss on both sides, and nothing where it is flat', () => {
    const flat = solveViscous(section, { alpha: 0, reynolds: 3e5, critical: 9, trips: [0.1, 0.1] });
    if (!flat.ok) throw new Error(flat.reason);
    expect(drag(0, 0)).toBeCloseTo(flat.value.flow.drag, 12);
    const theta = (side: 'upper' | 'lower'): number => {
      const layer = flat.value.flow[side];
      return layer.theta[layer.station.findIndex((x) => x > 0.09)]!;
    };
    const loss = ridgeLoss(1e-3, theta('upper')) + ridgeLoss(1e-3, theta('lower'));
    const cost = drag(1e-3, 0) - drag(0, 0);
    // Speeds of 1.1 to 1.2 at the trip make momentum thickness grow on the way to the trailing edge.
    expect(cost).toBeGreaterThan(2 * loss);
    expect(cost).toBeLessThan(2 * loss * 1.25 ** 3.4);
  });

  it('costs more the higher it stands', () => {
    const costs = [0, 5e-4, 1e-3, 2e-3].map((height) => drag(height, 0.05));
    for (let i = 1; i < costs.length; i++) expect(costs[i]).toBeGreaterThan(costs[i - 1]!);
  });
});
