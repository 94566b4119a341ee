import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { airAt } from '../air/index.js';
import { flightCellTemperature } from '../array/index.js';
import { type ArrayPlan, cellTemperatures, cellWarmth } from './index.js';

const facet = { normal: [0, 0, -1], area: 0.1, length: 0.2, laminarFraction: 0.5, rearFraction: 0 } as const;
const planOf = (facets: ArrayPlan['facets']): ArrayPlan => ({
  facets,
  strings: [],
  converters: [],
  incidence: { kind: 'none' },
  lightFactor: 1,
});

describe('cell temperatures from tables', () => {
  it('are those of the heat balance itself, to less than 1e-4 K', () => {
    const range = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        fc.record({
          irradiance: range(0.1, 1400),
          airspeed: range(4, 25),
          length: range(0.05, 0.8),
          laminarFraction: range(0, 1),
          rearFraction: range(0, 1),
        }),
        ({ irradiance, airspeed, ...shape }) => {
          const air = airAt({ altitude: 300, temperatureOffset: 8 });
          const warmth = cellWarmth(planOf([{ ...facet, ...shape }]), { air, airspeed });
          const [found] = cellTemperatures(warmth, Float64Array.of(irradiance));
          const { temperature } = flightCellTemperature({ air, airspeed, irradiance, ...shape });
          expect(Math.abs(found! - temperature)).toBeLessThan(1e-4);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('are the air temperature in the dark, and differ between facets by their length', () => {
    const air = airAt({ altitude: 0 });
    const plan = planOf([facet, { ...facet, length: 0.6 }]);
    const warmth = cellWarmth(plan, { air, airspeed: 8 });
    const found = cellTemperatures(warmth, Float64Array.of(0, 0, 800, 800));
    expect([...found.subarray(0, 2)]).toEqual([air.temperature, air.temperature]);
    expect(found[3]! - found[2]!).toBeGreaterThan(1);
  });

  it('stay finite in more light than any wing sees', () => {
    const warmth = cellWarmth(planOf([facet]), { air: airAt({ altitude: 0 }), airspeed: 8 });
    const [most, beyond] = cellTemperatures(warmth, Float64Array.of(2000, 2400));
    expect(beyond! - most!).toBeGreaterThan(0);
    expect(beyond! - most!).toBeLessThan(20);
  });
});
