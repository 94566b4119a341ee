import { greatestBulge } from './flatness.js';
import { mixedPlateFriction } from './friction.js';
import type { SectionEstimate, SectionGeometry, SectionOptions } from './types.js';

/**
 * Constants of the estimate, the same for every section. Those of the drag law were fitted to one section (Eppler 387, University of
 * Illinois tunnel, 60 000 to 460 000), except where the remark says judgement.
 */
const DRAG = {
  /** Friction of a section over that of a plate, beyond Hoerner's form factor. */
  level: 1.118,
  /** Reynolds number on the distance to free transition; above about 6e5 a station that moves from 0.65 to 0.35 of chord at 6e6 (judgement, to meet NACA Report 824). */
  transitionReynolds: 4.1e5,
  transitionStation: 0.35,
  stationPerDecade: 0.3,
  /** Bubble drag / friction drag at Re 2e5 and at its worst lift. The fit to the Eppler 387 gives 0.616; that section is known for its bubble, so 0.8 of it (judgement). */
  bubble: 0.493,
  bubbleExponent: 1.102,
  /** Below Re 6e4 the bubble is held: no calibration. */
  bubbleReynolds: 5.9e4,
  /** Bubble drag grows with thickness (judgement: in proportion, between these factors of the calibration section's). */
  bubbleThickness: 0.0907,
  /** Lift of the worst bubble above that of least drag; of a symmetric section on either side, where it is weaker (judgement). */
  bubbleLift: 0.2,
  bubbleLiftSymmetric: 0.35,
  bubbleWidth: 0.36,
  /** A trip ahead of laminar separation removes most of the bubble (judgement). */
  bubbleTripped: 0.2,
  /** Lift of least drag per camber / chord. */
  liftPerCamber: 12.5,
  /** Rise towards stall and below the lower corner of the low-drag range. */
  upper: 0.0215,
  upperWidth: 0.171,
  lower: 0.0091,
  lowerWidth: 0.184,
  halfRange: 0.496,
} as const;

/** Relative standard deviation of drag: constant + part that grows as 1e5 / Re; and of the lift at which the corners lie (judgement from five measured sections). */
const SPREAD = { constant: 0.07, perReynolds: 0.17, upperLift: 0.08, lowerLift: 0.09, sharp: 0.25 } as const;

const LIFT_STALL = {
  thickness: [0.02, 0.06, 0.09, 0.12, 0.15, 0.18, 0.24],
  /** Greatest lift of a symmetric section at Re 2e5 (judgement from low-speed tunnel data). */
  base: [0.62, 0.72, 0.84, 0.95, 1.0, 0.98, 0.9],
  /** Its growth per decade of Reynolds number (to meet NACA Report 824 at 9e6). */
  growth: [0, 0.12, 0.29, 0.39, 0.38, 0.35, 0.3],
  perCamber: 10,
} as const;

/** Below this the constants mean nothing; a still wing must not give an infinite coefficient. */
const LEAST_REYNOLDS = 1e3;

/** Decades above Re 2e5, negative below. */
const decadesAbove = (reynolds: number): number => Math.log(Math.max(LEAST_REYNOLDS, reynolds) / 2e5) * Math.LOG10E;

function lookUp(xs: readonly number[], ys: readonly number[], x: number): number {
  if (x <= xs[0]) return ys[0];
  for (let i = 1; i < xs.length; i++) {
    if (x <= xs[i]) return ys[i - 1] + ((ys[i] - ys[i - 1]) * (x - xs[i - 1])) / (xs[i] - xs[i - 1]);
  }
  return ys[ys.length - 1];
}

/** Viscous / inviscid zero-lift angle and moment (between the Eppler 387 at 2e5 and NACA Report 824). */
const ZERO_LIFT_FACTOR = 0.94;
const MOMENT_FACTOR = 0.93;

