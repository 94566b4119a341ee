import type { Body, Shape } from '../shape/index.js';
import { upwashOnCentreLine } from './influence.js';
import type { Lattice } from './lattice.js';
import type { WingReference } from './types.js';

/** Relative standard uncertainty of bodyMomentSlope (judgement: real outlines, junctions and the propeller). */
export const bodyMomentSpread = 0.4;

const slices = 16;

/** Width of a body at a fraction of its length: an ellipse-like outline with a prismatic coefficient near 0.7. */
const widthAt = (body: Body, fraction: number): number => body.width * (4 * fraction * (1 - fraction)) ** 0.3;

/** Where the wing's chord lies near a body: there the wing straightens the flow and the body makes no moment of its own. */
function wingChordRange(shape: Shape, body: Body): { from: number; to: number } {
  const wing = shape.surfaces.filter((surface) => surface.kind === 'wing');
  const y = Math.abs(body.y ?? 0);
  let from = Infinity;
  let to = -Infinity;
  for (const surface of wing) {
    const nearest = surface.stations.reduce((best, station) =>
      Math.abs(station.y - y) < Math.abs(best.y - y) ? station : best,
    );
    from = Math.min(from, nearest.xLeadingEdge);
    to = Math.max(to, nearest.xLeadingEdge + nearest.chord);
  }
  return { from, to };
}

/**
 * Destabilising pitching-moment slope of fuselage and pods: slender-body cross-flow moment with the local flow angle that the lattice
 * makes ahead of and behind the wing.
 *
 * Returns the coefficient slope on the reference area and chord [1/rad], positive nose up; see bodyMomentSpread.
 * Pods beside the centre line count twice, in the flow of the centre line.
 * Source: H. Multhopp, Aerodynamics of the Fuselage, NACA TM 1036, 1942: dM/dalpha = (pi/2) q integral w^2 dbeta/dalpha dx.
 */
export function bodyMomentSlope(
  shape: Shape,
  lattice: Lattice,
  alphaCirculation: Float64Array,
  reference: WingReference,
): number {
  let sum = 0;
  for (const body of shape.bodies) {
    const wing = wingChordRange(shape, body);
    const points = Array.from({ length: slices }, (_, i) => ({
      x: body.x + (body.length * (i + 0.5)) / slices,
      z: body.z,
    })).filter(({ x }) => x < wing.from || x > wing.to);
    const copies = body.y !== undefined && body.y !== 0 ? 2 : 1;
    const upwash = upwashOnCentreLine(lattice, alphaCirculation, points);
    points.forEach(({ x }, i) => {
      const width = widthAt(body, (x - body.x) / body.length);
      // Close to the leading edge the upwash of a thin lattice grows without bound; Multhopp's curve stays below about 2.5.
      const flow = Math.min(2.5, Math.max(0, 1 + upwash[i]));
      sum += (copies * width * width * flow * body.length) / slices;
    });
  }
  return ((Math.PI / 2) * sum) / (reference.area * reference.chord);
}
