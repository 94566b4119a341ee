import type { FileOutcome, WarningList } from './outcome.js';
import { readAs, refused, warningList } from './outcome.js';

/** One point of a section and where it stands: a line of a file, or a number in a list. */
export interface SectionPoint {
  readonly x: number;
  readonly y: number;
  readonly where: string;
}

/**
 * Points of a wing section as a file gives them: once round from the trailing edge over the upper surface to the leading edge
 * and back below, x aft, y up, chord about 1. Neither rotated nor shifted.
 */
export interface SectionCoordinates {
  readonly name: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly trailingEdge: 'closed' | 'open' | 'crossed';
  /** How the file orders its points. */
  readonly order: 'round from the trailing edge' | 'surface by surface';
}

interface Points {
  readonly x: number[];
  readonly y: number[];
}

/** Fewer points describe no section. */
const fewestPoints = 7;

/** More points than this are a scan or another kind of file. */
const mostPoints = 5000;

const noSection = (reason: string, where: string): FileOutcome<never> =>
  refused({
    code: 'no section',
    reason,
    where,
    remedy:
      'A section file has a title line and then pairs x y: round from the trailing edge over the upper surface, or upper then lower surface from the leading edge.',
  });

/**
 * Index of the first point of the second surface, or undefined where the points go round: between the surfaces x jumps from one
 * end of the chord to the other. The straight sides of a plate with few points do not start so near the one end and end so
 * near the other.
 */
function secondSurfaceStart(points: readonly SectionPoint[], front: number, span: number): number | undefined {
  const nearFront = (point: SectionPoint) => point.x < front + 0.05 * span;
  const nearTail = (point: SectionPoint) => point.x > front + 0.98 * span;
  const startsAhead = nearFront(points[0]!);
  for (let at = 2; at < points.length - 1; at += 1) {
    const [before, after] = [points[at - 1]!, points[at]!];
    if (startsAhead ? nearTail(before) && nearFront(after) : nearFront(before) && nearTail(after)) return at;
  }
  return undefined;
}

const pointsOf = (points: readonly SectionPoint[]): Points => ({
  x: points.map((one) => one.x),
  y: points.map((one) => one.y),
});

/** Points of two surfaces, each in either direction, as one way round from the trailing edge of the first. */
function joinSurfaces(first: readonly SectionPoint[], second: readonly SectionPoint[]): Points {
  const aft = (points: readonly SectionPoint[]) =>
    points[0]!.x <= points.at(-1)!.x ? [...points] : [...points].reverse();
  return pointsOf([...aft(first).reverse(), ...aft(second)]);
}

/** Points that go round, begun at the leading edge, to the same begun at the trailing edge. */
function startAtTrailingEdge(points: readonly SectionPoint[]): Points {
  let tail = 0;
  points.forEach((one, at) => {
    if (one.x > points[tail]!.x) tail = at;
  });
  // An open trailing edge has a point of each surface at the same x; a closed one belongs to both.
  const isOpen = points[tail + 1] !== undefined && points[tail]!.x - points[tail + 1]!.x < 1e-6;
  return joinSurfaces(points.slice(0, tail + 1), points.slice(isOpen ? tail + 1 : tail));
}

/** The file's points as one way round from the trailing edge, whatever their order. */
function goRound(
  points: readonly SectionPoint[],
  counts: SectionPoint | undefined,
  warnings: WarningList,
): FileOutcome<{ outline: Points; order: SectionCoordinates['order'] }> {
  const front = Math.min(...points.map((one) => one.x));
  const span = Math.max(...points.map((one) => one.x)) - front;
  if (!(span > 0)) return noSection('All points have the same x.', 'whole file');
  const split = secondSurfaceStart(points, front, span);
  if (counts && (counts.x + counts.y !== points.length || (split !== undefined && split !== counts.x))) {
    const found = split === undefined ? points.length : `${split} + ${points.length - split}`;
    const message = `The file announces ${counts.x} + ${counts.y} points and has ${found}; what it has counts.`;
    warnings.add('counts', message, counts.where);
  }
  if (split !== undefined) {
    const outline = joinSurfaces(points.slice(0, split), points.slice(split));
    return readAs({ outline, order: 'surface by surface' });
  }
  if (points[0]!.x - front > 0.3 * span)
    return readAs({ outline: pointsOf(points), order: 'round from the trailing edge' });
  const endsAft = points.at(-1)!.x - front > 0.7 * span;
  if (endsAft) return noSection('The file has one surface only.', 'whole file');
  return readAs({ outline: startAtTrailingEdge(points), order: 'surface by surface' });
}

/** Signed area: positive for the way round that `SectionCoordinates` describes. */
function signedArea({ x, y }: Points): number {
  let twice = 0;
  for (let at = 0, before = x.length - 1; at < x.length; before = at++)
    twice += x[before]! * y[at]! - x[at]! * y[before]!;
  return twice / 2;
}

function withoutDuplicates({ x, y }: Points, warnings: WarningList): Points {
  const kept: Points = { x: [], y: [] };
  x.forEach((value, at) => {
    const same = at > 0 && Math.abs(value - kept.x.at(-1)!) < 1e-9 && Math.abs(y[at]! - kept.y.at(-1)!) < 1e-9;
    if (same) warnings.add('repeated point', 'A point stands twice in a row and counts once.', `x = ${value}`);
    else {
      kept.x.push(value);
      kept.y.push(y[at]!);
    }
  });
  return kept;
}

