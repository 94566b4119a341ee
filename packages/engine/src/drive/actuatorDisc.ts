/**
 * Ideal actuator disc: the least power that any propeller of that diameter needs, and its induced velocity.
 *
 * @param operation.thrust - thrust, positive [N]
 * @param operation.airspeed - axial airspeed, zero or positive [m/s]
 * @param operation.diameter - diameter [m]
 * @param operation.density - density of the air [kg/m3]
 * @returns induced velocity at the disc [m/s], ideal power [W], ideal efficiency [-] (0 at rest), thrust loading Tc (Infinity never: 0 at rest)
 *
 * Source: first principles (Rankine, Froude): v_i = V/2 (-1 + sqrt(1 + Tc)), Tc = T / (rho V^2 A / 2); at rest v_i = sqrt(T / 2 rho A).
 */
export function actuatorDisc(operation: {
  readonly thrust: number;
  readonly airspeed: number;
  readonly diameter: number;
  readonly density: number;
}): { readonly inducedVelocity: number; readonly power: number; readonly efficiency: number } {
  const { thrust, airspeed, diameter, density } = operation;
  if (!(thrust >= 0 && airspeed >= 0 && diameter > 0 && density > 0))
    throw new RangeError('thrust and airspeed must not be negative, diameter and density must be positive');
  const area = (Math.PI * diameter * diameter) / 4;
  const half = airspeed / 2;
  const inducedVelocity = -half + Math.sqrt(half * half + thrust / (2 * density * area));
  const total = airspeed + inducedVelocity;
  return { inducedVelocity, power: thrust * total, efficiency: total > 0 ? airspeed / total : 0 };
}

/** Thrust, power and speed in the usual coefficients of propellers. */
export interface PropellerCoefficients {
  /** J = V / (n D) */
  readonly advanceRatio: number;
  /** CT = T / (rho n^2 D^4) */
  readonly thrustCoefficient: number;
  /** CP = P / (rho n^3 D^5) */
  readonly powerCoefficient: number;
  /** J CT / CP where thrust and power are positive, else 0. */
  readonly efficiency: number;
  /** Static figure of merit CT^1.5 sqrt(2/pi) / CP where both are positive, else 0. */
  readonly figureOfMerit: number;
}

/**
 * Coefficients of a running propeller, n in revolutions per second.
 *
 * @param operation.thrust - thrust [N]
 * @param operation.power - shaft power [W]
 * @param operation.airspeed - airspeed [m/s]
 * @param operation.rotationRate - rotation, positive [rad/s]
 * @param operation.diameter - diameter [m]
 * @param operation.density - density [kg/m3]
 *
 * Source: common definitions, as J. B. Brandt and M. S. Selig, Propeller performance data at low Reynolds numbers, AIAA 2011-1255.
 */
export function propellerCoefficients(operation: {
  readonly thrust: number;
  readonly power: number;
  readonly airspeed: number;
  readonly rotationRate: number;
  readonly diameter: number;
  readonly density: number;
}): PropellerCoefficients {
  const { thrust, power, airspeed, rotationRate, diameter, density } = operation;
  if (!(rotationRate > 0 && diameter > 0 && density > 0))
    throw new RangeError('rotation rate, diameter and density must be positive');
  const n = rotationRate / (2 * Math.PI);
  const advanceRatio = airspeed / (n * diameter);
  const thrustCoefficient = thrust / (density * n ** 2 * diameter ** 4);
  const powerCoefficient = power / (density * n ** 3 * diameter ** 5);
  const driving = thrust > 0 && power > 0;
  return {
    advanceRatio,
    thrustCoefficient,
    powerCoefficient,
    efficiency: driving ? (advanceRatio * thrustCoefficient) / powerCoefficient : 0,
    figureOfMerit: driving ? (thrustCoefficient ** 1.5 * Math.sqrt(2 / Math.PI)) / powerCoefficient : 0,
  };
}
