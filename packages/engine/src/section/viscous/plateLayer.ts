import { amplificationSlope, criticalLogReynolds } from './amplification.js';
import { INITIAL_SHEAR, laminarDissipation, laminarEnergyShape, laminarFriction } from './closure.js';
import { intervalResidual } from './interval.js';
import { DRIVE, FRICTION, fillStation, RECORD, SHAPE, TURBULENT } from './station.js';

/**
 * Shape factor of the laminar layer of a flat plate by this closure: friction and dissipation then grow momentum and energy alike.
 * Exact (Blasius): 2.59110.
 */
export function plateShapeFactor(): number {
  let low = 2.4;
  let high = 2.8;
  for (let k = 0; k < 60; k++) {
    const h = 0.5 * (low + high);
    if (laminarFriction(h) > laminarDissipation(h)) low = h;
    else high = h;
  }
  return 0.5 * (low + high);
}

/**
 * Reynolds number on momentum thickness at which a flat plate's layer becomes turbulent.
 * critical - logarithm of amplitude [-]
 */
export function plateTransition(critical: number): number {
  const h = plateShapeFactor();
  return Math.exp(criticalLogReynolds(h)) + critical / amplificationSlope(h);
}

/** Distance Reynolds number of a momentum-thickness Reynolds number on the laminar plate. */
export const plateDistance = (thetaReynolds: number): number =>
  thetaReynolds ** 2 / (2 * laminarFriction(plateShapeFactor()));

/**
 * Laminar separation in the linearly falling speed U = 1 - x, where the direct march ends (shape factor 3.95).
 * Source of the exact value 0.1199: L. Howarth, Proc. Roy. Soc. A 164, 1938.
 */
export function howarthSeparation(): number {
  // d theta^2/dx and dH/dx, viscosity 1: theta starts as on a plate.
  let x = 1e-4;
  let h = plateShapeFactor();
  let theta = Math.sqrt(2 * laminarFriction(h) * x);
  const dx = 1e-5;
  while (h < 3.95 && x < 0.5) {
    const u = 1 - x;
    const reynolds = u * theta;
    const gradient = -theta / u;
    const dTheta = laminarFriction(h) / reynolds - (2 + h) * gradient;
    const slope = (laminarEnergyShape(h + 1e-5) - laminarEnergyShape(h - 1e-5)) / 2e-5;
    const energy = laminarEnergyShape(h);
    const dEnergy = energy * ((laminarDissipation(h) - laminarFriction(h)) / reynolds - (1 - h) * gradient);
    theta += dx * dTheta;
    h += (dx * dEnergy) / (theta * slope);
    x += dx;
  }
  return x;
}

/**
 * Turbulent plate layer marched from distance Reynolds number 1e5 with Reynolds number 360 on momentum thickness and shape factor 1.6.
 * reynolds - distance Reynolds number at which it is wanted [-]
 * Returns friction coefficient, Reynolds number on momentum thickness and shape factor.
 */
export function turbulentPlate(reynolds: number): {
  readonly friction: number;
  readonly thetaReynolds: number;
  readonly shape: number;
} {
  const a = new Float64Array(RECORD);
  const b = new Float64Array(RECORD);
  const out = new Float64Array(3);
  let [x, theta, h] = [1e5, 360, 1.6];
  fillStation(TURBULENT, theta, h * theta, 1, 0, 0, 1, a, 0);
  let root = INITIAL_SHEAR * a[DRIVE];
  const ratio = 1.01;
  while (x < reynolds * (1 - 1e-9)) {
    const next = Math.min(reynolds, x * ratio);
    fillStation(TURBULENT, theta, h * theta, 1, root, 0, 1, a, 0);
    let [t2, h2, r2] = [theta, h, root];
    for (let pass = 0; pass < 30; pass++) {
      fillStation(TURBULENT, t2, h2 * t2, 1, r2, 0, 1, b, 0);
      intervalResidual(TURBULENT, a, 0, b, 0, theta, t2, 1, 1, root, r2, x, next, out, 0);
      t2 *= Math.exp(-out[0]);
      // The energy shape factor falls as the shape factor grows.
      h2 += 0.3 * out[1];
      r2 *= Math.exp(-0.4 * out[2]);
    }
    [x, theta, h, root] = [next, t2, h2, r2];
  }
  fillStation(TURBULENT, theta, h * theta, 1, root, 0, 1, b, 0);
  return { friction: 2 * b[FRICTION] * theta, thetaReynolds: theta, shape: b[SHAPE] };
}
