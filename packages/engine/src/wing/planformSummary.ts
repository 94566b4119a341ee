import { type Outcome, success } from '../result.js';
import { type LiftingSurface, planform, type Shape } from '../shape/index.js';
import { wingDerivatives } from './derivatives.js';
import { solveWing } from './solve.js';
import type { WingModel, WingOptions } from './types.js';

/** What a bare wing does, linear and plane. */
export interface WingSummary {
  /** [1/rad] */
  readonly liftSlope: number;
  /** Lift squared / (pi x aspect ratio x induced drag), from the wake far behind. */
  readonly spanEfficiency: number;
  /** Induced drag / lift squared by the other way: pressure on the surface less leading-edge suction, over the far-field one. */
  readonly nearOverFar: number;
  /** Neutral point aft of the leading edge of the mean aerodynamic chord, in mean aerodynamic chords. */
  readonly neutralPoint: number;
  /** Neutral point aft of the datum [m]. */
  readonly xNeutralPoint: number;
  readonly aspectRatio: number;
}

/** Far-field drag and leading-edge suction of the angle-of-attack solution, full suction, per radian squared. */
function alphaDrag(model: WingModel): { farField: number; suction: number } {
  const { strips, symmetric, farField, reference } = model;
  const n = strips.mirroredCount;
  let drag = 0;
  let suction = 0;
  for (let i = 0; i < n; i++) {
    let wash = 0;
    for (let j = 0; j < n; j++) wash += farField[i * n + j] * symmetric.circulation[n + j];
    drag += 2 * strips.width[i] * symmetric.circulation[n + i] * wash;
    suction += 2 * strips.width[i] * strips.suctionFactor[i] * symmetric.leadingEdge[n + i] ** 2;
  }
  return { farField: drag / reference.area, suction: suction / reference.area };
}

/**
 * Lift slope, span efficiency and neutral point of one wing alone.
 *
 * surface - the wing; options - as for solveWing
 */
export function summariseWing(surface: LiftingSurface, options: WingOptions = {}): Outcome<WingSummary> {
  const shape: Shape = { surfaces: [surface], bodies: [], parasites: [] };
  const solved = solveWing(shape, { lateral: false, ...options });
  if (!solved.ok) return solved;
  const model = solved.value;
  const { alpha, neutralPoint } = wingDerivatives(model, { x: 0 });
  const { farField, suction } = alphaDrag(model);
  const { span, aspectRatio } = planform(surface);
  const projectedAspect = (span * span) / model.reference.area;
  return success({
    liftSlope: alpha.lift,
    spanEfficiency: alpha.lift ** 2 / (Math.PI * projectedAspect * farField),
    nearOverFar: (alpha.lift - suction) / farField,
    neutralPoint: (neutralPoint - model.reference.xMeanChord) / model.reference.chord,
    xNeutralPoint: neutralPoint,
    aspectRatio,
  });
}
