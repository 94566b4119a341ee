import { describe, expect, test } from 'vitest';
import type { Outcome } from '../result.js';
import { matchExample } from './drive.checks.js';
import type { Drive } from './drive.js';
import { seaLevelAir, uncorrectedPropeller } from './propeller.js';
import { buildPropellerTable } from './propellerTable.js';
import { da4002, publishedGeometry } from './publishedPropellers.js';
import { genericSpeedController } from './speedController.js';
import { calibrateStaticRun, staticRun, staticToFlightUncertainty } from './staticRun.js';
import { foldedDragArea, stoppedDragArea, unpoweredDrag } from './unpowered.js';

const demand = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

const propeller = uncorrectedPropeller(buildPropellerTable(publishedGeometry(da4002)));
const drive: Drive = { ...matchExample(), propeller, controller: genericSpeedController };
const run = { drive, busVoltage: 11, duty: 0.6, air: seaLevelAir };

describe('static run', () => {
  test('holds the bus voltage and pulls', () => {
    const state = demand(staticRun(run));
    expect(state.busVoltage).toBe(11);
    expect(state.thrust).toBeGreaterThan(1);
    expect(state.duty).toBeCloseTo(0.6, 9);
  });

  test.each(['propeller power', 'motor resistance'] as const)('finds a known factor on %s', (correction) => {
    const known =
      correction === 'propeller power'
        ? { ...drive, propeller: { ...propeller, powerFactor: 0.85 } }
        : { ...drive, motor: { ...drive.motor, resistance: 0.85 * drive.motor.resistance } };
    const { batteryCurrent } = demand(staticRun({ ...run, drive: known }));
    const found = demand(calibrateStaticRun({ ...run, batteryCurrent }, correction));
    expect(found.factor).toBeCloseTo(0.85, 7);
    expect(demand(staticRun({ ...run, drive: found.drive })).batteryCurrent).toBeCloseTo(batteryCurrent, 7);
    expect(found.uncertainty).toBeGreaterThan(0);
  });

  test('exact instruments and constants leave only the step from bench to flight', () => {
    const motor = {
      ...drive.motor,
      speedConstantUncertainty: 0,
      resistanceUncertainty: 0,
      noLoadCurrentUncertainty: 0,
    };
    const { batteryCurrent } = demand(staticRun(run));
    const uncertainty = { voltage: 0, current: 0, duty: 0, density: 0 };
    const found = demand(calibrateStaticRun({ ...run, drive: { ...drive, motor }, batteryCurrent, uncertainty }));
    expect(found.uncertainty).toBeLessThan(1e-6);
    expect(found.flightUncertainty).toBeCloseTo(staticToFlightUncertainty, 9);
  });

  test('a measured thrust sets the thrust factor, else the figure of merit is kept', () => {
    const { batteryCurrent, thrust } = demand(staticRun(run));
    const withThrust = demand(calibrateStaticRun({ ...run, batteryCurrent, thrust: 1.1 * thrust }));
    expect(withThrust.drive.propeller.thrustFactor).toBeCloseTo(1.1, 6);
    const more = demand(calibrateStaticRun({ ...run, batteryCurrent: 1.1 * batteryCurrent }));
    expect(more.drive.propeller.thrustFactor).toBeCloseTo(more.factor ** (2 / 3), 12);
  });

  test('refuses a current that no factor explains', () => {
    expect(calibrateStaticRun({ ...run, batteryCurrent: 60 }).ok).toBe(false);
    expect(calibrateStaticRun({ ...run, batteryCurrent: 0 }).ok).toBe(false);
  });
});

describe('unpowered propeller', () => {
  const glide = { drive, airspeed: 12, air: seaLevelAir };

  test('folded drags least, and drag grows with the square of airspeed', () => {
    const stopped = demand(unpoweredDrag({ ...glide, state: 'stopped' }));
    const folded = demand(unpoweredDrag({ ...glide, state: 'folded' }));
    expect(folded.drag).toBeLessThan(0.1 * stopped.drag);
    expect(demand(unpoweredDrag({ ...glide, airspeed: 24, state: 'stopped' })).drag).toBeCloseTo(4 * stopped.drag, 12);
    expect(stopped.dragArea).toBeCloseTo(stoppedDragArea(propeller.model), 12);
    expect(folded.dragArea).toBeCloseTo(foldedDragArea(propeller.model), 12);
  });

  test('more friction slows the free-wheeling propeller until it stops', () => {
    const withFriction = (noLoadCurrent: number) =>
      demand(
        unpoweredDrag({ ...glide, drive: { ...drive, motor: { ...drive.motor, noLoadCurrent } }, state: 'free-wheel' }),
      );
    const free = withFriction(0);
    expect(withFriction(0.3).rotationRate).toBeLessThan(free.rotationRate);
    expect(free.rotationRate).toBeGreaterThan(100);
    expect(withFriction(50).rotationRate).toBe(0);
    expect(withFriction(50).drag).toBeCloseTo(demand(unpoweredDrag({ ...glide, state: 'stopped' })).drag, 12);
  });

  test('at rest nothing drags; two propellers drag twice', () => {
    expect(demand(unpoweredDrag({ ...glide, airspeed: 0, state: 'free-wheel' })).drag).toBe(0);
    const one = demand(unpoweredDrag({ ...glide, state: 'free-wheel' })).drag;
    const two = demand(unpoweredDrag({ ...glide, drive: { ...drive, count: 2 }, state: 'free-wheel' })).drag;
    expect(two).toBeCloseTo(2 * one, 10);
  });

  test('a measured table says what it lacks', () => {
    const measured = { ...glide, drive: matchExample() };
    for (const state of ['free-wheel', 'stopped', 'folded'] as const)
      expect(unpoweredDrag({ ...measured, state }).ok).toBe(false);
  });
});
