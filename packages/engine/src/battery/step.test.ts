import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellPack } from './cells.js';
import { openCircuitVoltage } from './openCircuit.js';
import { type BatteryPack, energyPack, noPack, packCapacity, packOpenCircuitVoltage, storedEnergy } from './pack.js';
import { emptyPackStep, stepPack } from './step.js';
import { cell18650, cell21700, polymerCell, powerCell } from './testCells.js';

const warm = 298.15;
const pack = cellPack(cell18650, 4, 2);

/** Net powers of a wild day [W]. */
const powers = fc.array(fc.double({ min: -300, max: 300, noNaN: true }), { minLength: 1, maxLength: 80 });

/** Runs the powers and compares energy in and out with the change of stored energy, integrated independently. */
function energyError(
  subject: BatteryPack,
  start: number,
  temperature: number,
  steps: readonly number[],
  duration: number,
) {
  let state = { stateOfCharge: start, temperature };
  let terminal = 0;
  let loss = 0;
  for (const power of steps) {
    const step = stepPack(subject, state, power, duration);
    terminal += step.acceptedPower * duration;
    loss += step.lossPower * duration;
    state = { stateOfCharge: step.stateOfCharge, temperature };
  }
  const change = storedEnergy(subject, state.stateOfCharge) - storedEnergy(subject, start);
  return Math.abs(terminal - loss - change) / storedEnergy(subject, 1);
}

describe('stepPack conserves energy', () => {
  it('terminal energy = change of stored energy + losses to 1e-9, for any powers, temperatures and step lengths', () => {
    fc.assert(
      fc.property(
        powers,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 255, max: 325, noNaN: true }),
        fc.constantFrom(1, 10, 60, 300),
        fc.constantFrom(cell18650, cell21700, powerCell, polymerCell),
        (steps, start, temperature, duration, kind) => {
          const subject = cellPack(kind, 4, 2);
          expect(energyError(subject, start, temperature, steps, duration)).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('stored energy is the area under the open-circuit voltage (summed here by midpoints)', () => {
    let area = 0;
    const n = 20_000;
    for (let i = 0; i < n; i++) area += openCircuitVoltage(pack.curve, (i + 0.5) / n) / n;
    expect(storedEnergy(pack, 1) / (4 * packCapacity(pack))).toBeCloseTo(area, 7);
  });

  it('an energy bucket conserves too', () => {
    const bucket = energyPack({ energy: 1e5, chargeEfficiency: 0.93, dischargeEfficiency: 0.9, chargePowerLimit: 120 });
    fc.assert(
      fc.property(powers, (steps) => {
        expect(energyError(bucket, 0.5, warm, steps, 60)).toBeLessThan(1e-12);
      }),
    );
  });
});

describe('stepPack books every watt', () => {
  it('accepted + curtailed - unmet = offered, losses are not negative, everything is finite', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5000, max: 5000, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 240, max: 340, noNaN: true }),
        fc.constantFrom<BatteryPack>(
          pack,
          noPack,
          energyPack({ energy: 1e5, chargeEfficiency: 1, dischargeEfficiency: 1 }),
        ),
        (power, stateOfCharge, temperature, subject) => {
          const step = stepPack(subject, { stateOfCharge, temperature }, power, 60);
          const booked = step.acceptedPower + step.curtailedPower - step.unmetPower;
          expect(Math.abs(booked - power)).toBeLessThan(1e-9 * Math.max(1, Math.abs(power)));
          expect(step.lossPower).toBeGreaterThanOrEqual(0);
          expect(step.curtailedPower === 0 || power > 0).toBe(true);
          expect(step.unmetPower === 0 || power < 0).toBe(true);
          expect(step.acceptedPower * power).toBeGreaterThanOrEqual(0);
          for (const value of Object.values(step)) {
            if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
          }
          expect(step.stateOfCharge).toBeGreaterThanOrEqual(0);
          expect(step.stateOfCharge).toBeLessThanOrEqual(1);
          if (step.curtailedPower + step.unmetPower > 1e-6) expect(step.limit).not.toBe('none');
        },
      ),
      { numRuns: 500 },
    );
  });

  it('converges to the same day whatever the step length: 1 h of discharge and of taper', () => {
    for (const [power, start] of [
      [-40, 0.8],
      [60, 0.9],
    ] as const) {
      const end = (duration: number): number => {
        let stateOfCharge: number = start;
        for (let t = 0; t < 3600; t += duration) {
          stateOfCharge = stepPack(pack, { stateOfCharge, temperature: warm }, power, duration).stateOfCharge;
        }
        return stateOfCharge;
      };
      expect(Math.abs(end(60) - end(1))).toBeLessThan(2e-4);
      expect(Math.abs(end(300) - end(1))).toBeLessThan(1.5e-3);
    }
  });

  it('fills the same result object again', () => {
    const into = emptyPackStep();
    expect(stepPack(pack, { stateOfCharge: 0.5, temperature: warm }, 10, 60, into)).toBe(into);
  });
});

