import { standardGravity as gravity } from '../air/index.js';
import { brentRoot } from '../math/index.js';

/** What decides how a gust loads an aircraft, SI. */
export interface GustAircraft {
  /** Weight / wing area [N/m2]. */
  readonly wingLoading: number;
  readonly meanChord: number;
  /** Of the whole aircraft [1/rad]. */
  readonly liftSlope: number;
  readonly density: number;
  /** Greatest lift coefficient; without it a gust may load without end. */
  readonly maximumLift?: number;
}

/** Load factor in an upward gust. */
export interface GustLoad {
  readonly loadFactor: number;
  /** Mass ratio 2 W / (S density chord slope g), and the part of the gust that acts. */
  readonly massRatio: number;
  readonly alleviation: number;
  /** Whether the wing stalls before the full load is reached. */
  readonly limitedByLift: boolean;
}

/**
 * Load factor in a sharp vertical gust, with alleviation, and with the wing's greatest lift as a limit: where the gust is as fast as the
 * flight the linear formula has no meaning, and n <= q(V^2 + U^2) CLmax / (W / S).
 *
 * airspeed - equivalent, [m/s]; gustSpeed - upwards, negative downwards [m/s]
 * Source: 14 CFR 23.341(c) in SI (before 2017); alleviation 0.88 mu / (5.3 + mu). The lift limit is ours.
 */
export function gustLoad(aircraft: GustAircraft, airspeed: number, gustSpeed: number): GustLoad {
  const { wingLoading, meanChord, liftSlope, density, maximumLift } = aircraft;
  const massRatio = (2 * wingLoading) / (density * meanChord * liftSlope * gravity);
  const alleviation = (0.88 * massRatio) / (5.3 + massRatio);
  const added = (alleviation * density * gustSpeed * airspeed * liftSlope) / (2 * wingLoading);
  const free = 1 + added;
  if (maximumLift === undefined) return { loadFactor: free, massRatio, alleviation, limitedByLift: false };
  const most = ((density / 2) * (airspeed ** 2 + gustSpeed ** 2) * maximumLift) / wingLoading;
  const loadFactor = Math.sign(free) * Math.min(Math.abs(free), most);
  return { loadFactor, massRatio, alleviation, limitedByLift: Math.abs(free) > most };
}

/** Greatest load factor that a pull-up reaches at an airspeed: (V / stall speed)^2. */
export const manoeuvreLoad = (airspeed: number, stallSpeed: number): number => (airspeed / stallSpeed) ** 2;

/**
 * Airspeed above which a full pull-up could overload the structure [m/s]: stall speed x sqrt(load factor).
 * Source: CS-VLA 335(c), definition of the manoeuvring speed (from memory).
 */
export const manoeuvringSpeed = (stallSpeed: number, loadFactor: number): number =>
  stallSpeed * Math.sqrt(Math.max(1, loadFactor));

/**
 * Airspeed above which a gust alone could overload the structure [m/s]; undefined where it cannot below `highest`.
 * allowed - load factor that the structure bears (upwards; where `gustSpeed` is negative, downwards as a negative number)
 */
export function gustLimitSpeed(
  aircraft: GustAircraft,
  gustSpeed: number,
  allowed: number,
  highest = 200,
): number | undefined {
  const excess = (airspeed: number) =>
    Math.sign(gustSpeed) * (gustLoad(aircraft, airspeed, gustSpeed).loadFactor - allowed);
  if (excess(0.1) >= 0) return 0;
  return brentRoot(excess, 0.1, highest, { tolerance: 1e-6 });
}
