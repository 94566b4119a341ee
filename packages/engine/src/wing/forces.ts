import { countedDeflection } from '../section/turning.js';
import { relieveStall } from './stall.js';
import type {
  BasisSolutions,
  ModelControl,
  StripLoads,
  StripSection,
  WingForces,
  WingModel,
  WingState,
} from './types.js';

export type StripSections = Readonly<Record<string, StripSection>>;

/** The side-edge vortices break down near 25 degrees: their force grows no further (judgement; lift of plates peaks near 20 degrees). */
const sideEdgeLimit = Math.sin((25 * Math.PI) / 180);

/** A section that has stalled keeps at least this part of its maximum lift (judgement). */
const stalledLiftFloor = 0.6;

function sectionOf(sections: StripSections, name: string): StripSection {
  const found = sections[name];
  if (!found) throw new RangeError(`no section data for ${name}`);
  return found;
}

/** The two sections that a strip lies between, and the share of the outer one; one section twice where nothing is blended. */
interface Between {
  readonly inner: StripSection;
  readonly outer: StripSection;
  readonly share: number;
}

/** The newest of each model: a flight asks for forces with the same sections hundreds of times. */
const lastBetween = new WeakMap<
  WingModel,
  { readonly sections: StripSections; readonly between: readonly Between[] }
>();

/** Sections of all strips of a model. */
function sectionsBetween(model: WingModel, sections: StripSections): readonly Between[] {
  const known = lastBetween.get(model);
  if (known?.sections === sections) return known.between;
  const { strips } = model;
  const between = strips.sections.map((name, i) => {
    const inner = sectionOf(sections, name);
    const outer = strips.blend[i] === 0 ? inner : sectionOf(sections, strips.outerSections[i]);
    return { inner, outer, share: outer === inner ? 0 : strips.blend[i] };
  });
  lastBetween.set(model, { sections, between });
  return between;
}

/** Value at a strip from those of its two sections. */
const mixed = (share: number, inner: number, outer: number): number => inner + share * (outer - inner);

const lowerLimit = (section: StripSection, reynolds: number, deflection: number): number =>
  section.minimumLift?.(reynolds, deflection) ?? -0.7 * section.maximumLift(reynolds, deflection);

/** Deflection that counts of one control in a state [rad]. */
const countedOf = (control: ModelControl, state: WingState): number =>
  countedDeflection(
    control,
    state.controls?.[control.name] ?? 0,
    (state.airspeed * control.chord) / state.kinematicViscosity,
  );

/** Weights of the symmetric columns in a state: camber and twist, angle of attack, pitch rate, controls. */
function columnWeights(model: WingModel, state: WingState): Float64Array {
  const names = model.symmetric.names;
  const weights = new Float64Array(names.length);
  const pitchRate = state.pitchRate ?? 0;
  weights[0] = 1;
  // Turning about the moment reference instead of the datum takes incidence off everywhere alike.
  weights[1] = Math.sin(state.alpha) - (pitchRate * 2 * state.momentReference.x) / model.reference.chord;
  weights[2] = pitchRate;
  for (let c = 3; c < names.length; c++) {
    const control = model.controls.find(({ name }) => name === names[c]);
    weights[c] = control === undefined ? 0 : countedOf(control, state);
  }
  return weights;
}

/** Adds the weighted columns by strip to `sum`. */
function combined(values: Float64Array, weights: Float64Array, n: number, sum: Float64Array): Float64Array {
  for (let c = 0; c < weights.length; c++) {
    const weight = weights[c];
    if (weight === 0) continue;
    for (let i = 0; i < n; i++) sum[i] += weight * values[c * n + i];
  }
  return sum;
}

interface StripState {
  readonly circulation: Float64Array;
  readonly firstMoment: Float64Array;
  readonly leadingEdge: Float64Array;
}

