import type { AssembledStructure, CompleteAircraft } from '@noonwing/design';
import {
  bungeePull,
  bungeeSpeed,
  hookDirection,
  type LimitsReport,
  type LineBound,
  linePull,
} from '@noonwing/engine/aeroelastic';
import type { MassSum } from '@noonwing/engine/balance';
import { standardGravity } from '@noonwing/engine/flight';
import { foreAftLoad, throwAcceleration } from '@noonwing/engine/structure';

/** A throw by hand, and what the wings bear of bending fore and aft by their own inertia. */
export interface LaunchLoad {
  /** Let go at [m/s], after a way of the hand [m]. */
  readonly speed: number;
  readonly way: number;
  /** Mean acceleration of the throw, and that which the wings bear [m/s2]. */
  readonly needs: number;
  readonly bears: number;
  readonly y: number;
  readonly reason: string;
}

/** A throw ends a fifth above the stall, after an arm's way with a step (common practice, no source). */
const usualThrow = { overStall: 1.2, way: 1.2 };

/** A throw by hand; undefined where the wing is not described. */
export function launchLoad({ described, half }: AssembledStructure, stallSpeed: number): LaunchLoad | undefined {
  const wing = described[half.surfaces[0]?.name ?? ''];
  const borne = wing && foreAftLoad(wing, half.masses);
  if (borne === undefined) return undefined;
  const speed = usualThrow.overStall * stallSpeed;
  const { acceleration: bears, y, reason } = borne;
  return { speed, way: usualThrow.way, needs: throwAcceleration(speed, usualThrow.way), bears, y, reason };
}

/** A bungee that slackens evenly over its way. */
export interface BungeeLaunch {
  /** First pull [N] and the airspeed at which it lets go [m/s], an upper bound. */
  readonly pull: number;
  readonly airspeed: number;
}

/** How hard a line may pull, and what it does. */
export interface LineAnswer {
  readonly kind: 'bungee' | 'winch' | 'towline' | undefined;
  /** [N] */
  readonly weight: number;
  /** Greatest pull [N], which is what a weak link may bear at most, and what sets it. */
  readonly greatest: number;
  readonly by: LineBound;
  /** Lift over weight that may be borne in the climb, and what gives way at how many times that. */
  readonly climb: number;
  readonly reserve: number;
  readonly reason: string;
  /** What gives way by the push of the start; absent where it is not known. */
  readonly startReason: string | undefined;
  /** Airspeed that it must not exceed [m/s]. */
  readonly limitSpeed: number;
  readonly stallSpeed: number;
  /** Greatest pull of the line as the design states it [N]. */
  readonly stated: number | undefined;
  /** Way of a bungee [m], the pull that lets it go well above its stall, and what the greatest pull allowed does, or the stated one. */
  readonly way: number;
  readonly least: BungeeLaunch;
  readonly most: BungeeLaunch;
  readonly hook: HookAnswer;
  readonly assumed: readonly string[];
}

/** Where the hook is, or may be, seen from the balance point. */
export interface HookAnswer {
  /** [m] */
  readonly below: number;
  /** As the design states it [rad] below the nose; absent where it states none. */
  readonly direction: number | undefined;
  /** Usual directions [rad], and how far ahead of the balance point they are so far below it [m]: least and most. */
  readonly usual: readonly [number, number];
  readonly ahead: readonly [number, number];
  /** Of the balance point aft of the datum [m]. */
  readonly balancePoint: number;
}

/** Half of what breaks it is used without a proof load (common practice: 1.5 for a tested structure, 2 without). */
const reserve = 2;
/** A wing that is not described is taken to bear this lift over weight, reserve taken off (judgement: light solar aircraft 3 to 4). */
const assumedClimb = 3;
/** A bungee pulls over this way [m] and lets go at this multiple of the stall (common practice, no source). */
const usualBungee = { way: 5, overStall: 1.3 };
/** Direction of a hook from the balance point below the nose [rad]: 60 to 75 degrees (from memory). */
const usualHook = [60, 75].map((degrees) => (degrees * Math.PI) / 180) as unknown as readonly [number, number];

/** Underside of the bodies below the balance point [m]; 5 cm where there is none. */
function depthBelow({ bodies }: CompleteAircraft, { x, z }: MassSum): number {
  const below = bodies
    .filter((body) => body.x.value <= x && body.x.value + body.length.value >= x && Math.abs(body.y.value) < 1e-3)
    .map((body) => z - (body.z.value - body.height.value / 2));
  return Math.max(0.02, ...(below.length > 0 ? below : [0.05]));
}

function hookOf(complete: CompleteAircraft, balance: MassSum): HookAnswer {
  const stated = complete.launch?.hook;
  const below = stated === undefined ? depthBelow(complete, balance) : balance.z - stated.z.value;
  const [flat, steep] = usualHook;
  return {
    below,
    direction: stated && hookDirection(balance.x - stated.x.value, below),
    usual: usualHook,
    ahead: [below / Math.tan(steep), below / Math.tan(flat)],
    balancePoint: balance.x,
  };
}

/** What decides how a line may pull. */
export interface LineInput {
  readonly complete: CompleteAircraft;
  readonly balance: MassSum;
  readonly report: Pick<LimitsReport, 'limits' | 'line' | 'searchedTo'>;
  readonly stallSpeed: number;
  /** The throw by hand, which knows what the wings bear at the start. */
  readonly thrown: LaunchLoad | undefined;
}

/** How hard a line may pull; where the wing is not described, by what such wings commonly bear. */
export function lineAnswer({ complete, balance, report, stallSpeed, thrown }: LineInput): LineAnswer {
  const { launch } = complete;
  const { mass } = balance;
  const limitSpeed = report.limits[0]?.low ?? report.searchedTo;
  const climb = report.line === undefined ? assumedClimb : report.line.loadFactor / reserve;
  const push = thrown && thrown.bears / reserve;
  const { greatest, by } = linePull({ mass, stallSpeed, limitSpeed, climb, ...(push === undefined ? {} : { push }) });
  const way = launch?.way?.value ?? usualBungee.way;
  const slow = usualBungee.overStall * stallSpeed;
  const stated = launch?.pull?.value;
  const strong = stated ?? greatest;
  return {
    kind: launch?.kind === 'hand' ? undefined : launch?.kind,
    weight: mass * standardGravity,
    greatest,
    by,
    climb,
    reserve,
    reason: report.line?.reason ?? '',
    startReason: thrown?.reason,
    limitSpeed,
    stallSpeed,
    stated,
    way,
    least: { pull: bungeePull(slow, way, mass), airspeed: slow },
    most: { pull: strong, airspeed: bungeeSpeed(strong / 2, way, mass) },
    hook: hookOf(complete, balance),
    assumed: [
      ...(report.line === undefined
        ? [`the wing bears ${assumedClimb} times the weight: its strength is not described`]
        : []),
      ...(push === undefined ? ['the push at the start breaks nothing'] : []),
      ...(launch?.way === undefined && launch?.kind !== 'winch' && launch?.kind !== 'towline'
        ? [`a bungee pulls over ${usualBungee.way} m`]
        : []),
      'the line pulls straight ahead at the start and straight down in the climb',
    ],
  };
}
