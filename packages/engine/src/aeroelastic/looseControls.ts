import { scatterRow } from '../structure/build.js';
import type { StructuralModel } from '../structure/index.js';

/**
 * The same structure with linkages that hold nothing: what controls are within the slop of their linkages.
 * Undefined where no control has a linkage.
 */
export function looseControls(model: StructuralModel): StructuralModel | undefined {
  if (!model.controls.some(({ linkageStiffness }) => linkageStiffness > 0)) return undefined;
  const stiffness = model.stiffness.slice();
  for (const { y, surfaceSlope, controlSlope, linkageStiffness, hornY } of model.controls) {
    let k = 0;
    while (k < y.length - 2 && y[k + 1] < hornY) k++;
    const share = Math.min(1, Math.max(0, (hornY - y[k]) / (y[k + 1] - y[k])));
    const dofs = [surfaceSlope[k], controlSlope[k], surfaceSlope[k + 1], controlSlope[k + 1]];
    const weights = Float64Array.of(share - 1, 1 - share, -share, share);
    // A thousandth is left: a control without any spring would turn freely, which is no vibration.
    scatterRow(stiffness, model.dofCount, { dofs, weights }, -0.999 * linkageStiffness);
  }
  return { ...model, stiffness };
}
