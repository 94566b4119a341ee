import { interpolateLinear } from '../math/index.js';
import type { BeamPart, ControlPart, SurfacePart } from './input-types.js';

/** Lines of a surface's mesh: distances out, and at each of them the chord fractions of the lengthwise lines. */
export interface Grid {
  readonly y: readonly number[];
  /** fractions[i][j] at y[i]. */
  readonly fractions: readonly (readonly number[])[];
  readonly leadingEdge: readonly number[];
  readonly chord: readonly number[];
  /** Index of the line that is the hinge of each control. */
  readonly hingeLine: ReadonlyMap<string, number>;
}

/** Values in order without those that lie closer than `least` to one before; the first and last stay. */
function distinct(values: readonly number[], least: number): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  const kept: number[] = [];
  for (const value of sorted) if (kept.length === 0 || value - kept[kept.length - 1] > least) kept.push(value);
  const last = sorted[sorted.length - 1];
  if (kept.length > 1 && kept[kept.length - 1] !== last) kept[kept.length - 1] = last;
  return kept;
}

/** Lines between the given ones, so that no gap is wider than `spacing`. */
function filled(values: readonly number[], spacing: number): number[] {
  const result = [values[0]];
  for (let i = 1; i < values.length; i++) {
    const count = Math.max(1, Math.round((values[i] - values[i - 1]) / spacing));
    for (let k = 1; k <= count; k++) result.push(values[i - 1] + ((values[i] - values[i - 1]) * k) / count);
  }
  return result;
}

interface Planform {
  readonly ys: readonly number[];
  readonly edge: (y: number) => number;
  readonly chord: (y: number) => number;
}

export function planformOf(surface: SurfacePart): Planform {
  const ys = surface.stations.map(({ y }) => y);
  const edges = surface.stations.map(({ xLeadingEdge }) => xLeadingEdge);
  const chords = surface.stations.map(({ chord }) => chord);
  return {
    ys,
    edge: (y) => interpolateLinear(ys, edges, y),
    chord: (y) => interpolateLinear(ys, chords, y),
  };
}

/** Chord fraction of a beam's line at any y: straight between its points, as at its ends beyond them. */
function beamFraction(beam: BeamPart, planform: Planform): ((y: number) => number) | undefined {
  const points = [...beam.points].sort((a, b) => a.y - b.y);
  const reach = points[points.length - 1].y - points[0].y;
  const length = Math.abs(points[points.length - 1].x - points[0].x);
  // A line that runs more along the chord than along the span is no line of the mesh.
  if (!(reach > length)) return undefined;
  const ys = points.map(({ y }) => y);
  const fractions = points.map(({ x, y }) => (x - planform.edge(y)) / planform.chord(y));
  return (y) => {
    const inside = Math.min(ys[ys.length - 1], Math.max(ys[0], y));
    if (inside !== y) return interpolateLinear(ys, fractions, inside);
    return (
      (interpolateLinear(
        ys,
        points.map(({ x }) => x),
        y,
      ) -
        planform.edge(y)) /
      planform.chord(y)
    );
  };
}

/** Lines that the mesh follows, each a chord fraction by y, from front to back; lines that cross or touch others are left out. */
function featureLines(surface: SurfacePart, planform: Planform, y: readonly number[]) {
  const hinges = [...new Set(surface.controls.map(({ hinge }) => hinge))];
  const lines: ((y: number) => number)[] = hinges.map((hinge) => () => hinge);
  for (const beam of surface.beams) {
    const line = beamFraction(beam, planform);
    if (line !== undefined) lines.push(line);
  }
  const kept: ((y: number) => number)[] = [];
  for (const line of lines) {
    const inside = y.every((at) => line(at) > 0.04 && line(at) < 0.96);
    const apart = kept.every((other) => {
      const gaps = y.map((at) => line(at) - other(at));
      return gaps.every((gap) => gap > 0.03) || gaps.every((gap) => gap < -0.03);
    });
    if (inside && apart) kept.push(line);
  }
  return kept.sort((a, b) => a(y[0]) - b(y[0]));
}

const controlEnds = (controls: readonly ControlPart[]): number[] => controls.flatMap(({ fromY, toY }) => [fromY, toY]);

/**
 * Mesh lines of a surface: along the span through stations, ends of controls and beams; along the chord through hinges and spars.
 * @param corners - how many corners it should have, about
 */
export function surfaceGrid(surface: SurfacePart, corners: number): Grid {
  const planform = planformOf(surface);
  const { ys } = planform;
  const [root, tip] = [ys[0], ys[ys.length - 1]];
  const span = tip - root;
  const meanChord =
    ys.slice(1).reduce((sum, y, i) => sum + ((y - ys[i]) * (planform.chord(y) + planform.chord(ys[i]))) / 2, 0) / span;
  // Elements up to twice as long along the span as along the chord: bending along the span varies slowly.
  const elongation = Math.min(2, Math.max(1, span / (3 * meanChord)));
  const across = Math.max(3, Math.round(Math.sqrt((corners * meanChord * elongation) / span)));
  const along = Math.max(4, Math.round(corners / (across + 1)) - 1);
  const ends = surface.beams.flatMap(({ points }) => points.map(({ y }) => y)).filter((y) => y > root && y < tip);
  const required = distinct(
    [...ys, ...controlEnds(surface.controls).filter((y) => y > root && y < tip), ...ends],
    0.02 * span,
  );
  const y = filled(required, span / along);
  const lines = featureLines(surface, planform, y);
  const counts = gapCounts(lines, y, across);
  const fractions = y.map((at) => {
    const stops = [0, ...lines.map((line) => line(at)), 1];
    return counts
      .flatMap((count, g) =>
        Array.from({ length: count }, (_, k) => stops[g] + ((stops[g + 1] - stops[g]) * k) / count),
      )
      .concat(1);
  });
  return {
    y,
    fractions,
    leadingEdge: y.map(planform.edge),
    chord: y.map(planform.chord),
    hingeLine: hingeLines(surface.controls, fractions),
  };
}

/** How many elements lie between neighbouring lines. */
function gapCounts(lines: readonly ((y: number) => number)[], y: readonly number[], across: number): number[] {
  const mean = (line: (y: number) => number) => y.reduce((sum, at) => sum + line(at), 0) / y.length;
  const stops = [0, ...lines.map(mean), 1];
  return stops.slice(1).map((stop, i) => Math.max(1, Math.round((stop - stops[i]) * across)));
}

/** The line that stands at a control's hinge fraction. */
function hingeLines(controls: readonly ControlPart[], fractions: readonly (readonly number[])[]): Map<string, number> {
  return new Map(
    controls.map(({ name, hinge }) => {
      const row = fractions[0];
      const nearest = row.reduce(
        (best, value, j) => (Math.abs(value - hinge) < Math.abs(row[best] - hinge) ? j : best),
        0,
      );
      return [name, nearest];
    }),
  );
}