function stripState(basis: BasisSolutions, weights: Float64Array, n: number): StripState {
  const numbers = arraysOf(n, 3);
  return {
    circulation: combined(basis.circulation, weights, n, numbers()),
    firstMoment: combined(basis.firstMoment, weights, n, numbers()),
    leadingEdge: combined(basis.leadingEdge, weights, n, numbers()),
  };
}

const sumOf = (a: StripState, b: StripState): StripState => ({
  circulation: a.circulation.map((value, i) => value + b.circulation[i]),
  firstMoment: a.firstMoment.map((value, i) => value + b.firstMoment[i]),
  leadingEdge: a.leadingEdge.map((value, i) => value + b.leadingEdge[i]),
});

/** Every strip's load in the ratio of its lift to the attached one. */
function scaledTo(strip: StripState, attached: Float64Array, lift: Float64Array): StripState {
  const scaled = (values: Float64Array) =>
    values.map((value, i) => (attached[i] === 0 ? value : (value * lift[i]) / attached[i]));
  return {
    circulation: scaled(strip.circulation),
    firstMoment: scaled(strip.firstMoment),
    leadingEdge: scaled(strip.leadingEdge),
  };
}

/** Arrays of n numbers in one piece of memory: a verdict asks for forces thousands of times, and memory is what costs. */
function arraysOf(n: number, count: number): () => Float64Array {
  const memory = new Float64Array(n * count);
  let next = 0;
  return () => memory.subarray(n * next, n * ++next);
}

function emptyLoads(n: number): StripLoads {
  const numbers = arraysOf(n, 8);
  return {
    liftCoefficient: numbers(),
    attachedLift: numbers(),
    reynolds: numbers(),
    profileDragCoefficient: numbers(),
    momentCoefficient: numbers(),
    maximumLift: numbers(),
    minimumLift: numbers(),
    beyondStall: numbers(),
  };
}

/** Turning deflection that each strip sees [rad]. */
function deflections(model: WingModel, state: WingState): Float64Array {
  const seen = new Float64Array(model.strips.count);
  for (const control of model.controls) {
    const turning = countedOf(control, state);
    if (turning === 0) continue;
    for (let i = 0; i < seen.length; i++) seen[i] += turning * control.coverage[i];
  }
  return seen;
}

function fillLimits(
  model: WingModel,
  state: WingState,
  between: readonly Between[],
  loads: StripLoads,
  deflection: Float64Array,
): void {
  const { strips } = model;
  for (let i = 0; i < strips.count; i++) {
    const { inner, outer, share } = between[i];
    const turned = deflection[i];
    const reynolds = (state.airspeed * strips.chord[i]) / state.kinematicViscosity;
    // Simple sweep theory: only the flow across the span separates.
    const sweep = strips.cosSweep[i] * strips.cosSweep[i];
    loads.reynolds[i] = reynolds;
    let upper = inner.maximumLift(reynolds, turned);
    let lower = lowerLimit(inner, reynolds, turned);
    if (share !== 0) {
      upper = mixed(share, upper, outer.maximumLift(reynolds, turned));
      lower = mixed(share, lower, lowerLimit(outer, reynolds, turned));
    }
    loads.maximumLift[i] = sweep * upper;
    loads.minimumLift[i] = sweep * lower;
  }
}

/** Lift of stalled strips falls below the limit as they go further beyond it; their drag is that of a plate turned so far. */
function fillProfileDrag(between: readonly Between[], loads: StripLoads, deflection: Float64Array): void {
  for (let i = 0; i < between.length; i++) {
    const { inner, outer, share } = between[i];
    const reynolds = loads.reynolds[i];
    const beyond = loads.beyondStall[i];
    let cl = loads.liftCoefficient[i];
    let drag = inner.dragCoefficient(cl, reynolds, deflection[i]);
    if (share !== 0) drag = mixed(share, drag, outer.dragCoefficient(cl, reynolds, deflection[i]));
    loads.profileDragCoefficient[i] = drag;
    if (beyond === 0) continue;
    const slope = mixed(share, inner.postStallSlope ?? 2, outer.postStallSlope ?? 2);
    const kept = Math.max(stalledLiftFloor * Math.abs(cl), Math.abs(cl) - slope * Math.abs(beyond));
    cl = Math.sign(cl) * kept;
    loads.liftCoefficient[i] = cl;
    loads.profileDragCoefficient[i] += kept * Math.sin(Math.abs(beyond));
  }
}

