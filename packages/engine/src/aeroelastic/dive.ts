import { standardGravity as gravity } from '../air/index.js';

/** What decides how an aircraft speeds up nose down. */
export interface DiveAircraft {
  readonly mass: number;
  readonly area: number;
  readonly density: number;
  /** Drag coefficient without lift, and its growth with the square of the lift coefficient. */
  readonly zeroLiftDrag: number;
  readonly inducedFactor: number;
}

/** Time and height from a speed to a higher one. */
export interface Dive {
  /** [s] */
  readonly time: number;
  /** [m] */
  readonly height: number;
}

/**
 * Time and height that an aircraft without thrust needs from one airspeed to another on a straight path down.
 * angle - of the path below the horizon [rad]
 * Returns undefined where drag holds it below the higher speed.
 * Equation: m dV/dt = m g sin(angle) - q S (CD0 + k CL^2), CL = m g cos(angle) / (q S), integrated in equal steps of speed.
 */
export function diveTo(aircraft: DiveAircraft, from: number, to: number, angle: number): Dive | undefined {
  const { mass, area, density, zeroLiftDrag, inducedFactor } = aircraft;
  const steps = 400;
  let [time, height] = [0, 0];
  for (let i = 0; i < steps; i++) {
    const airspeed = from + ((i + 0.5) * (to - from)) / steps;
    const pressure = (density / 2) * airspeed * airspeed;
    const lift = (mass * gravity * Math.cos(angle)) / (pressure * area);
    const drag = pressure * area * (zeroLiftDrag + inducedFactor * lift * lift);
    const acceleration = gravity * Math.sin(angle) - drag / mass;
    if (!(acceleration > 1e-6)) return undefined;
    const step = (to - from) / steps / acceleration;
    time += step;
    height += step * airspeed * Math.sin(angle);
  }
  return { time, height };
}

/**
 * Airspeed at which an aircraft without thrust stops getting faster on a straight path down [m/s].
 * angle - of the path below the horizon [rad]
 * Returns undefined where drag always exceeds the weight along the path.
 * Equation: m g sin(angle) = q S CD0 + k (m g cos(angle))^2 / (q S); the larger of both roots, which is the steady one.
 */
export function steadyDiveSpeed(aircraft: DiveAircraft, angle: number): number | undefined {
  const { mass, area, density, zeroLiftDrag, inducedFactor } = aircraft;
  const [along, across] = [mass * gravity * Math.sin(angle), mass * gravity * Math.cos(angle)];
  const root = along * along - 4 * zeroLiftDrag * inducedFactor * across * across;
  if (!(root >= 0 && along > 0 && zeroLiftDrag > 0)) return undefined;
  const load = (along + Math.sqrt(root)) / (2 * zeroLiftDrag);
  return Math.sqrt((2 * load) / (density * area));
}
