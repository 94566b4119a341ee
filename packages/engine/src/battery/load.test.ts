import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellPack, typicalResistanceCurve } from './cells.js';
import { chargeCourse, taperTimeConstant } from './charge.js';
import {
  constantPowerCurrent,
  greatestChargePower,
  greatestDischargePower,
  holdPower,
  nominalCellVoltage,
  packSpecificEnergy,
  roundTripEfficiency,
  specificEnergy,
  usableCharge,
} from './load.js';
import { packResistance, storedEnergy, windowEnergy } from './pack.js';
import { stepPack } from './step.js';
import { chargeCurrentLimit, resistanceFactor, stagedChargeLimits } from './temperature.js';
import { cell21700 } from './testCells.js';

const warm = 298.15;
const pack = cellPack(cell21700, 4, 2);

describe('constantPowerCurrent', () => {
  it('power is voltage times current, and the smaller current is chosen', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1600, noNaN: true }), (power) => {
        const outcome = constantPowerCurrent({ openCircuitVoltage: 16, resistance: 0.04, power });
        expect(outcome.ok).toBe(true);
        if (!outcome.ok) return;
        expect(outcome.value.current * outcome.value.voltage).toBeCloseTo(power, 8);
        expect(outcome.value.voltage).toBeGreaterThanOrEqual(8 - 1e-6);
      }),
    );
  });

  it('beyond 1600 W the motor flattens this battery at once', () => {
    const outcome = constantPowerCurrent({ openCircuitVoltage: 16, resistance: 0.04, power: 1601 });
    expect(outcome).toMatchObject({ ok: false, code: 'battery-flattened' });
    if (!outcome.ok) expect(`${outcome.reason} ${outcome.remedy}`).toContain('1600 W');
  });

  it('refuses a source without voltage or resistance', () => {
    expect(() => constantPowerCurrent({ openCircuitVoltage: 0, resistance: 0.04, power: 1 })).toThrow(RangeError);
    expect(() => constantPowerCurrent({ openCircuitVoltage: 9, resistance: 0.04, power: -1 })).toThrow(RangeError);
  });
});

describe('greatest powers', () => {
  it('are what a short step takes and gives', () => {
    for (const stateOfCharge of [0.02, 0.3, 0.8, 0.97, 0.995]) {
      for (const temperature of [270, 280, 298, 320]) {
        const state = { stateOfCharge, temperature };
        const taken = stepPack(pack, state, 1e5, 1e-3).acceptedPower;
        const given = -stepPack(pack, state, -1e5, 1e-3).acceptedPower;
        expect(greatestChargePower(pack, state)).toBeCloseTo(taken, 2);
        expect(greatestDischargePower(pack, state)).toBeCloseTo(given, 2);
      }
    }
    expect(greatestChargePower(pack, { stateOfCharge: 1, temperature: warm })).toBe(0);
    expect(greatestDischargePower(pack, { stateOfCharge: 0, temperature: warm })).toBe(0);
  });

  it('holdPower names the number of cells in parallel that would hold it', () => {
    const state = { stateOfCharge: 0.5, temperature: warm };
    expect(holdPower(pack, state, 100).ok).toBe(true);
    const outcome = holdPower(pack, state, 1000);
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.reason).toContain('flattens this battery at once');
    const rows = Number(/about (\d+) cells/.exec(outcome.remedy)?.[1]);
    expect(rows).toBeGreaterThan(2);
    expect(holdPower(cellPack(cell21700, 4, rows + 1), state, 1000).ok).toBe(true);
    const flat = holdPower(pack, { stateOfCharge: 0, temperature: warm }, 10);
    expect(flat).toMatchObject({ ok: false, remedy: 'charge the battery first' });
  });
});

describe('usableCharge', () => {
  it('agrees with marching the day step to the cut-off', () => {
    for (const temperature of [warm, 268.15]) {
      const start = { stateOfCharge: 1, temperature };
      const usable = usableCharge(pack, start, { power: 120 });
      let state = start;
      let energy = 0;
      for (let i = 0; i < 2e5; i++) {
        const step = stepPack(pack, state, -120, 2);
        energy -= step.acceptedPower * 2;
        if (step.unmetPower > 0) break;
        state = { ...state, stateOfCharge: step.stateOfCharge };
      }
      expect(Math.abs(energy / usable.energy - 1)).toBeLessThan(2e-3);
      expect(Math.abs(energy / 120 / usable.duration - 1)).toBeLessThan(2e-3);
    }
  });

  it('a tiny load gets nearly everything; cold and load take away', () => {
    const state = { stateOfCharge: 1, temperature: warm };
    expect(usableCharge(pack, state, { power: 0.01 }).energy / storedEnergy(pack, 1)).toBeGreaterThan(0.9998);
    let previous = Number.POSITIVE_INFINITY;
    for (const temperature of [313, 298, 283, 268, 258]) {
      const { energy } = usableCharge(pack, { stateOfCharge: 1, temperature }, { power: 150 });
      expect(energy).toBeLessThan(previous);
      previous = energy;
    }
  });

  it('says when a load cannot start, and refuses no load', () => {
    const start = { stateOfCharge: 0.05, temperature: 253 };
    expect(usableCharge(pack, start, { current: 40 })).toMatchObject({ charge: 0, stoppedBy: 'cannot start' });
    expect(usableCharge(pack, { stateOfCharge: 1, temperature: warm }, { current: 0.1 }).endStateOfCharge).toBeLessThan(
      0.01,
    );
    expect(() => usableCharge(pack, start, { power: 0 })).toThrow(RangeError);
  });
});