/** Far-field drag plus what lost leading-edge suction adds, on the reference area. */
function inducedDrag(model: WingModel, { circulation, leadingEdge }: StripState): number {
  const { strips, farField, surfaces } = model;
  const n = strips.mirroredCount;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    let wash = 0;
    for (let j = 0; j < n; j++) wash += farField[i * n + j] * circulation[j];
    const lost = 1 - surfaces[strips.surface[i]].suction;
    sum += strips.width[i] * (circulation[i] * wash + lost * strips.suctionFactor[i] * leadingEdge[i] * leadingEdge[i]);
  }
  return (2 * sum) / model.reference.area;
}

interface Sums {
  lift: number;
  drag: number;
  moment: number;
}

/** Side-edge force of each surface from the incidence that its mean lift stands for. */
function addSideEdges(model: WingModel, state: WingState, circulation: Float64Array, sums: Sums): void {
  const { strips, symmetric, surfaces, reference } = model;
  const n = strips.mirroredCount;
  const cosine = Math.cos(state.alpha);
  surfaces.forEach((surface, index) => {
    if (surface.sideEdge === 0) return;
    let lift = 0;
    let perAlpha = 0;
    for (let i = 0; i < n; i++) {
      if (strips.surface[i] !== index) continue;
      const weight = strips.width[i] * strips.nz[i];
      lift += weight * circulation[i];
      perAlpha += weight * symmetric.circulation[n + i];
    }
    if (!(perAlpha > 0)) return;
    const sine = Math.max(-sideEdgeLimit, Math.min(sideEdgeLimit, lift / perAlpha));
    const normal = surface.sideEdge * sine * Math.abs(sine);
    sums.lift += normal * cosine;
    sums.drag += normal * sine;
    sums.moment -= (normal * (surface.xSideEdge - state.momentReference.x)) / reference.chord;
  });
}

/** Lift, profile drag and moment of the strips. */
function stripSums(
  model: WingModel,
  state: WingState,
  { loads, strip, between }: { loads: StripLoads; strip: StripState; between: readonly Between[] },
): Sums & { profile: number; liftHeight: number } {
  const { strips, reference, surfaces } = model;
  const { x: xReference, z: zReference } = state.momentReference;
  const sine = Math.sin(state.alpha);
  const cosine = Math.cos(state.alpha);
  const sums = { lift: 0, drag: 0, moment: 0, profile: 0, liftHeight: 0 };
  for (let i = 0; i < strips.count; i++) {
    const mirrored = i < strips.mirroredCount;
    const area = (mirrored ? 2 : 1) * strips.area[i];
    const drag = area * loads.profileDragCoefficient[i];
    let lift = 0;
    if (mirrored) {
      // The suction that is lost would have tilted the force back to the normal of the airspeed.
      const tilt = cosine * cosine + surfaces[strips.surface[i]].suction * sine * sine;
      const normal = area * strips.nz[i] * loads.liftCoefficient[i];
      // Moment about the strip's quarter chord: of the lattice's loading, with the section's own in place of that of its camber.
      const arm = strips.x[i] * strip.circulation[i] - strip.firstMoment[i];
      const { inner, outer, share } = between[i];
      const section = mixed(share, inner.momentCoefficient, outer.momentCoefficient) - strips.latticeMoment[i];
      const moment = (2 * arm) / (strips.chord[i] * strips.chord[i]) + section;
      loads.momentCoefficient[i] = moment;
      lift = normal * tilt;
      sums.moment += cosine * normal * (xReference - strips.x[i]) + area * strips.chord[i] * strips.nz[i] * moment;
    }
    const height = strips.z[i] - zReference;
    sums.moment += (drag * cosine - lift * sine) * height;
    sums.liftHeight += lift * height;
    sums.lift += lift;
    sums.profile += drag;
  }
  sums.lift /= reference.area;
  sums.profile /= reference.area;
  sums.liftHeight /= reference.area;
  sums.moment /= reference.area * reference.chord;
  return sums;
}