/** Cells on the upper surface: profile drag up by 0 to 15 %, evenly likely. Source: common practice; W. Chen, L. Bernal, AIAA 2008-316 for faceted sections with little loss. */
const CELL_DRAG = { mean: 0.075, deviation: 0.15 / Math.sqrt(12) } as const;
/**
 * Drag of a section whose upper surface is made of flats / drag of the smooth one, and the standard deviation of its logarithm.
 *
 * bulge - greatest height of the smooth surface over a flat / chord [-]
 * Returns exp(x^2 / (2 (1 + x^2))), x = bulge / 0.011, and 0.24 x / (0.5 + x).
 *
 * Source: own solution of the boundary layer for NACA 3410, 2410, 4409 and 2412 with one to seven flats between 10 and 80 % of the chord, at
 * 1e5, 2e5 and 3e5 and lifts of 0.3 to 0.9: means of the logarithm 0.00 at a bulge of 0.15 %, 0.06 at 0.4 %, 0.13 at 0.65 %, 0.26 at 1.15 %, 0.46
 * at 2.9 %; less at 1e5, where corners end the bubble (down to -0.2), more at 3e5. No measured faceted section was compared.
 */
export function facetDrag(bulge: number): { readonly factor: number; readonly spread: number } {
  const x = Math.max(0, bulge) / 0.011;
  return { factor: Math.exp((0.5 * x * x) / (1 + x * x)), spread: (0.24 * x) / (0.5 + x) };
}

/** Drag coefficient of a backward-facing step on its own height. Source: S. F. Hoerner, Fluid-Dynamic Drag, 1965 (from memory). */
const STEP_DRAG = 0.2;
const STEP_SPREAD = 0.3;
/**
 * Drag of a blunt trailing edge on the height of the edge: 0.135 / cube root of the friction drag on that height, with a friction of 0.012 of the
 * chord, that of a plate at 1e5: only its cube root counts. Source: S. F. Hoerner, Fluid-Dynamic Drag, 1965 (from memory).
 */
const BASE_DRAG = { factor: 0.135, friction: 0.012 } as const;

/**
 * Added spread of a plate with a blunt trailing edge: whether it costs Hoerner's base drag or next to nothing (Pelletier, Mueller, J. Aircraft
 * 37(5), 2000, abstract: the shape of the trailing edge mattered little) is open, against a drag of 0.02; at most as
 * much as a plate is uncertain by itself.
 */
const bluntSpread = (height: number): number =>
  height > 0
    ? Math.min(SPREAD.sharp, (BASE_DRAG.factor * height * Math.cbrt(height / BASE_DRAG.friction)) / 0.02 / 1.645)
    : 0;

/** From this thickness on a rounded nose is known to keep its suction (measured sections); at half of it, it may lose all (judgement). */
const SUCTION_KEPT = 0.06;
/** A trip: own drag and whether it works are uncertain (judgement from two tripped sections). */
const TRIP_SPREAD = 0.12;

/**
 * First viscous estimate of a section from its thickness, camber and mean line.
 *
 * geometry - section; options - trip, cells, own drag factor
 * Returns a model for all `section...` functions. Range of calibration: round sections 6 to 13 % thick, camber up to 5 %,
 * Re 6e4 to 5e5; beyond it the spread widens.
 */
export function sectionModel(geometry: SectionGeometry, options: SectionOptions = {}): SectionEstimate {
  const thickness = geometry.maximumThickness;
  const camber = geometry.maximumCamber;
  const sharp = geometry.leadingEdge === 'sharp';
  const facets = facetDrag(options.flats === undefined ? 0 : greatestBulge(geometry, options.flats));
  const cells = options.cells && options.cells.to > options.cells.from ? CELL_DRAG : { mean: 0, deviation: 0 };
  const outside = sharp
    ? bluntSpread(geometry.trailingEdgeThickness)
    : Math.max(0, 0.06 - thickness, thickness - 0.13) * 1.5 + Math.max(0, Math.abs(camber) - 0.05) * 3;
  const step = geometry.step > 0 ? STEP_SPREAD : 0;
  const trip = options.transitionAt !== undefined && options.transitionAt < 1 ? TRIP_SPREAD : 0;
  return {
    kind: 'estimate',
    name: geometry.name,
    leadingEdge: geometry.leadingEdge,
    zeroLiftAngle: ZERO_LIFT_FACTOR * geometry.thinAirfoil.zeroLiftAngle,
    moment: MOMENT_FACTOR * geometry.thinAirfoil.moment,
    liftSlope: 2 * Math.PI * (1 + 0.77 * thickness),
    thickness,
    camber,
    // An arc plate meets its nose smoothly at incidence zero, where its lift is 4 pi camber.
    designLift: (sharp ? 4 * Math.PI : DRAG.liftPerCamber) * camber,
    transitionAt: Math.min(1, Math.max(0, options.transitionAt ?? 1)),
    dragFactor: (options.dragFactor ?? 1) * (1 + cells.mean) * facets.factor,
    addedSpread: Math.hypot(cells.deviation, facets.spread, options.dragFactorSpread ?? 0, outside, step, trip),
    stepDrag: STEP_DRAG * geometry.step,
  };
}

