import type { Air } from '../air/index.js';
import type { Warning } from '../result.js';

export { standardGravity } from '../air/index.js';

/** A point of the aircraft in the frame of geometry and masses: x aft of the datum, z up [m]. */
export interface BodyPoint {
  readonly x: number;
  readonly z: number;
}

/**
 * State at which forces are asked for.
 * alpha - angle of attack of the body axis [rad], nose up positive; control - deflection of the pitch control [rad],
 * trailing edge down positive; pitchRate [rad/s], nose up positive; airspeed [m/s], true.
 */
export interface AirframeState {
  readonly alpha: number;
  readonly control: number;
  readonly pitchRate: number;
  readonly airspeed: number;
  readonly air: Air;
  /** Moments are about this point. */
  readonly momentReference: BodyPoint;
}

/** Dimensionless forces on the reference area and chord; pitching moment nose up positive. */
export interface AirframeForces {
  readonly liftCoefficient: number;
  readonly inducedDragCoefficient: number;
  readonly profileDragCoefficient: number;
  readonly parasiteDragCoefficient: number;
  readonly pitchingMomentCoefficient: number;
  /** Least distance of any strip from its section's maximum lift, in units of lift coefficient; negative when stalled. */
  readonly stallMargin: number;
  /** Where that strip is, as a fraction of the semi-span. */
  readonly stallStation: number;
}

/** What flight needs to know of an airframe: reference sizes and its forces at a state. */
export interface Airframe {
  readonly referenceArea: number;
  readonly referenceChord: number;
  readonly span: number;
  /** Deflections of the pitch control that it can reach [rad], or undefined where there is none. */
  readonly controlRange: { readonly lower: number; readonly upper: number } | undefined;
  readonly forces: (state: AirframeState) => AirframeForces;
}

/** Where the thrust acts, and its angle above the body axis [rad]. */
export interface ThrustLine {
  readonly z: number;
  readonly angle: number;
}

/** What is flown: masses, thrust line, air and bank. */
export interface FlightCondition {
  readonly mass: number;
  readonly centreOfGravity: BodyPoint;
  readonly thrustLine: ThrustLine;
  readonly air: Air;
  /** Bank of the steady level turn [rad]; zero for straight flight. */
  readonly bank: number;
}

/** A trimmed steady state. */
export interface Trim {
  readonly airspeed: number;
  readonly alpha: number;
  readonly control: number;
  readonly forces: AirframeForces;
  /** Thrust along its line that balances drag [N]. */
  readonly thrust: number;
  /** Drag [N] and its parts. */
  readonly drag: number;
  readonly inducedDrag: number;
  readonly profileDrag: number;
  readonly parasiteDrag: number;
  readonly loadFactor: number;
  readonly warnings: readonly Warning[];
}
