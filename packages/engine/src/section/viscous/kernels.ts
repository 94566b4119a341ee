/**
 * Influence of one straight panel on a point. In the panel's own frame X runs along it from its first node and Y to its left, which for
 * a surface panel is into the section. Strengths are per length; 1 / (2 pi) is included.
 * Source: J. Katz, A. Plotkin, Low-Speed Aerodynamics, 2nd ed. 2001, chapter 10 (linear strength vortex and constant strength source).
 */
const INVERSE = 1 / (2 * Math.PI);

const logSquare = (square: number): number => (square > 1e-30 ? Math.log(square) : 0);

/** y atan(x / y), continuous at y = 0. */
const yAngle = (x: number, y: number): number => {
  const height = Math.abs(y);
  return height * Math.atan2(x, height);
};

/**
 * Stream function of vorticity (clockwise positive) that varies from one at one end to zero at the other.
 * out[0] - of the share of the first node; out[1] - of the second
 */
export function vortexStream(along: number, across: number, length: number, out: Float64Array): void {
  const x1 = along;
  const x2 = along - length;
  const yy = across * across;
  const r1 = x1 * x1 + yy;
  const r2 = x2 * x2 + yy;
  const log1 = logSquare(r1);
  const log2 = logSquare(r2);
  const whole = 0.5 * (x1 * log1 - x2 * log2) - length + yAngle(x1, across) - yAngle(x2, across);
  const first = x1 * whole - 0.25 * (r1 * log1 - r2 * log2 - r1 + r2);
  out[1] = (INVERSE * first) / length;
  out[0] = INVERSE * whole - out[1];
}

/**
 * Stream function of a source panel on the surface. Its branch cut leaves through the fluid, so that the stream function inside the
 * section is continuous.
 */
export function surfaceSourceStream(along: number, across: number, length: number): number {
  const y = Math.abs(across) < 1e-12 ? 0 : across;
  const part = (x: number) => -x * Math.atan2(x, y) + 0.5 * y * logSquare(x * x + y * y);
  return INVERSE * (part(along) - part(along - length));
}

/** Stream function of a source panel in the wake: its branch cut runs downstream. */
export function wakeSourceStream(along: number, across: number, length: number): number {
  const part = (x: number) => x * Math.atan2(-across, -x) + 0.5 * across * logSquare(x * x + across * across);
  return INVERSE * (part(along) - part(along - length));
}

/** Angle that the panel spans as seen from the point, with the sign of Y. */
const spannedAngle = (x1: number, x2: number, y: number): number => {
  const sign = y < 0 ? -1 : 1;
  return sign * (Math.atan2(x1, sign * y) - Math.atan2(x2, sign * y));
};

/**
 * Velocity along X and Y of vorticity as in `vortexStream`.
 * out - [u of first node's share, v, u of second node's share, v]
 */
export function vortexVelocity(along: number, across: number, length: number, out: Float64Array): void {
  const x1 = along;
  const x2 = along - length;
  const yy = across * across;
  const r1 = x1 * x1 + yy;
  const r2 = x2 * x2 + yy;
  const log1 = logSquare(r1);
  const log2 = logSquare(r2);
  const logs = 0.5 * (log1 - log2);
  const angle = spannedAngle(x1, x2, across);
  const whole = 0.5 * (x1 * log1 - x2 * log2) - length + yAngle(x1, across) - yAngle(x2, across);
  const u = INVERSE * angle;
  const v = -INVERSE * logs;
  const u2 = (INVERSE * (x1 * angle - across * logs)) / length;
  const v2 = (-INVERSE * (whole + x1 * logs - 0.5 * (x1 * log1 - x2 * log2))) / length;
  out[0] = u - u2;
  out[1] = v - v2;
  out[2] = u2;
  out[3] = v2;
}

/** Velocity along X and Y of a source panel. out - [u, v] */
export function sourceVelocity(along: number, across: number, length: number, out: Float64Array): void {
  const x2 = along - length;
  const yy = across * across;
  out[0] = INVERSE * 0.5 * (logSquare(along * along + yy) - logSquare(x2 * x2 + yy));
  out[1] = INVERSE * spannedAngle(along, x2, across);
}