/** Lift-curve slope of the attached flow [1/rad]. The boundary layer costs 13 % at model size and less above. */
export function estimateLiftSlope(model: SectionEstimate, reynolds: number): number {
  const decades = Math.min(1.5, Math.max(0, decadesAbove(reynolds)));
  return model.liftSlope * (0.87 + 0.027 * decades);
}

/** Greatest lift for a camber of the given sign; the most negative lift is minus that of the section upside down. */
function stallLift(model: SectionEstimate, camber: number, reynolds: number): number {
  const decades = Math.min(2, Math.max(-1, decadesAbove(reynolds)));
  const base = lookUp(LIFT_STALL.thickness, LIFT_STALL.base, model.thickness);
  const growth = lookUp(LIFT_STALL.thickness, LIFT_STALL.growth, model.thickness);
  const rise = growth * (decades > 0 ? decades : 0.3 * decades);
  const above = Math.max(0, decades);
  const plate = model.leadingEdge === 'sharp';
  const fromCamber = (LIFT_STALL.perCamber * (plate ? 0.8 : 1) * camber) / (1 + 0.45 * above * above);
  return Math.max(0.2, (plate ? 0.72 : base + rise) + fromCamber);
}

export const estimateMaximumLift = (model: SectionEstimate, reynolds: number): number =>
  stallLift(model, model.camber, reynolds);

export const estimateMinimumLift = (model: SectionEstimate, reynolds: number): number =>
  -stallLift(model, -model.camber, reynolds);

/** Relative standard deviation of the greatest lift. */
export function estimateMaximumLiftSpread(model: SectionEstimate, reynolds: number): number {
  const low = Math.min(0.15, 0.05 * Math.max(0, Math.log(1e5 / Math.max(LEAST_REYNOLDS, reynolds))));
  return (model.leadingEdge === 'sharp' ? 0.12 : 0.07) + low + 2 * Math.max(0, Math.abs(model.camber) - 0.05);
}

/** Friction of both sides with form factor. */
function frictionDrag(model: SectionEstimate, anyReynolds: number): number {
  const reynolds = Math.max(LEAST_REYNOLDS, anyReynolds);
  const decades = Math.min(1, Math.max(0, Math.log(6e6 / reynolds) * Math.LOG10E));
  const station = DRAG.transitionStation + DRAG.stationPerDecade * decades;
  const free = Math.max(DRAG.transitionReynolds, station * reynolds);
  const transition = Math.min(free, model.transitionAt * reynolds);
  const t = model.thickness;
  return 2 * DRAG.level * (1 + 2 * t + 60 * t ** 4) * mixedPlateFriction(reynolds, transition);
}

/** 0 for a symmetric section, 1 from 2 % camber on: how far the polar is one-sided. */
const oneSided = (model: SectionEstimate): number => Math.min(1, Math.abs(model.camber) / 0.02);

/** Bell of the bubble drag about its worst lift. */
function bell(away: number): number {
  const shape = 1 / (1 + away * away);
  return shape * shape;
}

/** Bubble drag / friction drag. `lift` counts positive towards the convex side; a symmetric section has its bubble on either side. */
function bubbleShare(model: SectionEstimate, lift: number, reynolds: number): number {
  const thick = Math.min(1.6, Math.max(0.2, model.thickness / DRAG.bubbleThickness));
  const share = oneSided(model);
  const worst = Math.abs(model.designLift) + DRAG.bubbleLift * share + DRAG.bubbleLiftSymmetric * (1 - share);
  const near = bell((lift - worst) / DRAG.bubbleWidth);
  const shape = share === 1 ? near : Math.max(near, (1 - share) * bell((lift + worst) / DRAG.bubbleWidth));
  const tripped = model.transitionAt < 0.4 ? DRAG.bubbleTripped : 1;
  const size = Math.exp(DRAG.bubbleExponent * Math.log(2e5 / Math.max(reynolds, DRAG.bubbleReynolds)));
  return DRAG.bubble * (0.6 + 0.4 * share) * tripped * thick * size * shape;
}