describe('round trip and energy', () => {
  it('without current only the coulombic loss remains; more current costs more', () => {
    const state = { stateOfCharge: 0.5, temperature: warm };
    const of = (current: number) =>
      roundTripEfficiency(pack, state, { chargeCurrent: current, dischargeCurrent: current });
    expect(of(0)).toBeCloseTo(pack.coulombicEfficiency, 12);
    expect(of(4)).toBeLessThan(of(2));
    expect(of(1e4)).toBe(0);
  });

  it('specific energies', () => {
    expect(packSpecificEnergy(pack, 0.6) * 0.6).toBeCloseTo(storedEnergy(pack, 1), 6);
    expect(windowEnergy({ ...pack, lowestStateOfCharge: 0.5 })).toBeLessThan(storedEnergy(pack, 1) * 0.56);
    expect(windowEnergy({ kind: 'none' })).toBe(0);
    expect(nominalCellVoltage(pack)).toBeCloseTo(3.7078, 4);
    expect(() => specificEnergy({ capacity: 1, nominalVoltage: 1, mass: 0 })).toThrow(RangeError);
    expect(() => packSpecificEnergy(pack, 0)).toThrow(RangeError);
  });
});

describe('temperature', () => {
  it('resistance is unchanged at 25 C and falls with warmth', () => {
    expect(resistanceFactor(298.15, 25e3)).toBeCloseTo(1, 12);
    expect(resistanceFactor(310, 25e3)).toBeLessThan(1);
    expect(() => resistanceFactor(0, 25e3)).toThrow(RangeError);
  });

  it('charge current steps as in the pack specification', () => {
    const limits = stagedChargeLimits(2 * 3600);
    const at = (celsius: number) => chargeCurrentLimit(limits, celsius + 273.15);
    expect([at(-1), at(1), at(10), at(25), at(56)]).toEqual([0, 0.2, 0.4, 1, 0]);
  });
});

describe('cellPack', () => {
  it('resistance scales with Ns / Np plus wiring', () => {
    const one = cellPack(cell21700, 1, 1, { wiringResistance: 0 });
    const many = cellPack(cell21700, 6, 3, { wiringResistance: 0.01 });
    expect(packResistance(many, 0.5, warm)).toBeCloseTo(packResistance(one, 0.5, warm) * 2 + 0.01, 12);
  });

  it('the specific energy of a pack is its energy over its mass', () => {
    const stored = storedEnergy(cellPack(cell21700, 3, 2), 1);
    expect(packSpecificEnergy(cellPack(cell21700, 3, 2), 0.42)).toBeCloseTo(stored / 0.42, 6);
  });

  it('refuses packs that cannot be', () => {
    const kind = cell21700;
    expect(() => cellPack(kind, 0, 1)).toThrow(RangeError);
    expect(() => cellPack(kind, 2.5, 1)).toThrow(RangeError);
    expect(() => cellPack(kind, 2, 1, { cellCapacity: -1 })).toThrow(RangeError);
    expect(() => cellPack(kind, 2, 1, { minimumCellVoltage: 4.3 })).toThrow(RangeError);
    expect(() => cellPack(kind, 2, 1, { lowestStateOfCharge: 0.9, highestStateOfCharge: 0.3 })).toThrow(RangeError);
    expect(() => cellPack(kind, 2, 1, { highestStateOfCharge: 1.1 })).toThrow(RangeError);
    expect(() => cellPack(kind, 2, 1, { coulombicEfficiency: 0 })).toThrow(RangeError);
    const resistance = { stateOfCharge: [0], resistance: [0] };
    expect(() => cellPack(kind, 2, 1, { cellResistance: resistance })).toThrow(RangeError);
    expect(() => typicalResistanceCurve(0)).toThrow(RangeError);
  });
});

describe('chargeCourse', () => {
  const at = { from: 0.2, current: 5, stopCurrent: 0.5, temperature: warm };

  it('a slower charge spends a smaller part at constant voltage', () => {
    const share = (current: number) => {
      const outcome = chargeCourse(pack, { ...at, current });
      return outcome.ok ? 1 - outcome.value.constantCurrentDuration / outcome.value.duration : Number.NaN;
    };
    expect(share(2)).toBeLessThan(share(5));
  });

  it('says that a full battery is full, and refuses a stop current above the charge current', () => {
    expect(chargeCourse(pack, { ...at, from: 1 })).toMatchObject({ ok: false, code: 'battery-full' });
    expect(() => chargeCourse(pack, { ...at, stopCurrent: 6 })).toThrow(RangeError);
    expect(() => taperTimeConstant({ capacity: 1, resistance: 1, slope: 0 })).toThrow(RangeError);
  });
});
