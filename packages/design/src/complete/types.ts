import type { FLOWN_AIR } from '@noonwing/engine/section';
import type { LaunchDesign } from '../aircraft.js';
import type { BatteryChemistry } from '../library/battery-cells.js';
import type { Topology } from '../library/converters.js';
import type { MeasuredRecord } from '../measured-fields.js';
import type { Valued } from '../schema/field.js';
import type { StructureDesign } from '../structure-fields.js';

/** Section of a station, one form of it. Lengths in m, points in chords. */
export type Section =
  | { readonly type: 'naca'; readonly digits: string; readonly thickness?: Valued }
  | { readonly type: 'library'; readonly name: string; readonly thickness?: Valued }
  | { readonly type: 'file'; readonly path: string; readonly thickness?: Valued }
  | { readonly type: 'coordinates'; readonly points: readonly (readonly number[])[]; readonly thickness?: Valued }
  | {
      readonly type: 'plate';
      readonly thickness: Valued;
      readonly noseLength: Valued;
      readonly tailLength: Valued;
      readonly tailThickness: Valued;
      readonly reflex?: Valued;
      readonly reflexFrom?: Valued;
      readonly step?: Valued;
      readonly stepAt?: Valued;
    };

/** Distances from the root leading edge of the surface: y right, z up, leadingEdge aft [m]. Twist includes incidence. */
export interface CompleteStation {
  readonly y: number;
  readonly z: number;
  readonly leadingEdge: number;
  readonly chord: Valued;
  readonly twist: Valued;
  readonly section: Section;
}

export interface CompleteControl {
  readonly name: string;
  readonly kind: 'elevator' | 'elevon' | 'aileron' | 'rudder' | 'flap' | 'ruddervator';
  /** Shares of the half span */
  readonly from: number;
  readonly to: number;
  /** Chord station of the hinge */
  readonly hinge: Valued;
  /** Greatest travel, both positive [rad] */
  readonly up: Valued;
  readonly down: Valued;
  /** Open gap at the hinge, 0 where closed [m] */
  readonly gap: Valued;
}

export type Role = 'wing' | 'tailplane' | 'foreplane' | 'fin';
export type Construction = 'built-up' | 'foam' | 'foam sheet' | 'moulded';

export interface CompleteSurface {
  readonly name: string;
  readonly role: Role;
  /** Root leading edge [m] */
  readonly x: Valued;
  readonly y: Valued;
  readonly z: Valued;
  readonly mirrored: boolean;
  readonly stations: readonly CompleteStation[];
  readonly controls: readonly CompleteControl[];
  readonly construction: Construction;
  /** What carries load, as far as the file says; absent: assumed from the construction. */
  readonly structure?: StructureDesign;
}

export interface CompleteBody {
  readonly name: string;
  /** Nose [m] */
  readonly x: Valued;
  readonly y: Valued;
  readonly z: Valued;
  readonly length: Valued;
  readonly width: Valued;
  readonly height: Valued;
  readonly pair: boolean;
}

export type MassGroup =
  | 'part'
  | 'surface'
  | 'body'
  | 'battery'
  | 'cells'
  | 'lamination'
  | 'motor'
  | 'propeller'
  | 'speed controller'
  | 'converter'
  | 'wiring'
  | 'radio and servos'
  | 'glue, wire and paint'
  | 'joiner'
  | 'ballast';

/** Where a mass is: at a point, spread over a surface or body, or spread over the cells of a row. */
export type MassPlace =
  | { readonly x: Valued; readonly y: Valued; readonly z: Valued }
  | { readonly on: string }
  | { readonly row: string }
  | { readonly everywhere: true };

export interface CompleteMass {
  readonly name: string;
  readonly group: MassGroup;
  /** Of one [kg] */
  readonly mass: Valued;
  /** 2 for a pair, mirrored in y */
  readonly count: 1 | 2;
  readonly place: MassPlace;
  /** Weighed and bought parts carry no growth allowance. */
  readonly weighed: boolean;
}

export interface CompleteBattery {
  readonly chemistry: BatteryChemistry;
  readonly series: number;
  readonly parallel: number;
  /** Whole pack [C] */
  readonly capacity: Valued;
  /** Whole pack with leads [ohm] */
  readonly resistance: Valued;
  readonly mass: Valued;
  readonly x: Valued;
  readonly y: Valued;
  readonly z: Valued;
  readonly movesFrom?: Valued;
  readonly movesTo?: Valued;
  /** Per cell [V] */
  readonly fullVoltage: Valued;
  readonly emptyVoltage: Valued;
  /** Pack [A] */
  readonly chargeCurrentLimit: Valued;
  readonly dischargeCurrentLimit: Valued;
  readonly usable: Valued;
}

