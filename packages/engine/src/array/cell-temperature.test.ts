import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flightCellTemperature, plateHeatTransfer, skyTemperature } from './cell-temperature.js';
import {
  faimanTemperature,
  mountedTemperature,
  mountings,
  nominalOperatingTemperature,
  twoCoefficientTemperature,
} from './ground-temperature.js';

const air = { temperature: 298.15, pressure: 101325 };

describe('plateHeatTransfer', () => {
  it('is the mixed-plate formula 0.037 Re^0.8 - 871 with transition at Re 5e5 (Incropera and DeWitt, from memory)', () => {
    // Film at 303.15 K: kinematic viscosity 1.59815e-5 m2/s, conductivity 0.0264964, Prandtl 0.70652.
    const length = 1;
    const reynolds = 1e6;
    const airspeed = (reynolds * 1.59815e-5) / length;
    const h = plateHeatTransfer(
      { air: { ...air, temperature: 303.15 }, airspeed, length, laminarFraction: 0.5, heating: 'uniform temperature' },
      303.15,
    );
    const expected = ((0.037 * reynolds ** 0.8 - 871) * 0.70652 ** (1 / 3) * 0.0264964) / length;
    expect(h / expected).toBeCloseTo(1, 3);
  });

  it('rises with airspeed and with an earlier transition, and is 2.4 % better for the temperature at uniform flux', () => {
    const at = (airspeed: number, laminarFraction: number) =>
      plateHeatTransfer({ air, airspeed, length: 0.25, laminarFraction }, 310);
    expect(at(12, 1)).toBeGreaterThan(at(8, 1));
    expect(at(10, 0.3)).toBeGreaterThan(at(10, 0.7));
    const mean = plateHeatTransfer(
      { air, airspeed: 10, length: 0.25, laminarFraction: 1, heating: 'uniform temperature' },
      310,
    );
    expect(at(10, 1) / mean).toBeCloseTo(0.68 / 0.664, 12);
  });

  it('falls back on natural convection in still air', () => {
    const still = plateHeatTransfer({ air, airspeed: 0, length: 0.25 }, 330);
    expect(still).toBeGreaterThan(3);
    expect(still).toBeLessThan(8);
    expect(plateHeatTransfer({ air, airspeed: 0, length: 0.25 }, 298.15)).toBe(0);
  });
});

describe('flightCellTemperature', () => {
  it('conserves energy: absorbed light leaves as current, convection and radiation', () => {
    const conditions = fc.record({
      irradiance: fc.double({ min: 0, max: 1300, noNaN: true }),
      airspeed: fc.double({ min: 0, max: 40, noNaN: true }),
      temperature: fc.double({ min: 230, max: 318, noNaN: true }),
      pressure: fc.double({ min: 30000, max: 105000, noNaN: true }),
      laminarFraction: fc.double({ min: 0, max: 1, noNaN: true }),
      rearFraction: fc.double({ min: 0, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(conditions, ({ irradiance, airspeed, temperature, pressure, laminarFraction, rearFraction }) => {
        const state = flightCellTemperature({
          irradiance,
          airspeed,
          air: { temperature, pressure },
          length: 0.3,
          laminarFraction,
          rearFraction,
        });
        const residual = (0.92 - state.efficiency) * irradiance - state.convection - state.radiation;
        expect(Math.abs(residual)).toBeLessThan(1e-3);
        expect(state.temperature).toBeGreaterThan(skyTemperature(temperature));
        expect(state.temperature).toBeLessThan(temperature + 120);
      }),
    );
  });

  it('is hotter with more light, in slower flow, and where no current is drawn', () => {
    const at = (fields: object) =>
      flightCellTemperature({ irradiance: 900, air, airspeed: 10, length: 0.25, ...fields }).temperature;
    expect(at({ irradiance: 1000 })).toBeGreaterThan(at({}));
    expect(at({ airspeed: 7 })).toBeGreaterThan(at({}));
    expect(at({ efficiency: 0 })).toBeGreaterThan(at({}) + 3);
    expect(at({ rearFraction: 1 })).toBeLessThan(at({}));
  });

  it('cools below the air under a clear night sky', () => {
    const state = flightCellTemperature({ irradiance: 0, air, airspeed: 10, length: 0.25 });
    expect(state.temperature).toBeLessThan(air.temperature);
    expect(state.temperature).toBeGreaterThan(skyTemperature(air.temperature));
  });
});

describe('ground models', () => {
  const calm = { irradiance: 0, airTemperature: 290, windSpeed: 3 };

  it('are at air temperature in the dark', () => {
    expect(faimanTemperature(calm)).toBe(290);
    expect(twoCoefficientTemperature(calm)).toBe(290);
    expect(nominalOperatingTemperature(calm, 318.15)).toBe(290);
    expect(mountedTemperature(calm, mountings['open rack, glass and glass'])).toEqual({ module: 290, cell: 290 });
  });

  it('cool with wind where they know it', () => {
    const sun = { irradiance: 900, airTemperature: 290, windSpeed: 1 };
    const windy = { ...sun, windSpeed: 8 };
    expect(faimanTemperature(windy)).toBeLessThan(faimanTemperature(sun));
    expect(twoCoefficientTemperature(windy, { wind: 6 })).toBeLessThan(twoCoefficientTemperature(sun, { wind: 6 }));
    const rack = mountings['insulated back, glass and polymer'];
    expect(mountedTemperature(windy, rack).cell).toBeLessThan(mountedTemperature(sun, rack).cell);
  });

  it('meets King at 500 W/m2, 10 C, 5 m/s: 23.06066 C (public reference value of the formula)', () => {
    const state = mountedTemperature(
      { irradiance: 500, airTemperature: 283.15, windSpeed: 5 },
      mountings['open rack, glass and glass'],
    );
    expect(Math.min(Math.abs(state.cell - 296.21066), Math.abs(state.module - 296.21066))).toBeLessThan(1e-4);
  });
});
