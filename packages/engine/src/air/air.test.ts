import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agrees } from '../check.js';
import { airChecks } from './air.checks.js';
import { airAt, airFromState, temperatureOffsetFrom } from './air.js';
import { airRelations } from './relations.js';
import {
  columnAt,
  densityAltitude,
  gasConstantDryAir,
  geometricAltitude,
  geopotentialAltitude,
  pressureAltitude,
  standardGravity,
} from './standard.js';
import { gustiness, roughnessLengths, windAtHeight, windByLogLaw, windByPowerLaw } from './wind.js';

describe('external checks', () => {
  it.each(airChecks.map((check) => [check.id, check] as const))('%s', (_, check) => {
    expect(agrees(check, check.compute())).toBe(check.miss === undefined);
  });
  it('has unique names', () => {
    expect(new Set(airChecks.map((check) => check.id)).size).toBe(airChecks.length);
  });
});

describe('standard atmosphere', () => {
  it('is in hydrostatic balance at any offset', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -4000, max: 31000, noNaN: true }),
        fc.double({ min: -30, max: 30, noNaN: true }),
        (geopotential, temperatureOffset) => {
          const step = 1;
          const below = columnAt({ geopotential: geopotential - step, temperatureOffset });
          const here = columnAt({ geopotential, temperatureOffset });
          const above = columnAt({ geopotential: geopotential + step, temperatureOffset });
          const weight = (here.pressure / (gasConstantDryAir * here.temperature)) * standardGravity * 2 * step;
          // 1e-4: the central difference across a kink of the lapse rate.
          expect(Math.abs((below.pressure - above.pressure) / weight - 1)).toBeLessThan(1e-4);
        },
      ),
    );
  });
  it('has higher pressure aloft on a warm day and the stated pressure at sea level', () => {
    const warm = airAt({ altitude: 2000, temperatureOffset: 20 });
    const standard = airAt({ altitude: 2000 });
    expect(warm.pressure).toBeGreaterThan(standard.pressure * 1.01);
    expect(warm.density).toBeLessThan(standard.density);
    expect(warm.temperature - standard.temperature).toBeCloseTo(20, 9);
    expect(airAt({ altitude: 0, seaLevelPressure: 99000, temperatureOffset: -10 }).pressure).toBe(99000);
  });
  it('inverts density, pressure and geopotential altitude', () => {
    fc.assert(
      fc.property(fc.double({ min: -4900, max: 31900, noNaN: true }), (geopotential) => {
        const altitude = geometricAltitude(geopotential);
        expect(geopotentialAltitude(altitude)).toBeCloseTo(geopotential, 6);
        const air = airAt({ altitude });
        expect(densityAltitude(air.density)).toBeCloseTo(geopotential, 4);
        expect(pressureAltitude(air.pressure)).toBeCloseTo(geopotential, 4);
      }),
    );
  });
  it('holds the ends and never leaves the finite', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (altitude) => {
        for (const value of Object.values(airAt({ altitude }))) expect(Number.isFinite(value)).toBe(true);
      }),
    );
    expect(densityAltitude(100)).toBe(-5000);
    expect(densityAltitude(0)).toBe(32000);
  });
});

describe('moist air', () => {
  it('is lighter the moister it is', () => {
    const density = (relativeHumidity: number) =>
      airFromState({ pressure: 1e5, temperature: 303, relativeHumidity }).density;
    expect(density(0.5)).toBeLessThan(density(0));
    expect(density(1)).toBeLessThan(density(0.5));
    expect(density(1) / density(0)).toBeGreaterThan(0.98);
    expect(density(7)).toBe(density(1));
  });
  it('refuses what is no state of air', () => {
    expect(() => airFromState({ pressure: 0, temperature: 300 })).toThrow(RangeError);
    expect(() => airFromState({ pressure: Number.NaN, temperature: 300 })).toThrow(RangeError);
    expect(() => airFromState({ pressure: 1e5, temperature: 20 })).toThrow(RangeError);
    expect(() => airAt({ altitude: Number.NaN })).toThrow(RangeError);
  });
  it('reads an offset from a thermometer', () => {
    const altitude = 640;
    const temperatureOffset = temperatureOffsetFrom({ altitude, temperature: 301.2 });
    expect(airAt({ altitude, temperatureOffset }).temperature).toBeCloseTo(301.2, 9);
  });
});

