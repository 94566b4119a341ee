import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages } from './index.js';
import { knownLimit, type LimitsAnswer, limits, steadyLimit } from './limits.js';

const warmOf = (name: 'alondra' | 'bandeja', edit = (design: string) => design) => {
  const stages = createStages();
  const verdict = test.verdictOf(edit(test.designText(name)), test.planText(name), test.quick, stages);
  const found = limits(verdict, stages);
  if (!found.ok) throw new Error(found.reason);
  return { answer: found.value, steady: steadyLimit(verdict, createStages()) };
};

/** Of the limit that comes first. */
const edges = ({ report, warm }: LimitsAnswer) => ({
  cold: report.limits[0]!.low,
  flight: warm!.flight.first!.low,
  parked: warm!.parked.first!.low,
});

describe('limits of an aircraft in the noon sun', () => {
  const bandeja = warmOf('bandeja');
  const alondra = warmOf('alondra');

  it('are lower the warmer it is: parked warmer than in flight, in flight warmer than the air', () => {
    for (const { answer } of [bandeja, alondra]) {
      const { flight, parked } = answer.warm!;
      expect(flight.faces.upper).toBeGreaterThan(flight.faces.lower + 5);
      expect(parked.faces.upper).toBeGreaterThan(flight.faces.upper + 5);
      expect(parked.faces.upper).toBeLessThan(373);
      const { cold, flight: flown, parked: stood } = edges(answer);
      expect(flown).toBeLessThan(cold);
      expect(stood).toBeLessThan(flown);
    }
  });

  it('name what softened: foam of a sheet, balsa of a built-up wing by its sheeting', () => {
    expect(bandeja.answer.warm!.parked.softer[0]!.name).toBe('extruded polystyrene foam');
    expect(alondra.answer.warm!.parked.softer[0]!.name).toBe('balsa');
    for (const { answer } of [bandeja, alondra])
      for (const { kept, low, high } of answer.warm!.parked.softer) {
        expect(low).toBeLessThanOrEqual(kept);
        expect(high).toBeGreaterThanOrEqual(kept);
      }
  });

  it('of a sheet whose foam alone holds it fall about with the root of its stiffness, and by its wider band a little more', () => {
    const { report, warm } = bandeja.answer;
    const foam = warm!.parked.softer[0]!;
    // Linear through the sheet: its mean keeps half of what its top loses.
    const mean = 1 - (1 - foam.kept) / 2;
    const ratio = warm!.parked.first!.airspeed / report.limits[0]!.airspeed;
    expect(ratio).toBeGreaterThan(Math.sqrt(mean) - 0.02);
    expect(ratio).toBeLessThan(1);
    expect(warm!.parked.first!.low / report.limits[0]!.low).toBeLessThanOrEqual(ratio);
  });

  it('hold a day: the lower of cold and warm is known, and a plain day finds the warm one without a cold one', () => {
    for (const { answer, steady } of [bandeja, alondra]) {
      const known = knownLimit(answer)!;
      expect(known.airspeed).toBe(Math.floor(10 * edges(answer).flight) / 10);
      expect(known.warmTop).toBe(answer.warm!.flight.faces.upper);
      expect(steady!.airspeed).toBeCloseTo(known.airspeed, 9);
      expect(steady!.warmTop).toBe(known.warmTop);
    }
  });
});
