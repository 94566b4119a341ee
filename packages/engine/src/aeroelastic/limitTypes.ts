import type { Warning } from '../result.js';
import type { SpanStrength } from '../structure/index.js';
import type { BentFlight } from './bentFlight.js';
import type { Dive, DiveAircraft } from './dive.js';
import type { SteadyHalf } from './elasticHalf.js';
import type { ElasticTrim, TrimCondition } from './elasticTrim.js';
import type { GrowthCurve } from './growthCurves.js';
import type { OscillatingInfluence } from './oscillatingInfluence.js';

export type LimitKind =
  | 'divergence'
  | 'antisymmetric divergence'
  | 'roll reversal'
  | 'pitch reversal'
  | 'tuck'
  | 'pitch stability'
  | 'pitch trim'
  | 'elevon float'
  | 'flutter'
  | 'antisymmetric flutter'
  | 'buzz'
  | 'gust'
  | 'manoeuvre'
  | 'drag';

/** An airspeed above which something ends flight, with the band of its uncertainty. */
export interface Limit {
  readonly kind: LimitKind;
  /** What happens there, in words. */
  readonly words: string;
  /** Best estimate, and the ends of its 90 % band [m/s]; the lower one is what is quoted. */
  readonly airspeed: number;
  readonly low: number;
  readonly high: number;
  /** Of a vibration [rad/s]. */
  readonly frequency?: number;
}

/** The lattice of a wing in steady flow: depends on geometry and sections, not on stiffness or mass. */
export interface SteadyWing {
  readonly symmetric: SteadyHalf;
  readonly antisymmetric: SteadyHalf;
  /** Mean aerodynamic chord [m]. */
  readonly chord: number;
}

/** The same in steady and oscillating flow. */
export interface AeroelasticWing extends SteadyWing {
  readonly oscillating: {
    readonly symmetric: OscillatingInfluence;
    readonly antisymmetric: OscillatingInfluence | undefined;
  };
}

/** Load factors that the structure bears, as strength says. */
export interface AllowedLoad {
  readonly up: number;
  /** Negative. */
  readonly down: number;
  /** Part that gives way first. */
  readonly reason: string;
}

/** Bending forward in a pull-up at the greatest lift, where it counts. */
export interface ForeAftFlight {
  /** Of the chord at the root above the path [rad]. */
  readonly tilt: number;
  /** Load factor that bending up alone would allow. */
  readonly without: number;
  /** Load factor at which bending forward alone breaks the wing, where along it [m], and what. */
  readonly loadFactor: number;
  readonly y: number;
  readonly reason: string;
}

/** How the aircraft is flown. */
export interface LimitCondition {
  readonly trim: TrimCondition;
  readonly rollControls: readonly string[];
  readonly controlRange: { readonly lower: number; readonly upper: number } | undefined;
  /** Static margin of the full model less that of the rigid lattice, in chords; 0 where there is none. */
  readonly marginOffset: number;
  readonly density: number;
  readonly stallSpeed: number;
  /** Normal airspeed flown [m/s]. */
  readonly airspeed: number;
  /** Wing area [m2], lift slope [1/rad] and greatest lift coefficient. */
  readonly area: number;
  readonly liftSlope: number;
  readonly maximumLift: number;
  readonly dive: DiveAircraft;
  /** Profile drag coefficient of the lifting surfaces; absent: all of the drag without lift. */
  readonly profileDrag?: number;
  readonly allowed?: AllowedLoad;
  /** How much warmer the top of the surfaces is than their bottom, which bends them [K]; absent: as they were built. */
  readonly topWarmer?: number;
  /** Strength along the wing, from which the load that is allowed follows where it is not stated. */
  readonly strength?: SpanStrength;
  /** Half of the free travel of the pitch controls in their linkages [rad], where known. */
  readonly linkageSlop?: number;
  /** Torque that holds both pitch controls at their hinge [N m], where known. */
  readonly holdingTorque?: number;
}

/** Uncertainty of the structure, relative standard deviations. */
export interface LimitSpread {
  readonly stiffness: number;
  /** Of the airspeed itself, by what pitch controls turn; absent: none. */
  readonly control?: number;
}

/** Time and height from the normal airspeed to the first limit at an angle nose down. */
export interface DiveToLimit {
  /** [rad] */
  readonly angle: number;
  /** Undefined where drag holds the aircraft below the limit. */
  readonly dive: Dive | undefined;
}

/** What a sun-warmed top does in normal flight. */
export interface HeatEffect {
  /** Top less bottom [K]. */
  readonly difference: number;
  /** Change of the trimmed pitch control, negative up [rad], and of the angle of attack [rad]. */
  readonly control: number;
  readonly alpha: number;
}

/** How hard a touchdown on the body the wing bears. */
export interface LandingLoad {
  /** Deceleration over gravity, beside the weight that the wing carries. */
  readonly loadFactor: number;
  /** Way within which the sink is taken to end [m], and the sink rate that this is [m/s]. */
  readonly stoppedWithin: number;
  readonly sinkRate: number;
}

/** Lift over weight that the wing bears while a line pulls the body straight down. */
export interface LineLoad {
  readonly loadFactor: number;
  /** What gives way first. */
  readonly reason: string;
}

/** Slop of the linkages of pitch controls, and how far the trimmed airspeed wanders within it. */
export interface SlopEffect {
  /** Half of the free travel at the control [rad]. */
  readonly angle: number;
  /** Half of the range of airspeeds that it trims, about that of normal flight [m/s]. */
  readonly airspeed: number;
}

/** Everything that ends flight of one aircraft as it goes faster. */
/** A taut bracing wire: its tension at load factor 1, and where it parts [N]. */
export interface WirePull {
  readonly name: string;
  readonly surface: string;
  readonly tension: number;
  readonly breaks: number;
}

export interface LimitsReport {
  readonly wires: readonly WirePull[];
  /** By their lower edges, lowest first. */
  readonly limits: readonly Limit[];
  /** Flutter where linkages have slop and controls float in it: shown, not counted. */
  readonly loose: Limit | undefined;
  readonly dives: readonly DiveToLimit[];
  /** Load factors that the structure bears, where its strength is known. */
  readonly allowed: AllowedLoad | undefined;
  /** Absent where bending forward is far from counting, or its strength is not known. */
  readonly foreAft: ForeAftFlight | undefined;
  /** Absent where the strength along the wing is not known. */
  readonly landing: LandingLoad | undefined;
  /** On a line; absent where the strength along the wing is not known. */
  readonly line: LineLoad | undefined;
  /** What bending does to normal flight; absent where it cannot be trimmed. */
  readonly bent: BentFlight | undefined;
  /** Absent where the structure does not warp. */
  readonly heat: HeatEffect | undefined;
  /** Absent where linkages are not said to have slop, or the control does not set the airspeed. */
  readonly slop: SlopEffect | undefined;
  /** Trim of the flexible aircraft over dynamic pressure. */
  readonly trims: readonly ElasticTrim[];
  readonly curves: { readonly symmetric: readonly GrowthCurve[]; readonly antisymmetric: readonly GrowthCurve[] };
  /** Up to where limits were searched [m/s]. */
  readonly searchedTo: number;
  readonly warnings: readonly Warning[];
}
