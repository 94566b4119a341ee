import { type Outcome, problem, success } from '../result.js';
import { sectionGeometry } from './geometry.js';
import { signedArea } from './outline.js';
import type { SectionGeometry } from './types.js';

/** Fewer points describe no section; a bevelled plate has seven. */
const fewestPoints = 7;

const refuse = (code: string, reason: string, where: string, remedy: string) =>
  problem({ code: `section.points.${code}`, reason, where, remedy });

/** Why the points cannot be a section, or undefined. */
function faultOf(x: readonly number[], y: readonly number[]) {
  if (x.length < fewestPoints) {
    return refuse('few', `${x.length} points found`, 'points', `a section needs at least ${fewestPoints} points`);
  }
  const odd = x.findIndex((value, i) => !Number.isFinite(value) || !Number.isFinite(y[i]));
  if (odd >= 0) {
    return refuse('finite', 'a coordinate is no finite number', `point ${odd + 1}`, 'give station and ordinate');
  }
  const reach = (values: readonly number[]) =>
    values.reduce((most, value) => Math.max(most, value), -Infinity) -
    values.reduce((least, value) => Math.min(least, value), Infinity);
  const chord = reach(x);
  const height = reach(y);
  if (!(chord > 1e-9 && chord < 1e9) || !(height > 0) || height > 0.6 * chord) {
    const remedy = 'give chordwise station first, then ordinate';
    return refuse('shape', 'the points do not outline a wing section', 'points', remedy);
  }
  if (Math.abs(signedArea(x, y)) < 1e-3 * chord * chord) {
    return refuse('area', 'the points enclose no area', 'points', 'give both surfaces, from nose to tail');
  }
  return undefined;
}

/**
 * Section geometry from the points of an outline, normalised to chord 1.
 *
 * name - shown to the user
 * x, y - trailing edge, one surface, leading edge, other surface, trailing edge; either direction, any scale; as many of each
 * Returns the geometry, or why the points are no section: too few, no wing section's shape, no area, crossed surfaces.
 */
export function sectionFromPoints({
  name,
  x,
  y,
}: {
  readonly name: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
}): Outcome<SectionGeometry> {
  if (x.length !== y.length) throw new RangeError('an outline has as many stations as ordinates');
  const fault = faultOf(x, y);
  if (fault) return fault;
  const geometry = sectionGeometry({ name, x, y });
  const least = geometry.thickness.reduce((a, b) => Math.min(a, b), Infinity);
  if (least < -0.01) {
    const at = geometry.stations[geometry.thickness.indexOf(least)];
    const percent = (100 * at).toFixed(0);
    return refuse('crossed', `the surfaces cross at ${percent} % of chord`, 'points', 'correct the points there');
  }
  if (geometry.trailingEdgeThickness >= -1e-4) return success(geometry);
  return success(geometry, [
    {
      code: 'section.points.trailing-edge',
      message: 'the surfaces cross at the trailing edge by less than 1 % of chord; taken as closed',
    },
  ]);
}
