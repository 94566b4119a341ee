/** What the page shows of structure and limits: plain data as in `view.ts`; names of layers are those of the parts library. */

import type { ForeAftFlight, WirePull } from '@noonwing/engine/aeroelastic';
import type { JointReport, WarmMaterial } from '@noonwing/engine/structure';
import type { KnownLimit } from '@noonwing/verdict';
import type { LaunchLoad, LineAnswer } from '@noonwing/verdict/launch';
import type { ToldBending } from '@noonwing/verdict/limit-words';
import type { StiffnessReading } from '@noonwing/verdict/stiffness-records';
import type { LoadedCell, UnderLoad } from '@noonwing/verdict/under-load';

export interface LimitView {
  readonly kind: string;
  /** What happens there. */
  readonly words: string;
  /** Best estimate and ends of the band that should hold it nine times in ten; the lower one is quoted [m/s]. */
  readonly airspeed: number;
  readonly low: number;
  readonly high: number;
  /** Of a vibration [Hz]. */
  readonly frequency?: number;
}

/** The limit that comes first with the top and the bottom of the wing at these temperatures [K], and what has softened. */
export interface WarmView {
  readonly top: number;
  readonly bottom: number;
  readonly softer: readonly WarmMaterial[];
  readonly first?: LimitView;
}

export interface DiveView {
  /** Nose down [rad]. */
  readonly angle: number;
  /** From the airspeed flown to the limit speed [s], [m]; absent where drag holds the aircraft below it. */
  readonly time?: number;
  readonly height?: number;
  /** Where drag stops it getting faster, without power [m/s]; absent where it slows down. */
  readonly steady?: number;
}

/** A layer, core or spar is of it; what is known of it. */
export interface MaterialView {
  readonly name: string;
  /** Relative standard uncertainty of its stiffness. */
  readonly spread: number;
  readonly source: string;
  /** Of the typical stiffness, as a bent strip found it; absent where none was bent. */
  readonly measured?: number;
}

export interface LayerView {
  readonly material: string;
  /** [m] */
  readonly thickness: number;
  /** To the span [rad]. */
  readonly angle: number;
}

export interface SparView {
  readonly name: string;
  readonly kind: 'tube' | 'strip' | 'caps';
  readonly material: string;
  readonly place: 'middle' | 'upper' | 'lower' | 'below';
  readonly web?: { readonly material: string; readonly thickness: number };
  /** By distance out [m]; tube: outer and inner diameter, strip: width and height, caps: width and thickness [m]. */
  readonly sizes: readonly {
    readonly y: number;
    readonly chordFraction: number;
    readonly width: number;
    readonly depth: number;
  }[];
}

/** What carries load in the right half of a surface. */
export interface LayUpView {
  readonly name: string;
  /** Ordinates in chords at chord fractions. */
  readonly stations: readonly {
    readonly y: number;
    readonly xLeadingEdge: number;
    readonly chord: number;
    readonly at: readonly number[];
    readonly upper: readonly number[];
    readonly lower: readonly number[];
  }[];
  /** Absent: hollow. */
  readonly core?: string;
  readonly zones: readonly {
    readonly name: string;
    readonly face: 'upper' | 'lower';
    readonly from: number;
    readonly to: number;
    readonly layers: readonly LayerView[];
  }[];
  readonly ribs?: { readonly material: string; readonly thickness: number; readonly spacing: number };
  readonly spars: readonly SparView[];
  readonly cells: readonly {
    readonly name: string;
    readonly fromY: number;
    readonly toY: number;
    readonly from: number;
    readonly to: number;
    readonly face: 'upper' | 'lower';
    readonly thickness: number;
    /** Thickness of the soft glue; absent: bonded hard [m]. */
    readonly glue?: number;
  }[];
  readonly controls: readonly {
    readonly name: string;
    readonly fromY: number;
    readonly toY: number;
    /** Chord fraction. */
    readonly hinge: number;
  }[];
  /** Where it comes apart, with the size of what joins it, as the structure has it [m]. */
  readonly joints: readonly {
    readonly name: string;
    readonly y: number;
    readonly kind: 'tube' | 'blade' | 'box';
    readonly material: string;
    readonly width: number;
    readonly height: number;
    readonly wall: number;
    /** Length in each half. */
    readonly depth: number;
    readonly chordFraction: number;
  }[];
  /** Bracing wires: where they are tied, x aft of their end in the middle [m], and where they part [N]. */
  readonly wires: readonly {
    readonly name: string;
    readonly x: number;
    readonly y: number;
    readonly bodyX: number;
    readonly breaks: number;
  }[];
  /** Found by load tests; 1 where none was made. */
  readonly bendingFactor: number;
  readonly torsionFactor: number;
}

