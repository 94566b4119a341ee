import type { ThinAirfoil } from './types.js';

/**
 * Thin-airfoil results of a mean line given by points, straight between them (the integrals are then exact).
 *
 * x = (1 - cos(theta))/2; An = (2/pi) integral z' cos(n theta); zero-lift angle = (1/pi) integral z' (1 - cos(theta));
 * quarter-chord moment = (pi/4)(A2 - A1); ideal angle = (1/pi) integral z'; ideal lift = pi A1.
 *
 * stations - chord stations, increasing from 0 to 1 [-]
 * camber - ordinates of the mean line [-]
 * Returns angles in radians, nose up positive. Valid for thin sections of small camber in attached inviscid flow.
 * Source: H. Glauert, The Elements of Aerofoil and Airscrew Theory, 1926, chapter VII.
 */
export function thinAirfoil(stations: readonly number[], camber: readonly number[]): ThinAirfoil {
  let mean = 0;
  let first = 0;
  let second = 0;
  const theta = (x: number) => Math.acos(Math.min(1, Math.max(-1, 1 - 2 * x)));
  for (let i = 1; i < stations.length; i++) {
    const width = stations[i] - stations[i - 1];
    if (width <= 0) continue;
    const slope = (camber[i] - camber[i - 1]) / width;
    const a = theta(stations[i - 1]);
    const b = theta(stations[i]);
    mean += slope * (b - a);
    first += slope * (Math.sin(b) - Math.sin(a));
    second += slope * 0.5 * (Math.sin(2 * b) - Math.sin(2 * a));
  }
  const a1 = (2 / Math.PI) * first;
  const a2 = (2 / Math.PI) * second;
  return {
    zeroLiftAngle: (mean - first) / Math.PI,
    moment: (Math.PI / 4) * (a2 - a1),
    idealAngle: mean / Math.PI,
    idealLift: Math.PI * a1,
    a1,
    a2,
  };
}
