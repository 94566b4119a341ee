/** Polygons in a plane as flat lists x0, y0, x1, y1 ...; convex and counter-clockwise. */
export type Polygon = readonly number[];

/** Area [squared unit of the points]; positive counter-clockwise. */
export function polygonArea(polygon: Polygon): number {
  let twice = 0;
  const count = polygon.length;
  for (let i = 0, j = count - 2; i < count; j = i, i += 2) {
    twice += polygon[j]! * polygon[i + 1]! - polygon[i]! * polygon[j + 1]!;
  }
  return twice / 2;
}

/** Below this twice-area a turn counts as straight, so that shadows a micrometre wide make no slivers [m2]. */
const straight = 1e-14;

/** Sorts points by x, then y, in place: they are few, and mostly in order already where a light moved a little. */
function sortPoints(points: number[]): void {
  for (let i = 2; i < points.length; i += 2) {
    const x = points[i]!;
    const y = points[i + 1]!;
    let j = i - 2;
    for (; j >= 0 && (points[j]! > x || (points[j] === x && points[j + 1]! > y)); j -= 2) {
      points[j + 2] = points[j]!;
      points[j + 3] = points[j + 1]!;
    }
    points[j + 2] = x;
    points[j + 3] = y;
  }
}

/** Length of a chain after points that the turn to the next one leaves out are taken off its end; `least` stay. */
function keptLength(chain: readonly number[], length: number, least: number, x: number, y: number): number {
  let n = length;
  for (; n >= least; n -= 2) {
    const ax = chain[n - 4]!;
    const ay = chain[n - 3]!;
    if ((chain[n - 2]! - ax) * (y - ay) - (chain[n - 1]! - ay) * (x - ax) > straight) break;
  }
  return n;
}

/**
 * Convex hull by the monotone chain.
 * @param points - x0, y0, x1, y1 ...; they are sorted in place
 * @returns counter-clockwise; empty where all lie in line
 * Source: Andrew, Information Processing Letters 9, 1979.
 */
export function convexHull(points: number[]): Polygon {
  const count = points.length;
  if (count < 6) return [];
  sortPoints(points);
  const hull: number[] = [];
  let n = 0;
  const push = (i: number, least: number) => {
    const x = points[i]!;
    const y = points[i + 1]!;
    n = keptLength(hull, n, least, x, y);
    hull[n] = x;
    hull[n + 1] = y;
    n += 2;
  };
  for (let i = 0; i < count; i += 2) push(i, 4);
  const lower = n + 2;
  for (let i = count - 4; i >= 0; i -= 2) push(i, lower);
  n -= 2;
  if (n < 6) return [];
  hull.length = n;
  return hull;
}

/**
 * Part of a convex polygon on the left of the directed line from a to b, and on its right.
 * @returns [left, right]; empty where nothing is left
 */
function split(polygon: Polygon, ax: number, ay: number, bx: number, by: number): [Polygon, Polygon] {
  const left: number[] = [];
  const right: number[] = [];
  const [dx, dy] = [bx - ax, by - ay];
  const count = polygon.length;
  let px = polygon[count - 2]!;
  let py = polygon[count - 1]!;
  let before = dx * (py - ay) - dy * (px - ax);
  for (let i = 0; i < count; i += 2) {
    const [x, y] = [polygon[i]!, polygon[i + 1]!];
    const here = dx * (y - ay) - dy * (x - ax);
    if ((before > 0 && here < 0) || (before < 0 && here > 0)) {
      const share = before / (before - here);
      const [cx, cy] = [px + share * (x - px), py + share * (y - py)];
      left.push(cx, cy);
      right.push(cx, cy);
    }
    if (here >= 0) left.push(x, y);
    if (here <= 0) right.push(x, y);
    [px, py, before] = [x, y, here];
  }
  return [left.length >= 6 ? left : [], right.length >= 6 ? right : []];
}

/** Common part of two convex polygons; empty where they do not meet. */
export function intersection(polygon: Polygon, clip: Polygon): Polygon {
  let rest = polygon;
  const count = clip.length;
  for (let i = 0, j = count - 2; i < count && rest.length > 0; j = i, i += 2) {
    rest = split(rest, clip[j]!, clip[j + 1]!, clip[i]!, clip[i + 1]!)[0];
  }
  return rest;
}

/**
 * What is left of a convex polygon outside another: disjoint convex pieces, so that taking away one shadow after the other
 * leaves exactly what no shadow covers.
 * @returns pieces; the polygon itself where the two do not meet
 */
export function difference(polygon: Polygon, hole: Polygon): readonly Polygon[] {
  const pieces: Polygon[] = [];
  let rest = polygon;
  const count = hole.length;
  for (let i = 0, j = count - 2; i < count; j = i, i += 2) {
    const [inside, outside] = split(rest, hole[j]!, hole[j + 1]!, hole[i]!, hole[i + 1]!);
    if (outside.length > 0 && polygonArea(outside) > straight) pieces.push(outside);
    if (inside.length === 0) return [polygon];
    rest = inside;
  }
  return polygonArea(rest) > straight ? pieces : [polygon];
}
