import { standardGravity as gravity } from '../air/index.js';
import { brentRoot } from '../math/index.js';
import { stationDistances } from '../shape/index.js';
import type { SpanStrength } from '../structure/index.js';
import { bentBothWays } from './allowedLoad.js';
import type { ElasticHalf } from './elasticHalf.js';
import { type ElasticTrim, elasticTrim, trimForces } from './elasticTrim.js';
import type { AllowedLoad, ForeAftFlight, LimitCondition } from './limitTypes.js';

/** A strip of a half wing: where it is along the surface [m], its lift [N] and its drag along the path, induced drag included [N]. */
export interface StripLoad {
  readonly along: number;
  readonly lift: number;
  readonly drag: number;
}

/**
 * Moment that bends a half wing forward about a place [N m]: lift stands square to the path, so that a chord raised by `tilt` has its sine ahead
 * of it and drag its cosine behind; what the wing weighs outside lags behind the acceleration of the aircraft along its chord.
 *
 * tilt - of the chord above the path [rad]; y - of the place [m]
 * relief - first moment of the mass outside [kg m], and acceleration of the aircraft along the chord, forward, gravity apart [m/s2]
 * Source: statics. Elliptic lift W of a half span L bends the root by 4 W L / (3 pi) sin(tilt).
 */
export function forwardMoment(
  strips: readonly StripLoad[],
  y: number,
  tilt: number,
  relief: { readonly massMoment: number; readonly acceleration: number },
): number {
  const [sine, cosine] = [Math.sin(tilt), Math.cos(tilt)];
  const air = strips.reduce(
    (sum, { along, lift, drag }) => sum + Math.max(0, along - y) * (lift * sine - drag * cosine),
    0,
  );
  return air - relief.massMoment * relief.acceleration;
}

/** A flight at one load factor and dynamic pressure, for the forces along the chord. */
interface Flown {
  /** By a line: nothing accelerates along the chord. */
  readonly held?: boolean;
  readonly loadFactor: number;
  readonly pressure: number;
  /** Of the chord at the root above the path [rad]. */
  readonly tilt: number;
}

/** Strips of one surface with their lift at load factor 1 [N] and their area [m2]. */
interface SurfaceStrips {
  readonly strips: readonly { readonly along: number; readonly lift: number; readonly area: number }[];
  /** Of the chord at the root against the axis of the aircraft [rad]. */
  readonly incidence: number;
}

function stripsOf(elastic: ElasticHalf, name: string, forces: Float64Array): SurfaceStrips {
  const { lattice, surfaces, panels } = elastic.steady;
  const { strips, firstPanel } = lattice;
  const own = Array.from({ length: strips.mirroredCount }, (_, s) => s).filter(
    (s) => surfaces[strips.surface[s]].name === name && firstPanel[s] < panels,
  );
  const surface = surfaces.find((each) => each.name === name)!;
  const length = stationDistances(surface).at(-1)!;
  const loads = own.map((s) => ({
    along: surface.stations[0].y + strips.station[s] * length,
    lift: strips.nz[s] * forces.subarray(firstPanel[s], firstPanel[s + 1]).reduce((sum, force) => sum + force, 0),
    area: strips.area[s],
  }));
  return { strips: loads, incidence: strips.twist[own[0]] };
}

/** Moments forward at every place of the strength along the wing [N m]. */
function momentsAt(
  { strips }: SurfaceStrips,
  condition: LimitCondition,
  strength: SpanStrength,
  { loadFactor, pressure, tilt, held = false }: Flown,
): number[] {
  const { trim, area, dive, profileDrag = dive.zeroLiftDrag } = condition;
  const lift = loadFactor * trim.weight;
  const slope = (dive.inducedFactor * lift) / (pressure * area);
  const drag = slope * lift + dive.zeroLiftDrag * pressure * area;
  const along = lift * Math.sin(tilt) - drag * Math.cos(tilt);
  const acceleration = held ? 0 : (along * gravity) / trim.weight;
  const loads = strips.map((each) => ({
    along: each.along,
    lift: loadFactor * each.lift,
    drag: slope * loadFactor * each.lift + profileDrag * pressure * each.area,
  }));
  return strength.y.map((y, i) =>
    forwardMoment(loads, y, tilt, { massMoment: strength.foreAft!.massMoments[i], acceleration }),
  );
}

