import {
  type Converter,
  type CurveSource,
  converterOutput,
  inputWindow,
  rememberedSource,
  type SeriesString,
  startTracker,
  stepTracker,
  type Tracker,
  type TrackerState,
} from '../array/index.js';
import {
  type CellPack,
  chargeCurrentLimit,
  circuitVoltage,
  packOpenCircuitVoltage,
  packResistance,
  restedCircuit,
  stepCircuit,
} from '../battery/index.js';
import type { Warning } from '../result.js';

/** A converter on the bus with its string and tracker. */
export interface BusFeed {
  readonly converter: Converter;
  readonly tracker: Tracker;
  /** The string, or source of several, by time [s]; the same object while its light is the same. */
  readonly stringAt: (time: number) => SeriesString | CurveSource;
}

/** Voltages below which something on the bus fails [V]; what is absent is not watched. */
export interface BusFloors {
  /** Least input of the regulator for receiver and servos. */
  readonly regulatorDropOut?: number;
  /** At which the receiver restarts. */
  readonly receiverBrownOut?: number;
  /** At which the speed controller takes the motor away. */
  readonly lowVoltageCut?: number;
}

/** What runs on one bus for some seconds. */
export interface BusRun {
  readonly feeds: readonly BusFeed[];
  readonly pack: CellPack;
  readonly stateOfCharge: number;
  /** Of the battery cells [K]. */
  readonly temperature: number;
  /** Motor and loads by time [W]. */
  readonly loadAt: (time: number) => number;
  /** [s] */
  readonly duration: number;
  /** [s]; default 0.05. */
  readonly step?: number;
  /** Of the input voltages behind their setting [s], default 0.02 (common practice, no source). */
  readonly timeConstant?: number;
  readonly floors?: BusFloors;
  /** Time at which the battery falls off the bus [s]. */
  readonly disconnectedAt?: number;
  /** Voltage that everything on the bus bears [V]. */
  readonly ceiling?: number;
}

/** The bus over time. */
export interface BusCourse {
  readonly time: Float64Array;
  /** At the terminals [V]. */
  readonly voltage: Float64Array;
  /** From all converters [W]. */
  readonly income: Float64Array;
  /** Into the battery [A]. */
  readonly charge: Float64Array;
  readonly lowestVoltage: number;
  readonly highestVoltage: number;
  /** Energy taken from the strings over the energy that was there. */
  readonly share: number;
  readonly warnings: readonly Warning[];
}

/** What a battery takes at most: its charge limit, and the taper towards its charge voltage [A]. */
function acceptedCurrent(pack: CellPack, stateOfCharge: number, temperature: number): number {
  if (stateOfCharge >= pack.highestStateOfCharge) return 0;
  const limit = chargeCurrentLimit(pack.chargeLimits, temperature);
  const room = pack.cellsInSeries * pack.chargeVoltage - packOpenCircuitVoltage(pack, stateOfCharge);
  const taper = room / packResistance(pack, stateOfCharge, temperature);
  return Math.max(0, Math.min(limit * pack.cellsInParallel, taper));
}

/** One time step of a converter: where its tracker holds the string, and what it then gives to the bus. */
function feedStep(
  feed: BusFeed,
  state: TrackerState,
  source: CurveSource,
  at: { readonly bus: number; readonly step: number; readonly timeConstant: number; readonly most: number },
) {
  const { state: next, point } = stepTracker(feed.tracker, state, source, {
    duration: at.step,
    timeConstant: at.timeConstant,
    window: inputWindow(feed.converter, at.bus),
  });
  const output = converterOutput({
    converter: { ...feed.converter, tracking: { method: 'fixed voltage', voltage: Math.max(point.voltage, 1e-3) } },
    source: {
      maximum: point.power > 0 ? point : { voltage: 0, current: 0, power: 0 },
      openCircuitVoltage: source.openCircuitVoltage,
      shortCircuitCurrent: point.current,
      currentAt: source.currentAt,
    },
    batteryVoltage: at.bus,
    acceptance: { power: Math.max(at.most, 0) },
  });
  return { state: next, output, best: source.maximum.power };
}