describe('wind', () => {
  it('gives the reading at the reference height and grows upwards', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.constantFrom(...Object.values(roughnessLengths)),
        fc.double({ min: 21, max: 150, noNaN: true }),
        (referenceSpeed, roughness, height) => {
          const reading = { referenceSpeed, referenceHeight: 20 };
          expect(windByLogLaw({ ...reading, height: 20, roughness })).toBeCloseTo(referenceSpeed, 9);
          expect(windByPowerLaw({ ...reading, height: 20 })).toBeCloseTo(referenceSpeed, 9);
          expect(windByLogLaw({ ...reading, height, roughness })).toBeGreaterThan(referenceSpeed);
          expect(windByPowerLaw({ ...reading, height })).toBeGreaterThan(referenceSpeed);
        },
      ),
    );
  });
  it('is finite at the ground and follows the law named', () => {
    const reading = { height: 0, referenceSpeed: 5 };
    expect(windAtHeight({ ...reading, law: { kind: 'power', exponent: 0.2 } })).toBe(0);
    expect(windAtHeight({ ...reading, law: { kind: 'logarithmic', roughness: 0.03 } })).toBeGreaterThan(0);
    expect(windAtHeight({ ...reading, height: 40, law: { kind: 'power', exponent: 0.5 } })).toBeCloseTo(10, 12);
    expect(() => windByLogLaw({ ...reading, roughness: 0 })).toThrow(RangeError);
    expect(() => windByPowerLaw({ ...reading, referenceHeight: 0 })).toThrow(RangeError);
  });
  it('is gustier over rougher ground and scales with the wind', () => {
    const gusts = (speed: number, roughness: number) => gustiness({ speed, height: 50, roughness });
    expect(gusts(5, 1).peak).toBeGreaterThan(gusts(5, 0.03).peak);
    expect(gusts(10, 0.03).peak).toBeCloseTo(2 * gusts(5, 0.03).peak, 12);
    expect(gusts(0, 0.03).peak).toBe(0);
    const { alongWind, acrossWind, vertical } = gusts(5, 0.03);
    expect(alongWind).toBeGreaterThan(acrossWind);
    expect(acrossWind).toBeGreaterThan(vertical);
    expect(() => gusts(5, 0)).toThrow(RangeError);
  });
});

describe('relations', () => {
  it('return every output, finite', () => {
    for (const relation of airRelations) {
      const values = { height: 80, referenceSpeed: 4 } as Record<string, number | string>;
      for (const input of relation.inputs) if (input.default !== undefined) values[input.key] = input.default;
      const result = relation.compute(values) as Record<string, number>;
      for (const output of relation.outputs) expect(Number.isFinite(result[output.key])).toBe(true);
    }
  });
  it('say why not', () => {
    const [air, wind] = airRelations;
    const standard = { altitude: 0, temperatureOffset: 0, relativeHumidity: 0, seaLevelPressure: 101325 };
    expect(air!.compute({ ...standard, altitude: 50000 })).toHaveProperty('remedy');
    expect(air!.compute({ ...standard, relativeHumidity: 60 })).toHaveProperty('remedy');
    const reading = {
      height: 80,
      referenceSpeed: 4,
      referenceHeight: 10,
      law: 'power',
      roughness: 0.03,
      exponent: 0.1,
    };
    expect(wind!.compute({ ...reading, height: -1 })).toHaveProperty('remedy');
    expect(wind!.compute({ ...reading, roughness: 0 })).toHaveProperty('remedy');
  });
});
