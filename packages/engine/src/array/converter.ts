import { brentRoot } from '../math/index.js';
import type { PowerPoint } from './cell.js';
import {
  type SeriesString,
  stringCurrentAtVoltage,
  stringOpenCircuitVoltage,
  stringShortCircuitCurrent,
} from './string.js';
import { stringMaximumPowerPoint } from './string-maximum.js';

/** How input and output voltage may relate. Direct: no converter, the string hangs on the battery through a diode. */
export type Topology = 'boost' | 'buck' | 'buck-boost' | 'direct';

/** Loss while running: fixed + perAmpere Iout + resistance Iout^2. */
export interface ConverterLoss {
  /** [W] */
  readonly fixed: number;
  /** [V] */
  readonly perAmpere: number;
  /** [ohm] */
  readonly resistance: number;
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
 * Current of the explicit curve Isc (1 - exp((V - Voc) / c)) through open circuit and maximum power point.
 *
 * @param source - the three points
 * @param voltage - [V]
 * @returns current [A], not below zero; within 3 % of the single-diode curve between maximum power and open circuit of
 *   an unmismatched string
 */
export function sketchedCurrent(source: ArraySource, voltage: number): number {
  const { maximum, openCircuitVoltage: voc, shortCircuitCurrent: isc } = source;
  if (!(maximum.power > 0)) return 0;
  const ratio = Math.min(maximum.current / isc, 0.999);
  const c = (maximum.voltage - voc) / Math.log(1 - ratio);
  return Math.max(isc * (1 - Math.exp(Math.min((voltage - voc) / c, 50))), 0);
}

/**
 * Efficiency of the loss model at a given input power.
 *
 * @param loss - fixed [W], perAmpere [V], resistance [ohm]
 * @param inputPower - [W]
 * @param outputVoltage - [V]
 * @returns output power [W], 0 where the input does not cover the fixed loss
 * Source: quadratic loss model in common use for inverters; Pin = Pout + P0 + kv I + R I^2 with I = Pout / Vout.
 */
export function convertedPower(loss: ConverterLoss, inputPower: number, outputVoltage: number): number {
  const left = inputPower - loss.fixed;
  if (!(left > 0)) return 0;
  const b = outputVoltage + loss.perAmpere;
  // Root of R I^2 + b I - left = 0, in the form that also holds for R = 0.
  const current = (2 * left) / (b + Math.sqrt(b * b + 4 * loss.resistance * left));
  return current * outputVoltage;
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
  const drop = converter.diodeDrop ?? 0.4;
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

/** Where the string is held, and why, before current and power limits. */
interface Operating {
  readonly voltage: number;
  readonly reason: ConverterReason;
  readonly passesThrough: boolean;
}

/** Input voltage that the tracker asks for, held inside the window. */
function operatingVoltage(question: ConverterQuestion): Operating {
  const { converter, source, batteryVoltage } = question;
  const window = inputWindow(converter, batteryVoltage);
  const { tracking, topology } = converter;
  if (topology === 'direct') {
    return { voltage: window.low, reason: 'no converter: the battery sets the string voltage', passesThrough: true };
  }
  let wanted = source.maximum.voltage;
  let reason: ConverterReason = 'the light on the cells';
  if (tracking.method !== 'maximum power') {
    wanted = tracking.method === 'fixed voltage' ? tracking.voltage : tracking.fraction * source.openCircuitVoltage;
    reason = 'the input voltage at which the converter is set';
  }
  if (wanted < window.low) {
    return {
      voltage: window.low,
      reason: 'the string voltage is too low for the battery with this converter',
      passesThrough: false,
    };
  }
  if (wanted <= (topology === 'boost' ? Math.min(batteryVoltage, window.high) : window.high)) {
    return { voltage: wanted, reason, passesThrough: false };
  }
  if (topology === 'boost' && window.high > batteryVoltage) {
    return {
      voltage: Math.min(window.high, Math.max(wanted, batteryVoltage)),
      reason: 'the string voltage is above the battery: a boost converter can only pass it through',
      passesThrough: true,
    };
  }
  return { voltage: window.high, reason: 'the string voltage is too high for this converter', passesThrough: false };
}

const currentOf = (source: ArraySource, voltage: number): number => {
  if (voltage === source.maximum.voltage) return source.maximum.current;
  if (voltage >= source.openCircuitVoltage) return 0;
  return Math.max(source.currentAt === undefined ? sketchedCurrent(source, voltage) : source.currentAt(voltage), 0);
};

/** Output in stand-by. */
function standby(question: ConverterQuestion, limitedBy: ConverterReason): ConverterOutput {
  const draw = question.converter.standbyPower;
  return {
    power: -draw,
    current: -draw / question.batteryVoltage,
    inputVoltage: question.source.openCircuitVoltage,
    inputPower: 0,
    losses: { tracking: 0, conversion: draw, unused: question.source.maximum.power },
    limitedBy,
    uncontrolledPower: 0,
  };
}

/**
 * The tightest of the limits on output, as power [W] with its reason. A string that is connected straight through is
 * not limited by the converter's ratings.
 */
function outputLimit(
  question: ConverterQuestion,
  operating: Operating,
): { readonly power: number; readonly reason: ConverterReason } {
  const { acceptance, batteryVoltage } = question;
  const limits = operating.passesThrough ? {} : question.converter.limits;
  const most = 1e30; // stands for 'no limit' and keeps products finite
  let power = limits.outputPower ?? most;
  let reason: ConverterReason = 'the output power limit of the converter';
  const byCurrent = (limits.outputCurrent ?? most) * batteryVoltage;
  if (byCurrent < power) {
    power = byCurrent;
    reason = 'the output current limit of the converter';
  }
  let accepted = acceptance?.power ?? most;
  if (acceptance?.current !== undefined) accepted = Math.min(accepted, acceptance.current * batteryVoltage);
  if (accepted < power) {
    power = Math.max(accepted, 0);
    reason = 'the battery accepts no more';
  }
  return { power, reason };
}

/** Voltage above `from` at which the string gives less: `excess` falls through zero there. */
const retreat = (source: ArraySource, from: number, excess: (voltage: number) => number): number =>
  brentRoot(excess, from, source.openCircuitVoltage, { tolerance: 1e-7 }) ?? source.openCircuitVoltage;

/**
 * What a converter delivers from a string to the battery.
 *
 * The tracker chooses an input voltage, topology and battery hold it inside a window, then limits on input current,
 * input power, output current, output power and the battery's acceptance move it towards open circuit.
 *
 * @param question - converter, source (`stringSource`, or three remembered points), battery voltage [V], acceptance
 * @returns power and current into the bus, input voltage, losses that add up to the available power, and the reason
 *   why it is not more
 */
export function converterOutput(question: ConverterQuestion): ConverterOutput {
  const { source, batteryVoltage } = question;
  if (!(source.maximum.power > 0)) return standby(question, 'no light');
  const operating = operatingVoltage(question);
  const input = limitedInput(question, operating);
  if (!(input.power > 0)) return standby(question, tooLow(question.converter, input.reason));
  const loss = operating.passesThrough ? passThroughLoss(operating.voltage, batteryVoltage) : question.converter.loss;
  const converted = convertedPower(loss, input.power, batteryVoltage);
  const limit = outputLimit(question, operating);
  const limited = converted > limit.power;
  const power = limited ? limit.power : converted;
  const reason = limited ? limit.reason : input.reason;
  if (!(power > 0)) return standby(question, limited ? reason : 'too little light to run the converter');
  const out = power / batteryVoltage;
  const inputPower = limited ? power + loss.fixed + loss.perAmpere * out + loss.resistance * out * out : input.power;
  const inputVoltage = limited
    ? heldVoltage(question, (v) => v * currentOf(source, v) - inputPower, input.voltage, operating)
    : input.voltage;
  return {
    power,
    current: out,
    inputVoltage,
    inputPower,
    losses: {
      tracking: source.maximum.power - input.tracked,
      conversion: inputPower - power,
      unused: input.tracked - inputPower,
    },
    limitedBy: reason,
    uncontrolledPower: limited ? Math.max(feedThroughPower(question) - power, 0) : 0,
  };
}

/** Power that a boost converter or a direct connection cannot hold back from the battery [W]. */
function feedThroughPower(question: ConverterQuestion): number {
  const { converter, source, batteryVoltage } = question;
  if (converter.topology !== 'boost' && converter.topology !== 'direct') return 0;
  return batteryVoltage * currentOf(source, batteryVoltage + (converter.diodeDrop ?? 0.4));
}

/** Input voltage of a converter that holds its string back; no higher than where a boost converter feeds through. */
function heldVoltage(
  question: ConverterQuestion,
  excess: (voltage: number) => number,
  from: number,
  operating: Operating,
): number {
  if (operating.passesThrough) return from;
  const voltage = retreat(question.source, from, excess);
  if (question.converter.topology !== 'boost') return voltage;
  return Math.min(voltage, Math.max(from, question.batteryVoltage + (question.converter.diodeDrop ?? 0.4)));
}

/** Input of the converter after its own input limits. */
interface LimitedInput {
  readonly voltage: number;
  readonly power: number;
  /** Power at the tracked point before any limit [W]. */
  readonly tracked: number;
  readonly reason: ConverterReason;
}

/** Input voltage and power after the limits on input current and power; a string connected straight through has none. */
function limitedInput(question: ConverterQuestion, operating: Operating): LimitedInput {
  const { converter, source } = question;
  let { voltage, reason } = operating;
  const current = currentOf(source, voltage);
  if (operating.passesThrough) return { voltage, power: voltage * current, tracked: voltage * current, reason };
  const efficiency = converter.tracking.method === 'maximum power' ? (converter.tracking.efficiency ?? 0.99) : 1;
  const tracked = voltage * current * efficiency;
  let power = tracked;
  const { inputCurrent, inputPower } = converter.limits;
  if (inputCurrent !== undefined && current > inputCurrent) {
    voltage = retreat(source, voltage, (v) => currentOf(source, v) - inputCurrent);
    power = Math.min(voltage * inputCurrent, tracked);
    reason = 'the input current limit of the converter';
  }
  if (inputPower !== undefined && power > inputPower) {
    voltage = retreat(source, voltage, (v) => v * currentOf(source, v) - inputPower);
    power = inputPower;
    reason = 'the input power limit of the converter';
  }
  return { voltage, power, tracked, reason };
}

/** Reason of an output of zero: a string that hangs on the battery through a diode is then below it. */
const tooLow = (converter: Converter, reason: ConverterReason): ConverterReason =>
  converter.topology === 'direct' ? 'the string voltage is too low for the battery with this converter' : reason;

/** Loss of the diode that carries the current straight to the battery. */
const passThroughLoss = (inputVoltage: number, batteryVoltage: number): ConverterLoss => ({
  fixed: 0,
  perAmpere: Math.max(inputVoltage - batteryVoltage, 0),
  resistance: 0,
});