/** What a reading of stiffness said. */
export type StiffnessReadingView = StiffnessReading;

export interface LimitsView {
  /** Airspeed flown that margins refer to [m/s]; looked for only, where it cannot fly level as it is. */
  readonly airspeed: number;
  readonly undriven: boolean;
  /** The first of them as a verdict takes it; where the design says how it is built. */
  readonly known?: KnownLimit;
  /** Lowest lower edge first; all that count. */
  readonly limits: readonly LimitView[];
  /** Shown, not counted: controls that float in the slop of their linkages. */
  readonly loose?: LimitView;
  readonly searchedTo: number;
  readonly dives: readonly DiveView[];
  /** Load factors that the structure bears, where its strength is known. */
  readonly allowed?: { readonly up: number; readonly down: number; readonly reason: string };
  /** Bending forward in a pull-up, where it counts: tilt of the chord [rad], load factors of it alone and without it, and what gives way. */
  readonly foreAft?: ForeAftFlight;
  /** What a top warmer by so many kelvin does to the trimmed pitch control, up negative [rad]. */
  readonly heat?: { readonly difference: number; readonly control: number };
  /** What bending by its own lift does. */
  readonly bent?: ToldBending;
  /** Where wings come apart: stiffness that is left, and the moments [N m] at which joiner and socket give way; kink by play [rad]. */
  readonly joints: readonly (JointReport & { readonly surface: string })[];
  /** Bracing wires that are taut in level flight. */
  readonly wires: readonly WirePull[];
  /** Thrown by hand at a speed [m/s]: acceleration needed, and borne fore and aft [m/s2]. */
  readonly launch?: LaunchLoad;
  /** On a line: how hard it may pull [N], and why. */
  readonly line?: LineAnswer;
  /** Touchdown on the body: load factor, and the sink rate [m/s] ended within so many metres. */
  readonly landing?: { readonly loadFactor: number; readonly sinkRate: number; readonly stoppedWithin: number };
  /** Half the free travel of the pitch control [rad], and of the airspeeds that it trims [m/s]. */
  readonly slop?: { readonly angle: number; readonly airspeed: number };
  /** In the noon sun, in flight and parked; absent where no cell lies on it or nothing softens. */
  readonly warm?: { readonly flight: WarmView; readonly parked: WarmView };
  /** Relative standard uncertainty of the stiffness. */
  readonly stiffnessSigma: number;
  /** Surfaces whose structure the design describes, and what is taken of the others. */
  readonly layUps: readonly LayUpView[];
  readonly assumed: readonly string[];
  readonly materials: readonly MaterialView[];
  /** What load tests, taps and bent strips said. */
  readonly readings: readonly StiffnessReadingView[];
  readonly warnings: readonly string[];
}

/** Shape and strain of cells at an airspeed and load factor. */
export interface UnderLoadView extends Omit<UnderLoad, 'cells'> {
  readonly cells: readonly LoadedCellView[];
}

export interface LoadedCellView extends Omit<LoadedCell, 'strain'> {
  /** Strain in all, and the part that laying it on a curved surface takes. */
  readonly strain: number;
  readonly assembly: number;
}

/** A change of structure and the limit speed with it. */
export interface StiffeningView {
  readonly name: string;
  /** Of the whole aircraft [kg]. */
  readonly mass: number;
  /** [m/s] */
  readonly limitSpeed: number;
  /** What comes first then; absent where no limit is left. */
  readonly first?: string;
  /** Rise of the limit speed [m/s per kg]. */
  readonly perMass: number;
}

export interface StiffeningsView {
  /** Most for its mass first; those that help. */
  readonly changes: readonly StiffeningView[];
  /** How many were looked at. */
  readonly tried: number;
}