/**
 * Runs converters with their trackers, a battery and its loads on one bus, second by second: through a turn, under a cloud
 * edge, near a full battery, or without the battery.
 *
 * @param run - feeds, battery, loads, time step, floors of the bus
 * @returns voltage, income and charge by step, their extremes, and warnings where a floor or the ceiling is passed. With
 *   the battery gone nothing holds the voltage: where income exceeds the load it rises to what the converters can give
 * Source: charge balance on one node; battery after Chen and Rincon-Mora 2006 (`battery`), trackers of `array`.
 */
export function busCourse(run: BusRun): BusCourse {
  const { feeds, pack, temperature, duration, step = 0.05, timeConstant = 0.02 } = run;
  const steps = Math.max(1, Math.round(duration / step));
  const [time, voltage, income, charge] = Array.from({ length: 4 }, () => new Float64Array(steps)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const sources = feeds.map(({ stringAt }) => {
    const seen = rememberedSource();
    return (time: number) => seen(stringAt(time));
  });
  let circuit = restedCircuit(pack, run.stateOfCharge, temperature);
  let states = feeds.map(({ tracker }, f) => startTracker(tracker, sources[f]!(0).openCircuitVoltage));
  let bus = packOpenCircuitVoltage(pack, run.stateOfCharge);
  let [taken, there] = [0, 0];
  for (let k = 0; k < steps; k++) {
    const now = (k + 0.5) * step;
    const load = run.loadAt(now);
    const room = acceptedCurrent(pack, circuit.stateOfCharge, temperature) * bus + load;
    let given = 0;
    states = states.map((state, f) => {
      const fed = feedStep(feeds[f]!, state, sources[f]!(now), {
        bus,
        step,
        timeConstant,
        most: room / feeds.length,
      });
      given += fed.output.power;
      taken += fed.output.inputPower;
      there += fed.best;
      return fed.state;
    });
    const isGone = run.disconnectedAt !== undefined && now >= run.disconnectedAt;
    if (isGone) bus = loneBus(feeds, given, load, bus);
    else {
      const current = (load - given) / bus;
      circuit = stepCircuit(pack, circuit, current, step);
      bus = Math.max(circuitVoltage(pack, circuit, current), 0.1);
      charge[k] = -current;
    }
    time[k] = (k + 1) * step;
    voltage[k] = bus;
    income[k] = given;
  }
  const lowestVoltage = voltage.reduce((least, one) => Math.min(least, one), Number.MAX_VALUE);
  const highestVoltage = voltage.reduce((most, one) => Math.max(most, one), 0);
  return {
    time,
    voltage,
    income,
    charge,
    lowestVoltage,
    highestVoltage,
    share: there > 0 ? taken / there : 0,
    warnings: [...floorWarnings(lowestVoltage, run.floors), ...ceilingWarnings(highestVoltage, run.ceiling)],
  };
}

/** Factor over its set voltage to which the output of a converter shoots when its battery goes (judgement: a loop is too slow for a step of the whole load). */
const overshoot = 1.25;

/** Bus without a battery: it breaks down where the load exceeds the income, else it rises to the stop of the converters. */
function loneBus(feeds: readonly BusFeed[], given: number, load: number, before: number): number {
  if (given < load) return 0.1;
  const stops = feeds.map(({ converter }) => converter.limits.outputVoltage ?? before);
  return overshoot * Math.max(...stops, before);
}

const volts = (value: number): string => `${value.toFixed(1)} V`;

/**
 * What fails on a bus whose voltage falls so low.
 * @param lowest - at the terminals [V]
 */
export function floorWarnings(lowest: number, floors: BusFloors = {}): readonly Warning[] {
  const watched: readonly (readonly [keyof BusFloors, string])[] = [
    ['lowVoltageCut', 'the speed controller cuts the motor'],
    ['regulatorDropOut', 'the regulator drops out'],
    ['receiverBrownOut', 'the receiver restarts'],
  ];
  return watched.flatMap(([key, what]): Warning[] => {
    const floor = floors[key];
    if (floor === undefined || lowest >= floor) return [];
    return [
      { code: 'bus-too-low', message: `the bus falls to ${volts(lowest)}: ${what} below ${volts(floor)}`, where: key },
    ];
  });
}

const ceilingWarnings = (highest: number, ceiling = Number.MAX_VALUE): readonly Warning[] =>
  highest <= ceiling
    ? []
    : [
        {
          code: 'bus-too-high',
          message: `the bus rises to ${volts(highest)}, what hangs on it bears ${volts(ceiling)}`,
          where: 'ceiling',
        },
      ];
