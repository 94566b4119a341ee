import { brentRoot } from '../math/index.js';
import { type Outcome, problem, success } from '../result.js';
import { type DriveConditions, newPoint, operate } from './drive.js';
import type { PropellerModel } from './propeller.js';

/** How the propeller is left without power. */
export type UnpoweredState = 'free-wheel' | 'stopped' | 'folded';

/** Drag of all unpowered propellers. */
export interface UnpoweredDrag {
  /** Positive aft [N] */
  readonly drag: number;
  /** Drag over dynamic pressure [m2] */
  readonly dragArea: number;
  /** [rad/s] */
  readonly rotationRate: number;
  /** Standard uncertainty of the drag (relative) */
  readonly uncertainty: number;
}

/**
 * Speed at which the wind turns the propeller against the friction of gear and motor with the controller off [rad/s]:
 * the highest speed where the motor current would be zero; 0 where friction holds it.
 * Cogging of the magnets, which can hold a propeller that friction would let turn, is not known and left out.
 */
export function freeWheelRate(conditions: DriveConditions): number {
  const { drive, airspeed } = conditions;
  if (airspeed === 0) return 0;
  const point = newPoint();
  const current = (rate: number) => {
    operate(conditions, rate, point);
    return point.current;
  };
  // Starts where every propeller absorbs power: an advance ratio of 0.1.
  let upper = (2 * Math.PI * airspeed) / (0.1 * drive.propeller.model.diameter);
  for (let step = 0; step < 60; step++) {
    const lower = upper * 0.9;
    if (current(lower) <= 0) return brentRoot(current, lower, upper, { tolerance: 1e-9 * upper }) ?? lower;
    upper = lower;
  }
  return 0;
}

/**
 * Drag area of stopped blades [m2]: (0.1 + cos^2 beta) times the plan area, beta at 0.7 R.
 * Source: S. F. Hoerner, Fluid-Dynamic Drag, 1965 (from memory).
 */
export const stoppedDragArea = (model: { readonly bladeArea: number; readonly pitchAngle: number }): number =>
  (0.1 + Math.cos(model.pitchAngle) ** 2) * model.bladeArea;

/** Friction coefficient of folded blades on their wetted area. Judgement: rough slender strips in the wake of the spinner. */
export const foldedFrictionCoefficient = 0.01;

/** Drag area of blades folded along the body [m2]: friction on both faces. */
export const foldedDragArea = (model: { readonly bladeArea: number }): number =>
  2 * foldedFrictionCoefficient * model.bladeArea;

/** Standard uncertainties of the three drags (relative). Judgement; folded blades depend most on the body. */
const uncertainties: Readonly<Record<UnpoweredState, number>> = { 'free-wheel': 0.3, stopped: 0.2, folded: 0.5 };

/**
 * Drag of the propellers when the motors are off.
 *
 * @param request - drive, airspeed, air; the bus voltage is not used
 * @param request.state - free-wheel (motor friction only), stopped (brake of the controller), folded
 */
export function unpoweredDrag(
  request: Omit<DriveConditions, 'busVoltage'> & { readonly state: UnpoweredState },
): Outcome<UnpoweredDrag> {
  const { drive, airspeed, air, state } = request;
  if (!(airspeed >= 0)) throw new RangeError('the airspeed must not be negative');
  const { model } = drive.propeller;
  const dynamicPressure = 0.5 * air.density * airspeed * airspeed;
  const fault = missingShape(model, state);
  if (fault !== undefined) return fault;
  const conditions: DriveConditions = { ...request, busVoltage: 1 };
  const rotationRate = state === 'free-wheel' ? freeWheelRate(conditions) : 0;
  let dragArea = drive.count * (state === 'folded' ? foldedDragArea(model) : stoppedDragArea(model));
  if (rotationRate > 0) {
    const point = newPoint();
    operate(conditions, rotationRate, point);
    dragArea = (-point.loads.thrust * drive.count) / dynamicPressure;
  }
  const uncertainty = uncertainties[state];
  return success({ drag: dragArea * dynamicPressure, dragArea, rotationRate, uncertainty });
}

function missingShape(model: PropellerModel, state: UnpoweredState) {
  if (model.kind === 'table' || (state !== 'free-wheel' && model.bladeArea > 0)) return undefined;
  return problem({
    code: 'propeller-shape',
    reason:
      state === 'free-wheel'
        ? 'A measured table does not reach the free-wheeling state.'
        : 'The plan area of the blades is not known.',
    where: model.name,
    remedy: 'Describe the blades, or let the propeller stop or fold.',
  });
}
