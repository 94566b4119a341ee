import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Outcome } from '../result.js';
import { matchExample } from './drive.checks.js';
import type { Drive, DriveState } from './drive.js';
import { driveAtThrust } from './match.js';
import { seaLevelAir, uncorrectedPropeller } from './propeller.js';
import { buildPropellerTable } from './propellerTable.js';
import { da4002, publishedGeometry } from './publishedPropellers.js';
import {
  conductionLoss,
  genericSpeedController,
  meanInputVoltage,
  speedControllerLoss,
  throttleFromPulse,
} from './speedController.js';
import { driveAtThrottle, maximumThrust } from './throttle.js';

const demand = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const propeller = uncorrectedPropeller(buildPropellerTable(publishedGeometry(da4002)));
const drive: Drive = { ...matchExample(), propeller, controller: genericSpeedController };
const flight = { drive, airspeed: 12, air: seaLevelAir, busVoltage: 11.1, batteryResistance: 0.03 };

const everyNumber = (state: DriveState) =>
  [...Object.values(state), ...Object.values(state.losses)].filter((v) => typeof v === 'number');

describe('drive at a thrust', () => {
  test('power is thrust times airspeed and the losses', () => {
    fc.assert(
      fc.property(between(0.05, 4), between(0, 18), between(0, 0.1), (thrust, airspeed, batteryResistance) => {
        const outcome = driveAtThrust({ ...flight, thrust, airspeed, batteryResistance });
        if (!outcome.ok) return;
        const { electricPower, losses, busVoltage, batteryCurrent, duty } = outcome.value;
        const { propeller: p, gear, motor, controller, battery } = losses;
        expect(thrust * airspeed + p + gear + motor + controller).toBeCloseTo(electricPower, 7);
        expect(busVoltage * batteryCurrent).toBeCloseTo(electricPower, 8);
        expect(electricPower + battery).toBeCloseTo(11.1 * batteryCurrent, 7);
        expect(Math.min(p, motor, controller)).toBeGreaterThan(0);
        expect(duty).toBeLessThanOrEqual(1);
        expect(everyNumber(outcome.value).every(Number.isFinite)).toBe(true);
      }),
    );
  });

  test('more thrust needs more power', () => {
    let power = 0;
    for (let thrust = 0; thrust < 4; thrust += 0.25) {
      const next = demand(driveAtThrust({ ...flight, thrust })).electricPower;
      expect(next).toBeGreaterThan(power);
      power = next;
    }
  });

  test('two motors share a thrust', () => {
    const one = demand(driveAtThrust({ ...flight, thrust: 1.2, batteryResistance: 0 }));
    const pair = { ...flight, drive: { ...drive, count: 2 }, batteryResistance: 0 };
    const two = demand(driveAtThrust({ ...pair, thrust: 2.4 }));
    expect(two.electricPower).toBeCloseTo(2 * one.electricPower, 8);
    expect(two.motorCurrent).toBeCloseTo(one.motorCurrent, 9);
  });

  test('a lossless gear is the same as a motor with a lower speed constant', () => {
    const geared = { ...drive, gear: { ratio: 3, efficiency: 1 } };
    const slow = { ...drive.motor, speedConstant: drive.motor.speedConstant / 3 };
    const a = demand(driveAtThrust({ ...flight, busVoltage: 33, thrust: 1.2, drive: geared }));
    const b = demand(driveAtThrust({ ...flight, busVoltage: 33, thrust: 1.2, drive: { ...drive, motor: slow } }));
    expect(a.electricPower).toBeCloseTo(b.electricPower, 8);
    expect(a.motorRotationRate).toBeCloseTo(3 * a.rotationRate, 8);
  });

  test('too much thrust names the greatest', () => {
    const refused = driveAtThrust({ ...flight, thrust: 9 });
    const greatest = demand(maximumThrust(flight));
    expect(greatest.limitedBy).toBe('voltage');
    expect(refused.ok).toBe(false);
    if (!refused.ok) expect(refused.reason).toContain(`at most ${greatest.state.thrust.toFixed(2)} N`);
    expect(driveAtThrust({ ...flight, thrust: greatest.state.thrust * 0.999 }).ok).toBe(true);
    expect(driveAtThrust({ ...flight, thrust: greatest.state.thrust * 1.001 }).ok).toBe(false);
  });

  test('limits of current and power bound the thrust', () => {
    for (const [limits, limitedBy] of [
      [{ maximumCurrent: 6 }, 'motor current'],
      [{ maximumPower: 50 }, 'motor power'],
    ] as const) {
      const limited = { ...flight, drive: { ...drive, motor: { ...drive.motor, ...limits } } };
      const greatest = demand(maximumThrust(limited));
      expect(greatest.limitedBy).toBe(limitedBy);
      expect(driveAtThrust({ ...limited, thrust: greatest.state.thrust * 0.999 }).ok).toBe(true);
      const refused = driveAtThrust({ ...limited, thrust: greatest.state.thrust * 1.01 });
      expect(!refused.ok && refused.code).toBe(limitedBy.replace(' ', '-'));
      expect(driveAtThrottle({ ...limited, duty: 1 }).ok).toBe(true);
    }
  });

  test('a battery that cannot give the power is too much thrust, not a number', () => {
    const weak = { ...flight, drive: { ...matchExample(), propeller }, batteryResistance: 3 };
    expect(driveAtThrust({ ...weak, thrust: 3 }).ok).toBe(false);
    const full = driveAtThrottle({ ...weak, duty: 1 });
    expect(!full.ok && full.code).toBe('battery-power');
    const greatest = demand(maximumThrust(weak));
    expect(greatest.limitedBy).toBe('battery power');
    // The most that a source gives is Voc^2 / 4R, at half its voltage.
    expect(greatest.state.electricPower).toBeCloseTo(11.1 ** 2 / 12, 3);
    expect(driveAtThrust({ ...weak, thrust: greatest.state.thrust * 0.999 }).ok).toBe(true);
  });

  test('refuses braking, an empty bus and numbers that are none', () => {
    const braking = driveAtThrust({ ...flight, thrust: -1 });
    expect(!braking.ok && braking.code).toBe('negative-thrust');
    const empty = driveAtThrust({ ...flight, thrust: 1, busVoltage: 0 });
    expect(!empty.ok && empty.code).toBe('no-voltage');
    expect(() => driveAtThrust({ ...flight, thrust: Number.NaN })).toThrow(RangeError);
    expect(() => driveAtThrust({ ...flight, thrust: 1, airspeed: -3 })).toThrow(RangeError);
  });

  test('a measured propeller refuses an advance ratio that was not measured', () => {
    const refused = driveAtThrust({
      ...flight,
      drive: { ...drive, propeller: matchExample().propeller },
      thrust: 0,
      airspeed: 40,
    });
    expect(refused.ok).toBe(false);
  });
});

