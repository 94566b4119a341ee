import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ControlTurning } from '../shape/index.js';
import { FLAP_EFFICIENCY, flapEfficiency, LAYER_AHEAD } from './flap.js';
import {
  controlEfficiency,
  countedDeflection,
  deflectionThatCounts,
  turningDeflection,
  turningRatio,
  turningSpread,
} from './turning.js';

const degree = Math.PI / 180;

const turning: ControlTurning = {
  reynolds: [6e4, 1.2e5],
  deflections: [-10 * degree, -5 * degree, 5 * degree, 10 * degree],
  ratio: [0.7, 0.6, 0.5, 0.65, 0.9, 0.8, 0.75, 0.85],
  spread: [0.1, 0.1, 0.2, 0.1, 0.02, 0.02, 0.02, 0.02],
};

const computed = { layerAhead: LAYER_AHEAD.unknown, turning };
const fitted = { layerAhead: LAYER_AHEAD.unknown };

describe('what was computed of a control', () => {
  it('is read at its own places, straight between them in the deflection and in the logarithm of the Reynolds number', () => {
    expect(turningRatio(turning, 6e4, -5 * degree)).toBeCloseTo(0.6, 12);
    expect(turningRatio(turning, 1.2e5, 10 * degree)).toBeCloseTo(0.85, 12);
    expect(turningRatio(turning, 6e4, 0)).toBeCloseTo(0.55, 12);
    expect(turningRatio(turning, Math.sqrt(6e4 * 1.2e5), 5 * degree)).toBeCloseTo(0.625, 12);
    expect(turningSpread(turning, 6e4, 5 * degree)).toBeCloseTo(0.2, 12);
  });

  it('is held beyond its ends', () => {
    expect(turningRatio(turning, 1e4, -20 * degree)).toBeCloseTo(0.7, 12);
    expect(turningRatio(turning, 1e6, 20 * degree)).toBeCloseTo(0.85, 12);
  });

  it('takes the place of the fit, and leaves hinge and gap to common practice', () => {
    const at = { reynolds: 6e4, deflection: 5 * degree, gap: 0 };
    const found = controlEfficiency(computed, at);
    expect(found.value).toBeCloseTo(FLAP_EFFICIENCY * 0.5, 12);
    expect(found.lostToLayer).toBeCloseTo(0.5, 12);
    // Relative deviations 0.1 / 0.8 of the hinge and 0.2 / 0.5 of the layer, independent.
    expect(found.spread / found.value).toBeCloseTo(Math.hypot(0.125, 0.4), 12);
    const open = controlEfficiency(computed, { ...at, gap: 0.005 });
    expect(open.value).toBeLessThan(found.value);
    expect(controlEfficiency(fitted, at)).toEqual(flapEfficiency({ reynolds: 6e4 }));
  });
});

describe('the deflection that counts', () => {
  it('is the turning deflection times the ratio; without any loss it is the turning deflection', () => {
    expect(countedDeflection(computed, 5 * degree, 6e4)).toBeCloseTo(0.5 * 5 * degree, 12);
    expect(countedDeflection({ layerAhead: 0 }, 30 * degree, 6e4)).toBe(turningDeflection(30 * degree));
    expect(countedDeflection(computed, 0, 6e4)).toBe(0);
  });

  it('is found back from what it counts, wherever more deflection turns more', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.25, max: 0.25, noNaN: true }),
        fc.double({ min: 3e4, max: 5e5, noNaN: true }),
        fc.constantFrom(computed, fitted),
        (deflection, reynolds, layers) => {
          const back = deflectionThatCounts(layers, countedDeflection(layers, deflection, reynolds), reynolds);
          // Straight between steps of a degree: a hundredth of a degree off.
          expect(Math.abs(back - deflection)).toBeLessThan(5e-4);
        },
      ),
    );
  });

  it('ends at the largest deflection where none counts as much', () => {
    expect(deflectionThatCounts(computed, 2, 6e4, 0.4)).toBe(0.4);
    expect(deflectionThatCounts(computed, -2, 6e4, 0.4)).toBe(-0.4);
  });
});
