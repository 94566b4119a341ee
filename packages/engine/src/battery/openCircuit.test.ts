import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lithiumPolymerVoltage, nickelManganeseCobaltVoltage, openCircuitCurves } from './curves.js';
import {
  meanOpenCircuitVoltage,
  openCircuitCurve,
  openCircuitIntegral,
  openCircuitSlope,
  openCircuitVoltage,
  stateOfChargeAtOpenCircuit,
} from './openCircuit.js';

const charge = fc.double({ min: 0, max: 1, noNaN: true });

for (const [name, curve] of Object.entries(openCircuitCurves)) {
  describe(`open-circuit curve ${name}`, () => {
    it('rises with charge and stays between 2.5 and 4.3 V', () => {
      let previous = 0;
      for (let i = 0; i <= 500; i++) {
        const voltage = openCircuitVoltage(curve, i / 500);
        expect(voltage).toBeGreaterThan(previous);
        expect(voltage).toBeGreaterThan(2.45);
        expect(voltage).toBeLessThan(4.3);
        previous = voltage;
      }
    });

    it('is inverted exactly', () => {
      fc.assert(
        fc.property(charge, (s) => {
          const voltage = openCircuitVoltage(curve, s);
          const back = stateOfChargeAtOpenCircuit(curve, voltage);
          expect(openCircuitVoltage(curve, back)).toBeCloseTo(voltage, 11);
          expect(back).toBeCloseTo(s, 6);
        }),
      );
    });

    it('has an integral whose derivative is the voltage, and a slope whose integral is the voltage', () => {
      const h = 1e-5;
      for (const s of [0.013, 0.207, 0.5, 0.777, 0.961]) {
        const rate = (openCircuitIntegral(curve, s + h) - openCircuitIntegral(curve, s - h)) / (2 * h);
        expect(rate).toBeCloseTo(openCircuitVoltage(curve, s), 5);
        const slope = (openCircuitVoltage(curve, s + h) - openCircuitVoltage(curve, s - h)) / (2 * h);
        expect(openCircuitSlope(curve, s)).toBeCloseTo(slope, 3);
      }
    });

    it('has a mean that does not depend on the path, also over tiny changes', () => {
      fc.assert(
        fc.property(charge, charge, (a, b) => {
          const whole = meanOpenCircuitVoltage(curve, a, b) * (b - a);
          expect(whole).toBeCloseTo(openCircuitIntegral(curve, b) - openCircuitIntegral(curve, a), 12);
          expect(meanOpenCircuitVoltage(curve, a, a)).toBe(openCircuitVoltage(curve, a));
        }),
      );
    });

    it('answers 0 and 1 beyond the ends of the voltage', () => {
      expect(stateOfChargeAtOpenCircuit(curve, 1)).toBe(0);
      expect(stateOfChargeAtOpenCircuit(curve, 5)).toBe(1);
    });
  });
}

describe('tabulated functions', () => {
  it('stay within 1 mV of the function between the points above 2 % of charge', () => {
    for (let s = 0.0205; s < 1; s += 0.0137) {
      const nmc = openCircuitVoltage(openCircuitCurves['lithium-ion-21700'], s);
      const polymer = openCircuitVoltage(openCircuitCurves['lithium-polymer'], s);
      expect(Math.abs(nmc - nickelManganeseCobaltVoltage(s))).toBeLessThan(1e-3);
      expect(Math.abs(polymer - lithiumPolymerVoltage(s))).toBeLessThan(1e-3);
    }
  });

  it('the polymer curve has the sign that fills to 4.10 V, not the 4.34 V of faulty copies', () => {
    expect(lithiumPolymerVoltage(1)).toBeLessThan(4.2);
  });
});

describe('openCircuitCurve', () => {
  const table = {
    name: 'x',
    chemistry: 'lithium-ion',
    source: 'test',
    standardUncertainty: 0,
    measuredFrom: 0,
  } as const;

  it('integrates a straight line exactly', () => {
    const curve = openCircuitCurve({ ...table, stateOfCharge: [0, 0.3, 1], voltage: [3, 3.3, 4] });
    expect(openCircuitIntegral(curve, 1)).toBeCloseTo(3.5, 12);
    expect(openCircuitIntegral(curve, 0.5)).toBeCloseTo(1.625, 12);
  });

  it('refuses a voltage that falls and a charge that does not run from 0 to 1', () => {
    expect(() => openCircuitCurve({ ...table, stateOfCharge: [0, 0.5, 1], voltage: [3, 2.9, 4] })).toThrow(RangeError);
    expect(() => openCircuitCurve({ ...table, stateOfCharge: [0.1, 1], voltage: [3, 4] })).toThrow(RangeError);
  });
});
