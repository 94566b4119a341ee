import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages } from './index.js';
import { limits } from './limits.js';
import { warmFoam } from './warm-foam.js';

const warmOf = (name: 'alondra' | 'bandeja') => {
  const stages = createStages();
  const verdict = test.verdictOf(test.designText(name), test.planText(name), test.quick, stages);
  const found = limits(verdict, stages);
  if (!found.ok) throw new Error(found.reason);
  return { warm: warmFoam(verdict, found.value), first: found.value.report.limits[0]! };
};

describe('foam under dark cells in the sun', () => {
  const { warm, first } = warmOf('bandeja');

  it('is hotter parked than in flight, keeps less of its stiffness and lowers the limit more', () => {
    const { air, flight, parked } = warm!;
    expect(flight.top).toBeGreaterThan(air + 5);
    expect(parked.top).toBeGreaterThan(flight.top + 5);
    expect(parked.top).toBeLessThan(373);
    expect(parked.stiffness.kept).toBeLessThan(flight.stiffness.kept);
    expect(parked.limitSpeed).toBeLessThan(flight.limitSpeed);
    expect(flight.limitSpeed).toBeLessThanOrEqual(first.low);
    expect(parked.low).toBeLessThan(parked.limitSpeed);
  });

  it('lowers speeds by the root of what it keeps', () => {
    expect((warm!.parked.limitSpeed / first.low) ** 2).toBeCloseTo(warm!.parked.stiffness.kept, 10);
  });

  it('is no matter of a wing of ribs and film', () => {
    expect(warmOf('alondra').warm).toBeUndefined();
  });
});
