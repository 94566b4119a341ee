/** Drag of a step up and of one down on the pressure of the flow they stand in. Source: S. Hoerner, Fluid-Dynamic Drag, 1965 (from memory). */
export const STEP_DRAG = { up: 0.4, down: 0.2 } as const;
/** That of a ridge: up and down again. */
export const RIDGE_DRAG = STEP_DRAG.up + STEP_DRAG.down;

/**
 * Momentum thickness that a ridge or step takes from a laminar layer: half its drag coefficient times the mean square of the speed over its
 * height, in a sine profile.
 * height - of the ridge; theta - momentum thickness of the layer it stands in (same length); drag - its coefficient
 */
export function ridgeLoss(height: number, theta: number, drag: number = RIDGE_DRAG): number {
  // Momentum thickness of a sine profile is 2 / pi - 1 / 2 of its thickness.
  const thickness = theta / (2 / Math.PI - 0.5);
  const inside = Math.min(height, thickness);
  const square = 0.5 * inside - (thickness / (2 * Math.PI)) * Math.sin((Math.PI * inside) / thickness);
  return 0.5 * drag * (square + height - inside);
}