export interface CompleteMotor {
  readonly count: number;
  /** [rad/s per V] */
  readonly speedConstant: Valued;
  readonly resistance: Valued;
  readonly noLoadCurrent: Valued;
  readonly noLoadVoltage: Valued;
  readonly gearRatio: Valued;
  readonly gearEfficiency: Valued;
  readonly currentLimit: Valued;
  readonly powerLimit?: Valued;
  readonly mass: Valued;
  readonly x: Valued;
  readonly y: Valued;
  readonly z: Valued;
}

export interface CompletePropeller {
  /** [m] */
  readonly diameter: number;
  /** [m] */
  readonly pitch: number;
  readonly blades: number;
  readonly folding: boolean;
  /** From hub to tip [m, m, rad]; absent: to be designed for diameter and pitch */
  readonly geometry?: readonly { readonly radius: number; readonly chord: number; readonly angle: number }[];
  /** Section of the blades; absent: generic lift and drag of small moulded blades */
  readonly section?: Section;
  readonly measured?: readonly {
    readonly advanceRatio: number;
    readonly thrustCoefficient: number;
    readonly powerCoefficient: number;
    /** [rad/s] */
    readonly speed?: number;
  }[];
  readonly mass: Valued;
}

export interface CompleteDrive {
  readonly motor: CompleteMotor;
  readonly propeller: CompletePropeller;
  readonly speedController: {
    readonly resistance: Valued;
    readonly currentLimit: Valued;
    readonly standbyPower: Valued;
    /** Pack [V]; absent without a battery */
    readonly lowVoltageCut?: Valued;
  };
  readonly wiringResistance: Valued;
  readonly downThrust: Valued;
}

export interface CompleteCell {
  /** Name in the parts library, where it started from one */
  readonly like?: string;
  readonly length: Valued;
  readonly width: Valued;
  readonly area: Valued;
  readonly shortCircuitCurrent: Valued;
  readonly openCircuitVoltage: Valued;
  readonly maximumPowerCurrent: Valued;
  readonly maximumPowerVoltage: Valued;
  /** [A/K] */
  readonly currentCoefficient: Valued;
  /** [V/K] */
  readonly voltageCoefficient: Valued;
  /** Tabbed [kg] */
  readonly mass: Valued;
  readonly bendRadius: Valued;
  /** Equal strips that it can be cut into at most; 1: it cannot be cut. */
  readonly mostPieces: number;
  /** Share of the current at maximum power that cutting takes; only where a row is cut. */
  readonly edgeLoss?: Valued;
}

/** Middle of a cell on one half of its surface. */
export interface CompleteSpot {
  /** Share of the half span */
  readonly along: number;
  readonly station: number;
}

export interface CompleteRow {
  readonly name: string;
  readonly on: string;
  readonly side: 'both' | 'right' | 'left';
  /** 'both': each place bears a cell above and one below */
  readonly face: 'upper' | 'lower' | 'both';
  /** Shares of the half span */
  readonly from: number;
  readonly to: number;
  readonly chordStation: Valued;
  /** All cells of the row; with side 'both' those of both halves together, with face 'both' those above and below */
  readonly cells: number;
  /** Equal strips that each cell is cut into; 1: whole. `cells` counts the strips. */
  readonly pieces: number;
  /** The long side of a piece lies along the chord. */
  readonly turned: boolean;
  /** [m]; absent: the room is shared out */
  readonly gap?: number;
  /** Cells of one side one by one, in place of an even row */
  readonly places?: readonly CompleteSpot[];
}

/** A bypass diode, by the first and the last cell that it spans, from 1 along the wiring of one string. */
export interface CompleteDiode {
  readonly from: number;
  readonly to: number;
}

/** A cell that is not whole, by its number from 1 along the wiring through all parallel strings. */
export interface CompleteCrack {
  readonly cell: number;
  readonly lostArea: number;
  /** [ohm] */
  readonly contactResistance: number;
}

export interface CompleteString {
  readonly name: string;
  readonly rows: readonly string[];
  readonly parallel: number;
  readonly cellsInSeries: number;
  readonly converter: string;
  /** Cells that share a bypass diode; absent: no diodes */
  readonly cellsPerDiode?: number;
  readonly diodes?: readonly CompleteDiode[];
  /** Forward voltage of a diode in series with each string [V]; absent: none */
  readonly blockingDiode?: Valued;
  readonly cracked?: readonly CompleteCrack[];
}

