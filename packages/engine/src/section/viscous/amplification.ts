/**
 * Growth of the most amplified disturbance of a laminar layer, as envelope over all frequencies of similar profiles.
 * Source: M. Drela, M. Giles, AIAA J. 25(10), 1987 (fits to Falkner-Skan profiles); method: J. van Ingen, Delft report VTH-74, 1956;
 * A. Smith, N. Gamberoni, Douglas report ES 26388, 1956.
 */

/** Growth of the logarithm of amplitude for each unit of Reynolds number on momentum thickness. h - shape factor [-] */
export function amplificationSlope(h: number): number {
  const part = 2.4 * h - 3.7 + 2.5 * Math.tanh(1.5 * h - 4.65);
  return 0.01 * Math.sqrt(part * part + 0.25);
}

/** Natural logarithm of the Reynolds number on momentum thickness at which disturbances begin to grow. */
export function criticalLogReynolds(h: number): number {
  const k = 1 / (h - 1);
  return Math.LN10 * ((1.415 * k - 0.489) * Math.tanh(20 * k - 12.9) + 3.295 * k + 0.44);
}

/** Growth of the Reynolds number of a similar layer along its way, times momentum thickness. */
export function similarGrowth(h: number): number {
  const l = (6.54 * h - 14.07) / (h * h);
  // (m + 1) / 2 times l, with m l = 0.058 (H - 4)^2 / (H - 1) - 0.068.
  return 0.5 * ((0.058 * (h - 4) * (h - 4)) / (h - 1) - 0.068 + l);
}

/** Half width, in logarithm of Reynolds number, over which growth sets in: keeps the rate smooth. */
const ONSET = 0.12;

/**
 * Rate of growth of the logarithm of amplitude along the surface.
 * h - shape factor [-]; theta - momentum thickness [same length as the result's inverse]; logReynolds - of the momentum thickness [-]
 */
export function amplificationRate(h: number, theta: number, logReynolds: number): number {
  const held = Math.min(20, Math.max(2.05, h));
  const over = (logReynolds - criticalLogReynolds(held)) / ONSET;
  if (over <= -1) return 0;
  const t = Math.min(1, 0.5 * (over + 1));
  const share = t * t * (3 - 2 * t);
  return (share * amplificationSlope(held) * Math.max(0, similarGrowth(held))) / theta;
}

/**
 * Amplification at which a layer becomes turbulent in a free stream of a given turbulence.
 * turbulence - root mean square of the velocity fluctuation / mean speed [-], 0.0003 to 0.03; held at the ends
 * Source: L. Mack, Transition and laminar instability, JPL publication 77-15, 1977: N = -8.43 - 2.4 ln Tu.
 */
export const criticalAmplification = (turbulence: number): number =>
  -8.43 - 2.4 * Math.log(Math.min(0.03, Math.max(0.0003, turbulence)));
