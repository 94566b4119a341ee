/**
 * One-equation laminar and entrainment layers: older methods with published numbers, beside which the two-equation layer of the solver
 * is set.
 */

/** Parameter theta^2 U' / viscosity at which Thwaites' laminar layer separates. */
const SEPARATION = -0.09;

/**
 * Distance at which a laminar layer separates by Thwaites' method, lambda = 0.45 U' / U^6 times the integral of U^5; undefined where it does not.
 * speed, slope - outer speed and its derivative along the surface; from - first distance; to - last distance; step - of the integration
 * Source: B. Thwaites, Aeronautical Quarterly 1, 1949.
 */
export function thwaitesSeparation(
  speed: (x: number) => number,
  slope: (x: number) => number,
  { from = 0, to, step = 1e-5 }: { readonly from?: number; readonly to: number; readonly step?: number },
): number | undefined {
  let integral = 0;
  let last = speed(from) ** 5;
  for (let k = 1; from + k * step <= to; k++) {
    const x = from + k * step;
    const power = speed(x) ** 5;
    integral += 0.5 * step * (last + power);
    last = power;
    if ((0.45 * slope(x) * integral) / speed(x) ** 6 <= SEPARATION) return x;
  }
  return undefined;
}

/** Momentum thickness of the flat plate by Thwaites' method, times the root of the distance Reynolds number / distance. Exact: 0.664115. */
export const THWAITES_PLATE = Math.sqrt(0.45);

/**
 * Entrainment shape factor of a turbulent layer.
 * shape - displacement / momentum thickness, 1.2 to 2.6 [-]
 * Source: M. R. Head, ARC R&M 3152, 1958; fit of T. Cebeci, P. Bradshaw, Momentum Transfer in Boundary Layers, 1977.
 */
export const entrainmentShape = (shape: number): number =>
  3.3 + (shape <= 1.6 ? 0.8234 * (shape - 1.1) ** -1.287 : 1.5501 * (shape - 0.6778) ** -3.064);

/** Shape factor of an entrainment shape factor. */
const shapeOf = (entrainment: number): number =>
  entrainment >= entrainmentShape(1.6)
    ? 1.1 + ((entrainment - 3.3) / 0.8234) ** (-1 / 1.287)
    : 0.6778 + ((entrainment - 3.3) / 1.5501) ** (-1 / 3.064);

/**
 * Friction coefficient of a turbulent layer.
 * thetaReynolds - Reynolds number on momentum thickness; shape - factor [-]
 * Source: H. Ludwieg, W. Tillmann, Ingenieur-Archiv 17, 1949.
 */
export const ludwiegTillmann = (thetaReynolds: number, shape: number): number =>
  0.246 * 10 ** (-0.678 * shape) * thetaReynolds ** -0.268;

/**
 * Turbulent plate layer by Head's entrainment, marched from distance Reynolds number 1e5 with 360 on momentum thickness and shape factor 1.45.
 * reynolds - distance Reynolds number at which it is wanted [-]
 */
export function headPlate(reynolds: number): {
  readonly friction: number;
  readonly thetaReynolds: number;
  readonly shape: number;
} {
  let [x, theta, shape] = [1e5, 360, 1.45];
  let carried = theta * entrainmentShape(shape);
  while (x < reynolds * (1 - 1e-12)) {
    const dx = Math.min(reynolds - x, 1e-3 * x);
    const entrainment = 0.0306 * (carried / theta - 3) ** -0.6169;
    theta += 0.5 * dx * ludwiegTillmann(theta, shape);
    carried += dx * entrainment;
    shape = shapeOf(carried / theta);
    x += dx;
  }
  return { friction: ludwiegTillmann(theta, shape), thetaReynolds: theta, shape };
}
