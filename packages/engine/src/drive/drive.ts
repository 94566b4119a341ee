import type { PropellerLoads } from './bladeElement.js';
import { type Gear, type Motor, noLoadCurrentAt, resistanceAt } from './motor.js';
import { type DriveAir, type Propeller, propellerLoads } from './propeller.js';
import { propellerReynolds } from './propellerTable.js';
import { conductionLoss, meanInputVoltage, type SpeedController, switchingLoss } from './speedController.js';

/** One or several equal sets of motor, gear, speed controller and propeller on one battery bus. */
export interface Drive {
  readonly propeller: Propeller;
  readonly motor: Motor;
  readonly gear: Gear;
  readonly controller: SpeedController;
  /** Number of equal motors. */
  readonly count: number;
}

/** What surrounds the drive. */
export interface DriveConditions {
  readonly drive: Drive;
  /** Axial airspeed, zero or positive [m/s] */
  readonly airspeed: number;
  readonly air: DriveAir;
  /** Voltage of the bus [V]; the open-circuit voltage of the battery where `batteryResistance` is given. */
  readonly busVoltage: number;
  /** Internal resistance of battery and leads [ohm], default 0. */
  readonly batteryResistance?: number;
}

/** Losses by item, all motors together [W]. */
export interface DriveLosses {
  /** Shaft power of the propellers less thrust times airspeed. */
  readonly propeller: number;
  readonly gear: number;
  readonly motor: number;
  readonly controller: number;
  /** Inside the battery and its leads; not part of the electric power. */
  readonly battery: number;
}

/** A drive at work. Powers, thrust and battery current of all motors together; motor values of one. */
export interface DriveState {
  /** [N] */
  readonly thrust: number;
  /** At the battery terminals [W] */
  readonly electricPower: number;
  /** Throttle duty, 0 to 1 */
  readonly duty: number;
  /** At the battery terminals [V], [A] */
  readonly busVoltage: number;
  readonly batteryCurrent: number;
  /** [A], [V] */
  readonly motorCurrent: number;
  readonly motorVoltage: number;
  /** Of the propeller and of the motor [rad/s] */
  readonly rotationRate: number;
  readonly motorRotationRate: number;
  /** Of all propellers [W] */
  readonly shaftPower: number;
  /** Each between 0 and 1, 0 where it has no meaning (static, braking). */
  readonly propellerEfficiency: number;
  readonly gearEfficiency: number;
  readonly motorEfficiency: number;
  readonly controllerEfficiency: number;
  /** Thrust times airspeed over electric power. */
  readonly efficiency: number;
  /** Electric power = thrust x airspeed + propeller + gear + motor + controller. */
  readonly losses: DriveLosses;
  readonly advanceRatio: number;
  readonly tipMach: number;
  /** Of the blade chord at 0.75 R; 0 where the chord is unknown. */
  readonly reynolds: number;
}

/** One motor at a propeller speed; mutable so that a root search allocates nothing. */
export interface Point {
  readonly loads: PropellerLoads;
  motorTorque: number;
  motorRate: number;
  current: number;
  voltage: number;
}

export const newPoint = (): Point => ({
  loads: { thrust: 0, torque: 0 },
  motorTorque: 0,
  motorRate: 0,
  current: 0,
  voltage: 0,
});

/** Fills in the loads and the electrical needs of one motor at a propeller speed [rad/s]. */
export function operate(conditions: DriveConditions, rotationRate: number, point: Point): void {
  const { drive, airspeed, air } = conditions;
  const { motor, gear } = drive;
  propellerLoads(drive.propeller, airspeed, rotationRate, air, point.loads);
  const { torque } = point.loads;
  // The gear takes its share from whichever side drives.
  point.motorTorque = (torque > 0 ? torque / gear.efficiency : torque * gear.efficiency) / gear.ratio;
  point.motorRate = rotationRate * gear.ratio;
  point.current = point.motorTorque * motor.speedConstant + noLoadCurrentAt(motor, point.motorRate);
  point.voltage =
    ((1 + motor.magneticLag * point.motorRate) * point.motorRate) / motor.speedConstant +
    point.current * resistanceAt(motor, point.current);
}

