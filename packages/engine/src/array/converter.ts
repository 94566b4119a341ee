import { currentAtVoltage, type DiodeCurve, type PowerPoint } from './cell.js';
import {
  type SeriesString,
  stringCurrentAtVoltage,
  stringOpenCircuitVoltage,
  stringShortCircuitCurrent,
} from './string.js';
import { stringMaximumPowerPoint } from './string-maximum.js';

/** How input and output voltage may relate. Direct: no converter, the string hangs on the battery through a diode. */
export type Topology = 'boost' | 'buck' | 'buck-boost' | 'direct';

/** Loss while running: fixed + perAmpere Iout + resistance Iout^2 + inputResistance Iin^2. */
export interface ConverterLoss {
  /** [W] */
  readonly fixed: number;
  /** [V] */
  readonly perAmpere: number;
  /** [ohm] */
  readonly resistance: number;
  /** Of what carries the input current [ohm], default 0: makes the efficiency fall as the ratio of voltages moves from 1. */
  readonly inputResistance?: number;
}

/** Ratings; what is absent does not limit. */
export interface ConverterLimits {
  /** [A] */
  readonly inputCurrent?: number;
  /** [A] */
  readonly outputCurrent?: number;
  /** [W] */
  readonly inputPower?: number;
  /** [W] */
  readonly outputPower?: number;
  /** Below it the converter does not run [V]. */
  readonly minimumInputVoltage?: number;
  /** Open-circuit voltage of the string from which it starts [V]. */
  readonly startVoltage?: number;
  /** Voltage of the battery at which it stops charging [V]. */
  readonly outputVoltage?: number;
  /** Rating of its input, which the cold open-circuit voltage must not exceed [V]. */
  readonly maximumInputVoltage?: number;
  /** Greatest output over input voltage of a boost or buck-boost converter, default 5. */
  readonly stepUp?: number;
  /** Greatest input over output voltage of a buck or buck-boost converter, default 5. */
  readonly stepDown?: number;
}

/** How the input voltage is chosen. */
export type Tracking =
  | { readonly method: 'maximum power' /** Static tracking efficiency, default 0.99. */; readonly efficiency?: number }
  | { readonly method: 'fixed voltage' /** [V] */; readonly voltage: number }
  | { readonly method: 'fraction of open circuit'; readonly fraction: number };

/** A converter between one string (or strings in parallel) and the battery. */
export interface Converter {
  readonly topology: Topology;
  readonly loss: ConverterLoss;
  readonly limits: ConverterLimits;
  readonly tracking: Tracking;
  /** Drawn from the battery while there is too little light to run [W]. */
  readonly standbyPower: number;
  /**
   * Least input over output voltage by which a buck converter must exceed 1 (its largest duty cycle), default 1.05, and
   * drop [V], default 0.3. Common practice, no source.
   */
  readonly buckHeadroom?: { readonly ratio: number; readonly drop: number };
  /** Drop of the diode that passes current through where nothing is converted: direct, or boost above the battery [V], default 0.4. */
  readonly diodeDrop?: number;
}

/** What a converter needs to know of its string. */
export interface ArraySource {
  readonly maximum: PowerPoint;
  /** [V] */
  readonly openCircuitVoltage: number;
  /** [A] */
  readonly shortCircuitCurrent: number;
  /** Current at a voltage [A]; where absent a curve through the three points above stands in. */
  readonly currentAt?: (voltage: number) => number;
}

/** Why a converter delivers no more. */
export type ConverterReason =
  | 'the light on the cells'
  | 'no light'
  | 'too little light to run the converter'
  | 'the string voltage is above the battery: a boost converter can only pass it through'
  | 'the string voltage is too low for the battery with this converter'
  | 'the string voltage is too high for this converter'
  | 'the input voltage at which the converter is set'
  | 'no converter: the battery sets the string voltage'
  | 'the input current limit of the converter'
  | 'the input power limit of the converter'
  | 'the output current limit of the converter'
  | 'the output power limit of the converter'
  | 'the battery accepts no more';

