import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  directDrive,
  motor,
  motorAtTemperature,
  motorFromCurrent,
  motorFromTorque,
  motorLandmarks,
  speedConstantFromRpmPerVolt,
  throughGear,
} from './motor.js';
import { estimatedMotor, noLoadCurrentFromMass, resistanceFromMass } from './motorEstimate.js';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const example = motor({ speedConstant: speedConstantFromRpmPerVolt(1000), resistance: 0.05, noLoadCurrent: 0.6 });

describe('motor', () => {
  test('torque and current are inverse relations', () => {
    fc.assert(
      fc.property(between(0.01, 0.5), between(10, 1200), (torque, rotationRate) => {
        const there = motorFromTorque(example, torque, rotationRate);
        const back = motorFromCurrent(example, there.voltage, there.current);
        expect(back.torque).toBeCloseTo(torque, 9);
        expect(back.rotationRate).toBeCloseTo(rotationRate, 6);
        expect(there.efficiency).toBeLessThan(1);
      }),
    );
  });

  test('torque constant times speed constant is one', () => {
    expect(motorLandmarks(example, 10).torqueConstant * example.speedConstant).toBeCloseTo(1, 15);
    expect(motorLandmarks(example, 10).torqueConstant).toBeCloseTo(0.0095493, 8);
  });

  test('no current does better than the best one', () => {
    const { bestCurrent, bestEfficiency, greatestPowerCurrent } = motorLandmarks(example, 10);
    expect(greatestPowerCurrent).toBeCloseTo(100.3, 10);
    fc.assert(
      fc.property(between(0.7, 190), (current) => {
        const { efficiency, torque, rotationRate } = motorFromCurrent(example, 10, current);
        const top = motorFromCurrent(example, 10, greatestPowerCurrent);
        return efficiency <= bestEfficiency + 1e-12 && torque * rotationRate <= top.torque * top.rotationRate + 1e-9;
      }),
    );
    expect(motorFromCurrent(example, 10, bestCurrent).efficiency).toBeCloseTo(bestEfficiency, 12);
  });

  test('a hot winding needs more voltage for the same torque and speed', () => {
    const hot = motorAtTemperature(example, 353.15);
    const extra = motorFromTorque(hot, 0.1, 900).voltage - motorFromTorque(example, 0.1, 900).voltage;
    expect(extra).toBeCloseTo(0.2358 * 0.05 * (0.1 * example.speedConstant + 0.6), 6);
  });

  test('a gear keeps power but for its loss', () => {
    const shaft = { rotationRate: 900, torque: 0.1 };
    expect(throughGear(directDrive, shaft)).toEqual(shaft);
    const out = throughGear({ ratio: 4.4, efficiency: 0.95 }, shaft);
    expect(out.rotationRate * out.torque).toBeCloseTo(0.95 * 90, 10);
  });

  test('refuses constants that no motor has and a voltage that does not turn it', () => {
    expect(() => motor({ speedConstant: 0, resistance: 0.1, noLoadCurrent: 1 })).toThrow(RangeError);
    expect(() => motor({ speedConstant: 100, resistance: -0.1, noLoadCurrent: 1 })).toThrow(RangeError);
    expect(() => motorLandmarks(example, 0.02)).toThrow(RangeError);
  });
});

describe('estimated motor', () => {
  test('two catalogue motors lie within the stated scatter', () => {
    // Iron-core flat brushless motor, 70 W: 236 rpm/V, 0.573 ohm, 0.27 A (published data sheet); mass 141 g from memory.
    const speedConstant = speedConstantFromRpmPerVolt(236);
    expect(Math.abs(Math.log(resistanceFromMass(speedConstant, 0.141) / 0.573))).toBeLessThan(2 * 0.35);
    expect(Math.abs(Math.log(noLoadCurrentFromMass(speedConstant, 0.141) / 0.27))).toBeLessThan(2 * 0.4);
  });

  test('keeps what is known, marks what is not', () => {
    const full = estimatedMotor({ speedConstant: 100, resistance: 0.1, noLoadCurrent: 0.5 });
    expect(full.ok && full.warnings.length).toBe(0);
    const half = estimatedMotor({ speedConstant: 100, mass: 0.1, noLoadCurrent: 0.5, maximumCurrent: 20 });
    if (!half.ok) throw new Error(half.reason);
    expect(half.value.noLoadCurrent).toBe(0.5);
    expect(half.value.maximumCurrent).toBe(20);
    expect(half.value.resistanceUncertainty).toBeCloseTo(0.35, 12);
    expect(half.warnings[0].message).toContain('resistance');
    const byPower = estimatedMotor({ speedConstant: 100, maximumPower: 300 });
    if (!byPower.ok) throw new Error(byPower.reason);
    expect(byPower.value.resistanceUncertainty).toBeGreaterThan(0.5);
    expect(byPower.value.resistance).toBeCloseTo(resistanceFromMass(100, 0.1), 12);
  });

  test('says what it needs', () => {
    const nothing = estimatedMotor({ speedConstant: 100 });
    expect(nothing.ok).toBe(false);
    expect(estimatedMotor({ speedConstant: Number.NaN, mass: 0.1 }).ok).toBe(false);
  });
});
