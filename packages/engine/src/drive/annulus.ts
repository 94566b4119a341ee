import { type BladeSection, type LiftDrag, type LiftDragFunction, liftDragOf } from './bladeSection.js';

/**
 * One blade annulus in a stream: inputs set by the caller, results written by `evaluateAnnulus` and `solveAnnulus`.
 * Mutable on purpose: one object serves every annulus of a rotor, so that a propeller table allocates nothing while it is built.
 */
export interface Annulus {
  bladeCount: number;
  /** [m] */
  tipRadius: number;
  /** Radius where the blade begins, 0 for no root loss [m]. */
  hubRadius: number;
  radius: number;
  chord: number;
  /** [rad] */
  pitchAngle: number;
  /** Axial airspeed, zero or positive [m/s]. */
  axialSpeed: number;
  /** Blade speed, rotation rate times radius, zero or positive [m/s]. */
  bladeSpeed: number;
  reynolds: number;
  /** Strength of the delay of stall by rotation, 3.1 (c/r)^2 (Omega r / W)^2, at most 1; 0 for none. */
  stallDelay: number;
  readonly liftSlope: number;
  /** At the Reynolds number of the annulus [rad]. */
  zeroLiftAngle: number;
  readonly liftDrag: LiftDragFunction;
  readonly forces: LiftDrag;

  /** True where the blade drives the air forward against the stream. */
  reversed: boolean;
  inflowAngle: number;
  /** Prandtl factor F. */
  lossFactor: number;
  /** Force coefficients along thrust and against rotation. */
  axialForce: number;
  tangentialForce: number;
  /** 4 F |sin phi| V / W and 4 F |sin phi| (Omega r) / W from momentum. */
  axialMomentum: number;
  tangentialMomentum: number;
  /** Relative speed W [m/s]. */
  relativeSpeed: number;
}

/** Tolerance of the inflow angle [rad]: loads change by less than 1e-7 of themselves. */
const angleTolerance = 1e-9;
const highestInduction = 0.4;
/** Angles of attack between which the delay of stall fades [rad]. */
const fadeStart = Math.PI / 6;
const fadeEnd = (50 * Math.PI) / 180;

/** Strength of the delay of stall by rotation. */
export function stallDelayOf(chord: number, radius: number, axialSpeed: number, bladeSpeed: number): number {
  const squared = axialSpeed * axialSpeed + bladeSpeed * bladeSpeed;
  if (!(squared > 0)) return 0;
  return Math.min(1, (3.1 * chord * chord * bladeSpeed * bladeSpeed) / (radius * radius * squared));
}

/** A fraction, not zero: numbers that start as integers would make the compiler of the host start over. */
const unset = 0.5;

export function newAnnulus(section: BladeSection): Annulus {
  return {
    bladeCount: 2,
    tipRadius: unset,
    hubRadius: unset,
    radius: unset,
    chord: unset,
    pitchAngle: unset,
    axialSpeed: unset,
    bladeSpeed: unset,
    reynolds: unset,
    stallDelay: unset,
    liftSlope: section.liftSlope,
    zeroLiftAngle: unset,
    liftDrag: liftDragOf(section),
    forces: { lift: unset, drag: unset },
    reversed: false,
    inflowAngle: unset,
    lossFactor: unset,
    axialForce: unset,
    tangentialForce: unset,
    axialMomentum: unset,
    tangentialMomentum: unset,
    relativeSpeed: unset,
  };
}

/** Prandtl's factor for one end of the blade: (2/pi) acos(exp(-f)), f = (B/2) gap / (edge |sin phi|). */
function prandtl(bladeCount: number, gap: number, edge: number, sine: number): number {
  const f = (bladeCount * gap) / (2 * edge * sine);
  return f > 18 ? 1 : (2 / Math.PI) * Math.acos(Math.exp(-f));
}

/**
 * Residual of blade-element and momentum theory at an inflow angle phi; its root is the inflow angle.
 *
 * Both sides of the annulus give V/W = sin phi - sigma cn / (4 F sin phi) and Omega r / W = cos phi + sigma ct / (4 F sin phi);
 * eliminating W and multiplying by 4 F |sin phi| leaves a residual that is regular at rest, at a stopped blade and at phi = 0,
 * negative at the lower and positive at the upper end of the bracket.
 *
 * Source: S. A. Ning, A simple solution method for the blade element momentum equations with guaranteed convergence,
 * Wind Energy 17(9), 2014 (form); the multiplied residual is derived from it.
 */
