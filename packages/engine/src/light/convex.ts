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

/**
 * Convex hull by the monotone chain.
 * @param points - x, y pairs; they are sorted in place
 * @returns counter-clockwise; fewer than three points where all lie in line
 * Source: Andrew, Information Processing Letters 9, 1979.
 */
export function convexHull(points: number[][]): Polygon {
  if (points.length < 3) return [];
  points.sort((a, b) => a[0]! - b[0]! || a[1]! - b[1]!);
  const hull: number[] = [];
  const turnsLeft = (x: number, y: number): boolean => {
    const n = hull.length;
    const ax = hull[n - 4]!;
    const ay = hull[n - 3]!;
    return (hull[n - 2]! - ax) * (y - ay) - (hull[n - 1]! - ay) * (x - ax) > straight;
  };
  for (const [x, y] of points) {
    while (hull.length >= 4 && !turnsLeft(x!, y!)) hull.length -= 2;
    hull.push(x!, y!);
  }
  const lower = hull.length + 2;
  for (let i = points.length - 2; i >= 0; i--) {
    const [x, y] = points[i]!;
    while (hull.length >= lower && !turnsLeft(x!, y!)) hull.length -= 2;
    hull.push(x!, y!);
  }
  hull.length -= 2;
  return hull.length < 6 ? [] : hull;
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