/** Bus voltage, input power of one controller and duty for a motor's needs. */
export interface BusPoint {
  /** Negative where the battery cannot give the power at all. */
  busVoltage: number;
  power: number;
  duty: number;
}

/**
 * Bus side of all motors: P = d Vb I + switching + stand-by per motor, and Vb = (Voc + sqrt(Voc^2 - 4 Rb P)) / 2.
 * The controller's losses depend weakly on the bus voltage, so that a few substitutions settle both.
 */
export function loadBus(conditions: DriveConditions, point: Point, bus: BusPoint): void {
  const { drive, busVoltage, batteryResistance = 0 } = conditions;
  const { controller, count } = drive;
  const { current, voltage } = point;
  let supply = busVoltage;
  for (let iteration = 0; iteration < 30; iteration++) {
    const mean = meanInputVoltage(controller, voltage, current, supply);
    // The switches alone would take more than the bus has.
    if (!(mean > 0 || voltage <= 0)) {
      bus.busVoltage = -1;
      return;
    }
    bus.power = mean * current + switchingLoss(controller, current, supply) + controller.standbyPower;
    bus.duty = mean / supply;
    bus.busVoltage = supply;
    if (batteryResistance === 0) return;
    const square = busVoltage * busVoltage - 4 * batteryResistance * count * bus.power;
    // Losses shrink as the bus sags: only a power that is too much at half the voltage is too much.
    if (square < 0 && supply <= busVoltage / 2) break;
    const next = (busVoltage + Math.sqrt(Math.max(square, 0))) / 2;
    if (Math.abs(next - supply) < 1e-12 * busVoltage) return;
    supply = next;
  }
  bus.busVoltage = -1;
}

/** Full account of a drive at a propeller speed. */
export function accountFor(conditions: DriveConditions, rotationRate: number, point: Point, bus: BusPoint): DriveState {
  const { drive, airspeed, air, batteryResistance = 0 } = conditions;
  const { count, controller } = drive;
  const { model } = drive.propeller;
  const thrust = count * point.loads.thrust;
  const shaftPower = count * point.loads.torque * rotationRate;
  const motorOutput = count * point.motorTorque * point.motorRate;
  const motorInput = count * point.current * point.voltage;
  const electricPower = count * bus.power;
  const controllerLoss =
    count *
    (controller.standbyPower +
      conductionLoss(controller, point.current, bus.duty) +
      switchingLoss(controller, point.current, bus.busVoltage));
  const useful = thrust * airspeed;
  const batteryCurrent = electricPower / bus.busVoltage;
  const share = (output: number, input: number) => (output > 0 && input > 0 ? output / input : 0);
  return {
    thrust,
    electricPower,
    duty: bus.duty,
    busVoltage: bus.busVoltage,
    batteryCurrent,
    motorCurrent: point.current,
    motorVoltage: point.voltage,
    rotationRate,
    motorRotationRate: point.motorRate,
    shaftPower,
    propellerEfficiency: share(useful, shaftPower),
    gearEfficiency: share(shaftPower, motorOutput),
    motorEfficiency: share(motorOutput, motorInput),
    controllerEfficiency: share(motorInput, electricPower),
    efficiency: share(useful, electricPower),
    losses: {
      propeller: shaftPower - useful,
      gear: motorOutput - shaftPower,
      motor: motorInput - motorOutput,
      controller: controllerLoss,
      battery: batteryResistance * batteryCurrent * batteryCurrent,
    },
    advanceRatio: rotationRate > 0 ? (2 * Math.PI * airspeed) / (rotationRate * model.diameter) : 0,
    tipMach: Math.hypot(airspeed, (rotationRate * model.diameter) / 2) / air.soundSpeed,
    reynolds: propellerReynolds(model, airspeed, rotationRate, air.dynamicViscosity / air.density),
  };
}