function residual(annulus: Annulus, phi: number): number {
  const { radius, tipRadius, hubRadius, bladeCount, forces } = annulus;
  const sine = Math.sin(phi);
  const cosine = Math.cos(phi);
  const size = Math.max(Math.abs(sine), 1e-12);
  let loss = prandtl(bladeCount, tipRadius - radius, radius, size);
  if (hubRadius > 0) loss *= prandtl(bladeCount, radius - hubRadius, hubRadius, size);
  const alpha = annulus.pitchAngle - phi;
  annulus.liftDrag(alpha, annulus.reynolds, forces);
  if (annulus.stallDelay > 0) delayStall(annulus, alpha);
  const solidity = (bladeCount * annulus.chord) / (2 * Math.PI * radius);
  const axialForce = forces.lift * cosine - forces.drag * sine;
  const tangentialForce = forces.lift * sine + forces.drag * cosine;
  const momentum = 4 * loss * size;
  let axial = momentum * sine - (annulus.reversed ? -1 : 1) * solidity * axialForce;
  // Axial induction above 0.4 against the stream: momentum theory fails, Buhl's fit replaces it.
  if (!annulus.reversed && axial * (1 - highestInduction) > momentum * sine)
    axial = brakingMomentum(loss, sine, solidity * axialForce);
  annulus.inflowAngle = phi;
  annulus.lossFactor = loss;
  annulus.axialForce = axialForce;
  annulus.tangentialForce = tangentialForce;
  annulus.axialMomentum = axial;
  annulus.tangentialMomentum = momentum * cosine + solidity * tangentialForce;
  return annulus.bladeSpeed * axial - annulus.axialSpeed * annulus.tangentialMomentum;
}

/**
 * Rotation delays stall: the separated air is pumped outwards, and its lower pressure adds a force normal to the chord,
 * delta cn = 3.1 (c/r)^2 (Omega r / W)^2 (attached lift - lift). Full up to 30 degrees of angle of attack, none from 50 degrees.
 * Source: H. Snel, R. Houwink, J. Bosschers, Sectional prediction of lift coefficients on rotating wind turbine blades in stall,
 * ECN-C-93-052, 1994; factor and speed ratio: C. Lindenburg, Investigation into rotor blade aerodynamics, ECN-C-03-025, 2003 (from memory).
 */
function delayStall(annulus: Annulus, alpha: number): void {
  const { forces, stallDelay } = annulus;
  const missing = annulus.liftSlope * (alpha - annulus.zeroLiftAngle) - forces.lift;
  if (!(missing > 0) || alpha > fadeEnd) return;
  const fade = alpha < fadeStart ? 1 : (fadeEnd - alpha) / (fadeEnd - fadeStart);
  const normal = stallDelay * fade * missing;
  forces.lift += normal * Math.cos(alpha);
  forces.drag += normal * Math.sin(alpha);
}

/**
 * 4 F sin(phi) V / W in the heavily braked state, from C = 8/9 + (4F - 40/9) a + (50/9 - 4F) a^2 with a = 1 - W sin(phi) / V.
 * Source: M. L. Buhl, A new empirical relationship between thrust coefficient and induction factor for the turbulent windmill state,
 * NREL/TP-500-36834, 2005.
 */
function brakingMomentum(loss: number, sine: number, load: number): number {
  const slope = (20 / 3 - 4 * loss) * sine;
  const square = slope * slope - 8 * ((50 / 9 - 4 * loss) * sine * sine + load);
  return loss * sine * (slope + Math.sqrt(Math.max(square, 0)));
}

/**
 * Finds the inflow angle of an annulus and leaves its loads in it.
 *
 * The angle without induction, atan(V / Omega r), divides the states: where the blade pushes the air back the root lies above it,
 * where the air drives or is braked by the blade it lies between zero and it, and where the blade throws the air forward faster
 * than it comes the root is negative. Stalled sections may have more than one root: the one nearest to `guess` is found.
 *
 * @param annulus - inputs; receives the results
 * @param guess - inflow angle of a neighbour, or NaN [rad]
 */
