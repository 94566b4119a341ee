import { type BalanceReport, pitchControlWords, type Verdict } from '@noonwing/verdict';
import type { BalanceView, DriveView, FlightView, StringView } from './view.js';

type Chosen = NonNullable<NonNullable<Verdict['flight']>['chosen']>;

export function balanceView(report: BalanceReport): BalanceView {
  const { sum, beam, battery, cellEffect, range } = report;
  return {
    mass: sum.mass,
    massSigma: sum.uncertainty.mass,
    balancePoint: { x: sum.x, y: sum.y, z: sum.z },
    balanceSigma: sum.uncertainty.x,
    assumedMass: sum.assumedMass,
    loads: beam.loads.map(({ name, x, mass, moment, provenance, source }) => ({
      name,
      x,
      mass,
      moment,
      weighed: provenance === 'weighed',
      source,
    })),
    noseMoment: beam.noseMoment,
    neutralPoint: report.neutralPoint,
    staticMargin: report.staticMargin,
    staticMarginSigma: report.staticMarginSigma,
    meanChord: report.meanChord,
    meanChordStart: report.meanChordStart,
    range: { forward: range.forward, aft: range.aft, width: range.width, forwardSigma: report.forwardSigma },
    controls: report.controls.map(pitchControlWords),
    ...(battery === undefined ? {} : { battery: batteryPlace(battery) }),
    ...(cellEffect === undefined ? {} : { cellEffect: { ...cellEffect } }),
  };
}

const batteryPlace = ({ x, mass, placement, problem }: NonNullable<BalanceReport['battery']>) => ({
  x,
  mass,
  ...(placement === undefined
    ? {}
    : { to: placement.x, wanted: placement.wanted, balancePointThere: placement.balancePoint }),
  ...(placement?.ballast === undefined ? {} : { ballast: { mass: placement.ballast.mass, x: placement.ballast.x } }),
  ...(problem === undefined ? {} : { problem: `${problem.reason}; ${problem.remedy}` }),
});

type Drive = Chosen['flight']['drive'];

export const driveView = (drive: Drive): DriveView => ({
  electricPower: drive.electricPower,
  throttle: drive.duty,
  busVoltage: drive.busVoltage,
  batteryCurrent: drive.batteryCurrent,
  motorCurrent: drive.motorCurrent,
  motorVoltage: drive.motorVoltage,
  propellerSpeed: drive.rotationRate,
  shaftPower: drive.shaftPower,
  thrust: drive.thrust,
  propellerEfficiency: drive.propellerEfficiency,
  gearEfficiency: drive.gearEfficiency,
  motorEfficiency: drive.motorEfficiency,
  controllerEfficiency: drive.controllerEfficiency,
});

const standardGravity = 9.80665;

function pointView({ flight, ...chosen }: Chosen): NonNullable<FlightView['point']> {
  const { trim, drive } = flight;
  return {
    reason: chosen.reason,
    stallSpeed: chosen.stallSpeed,
    leastPowerSpeed: chosen.leastPowerSpeed,
    leastPower: chosen.leastPower,
    alpha: trim.alpha,
    control: trim.control,
    liftCoefficient: trim.forces.liftCoefficient,
    thrust: trim.thrust,
    drag: trim.drag,
    inducedDrag: trim.inducedDrag,
    profileDrag: trim.profileDrag,
    parasiteDrag: trim.parasiteDrag,
    drive: driveView(drive),
  };
}

export function flightView(flight: NonNullable<Verdict['flight']>, steadyLoads: number): FlightView {
  const { airspeed, bank, chosen } = flight;
  return {
    airspeed,
    bank,
    ...(bank > 1e-3 ? { circleRadius: airspeed ** 2 / (standardGravity * Math.tan(bank)) } : {}),
    drivePower: flight.drivePower,
    steadyLoads,
    calibration: flight.calibration,
    ...(chosen === undefined ? {} : { point: pointView(chosen) }),
  };
}

/** How each string meets the battery: numbers by name, or what does not fit. */
export function stringView(report: {
  readonly name: string;
  readonly cells: number;
  readonly parallel: number;
  readonly fit:
    | { readonly ok: true; readonly value: StringFit; readonly warnings: readonly { readonly message: string }[] }
    | { readonly ok: false; readonly reason: string; readonly remedy: string };
}): StringView {
  const { name, cells, parallel, fit } = report;
  if (!fit.ok) return { name, cells, parallel, problem: fit.reason, remedy: fit.remedy, figures: {} };
  const { openCircuitVoltageHighest, maximumPowerVoltage, window, cellCounts } = fit.value;
  return {
    name,
    cells,
    parallel,
    ...(fit.value.fit === 'always' ? {} : { problem: fit.warnings[0]?.message ?? 'fits only part of the range' }),
    figures: {
      openCircuitVoltageHighest,
      maximumPowerVoltageLowest: maximumPowerVoltage.lowest,
      maximumPowerVoltageHighest: maximumPowerVoltage.highest,
      windowEmptyLow: window.empty.low,
      windowEmptyHigh: window.empty.high,
      windowFullLow: window.full.low,
      windowFullHigh: window.full.high,
      ...(cellCounts === undefined ? {} : { fewestCells: cellCounts.fewest, mostCells: cellCounts.most }),
    },
  };
}

interface StringFit {
  readonly fit: 'always' | 'part of the range';
  readonly openCircuitVoltageHighest: number;
  readonly maximumPowerVoltage: { readonly lowest: number; readonly highest: number };
  readonly window: {
    readonly empty: { readonly low: number; readonly high: number };
    readonly full: { readonly low: number; readonly high: number };
  };
  readonly cellCounts?: { readonly fewest: number; readonly most: number };
}
