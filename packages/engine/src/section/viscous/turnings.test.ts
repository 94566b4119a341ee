import { describe, expect, it } from 'vitest';
import { flapReynoldsLoss, glauertFlap, LAYER_AHEAD } from '../flap.js';
import { nacaSection } from '../naca.js';
import {
  controlTurning,
  type DeflectedState,
  TURNING_SETTINGS,
  type TurningSettings,
  turningKey,
} from './storedTurning.js';
import { computeTurning } from './turnings.js';

const degree = Math.PI / 180;

const geometryOf = (digits: string) => {
  const made = nacaSection(digits);
  if (!made.ok) throw new Error(made.reason);
  return made.value;
};

const settings: TurningSettings = { ...TURNING_SETTINGS, hinge: 0.7, lift: 0 };

describe('a control from its deflected sections', () => {
  const theory = glauertFlap(0.3).effectiveness;
  /** States that turn the flow by a part of theory. */
  const states = (part: number): readonly DeflectedState[] =>
    [-10, -5, 0, 5, 10].map((angle) => ({
      deflection: angle * degree,
      alpha: -part * theory * angle * degree,
      drag: 0.01,
      moment: 0,
      hingeMoment: 0,
    }));

  it('turns what lies in the middle between a laminar and a turbulent layer, with all between evenly likely', () => {
    const found = controlTurning([{ reynolds: 1e5, free: states(0.5), tripped: states(0.9) }], settings)!;
    for (const ratio of found.ratio) expect(ratio).toBeCloseTo(0.7, 6);
    for (const spread of found.spread) expect(spread).toBeCloseTo(0.4 / Math.sqrt(12), 6);
  });

  it('takes the fit for what has not converged, and nothing where most of it has not', () => {
    const found = controlTurning([{ reynolds: 1e5, free: states(0.5), tripped: [] }], settings)!;
    expect(found.ratio[0]).toBeCloseTo((0.5 + 1 - flapReynoldsLoss(1e5, LAYER_AHEAD.turbulent)) / 2, 6);
    expect(controlTurning([{ reynolds: 1e5, free: states(0.5).slice(0, 3), tripped: [] }], settings)).toBeUndefined();
    expect(controlTurning([], settings)).toBeUndefined();
  });

  it('is kept by hinge, lift, air and section', () => {
    const section = geometryOf('0009');
    const keys = [
      turningKey(section, settings),
      turningKey(section, { ...settings, hinge: 0.72 }),
      turningKey(section, { ...settings, lift: 0.5 }),
      turningKey(section, { ...settings, critical: 5 }),
      turningKey(geometryOf('0008'), settings),
    ];
    expect(new Set(keys).size).toBe(keys.length);
  });
});

describe('computed deflections', () => {
  const coarse: TurningSettings = {
    ...settings,
    reynolds: [2.4e5],
    deflections: [-10 * degree, 10 * degree],
    nodes: 110,
  };
  const rows = computeTurning(geometryOf('0008'), coarse);

  // Source: common practice, trend of DATCOM section 6.1.1: 0.7 to 0.85 for real flaps, some more where sealed.
  it('turn by 0.75 to 1.05 of theory at 240 000, symmetric sections alike both ways', () => {
    const { ratio } = controlTurning(rows, coarse)!;
    expect(ratio[0]).toBeCloseTo(ratio[1], 9);
    expect(ratio[0]).toBeGreaterThan(0.75);
    expect(ratio[0]).toBeLessThan(1.05);
  });

  it('are pushed back by the air, cost drag, and pitch the section against their deflection', () => {
    for (const { free, tripped } of rows)
      for (const states of [free, tripped]) {
        const [up, neutral, down] = states;
        expect(down.hingeMoment).toBeLessThan(0);
        expect(up.hingeMoment).toBeGreaterThan(0);
        expect(down.moment).toBeLessThan(0);
        expect(down.drag).toBeGreaterThan(neutral.drag);
      }
  });
});
