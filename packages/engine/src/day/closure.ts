import { brentRoot } from '../math/index.js';
import { type Outcome, problem, success } from '../result.js';

/** Constants of the analytical design method, all of them averages over a class of aircraft. */
export interface ClosureConstants {
  readonly liftCoefficient: number;
  /** Profile drag of the section, and parasite drag of fuselage and tail, both on the wing area. */
  readonly sectionDragCoefficient: number;
  readonly parasiteDragCoefficient: number;
  readonly spanEfficiency: number;
  /** [kg/m3], [m/s2] */
  readonly density: number;
  readonly gravity: number;
  /** Greatest light on a level plane [W/m2], length of the half-sine day [s], share left by cloud. */
  readonly greatestLight: number;
  readonly dayLength: number;
  readonly weatherShare: number;
  /** Of the battery [J/kg]; of cells and of their lamination [kg/m2]; of converter and drive [kg/W]. */
  readonly batteryEnergyDensity: number;
  readonly cellArealMass: number;
  readonly laminationArealMass: number;
  readonly converterMassPerPower: number;
  readonly driveMassPerPower: number;
  /** Airframe mass = factor x span^spanExponent x aspectRatio^aspectExponent [kg, m]. */
  readonly airframe: { readonly factor: number; readonly spanExponent: number; readonly aspectExponent: number };
  /** Avionics and payload: mass [kg] and power behind the regulator [W]. */
  readonly fixedMass: number;
  readonly fixedPower: number;
  readonly efficiency: {
    readonly cells: number;
    /** Flat cells on a cambered wing. */
    readonly camber: number;
    readonly converter: number;
    readonly charge: number;
    readonly discharge: number;
    readonly speedController: number;
    readonly motor: number;
    readonly gear: number;
    readonly propeller: number;
    readonly regulator: number;
  };
  /** Share of the wing that cells may cover. */
  readonly usableShare: number;
}

const hour = 3600;

/**
 * Constants for an aircraft that stays up for 24 hours in June.
 * Source: A. Noth, Design of Solar Powered Airplanes for Continuous Flight, ETH Zurich Diss. 18010, 2008 (from memory).
 */
export const overnightConstants: ClosureConstants = {
  liftCoefficient: 0.8,
  sectionDragCoefficient: 0.013,
  parasiteDragCoefficient: 0.006,
  spanEfficiency: 0.9,
  density: 1.1655,
  gravity: 9.81,
  greatestLight: 950,
  dayLength: 13.2 * hour,
  weatherShare: 0.7,
  batteryEnergyDensity: 190 * hour,
  cellArealMass: 0.32,
  laminationArealMass: 0.26,
  converterMassPerPower: 0.42e-3,
  driveMassPerPower: 8e-3,
  airframe: { factor: 0.44 / 9.81, spanExponent: 3.1, aspectExponent: -0.25 },
  fixedMass: 0.2,
  fixedPower: 2,
  efficiency: {
    ...{ cells: 0.169, camber: 0.9, converter: 0.97, charge: 0.95, discharge: 0.95 },
    ...{ speedController: 0.95, motor: 0.85, gear: 0.97, propeller: 0.85, regulator: 0.65 },
  },
  usableShare: 1,
};

/** An aircraft whose masses add up. */
export interface ClosedDesign {
  /** All up [kg], and its parts. */
  readonly mass: number;
  readonly airframeMass: number;
  readonly batteryMass: number;
  readonly cellMass: number;
  readonly converterMass: number;
  readonly driveMass: number;
  /** [m2], and as a share of the wing */
  readonly cellArea: number;
  readonly coverage: number;
  readonly dragCoefficient: number;
  /** [m/s] */
  readonly airspeed: number;
  /** Mechanical power of level flight, and electric power from the battery with all loads [W]. */
  readonly flightPower: number;
  readonly electricPower: number;
  /** M0 K^2: closes up to `greatestClosure`. */
  readonly closure: number;
}

/** Above it no mass closes: greatest of x^2 - K x^3 with x = sqrt(m), in units of 1/K^2. */
export const greatestClosure = 4 / 27;

