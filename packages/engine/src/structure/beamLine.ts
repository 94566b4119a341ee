import { type BeamProperties, beamElement, betweenBeams } from './beam.js';
import type { System } from './build.js';
import type { BeamPart } from './input-types.js';
import type { PointRow, SurfaceMesh } from './model-types.js';
import { locate, locatedRow } from './rows.js';

/** Mass of a beam as described [kg]. */
export const beamLineMass = ({ points }: BeamPart): number =>
  points.slice(1).reduce((sum, b, i) => {
    const a = points[i];
    return sum + (Math.hypot(b.x - a.x, b.y - a.y) * (a.at.linearMass + b.at.linearMass)) / 2;
  }, 0);

type BeamRow = { readonly dofs: ArrayLike<number>; readonly weights: Float64Array };

/** Slope of a place in the direction (aft, out). */
const slopeTowards = ({ dofs, slopeX, slopeY }: PointRow, aft: number, out: number): BeamRow => ({
  dofs,
  weights: slopeX.map((value, i) => aft * value + out * slopeY[i]),
});

/** Adds the element matrix of rows: sum over i, j of k[i][j] rows[i]' rows[j]. */
function addThrough(into: Float64Array, size: number, rows: readonly BeamRow[], k: Float64Array): void {
  const n = rows.length;
  for (let a = 0; a < n; a++) {
    for (let b = 0; b < n; b++) {
      const value = k[a * n + b];
      if (value === 0) continue;
      for (let i = 0; i < rows[a].dofs.length; i++) {
        const left = value * rows[a].weights[i];
        if (left === 0) continue;
        for (let j = 0; j < rows[b].dofs.length; j++) {
          into[rows[a].dofs[i] * size + rows[b].dofs[j]] += left * rows[b].weights[j];
        }
      }
    }
  }
}

export interface BeamEnd {
  readonly x: number;
  readonly y: number;
  readonly row: PointRow;
}

/** Adds one beam element between two places whose motion is given by rows. */
export function addBeamBetween(system: System, a: BeamEnd, b: BeamEnd, at: BeamProperties, massFactor = 1): void {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const [c, s] = [(b.x - a.x) / length, (b.y - a.y) / length];
  const element = beamElement(length, at);
  const displacement = ({ row }: BeamEnd): BeamRow => ({ dofs: row.dofs, weights: row.w });
  const slope = ({ row }: BeamEnd) => slopeTowards(row, c, s);
  const turn = ({ row }: BeamEnd) => slopeTowards(row, -s, c);
  const bending = [displacement(a), slope(a), displacement(b), slope(b)];
  addThrough(system.stiffness, system.size, bending, element.bending);
  addThrough(
    system.mass,
    system.size,
    bending,
    element.mass.map((value) => massFactor * value),
  );
  const turns = [turn(a), turn(b)];
  const { torsion } = element;
  addThrough(system.stiffness, system.size, turns, Float64Array.of(torsion, -torsion, -torsion, torsion));
  const polar = (massFactor * element.polar) / 6;
  if (polar > 0) addThrough(system.mass, system.size, turns, Float64Array.of(2 * polar, polar, polar, 2 * polar));
}

/** Places along a beam: its own points, and where it crosses lines of the mesh (or pieces of like length along the chord). */
function cuts(beam: BeamPart, gridY: readonly number[]) {
  const places: { x: number; y: number; at: BeamProperties }[] = [{ ...beam.points[0] }];
  for (let i = 1; i < beam.points.length; i++) {
    const [a, b] = [beam.points[i - 1], beam.points[i]];
    const reach = Math.abs(b.y - a.y);
    const chordwise = reach < Math.abs(b.x - a.x);
    const shares = chordwise
      ? [0.2, 0.4, 0.6, 0.8]
      : gridY.map((y) => (y - a.y) / (b.y - a.y)).filter((share) => share > 1e-6 && share < 1 - 1e-6);
    for (const share of [...shares.sort((p, q) => p - q), 1]) {
      places.push({
        x: a.x + share * (b.x - a.x),
        y: a.y + share * (b.y - a.y),
        at: betweenBeams(a.at, b.at, share),
      });
    }
  }
  return places;
}

/** Adds a spar, stiffener or rib that follows the surface. */
export function addBeamLine(
  system: System,
  mesh: SurfaceMesh,
  beam: BeamPart,
  gridY: readonly number[],
  massFactor: number,
): void {
  const places = cuts(beam, gridY);
  // A spar follows the fixed part, not a control that it passes.
  const fixed = mesh.controlOf.includes('') ? '' : undefined;
  const ends = places.map(({ x, y }) => ({ x, y, row: locatedRow(mesh, locate(mesh, x, y, fixed)) }));
  for (let i = 1; i < places.length; i++) {
    const at = betweenBeams(places[i - 1].at, places[i].at, 0.5);
    if (Math.hypot(ends[i].x - ends[i - 1].x, ends[i].y - ends[i - 1].y) < 1e-9) continue;
    addBeamBetween(system, ends[i - 1], ends[i], at, massFactor);
  }
}
