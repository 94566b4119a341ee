/** Speed controller (ESC) as two conducting switches that average the bus voltage. */
export interface SpeedController {
  /** Resistance of one switch [ohm]; two conduct in series. */
  readonly switchResistance: number;
  /** Whether the free-wheeling path is switched on (synchronous rectification) instead of left to a diode. */
  readonly synchronous: boolean;
  /** Forward voltage of the diode [V]. */
  readonly diodeVoltage: number;
  /** Sum of rise and fall time of a switch [s]. */
  readonly switchingTime: number;
  /** [Hz] */
  readonly switchingFrequency: number;
  /** Stand-by power, receiver supply not included [W]. */
  readonly standbyPower: number;
  /** Highest current that the maker allows [A]; absent where unknown. */
  readonly maximumCurrent?: number;
}

/** A mid-size controller of the common kind, without synchronous rectification. Common practice. */
export const genericSpeedController: SpeedController = {
  switchResistance: 0.003,
  synchronous: false,
  diodeVoltage: 0.7,
  switchingTime: 200e-9,
  switchingFrequency: 16e3,
  standbyPower: 0.3,
};

/**
 * Loss of a speed controller [W]: stand-by + conduction + free-wheeling + switching.
 *
 * Synchronous: 2 R I^2. Otherwise 2 R I^2 d + (R I^2 + Vf I)(1 - d). Switching: 0.5 V I t f.
 *
 * @param controller - speed controller
 * @param state.busVoltage - voltage at its input [V]
 * @param state.motorCurrent - [A]
 * @param state.duty - 0 to 1
 *
 * Source: half-bridge analysis of any power-electronics textbook (from memory).
 */
export function speedControllerLoss(
  controller: SpeedController,
  state: { readonly busVoltage: number; readonly motorCurrent: number; readonly duty: number },
): number {
  const { busVoltage, motorCurrent, duty } = state;
  return (
    controller.standbyPower +
    conductionLoss(controller, motorCurrent, duty) +
    switchingLoss(controller, motorCurrent, busVoltage)
  );
}

export function conductionLoss(controller: SpeedController, current: number, duty: number): number {
  const ohmic = controller.switchResistance * current * current;
  if (controller.synchronous) return 2 * ohmic;
  return 2 * ohmic * duty + (ohmic + controller.diodeVoltage * current) * (1 - duty);
}

export const switchingLoss = (controller: SpeedController, current: number, busVoltage: number): number =>
  0.5 * busVoltage * current * controller.switchingTime * controller.switchingFrequency;

/**
 * Mean input voltage d V_bus that gives a motor voltage through the conducting path [V]; the duty is this over the bus voltage.
 *
 * Synchronous: Vm + 2 R I. Otherwise, from Vm = d Vb - 2 R I d - (R I + Vf)(1 - d): (Vm + R I + Vf) Vb / (Vb - R I + Vf).
 */
export function meanInputVoltage(
  controller: SpeedController,
  motorVoltage: number,
  current: number,
  busVoltage: number,
): number {
  const drop = controller.switchResistance * current;
  if (controller.synchronous) return motorVoltage + 2 * drop;
  const { diodeVoltage } = controller;
  return ((motorVoltage + drop + diodeVoltage) * busVoltage) / (busVoltage - drop + diodeVoltage);
}

/**
 * Throttle position from a servo pulse, u = (t - tmin) / (tmax - tmin) within 0 to 1. End points differ between transmitters.
 *
 * @param pulse.width, pulse.shortest, pulse.longest - [s]
 */
export function throttleFromPulse(pulse: {
  readonly width: number;
  readonly shortest: number;
  readonly longest: number;
}): number {
  if (!(pulse.longest > pulse.shortest)) throw new RangeError('the longest pulse must exceed the shortest');
  return Math.min(Math.max((pulse.width - pulse.shortest) / (pulse.longest - pulse.shortest), 0), 1);
}
