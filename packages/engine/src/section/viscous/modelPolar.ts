import { brentRoot } from '../../math/roots.js';
import { sectionModel } from '../estimate.js';
import {
  sectionDragAtAngle,
  sectionDragAtLift,
  sectionLift,
  sectionLiftSlope,
  sectionMaximumLift,
  sectionMinimumLiftCoefficient,
  sectionMoment,
  sectionZeroLiftAngle,
} from '../model.js';
import type { Interval, SectionGeometry, SectionModel } from '../types.js';
import type { Covering } from './covering.js';
import type { SectionPolar } from './polar.js';

const DEGREE = Math.PI / 180;

/** Incidences of a polar [rad]. */
export interface PolarRange {
  readonly lowest: number;
  readonly highest: number;
  readonly step: number;
}

const USUAL: PolarRange = { lowest: -8 * DEGREE, highest: 16 * DEGREE, step: DEGREE / 2 };

/**
 * Polar of a section that no boundary layer is computed for, a plate or a step, out of its model.
 * model - of the section; reynolds - on the chord [-]; range - incidences [rad]
 * Both layers count as turbulent from the nose: a sharp nose trips them, and the model knows no transition.
 */
export function modelPolar(model: SectionModel, reynolds: number, range: PolarRange = USUAL): SectionPolar {
  const count = Math.round((range.highest - range.lowest) / range.step) + 1;
  const points = Array.from({ length: count }, (_, i) => {
    const alpha = range.lowest + i * range.step;
    return {
      alpha,
      lift: sectionLift(model, alpha, reynolds),
      drag: sectionDragAtAngle(model, alpha, reynolds),
      moment: sectionMoment(model, alpha, reynolds),
      upperTransition: 0,
      lowerTransition: 0,
    };
  });
  return { reynolds, points, holes: [] };
}

/** What a model says of a section at a lift. */
export interface ModelPoint {
  readonly alpha: number;
  /** With its 90 % interval. */
  readonly drag: Interval;
  readonly moment: number;
}

/**
 * Incidence, drag and moment of a model at a lift of attached flow; undefined beyond its greatest and least lift.
 * model - of the section; lift - coefficient [-]; reynolds - on the chord [-]
 */
export function modelAtLift(model: SectionModel, lift: number, reynolds: number): ModelPoint | undefined {
  const zero = sectionZeroLiftAngle(model, reynolds);
  const slope = sectionLiftSlope(model, reynolds);
  const most = sectionMaximumLift(model, reynolds).value;
  const least = sectionMinimumLiftCoefficient(model, reynolds);
  const over = (alpha: number) => sectionLift(model, alpha, reynolds) - lift;
  // The stall is rounded: lift goes on rising some degrees beyond where the straight line meets its greatest value.
  const [low, high] = [zero + least / slope - 0.04, zero + most / slope + 0.04];
  const alpha = brentRoot(over, low, high);
  if (alpha === undefined) return undefined;
  return {
    alpha,
    drag: sectionDragAtLift(model, lift, reynolds),
    moment: sectionMoment(model, alpha, reynolds),
  };
}

/** Model of a section under cells, by its formulas. */
export function coveredModel(geometry: SectionGeometry, { from, to, edge, cell }: Covering): SectionModel {
  const flats = cell > 0 ? { flats: { from, to, width: cell } } : {};
  return sectionModel(geometry, { cells: { from, to, edge }, ...flats });
}