export function solveAnnulus(annulus: Annulus, guess: number): void {
  const { axialSpeed, bladeSpeed } = annulus;
  annulus.reversed = false;
  const undisturbed = Math.atan2(axialSpeed, bladeSpeed);
  let lower = undisturbed;
  let upper = Math.PI / 2;
  if (residual(annulus, undisturbed) > 0) {
    upper = undisturbed;
    lower = 0;
    residual(annulus, 0);
    const solidity = (annulus.bladeCount * annulus.chord) / (2 * Math.PI * annulus.radius);
    const load = -solidity * annulus.axialForce;
    if (load > 0 && 2 * axialSpeed * axialSpeed < load * bladeSpeed * bladeSpeed) {
      annulus.reversed = true;
      lower = -Math.PI / 2;
      upper = 0;
    }
  }
  const angle = bracketedAngle(annulus, lower, upper, guess);
  if (annulus.inflowAngle !== angle) residual(annulus, angle);
  const free = Math.hypot(axialSpeed, bladeSpeed);
  const momentum = Math.hypot(annulus.axialMomentum, annulus.tangentialMomentum);
  const speed = (free * 4 * annulus.lossFactor * Math.abs(Math.sin(annulus.inflowAngle))) / Math.max(momentum, 1e-12);
  // Drag alone on a blade without through-flow would stop the air around it; half and twice the free speed bound that corner.
  annulus.relativeSpeed = Math.min(Math.max(speed, free / 2), 2 * free);
}

/** Root in [lower, upper] nearest to the guess; residual(lower) < 0 < residual(upper). */
function bracketedAngle(annulus: Annulus, lower: number, upper: number, guess: number): number {
  let low = lower;
  let high = upper;
  let atLow = Number.NaN;
  let atHigh = Number.NaN;
  if (guess > lower && guess < upper) {
    const value = residual(annulus, guess);
    let step = 0.01;
    if (value < 0) {
      low = guess;
      atLow = value;
      for (let probe = guess + step; probe < upper; probe += step) {
        const next = residual(annulus, probe);
        if (next >= 0) {
          high = probe;
          atHigh = next;
          break;
        }
        low = probe;
        atLow = next;
        step *= 4;
      }
    } else {
      high = guess;
      atHigh = value;
      for (let probe = guess - step; probe > lower; probe -= step) {
        const next = residual(annulus, probe);
        if (next < 0) {
          low = probe;
          atLow = next;
          break;
        }
        high = probe;
        atHigh = next;
        step *= 4;
      }
    }
  }
  if (Number.isNaN(atLow)) atLow = residual(annulus, low);
  if (Number.isNaN(atHigh)) atHigh = residual(annulus, high);
  return refinedAngle(annulus, low, atLow, high, atHigh);
}

/**
 * Root by inverse quadratic interpolation where that is trustworthy, else bisection.
 * Source: T. R. Chandrupatla, A new hybrid quadratic/bisection algorithm, Advances in Engineering Software 28, 1997.
 */
function refinedAngle(annulus: Annulus, low: number, atLow: number, high: number, atHigh: number): number {
  if (!(atLow < 0)) return low;
  if (!(atHigh > 0)) return high;
  let a = low;
  let fa = atLow;
  let b = high;
  let fb = atHigh;
  // Its slope is about 4 F sin(phi) times the speed.
  const enough = 1e-10 * Math.hypot(annulus.axialSpeed, annulus.bladeSpeed);
  let t = fa / (fa - fb);
  for (let iteration = 0; iteration < 60; iteration++) {
    const x = a + t * (b - a);
    const fx = residual(annulus, x);
    let c: number;
    let fc: number;
    if (fx < 0 === fa < 0) {
      c = a;
      fc = fa;
    } else {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const width = Math.abs(b - a);
    if (Math.abs(fx) < enough || width < angleTolerance) return x;
    const xi = (a - b) / (c - b);
    const ratio = (fa - fb) / (fc - fb);
    const quadratic = ratio * ratio < xi && (1 - ratio) * (1 - ratio) < 1 - xi;
    t = quadratic
      ? (fa / (fb - fa)) * (fc / (fb - fc)) + (((c - a) / (b - a)) * (fa / (fc - fa)) * fb) / (fc - fb)
      : 0.5;
    const margin = angleTolerance / (2 * width);
    t = Math.min(Math.max(t, margin), 1 - margin);
  }
  return a;
}
