import { add, cross, dot, normalise, scale, subtract, type Vec3 } from '../math/index.js';
import type { Blocker } from './blockers.js';
import { convexHull, difference, intersection, type Polygon, polygonArea } from './convex.js';
import { bodyAxes } from './surface-point.js';
import type { PlacedCell } from './types.js';

/** Parts nearer to the plane of a cell than this cast no shade on it: edges of the film, cells beside it [m]. */
const clearance = 1e-3;
/** Light nearer to the plane of a cell than this is taken as coming at this angle [-]: its shadows would be endless. */
const grazing = 0.03;

/** Axes in the plane of a cell and away from it, frame of geometry, right-handed. */
interface CellFrame {
  readonly u: Vec3;
  readonly v: Vec3;
  readonly n: Vec3;
  readonly outline: Polygon;
  readonly area: number;
  /** Greatest distance of its outline along either axis [m]. */
  readonly reach: number;
}

function cellFrame(cell: PlacedCell): CellFrame {
  const n = bodyAxes(cell.normal);
  const edge = subtract(cell.corners[1]!, cell.corners[0]!);
  const u = normalise(subtract(edge, scale(n, dot(edge, n))));
  const v = cross(n, u);
  const outline = cell.corners.flatMap((corner) => {
    const from = subtract(corner, cell.centre);
    return [dot(from, u), dot(from, v)];
  });
  return { u, v, n, outline, area: polygonArea(outline), reach: Math.max(...outline.map(Math.abs)) };
}

/** What of a blocker stands before a cell: points in the frame of the cell, and the cone of directions in which it can shade. */
interface Caster {
  readonly blocker: number;
  readonly opacity: number;
  /** u, v, height of each point [m]. */
  readonly points: readonly Vec3[];
  /** Axis of the cone in the frame of the cell. */
  readonly axis: Vec3;
  readonly cosHalfAngle: number;
}

/** A cell with everything that can shade it, solid parts first. */
export interface ShadedCell {
  readonly frame: CellFrame;
  readonly casters: readonly Caster[];
}

/** Above the plane of the cell: points above it, and where lines between points above and below go through. */
function clipped(points: readonly Vec3[]): readonly Vec3[] {
  const above = points.filter(([, , h]) => h > clearance);
  const below = points.filter(([, , h]) => h <= clearance);
  if (above.length === 0 || below.length === 0) return above;
  const crossings = above.flatMap((a) =>
    below.flatMap((b) => {
      const share = (a[2] - clearance) / (a[2] - b[2]);
      return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
    }),
  );
  const ring = convexHull(crossings);
  // Of a thin plate the cut is a line: its ends, as the hull has sorted them.
  const cut = ring.length > 0 ? ring : [...crossings.slice(0, 2), ...crossings.slice(-2)];
  const edge: Vec3[] = [];
  for (let i = 0; i < cut.length; i += 2) edge.push([cut[i]!, cut[i + 1]!, clearance]);
  return [...above, ...edge];
}

/** Cone about all directions from the cell to the points; a half angle of 90 degrees or more counts as everywhere. */
function coneOf(points: readonly Vec3[], outline: Polygon): { axis: Vec3; cosHalfAngle: number } {
  const rays: Vec3[] = [];
  for (const point of points) {
    for (let i = 0; i < outline.length; i += 2) {
      rays.push(normalise([point[0] - outline[i]!, point[1] - outline[i + 1]!, point[2]]));
    }
  }
  const axis = normalise(rays.reduce(add, [0, 0, 1e-9]));
  const least = rays.reduce((cosine, ray) => Math.min(cosine, dot(axis, ray)), 1);
  return { axis, cosHalfAngle: least > 0.05 ? least - 1e-9 : -2 };
}

const isOwnPanel = (cell: PlacedCell, { panel }: Blocker, panelOfCell: number): boolean =>
  panel !== undefined && panel.surface === cell.surface && panel.side === cell.side && panel.index === panelOfCell;

