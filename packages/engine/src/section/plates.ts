import { type Outcome, problem, success } from '../result.js';
import { cosineStations, sectionGeometry } from './geometry.js';
import { nacaHalfThickness } from './naca.js';
import type { SectionGeometry } from './types.js';

/** Width of an upright edge in the outline, so that ordinates stay functions of the station. */
const EDGE = 1e-6;

type Ordinate = (x: number) => number;

/** Outline of two ordinate laws, with the stations where they bend. */
function fromOrdinates(
  name: string,
  upper: Ordinate,
  lower: Ordinate,
  corners: readonly number[],
  rest: {
    readonly leadingEdge: 'round' | 'sharp';
    readonly step?: number;
    readonly meanLine?: Ordinate;
    readonly keepFrame?: boolean;
  },
): SectionGeometry {
  const bends = corners.flatMap((x) => [x - EDGE, x + EDGE]).filter((x) => x > EDGE && x < 1 - EDGE);
  const stations = [...new Set([...cosineStations(160), ...bends])].sort((a, b) => a - b);
  const fine = cosineStations(400);
  return sectionGeometry({
    name,
    x: [...[...stations].reverse(), ...stations.slice(1)],
    y: [...[...stations].reverse().map(upper), ...stations.slice(1).map(lower)],
    leadingEdge: rest.leadingEdge,
    ...(rest.keepFrame ? { noseIndex: stations.length - 1 } : {}),
    ...(rest.step === undefined ? {} : { step: rest.step }),
    ...(rest.meanLine ? { meanLine: { stations: fine, camber: fine.map(rest.meanLine) } } : {}),
  });
}

/** A bevel: its length / chord and the surface that it slopes ('both' meets in the middle). */
export interface Bevel {
  readonly length: number;
  readonly side: 'both' | 'upper' | 'lower';
  /** Thickness / chord that is left at the edge; 0 where absent. */
  readonly edge?: number;
}

/** Ordinates of one end of a plate at a distance from its edge: +-half thickness away from the bevel. */
function bevelled(distance: number, half: number, bevel: Bevel | undefined): readonly [number, number] {
  if (!bevel || bevel.length <= 0 || distance >= bevel.length) return [half, -half];
  const left = Math.min(1, Math.max(0, (bevel.edge ?? 0) / (2 * half)));
  const share = left + (1 - left) * (distance / bevel.length);
  if (bevel.side === 'both') return [half * share, -half * share];
  const sloped = half * (2 * share - 1);
  return bevel.side === 'upper' ? [sloped, -half] : [half, -sloped];
}

const refuse = (reason: string, where: string, remedy: string) =>
  problem({ code: 'section.plate', reason, where, remedy });

const thin = (thickness: number): boolean => thickness > 0 && thickness <= 0.2;

/**
 * Flat plate of even thickness with bevelled or square edges: the foam plank.
 *
 * thickness - thickness / chord, 0 to 0.2 [-]
 * leading, trailing - bevels; square where absent
 * nose - 'sharp' (square or bevelled: leading-edge suction is lost) or 'round' (sanded round)
 */
export function flatPlateSection(input: {
  readonly thickness: number;
  readonly leading?: Bevel;
  readonly trailing?: Bevel;
  readonly nose?: 'round' | 'sharp';
}): Outcome<SectionGeometry> {
  const { thickness, leading, trailing } = input;
  if (!thin(thickness)) return refuse(`thickness ${thickness} of the chord`, 'thickness', 'give 0.01 to 0.2');
  const lengths = (leading?.length ?? 0) + (trailing?.length ?? 0);
  if (!(lengths <= 1)) return refuse('the two bevels are longer than the chord', 'bevel', 'shorten a bevel');
  const half = thickness / 2;
  const ends = (x: number): readonly [number, number] => {
    if (x < (leading?.length ?? 0)) return bevelled(x, half, leading);
    return bevelled(1 - x, half, trailing);
  };
  const corners = [leading?.length ?? 0, 1 - (trailing?.length ?? 0)];
  const geometry = fromOrdinates(
    `flat plate ${(100 * thickness).toFixed(1)} %`,
    (x) => (x === 0 && !leading ? 0 : ends(x)[0]),
    (x) => (x === 0 && !leading ? 0 : ends(x)[1]),
    corners,
    { leadingEdge: input.nose ?? 'sharp', keepFrame: true },
  );
  return success(geometry);
}

/**
 * Cambered plate: even thickness on a circular or parabolic arc, edges tapered over 1.5 thicknesses.
 * thickness, camber - / chord [-]; arc - 'circular' (default) or 'parabolic'
 * Thin-airfoil theory of the parabola: zero-lift angle -2 h/c rad, quarter-chord moment -pi h/c.
 */