/** What a converter delivers. available = power + tracking + conversion + unused (losses). */
export interface ConverterOutput {
  /** To the battery bus [W]; negative in stand-by. */
  readonly power: number;
  /** Into the battery bus [A]. */
  readonly current: number;
  /** [V] */
  readonly inputVoltage: number;
  /** [W] */
  readonly inputPower: number;
  readonly losses: {
    /** Given away because the input voltage is not that of maximum power [W]. */
    readonly tracking: number;
    /** Heat in the converter or diode, stand-by included [W]. */
    readonly conversion: number;
    /** Left on the cells because of a limit, or for want of light to run [W]. */
    readonly unused: number;
  };
  readonly limitedBy: ConverterReason;
  /**
   * What flows beyond the battery's acceptance or the converter's ratings because the string is connected straight
   * through and nothing can hold it back [W]; counted as unused, but a battery would be overcharged by it.
   */
  readonly uncontrolledPower: number;
}

/** What a converter is asked. */
export interface ConverterQuestion {
  readonly converter: Converter;
  readonly source: ArraySource;
  /** At the battery terminals [V]. */
  readonly batteryVoltage: number;
  /** Most that the battery takes from this converter: charge taper, full charge, load; absent does not limit. */
  readonly acceptance?: { readonly current?: number; readonly power?: number };
}

/**
 * A series string as a source for a converter.
 *
 * @param string - cells in series
 * @returns global maximum, open circuit, short circuit, and the curve
 */
export function stringSource(string: SeriesString): ArraySource {
  return {
    maximum: stringMaximumPowerPoint(string),
    openCircuitVoltage: stringOpenCircuitVoltage(string),
    shortCircuitCurrent: stringShortCircuitCurrent(string),
    currentAt: (voltage) => stringCurrentAtVoltage(string, voltage),
  };
}

/**
 * Single-diode curve without shunt through short circuit, open circuit and maximum power point of a source, its
 * maximum there too. Undefined for a mismatched string whose maximum lies below half of its open-circuit voltage.
 */
function sketchedCurve(source: ArraySource): DiodeCurve | undefined {
  const { maximum, openCircuitVoltage: voc, shortCircuitCurrent } = source;
  const isc = Math.max(shortCircuitCurrent, maximum.current * 1.001);
  const diode = isc - maximum.current;
  const logarithm = Math.log(diode / isc);
  const a = (diode * (2 * maximum.voltage - voc)) / (maximum.current + diode * logarithm);
  const rs = (a * logarithm + voc - maximum.voltage) / maximum.current;
  if (!(a > 0 && rs >= 0 && voc / a < 600)) return undefined;
  return {
    photocurrent: isc,
    saturationCurrent: isc / Math.expm1(voc / a),
    seriesResistance: rs,
    shuntResistance: 1e12,
    modifiedIdeality: a,
  };
}

/**
 * Current of a source of which only three points are remembered.
 *
 * A single-diode curve without shunt through the three points; where there is none, Isc (1 - exp((V - Voc) / c))
 * through open circuit and maximum power point.
 *
 * @param source - the three points
 * @param voltage - [V]
 * @returns current [A], not below zero; for a string without mismatch within 1.5 % of its short-circuit
 *   current below the voltage of maximum power, within 8 % above it. Where a converter works away from maximum power
 *   for long, give it the curve
 * Source: De Soto, Klein and Beckman 2006, eqs. 2 to 5, without shunt, which makes them explicit.
 */
export function sketchedCurrent(source: ArraySource, voltage: number): number {
  const { maximum, openCircuitVoltage: voc, shortCircuitCurrent: isc } = source;
  if (!(maximum.power > 0) || voltage >= voc) return 0;
  const curve = sketchedCurve(source);
  if (curve !== undefined) return Math.max(currentAtVoltage(curve, voltage), 0);
  const c = (maximum.voltage - voc) / Math.log(1 - Math.min(maximum.current / isc, 0.999));
  return Math.max(isc * (1 - Math.exp((voltage - voc) / c)), 0);
}

/**
 * Efficiency of the loss model at a given input power.
 *
 * @param loss - fixed [W], perAmpere [V], resistance [ohm]
 * @param inputPower - [W]
 * @param outputVoltage - [V]
 * @param inputVoltage - [V]; needed only where the loss has an input resistance
 * @returns output power [W], 0 where the input does not cover the fixed loss
 * Source: quadratic loss model in common use for inverters; Pin = Pout + P0 + kv I + R I^2 with I = Pout / Vout, and
 * resistive loss of the input current.
 */