describe('limits of stepPack', () => {
  const at = (stateOfCharge: number, power: number, temperature = warm) =>
    stepPack(pack, { stateOfCharge, temperature }, power, 60);

  it('no power: rest voltage, nothing moves', () => {
    const step = at(0.6, 0);
    expect(step.terminalVoltage).toBe(packOpenCircuitVoltage(pack, 0.6));
    expect([step.acceptedPower, step.lossPower, step.stateOfCharge, step.limit]).toEqual([0, 0, 0.6, 'none']);
  });

  it('takes no charge below 0 C, little at 2 C, and none above 55 C', () => {
    expect(at(0.5, 50, 272).acceptedPower).toBe(0);
    expect(at(0.5, 50, 272).limit).toBe('temperature');
    const cold = at(0.5, 50, 275.15);
    expect(cold.current).toBeCloseTo(0.6, 9);
    expect(cold.limit).toBe('charge current');
    expect(at(0.5, 50, 330).limit).toBe('temperature');
  });

  it('still gives power below 0 C', () => {
    expect(at(0.5, -20, 263).acceptedPower).toBeCloseTo(-20, 9);
  });

  it('tapers near full: less is accepted the fuller it is, at the charge voltage', () => {
    let previous = Number.POSITIVE_INFINITY;
    for (const stateOfCharge of [0.975, 0.98, 0.985, 0.99]) {
      const step = at(stateOfCharge, 200);
      expect(step.limit).toBe('charge voltage');
      expect(step.terminalVoltage).toBeCloseTo(4 * 4.2, 9);
      expect(step.acceptedPower).toBeLessThan(previous);
      previous = step.acceptedPower;
    }
    expect(at(1, 200).acceptedPower).toBe(0);
  });

  it('never stores beyond the window, and stops at its lower end', () => {
    const narrow = { ...pack, lowestStateOfCharge: 0.2, highestStateOfCharge: 0.9 };
    const full = stepPack(narrow, { stateOfCharge: 0.899, temperature: warm }, 40, 600);
    expect(full.stateOfCharge).toBeCloseTo(0.9, 12);
    expect(full.limit).toBe('full');
    const empty = stepPack(narrow, { stateOfCharge: 0.201, temperature: warm }, -40, 600);
    expect(empty.stateOfCharge).toBeCloseTo(0.2, 12);
    expect(empty.limit).toBe('empty');
    expect(empty.unmetPower).toBeGreaterThan(0);
  });

  it('gives what the cut-off voltage and the current limit leave', () => {
    const low = at(0.05, -200);
    expect(low.limit).toBe('cut-off voltage');
    expect(low.terminalVoltage).toBeCloseTo(4 * 2.5, 9);
    const high = at(0.9, -400);
    expect(high.limit).toBe('discharge current');
    expect(high.current).toBeCloseTo(-20, 9);
  });

  it('gives its greatest power where neither voltage nor current forbids', () => {
    const soft = cellPack(cell18650, 1, 1, {
      minimumCellVoltage: 0.1,
      dischargeCurrentLimit: 1e6,
      cellResistance: { stateOfCharge: [0], resistance: [0.1] },
      wiringResistance: 0,
      cellCapacity: 1e9,
    });
    const step = stepPack(soft, { stateOfCharge: 0.5, temperature: warm }, -1000, 1);
    expect(step.limit).toBe('maximum power');
    expect(-step.acceptedPower).toBeCloseTo(3.753 ** 2 / 0.4, 4);
  });

  it('no battery: all surplus is curtailed, all need unmet', () => {
    const state = { stateOfCharge: 0, temperature: warm };
    expect(stepPack(noPack, state, 12, 60)).toMatchObject({ curtailedPower: 12, unmetPower: 0, limit: 'no battery' });
    expect(stepPack(noPack, state, -12, 60)).toMatchObject({ curtailedPower: 0, unmetPower: 12, limit: 'no battery' });
  });

  it('the bucket of the 81-hour case: 705 Wh, efficiencies 1, charges at any power until exactly full', () => {
    const bucket = energyPack({ energy: 705 * 3600, chargeEfficiency: 1, dischargeEfficiency: 1 });
    const night = stepPack(bucket, { stateOfCharge: 1, temperature: warm }, -41, 3600);
    expect(night.stateOfCharge).toBeCloseTo(1 - 41 / 705, 12);
    expect(stepPack(bucket, { stateOfCharge: 0.999, temperature: warm }, 250, 3600)).toMatchObject({
      stateOfCharge: 1,
      limit: 'full',
    });
    const weak = energyPack({ ...bucket, chargePowerLimit: 100, dischargePowerLimit: 30 });
    expect(stepPack(weak, { stateOfCharge: 0.5, temperature: warm }, 250, 60).limit).toBe('charge power');
    expect(stepPack(weak, { stateOfCharge: 0.5, temperature: warm }, -41, 60).limit).toBe('discharge power');
    expect(stepPack(weak, { stateOfCharge: 0, temperature: warm }, -20, 60).limit).toBe('empty');
  });

  it('refuses what is no step', () => {
    const state = { stateOfCharge: 0.5, temperature: warm };
    expect(() => stepPack(pack, state, Number.NaN, 60)).toThrow(RangeError);
    expect(() => stepPack(pack, state, 1, 0)).toThrow(RangeError);
    expect(() => stepPack(pack, { ...state, stateOfCharge: 1.2 }, 1, 60)).toThrow(RangeError);
  });
});