/** Masses per watt of electric power, and powers at unit mass. */
function coefficients(span: number, aspectRatio: number, c: ClosureConstants) {
  const { efficiency: eta, airframe } = c;
  const dragCoefficient =
    c.sectionDragCoefficient +
    c.parasiteDragCoefficient +
    c.liftCoefficient ** 2 / (Math.PI * c.spanEfficiency * aspectRatio);
  const flightFactor =
    ((dragCoefficient / c.liftCoefficient ** 1.5) * Math.sqrt((2 * aspectRatio * c.gravity ** 3) / c.density)) / span;
  const night = 24 * hour - c.dayLength;
  const batteryPerWatt = night / (eta.discharge * c.batteryEnergyDensity);
  const areaPerWatt =
    (Math.PI / (2 * eta.cells * eta.camber * eta.converter * c.weatherShare * c.greatestLight)) *
    (1 + night / (c.dayLength * eta.charge * eta.discharge));
  const solarPerArea = c.greatestLight * eta.cells * eta.camber * eta.converter;
  return {
    dragCoefficient,
    flightFactor,
    perFlightPower: 1 / (eta.speedController * eta.motor * eta.gear * eta.propeller),
    loads: c.fixedPower / eta.regulator,
    batteryPerWatt,
    areaPerWatt,
    solarPerArea,
    perWatt:
      batteryPerWatt +
      areaPerWatt * (c.cellArealMass + c.laminationArealMass) +
      areaPerWatt * solarPerArea * c.converterMassPerPower,
    airframeMass: airframe.factor * span ** airframe.spanExponent * aspectRatio ** airframe.aspectExponent,
  };
}

/**
 * M0 K^2 of a span and aspect ratio: how near the masses are to not closing (4/27).
 * @param span - [m], > 0
 * @param aspectRatio - span^2 / wing area, > 0
 * Source: as `closeDesign`.
 */
export function closureNumber(span: number, aspectRatio: number, constants = overnightConstants): number {
  const { K, M0 } = closureTerms(span, aspectRatio, constants);
  return M0 * K ** 2;
}

function closureTerms(span: number, aspectRatio: number, constants: ClosureConstants) {
  if (!(span > 0 && aspectRatio > 0)) throw new RangeError('span and aspect ratio must be positive');
  const a = coefficients(span, aspectRatio, constants);
  const K = a.flightFactor * (constants.driveMassPerPower + a.perFlightPower * a.perWatt);
  const M0 = constants.fixedMass + a.airframeMass + a.loads * a.perWatt;
  return { a, K, M0 };
}

/**
 * Quick second opinion on a whole aircraft that stays up day and night: every part weighs in proportion to the power
 * that the whole mass needs, which closes at the smaller root of m - K m^1.5 = M0, or not at all.
 *
 * @param span - [m], > 0
 * @param aspectRatio - span^2 / wing area, > 0
 * @returns masses, cell area, airspeed and powers; a problem where nothing closes or the cells do not fit on the wing
 *
 * Valid for conventional aircraft near the class that the constants were taken from; the day is a half sine, so compare
 * energies with it, not clock times.
 * Source: A. Noth, ETH Zurich Diss. 18010, 2008, analytical design method (equations from memory, derived again).
 */
export function closeDesign(span: number, aspectRatio: number, constants = overnightConstants): Outcome<ClosedDesign> {
  const { a, K, M0 } = closureTerms(span, aspectRatio, constants);
  const closure = M0 * K ** 2;
  const turning = 2 / (3 * K);
  const root =
    closure <= greatestClosure
      ? brentRoot((x) => x ** 2 - K * x ** 3 - M0, 0, turning * (1 + 1e-12), { tolerance: 1e-12 })
      : undefined;
  if (root === undefined) return doesNotClose(closure);
  const mass = root ** 2;
  const flightPower = a.flightFactor * mass ** 1.5;
  const electricPower = flightPower * a.perFlightPower + a.loads;
  const cellArea = a.areaPerWatt * electricPower;
  const area = span ** 2 / aspectRatio;
  const coverage = cellArea / area;
  if (coverage > constants.usableShare) return cellsDoNotFit(coverage, constants.usableShare);
  return success({
    mass,
    airframeMass: a.airframeMass,
    batteryMass: a.batteryPerWatt * electricPower,
    cellMass: cellArea * (constants.cellArealMass + constants.laminationArealMass),
    converterMass: cellArea * a.solarPerArea * constants.converterMassPerPower,
    driveMass: constants.driveMassPerPower * flightPower,
    cellArea,
    coverage,
    dragCoefficient: a.dragCoefficient,
    airspeed: Math.sqrt((2 * mass * constants.gravity) / (constants.density * area * constants.liftCoefficient)),
    flightPower,
    electricPower,
    closure,
  });
}

const doesNotClose = (closure: number) =>
  problem({
    code: 'no-closure',
    reason: `every gram added asks for more than a gram of battery, cells and drive (${closure.toFixed(3)}, it closes up to ${greatestClosure.toFixed(3)})`,
    where: 'span and aspect ratio',
    remedy: 'a better propeller or motor, a lighter airframe, a battery of more energy per mass, or a longer day',
  });

const cellsDoNotFit = (coverage: number, usable: number) =>
  problem({
    code: 'cells-do-not-fit',
    reason: `cells would cover ${(100 * coverage).toFixed(0)} % of the wing, ${(100 * usable).toFixed(0)} % can be covered`,
    where: 'span and aspect ratio',
    remedy: 'more efficient cells, a larger span, or a lower aspect ratio',
  });
