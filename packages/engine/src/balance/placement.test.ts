import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { additionEffect, ballastAt, batteryStation, checkBalance, placeForBalance } from './placement.js';

const state = { mass: 1.2, x: 0.26 };
const battery = { name: 'battery', mass: 0.3, x: 0.2 };
const nose = { from: 0.02, to: 0.9 };

describe('placeForBalance', () => {
  it('reaches the target by moving the battery, or with the ballast it names', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 0.6, noNaN: true }), (target) => {
        const outcome = placeForBalance(state, battery, target, { from: 0.05, to: 0.35 }, nose);
        expect(outcome.ok).toBe(true);
        if (!outcome.ok) return;
        const { x, ballast } = outcome.value;
        expect(x).toBeGreaterThanOrEqual(0.05);
        expect(x).toBeLessThanOrEqual(0.35);
        const extra = ballast ?? { mass: 0, x: 0 };
        const moment = state.mass * state.x + battery.mass * (x - battery.x) + extra.mass * extra.x;
        expect(moment / (state.mass + extra.mass)).toBeCloseTo(target, 10);
        expect(extra.mass).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('a battery already right stays', () => {
    const outcome = placeForBalance(state, battery, state.x, { from: 0.05, to: 0.35 }, nose);
    expect(outcome).toMatchObject({ ok: true, value: { x: battery.x, ballast: undefined } });
  });

  it('has no cure when even the nose lies behind the target', () => {
    const outcome = placeForBalance(state, battery, 0.1, { from: 0.19, to: 0.35 }, { from: 0.15, to: 0.9 });
    expect(outcome).toMatchObject({ ok: false, code: 'ballast-station' });
  });
});

describe('batteryStation', () => {
  it('gives the station inside the span', () => {
    const outcome = batteryStation(state, battery, 0.25, { from: 0.05, to: 0.35 }, nose);
    // 1.2 kg x 10 mm forward needs 0.3 kg x 40 mm.
    expect(outcome).toMatchObject({ ok: true });
    if (outcome.ok) expect(outcome.value).toBeCloseTo(0.16, 12);
  });

  it('outside the span says tail-heavy and the grams of ballast that cure it', () => {
    const outcome = batteryStation(state, battery, 0.2, { from: 0.1, to: 0.35 }, nose);
    expect(outcome).toMatchObject({ ok: false, code: 'battery-out-of-reach' });
    if (outcome.ok) return;
    expect(outcome.reason).toContain('tail-heavy');
    expect(outcome.reason).toContain('-40 mm');
    const grams = Number(/add (\d+) g/.exec(outcome.remedy)?.[1]) / 1000;
    const moment = 1.2 * 0.26 + 0.3 * (0.1 - 0.2) + grams * 0.02;
    expect(moment / (1.2 + grams)).toBeCloseTo(0.2, 3);
    expect(moment / (1.2 + grams)).toBeLessThanOrEqual(0.2);
  });

  it('says nose-heavy on the other side', () => {
    const outcome = batteryStation(state, battery, 0.4, { from: 0.1, to: 0.35 }, nose);
    if (!outcome.ok) expect(outcome.reason).toContain('nose-heavy');
    expect(outcome.ok).toBe(false);
  });
});

describe('ballastAt', () => {
  it('is nothing when balanced, and refuses a station on the wrong side or at the target', () => {
    expect(ballastAt(state, state.x, 0.9)).toMatchObject({ ok: true, value: { mass: 0 } });
    expect(ballastAt(state, 0.25, 0.9).ok).toBe(false);
    expect(ballastAt(state, 0.25, 0.25).ok).toBe(false);
    expect(() => ballastAt({ mass: 0, x: 0 }, 0.1, 0.2)).toThrow(RangeError);
  });
});

describe('additionEffect', () => {
  it('adding an item and moving the battery as told leaves the balance point', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.2, max: 0.5, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (mass, x) => {
          const effect = additionEffect(state, { mass, x }, battery.mass);
          const moment = state.mass * state.x + mass * x + battery.mass * effect.batteryMove;
          expect(moment / effect.mass).toBeCloseTo(state.x, 10);
          expect(effect.x - state.x).toBeCloseTo(effect.shift, 12);
        },
      ),
    );
    expect(() => additionEffect(state, { mass: -2, x: 0 }, 0.3)).toThrow(RangeError);
  });
});

describe('checkBalance', () => {
  const range = { forward: 0.22, aft: 0.28, width: 0.06 };
  const gramsIn = (text: string): number => Number(/add (\d+) g/.exec(text)?.[1]) / 1000;

  it('gives the room inside the range', () => {
    const outcome = checkBalance(state, range, nose);
    expect(outcome).toMatchObject({ ok: true });
    if (outcome.ok) expect(outcome.value.toForward + outcome.value.toAft).toBeCloseTo(range.width, 12);
  });

  it('names grams that bring the balance point just inside, on either side', () => {
    for (const [x, code, station] of [
      [0.31, 'balance-too-far-aft', nose.from],
      [0.2, 'balance-too-far-forward', nose.to],
    ] as const) {
      const outcome = checkBalance({ mass: 1, x }, range, nose);
      expect(outcome).toMatchObject({ ok: false, code });
      if (outcome.ok) continue;
      const added = gramsIn(outcome.remedy);
      const cured = { mass: 1 + added, x: (x + added * station) / (1 + added) };
      expect(checkBalance(cured, range, nose).ok).toBe(true);
      const less = added - 0.001;
      expect(checkBalance({ mass: 1 + less, x: (x + less * station) / (1 + less) }, range, nose).ok).toBe(false);
    }
  });

  it('says when no balance point would do, and when ballast cannot help', () => {
    expect(checkBalance(state, { forward: 0.3, aft: 0.25, width: -0.05 }, nose)).toMatchObject({
      code: 'no-balance-range',
    });
    const outcome = checkBalance({ mass: 1, x: 0.31 }, range, { from: 0.29, to: 0.5 });
    if (!outcome.ok) expect(outcome.remedy).toContain('cannot cure');
    expect(outcome.ok).toBe(false);
  });
});
