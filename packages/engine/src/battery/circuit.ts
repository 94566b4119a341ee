import { type CellPack, packCapacity, packOpenCircuitVoltage, packResistance } from './pack.js';

/** State of the equivalent circuit: charge and the voltages over the relaxation pairs. */
export interface CircuitState {
  readonly stateOfCharge: number;
  /** Cell temperature [K]. */
  readonly temperature: number;
  /** Over each pair of `pack.relaxation`, pack level [V]. */
  readonly relaxationVoltage: readonly number[];
}

/**
 * Exact response of one resistor-capacitor pair to a constant current: v e^(-t/tau) + I R (1 - e^(-t/tau)).
 * @param voltage - at the start [V]
 * @param current - [A]
 * @param resistance - [ohm]
 * @param timeConstant - [s]
 * @param duration - [s]
 * Source: solution of dv/dt = -v/(R C) + I/C.
 */
export function relaxationVoltage(at: {
  readonly voltage: number;
  readonly current: number;
  readonly resistance: number;
  readonly timeConstant: number;
  readonly duration: number;
}): number {
  if (!(at.timeConstant > 0)) throw new RangeError('the time constant must be positive');
  const decay = Math.exp(-at.duration / at.timeConstant);
  return at.voltage * decay - at.current * at.resistance * Math.expm1(-at.duration / at.timeConstant);
}

/** A rested circuit. */
export function restedCircuit(pack: CellPack, stateOfCharge: number, temperature: number): CircuitState {
  return { stateOfCharge, temperature, relaxationVoltage: pack.relaxation.map(() => 0) };
}

/**
 * Terminal voltage U - I R0 - sum(v_k), where R0 is what the pairs leave of the direct-current resistance.
 * @param current - > 0 discharges [A]
 * @returns [V]
 */
export function circuitVoltage(pack: CellPack, state: CircuitState, current: number): number {
  const resistance = packResistance(pack, state.stateOfCharge, state.temperature);
  const cells = resistance - pack.wiringResistance;
  let voltage = packOpenCircuitVoltage(pack, state.stateOfCharge) - current * pack.wiringResistance;
  let share = 1;
  for (let k = 0; k < pack.relaxation.length; k++) {
    share -= pack.relaxation[k].share;
    voltage -= state.relaxationVoltage[k];
  }
  return voltage - current * cells * share;
}

/**
 * Exact step of the equivalent circuit under a constant current; resistances as at the start of the step.
 * For seconds to minutes (launch, motor bursts, current transients of a log); the day uses `stepPack`.
 *
 * @param current - > 0 discharges [A]
 * @param duration - [s]
 * Source: Chen & Rincon-Mora, IEEE Trans. Energy Conversion 21(2), 2006, fig. 2; exact update of linear pairs.
 */
export function stepCircuit(pack: CellPack, state: CircuitState, current: number, duration: number): CircuitState {
  if (!(duration >= 0) || !Number.isFinite(current)) throw new RangeError('duration and current must be finite');
  const cells = packResistance(pack, state.stateOfCharge, state.temperature) - pack.wiringResistance;
  const efficiency = current < 0 ? pack.coulombicEfficiency : 1;
  const change = (current * efficiency * duration) / packCapacity(pack);
  return {
    stateOfCharge: Math.min(1, Math.max(0, state.stateOfCharge - change)),
    temperature: state.temperature,
    relaxationVoltage: pack.relaxation.map((pair, k) =>
      relaxationVoltage({
        voltage: state.relaxationVoltage[k],
        current,
        resistance: cells * pair.share,
        timeConstant: pair.timeConstant,
        duration,
      }),
    ),
  };
}

/** Resistances and time constants of the 850 mAh polymer cell at a state of charge. */
export interface PolymerCircuit {
  /** [ohm] */
  readonly seriesResistance: number;
  readonly shortResistance: number;
  readonly longResistance: number;
  /** [s] */
  readonly shortTimeConstant: number;
  readonly longTimeConstant: number;
}

/**
 * Fitted circuit of a lithium-polymer cell of 850 mAh. Below 2 % the fitted capacitances turn negative: held there.
 * @param stateOfCharge - 0 to 1
 * Source: Chen & Rincon-Mora, IEEE Trans. Energy Conversion 21(2), 504-511, 2006, eq. 2 to 6.
 */
export function polymerCircuit(stateOfCharge: number): PolymerCircuit {
  const s = Math.min(1, Math.max(0.02, stateOfCharge));
  const shortResistance = 0.3208 * Math.exp(-29.14 * s) + 0.04669;
  const longResistance = 6.603 * Math.exp(-155.2 * s) + 0.04984;
  return {
    seriesResistance: 0.1562 * Math.exp(-24.37 * s) + 0.07446,
    shortResistance,
    longResistance,
    shortTimeConstant: shortResistance * (-752.9 * Math.exp(-13.51 * s) + 703.6),
    longTimeConstant: longResistance * (-6056 * Math.exp(-27.12 * s) + 4475),
  };
}
