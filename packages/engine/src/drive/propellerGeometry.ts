import { interpolateLinear } from '../math/index.js';
import { type Outcome, problem, success } from '../result.js';
import type { BladeSection } from './bladeSection.js';

/** One radial station of a blade. */
export interface BladeStation {
  /** r/R, R the tip radius. */
  readonly radiusFraction: number;
  /** Chord over tip radius. */
  readonly chordFraction: number;
  /** Angle between the nose-tail chord and the plane of rotation [rad]. */
  readonly pitchAngle: number;
}

/** Shape of a propeller. Stations run from the root outwards; what lies inside the first one carries no blade. */
export interface PropellerGeometry {
  /** [m] */
  readonly diameter: number;
  readonly bladeCount: number;
  readonly stations: readonly BladeStation[];
  readonly section: BladeSection;
}

/**
 * Refuses a geometry that cannot be a propeller.
 *
 * @param geometry - shape of the propeller
 * @returns the geometry, or the first thing wrong with it
 */
export function checkPropellerGeometry(geometry: PropellerGeometry): Outcome<PropellerGeometry> {
  const fault = geometryFault(geometry);
  if (fault === undefined) return success(geometry);
  return problem({
    code: 'propeller-geometry',
    reason: fault,
    where: 'propeller',
    remedy: 'Give a positive diameter, 1 to 12 blades and at least two stations from root to tip with positive chord.',
  });
}

function geometryFault({ diameter, bladeCount, stations }: PropellerGeometry): string | undefined {
  if (!(diameter > 0 && diameter < 20)) return 'The diameter is not between 0 and 20 m.';
  if (!(Number.isInteger(bladeCount) && bladeCount >= 1 && bladeCount <= 12)) return 'The blade count is not 1 to 12.';
  if (stations.length < 2) return 'There are fewer than two blade stations.';
  let previous = 0;
  for (const { radiusFraction, chordFraction, pitchAngle } of stations) {
    if (!(radiusFraction > previous && radiusFraction <= 1))
      return 'The stations do not run from root to tip (r/R up to 1).';
    if (!(chordFraction > 0 && chordFraction < 1)) return 'A chord is not between 0 and the tip radius.';
    if (!(Math.abs(pitchAngle) < Math.PI / 2)) return 'A pitch angle is not between -90 and 90 degrees.';
    previous = radiusFraction;
  }
  return undefined;
}

/** Chord over tip radius at r/R. */
export const chordFractionAt = (geometry: PropellerGeometry, radiusFraction: number): number =>
  interpolateLinear(
    geometry.stations.map((s) => s.radiusFraction),
    geometry.stations.map((s) => s.chordFraction),
    radiusFraction,
  );

/** Pitch angle at r/R [rad]. */
export const pitchAngleAt = (geometry: PropellerGeometry, radiusFraction: number): number =>
  interpolateLinear(
    geometry.stations.map((s) => s.radiusFraction),
    geometry.stations.map((s) => s.pitchAngle),
    radiusFraction,
  );

/**
 * Nominal pitch from the pitch angle at 0.75 R: p = 2 pi r tan(beta) [m].
 * Source: common practice; makers measure against different reference lines, to about 10 per cent.
 */
export const nominalPitch = (geometry: PropellerGeometry): number =>
  0.75 * Math.PI * geometry.diameter * Math.tan(pitchAngleAt(geometry, 0.75));

/** Projected-plan area of all blades, the integral of chord over radius times the blade count [m2]. */
export function bladePlanformArea({ diameter, bladeCount, stations }: PropellerGeometry): number {
  let integral = 0;
  for (let i = 1; i < stations.length; i++) {
    const inner = stations[i - 1];
    const outer = stations[i];
    integral += ((inner.chordFraction + outer.chordFraction) / 2) * (outer.radiusFraction - inner.radiusFraction);
  }
  return (bladeCount * integral * diameter * diameter) / 4;
}
