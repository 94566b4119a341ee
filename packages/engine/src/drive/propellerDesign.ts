import { brentRoot } from '../math/index.js';
import { type Outcome, problem, success } from '../result.js';
import { type BladeSection, genericBladeSection, zeroLiftAngleAt } from './bladeSection.js';
import { type BladeStation, checkPropellerGeometry, type PropellerGeometry } from './propellerGeometry.js';

/** Design point of a propeller of minimum induced loss. */
export interface PropellerDesignPoint {
  /** [m] */
  readonly diameter: number;
  readonly bladeCount: number;
  /** Design airspeed, positive [m/s] */
  readonly airspeed: number;
  /** [rad/s] */
  readonly rotationRate: number;
  /** [kg/m3] */
  readonly density: number;
  /** Thrust [N] or shaft power [W]. */
  readonly load: { readonly thrust: number } | { readonly power: number };
  /** Lift coefficient of every section. */
  readonly liftCoefficient: number;
  /** Drag over lift of every section. */
  readonly dragToLift: number;
  /** Root radius over tip radius. */
  readonly hubFraction: number;
  readonly section: BladeSection;
}

/** A designed propeller and what it does at its design point. */
export interface PropellerDesign {
  readonly geometry: PropellerGeometry;
  /** Displacement velocity over airspeed. */
  readonly displacementRatio: number;
  /** [N], [W] */
  readonly thrust: number;
  readonly power: number;
  readonly efficiency: number;
  /** 2T / (rho V^2 pi R^2) and 2P / (rho V^3 pi R^2) */
  readonly thrustLoading: number;
  readonly powerLoading: number;
  /** Inflow angle at each station of the geometry [rad]. */
  readonly inflowAngles: readonly number[];
}

/** Radii of the stations over tip radius, between root and tip. */
const stationCount = 18;
const integrationCount = 400;

/** Helix of the displaced wake at one radius: loss factor times circulation function, and inflow angle. */
function wakeAt(fraction: number, lambda: number, zeta: number, bladeCount: number) {
  const tipTangent = lambda * (1 + zeta / 2);
  const tipAngle = Math.atan(tipTangent);
  const inflowAngle = Math.atan(tipTangent / fraction);
  const f = ((bladeCount / 2) * (1 - fraction)) / Math.sin(tipAngle);
  const lossFactor = (2 / Math.PI) * Math.acos(Math.exp(-f));
  const circulation = lossFactor * (fraction / lambda) * Math.cos(inflowAngle) * Math.sin(inflowAngle);
  return { inflowAngle, circulation };
}

/** Integrals of thrust (I1, I2) and power (J1, J2) over the blade for a displacement ratio. */
function designIntegrals(point: PropellerDesignPoint, lambda: number, zeta: number) {
  const { bladeCount, dragToLift: e, hubFraction } = point;
  const width = (1 - hubFraction) / integrationCount;
  let i1 = 0;
  let i2 = 0;
  let j1 = 0;
  let j2 = 0;
  for (let k = 0; k < integrationCount; k++) {
    const xi = hubFraction + (k + 0.5) * width;
    const { inflowAngle, circulation } = wakeAt(xi, lambda, zeta, bladeCount);
    const tangent = Math.tan(inflowAngle);
    const sine = Math.sin(inflowAngle);
    const cosine = Math.cos(inflowAngle);
    const first = 4 * xi * circulation * (1 - e * tangent);
    const power = 4 * xi * circulation * (1 + e / tangent);
    i1 += first * width;
    i2 += lambda * (first / (2 * xi)) * (1 + e / tangent) * sine * cosine * width;
    j1 += power * width;
    j2 += (power / 2) * (1 - e * tangent) * cosine * cosine * width;
  }
  return { i1, i2, j1, j2 };
}

/** Angle of the chord against the relative flow at a lift coefficient [rad]. */
/** Reynolds number at which a blade is designed: of the outer blade of a usual propeller in cruise. */
const designReynolds = 1e5;

const incidence = (section: BladeSection, lift: number) =>
  zeroLiftAngleAt(section, designReynolds) + lift / section.liftSlope;

