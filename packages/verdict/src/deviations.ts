/**
 * Deviations of one sample from the central case; neutral values are 1 for factors and 0 for additions.
 * They enter at the stage that they concern.
 */
export interface Deviations {
  /** Added to the mass [kg]. */
  readonly mass: number;
  readonly profileDrag: number;
  /** On the profile drag, by what boundary layers feel of the air. */
  readonly turbulence: number;
  readonly inducedDrag: number;
  readonly parasiteDrag: number;
  /** On the torque of the propeller at its thrust. */
  readonly propellerPower: number;
  readonly motorResistance: number;
  readonly motorNoLoad: number;
  /** On the electric power of level flight as a whole. */
  readonly levelPower: number;
  /** Added to the midday factor for air and control. */
  readonly airFactor: number;
  readonly loads: number;
  /** Added to the Linke turbidity. */
  readonly turbidity: number;
  /** On the light, for the error of clear-sky and plane models. */
  readonly light: number;
  readonly cellPower: number;
  readonly cover: number;
  /** Added to the cell temperature [K]. */
  readonly cellTemperature: number;
  readonly converter: number;
  readonly capacity: number;
  readonly batteryResistance: number;
  /** Added to the state of charge at launch. */
  readonly chargeAtLaunch: number;
}

export type DeviationKey = keyof Deviations;

export const noDeviation: Deviations = {
  mass: 0,
  profileDrag: 1,
  turbulence: 1,
  inducedDrag: 1,
  parasiteDrag: 1,
  propellerPower: 1,
  motorResistance: 1,
  motorNoLoad: 1,
  levelPower: 1,
  airFactor: 0,
  loads: 1,
  turbidity: 0,
  light: 1,
  cellPower: 1,
  cover: 1,
  cellTemperature: 0,
  converter: 1,
  capacity: 1,
  batteryResistance: 1,
  chargeAtLaunch: 0,
};
