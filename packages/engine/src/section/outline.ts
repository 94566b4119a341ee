/** Signed area of a closed outline: positive where it runs trailing edge, upper surface, leading edge, lower surface. */
export function signedArea(x: readonly number[], y: readonly number[]): number {
  let sum = 0;
  for (let i = 0, j = x.length - 1; i < x.length; j = i++) sum += x[j] * y[i] - x[i] * y[j];
  return sum / 2;
}

/** Index of the outline point at the leading edge. */
export function leadingEdgeIndex(x: readonly number[], y: readonly number[]): number {
  const tailX = (x[0] + x[x.length - 1]) / 2;
  const tailY = (y[0] + y[y.length - 1]) / 2;
  let best = 0;
  let far = -1;
  for (let i = 0; i < x.length; i++) {
    const distance = Math.hypot(x[i] - tailX, y[i] - tailY);
    if (distance > far + 1e-12) {
      far = distance;
      best = i;
    }
  }
  return best;
}

/** Place of the nose on an outline: coordinates, and before which point it belongs where no point lies on it. */
interface Nose {
  readonly x: number;
  readonly y: number;
  /** Index of the point at the nose, or of the point before which the nose is to be put in. */
  readonly at: number;
  readonly isMissing: boolean;
}

/** A point this near to the nose counts as the nose [chord]. */
const onNose = 1e-4;

/** Points of an outline as seen from its tail: distance, and angle from the line to the point farthest away. */
function fromTail(x: readonly number[], y: readonly number[], farthest: number) {
  const tailX = (x[0] + x[x.length - 1]) / 2;
  const tailY = (y[0] + y[y.length - 1]) / 2;
  const [dx, dy] = [x[farthest] - tailX, y[farthest] - tailY];
  const chord = Math.hypot(dx, dy);
  const seen = (i: number) => {
    const [px, py] = [x[i] - tailX, y[i] - tailY];
    return { angle: Math.atan2(dx * py - dy * px, dx * px + dy * py), distance: Math.hypot(px, py) / chord };
  };
  const place = (angle: number, distance: number) => ({
    x: tailX + distance * (dx * Math.cos(angle) - dy * Math.sin(angle)),
    y: tailY + distance * (dx * Math.sin(angle) + dy * Math.cos(angle)),
  });
  return { seen, place };
}

/**
 * Nose of an outline. Near a round nose the distance from the tail is a parabola over the direction (its radius of curvature is
 * half the parabola's parameter), so that its top is found between the points of a list that passes the nose without a point on it.
 * The next points on each surface must lie on the same parabola, the distances from its top within a factor of three (measured
 * points differ by two): behind the corner of a plate they lie ten times farther away, and the farthest point is the nose.
 */
function noseOf(x: readonly number[], y: readonly number[]): Nose {
  const farthest = leadingEdgeIndex(x, y);
  const given = { x: x[farthest], y: y[farthest], at: farthest, isMissing: false };
  if (farthest < 1 || farthest > x.length - 2) return given;
  const { seen, place } = fromTail(x, y, farthest);
  // Measured points may run back a little at the nose: only those that lead on are used.
  const onward = (from: number, step: 1 | -1, beyond: number) => {
    for (let i = from + step; i >= 0 && i < x.length; i += step) {
      if (Math.abs(seen(i).angle) > Math.abs(beyond) + 1e-5) return i;
    }
    return undefined;
  };
  const [before, after] = [onward(farthest, -1, 0), onward(farthest, 1, 0)];
  if (before === undefined || after === undefined) return given;
  const [a, b] = [seen(before), seen(after)];
  if (!(a.angle * b.angle < 0)) return given;
  const slopeA = (a.distance - 1) / a.angle;
  const bend = ((b.distance - 1) / b.angle - slopeA) / (b.angle - a.angle);
  if (!(bend < 0)) return given;
  const angle = (a.angle - slopeA / bend) / 2;
  const distance = 1 - bend * angle * angle;
  const isRound = [onward(before, -1, a.angle), onward(after, 1, b.angle)].every((i) => {
    if (i === undefined) return false;
    const { angle: direction, distance: actual } = seen(i);
    const behind = (distance - actual) / (-bend * (direction - angle) ** 2);
    return behind > 1 / 3 && behind < 3;
  });
  if (!isRound || distance - 1 < onNose) return given;
  const isBetweenLast = angle * a.angle > 0;
  return { ...place(angle, distance), at: isBetweenLast ? farthest : farthest + 1, isMissing: true };
}

interface Outline {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

const withPoint = ({ x, y }: Outline, at: number, px: number, py: number): Outline => ({
  x: [...x.slice(0, at), px, ...x.slice(at)],
  y: [...y.slice(0, at), py, ...y.slice(at)],
});

/** A published list may pass the nose without a point on it: in its own frame that point is (0, 0). */
function withOrigin(outline: Outline): Outline {
  const { x, y } = outline;
  const after = y.findIndex((value, i) => i > 0 && x[i] < 0.02 && y[i - 1] > 0 && value < 0);
  const isPassed = after > 0 && Math.min(x[after - 1], x[after]) > 1e-6;
  return isPassed ? withPoint(outline, after, 0, 0) : outline;
}

/** How far nose and tail may lie from (0, 0) and (1, 0) in a frame that was published, with the errors of measuring [chord]. */
const frameTolerance = 5e-3;

/**
 * Outline with counter-clockwise order, leading edge at (0, 0) and trailing edge at (1, 0).
 * An outline that is already so within 0.5 %, on a chord of any length, keeps its frame, because published angles of attack refer
 * to it; any other is set on its longest chord.
 *
 * x, y - outline from trailing edge round the leading edge to trailing edge, any scale and rotation
 */
export function normaliseOutline(x: readonly number[], y: readonly number[]): Outline {
  const forward = signedArea(x, y) >= 0;
  const given: Outline = forward ? { x, y } : { x: [...x].reverse(), y: [...y].reverse() };
  const tailX = (x[0] + x[x.length - 1]) / 2;
  // A chord of nearly 1 is one of 1 whose trailing edge was measured.
  const scale = Math.abs(tailX - 1) < frameTolerance || !(tailX > 0) ? 1 : tailX;
  const outline = { x: given.x.map((value) => value / scale), y: given.y.map((value) => value / scale) };
  const nose = noseOf(outline.x, outline.y);
  if (keepsFrame(outline, nose)) return withOrigin(outline);
  return onLongestChord(nose.isMissing ? withPoint(outline, nose.at, nose.x, nose.y) : outline, nose);
}

function keepsFrame({ x, y }: Outline, nose: Nose): boolean {
  const near = (value: number, target: number) => Math.abs(value - target) < frameTolerance;
  const least = x.reduce((a, b) => Math.min(a, b), Infinity);
  const tailY = (y[0] + y[y.length - 1]) / 2;
  const isTail = near((x[0] + x[x.length - 1]) / 2, 1) && near(tailY, 0);
  return isTail && near(nose.x, 0) && near(nose.y, 0) && least > -frameTolerance;
}

function onLongestChord({ x, y }: Outline, nose: Nose): Outline {
  const dx = (x[0] + x[x.length - 1]) / 2 - nose.x;
  const dy = (y[0] + y[y.length - 1]) / 2 - nose.y;
  const square = dx * dx + dy * dy;
  return {
    x: x.map((value, i) => ((value - nose.x) * dx + (y[i] - nose.y) * dy) / square),
    y: x.map((value, i) => ((y[i] - nose.y) * dx - (value - nose.x) * dy) / square),
  };
}
