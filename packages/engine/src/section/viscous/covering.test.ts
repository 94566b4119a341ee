import { describe, expect, it } from 'vitest';
import { nacaSection } from '../naca.js';
import { coveringCost, edgeEffect, facetedOutline, preparedOutline, solveAtLift } from './covering.js';

const outline = () => {
  const made = nacaSection('3410');
  if (!made.ok) throw new Error(made.reason);
  return { x: made.value.outlineX, y: made.value.outlineY };
};
const point = { lift: 0.5, reynolds: 2e5, critical: 9 };

describe('cells on a section', () => {
  it('flats lie below the curve and leave the rest as it was', () => {
    const { x, y } = outline();
    const flats = facetedOutline(x, y, { from: 0.2, to: 0.8, cell: 0.3 });
    const area = (px: readonly number[], py: readonly number[]) =>
      px.reduce((sum, a, i) => sum + a * py[(i + 1) % px.length]! - px[(i + 1) % px.length]! * py[i]!, 0) / 2;
    expect(Math.abs(area(flats.x, flats.y))).toBeLessThan(Math.abs(area(x, y)));
    expect(Math.abs(area(flats.x, flats.y))).toBeGreaterThan(0.93 * Math.abs(area(x, y)));
    expect(facetedOutline(x, y, { from: 0.2, to: 0.8, cell: 0 })).toEqual({ x, y });
  });

  it('cells without height that follow the surface cost nothing', () => {
    const { x, y } = outline();
    const cost = coveringCost(x, y, { from: 0.1, to: 0.8, edge: 0, cell: 0 }, point, 100);
    if (!cost.ok) throw new Error(cost.reason);
    expect(cost.value.ratio).toBeCloseTo(1, 3);
    expect(cost.value.front.trips).toBe(false);
  });

  it('a high front edge trips the layer there, a low one brings transition forward', () => {
    const { x, y } = outline();
    const high = coveringCost(x, y, { from: 0.1, to: 0.8, edge: 4e-3, cell: 0 }, { ...point, reynolds: 4e5 }, 100);
    if (!high.ok) throw new Error(high.reason);
    expect(high.value.front.trips).toBe(true);
    expect(high.value.covered.upper.transition).toBeCloseTo(0.1, 1);
    const low = coveringCost(x, y, { from: 0.1, to: 0.8, edge: 4e-4, cell: 0 }, point, 100);
    if (!low.ok) throw new Error(low.reason);
    expect(low.value.front.trips).toBe(false);
    expect(low.value.covered.upper.transition).toBeLessThan(low.value.bare.upper.transition + 1e-3);
  });

  it('a front edge that trips costs more the higher it stands, and more than a trip without height', () => {
    const { x, y } = outline();
    const fast = { ...point, reynolds: 4e5 };
    const [low, high] = [2e-3, 5e-3].map((edge) => {
      const cost = coveringCost(x, y, { from: 0.15, to: 0.85, edge, cell: 0 }, fast, 100);
      if (!cost.ok) throw new Error(cost.reason);
      expect(cost.value.front.trips).toBe(true);
      return cost.value.covered.drag;
    });
    const made = preparedOutline(x, y, 100);
    if (!made.ok) throw new Error(made.reason);
    const flat = solveAtLift(made.value, fast.lift, { ...fast, trips: [0.15, Number.NaN] });
    if (!flat.ok) throw new Error(flat.reason);
    expect(low!).toBeGreaterThan(1.02 * flat.value.drag);
    expect(high!).toBeGreaterThan(1.1 * low!);
  });

  it('a higher step has the higher Reynolds number', () => {
    const { x, y } = outline();
    const made = preparedOutline(x, y, 100);
    if (!made.ok) throw new Error(made.reason);
    const flow = solveAtLift(made.value, 0.5, point);
    if (!flow.ok) throw new Error(flow.reason);
    expect(flow.value.lift).toBeCloseTo(0.5, 3);
    const [a, b] = [1e-3, 2e-3].map((height) => edgeEffect(flow.value, 0.1, height, 'up').stepReynolds);
    expect(b!).toBeGreaterThan(2 * a!);
  });

  it('says that a lift out of reach is out of reach', () => {
    const { x, y } = outline();
    const made = preparedOutline(x, y, 100);
    if (!made.ok) throw new Error(made.reason);
    expect(solveAtLift(made.value, 3, point).ok).toBe(false);
  });
});
