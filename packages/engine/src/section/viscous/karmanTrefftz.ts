/**
 * Section by conformal mapping of a circle, for which the potential flow is known exactly: what the panels are measured by.
 * Source: T. von Karman, E. Trefftz, Potentialströmung um gegebene Tragflächenquerschnitte, Z. Flugtechnik Motorluftschiffahrt 9, 1918.
 */
export interface MappedSection {
  /** Points from the trailing edge over the upper surface to the trailing edge, chord 1, nose at x = 0. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Pressure coefficients there; 0 at both ends, which are the trailing edge. */
  readonly pressure: Float64Array;
  readonly lift: number;
}

type Complex = readonly [number, number];
const over = ([a, b]: Complex, [c, d]: Complex): Complex => {
  const square = c * c + d * d;
  return [(a * c + b * d) / square, (b * c - a * d) / square];
};
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const power = ([a, b]: Complex, n: number): Complex => {
  const size = Math.hypot(a, b) ** n;
  const angle = n * Math.atan2(b, a);
  return [size * Math.cos(angle), size * Math.sin(angle)];
};

/** Point of the plane of the section and derivative of the mapping. */
function mapped(zeta: Complex, n: number): { readonly z: Complex; readonly slope: Complex } {
  const inverse = over([1, 0], zeta);
  const plus = power([1 + inverse[0], inverse[1]], n);
  const minus = power([1 - inverse[0], -inverse[1]], n);
  const difference: Complex = [plus[0] - minus[0], plus[1] - minus[1]];
  const z = over([n * (plus[0] + minus[0]), n * (plus[1] + minus[1])], difference);
  const square = times(zeta, zeta);
  const first = over([4 * n * n, 0], [square[0] - 1, square[1]]);
  return { z, slope: times(first, over(times(plus, minus), times(difference, difference))) };
}

/**
 * thickness - shift of the circle's centre forward; camber - upward; tailAngle - of the trailing edge [rad]; alpha - incidence [rad];
 * panels - points are even in the angle about the circle's centre
 */
export function karmanTrefftz(input: {
  readonly thickness: number;
  readonly camber: number;
  readonly tailAngle: number;
  readonly alpha: number;
  readonly panels: number;
}): MappedSection {
  const { thickness, camber, alpha, panels } = input;
  const radius = Math.hypot(1 + thickness, camber);
  const beta = Math.asin(camber / radius);
  const n = 2 - input.tailAngle / Math.PI;
  const x = new Float64Array(panels + 1);
  const y = new Float64Array(panels + 1);
  const pressure = new Float64Array(panels + 1);
  const circulation = 2 * radius * Math.sin(alpha + beta);
  for (let i = 0; i <= panels; i++) {
    const angle = (2 * Math.PI * i) / panels - beta;
    const arm: Complex = [radius * Math.cos(angle), radius * Math.sin(angle)];
    const edge = i === 0 || i === panels;
    const { z, slope } = edge
      ? { z: [n, 0] as Complex, slope: [1, 0] as Complex }
      : mapped([arm[0] - thickness, arm[1] + camber], n);
    x[i] = z[0];
    y[i] = z[1];
    const doublet = over([radius * radius * Math.cos(alpha), radius * radius * Math.sin(alpha)], times(arm, arm));
    const vortex = over([0, circulation], arm);
    const w: Complex = [Math.cos(alpha) - doublet[0] + vortex[0], -Math.sin(alpha) - doublet[1] + vortex[1]];
    const speed = over(w, slope);
    pressure[i] = edge ? 0 : 1 - speed[0] ** 2 - speed[1] ** 2;
  }
  const front = Math.min(...x);
  const chord = n - front;
  return {
    x: x.map((value) => (value - front) / chord),
    y: y.map((value) => value / chord),
    pressure,
    lift: (8 * Math.PI * radius * Math.sin(alpha + beta)) / chord,
  };
}
