import { type SmoothGrid, smoothGridValue, smoothRowValue } from '../math/smoothGrid.js';

/**
 * Section of a blade as four numbers of lift and four of drag, with their change with Reynolds number and a post-stall
 * extension to a flat plate. It stands in where nothing but the shape of the blade is known.
 */
export interface SimpleBladeSection {
  readonly kind: 'simple';
  /** Angle of the nose-tail chord at zero lift [rad]; negative for positive camber. */
  readonly zeroLiftAngle: number;
  /**
   * Reynolds number by which camber becomes effective: the zero-lift angle grows as 1 - exp(-Re / this) and has its stated value
   * at the reference Reynolds number. 0: the angle does not change.
   */
  readonly camberReynolds: number;
  /** Attached lift slope [1/rad]. */
  readonly liftSlope: number;
  /** Highest lift coefficient at the reference Reynolds number. */
  readonly maximumLift: number;
  /** Lowest lift coefficient at the reference Reynolds number (negative). */
  readonly minimumLift: number;
  /** Exponent of the Reynolds number in both lift limits. */
  readonly liftLimitExponent: number;
  /** Lowest drag coefficient at the reference Reynolds number. */
  readonly minimumDrag: number;
  /** Lift coefficient of lowest drag. */
  readonly liftAtMinimumDrag: number;
  /** Factor of (cl - liftAtMinimumDrag)^2 in the drag coefficient at the reference Reynolds number. */
  readonly dragRise: number;
  /** Exponent of the Reynolds number in the drag coefficient (negative: less drag at a higher number). */
  readonly dragExponent: number;
  readonly referenceReynolds: number;
  /** Normal-force coefficient at 90 degrees. */
  readonly plateDrag: number;
}

/** Section polars on a regular grid, as a section solver or a wind tunnel gives them; rows by Reynolds number, columns by angle of attack. */
export interface TabulatedBladeSection {
  readonly kind: 'table';
  /** By row [rad]. */
  readonly zeroLiftAngles: Float64Array;
  readonly liftSlope: number;
  /** First angle of attack and step [rad]; beyond the grid the section is a stalled plate. */
  readonly angleStart: number;
  readonly angleStep: number;
  /** Natural logarithm of the first Reynolds number, and step. */
  readonly logReynoldsStart: number;
  readonly logReynoldsStep: number;
  readonly lift: SmoothGrid;
  readonly drag: SmoothGrid;
  readonly plateDrag: number;
}

export type BladeSection = SimpleBladeSection | TabulatedBladeSection;

/** Receives lift and drag coefficient, so that the inner loop of a propeller allocates nothing. */
export interface LiftDrag {
  lift: number;
  drag: number;
}

/** Lift and drag coefficient at an angle of attack [rad] and a Reynolds number. */
export type LiftDragFunction = (alpha: number, reynolds: number, into: LiftDrag) => void;

/**
 * Generic thin cambered blade section of a small moulded propeller.
 *
 * Lift slope 0.95 x 2 pi, lift limit 1.2 and drag (0.02 + 0.03 (cl - 0.5)^2) (Re/1e5)^-0.5 are common practice for Reynolds
 * numbers from 3e4 to 3e5. The loss of camber at low Reynolds number is that of the wind-tunnel sections A18, SD7037 and E387
 * between 3e4 and 3e5 (M. S. Selig et al., Summary of Low-Speed Airfoil Data, vol. 1 to 3, 1995-1998): the angle of attack for a lift
 * coefficient of 0.3 to 0.5 moves by 0.15 to 0.3 of the zero-lift angle at 6e4, by 0.5 to 0.6 at 4e4. Its constant, 4.5e4, was
 * chosen within that range after three values had been tried against the measured propellers of the checks, which are therefore
 * no fully blind test; the other constants were not set by a propeller. The zero-lift angle belongs to a nose-tail chord of an
 * unknown cambered section: -3 degrees with a standard uncertainty of 2 degrees; wide thin slow-flight blades have about -7.
 */
export const genericBladeSection: SimpleBladeSection = {
  kind: 'simple',
  zeroLiftAngle: (-3 * Math.PI) / 180,
  camberReynolds: 4.5e4,
  liftSlope: 0.95 * 2 * Math.PI,
  maximumLift: 1.2,
  minimumLift: -0.8,
  liftLimitExponent: 0,
  minimumDrag: 0.02,
  liftAtMinimumDrag: 0.5,
  dragRise: 0.03,
  dragExponent: -0.5,
  referenceReynolds: 1e5,
  plateDrag: 1.25,
};

/** Range of Reynolds number in which the power laws of a simple section are used; held constant outside. */
const lowestReynolds = 5e3;
const highestReynolds = 3e6;

/**
 * Makes the lift and drag function of a section, for angles of attack from -pi to pi.
 *
 * @param section - data of the section
 * @returns function that writes lift and drag coefficient
 */
export function liftDragOf(section: BladeSection): LiftDragFunction {
  return section.kind === 'simple' ? simpleLiftDrag(section) : tabulatedLiftDrag(section);
}

/**
 * Lift and drag coefficient of a section at one angle of attack.
 *
 * @param section - data of the section
 * @param alpha - angle of attack of the nose-tail chord [rad]
 * @param reynolds - Reynolds number of the chord
 */
