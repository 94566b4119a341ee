import { nearestStall, type StripSections, wingForces } from './forces.js';
import type { WingForces, WingModel, WingState } from './types.js';

export interface MaximumLift {
  /** Greatest lift coefficient of all surfaces together, and its angle of attack [rad]. */
  readonly liftCoefficient: number;
  readonly alpha: number;
  /** Where and when the first strip of a wing reaches its section's maximum lift. */
  readonly first: {
    readonly liftCoefficient: number;
    readonly alpha: number;
    /** Fraction of the half span. */
    readonly station: number;
    readonly surface: string;
  };
}

const degree = Math.PI / 180;

/** Whether a surface kind counts as wing here: a tail may stall without the lift ending. */
const isWing = (kind: string): boolean => kind === 'wing' || kind === 'canard';

/** Angle at which the margin of the wing's first strip vanishes: the margin is close to linear in the angle. */
function firstStallAngle(margin: (alpha: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let i = 0; i < 40 && high - low > 1e-6; i++) {
    const middle = (low + high) / 2;
    if (margin(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Maximum lift with controls as stated: the angle of attack is raised until more stalled strips lose lift than others gain.
 *
 * model - from solveWing
 * state - airspeed, viscosity and deflections as for wingForces; its angle of attack is ignored
 * sections - by the names that stations use
 * Returns the maximum and where stall begins. The lift at the first stalled strip is the cautious value of the two.
 */
export function maximumLift(model: WingModel, state: Omit<WingState, 'alpha'>, sections: StripSections): MaximumLift {
  const at = (alpha: number): WingForces => wingForces(model, { ...state, alpha }, sections);
  const stall = (alpha: number) => nearestStall(model, at(alpha).strips, isWing, 'upper');
  const firstAlpha = firstStallAngle((alpha) => stall(alpha).margin, -40 * degree, 60 * degree);
  const strip = stall(firstAlpha).strip;
  let best = at(firstAlpha);
  let alpha = firstAlpha;
  for (let next = firstAlpha + 0.25 * degree; next < firstAlpha + 30 * degree; next += 0.25 * degree) {
    const forces = at(next);
    if (forces.liftCoefficient <= best.liftCoefficient) break;
    best = forces;
    alpha = next;
  }
  return {
    liftCoefficient: best.liftCoefficient,
    alpha,
    first: {
      liftCoefficient: at(firstAlpha).liftCoefficient,
      alpha: firstAlpha,
      station: model.strips.station[strip],
      surface: model.surfaces[model.strips.surface[strip]].name,
    },
  };
}
