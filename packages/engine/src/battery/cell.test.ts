import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellPack } from './cells.js';
import { circuitVoltage, polymerCircuit, relaxationVoltage, restedCircuit, stepCircuit } from './circuit.js';
import { lithiumIon18650Curve } from './curves.js';
import {
  currentFromVoltage,
  currentFromVoltageRate,
  meanOpenCircuitSlope,
  stateOfChargeFromVoltage,
} from './fromVoltage.js';
import { openCircuitVoltage } from './openCircuit.js';
import { packOpenCircuitVoltage, packResistance } from './pack.js';
import { peukertDuration } from './peukert.js';
import { batteryRelations } from './relations.js';
import { cell18650, polymerCell } from './testCells.js';
import { packWarnings } from './warnings.js';

const warm = 298.15;

describe('equivalent circuit', () => {
  const pack = cellPack(polymerCell, 3, 1, {
    relaxation: [
      { share: 0.25, timeConstant: 30 },
      { share: 0.3, timeConstant: 220 },
    ],
    cellCapacity: 1e9,
  });

  it('ends at the direct-current resistance after long and starts at its unrelaxed part', () => {
    const rested = restedCircuit(pack, 0.5, warm);
    const open = packOpenCircuitVoltage(pack, 0.5);
    const resistance = packResistance(pack, 0.5, warm);
    expect(circuitVoltage(pack, stepCircuit(pack, rested, 4, 1e5), 4)).toBeCloseTo(open - 4 * resistance, 3);
    const first = 0.45 * (resistance - pack.wiringResistance) + pack.wiringResistance;
    expect(circuitVoltage(pack, rested, 4)).toBeCloseTo(open - 4 * first, 12);
    expect(circuitVoltage(pack, rested, 0)).toBe(open);
  });

  it('one long step equals many short ones (exact update)', () => {
    fc.assert(
      fc.property(fc.double({ min: -10, max: 10, noNaN: true }), fc.integer({ min: 2, max: 40 }), (current, n) => {
        let state = restedCircuit(pack, 0.6, warm);
        for (let i = 0; i < n; i++) state = stepCircuit(pack, state, current, 100 / n);
        const once = stepCircuit(pack, restedCircuit(pack, 0.6, warm), current, 100);
        for (const k of [0, 1]) expect(state.relaxationVoltage[k]).toBeCloseTo(once.relaxationVoltage[k], 6);
        expect(state.stateOfCharge).toBeCloseTo(once.stateOfCharge, 12);
      }),
    );
  });

  it('holds the fitted polymer circuit below 2 %, where its capacitances would turn negative', () => {
    expect(polymerCircuit(0)).toEqual(polymerCircuit(0.02));
    expect(polymerCircuit(0).longTimeConstant).toBeGreaterThan(0);
    expect(polymerCircuit(0.5).shortTimeConstant).toBeCloseTo(32.81, 2);
    expect(polymerCircuit(0.5).longTimeConstant).toBeCloseTo(223.0, 1);
  });

  it('refuses a pair without time and a current that is not finite', () => {
    const at = { voltage: 0, current: 1, resistance: 1, timeConstant: 0, duration: 1 };
    expect(() => relaxationVoltage(at)).toThrow(RangeError);
    expect(() => stepCircuit(pack, restedCircuit(pack, 0.5, warm), Number.NaN, 1)).toThrow(RangeError);
  });
});

describe('state of charge from voltage', () => {
  const exact = {
    current: 2,
    resistance: 0.04,
    voltageUncertainty: 0.01,
    currentUncertainty: 0,
    resistanceUncertainty: 0,
  };

  it('undoes the terminal voltage, and its interval holds the value', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.06, max: 1, noNaN: true }), (s) => {
        const voltage = openCircuitVoltage(lithiumIon18650Curve, s) - 2 * 0.04;
        const estimate = stateOfChargeFromVoltage(lithiumIon18650Curve, { ...exact, voltage });
        expect(estimate.stateOfCharge).toBeCloseTo(s, 6);
        expect(estimate.low).toBeLessThanOrEqual(estimate.stateOfCharge);
        expect(estimate.high).toBeGreaterThanOrEqual(estimate.stateOfCharge);
        expect(estimate.standardUncertainty).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('is about three times less certain on the plateau of 85 to 90 % than in the middle', () => {
    const at = (s: number) => {
      const voltage = openCircuitVoltage(lithiumIon18650Curve, s) - 2 * 0.04;
      return stateOfChargeFromVoltage(lithiumIon18650Curve, { ...exact, voltage }).standardUncertainty;
    };
    expect(at(0.875) / at(0.5)).toBeGreaterThan(2.2);
    expect(at(0.875) / at(0.5)).toBeLessThan(4);
  });

  it('an unmodelled ampere of 40 mohm is 4.4 % of charge in the middle', () => {
    const slope = meanOpenCircuitSlope(lithiumIon18650Curve, 0.45, 0.6);
    expect(0.04 / slope).toBeCloseTo(0.044, 2);
  });

  it('refuses a flat curve, a zero resistance and a reversed interval', () => {
    const at = { capacity: 1, voltageRate: 1, cellsInSeries: 1, cellSlope: 0 };
    expect(() => currentFromVoltageRate(at)).toThrow(RangeError);
    expect(() => meanOpenCircuitSlope(lithiumIon18650Curve, 0.6, 0.5)).toThrow(RangeError);
    const volts = { openCircuitVoltage: 4, voltage: 3.9, voltageUncertainty: 0, slope: 1, stateOfChargeUncertainty: 0 };
    expect(() => currentFromVoltage({ ...volts, resistance: 0 })).toThrow(RangeError);
    expect(currentFromVoltage({ ...volts, resistance: 0.05 }).current).toBeCloseTo(2, 12);
  });
});