export function bladeSectionForces(section: BladeSection, alpha: number, reynolds: number): Readonly<LiftDrag> {
  const into: LiftDrag = { lift: 0, drag: 0 };
  liftDragOf(section)(alpha, reynolds, into);
  return into;
}

/** Zero-lift angle at a Reynolds number [rad]. */
export function zeroLiftAngleAt(section: BladeSection, reynolds: number): number {
  if (section.kind === 'table') return smoothRowValue(section.zeroLiftAngles, rowOf(section, reynolds));
  if (section.camberReynolds === 0) return section.zeroLiftAngle;
  const share = 1 - Math.exp(-reynolds / section.camberReynolds);
  return (section.zeroLiftAngle * share) / (1 - Math.exp(-section.referenceReynolds / section.camberReynolds));
}

function simpleLiftDrag(section: SimpleBladeSection): LiftDragFunction {
  const { liftSlope, liftAtMinimumDrag, plateDrag } = section;
  // The factors change only with the Reynolds number, which a root search keeps: they are remembered for the last one.
  let lastReynolds = Number.NaN;
  let zeroLiftAngle = 0;
  let highest = 0;
  let lowest = 0;
  let floor = 0;
  let rise = 0;
  return (alpha, reynolds, into) => {
    if (reynolds !== lastReynolds) {
      const ratio = Math.min(Math.max(reynolds, lowestReynolds), highestReynolds) / section.referenceReynolds;
      const liftFactor = section.liftLimitExponent === 0 ? 1 : ratio ** section.liftLimitExponent;
      const dragFactor = ratio ** section.dragExponent;
      zeroLiftAngle = zeroLiftAngleAt(section, reynolds);
      highest = section.maximumLift * liftFactor;
      lowest = section.minimumLift * liftFactor;
      floor = section.minimumDrag * dragFactor;
      rise = section.dragRise * dragFactor;
      lastReynolds = reynolds;
    }
    const attached = liftSlope * (alpha - zeroLiftAngle);
    const limit = attached > 0 ? highest : lowest;
    if (attached <= highest && attached >= lowest) {
      const excess = attached - liftAtMinimumDrag;
      into.lift = attached;
      into.drag = floor + rise * excess * excess;
      return;
    }
    const excess = limit - liftAtMinimumDrag;
    postStall(alpha, zeroLiftAngle + limit / liftSlope, limit, floor + rise * excess * excess, plateDrag, into);
  };
}

/** Angle beyond stall over which the suction at the leading edge is lost [rad]. Judgement: thin sections lose it within 6 degrees. */
const suctionLoss = 0.1;

/**
 * Lift and drag beyond stall. Lift: cl = (k/2) sin 2a + A cos^2 a / sin a with A from the stall point. Drag: from its value at stall
 * to cl tan a + friction, the force of a section without leading-edge suction, which is normal to the chord.
 * The extension starts no closer to zero than 3 degrees, where its second term would grow without bound.
 * Source: L. A. Viterna, R. D. Corrigan, Fixed pitch rotor performance of large horizontal axis wind turbines, NASA CP-2230, 1981 (lift);
 * drag by first principles for thin sections.
 */
function postStall(
  alpha: number,
  stallAngle: number,
  stallLift: number,
  stallDrag: number,
  plateDrag: number,
  into: LiftDrag,
): void {
  const side = stallLift > 0 ? 1 : -1;
  const from = Math.max(side * stallAngle, 0.05);
  const angle = Math.min(Math.max(side * alpha, from), Math.PI - 0.05);
  const sine = Math.sin(angle);
  const cosine = Math.cos(angle);
  const sineFrom = Math.sin(from);
  const cosineFrom = Math.cos(from);
  const a = ((side * stallLift - plateDrag * sineFrom * cosineFrom) * sineFrom) / (cosineFrom * cosineFrom);
  const lost = Math.min((angle - from) / suctionLoss, 1);
  const share = lost * lost * (3 - 2 * lost);
  into.lift = side * (plateDrag * sine * cosine + (a * cosine * cosine) / sine);
  // cl tan(a), written so that it stays finite at 90 degrees; beyond it the sharp edge leads and the plate alone remains.
  into.drag = stallDrag + share * (plateDrag * sine * sine + a * Math.max(cosine, 0));
}

const rowOf = ({ logReynoldsStart, logReynoldsStep }: TabulatedBladeSection, reynolds: number): number =>
  (Math.log(Math.max(reynolds, 1)) - logReynoldsStart) / logReynoldsStep;

function tabulatedLiftDrag(section: TabulatedBladeSection): LiftDragFunction {
  const { lift, drag, angleStart, angleStep, plateDrag } = section;
  const angleEnd = angleStart + angleStep * (lift.columns - 1);
  // A root search keeps the Reynolds number.
  let lastReynolds = Number.NaN;
  let row = 0;
  return (alpha, reynolds, into) => {
    if (reynolds !== lastReynolds) {
      row = rowOf(section, reynolds);
      lastReynolds = reynolds;
    }
    const angle = Math.min(Math.max(alpha, angleStart), angleEnd);
    const column = (angle - angleStart) / angleStep;
    into.lift = smoothGridValue(lift, row, column);
    into.drag = smoothGridValue(drag, row, column);
    if (angle !== alpha) postStall(alpha, angle, into.lift, into.drag, plateDrag, into);
  };
}