/** How a converter looks for the best voltage; a fixed one has `fixedInputVoltage`. */
export interface CompleteTracker {
  readonly method: 'perturb and observe' | 'fraction of open circuit' | 'sweep';
  readonly openCircuitFraction: Valued;
  /** Between steps, looks or sweeps [s] */
  readonly period: Valued;
  /** [s] */
  readonly timeConstant: Valued;
  /** [V]; absent: open circuit */
  readonly startVoltage?: Valued;
}

export interface CompleteConverter {
  readonly name: string;
  readonly topology: Topology;
  readonly efficiency: Valued;
  readonly trackingEfficiency: Valued;
  readonly standbyPower: Valued;
  readonly ratedPower: Valued;
  readonly outputCurrentLimit: Valued;
  /** [V]; absent: the pack's full voltage */
  readonly outputVoltage?: Valued;
  readonly inputVoltageLow: Valued;
  readonly inputVoltageHigh: Valued;
  readonly fixedInputVoltage?: Valued;
  /** Absent: only its tracking efficiency is known. */
  readonly tracker?: CompleteTracker;
  readonly mass: Valued;
}

export interface CompleteArray {
  readonly cell: CompleteCell;
  readonly rows: readonly CompleteRow[];
  readonly strings: readonly CompleteString[];
  readonly converters: readonly CompleteConverter[];
  readonly transmittance: Valued;
  /** [kg/m2] */
  readonly laminationArealMass: Valued;
  /** Height of cells and film over the skin [m] */
  readonly edge: Valued;
  /** Bent along the surface, or stiff and flat on it */
  readonly laid: 'along the surface' | 'flat';
  readonly dust: Valued;
  /** Tab and solder joint of each cell [ohm] */
  readonly jointResistance: Valued;
  /** Of each string, out and back [ohm] */
  readonly wiringResistance: Valued;
}

export interface CompleteLoad {
  readonly name: string;
  /** [W] while on, at the battery */
  readonly power: Valued;
  /** Local clock [s since midnight]; absent: all day */
  readonly from?: number;
  readonly to?: number;
  readonly share: Valued;
}

export interface CompleteFlight {
  readonly airspeed: Valued | 'least power';
  /** Absent where a circle radius is stated */
  readonly bank?: Valued;
  readonly circleRadius?: Valued;
  readonly height?: Valued;
  readonly stallFactor: Valued;
  readonly maximumLift?: Valued;
  readonly profileDragFactor: Valued;
  readonly inducedDragFactor: Valued;
  readonly levelPowerFactor: Valued;
  readonly airAndControlFactor: Valued;
  /** Of the air that boundary layers feel, in words */
  readonly turbulence: (typeof FLOWN_AIR)[number];
}

/** A design in which nothing is left out: what the file says, and a default with its uncertainty for the rest. */
export interface CompleteAircraft {
  readonly name: string;
  /** Whether there is an airframe to compute with; otherwise the level power is stated. */
  readonly surfaces: readonly CompleteSurface[];
  readonly bodies: readonly CompleteBody[];
  readonly extraDrag: readonly {
    readonly name: string;
    readonly area: Valued;
    readonly x: Valued;
    readonly y: Valued;
    readonly z: Valued;
  }[];
  readonly masses: readonly CompleteMass[];
  readonly growthAllowance: Valued;
  /** Stated all-up mass, which then holds in place of the sum */
  readonly allUpMass?: Valued;
  /** Rough mass by which defaults were chosen [kg] */
  readonly sizeMass: number;
  readonly levelPower?: {
    readonly power: Valued;
    readonly airspeed?: Valued;
    readonly altitude?: Valued;
    readonly mass?: Valued;
  };
  readonly battery?: CompleteBattery;
  readonly drive?: CompleteDrive;
  readonly array?: CompleteArray;
  readonly loads: readonly CompleteLoad[];
  readonly regulatorEfficiency: Valued;
  /** Bus voltages below which the receiver supply drops out and the receiver restarts [V] */
  readonly regulatorDropOut: Valued;
  readonly receiverBrownOut: Valued;
  readonly flight: CompleteFlight;
  /** As written: what it leaves open is filled in, and told, where limits are looked for. */
  readonly launch?: LaunchDesign;
  /** Records in use only; every number has an uncertainty and the source 'measured'. */
  readonly measured: readonly MeasuredRecord[];
}
