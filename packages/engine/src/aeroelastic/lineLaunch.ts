import { standardGravity as gravity } from '../air/index.js';

/**
 * Airspeed at which a bungee lets go [m/s]: sqrt(2 F s / m), drag and friction left out, so that it is an upper bound.
 *
 * meanPull - over the way; half of the first pull where it slackens evenly to nothing [N]; way - [m]; mass - [kg]
 * Source: kinetic energy.
 */
export const bungeeSpeed = (meanPull: number, way: number, mass: number): number =>
  Math.sqrt((2 * meanPull * way) / mass);

/** First pull of a bungee that slackens evenly and lets go at an airspeed [N]. Source: kinetic energy. */
export const bungeePull = (airspeed: number, way: number, mass: number): number => (mass * airspeed ** 2) / way;

/** Lift over weight while a line pulls straight down. pull - [N]; weight - [N]. Source: statics. */
export const lineLoadFactor = (pull: number, weight: number): number => 1 + pull / weight;

/** What decides how hard a line may pull. */
export interface LineLaunch {
  readonly mass: number;
  readonly stallSpeed: number;
  /** Airspeed that it must not exceed [m/s]. */
  readonly limitSpeed: number;
  /** Lift over weight that may be borne in the climb, line straight down, reserve taken off. */
  readonly climb: number;
  /** Acceleration along the path that its wings may lag behind at the start, reserve taken off [m/s2]; absent where that is not known. */
  readonly push?: number;
}

export type LineBound = 'climb' | 'start' | 'speed';

/** How hard a line may pull. */
export interface LinePull {
  /** Greatest pull [N]; 0 where there is none. */
  readonly greatest: number;
  /** What sets it: the climb, the push at the start, or the airspeed that so much lift takes. */
  readonly by: LineBound;
  /** What each of them alone would allow [N], not below 0. */
  readonly bounds: Readonly<Partial<Record<LineBound, number>>>;
}

/**
 * Greatest pull of a line: straight down in the climb it loads the wing, straight ahead at the start it accelerates the aircraft past its own
 * wings, and lift for more than (limit speed / stall speed)^2 times the weight takes more airspeed than the limit.
 * Source: statics; lift grows with the square of the airspeed.
 */
export function linePull({ mass, stallSpeed, limitSpeed, climb, push }: LineLaunch): LinePull {
  const weight = mass * gravity;
  const all: readonly (readonly [LineBound, number])[] = [
    ['climb', (climb - 1) * weight],
    ['speed', ((limitSpeed / stallSpeed) ** 2 - 1) * weight],
    ...(push === undefined ? [] : [['start', mass * push] as const]),
  ];
  const [by, least] = all.reduce((a, b) => (b[1] < a[1] ? b : a));
  const bounds = Object.fromEntries(all.map(([name, pull]) => [name, Math.max(0, pull)]));
  return { greatest: Math.max(0, least), by, bounds };
}

/**
 * Direction from the balance point to the hook below the nose [rad]: a line that pulls along it does not pitch the aircraft, a steeper one pitches it
 * down, a flatter one up.
 *
 * ahead, below - of the hook from the balance point [m]
 * Source: statics.
 */
export const hookDirection = (ahead: number, below: number): number => Math.atan2(below, ahead);