/** How a wing is bent fore and aft in flight, before it is judged. */
export interface ForeAftMoments {
  /** Of the chord at the root above the path at the greatest lift [rad]. */
  readonly tilt: number;
  /** Moments forward of a pull-up at the greatest lift, per load factor [N m]. */
  readonly pullUp: readonly number[];
  /** The same held by a line from below: inertia relieves nothing. */
  readonly held: readonly number[];
  /** The same of straight flight at an airspeed, without power [N m]. */
  readonly straight: (airspeed: number) => readonly number[];
}

/**
 * Moments fore and aft along a wing at the corners of its envelope: a pull-up at the greatest lift coefficient, which tilts lift forward as far
 * as it goes, and straight flight at speed, where drag bends it back. Undefined where the strength is not known or the stall not trimmed.
 *
 * trim - at the normal airspeed, whose lift along the span is taken for all loads
 * The incidence is that of linear theory, a little less than that of a stalling wing; thrust, which relieves, is left out.
 */
export function foreAftMoments(
  elastic: ElasticHalf,
  trim: ElasticTrim,
  condition: LimitCondition,
  strength: SpanStrength,
): ForeAftMoments | undefined {
  const stalled = elasticTrim(elastic, (condition.density / 2) * condition.stallSpeed ** 2, condition.trim);
  if (strength.foreAft === undefined || stalled === undefined) return undefined;
  const strips = stripsOf(elastic, strength.surface, trimForces(elastic, trim, condition.trim.pitchControls));
  // Incidence is linear in the lift coefficient, which is weight over dynamic pressure.
  const apart = 1 / stalled.pressure - 1 / trim.pressure;
  const rise = apart === 0 ? 0 : (stalled.alpha - trim.alpha) / apart;
  const tiltAt = (pressure: number) => strips.incidence + trim.alpha + rise * (1 / pressure - 1 / trim.pressure);
  const tilt = tiltAt(stalled.pressure);
  const slow = { loadFactor: 1, pressure: stalled.pressure, tilt };
  return {
    tilt,
    pullUp: momentsAt(strips, condition, strength, slow),
    held: momentsAt(strips, condition, strength, { ...slow, held: true }),
    straight: (airspeed) => {
      const pressure = (condition.density / 2) * airspeed ** 2;
      return momentsAt(strips, condition, strength, { loadFactor: 1, pressure, tilt: tiltAt(pressure) });
    },
  };
}

/** Bending forward is told where it alone would break the wing below twice the load that is allowed, or takes 5 % of that load. */
const told = { alone: 2, taken: 0.05 };

/**
 * What bending forward in a pull-up does to the load that is allowed; undefined where it is far from counting.
 *
 * allowed - with it; without - load factor that bending up and down alone would allow
 */
export function foreAftFlight(
  { tilt, pullUp }: ForeAftMoments,
  strength: SpanStrength,
  allowed: AllowedLoad,
  without: number,
): ForeAftFlight | undefined {
  const alone = bentBothWays(
    pullUp.map(() => 0),
    strength,
    pullUp,
  );
  if (alone === undefined) return undefined;
  if (alone.factor > told.alone * allowed.up && allowed.up > (1 - told.taken) * without) return undefined;
  return { tilt, without, loadFactor: alone.factor, y: alone.y, reason: alone.reason };
}

/**
 * Airspeed at which drag breaks the wing backwards in straight flight, its own lift bending it as well; undefined up to `highest`.
 *
 * curvature - by lift at load factor 1 [1/m]
 */
export function dragLimitSpeed(
  { straight }: ForeAftMoments,
  curvature: readonly number[],
  strength: SpanStrength,
  [lowest, highest]: readonly [number, number],
): { readonly airspeed: number; readonly reason: string } | undefined {
  const borne = (airspeed: number) => bentBothWays(curvature, strength, straight(airspeed));
  const spare = (airspeed: number) => (borne(airspeed)?.factor ?? Number.POSITIVE_INFINITY) - 1;
  if (!(highest > lowest) || spare(highest) >= 0 || spare(lowest) <= 0) return undefined;
  const airspeed = brentRoot(spare, lowest, highest, { tolerance: 1e-3 });
  return airspeed === undefined ? undefined : { airspeed, reason: borne(airspeed)!.reason };
}