describe('peukertDuration', () => {
  it('gives the rated duration at the rated current for any exponent', () => {
    for (const exponent of [1, 1.05, 1.3]) {
      const at = { capacity: 18_000, ratedDuration: 3600, current: 5, exponent };
      expect(peukertDuration(at)).toBeCloseTo(3600, 9);
    }
    expect(() => peukertDuration({ capacity: 1, ratedDuration: 1, current: 0, exponent: 1 })).toThrow(RangeError);
  });
});

describe('packWarnings', () => {
  const pack = cellPack(cell18650, 4, 2, { chargeVoltage: 4.1 });
  const codes = (...args: Parameters<typeof packWarnings>) => packWarnings(...args).map((warning) => warning.code);

  it('always names the lithium cautions, and no more for a tame pack', () => {
    expect(codes(pack)).toEqual(['lithium', 'fuse']);
  });

  it('finds overvoltage, unbalanced cells, load dump, cold, heat, deep discharge and impossible energy', () => {
    expect(codes(pack, { converterCeiling: 17.2 })).toContain('charge-voltage');
    expect(codes(pack, { converterCeiling: 16.8 })).not.toContain('charge-voltage');
    expect(codes(pack, { converterCeiling: 16.8 })).toContain('cell-balance');
    expect(codes(pack, { boostConverter: true })).toContain('load-dump');
    expect(codes(pack, { lowestTemperature: 272 })).toContain('charge-cold');
    expect(codes(pack, { lowestTemperature: 280 })).toContain('charge-cool');
    expect(codes(pack, { highestTemperature: 325 })).toContain('charge-hot');
    expect(codes(pack, { motorCutOff: 8 })).toContain('cut-off-low');
    expect(codes(pack, { specificEnergy: 400 * 3600 })).toContain('specific-energy-high');
    expect(codes(pack, { specificEnergy: 60 * 3600 })).toContain('specific-energy-low');
    expect(codes(cellPack(cell18650, 8, 1))).toContain('precharge');
  });
});

describe('battery relations', () => {
  it('answer with their defaults in finite numbers under exactly the promised keys', () => {
    for (const relation of batteryRelations) {
      const defaults = Object.fromEntries(relation.inputs.map((input) => [input.key, input.default ?? 40]));
      const result = relation.compute(defaults);
      expect(Object.keys(result).sort()).toEqual(relation.outputs.map((output) => output.key).sort());
      for (const value of Object.values(result)) expect(Number.isFinite(value)).toBe(true);
    }
  });

  it('refuse nonsense with a remedy', () => {
    const [battery, charge, power] = batteryRelations;
    const cell = {
      ...{ cell: 'lithium-ion-18650', capacity: 10_800, cellResistance: 0.045, fullVoltage: 4.2, emptyVoltage: 2.5 },
      ...{ chargeRate: 0.5, currentLimit: 10 },
    };
    const base = { ...cell, series: 3, parallel: 1, charge: 0.5, temperature: 298 };
    expect(battery.compute({ ...base, power: 10 })).not.toHaveProperty('reason');
    for (const bad of [
      { capacity: 0 },
      { cellResistance: -1 },
      { emptyVoltage: 4.3 },
      { currentLimit: 0 },
      { series: 0 },
      { charge: 2 },
      { temperature: 20 },
      { cell: 'lead' },
      { power: 0 },
    ]) {
      expect(battery.compute({ ...base, power: 10, ...bad })).toHaveProperty('remedy');
    }
    expect(charge.compute({ ...base, offered: -1, duration: 60 })).toHaveProperty('remedy');
    expect(power.compute({ openCircuitVoltage: 12, resistance: 0.1, power: 400 })).toHaveProperty('reason');
    expect(power.compute({ openCircuitVoltage: 0, resistance: 0.1, power: 40 })).toHaveProperty('reason');
  });
});
