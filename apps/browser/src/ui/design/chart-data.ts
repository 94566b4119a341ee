import type { BeamData, DriveData, Measure, Point, PolarData, PowerData } from '@noonwing/drawing';
import { convert, preferredUnit, type QuantityKind, UNITS } from '@noonwing/quantities';
import { unitFor } from '../../core/shown-quantity.js';
import type { Preferences } from '../../core/state.js';
import type { BalanceView, DriveView, FlightView, PowerPointView, PowerView } from '../../core/view.js';

/** A kind in the person's unit: how it is named, and SI numbers turned into it. */
export interface Shown {
  readonly measure: Measure;
  readonly of: (value: number) => number;
}

const si = (kind: QuantityKind): string => UNITS[kind][0]!.names[0]!;

type Units = Pick<Preferences, 'units'>;

export function shownIn(kind: QuantityKind, label: string, size: number, { units }: Units): Shown {
  const unit = unitFor(kind, size, units);
  return { measure: { label, unit }, of: (value) => convert(value, kind, si(kind), unit) };
}

/** Lengths on the beam are in mm unless the person chose another unit: a balance point is laid off with a ruler. */
const beamUnit = ({ units }: Units): string => units.length ?? 'mm';

const massUnit = (mass: number, { units }: Units): string => units.mass ?? preferredUnit('mass', mass);

/** Loads that are one part in the words of a builder stand as one. */
export function beamData(balance: BalanceView, datum: string | undefined, preferences: Units): BeamData {
  const length = beamUnit(preferences);
  const mass = massUnit(Math.max(...balance.loads.map((load) => load.mass), 0.05), preferences);
  const x = (metres: number) => convert(metres, 'length', 'm', length);
  return {
    position: { label: 'aft of the datum', unit: length, ...(length === 'mm' ? { decimals: 0 } : {}) },
    mass: { label: 'mass', unit: mass },
    items: balance.loads.map((load, i) => ({
      id: `load${i}`,
      label: load.name,
      x: x(load.x),
      mass: convert(load.mass, 'mass', 'kg', mass),
      assumed: !load.weighed,
    })),
    balance: { x: x(balance.balancePoint.x), sigma: x(balance.balanceSigma) },
    neutral: { x: x(balance.neutralPoint), sigma: x(balance.staticMarginSigma * balance.meanChord) },
    ...(balance.range.aft > balance.range.forward
      ? { allowed: [x(balance.range.forward), x(balance.range.aft)] as const }
      : {}),
    meanChord: { leadingEdge: x(balance.meanChordStart), chord: x(balance.meanChord) },
    ...(datum === undefined ? {} : { datum }),
  };
}

const powerParts = [
  { id: 'induced', label: 'induced drag' },
  { id: 'profile', label: 'profile drag of the sections' },
  { id: 'parasite', label: 'fuselage, gaps and fittings' },
  { id: 'drive', label: 'lost in the drive' },
  { id: 'loads', label: 'always-on loads' },
] as const;

/**
 * Level power in parts [W]: what each drag takes of the air, what the drive loses on the way, the loads that always run.
 * They add up to the level power.
 */
export function powerPartsOf(point: PowerPointView, steadyLoads: number): readonly number[] {
  const { airspeed, inducedDrag, profileDrag, parasiteDrag, levelPower } = point;
  const air = [inducedDrag, profileDrag, parasiteDrag].map((drag) => drag * airspeed);
  const rest = levelPower - steadyLoads - air.reduce((sum, part) => sum + part, 0);
  return [...air, rest, steadyLoads];
}

export function powerData(view: PowerView, flown: number | undefined, preferences: Units): PowerData {
  const speed = shownIn('speed', 'airspeed', 10, preferences);
  const watts = shownIn('power', 'power', 10, preferences);
  return {
    airspeed: speed.measure,
    power: watts.measure,
    parts: powerParts,
    points: view.points.map((point) => ({
      airspeed: speed.of(point.airspeed),
      parts: powerPartsOf(point, view.steadyLoads).map(watts.of),
    })),
    stall: speed.of(view.stallSpeed),
    ...(view.leastPower === undefined ? {} : { leastPower: speed.of(view.leastPower.airspeed) }),
    ...(view.bestRange === undefined ? {} : { bestRange: speed.of(view.bestRange.airspeed) }),
    ...(flown === undefined ? {} : { flown: speed.of(flown) }),
  };
}

const noPolar: PolarData = { angle: { label: 'angle of attack', unit: 'deg', decimals: 1 }, points: [] };

/** Lift, drag and pitching moment with the control held as in the flight of least power, which is the point of trim. */
export function polarData({ held }: PowerView): PolarData {
  if (held === undefined) return noPolar;
  const points = held.points.map((point) => ({
    angle: (point.alpha * 180) / Math.PI,
    lift: point.liftCoefficient,
    drag: point.dragCoefficient,
    moment: point.pitchingMomentCoefficient,
  }));
  const angle = (held.alpha * 180) / Math.PI;
  const trim = points.find((point) => Math.abs(point.angle - angle) < 1e-6);
  return { ...noPolar, points, ...(trim === undefined ? {} : { trim }) };
}

/** Thrust at full throttle, from the climb that it gives [N]; absent where the drive cannot hold height. */
const fullThrust = ({ drag, climbRate, airspeed }: PowerPointView, weight: number): number | undefined =>
  climbRate === undefined ? undefined : drag + (weight * climbRate) / airspeed;

const chainOf = (drive: DriveView): DriveData['chain'] => [
  { id: 'controller', label: 'speed controller (ESC)', efficiency: drive.controllerEfficiency },
  { id: 'motor', label: 'motor', efficiency: drive.motorEfficiency },
  ...(drive.gearEfficiency < 0.9999 ? [{ id: 'gear', label: 'gear', efficiency: drive.gearEfficiency }] : []),
  { id: 'propeller', label: 'propeller', efficiency: drive.propellerEfficiency },
];

/** Whether motor and propeller match the aircraft. weight - [N] */
export function driveData(view: PowerView, flight: FlightView, weight: number, preferences: Units): DriveData {
  const speed = shownIn('speed', 'airspeed', 10, preferences);
  const thrust = shownIn('force', 'thrust', 2, preferences);
  const turns = shownIn('angular speed', 'propeller speed', 500, preferences);
  const available = view.points.flatMap((point): readonly Point[] => {
    const full = fullThrust(point, weight);
    return full === undefined ? [] : [[speed.of(point.airspeed), thrust.of(full)]];
  });
  const drive = flight.point?.drive ?? view.leastPower?.drive;
  return {
    airspeed: speed.measure,
    thrust: thrust.measure,
    available,
    needed: view.points.map((point): Point => [speed.of(point.airspeed), thrust.of(point.drag)]),
    flown: speed.of(flight.airspeed),
    motorSpeed: {
      measure: { ...turns.measure, decimals: 0 },
      points: view.points.map((point): Point => [speed.of(point.airspeed), turns.of(point.drive.propellerSpeed)]),
    },
    chain: drive === undefined ? [] : chainOf(drive),
  };
}

/** Wing loading as builders and engineers say it: N/m2 and g/dm2. */
export const wingLoading = (mass: number, wingArea: number) =>
  wingArea > 0
    ? { newton: (mass * 9.80665) / wingArea, gramsPerSquareDecimetre: (mass * 1000) / (wingArea * 100) }
    : undefined;
