import type { Vec3 } from '../math/index.js';
import { type Outcome, problem, success } from '../result.js';
import { cutAt, spanPosition } from './planform.js';
import type { LiftingSurface } from './types.js';

/** A patch of a surface's upper side, for cells. */
export interface FacetRange {
  /** Positions along the span as controls count them [m]. */
  readonly fromY: number;
  readonly toY: number;
  /** Chord fractions, 0 at the leading edge. */
  readonly fromChord: number;
  readonly toChord: number;
  /** Slope of the section's upper surface there (rise / run, rising aft positive), relative to its chord; 0 for a flat plate. */
  readonly slope: number;
  readonly side: 'right' | 'left';
}

export interface Facet {
  /** Outward unit normal in forward-right-down axes of the body. */
  readonly normal: Vec3;
  /** Area of the patch along its slope [m2]. */
  readonly area: number;
  /** Middle in the frame of geometry: x aft, y right, z up [m]. */
  readonly centre: Vec3;
}

function rangeProblem(surface: LiftingSurface, range: FacetRange): string | undefined {
  const tip = spanPosition(surface, surface.stations.length - 1);
  const root = spanPosition(surface, 0);
  if (!(range.toY > range.fromY)) return 'the patch ends where it begins or before';
  if (range.fromY < root - 1e-6 || range.toY > tip + 1e-6) return 'the patch reaches beyond the surface';
  if (!(range.fromChord >= 0 && range.toChord <= 1 && range.toChord > range.fromChord))
    return 'its chord fractions are not in order between 0 and 1';
  if (!Number.isFinite(range.slope)) return 'its slope is not a number';
  return undefined;
}

/**
 * Normal, area and middle of a patch of upper surface between two positions along the span and two chord fractions.
 * Twist, dihedral and slope are taken in the middle of the patch.
 *
 * surface - lifting surface
 * range - the patch; slope = slope of the section's upper surface relative to its chord
 * Returns the facet; a problem where the patch lies off the surface.
 */
export function facet(surface: LiftingSurface, range: FacetRange): Outcome<Facet> {
  const reason = rangeProblem(surface, range);
  if (reason)
    return problem({ code: 'patch', reason, where: surface.name, remedy: 'keep the patch inside the planform' });
  const cut = cutAt(surface, (range.fromY + range.toY) / 2);
  const [inner, outer] = [cutAt(surface, range.fromY), cutAt(surface, range.toY)];
  const width = Math.hypot(outer.y - inner.y, outer.z - inner.z);
  const depth = ((range.toChord - range.fromChord) * (inner.chord + outer.chord)) / 2;
  const slopeAngle = Math.atan(range.slope);
  // Nose up leans the normal aft; a surface that rises aft leans it forward.
  const aft = cut.twist - slopeAngle;
  const sign = range.side === 'left' ? -1 : 1;
  const up = Math.cos(aft);
  const normal: Vec3 = [-Math.sin(aft), -sign * Math.sin(cut.dihedral) * up, -Math.cos(cut.dihedral) * up];
  const along = (range.fromChord + range.toChord) / 2;
  const centre: Vec3 = [
    cut.xLeadingEdge + along * cut.chord * Math.cos(cut.twist),
    sign * cut.y,
    cut.z - along * cut.chord * Math.sin(cut.twist) * Math.cos(cut.dihedral),
  ];
  return success({ normal, area: (width * depth) / Math.cos(slopeAngle), centre });
}