/** Chord 1 where the file is in per cent or in a length; as it is where the chord is about 1 already. */
function scaled(points: Points, warnings: WarningList): Points {
  const front = Math.min(...points.x);
  const tail = Math.max(...points.x);
  const span = tail - front;
  if (span > 0.67 && span < 1.5) return points;
  const isPercent = span > 90 && span < 110;
  // A cambered section reaches a little ahead of its nose at 0: its chord then ends, and begins, where the file says so.
  const length = Math.abs(front) < 0.005 * span ? tail : span;
  warnings.add(
    'scale',
    isPercent
      ? 'The coordinates are in per cent of the chord; they were divided by 100.'
      : `The coordinates span ${Number(length.toPrecision(6))} along the chord; they were divided by that.`,
  );
  const divisor = isPercent ? 100 : length;
  return { x: points.x.map((value) => value / divisor), y: points.y.map((value) => value / divisor) };
}

/** Ordinate at x of a surface whose x runs one way. */
function ordinateAt(x: readonly number[], y: readonly number[], at: number): number | undefined {
  for (let i = 1; i < x.length; i += 1) {
    const [a, b] = [x[i - 1]!, x[i]!];
    if (a === b || Math.min(a, b) > at || Math.max(a, b) < at) continue;
    return y[i - 1]! + ((y[i]! - y[i - 1]!) * (at - a)) / (b - a);
  }
  return undefined;
}

/** Whether the upper surface lies below the lower one somewhere ahead of the last hundredth of the chord. */
function firstCrossing({ x, y }: Points): number | undefined {
  const nose = x.indexOf(Math.min(...x));
  const [lowerX, lowerY] = [x.slice(nose), y.slice(nose)];
  for (let at = 1; at < nose; at += 1) {
    const below = ordinateAt(lowerX, lowerY, x[at]!);
    if (x[at]! < 0.99 && below !== undefined && y[at]! < below - 1e-6) return x[at]!;
  }
  return undefined;
}

/**
 * Adds the last point where a surface ends ahead of the other: some files leave out the point that closes the trailing edge.
 * The gap of an open edge lies across the chord; this one lies along it.
 */
function withTrailingEdge({ x, y }: Points, warnings: WarningList): Points {
  const along = x[0]! - x.at(-1)!;
  if (Math.abs(along) < 1e-4 || Math.abs(along) < 0.5 * Math.abs(y[0]! - y.at(-1)!)) return { x, y };
  const surface = along > 0 ? 'lower' : 'upper';
  warnings.add(
    'missing trailing edge',
    `The ${surface} surface lacks its point at the trailing edge; the other's was taken.`,
  );
  return along > 0 ? { x: [...x, x[0]!], y: [...y, y[0]!] } : { x: [x.at(-1)!, ...x], y: [y.at(-1)!, ...y] };
}

function trailingEdgeOf({ x, y }: Points): SectionCoordinates['trailingEdge'] {
  const gap = y[0]! - y.at(-1)!;
  if (Math.abs(gap) < 1e-6 && Math.abs(x[0]! - x.at(-1)!) < 1e-6) return 'closed';
  return gap >= 0 ? 'open' : 'crossed';
}

/**
 * Points of a section in either usual order as one way round, with the faults that can be told from the points alone.
 *
 * @param name - of the section
 * @param points - as they stand, without counts; counts - what the file announces of them
 */
export function outlineOf(
  name: string,
  points: readonly SectionPoint[],
  counts: SectionPoint | undefined,
  warnings: WarningList,
): FileOutcome<SectionCoordinates> {
  if (points.length < fewestPoints)
    return noSection(`Only ${points.length} coordinate pairs were found.`, 'whole file');
  if (points.length > mostPoints)
    return noSection(`${points.length} coordinate pairs are too many for a section.`, 'whole file');
  const joined = goRound(points, counts, warnings);
  if (!joined.ok) return joined;
  const outline = scaled(withoutDuplicates(joined.value.outline, warnings), warnings);
  return finish(name, outline, joined.value.order, warnings);
}

/**
 * Section from a list of pairs instead of a file: the same orders and faults.
 *
 * @param name - of the section
 * @param pairs - x and y of each point
 */
export function orderSectionPoints(
  name: string,
  pairs: readonly (readonly [number, number])[],
): FileOutcome<SectionCoordinates> {
  const points = pairs.map(([x, y], at) => ({ x, y, where: `point ${at + 1}` }));
  const odd = points.find((one) => !Number.isFinite(one.x) || !Number.isFinite(one.y));
  if (odd !== undefined) return noSection('A coordinate is no finite number.', odd.where);
  return outlineOf(name, points, undefined, warningList());
}

function finish(
  name: string,
  given: Points,
  order: SectionCoordinates['order'],
  warnings: WarningList,
): FileOutcome<SectionCoordinates> {
  let outline = given;
  const area = signedArea(outline);
  const height = Math.max(...outline.y) - Math.min(...outline.y);
  if (outline.x.length < fewestPoints || Math.abs(area) < 1e-5)
    return noSection('The points enclose no area.', 'whole file');
  if (height > 1) return noSection('The points are higher than they are long.', 'whole file');
  if (area < 0) {
    outline = { x: [...outline.x].reverse(), y: [...outline.y].reverse() };
    warnings.add('direction', 'The points run below first; they were turned to begin with the upper surface.');
  }
  outline = withTrailingEdge(outline, warnings);
  const trailingEdge = trailingEdgeOf(outline);
  if (trailingEdge === 'crossed') warnings.add('crossed trailing edge', 'The surfaces cross at the trailing edge.');
  const crossing = firstCrossing(outline);
  if (crossing !== undefined) {
    warnings.add('crossing', 'The upper surface lies below the lower one.', `x = ${Number(crossing.toPrecision(4))}`);
  }
  return readAs({ name, ...outline, trailingEdge, order }, warnings.all());
}