const RISE_CAP = 3;

/** Drag rise towards the stall on one side. */
const stallRise = (lift: number, limit: number): number =>
  DRAG.upper * Math.exp(Math.min(RISE_CAP, (lift - limit) / DRAG.upperWidth));

const upperRise = (model: SectionEstimate, lift: number, reynolds: number): number =>
  stallRise(lift, stallLift(model, Math.abs(model.camber), reynolds));

/** Below the low-drag range: nose separation on the concave side of a cambered section, the mirrored stall of a symmetric one. */
function lowerRise(model: SectionEstimate, lift: number, reynolds: number): number {
  const share = oneSided(model);
  const corner = Math.abs(model.designLift) - DRAG.halfRange;
  const cambered = share * DRAG.lower * Math.exp(Math.min(RISE_CAP, (corner - lift) / DRAG.lowerWidth));
  if (share === 1) return cambered;
  return cambered + (1 - share) * stallRise(-lift, stallLift(model, -Math.abs(model.camber), reynolds));
}

/** Lift counted towards the convex side, so that a section upside down has the mirrored polar. */
const towardsConvex = (model: SectionEstimate, cl: number): number => (model.camber < 0 ? -cl : cl);

/** Sharp plates: the flow separates at the nose and re-attaches turbulent, hence little dependence on Reynolds number. */
function plateDrag(model: SectionEstimate, cl: number, reynolds: number): number {
  // Held beyond any lift that a plate can have.
  const away = Math.min(2, Math.max(-2, cl - model.designLift));
  const lost = Math.min(1, 1.2 * Math.abs(away));
  const held = Math.max(LEAST_REYNOLDS, reynolds);
  const friction = 2 * mixedPlateFriction(held, Math.min(5e4, model.transitionAt * held));
  return friction + 0.1 * model.thickness + (lost * away * away) / estimateLiftSlope(model, reynolds);
}

/** Profile drag coefficient at a lift coefficient. */
export function estimateDrag(model: SectionEstimate, cl: number, reynolds: number): number {
  if (model.leadingEdge === 'sharp') return model.dragFactor * (plateDrag(model, cl, reynolds) + model.stepDrag);
  const lift = towardsConvex(model, cl);
  const attached = frictionDrag(model, reynolds) * (1 + bubbleShare(model, lift, reynolds));
  const rises = upperRise(model, lift, reynolds) + lowerRise(model, lift, reynolds);
  return model.dragFactor * (attached + rises + model.stepDrag);
}

/** Relative standard deviation of the profile drag coefficient. */
export function estimateDragSpread(model: SectionEstimate, cl: number, reynolds: number): number {
  const added = model.addedSpread * model.addedSpread;
  if (model.leadingEdge === 'sharp') return Math.sqrt(SPREAD.sharp * SPREAD.sharp + added);
  const lift = towardsConvex(model, cl);
  const general = SPREAD.constant + (SPREAD.perReynolds * 1e5) / Math.max(3e4, reynolds);
  const whole = estimateDrag(model, cl, reynolds) / model.dragFactor;
  const upper = ((upperRise(model, lift, reynolds) / whole) * SPREAD.upperLift) / DRAG.upperWidth;
  const lower = ((lowerRise(model, lift, reynolds) / whole) * SPREAD.lowerLift) / DRAG.lowerWidth;
  const suction = suctionSpread(model, whole, cl, reynolds);
  return Math.sqrt(general * general + upper * upper + lower * lower + suction * suction + added);
}

/**
 * Spread of a thin section with a rounded nose that may separate there as a sharp one does: the drag of a plate without suction is the upper end of
 * its 90 % interval. Pelletier, Mueller 2000: plates 1.9 % thick, noses rounded (from memory), had such drag at 1.4e5.
 * whole - drag without own factor
 */
function suctionSpread(model: SectionEstimate, whole: number, cl: number, reynolds: number): number {
  const share = Math.min(1, Math.max(0, (SUCTION_KEPT - model.thickness) / (0.5 * SUCTION_KEPT)));
  if (share === 0) return 0;
  return (share * Math.max(0, Math.log(plateDrag(model, cl, reynolds) / whole))) / 1.645;
}
