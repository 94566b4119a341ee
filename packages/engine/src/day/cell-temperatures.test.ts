import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { airAt } from '../air/index.js';
import { flightCellTemperature } from '../array/index.js';
import type { PlacedCell } from '../light/index.js';
import { cellTemperatures, cellWarmth, coolingOf } from './index.js';

const facet = {
  normal: [0, 0, -1],
  area: 0.1,
  from: 0.08,
  length: 0.2,
  laminarFraction: 0.5,
  rearFraction: 0,
} as const;
describe('cell temperatures from tables', () => {
  it('are those of the heat balance itself, to less than 1e-4 K', () => {
    const range = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        fc.record({
          irradiance: range(0.1, 1400),
          airspeed: range(4, 25),
          from: range(0, 0.04),
          length: range(0.05, 0.8),
          laminarFraction: range(0, 1),
          rearFraction: range(0, 1),
        }),
        ({ irradiance, airspeed, ...shape }) => {
          const air = airAt({ altitude: 300, temperatureOffset: 8 });
          const warmth = cellWarmth([{ ...facet, ...shape }], { air, airspeed });
          const [found] = cellTemperatures(warmth, Float64Array.of(irradiance));
          const { temperature } = flightCellTemperature({ air, airspeed, irradiance, ...shape });
          expect(Math.abs(found! - temperature)).toBeLessThan(1e-4);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('are the air temperature in the dark, and differ by the length they are cooled along', () => {
    const air = airAt({ altitude: 0 });
    const warmth = cellWarmth([facet, { ...facet, length: 0.6 }], { air, airspeed: 8 });
    const found = cellTemperatures(warmth, Float64Array.of(0, 0, 800, 800));
    expect([...found.subarray(0, 2)]).toEqual([air.temperature, air.temperature]);
    expect(found[3]! - found[2]!).toBeGreaterThan(1);
  });

  it('stay finite in more light than any wing sees', () => {
    const warmth = cellWarmth([facet], { air: airAt({ altitude: 0 }), airspeed: 8 });
    const [most, beyond] = cellTemperatures(warmth, Float64Array.of(2000, 2400));
    expect(beyond! - most!).toBeGreaterThan(0);
    expect(beyond! - most!).toBeLessThan(20);
  });

  it('follow the boundary layer along the chord: the row before its transition hotter than the one behind, each hotter further back', () => {
    const cell = (flowFrom: number, flowTo: number) => coolingOf({ flowFrom, flowTo, chord: 0.4 } as PlacedCell);
    const rows = [cell(0, 0.1), cell(0.1, 0.2), cell(0.2, 0.3), cell(0.3, 0.4)];
    const warmth = cellWarmth(rows, { air: airAt({ altitude: 0 }), airspeed: 10 });
    const [first, second, third, fourth] = cellTemperatures(warmth, new Float64Array(4).fill(1000));
    expect(second!).toBeGreaterThan(first! + 5);
    expect(third!).toBeLessThan(second! - 10);
    expect(fourth!).toBeGreaterThan(third!);
  });

  it('rise with height in thinner air and fall with speed, by what air and cells differ', () => {
    const above = (altitude: number, airspeed: number) => {
      const air = airAt({ altitude });
      return cellTemperatures(cellWarmth([facet], { air, airspeed }), Float64Array.of(900))[0]! - air.temperature;
    };
    expect(above(3000, 10)).toBeGreaterThan(above(0, 10) + 0.5);
    expect(above(0, 15)).toBeLessThan(above(0, 10) - 2);
  });
});