describe('drive at a throttle', () => {
  test('leads back to the thrust that asked for that throttle', () => {
    fc.assert(
      fc.property(between(0.1, 4), between(0, 15), (thrust, airspeed) => {
        const outcome = driveAtThrust({ ...flight, thrust, airspeed });
        if (!outcome.ok) return;
        const { duty, electricPower } = outcome.value;
        const back = demand(driveAtThrottle({ ...flight, airspeed, duty }));
        expect(back.thrust).toBeCloseTo(thrust, 6);
        expect(back.electricPower).toBeCloseTo(electricPower, 5);
      }),
    );
  });

  test('the current falls with airspeed at a fixed throttle', () => {
    const current = (airspeed: number) => demand(driveAtThrottle({ ...flight, airspeed, duty: 0.7 })).batteryCurrent;
    expect(current(8)).toBeLessThan(current(4));
    expect(current(14)).toBeLessThan(current(8));
  });

  test('a throttle below the windmilling speed does not drive', () => {
    const outcome = driveAtThrottle({ ...flight, airspeed: 20, duty: 0.15 });
    expect(!outcome.ok && outcome.code).toBe('throttle-too-low');
    expect(() => driveAtThrottle({ ...flight, duty: 1.2 })).toThrow(RangeError);
  });
});

describe('speed controller', () => {
  test('the duty pays for motor power and conduction', () => {
    fc.assert(
      fc.property(between(1, 9), between(0.1, 30), fc.boolean(), (voltage, current, synchronous) => {
        const controller = { ...genericSpeedController, synchronous };
        const mean = meanInputVoltage(controller, voltage, current, 11.1);
        expect(mean * current).toBeCloseTo(voltage * current + conductionLoss(controller, current, mean / 11.1), 9);
      }),
    );
  });

  test('synchronous rectification saves below full duty and nothing at it', () => {
    const loss = (synchronous: boolean, duty: number) =>
      speedControllerLoss({ ...genericSpeedController, synchronous }, { busVoltage: 11.1, motorCurrent: 8, duty });
    expect(loss(true, 0.5)).toBeLessThan(loss(false, 0.5));
    expect(loss(true, 1)).toBeCloseTo(loss(false, 1), 12);
  });

  test('pulse width becomes throttle between its end points', () => {
    expect(throttleFromPulse({ width: 1450e-6, shortest: 1e-3, longest: 2e-3 })).toBeCloseTo(0.45, 12);
    expect(throttleFromPulse({ width: 1450e-6, shortest: 1.1e-3, longest: 1.9e-3 })).toBeCloseTo(0.4375, 12);
    expect(throttleFromPulse({ width: 2.2e-3, shortest: 1e-3, longest: 2e-3 })).toBe(1);
    expect(() => throttleFromPulse({ width: 1e-3, shortest: 2e-3, longest: 1e-3 })).toThrow(RangeError);
  });
});
