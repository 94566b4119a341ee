import { type Outcome, problem, success } from '../result.js';

/** Resistivity of annealed copper at 20 C [ohm m]. Source: IEC 60028 (100 % IACS). */
export const copperResistivity = 1.7241e-8;

/** Density of copper [kg/m3]. Source: NBS Handbook 100, Copper Wire Tables, 1966. */
export const copperDensity = 8890;

/** Relative change of the resistance of copper with temperature, from 20 C [1/K]. Source: IEC 60028. */
export const copperTemperatureCoefficient = 0.00393;

/** Temperature to which wire resistance refers [K]. */
const wireReferenceTemperature = 293.15;

/**
 * Diameter of a solid round wire by American wire gauge.
 *
 * @param gauge - AWG number, 0 to 40
 * @returns diameter [m]
 * Source: ASTM B258: 0.127 mm x 92^((36 - n) / 39).
 */
export const gaugeDiameter = (gauge: number): number => 0.127e-3 * 92 ** ((36 - gauge) / 39);

/**
 * Copper cross-section by American wire gauge.
 *
 * @param gauge - AWG number
 * @returns area [m2]
 */
export const gaugeArea = (gauge: number): number => (Math.PI / 4) * gaugeDiameter(gauge) ** 2;

/** A run of wire from one part to another, with its return. */
export interface WireRun {
  /** Copper cross-section [m2]; `gaugeArea` gives it for an AWG number. */
  readonly area: number;
  /** Distance from end to end [m]. */
  readonly length: number;
  /** Lengths of conductor per length of run: 2 out and back (default), 1 for a single lead [count]. */
  readonly conductors?: number;
  /** Temperature of the wire [K], default 293.15. */
  readonly temperature?: number;
  /** Extra resistance of stranded wire, default 0 (stranded wire of the same gauge: 0.02 to 0.04, from memory). */
  readonly strandingAllowance?: number;
  /** Mass of insulation per mass of copper, default 0 (silicone, AWG 12 to 22: 0.4 to 1, from memory). */
  readonly insulationRatio?: number;
}

/** Resistance and mass of a run. */
export interface WireResult {
  /** Length of conductor, out and back [m]. */
  readonly loopLength: number;
  /** [ohm] */
  readonly resistance: number;
  /** Copper [kg]. */
  readonly copperMass: number;
  /** Copper and insulation [kg]. */
  readonly mass: number;
}

/**
 * Resistance and mass of a wire run.
 *
 * @param run - copper area, run length and conductors; the loop (out and back) is what carries the current
 * @returns loop length [m], resistance [ohm], copper and total mass [kg]
 * Source: R = rho L / A; IEC 60028 for copper.
 */
export function wire(run: WireRun): WireResult {
  const loopLength = run.length * (run.conductors ?? 2);
  const warm =
    1 + copperTemperatureCoefficient * ((run.temperature ?? wireReferenceTemperature) - wireReferenceTemperature);
  const copperMass = copperDensity * run.area * loopLength;
  return {
    loopLength,
    resistance: (copperResistivity * loopLength * warm * (1 + (run.strandingAllowance ?? 0))) / run.area,
    copperMass,
    mass: copperMass * (1 + (run.insulationRatio ?? 0)),
  };
}

/**
 * Resistance of what joins the cells of a string and leads to its converter.
 *
 * @param parts.joints - soldered tab joints [count], each of jointResistance [ohm] (1.5 to 4 milliohm, common practice, no source)
 * @param parts.connectorPoles - mated poles in the loop [count], each of poleResistance [ohm] (0.3 to 0.8 milliohm for
 *   3.5 to 4.5 mm bullets, 5 to 20 for small crimp pins; from memory)
 * @param parts.wireResistance - of the wire loop [ohm]
 * @returns series resistance beside the cells [ohm]
 */
export function stringLeadResistance(parts: {
  readonly joints?: number;
  readonly jointResistance?: number;
  readonly connectorPoles?: number;
  readonly poleResistance?: number;
  readonly wireResistance?: number;
}): number {
  const joints = (parts.joints ?? 0) * (parts.jointResistance ?? 0.0025);
  const poles = (parts.connectorPoles ?? 0) * (parts.poleResistance ?? 0.0006);
  return joints + poles + (parts.wireResistance ?? 0);
}

/** Thinnest copper that is taken for a wire [m2]: a millionth of a square millimetre. */
const thinnestArea = 1e-12;

/**
 * What a current does in a wire run.
 *
 * @param run - the wire
 * @param current - [A]
 * @returns voltage drop [V] and power turned to heat [W], or a problem for a wire without cross-section or length
 */
export function wireLoss(
  run: WireRun,
  current: number,
): Outcome<{ readonly resistance: number; readonly voltageDrop: number; readonly power: number }> {
  if (!(run.area >= thinnestArea) || !(run.length >= 0) || !Number.isFinite(current)) {
    return problem({
      code: 'wire-without-section',
      reason: 'a wire needs a copper cross-section above zero and a length of zero or more',
      where: 'wire',
      remedy: 'give the gauge (AWG) or the area in mm2, and the length from end to end',
    });
  }
  const { resistance } = wire(run);
  return success({ resistance, voltageDrop: resistance * current, power: resistance * current * current });
}
