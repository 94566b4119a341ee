import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sumMass } from './mass.js';
import {
  closedFormLiftSlope,
  farDownwashGradient,
  horizontalTailVolume,
  tailDownwashGradient,
  verticalTailVolume,
  wingAndTailStability,
} from './neutralPoint.js';
import { balancePointForMargin, balanceRange, staticMargin } from './range.js';
import { balanceRelations } from './relations.js';
import { applyWeighing, type ScaleReading, weigh } from './weighing.js';

const reading = (name: string, x: number, mass: number, y = 0): ScaleReading => ({
  name,
  x,
  y,
  mass,
  massUncertainty: 0.001,
  positionUncertainty: 0.0005,
});

describe('weigh', () => {
  it('finds the balance point of a beam from the reactions of its supports', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.11, max: 0.39, noNaN: true }),
        fc.double({ min: 0.2, max: 9, noNaN: true }),
        (x, mass) => {
          const rear = (mass * (x - 0.1)) / 0.3;
          const outcome = weigh([reading('front', 0.1, mass - rear), reading('rear', 0.4, rear)]);
          expect(outcome.ok).toBe(true);
          if (!outcome.ok) return;
          expect(outcome.value.x).toBeCloseTo(x, 10);
          expect(outcome.value.mass).toBeCloseTo(mass, 12);
          expect(outcome.value.massUncertainty).toBeCloseTo(Math.SQRT2 * 0.001, 12);
        },
      ),
    );
  });

  it('three supports give the sideways position too', () => {
    const outcome = weigh([reading('nose', 0, 0.4), reading('left', 0.5, 0.5, -0.2), reading('right', 0.5, 0.6, 0.2)]);
    if (outcome.ok) expect(outcome.value.y).toBeCloseTo((0.1 * 0.2) / 1.5, 12);
    expect(outcome.ok).toBe(true);
  });

  it('levelling adds height times tilt', () => {
    const readings = [reading('a', 0.1, 0.6), reading('b', 0.3, 0.6)];
    const level = weigh(readings);
    const tilted = weigh(readings, { tiltUncertainty: 0.01, heightAboveSupports: 0.1 });
    if (!level.ok || !tilted.ok) throw new Error('both weigh');
    expect(tilted.value.xUncertainty ** 2 - level.value.xUncertainty ** 2).toBeCloseTo(1e-6, 12);
  });

  it('refuses one support, supports at one station, negative readings and nothing', () => {
    expect(weigh([reading('a', 0.1, 1)])).toMatchObject({ ok: false, code: 'weighing-supports' });
    expect(weigh([reading('a', 0.1, 1), reading('b', 0.1, 1)])).toMatchObject({ ok: false, code: 'weighing-supports' });
    expect(weigh([reading('a', 0.1, -0.1), reading('b', 0.3, 1)])).toMatchObject({ ok: false, where: 'a' });
    expect(weigh([reading('a', 0.1, 0), reading('b', 0.3, 0)])).toMatchObject({ ok: false, code: 'weighing-empty' });
  });

  it('warns of a support that hardly carries', () => {
    const outcome = weigh([reading('a', 0.1, 0.01), reading('b', 0.3, 1)]);
    if (outcome.ok) expect(outcome.warnings.map((w) => w.where)).toEqual(['a']);
    expect(outcome.ok).toBe(true);
  });

  it('a weighing replaces mass and x, and scales the inertia', () => {
    const sum = sumMass([
      { name: 'a', mass: 0.5, x: 0, y: 0, z: 0.1, provenance: 'assumed' },
      { name: 'b', mass: 0.5, x: 1, y: 0, z: 0.1, provenance: 'assumed' },
    ]);
    const weighed = applyWeighing(sum, { mass: 1.2, massUncertainty: 0.002, x: 0.52, xUncertainty: 0.001 });
    expect(weighed).toMatchObject({ mass: 1.2, x: 0.52, z: sum.z, assumedMass: 0 });
    expect(weighed.inertia.yy).toBeCloseTo(sum.inertia.yy * 1.2, 12);
    expect(weighed.uncertainty.mass).toBe(0.002);
    const massOnly = applyWeighing(sum, { mass: 1.2 });
    expect(massOnly).toMatchObject({ x: sum.x, uncertainty: { mass: 0, x: sum.uncertainty.x } });
    expect(applyWeighing(sum, { x: 0.4, xUncertainty: 0.001 })).toMatchObject({ mass: 1, x: 0.4, assumedMass: 1 });
    expect(() => applyWeighing(sum, { mass: 0 })).toThrow(RangeError);
  });
});