/** Least distance to stall among strips of surfaces for which `counts` holds; at the upper limit only, or at both. */
export function nearestStall(
  model: WingModel,
  loads: StripLoads,
  counts: (kind: string) => boolean,
  limits: 'upper' | 'both' = 'both',
): { margin: number; strip: number } {
  let margin = Infinity;
  let strip = 0;
  for (let i = 0; i < model.strips.mirroredCount; i++) {
    if (!counts(model.surfaces[model.strips.surface[i]].kind)) continue;
    const above = loads.maximumLift[i] - loads.attachedLift[i];
    const here = limits === 'upper' ? above : Math.min(above, loads.attachedLift[i] - loads.minimumLift[i]);
    if (here < margin) {
      margin = here;
      strip = i;
    }
  }
  return { margin, strip };
}

/**
 * Forces of the lifting surfaces in a symmetric state: lattice lift and moment, far-field induced drag, profile drag strip by strip from
 * the sections at their local lift and Reynolds number, stall by strip, side-edge lift. Fuselage and other parasite drag are not included;
 * the bodies' moment is.
 *
 * model - from solveWing
 * state - angle of attack and deflections [rad], airspeed [m/s], kinematic viscosity [m2/s], moment reference [m]
 * sections - by the names that stations use
 * Returns coefficients on the reference area and mean chord; lift up, drag aft along the airspeed, moment nose up.
 */
export function wingForces(model: WingModel, state: WingState, sections: StripSections): WingForces {
  const { strips, symmetric, response } = model;
  const n = strips.mirroredCount;
  let strip = stripState(symmetric, columnWeights(model, state), n);
  const attachedCirculation = strip.circulation;
  const loads = emptyLoads(strips.count);
  const deflection = deflections(model, state);
  for (let i = 0; i < n; i++) loads.attachedLift[i] = (2 * strip.circulation[i]) / strips.chord[i];
  const between = sectionsBetween(model, sections);
  fillLimits(model, state, between, loads, deflection);
  const limits = { attached: loads.attachedLift, lower: loads.minimumLift, upper: loads.maximumLift };
  const relief = relieveStall(strips, response, limits, loads.liftCoefficient);
  if (relief) {
    for (let i = 0; i < n; i++) loads.beyondStall[i] = -relief.incidence[i];
    strip = relief.coupled
      ? sumOf(strip, stripState(response, relief.incidence, n))
      : scaledTo(strip, loads.attachedLift, loads.liftCoefficient);
  }
  fillProfileDrag(between, loads, deflection);
  const sums = stripSums(model, state, { loads, strip, between });
  const induced = inducedDrag(model, strip);
  const total: Sums = { lift: sums.lift, drag: induced, moment: sums.moment };
  // Induced drag acts at the height where the lift that makes it does.
  if (Math.abs(sums.lift) > 1e-9)
    total.moment += (induced * Math.cos(state.alpha) * (sums.liftHeight / sums.lift)) / model.reference.chord;
  total.moment += model.bodyMomentSlope * Math.sin(state.alpha) * Math.cos(state.alpha);
  addSideEdges(model, state, attachedCirculation, total);
  const nearest = nearestStall(model, loads, (kind) => kind !== 'fin');
  return {
    liftCoefficient: total.lift,
    inducedDragCoefficient: total.drag,
    profileDragCoefficient: sums.profile,
    pitchingMomentCoefficient: total.moment,
    stallMargin: nearest.margin,
    stallStation: strips.station[nearest.strip],
    stallSurface: model.surfaces[strips.surface[nearest.strip]].name,
    strips: loads,
  };
}