/** Blade stations for a displacement ratio; the chord vanishes at the tip, where the last one keeps a tenth of the inner neighbour. */
function designStations(point: PropellerDesignPoint, lambda: number, zeta: number) {
  const { bladeCount, hubFraction, liftCoefficient, dragToLift, section } = point;
  const stations: BladeStation[] = [];
  const inflowAngles: number[] = [];
  for (let k = 0; k < stationCount; k++) {
    // Close together at the tip, where the chord falls like a square root.
    const xi = hubFraction + (1 - hubFraction) * Math.sin((Math.PI / 2) * (k / (stationCount - 1)));
    const { inflowAngle, circulation } = wakeAt(Math.min(xi, 0.9995), lambda, zeta, bladeCount);
    const axial = (zeta / 2) * Math.cos(inflowAngle) ** 2 * (1 - dragToLift * Math.tan(inflowAngle));
    const speedRatio = (1 + axial) / Math.sin(inflowAngle);
    const chordFraction = (4 * Math.PI * lambda * circulation * zeta) / (liftCoefficient * bladeCount * speedRatio);
    const pitchAngle = inflowAngle + incidence(section, liftCoefficient);
    stations.push({ radiusFraction: Math.min(xi, 1), chordFraction, pitchAngle });
    inflowAngles.push(inflowAngle);
  }
  return { stations, inflowAngles };
}

/**
 * Propeller of minimum induced loss for a design point.
 *
 * @param point - design point: diameter, blades, airspeed, rotation rate, density, thrust or power, lift coefficient, drag to lift,
 * root radius, section
 * @returns geometry and performance at the design point, or why there is none
 *
 * Source: A. Betz 1919; E. E. Larrabee, SAE 790585, 1979; C. N. Adkins and R. H. Liebeck, Design of optimum propellers,
 * J. Propulsion and Power 10(5), 1994 (from memory; integrals verified numerically).
 */
export function designPropeller(point: PropellerDesignPoint): Outcome<PropellerDesign> {
  const { diameter, airspeed, rotationRate, density, load, hubFraction, liftCoefficient, dragToLift } = point;
  const loading = 'thrust' in load ? load.thrust : load.power;
  const positive = [diameter, airspeed, rotationRate, density, loading, hubFraction, liftCoefficient];
  if (!positive.every((x) => x > 0 && Number.isFinite(x)) || !(dragToLift >= 0) || !(hubFraction < 0.9))
    return designProblem('A value of the design point is missing, negative or zero.');
  const radius = diameter / 2;
  const lambda = airspeed / (rotationRate * radius);
  const area = Math.PI * radius * radius;
  const thrustLoading = 'thrust' in load ? (2 * load.thrust) / (density * airspeed ** 2 * area) : undefined;
  const powerLoading = 'power' in load ? (2 * load.power) / (density * airspeed ** 3 * area) : undefined;
  let zeta = 0;
  for (let iteration = 0; iteration < 100; iteration++) {
    const { i1, i2, j1, j2 } = designIntegrals(point, lambda, zeta);
    let next: number;
    if (thrustLoading !== undefined) {
      const square = (i1 / (2 * i2)) ** 2 - thrustLoading / i2;
      if (square < 0) return designProblem('The disc is too small for that thrust at that airspeed.');
      next = i1 / (2 * i2) - Math.sqrt(square);
    } else next = -j1 / (2 * j2) + Math.sqrt((j1 / (2 * j2)) ** 2 + powerLoading! / j2);
    const change = Math.abs(next - zeta);
    zeta = next;
    if (change < 1e-12) break;
  }
  const { i1, i2, j1, j2 } = designIntegrals(point, lambda, zeta);
  const tc = i1 * zeta - i2 * zeta * zeta;
  const pc = j1 * zeta + j2 * zeta * zeta;
  const { stations, inflowAngles } = designStations(point, lambda, zeta);
  const widest = Math.max(...stations.map((s) => s.chordFraction));
  if (!(tc > 0 && widest < 1)) return designProblem('The blades would be wider than the radius.');
  const { bladeCount, section } = point;
  return success({
    geometry: { diameter, bladeCount, stations, section },
    displacementRatio: zeta,
    thrust: (tc * density * airspeed ** 2 * area) / 2,
    power: (pc * density * airspeed ** 3 * area) / 2,
    efficiency: tc / pc,
    thrustLoading: tc,
    powerLoading: pc,
    inflowAngles,
  });
}

const designProblem = (reason: string) =>
  problem({
    code: 'propeller-design',
    reason,
    where: 'propeller',
    remedy: 'More diameter or blades, a higher lift coefficient, a faster rotation, or less thrust.',
  });

