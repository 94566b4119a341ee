/**
 * What the page shows of a verdict: plain data that can be copied between threads, SI numbers, angles in radians, frames as
 * in design files (x aft from the datum, y to the right wing, z up). Clock times are hours after the first local midnight [h];
 * arrays "by step" have one entry less than `times`. No object of the engine is in it.
 */

import type { SectionBasis } from '@noonwing/design';
import type { LedgerRow } from '@noonwing/verdict';
import type { BalanceView, ShapeView } from './view-aircraft-types.js';

export type {
  BalanceView,
  BeamLoadView,
  FacetShape,
  ShapeView,
  SurfaceBend,
  SurfaceShape,
} from './view-aircraft-types.js';

/** A value with the interval that should hold the truth nine times in ten; equal ends where no samples were run. */
export interface Band {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** A problem or warning with the way to its field. */
export interface Finding {
  readonly severity: 'problem' | 'warning';
  readonly code: string;
  readonly text: string;
  /** In the words of the file. */
  readonly where: string;
  readonly remedy: string;
  /** Field to go to, where `where` names one. */
  readonly field?: { readonly file: 'design' | 'day'; readonly path: string };
  /** What people call that field. */
  readonly fieldName?: string;
}

export interface SkyView {
  readonly name: string;
  /** Share of samples carried at some time of the first day, 0 to 1; for words use `confidenceText`. */
  readonly confidence: number;
  /** In words and tenths; empty without samples. */
  readonly confidenceText: string;
  /** Of the days computed, by time. */
  readonly windows: readonly Stretch[];
  /** Ends of the longest window of the first day [h]; absent where there is none. */
  readonly start?: Band;
  readonly end?: Band;
  /** Time carried on the first day [h]. */
  readonly carried: Band;
  /** From launch to empty [h]; the horizon where not empty by then. */
  readonly endurance: Band;
  /** Share of samples still flying at the end of the days computed. */
  readonly lasts: number;
  readonly emptyAt?: number;
  readonly emptyBecause?: string;
  readonly fullAt?: number;
  /** 0 to 1 */
  readonly lowestCharge: Band;
  readonly lowestChargeAt: number;
  /** [h] */
  readonly leftAtDawn?: Band;
  readonly fullBeforeDusk: Band;
  readonly solarRatio: number;
  readonly bestRatio: Band;
  readonly bestRatioAt: number;
  /** What the converters could deliver, by step [W]. */
  readonly income: Float64Array;
  /** What they did deliver, by step [W]. */
  readonly taken: Float64Array;
  /** Held back because the battery was full or at its limit, by step [W]. */
  readonly curtailed: Float64Array;
  readonly batteryLoss: Float64Array;
  readonly terminalVoltage: Float64Array;
  /** State of charge at `times`, 0 to 1. */
  readonly charge: Float64Array;
  /** Light of this sky, by step [W/m2]. */
  readonly globalHorizontal: Float64Array;
  readonly directNormal: Float64Array;
  readonly diffuseHorizontal: Float64Array;
  /** Light that gets into the cells, mean over facets by area, by step [W/m2]. */
  readonly light: Float64Array;
  /** Mean cell temperature by area, by step [K]. */
  readonly cellTemperature: Float64Array;
}

/** The sun along the day, by step. */
export interface SunView {
  /** Unit vector to the sun: east, north, up; three entries a step. */
  readonly direction: Float64Array;
  /** [rad] */
  readonly elevation: Float64Array;
  /** From north, clockwise [rad] */
  readonly azimuth: Float64Array;
  /** Stretches in which the sun is up [h]. */
  readonly daylight: readonly Stretch[];
}

/** Level flight as flown on the day. */
export interface FlightView {
  readonly airspeed: number;
  readonly bank: number;
  /** Radius of the circle at that bank [m]; absent in straight flight. */
  readonly circleRadius?: number;
  /** Of the drive alone in calm air [W]. */
  readonly drivePower: number;
  /** Always-on loads [W]. */
  readonly steadyLoads: number;
  /** Known over computed level power; 1 where none is known. */
  readonly calibration: number;
  /** Absent where the level power is stated without an airframe. */
  readonly point?: {
    readonly reason: 'stated' | 'least power' | 'stall floor' | 'limit speed';
    readonly stallSpeed: number;
    readonly leastPowerSpeed: number;
    readonly leastPower: number;
    readonly alpha: number;
    /** Deflection of the pitch control, trailing edge down positive [rad]. */
    readonly control: number;
    readonly liftCoefficient: number;
    /** [N] */
    readonly thrust: number;
    readonly drag: number;
    readonly inducedDrag: number;
    readonly profileDrag: number;
    readonly parasiteDrag: number;
    readonly drive: DriveView;
  };
}

/** Motor and propeller at work. */
export interface DriveView {
  readonly electricPower: number;
  /** Throttle duty, 0 to 1 */
  readonly throttle: number;
  readonly busVoltage: number;
  readonly batteryCurrent: number;
  readonly motorCurrent: number;
  readonly motorVoltage: number;
  /** Of the propeller [rad/s] */
  readonly propellerSpeed: number;
  readonly shaftPower: number;
  readonly thrust: number;
  readonly propellerEfficiency: number;
  readonly gearEfficiency: number;
  readonly motorEfficiency: number;
  readonly controllerEfficiency: number;
}

/** Rows that are no part of another add up to `light`. */
export interface LedgerView {
  readonly sky: string;
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly light: number;
  readonly income: number;
  readonly need: number;
  readonly rows: readonly LedgerRow[];
}

/** Everything that belongs to one instant: for dragging along the day. */
export interface HourView {
  readonly at: number;
  readonly heading: number;
  readonly sun: {
    readonly direction: readonly [number, number, number];
    readonly elevation: number;
    readonly azimuth: number;
    readonly up: boolean;
  };
  /** Absent without cells or where the aircraft cannot fly. */
  readonly ledger?: LedgerView;
  /** Light that gets into each facet of `ShapeView.facets` at that heading, and averaged over the circle [W/m2]. */
  readonly facetLight: Float64Array;
  readonly facetLightCircle: Float64Array;
  /** [K] */
  readonly facetTemperature: Float64Array;
}

export interface ContributionView {
  readonly label: string;
  readonly origin: 'input' | 'model' | 'measured' | 'sky';
  /** Change of the solar ratio by one standard uncertainty, relative. */
  readonly effect: number;
  readonly share: number;
  readonly measurement?: { readonly what: string; readonly minutes: number };
}

export interface StringView {
  readonly name: string;
  readonly cells: number;
  readonly parallel: number;
  /** In words: fits, or what does not. */
  readonly problem?: string;
  readonly remedy?: string;
  /** Numbers of the fit by name [V, shares]. */
  readonly figures: Readonly<Record<string, number>>;
}

/** One value that nobody stated. */
export interface AssumptionView {
  readonly file: 'design' | 'day';
  readonly path: string;
  /** What people call it. */
  readonly name: string;
  readonly what: 'value' | 'uncertainty' | 'choice';
  /** In words with unit. */
  readonly text: string;
  readonly why: string;
}

/** One design on one day. */
export interface VerdictView {
  readonly aircraft: string;
  readonly plan: {
    readonly name: string;
    readonly placeName?: string;
    readonly latitude: number;
    readonly longitude: number;
    readonly altitude: number;
    readonly date: { readonly year: number; readonly month: number; readonly day: number };
    readonly days: number;
    /** Local clock minus UTC [s]. */
    readonly utcOffset: number;
    /** First local midnight [s, Unix]. */
    readonly midnight: number;
    readonly height: number;
    readonly wind: { readonly speed: number; readonly gusts?: number; readonly from?: number };
    readonly temperature: number;
    readonly nightTemperature: number;
    readonly turbidity: number;
  };
  /** [h] */
  readonly launch: number;
  /** From launch to the end of the days computed [h]. */
  readonly horizon: number;
  readonly hasBattery: boolean;
  /** False without a trim, and where it is unstable in pitch; the day is then what it would be once that is cured. */
  readonly canFly: boolean;
  readonly levelPower?: Band;
  readonly flight?: FlightView;
  readonly balance?: BalanceView;
  readonly shape: ShapeView;
  /** What lift and drag of each section rest on. */
  readonly sections: readonly { readonly name: string; readonly basis: SectionBasis }[];
  readonly strings: readonly StringView[];
  /** Ends of the steps [h], and middles. */
  readonly times: Float64Array;
  readonly middles: Float64Array;
  /** Flight and loads, by step [W]. */
  readonly need: Float64Array;
  readonly sun: SunView;
  readonly skies: readonly SkyView[];
  /** Empty without samples. */
  readonly contributions: readonly ContributionView[];
  /** The cheapest measurements, best first; `share` of the variance that each takes away. */
  readonly measurements: readonly { readonly what: string; readonly minutes: number; readonly share: number }[];
  readonly measured: readonly { readonly stage: string; readonly value: number; readonly source: string }[];
  readonly assumptions: readonly AssumptionView[];
  readonly findings: readonly Finding[];
  readonly samples: number;
  readonly stepError: number;
}

/** Forces with pitch control and thrust held as in one level flight, by angle of attack [rad]. */
export interface HeldControlView {
  readonly airspeed: number;
  readonly control: number;
  readonly alpha: number;
  readonly points: readonly {
    readonly alpha: number;
    readonly liftCoefficient: number;
    readonly dragCoefficient: number;
    readonly pitchingMomentCoefficient: number;
  }[];
}

/** One point of level power against airspeed. */
export interface PowerPointView {
  readonly airspeed: number;
  /** From the battery, loads included [W]. */
  readonly levelPower: number;
  readonly drag: number;
  readonly inducedDrag: number;
  readonly profileDrag: number;
  readonly parasiteDrag: number;
  readonly liftCoefficient: number;
  readonly pitchingMomentCoefficient: number;
  readonly alpha: number;
  readonly control: number;
  readonly drive: DriveView;
  /** Absent where the drive cannot hold height [m/s]. */
  readonly climbRate?: number;
  readonly sinkRate: number;
  readonly glideRatio: number;
}

export interface PowerView {
  readonly bank: number;
  readonly stallSpeed: number;
  readonly steadyLoads: number;
  readonly points: readonly PowerPointView[];
  readonly leastPower?: PowerPointView;
  readonly bestRange?: PowerPointView;
  readonly held?: HeldControlView;
  readonly leftOut?: string;
}

export interface LeverFiguresView {
  /** What the converters could deliver on the first day [J]. */
  readonly income: number;
  /** [s] */
  readonly carried: number;
  readonly endurance: number;
  readonly solarRatio: number;
  readonly bestRatio: number;
  readonly lowestCharge: number;
  readonly levelPower: number;
  readonly mass: number;
}

export interface LeverView {
  readonly key: string;
  readonly label: string;
  readonly edits: readonly { readonly path: string; readonly text?: string; readonly why: string }[];
  /** Whole design text with the edits: one command applies it. */
  readonly text?: string;
  readonly after?: LeverFiguresView;
  readonly payoff?: { readonly solarRatio: number; readonly carried: number; readonly endurance: number };
  /** What restoring the balance takes: the battery moved aft [m], and ballast [kg]; absent where it takes nothing. */
  readonly balance?: { readonly battery: number; readonly ballast: number };
  readonly problem?: { readonly reason: string; readonly where: string; readonly remedy: string };
}

export interface LeversView {
  readonly sky: string;
  readonly base: LeverFiguresView;
  readonly levers: readonly LeverView[];
  readonly measurements: readonly { readonly what: string; readonly minutes: number; readonly share: number }[];
}

/** Strings that are alike: how many, and each of them. */
export interface LayoutStringsView {
  readonly count: number;
  readonly cells: number;
  readonly parallel: number;
  /** Of cells that are hot in flight at noon [V]. */
  readonly voltage: number;
}

/** Ways to lay and to string the cells, most energy of the day first, the array as it is among them. */
export interface LayoutsView {
  readonly sky: string;
  readonly base: LeverFiguresView;
  readonly layouts: readonly (LeverView & { readonly strings: readonly LayoutStringsView[] })[];
}

/** Solar ratio through the year: rows follow the dates, index date * across.length + position. */
export interface SweepView {
  readonly kind: 'date and hour' | 'date and latitude';
  readonly sky: string;
  /** Days of the year, from 1. */
  readonly days: Float64Array;
  /** Local hours [h], or latitudes [rad]. */
  readonly across: Float64Array;
  /** Income over need: at the hour, or averaged over daylight. */
  readonly solarRatio: Float64Array;
  /** Time that sunlight carries [h], by date and latitude. */
  readonly carried?: Float64Array;
}