export function arcPlateSection(input: {
  readonly thickness: number;
  readonly camber: number;
  readonly arc?: 'circular' | 'parabolic';
}): Outcome<SectionGeometry> {
  const { thickness, camber } = input;
  if (!thin(thickness)) return refuse(`thickness ${thickness} of the chord`, 'thickness', 'give 0.01 to 0.2');
  if (!(Math.abs(camber) <= 0.2)) return refuse(`camber ${camber} of the chord`, 'camber', 'give -0.2 to 0.2');
  const parabola: Ordinate = (x) => 4 * camber * x * (1 - x);
  const radius = camber === 0 ? Infinity : (0.25 + camber * camber) / (2 * Math.abs(camber));
  const circle: Ordinate = (x) =>
    camber === 0 ? 0 : Math.sign(camber) * (Math.sqrt(radius ** 2 - (x - 0.5) ** 2) - (radius - Math.abs(camber)));
  const line = input.arc === 'parabolic' ? parabola : circle;
  const taper = 1.5 * thickness;
  const half = (x: number) => (thickness / 2) * Math.min(1, Math.sqrt(Math.min(x, 1 - x) / taper));
  return success(
    fromOrdinates(
      `arc plate ${(100 * thickness).toFixed(1)} %, camber ${(100 * camber).toFixed(1)} %`,
      (x) => line(x) + half(x),
      (x) => line(x) - half(x),
      [taper, 1 - taper],
      { leadingEdge: 'sharp', meanLine: line, keepFrame: true },
    ),
  );
}

/**
 * Stepped plate: full thickness to the step, thinner behind it.
 * front, rear - thicknesses / chord [-]; step - its chord station [-]; side - surface that carries the step
 * The step is an uncertain case: drag of a backward-facing step with a wide interval, no gain in lift
 * (Lumsdaine et al. 1974; DeLaurier and Harris 1974, from memory: worse than a plain plate).
 */
export function steppedPlateSection(input: {
  readonly front: number;
  readonly rear: number;
  readonly step: number;
  readonly side?: 'upper' | 'lower';
}): Outcome<SectionGeometry> {
  const { front, rear, step } = input;
  if (!thin(front)) return refuse(`thickness ${front} of the chord`, 'front', 'give 0.01 to 0.2');
  if (!(rear > 0 && rear <= front))
    return refuse('the rear is not thinner than the front', 'rear', 'give less than the front');
  if (!(step > 0.1 && step < 0.9)) return refuse(`step at ${step} of the chord`, 'step', 'give 0.1 to 0.9');
  const depth = front - rear;
  const base = -rear / 2;
  const high: Ordinate = (x) => (x === 0 ? 0 : base + (x < step ? front : rear));
  const flat: Ordinate = (x) => (x === 0 ? 0 : base);
  const upward = (input.side ?? 'upper') === 'upper';
  return success(
    fromOrdinates(
      `stepped plate ${(100 * front).toFixed(1)} %`,
      upward ? high : (x) => -flat(x),
      upward ? flat : (x) => -high(x),
      [step],
      // A step adds no circulation to speak of: the mean line is taken as straight.
      { leadingEdge: 'sharp', step: depth, meanLine: () => 0, keepFrame: true },
    ),
  );
}

/**
 * Generic flat-bottomed section: four-digit thickness whose underside is straight behind 30 % of chord, with a raised nose.
 * thickness - / chord, 0.05 to 0.2 [-]; noseHeight - of the leading edge above the flat, / thickness [-], default 0.35
 * Angles refer to the chord from nose to tail, not to the flat.
 */
export function flatBottomSection(thickness: number, noseHeight = 0.35): Outcome<SectionGeometry> {
  if (!(thickness >= 0.05 && thickness <= 0.2)) {
    return refuse(`thickness ${thickness} of the chord`, 'thickness', 'give 0.05 to 0.2');
  }
  if (!(noseHeight >= 0 && noseHeight <= 0.6))
    return refuse(`nose height ${noseHeight}`, 'noseHeight', 'give 0 to 0.6');
  const half = (x: number) => nacaHalfThickness(x, thickness, 'closed');
  const flatFrom = 0.3;
  const nose = (x: number) => (x < flatFrom ? (1 - x / flatFrom) ** 2 : 0);
  const lower: Ordinate = (x) => nose(x) * (noseHeight * thickness - half(x));
  const upper: Ordinate = (x) => lower(x) + 2 * half(x);
  return success(
    fromOrdinates(`flat bottom ${(100 * thickness).toFixed(1)} %`, upper, lower, [flatFrom], { leadingEdge: 'round' }),
  );
}
