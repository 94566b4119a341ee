import type { CellParameters, Converter, StandingRow } from '../array/index.js';
import type { Vec3 } from '../math/index.js';
import type { IncidenceModel } from '../sun/index.js';

/** A number that was read, with its standard uncertainty. */
export interface Read {
  readonly value: number;
  readonly sigma: number;
}

/** Cells of a string that look in one direction. */
export interface BenchPatch {
  /** Outward unit normal, body axes: forward, right, down. */
  readonly normal: Vec3;
  readonly cells: number;
}

/** Cells in series with their converter, or several such strings side by side on it. */
export interface BenchUnit {
  readonly name: string;
  readonly cell: CellParameters;
  /** Cells in series. */
  readonly cells: number;
  readonly parallel: number;
  /** Cells that share a bypass diode; 0 for none. */
  readonly cellsPerDiode: number;
  /** Tabs, joints, wires of one string [ohm]. */
  readonly seriesResistance: number;
  readonly converter: Converter;
  /** Where its cells look, in the order of the wiring. */
  readonly patches: readonly BenchPatch[];
  /** What holds their heat. */
  readonly row: StandingRow;
}

/** What stands on the bench, and how well it is known. */
export interface BenchSetup {
  readonly units: readonly BenchUnit[];
  readonly incidence: IncidenceModel;
  /** Film, dust and spectrum: current under them per current of the bare cell. */
  readonly lightFactor: number;
  /** Standard uncertainties, relative: cells with film and dust, conversion of the converter. */
  readonly arraySigma: number;
  readonly converterSigma: number;
  /** Linke turbidity of a clear sky there. */
  readonly turbidity: number;
  /** Of the ground. */
  readonly albedo: number;
  /** At the battery terminals when full [V]. */
  readonly batteryFull?: number;
}

/** One set of readings taken together. */
export interface BenchReading {
  /** [s, Unix] */
  readonly time: number;
  /** [rad] */
  readonly latitude: number;
  readonly longitude: number;
  /** [m] */
  readonly altitude: number;
  /** Of the array from level, and the direction towards which it tilts, from north clockwise [rad]. */
  readonly tilt: Read;
  readonly facing: Read;
  /** Where the nose points, from north clockwise, before it was tilted [rad]; halves at an angle to each other see unequal light. */
  readonly nose?: Read;
  /** At the terminals of the battery [V]. */
  readonly batteryVoltage: Read;
  /** Into the battery [A]. */
  readonly batteryCurrent?: Read;
  /** Which unit was read, where not all of them together. */
  readonly unit?: number;
  /** At the input of the converter [V], into it [A]. */
  readonly arrayVoltage?: Read;
  readonly arrayCurrent?: Read;
  /** With the converter unplugged [V], with the array shorted [A], at the best point of a trace [W]. */
  readonly openCircuitVoltage?: Read;
  readonly shortCircuitCurrent?: Read;
  readonly maximumPower?: Read;
  /** On the plane of the array [W/m2]. */
  readonly irradiance?: Read;
  /** In the shade [K]. */
  readonly airTemperature: Read;
  /** Wind at the cells [m/s]. */
  readonly wind?: Read;
  /** [K] */
  readonly cellTemperature?: Read;
  /** Of the cell that gives least, while the array works [V]. */
  readonly worstCellVoltage?: Read;
  /** Of the current sensor with the cells covered and everything off [A]. */
  readonly zeroCurrent?: Read;
  /** A converter that is known to be good takes the place of the design's own. */
  readonly otherConverter?: boolean;
  /** Hours by which the clock was found to be off [h]. */
  readonly clockError?: Read;
}

/** What may be read, beside the conditions. */
export const observableNames = [
  'batteryCurrent',
  'arrayVoltage',
  'arrayCurrent',
  'openCircuitVoltage',
  'shortCircuitCurrent',
  'maximumPower',
  'irradiance',
  'cellTemperature',
  'worstCellVoltage',
  'zeroCurrent',
  'clockError',
] as const;

export type ObservableName = (typeof observableNames)[number];

/** Everything that could be read at one time, in SI, clockError in hours. */
export type Observables = Readonly<Record<ObservableName, number>>;

/** What may be wrong. */
export type CauseName =
  | 'healthy'
  | 'converter setting'
  | 'local maximum'
  | 'shade or crack'
  | 'hot cells'
  | 'haze'
  | 'wrong time zone'
  | 'sensor offset'
  | 'sensor sign'
  | 'battery full';

/** One way in which something is wrong; all absent: nothing is. */
export interface Fault {
  /** Unit that it concerns, from 0. */
  readonly unit: number;
  /** The converter holds its string at this share of the open-circuit voltage of the data sheet. */
  readonly heldShare?: number;
  /** So many cells see this share of the light, and whether the converter sits on the lower of two maxima. */
  readonly shaded?: { readonly cells: number; readonly share: number; readonly trapped: boolean };
  /** Above what the model gives [K]. */
  readonly hotter?: number;
  /** Light over that of a clear sky. */
  readonly haze?: number;
  /** The true time is that of the reading and this [h]. */
  readonly hours?: number;
  /** Of the current sensor [A]. */
  readonly offset?: number;
  readonly reversed?: boolean;
  /** The battery takes this share of what is offered. */
  readonly accepted?: number;
}

export const healthyFault: Fault = { unit: -1 };