/**
 * Prepares a cell against the parts of an aircraft.
 * @param panelOfCell - panel of its own surface that it lies on, which does not shade it
 */
export function shadedCell(cell: PlacedCell, blockers: readonly Blocker[], panelOfCell: number): ShadedCell {
  const frame = cellFrame(cell);
  const casters = blockers.flatMap((blocker, index): readonly Caster[] => {
    if (isOwnPanel(cell, blocker, panelOfCell) || blocker.opacity <= 0) return [];
    const points = clipped(
      blocker.points.map((point): Vec3 => {
        const from = subtract(point, cell.centre);
        return [dot(from, frame.u), dot(from, frame.v), dot(from, frame.n)];
      }),
    );
    if (points.length === 0) return [];
    return [{ blocker: index, opacity: blocker.opacity, points, ...coneOf(points, frame.outline) }];
  });
  return { frame, casters: [...casters].sort((a, b) => b.opacity - a.opacity) };
}

/**
 * Shade on a cell from one direction: shadows of convex parts are taken from the lit pieces one after the other, so that
 * overlapping shadows count once and partial shade is exact.
 *
 * @param direction - unit vector towards the light, frame of geometry (aft, right, up)
 * @param add - called with the index of a blocker and the share of the cell's area that it takes from what was lit before it
 * @returns lit share of the cell, 0 to 1; for light from behind the cell that of grazing light
 */
export function litShare(
  { frame, casters }: ShadedCell,
  direction: Vec3,
  addShare?: (blocker: number, share: number) => void,
): number {
  const [x, y] = [dot(direction, frame.u), dot(direction, frame.v)];
  const height = Math.max(dot(direction, frame.n), grazing);
  const [slopeX, slopeY] = [x / height, y / height];
  let pieces: readonly Polygon[] = [frame.outline];
  let lit = frame.area;
  let veil = 0;
  for (const { blocker, opacity, points, axis, cosHalfAngle } of casters) {
    if (x * axis[0] + y * axis[1] + height * axis[2] < cosHalfAngle) continue;
    const shadow = shadowOn(frame, points, slopeX, slopeY);
    if (shadow === undefined) continue;
    if (opacity < 1) {
      const behind = pieces.reduce((sum, piece) => sum + areaOf(intersection(piece, shadow)), 0);
      veil += (behind / frame.area) * opacity;
      if (behind > 0) addShare?.(blocker, (behind / frame.area) * opacity);
      continue;
    }
    pieces = pieces.flatMap((piece) => difference(piece, shadow));
    const left = pieces.reduce((sum, piece) => sum + polygonArea(piece), 0);
    if (lit - left > 1e-9 * frame.area) addShare?.(blocker, (lit - left) / frame.area);
    lit = left;
    if (pieces.length === 0) return 0;
  }
  return Math.min(1, Math.max(0, lit / frame.area - veil));
}

/** Shadow of points on the plane of a cell; undefined where it passes the cell by or has no width. */
function shadowOn(frame: CellFrame, points: readonly Vec3[], slopeX: number, slopeY: number): Polygon | undefined {
  const { reach } = frame;
  let [left, right, low, high] = [Number.MAX_VALUE, -Number.MAX_VALUE, Number.MAX_VALUE, -Number.MAX_VALUE];
  for (const [u, v, h] of points) {
    const [x, y] = [u - h * slopeX, v - h * slopeY];
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < low) low = y;
    if (y > high) high = y;
  }
  if (left > reach || right < -reach || low > reach || high < -reach) return undefined;
  const thrown: number[] = [];
  for (const [u, v, h] of points) thrown.push(u - h * slopeX, v - h * slopeY);
  const shadow = convexHull(thrown);
  return shadow.length === 0 ? undefined : shadow;
}

const areaOf = (polygon: Polygon): number => (polygon.length === 0 ? 0 : polygonArea(polygon));