export function convertedPower(
  loss: ConverterLoss,
  inputPower: number,
  outputVoltage: number,
  inputVoltage?: number,
): number {
  const left = inputPower - loss.fixed - inputHeat(loss, inputPower, inputVoltage);
  if (!(left > 0)) return 0;
  const b = outputVoltage + loss.perAmpere;
  // Root of R I^2 + b I - left = 0, in the form that also holds for R = 0.
  const current = (2 * left) / (b + Math.sqrt(b * b + 4 * loss.resistance * left));
  return current * outputVoltage;
}

/** Heat of the input current [W]. */
export function inputHeat(loss: ConverterLoss, inputPower: number, inputVoltage: number | undefined): number {
  if (loss.inputResistance === undefined || inputVoltage === undefined || !(inputVoltage > 0)) return 0;
  return loss.inputResistance * (inputPower / inputVoltage) ** 2;
}

/**
 * Input power that an output power takes: the loss model the other way round.
 *
 * @param loss - of the converter
 * @param outputPower - [W]
 * @param outputVoltage, inputVoltage - [V]
 * @returns input power [W]; never above what the input resistance can pass
 */
export function neededInput(
  loss: ConverterLoss,
  outputPower: number,
  outputVoltage: number,
  inputVoltage: number,
): number {
  const out = outputPower / outputVoltage;
  const needed = outputPower + loss.fixed + loss.perAmpere * out + loss.resistance * out * out;
  const resistance = loss.inputResistance ?? 0;
  if (resistance === 0 || !(inputVoltage > 0)) return needed;
  // Root of R (P / V)^2 - P + needed = 0, the smaller one.
  const curvature = (4 * resistance * needed) / inputVoltage ** 2;
  return (2 * needed) / (1 + Math.sqrt(Math.max(1 - curvature, 0)));
}

/**
 * Output power at which the loss model is most efficient, and that efficiency.
 *
 * @param loss - with fixed loss and resistance above zero
 * @param outputVoltage - [V]
 * @returns output power [W] and efficiency
 */
export function bestEfficiency(
  loss: ConverterLoss,
  outputVoltage: number,
): { readonly outputPower: number; readonly efficiency: number } {
  const current = Math.sqrt(loss.fixed / loss.resistance);
  const relative = (loss.perAmpere + 2 * Math.sqrt(loss.fixed * loss.resistance)) / outputVoltage;
  return { outputPower: current * outputVoltage, efficiency: 1 / (1 + relative) };
}

/** Drop of the diode that passes current straight through [V]. */
export const diodeDropOf = (converter: Converter): number => converter.diodeDrop ?? 0.4;

/** Input voltages between which a converter can choose at a battery voltage [V]. */
export interface InputWindow {
  readonly low: number;
  readonly high: number;
}

/**
 * Input voltages that a converter can hold while it feeds a battery.
 *
 * @param converter - topology and limits
 * @param batteryVoltage - [V]
 * @returns lowest and highest input voltage [V]. Boost: up to the battery voltage plus the diode that passes it
 *   through. Buck: from headroom above the battery. Direct: battery plus diode, no choice
 * Source: ideal voltage ratios of continuous conduction (buck d, boost 1/(1-d), buck-boost d/(1-d)).
 */
export function inputWindow(converter: Converter, batteryVoltage: number): InputWindow {
  const { limits, topology } = converter;
  const drop = diodeDropOf(converter);
  const { ratio, drop: headroom } = converter.buckHeadroom ?? { ratio: 1.05, drop: 0.3 };
  if (topology === 'direct') return { low: batteryVoltage + drop, high: batteryVoltage + drop };
  const up = batteryVoltage / (limits.stepUp ?? 5);
  const down = batteryVoltage * (limits.stepDown ?? 5);
  const low = topology === 'buck' ? batteryVoltage * ratio + headroom : up;
  const high = topology === 'boost' ? batteryVoltage + drop : down;
  return {
    low: Math.max(low, limits.minimumInputVoltage ?? 0),
    high: Math.min(high, limits.maximumInputVoltage ?? Number.MAX_VALUE),
  };
}