/**
 * Chord over tip radius at 0.75 R of generic blades of a diameter [m]. Larger propellers of the same series are narrower:
 * 0.128 at 10 in, 0.104 at 17 in, 0.102 at 19 in for thin electric blades, hence the exponent; slow-flight blades are wider (0.20).
 * Source: geometry tables of J. B. Brandt and M. S. Selig, AIAA 2011-1255, as in the checks of this folder.
 */
export const genericChordFraction = (diameter: number): number => 0.128 * (diameter / 0.254) ** -0.37;

/**
 * Widest chord over chord at 0.75 R of a moulded blade; minimum induced loss alone would widen the root without bound.
 * Common practice: 1.2 to 1.6 on measured blades.
 */
const genericTaper = 1.6;

/**
 * Generic propeller of a nominal size such as 10 x 6 in: minimum induced loss at the design point that gives the nominal pitch and
 * the usual blade width.
 *
 * @param size.diameter - [m]
 * @param size.pitch - nominal pitch 2 pi r tan(beta) at 0.75 R, 0.2 to 2 diameters [m]
 * @param size.bladeCount - default 2
 * @param size.chordFraction - chord over tip radius at 0.75 R, default that of `genericChordFraction`
 * @param size.section - default `genericBladeSection`
 * @param size.liftCoefficient - design lift coefficient; default the highest of 0.5 to 0.1 with which the blade can be designed
 * @returns geometry, or why no such propeller can be designed
 */
export function genericPropeller(size: {
  readonly diameter: number;
  readonly pitch: number;
  readonly bladeCount?: number;
  readonly chordFraction?: number;
  readonly section?: BladeSection;
  readonly liftCoefficient?: number;
}): Outcome<PropellerGeometry> {
  const { diameter, pitch, bladeCount = 2, section = genericBladeSection } = size;
  const { chordFraction = genericChordFraction(diameter) } = size;
  if (!(diameter > 0 && pitch > 0)) return designProblem('Diameter and pitch must be positive.');
  if (!(pitch >= 0.2 * diameter && pitch <= 2 * diameter)) return pitchProblem(size);
  // Wide blades of a low pitch cannot be loaded as highly: the wake of the design point would have to stand still.
  const lifts = size.liftCoefficient === undefined ? [0.5, 0.4, 0.3, 0.2, 0.15, 0.1] : [size.liftCoefficient];
  for (const liftCoefficient of lifts) {
    const angle = Math.atan(pitch / (0.75 * Math.PI * diameter)) - incidence(section, liftCoefficient);
    if (!(angle > 0.02)) continue;
    const point = {
      ...{ diameter, bladeCount, liftCoefficient, section, dragToLift: 0.03, hubFraction: 0.15 },
      ...{ airspeed: 1, rotationRate: 1, density: 1.225, load: { thrust: 1 } },
    };
    // The inflow angle at 0.75 R fixes the helix of the wake; what remains free is how much of it is displacement.
    const helix = 0.75 * Math.tan(angle);
    const at = (zeta: number) => designStations(point, helix / (1 + zeta / 2), zeta).stations;
    const zeta = brentRoot((z) => chordAt(at(z), 0.75) - chordFraction, 1e-4, 20, { tolerance: 1e-9 });
    if (zeta === undefined) continue;
    const widest = genericTaper * chordFraction;
    const stations = at(zeta).map((s) => ({ ...s, chordFraction: Math.min(s.chordFraction, widest) }));
    const geometry = { diameter, bladeCount, section, stations };
    if (checkPropellerGeometry(geometry).ok) return success(geometry);
  }
  return pitchProblem(size);
}

const pitchProblem = (size: { readonly diameter: number; readonly pitch: number }) =>
  problem({
    code: 'propeller-pitch',
    reason: `No generic propeller has a pitch of ${(size.pitch / size.diameter).toFixed(2)} diameters with that blade width.`,
    where: 'propeller',
    remedy: 'Give a pitch between 0.2 and 2 diameters, narrower blades, or describe the blades.',
  });

function chordAt(stations: readonly BladeStation[], fraction: number): number {
  let k = 0;
  while (k < stations.length - 2 && stations[k + 1].radiusFraction <= fraction) k++;
  const inner = stations[k];
  const outer = stations[k + 1];
  const t = (fraction - inner.radiusFraction) / (outer.radiusFraction - inner.radiusFraction);
  return inner.chordFraction + t * (outer.chordFraction - inner.chordFraction);
}
