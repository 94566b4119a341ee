import type { Measure, Point, Span } from '../model.js';

/** A stretch of time that sunlight carries the aircraft. */
export interface DayWindow {
  /** [h of the local clock]. */
  readonly start: number;
  readonly end: number;
  /** Between which the ends lie. */
  readonly startSpan?: Span;
  readonly endSpan?: Span;
}

export interface DaySky {
  readonly id: string;
  /** For instance "clear", "thin cloud", "broken". */
  readonly name: string;
  /** One value per hour of the course. */
  readonly income: readonly number[];
  readonly windows: readonly DayWindow[];
  /** How sure the window is, in words: "about 9 in 10". */
  readonly confidence?: string;
}

/** The day: sunlight, income under each sky, need, windows. Hours are hours of the local clock; beyond 24 is the next day. */
export interface DayData {
  /** As shown: date, place. */
  readonly when: string;
  /** For instance "UTC+2". */
  readonly zone: string;
  readonly hours: readonly number[];
  readonly sunlight?: { readonly measure: Measure; readonly values: readonly number[] };
  readonly power: Measure;
  readonly skies: readonly DaySky[];
  /** One value, or one per hour. */
  readonly need: number | readonly number[];
  readonly needSpan?: Span;
  readonly sunrise?: number;
  readonly sunset?: number;
  readonly launch?: number;
  readonly landing?: number;
  /** The hour that the rest of the screen shows. */
  readonly cursor?: number;
  /** The clock, where the date is today. */
  readonly now?: number;
  /** Lines of another state for comparison, dashed. */
  readonly compare?: { readonly label: string; readonly income: readonly number[]; readonly need: number };
}

export interface ChargeSky {
  readonly id: string;
  readonly name: string;
  readonly charge: readonly number[];
  /** True where income is thrown away because the battery is full. */
  readonly curtailed?: readonly boolean[];
}

export interface ChargeData {
  readonly when: string;
  readonly zone: string;
  readonly hours: readonly number[];
  readonly charge: Measure;
  readonly skies: readonly ChargeSky[];
  /** Charge that shall stay in the battery. */
  readonly reserve?: number;
  readonly full?: number;
  readonly cursor?: number;
  readonly sunrise?: number;
  readonly sunset?: number;
}

export interface PowerPart {
  readonly id: string;
  readonly label: string;
}

export interface PowerCurvePoint {
  readonly airspeed: number;
  /** In the order of the parts; their sum is the level power. */
  readonly parts: readonly number[];
}

export interface PowerData {
  readonly airspeed: Measure;
  readonly power: Measure;
  readonly parts: readonly PowerPart[];
  readonly points: readonly PowerCurvePoint[];
  readonly stall?: number;
  readonly leastPower?: number;
  readonly bestRange?: number;
  readonly flown?: number;
  readonly limit?: { readonly airspeed: number; readonly reason: string };
  /** Another state: level power alone, dashed. */
  readonly compare?: { readonly label: string; readonly points: readonly Point[] };
}

export interface PolarPoint {
  /** Angle of attack. */
  readonly angle: number;
  readonly lift: number;
  readonly drag: number;
  /** About the balance point, nose up positive. */
  readonly moment: number;
}

export interface PolarData {
  readonly angle: Measure;
  readonly points: readonly PolarPoint[];
  readonly trim?: PolarPoint;
  readonly compare?: { readonly label: string; readonly points: readonly PolarPoint[] };
}

export interface ChainLink {
  readonly id: string;
  readonly label: string;
  /** 0 to 1. */
  readonly efficiency: number;
  readonly note?: string;
}

export interface DriveData {
  readonly airspeed: Measure;
  readonly thrust: Measure;
  readonly available: readonly Point[];
  readonly needed: readonly Point[];
  readonly flown?: number;
  readonly motorSpeed?: { readonly measure: Measure; readonly points: readonly Point[]; readonly limit?: number };
  /** From the battery to the air. */
  readonly chain: readonly ChainLink[];
}

export interface BeamItem {
  readonly id: string;
  readonly label: string;
  /** Aft of the datum, in the unit of the position. */
  readonly x: number;
  readonly mass: number;
  readonly assumed?: boolean;
}

export interface BeamPoint {
  readonly x: number;
  /** Standard uncertainty. */
  readonly sigma?: number;
}

export interface BeamData {
  readonly position: Measure;
  readonly mass: Measure;
  readonly items: readonly BeamItem[];
  readonly balance?: BeamPoint;
  readonly neutral?: BeamPoint;
  readonly allowed?: Span;
  /** For per cent of the mean chord. */
  readonly meanChord?: { readonly leadingEdge: number; readonly chord: number };
  /** What the datum is, for instance "leading edge at the root". */
  readonly datum?: string;
}

export interface GridAxis extends Measure {
  readonly kind: 'number' | 'hour' | 'day of year' | 'latitude';
  /** Increasing. */
  readonly values: readonly number[];
}

/** A figure over two axes, for instance the solar ratio over date and hour. */
export interface WhereWhenData {
  readonly figure: Measure;
  readonly x: GridAxis;
  readonly y: GridAxis;
  /** Row by row: the value at x[i], y[j] stands at j * x.length + i. */
  readonly values: ArrayLike<number>;
  /** The line that decides; default 1. */
  readonly threshold?: number;
  /** What at or above it and what below it means; default "carried" and "not carried". */
  readonly words?: { readonly above: string; readonly below: string };
  readonly here?: { readonly x: number; readonly y: number; readonly label: string };
}

export interface LedgerChainRow {
  readonly id: string;
  readonly label: string;
  /** Negative where something is added. */
  readonly value: number;
  readonly group: 'light' | 'cells' | 'converter' | 'loads' | 'drive' | 'air' | 'battery';
  /** Contained in another row: listed, not summed. */
  readonly partOf?: string;
  readonly note?: string;
}

export interface LedgerData {
  /** Instant or stretch and sky, as shown. */
  readonly when: string;
  readonly power: Measure;
  readonly rows: readonly LedgerChainRow[];
}

export interface ShareRow {
  readonly id: string;
  readonly label: string;
  /** Of the variance, 0 to 1. */
  readonly share: number;
  readonly measured?: boolean;
  /** What would make it surer, in words. */
  readonly remedy?: string;
}

export interface SharesData {
  /** What is unsure, for instance "solar ratio at noon, clear sky". */
  readonly of: string;
  readonly rows: readonly ShareRow[];
}

export interface CurveSet {
  readonly id: string;
  readonly label: string;
  readonly points: readonly Point[];
}

/** Curves of two states over the same axes: A solid, B dashed. */
export interface CompareData {
  readonly question: string;
  readonly x: Measure & { readonly kind?: 'number' | 'hour' };
  readonly y: Measure;
  readonly a: { readonly name: string; readonly curves: readonly CurveSet[] };
  /** `asPoints`: each value a marker without a line between, for what was measured. */
  readonly b: { readonly name: string; readonly curves: readonly CurveSet[]; readonly asPoints?: boolean };
}

export interface IntervalRow {
  readonly id: string;
  readonly label: string;
  readonly value: number;
  /** For instance the 90 % interval. */
  readonly span: Span;
  readonly measured?: boolean;
}

export interface IntervalData {
  readonly measure: Measure;
  readonly rows: readonly IntervalRow[];
  /** A limit to compare with. */
  readonly limit?: { readonly value: number; readonly label: string };
}

export interface SparkData {
  readonly measure: Measure;
  readonly label: string;
  readonly points: readonly Point[];
  readonly limit?: number;
}
