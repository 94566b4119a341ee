import type { BasisSolutions, WingModel } from './types.js';

/** Lift, and moment about a reference point, per unit of one cause. */
export interface UnitForces {
  readonly lift: number;
  readonly moment: number;
}

/** Linear longitudinal coefficients about a moment reference; angles in radians, rates made dimensionless with the mean chord. */
export interface LongitudinalDerivatives {
  /** At zero angle of attack, controls neutral. */
  readonly zero: UnitForces;
  readonly alpha: UnitForces;
  readonly pitchRate: UnitForces;
  readonly controls: Readonly<Record<string, UnitForces>>;
  /** Neutral point, aft of the datum [m], bodies included. */
  readonly neutralPoint: number;
  /** (neutral point - moment reference) / mean chord. */
  readonly staticMargin: number;
}

/** Lift and moment about the datum of one column. */
function columnForces(model: WingModel, basis: BasisSolutions, column: number): UnitForces {
  const { strips, reference } = model;
  const n = strips.mirroredCount;
  let lift = 0;
  let moment = 0;
  for (let i = 0; i < n; i++) {
    const factor = (4 * strips.width[i] * strips.nz[i]) / reference.area;
    lift += factor * basis.circulation[column * n + i];
    moment -= (factor * basis.firstMoment[column * n + i]) / reference.chord;
  }
  return { lift, moment };
}

/** Moment coefficient at zero lift that the sections have beyond what the lattice makes of their camber, if given by strip. */
export function sectionMoment(model: WingModel, moments: ArrayLike<number>): number {
  const { strips, reference } = model;
  let sum = 0;
  for (let i = 0; i < strips.mirroredCount; i++)
    sum += 2 * (moments[i] - strips.latticeMoment[i]) * strips.area[i] * strips.chord[i] * strips.nz[i];
  return sum / (reference.area * reference.chord);
}

/**
 * Linear lift and moment coefficients per cause about a moment reference, and the neutral point.
 *
 * model - from solveWing
 * reference - moments about this x, aft of the datum [m]
 * Returns coefficients on the model's reference area and chord, nose up positive. Camber moments are those of thin-airfoil theory.
 * The pitch rate turns the aircraft about the reference point.
 */
export function wingDerivatives(model: WingModel, reference: { readonly x: number }): LongitudinalDerivatives {
  const chord = model.reference.chord;
  const about = ({ lift, moment }: UnitForces): UnitForces => ({ lift, moment: moment + (lift * reference.x) / chord });
  const column = (index: number) => columnForces(model, model.symmetric, index);
  const zeroLattice = column(0);
  const zero = about({
    lift: zeroLattice.lift,
    moment: zeroLattice.moment + sectionMoment(model, model.strips.thinMoment),
  });
  const lattice = column(1);
  const alpha = about({ lift: lattice.lift, moment: lattice.moment + model.bodyMomentSlope });
  const datumRate = column(2);
  // Turning about the reference instead of the datum: less incidence by 2 x / c at every point.
  const pitchRate = about({
    lift: datumRate.lift - ((2 * reference.x) / chord) * lattice.lift,
    moment: datumRate.moment - ((2 * reference.x) / chord) * lattice.moment,
  });
  const controls: Record<string, UnitForces> = {};
  model.symmetric.names.slice(3).forEach((name, i) => {
    controls[name] = about(column(3 + i));
  });
  const neutralPoint = reference.x - (alpha.moment / alpha.lift) * chord;
  return { zero, alpha, pitchRate, controls, neutralPoint, staticMargin: (neutralPoint - reference.x) / chord };
}

/** Rolling moment (right wing down), yawing moment (nose right) and side force (to the right) per unit of one cause. */
export interface LateralForces {
  readonly rolling: number;
  readonly yawing: number;
  readonly side: number;
}

/** Linear lateral coefficients on area and span; rates made dimensionless with half the span. */
export interface LateralDerivatives {
  readonly sideslip: LateralForces;
  readonly rollRate: LateralForces;
  readonly yawRate: LateralForces;
  /**
   * Per radian: both sides in opposition, the right one's trailing edge down (rolls left), so a deflection of one radian on each side;
   * a rudder deflects so that its side force is to the right.
   */
  readonly controls: Readonly<Record<string, LateralForces>>;
}

function lateralColumn(
  model: WingModel,
  basis: BasisSolutions,
  column: number,
  about: { x: number; z: number },
): LateralForces {
  const { strips, reference } = model;
  const n = strips.count;
  let rolling = 0;
  let yawing = 0;
  let side = 0;
  for (let i = 0; i < n; i++) {
    const sides = i < strips.mirroredCount ? 2 : 1;
    const factor = (2 * sides * strips.width[i]) / reference.area;
    const circulation = basis.circulation[column * n + i];
    const right = factor * strips.ny[i] * circulation;
    side += right;
    rolling += (right * (strips.z[i] - about.z) - factor * strips.nz[i] * circulation * strips.y[i]) / reference.span;
    // A force to the right behind the reference turns the nose left.
    yawing -= (factor * strips.ny[i] * (basis.firstMoment[column * n + i] - about.x * circulation)) / reference.span;
  }
  return { rolling, yawing, side };
}

/**
 * Lateral coefficients from the antisymmetric solutions about a moment reference.
 * Left out: what changes with lift (yaw from roll rate, roll from yaw rate, roll of a swept wing in sideslip) and bodies.
 *
 * Returns undefined when the model was solved without its antisymmetric half.
 */
export function lateralDerivatives(
  model: WingModel,
  reference: { readonly x: number; readonly z: number },
): LateralDerivatives | undefined {
  const basis = model.antisymmetric;
  if (!basis) return undefined;
  const column = (index: number) => lateralColumn(model, basis, index, reference);
  const combine = (a: LateralForces, b: LateralForces, factor: number): LateralForces => ({
    rolling: a.rolling + factor * b.rolling,
    yawing: a.yawing + factor * b.yawing,
    side: a.side + factor * b.side,
  });
  const controls: Record<string, LateralForces> = {};
  basis.names.slice(3).forEach((name, i) => {
    controls[name] = column(3 + i);
  });
  const sideslip = column(0);
  const perSpan = 2 / model.reference.span;
  return {
    sideslip,
    // Turning about the reference instead of the datum is an added sideslip.
    rollRate: combine(column(1), sideslip, -perSpan * reference.z),
    yawRate: combine(column(2), sideslip, perSpan * reference.x),
    controls,
  };
}