describe('static margin and balance range', () => {
  const at = { neutralPoint: 0.3, meanChord: 0.2 };

  it('margin and balance point are inverse', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.5, max: 0.5, noNaN: true }), (margin) => {
        const balancePoint = balancePointForMargin({ ...at, staticMargin: margin });
        expect(staticMargin({ ...at, balancePoint })).toBeCloseTo(margin, 12);
      }),
    );
    expect(staticMargin({ ...at, balancePoint: 0.3 })).toBe(0);
    expect(() => staticMargin({ ...at, balancePoint: 0.3, meanChord: 0 })).toThrow(RangeError);
    expect(() => balancePointForMargin({ ...at, staticMargin: 0.1, meanChord: 0 })).toThrow(RangeError);
  });

  it('at the forward end full control just trims the lift: moments cancel', () => {
    const limits = {
      leastStaticMargin: 0.05,
      momentAboutNeutralPoint: 0.02,
      controlMoment: 0.15,
      trimLiftCoefficient: 1.1,
    };
    const range = balanceRange({ ...at, ...limits });
    const moment = 0.02 + 0.15 - (1.1 * (at.neutralPoint - range.forward)) / at.meanChord;
    expect(moment).toBeCloseTo(0, 12);
    expect(range.aft).toBeCloseTo(0.29, 12);
    expect(range.width).toBeCloseTo(range.aft - range.forward, 12);
    const none = balanceRange({ ...at, ...limits, momentAboutNeutralPoint: -0.2 });
    expect(none.width).toBeLessThan(0);
    expect(() => balanceRange({ ...at, ...limits, trimLiftCoefficient: 0 })).toThrow(RangeError);
  });
});

describe('wing and tail', () => {
  const base = {
    wingArea: 0.4,
    meanChord: 0.2,
    wingLiftSlope: 5,
    tailArea: 0.06,
    tailArm: 0.7,
    tailLiftSlope: 4,
    tailEfficiency: 0.95,
    downwashGradient: 0.3,
  };

  it('without a tail the neutral point is the aerodynamic centre of the wing', () => {
    const alone = wingAndTailStability({ ...base, tailArea: 0 });
    expect(alone.neutralPoint).toBe(0);
    expect(alone.liftSlope).toBe(5);
  });

  it('moves aft with tail area and forward with downwash', () => {
    const of = (fields: Partial<typeof base>) => wingAndTailStability({ ...base, ...fields }).neutralPoint;
    expect(of({ tailArea: 0.08 })).toBeGreaterThan(of({}));
    expect(of({ downwashGradient: 0.5 })).toBeLessThan(of({}));
    expect(of({ downwashGradient: 1 })).toBe(0);
    expect(() => of({ wingLiftSlope: 0 })).toThrow(RangeError);
  });

  it('lift slope goes to pi A/2 for slender wings and to 2 pi for long ones', () => {
    expect(closedFormLiftSlope(1e-3) / ((Math.PI * 1e-3) / 2)).toBeCloseTo(1, 3);
    expect(closedFormLiftSlope(1e5)).toBeCloseTo(2 * Math.PI, 3);
    expect(() => closedFormLiftSlope(0)).toThrow(RangeError);
  });

  it('downwash fades with distance and height', () => {
    const at = { aspectRatio: 8, taper: 0.6, quarterChordSweep: 0, height: 0, distance: 0.4, span: 1 };
    expect(tailDownwashGradient({ ...at, distance: 0.6 })).toBeLessThan(tailDownwashGradient(at));
    expect(tailDownwashGradient({ ...at, height: 0.2 })).toBe(tailDownwashGradient({ ...at, height: -0.2 }));
    expect(tailDownwashGradient({ ...at, height: 2 })).toBe(0);
    expect(() => tailDownwashGradient({ ...at, span: 0 })).toThrow(RangeError);
    expect(farDownwashGradient(4.5, 10)).toBeLessThan(farDownwashGradient(4.5, 8));
  });

  it('tail volumes', () => {
    expect(horizontalTailVolume({ ...base })).toBeCloseTo(0.525, 12);
    expect(verticalTailVolume({ finArea: 0.03, finArm: 0.7, wingArea: 0.4, span: 2 })).toBeCloseTo(0.02625, 12);
    expect(() => horizontalTailVolume({ ...base, meanChord: 0 })).toThrow(RangeError);
    expect(() => verticalTailVolume({ finArea: 0.03, finArm: 0.7, wingArea: 0.4, span: 0 })).toThrow(RangeError);
  });
});

describe('balance relations', () => {
  const given: Record<string, Record<string, number>> = {
    balance: {
      mass: 1.2,
      balancePoint: 0.26,
      addedMass: 0.06,
      addedPosition: 0.36,
      batteryMass: 0.3,
      ballastPosition: 0.02,
    },
    'static-margin': { wingArea: 0.4, meanChord: 0.2, aspectRatio: 10, tailArea: 0.06, tailArm: 0.7 },
    weighing: { frontReading: 0.4, rearReading: 0.8, frontPosition: 0.1, rearPosition: 0.3 },
  };

  it('answer in finite numbers under exactly the promised keys', () => {
    for (const relation of balanceRelations) {
      const defaults = Object.fromEntries(relation.inputs.map((input) => [input.key, input.default ?? Number.NaN]));
      const result = relation.compute({ ...defaults, ...given[relation.topic] });
      expect(Object.keys(result).sort()).toEqual(relation.outputs.map((output) => output.key).sort());
      for (const value of Object.values(result)) expect(Number.isFinite(value)).toBe(true);
    }
  });

  it('refuse nonsense with a remedy', () => {
    const [balance, margin, weighing] = balanceRelations;
    expect(balance.compute({ ...given.balance, mass: 0 })).toHaveProperty('remedy');
    expect(balance.compute({ ...given.balance, ballastPosition: 0.5 })).toHaveProperty('remedy');
    expect(margin.compute({ ...given['static-margin'], wingArea: -1 })).toHaveProperty('remedy');
    expect(weighing.compute({ ...given.weighing, rearReading: -1 })).toHaveProperty('remedy');
  });
});
