import type { Problem, Warning } from '@noonwing/engine';
import type { Air } from '@noonwing/engine/air';
import {
  additionEffect,
  type BalanceBeam,
  type BalanceRange,
  balanceBeam,
  balancePointForMargin,
  balanceRange,
  checkBalance,
  grownItems,
  type MassSum,
  type Placement,
  placeForBalance,
} from '@noonwing/engine/balance';
import { pitchStability, trimmer, wingAirframe } from '@noonwing/engine/flight';
import { type AircraftModel, usualAirspeed } from './aircraft.js';
import type { FlightConditions, FlightNeed } from './need.js';
import { type PitchControl, pitchControlsOf } from './pitch-control.js';
import type { Stages } from './stages.js';

/** Least static margin asked for: 5 % of the mean chord. Common practice: 5 to 15 % with a tail, 5 to 10 % for flying wings. */
export const leastStaticMargin = 0.05;
/** Static margin that a battery is placed for: the middle of common practice. */
export const aimedStaticMargin = 0.1;

/** Balance of an aircraft: where it is, where it may be, and how to get there. */
export interface BalanceReport {
  readonly sum: MassSum;
  readonly beam: BalanceBeam;
  /** The foremost over the speeds flown, aft of the datum [m]. */
  readonly neutralPoint: number;
  readonly staticMargin: number;
  /** By the standard uncertainty of the balance point alone. */
  readonly staticMarginSigma: number;
  readonly meanChord: number;
  /** Leading edge of the mean chord, aft of the datum [m]. */
  readonly meanChordStart: number;
  readonly range: BalanceRange;
  /** Standard uncertainty of the foremost balance point by what full control turns [m]. */
  readonly forwardSigma: number;
  /** Where the battery goes for the aimed static margin; absent without a battery. */
  readonly battery?: {
    readonly x: number;
    readonly mass: number;
    readonly placement?: Placement;
    readonly problem?: Problem;
  };
  /** What a further pair of cells at the first row would do. */
  readonly cellEffect?: { readonly mass: number; readonly shift: number; readonly batteryMove?: number };
  /** How well each pitch control turns the flow at the airspeed flown. */
  readonly controls: readonly PitchControl[];
  readonly problem?: Problem;
  readonly warnings: readonly Warning[];
}

/**
 * Balance of an aircraft at its flight point; without one at a usual angle of attack and airspeed.
 * @returns undefined where there is no airframe or nothing has mass
 */
export function balanceReport(
  model: AircraftModel,
  air: Air,
  flight: FlightNeed | undefined,
): BalanceReport | undefined {
  const { airframe, balance: sum, complete, masses } = model;
  if (airframe === undefined || sum === undefined) return undefined;
  const airspeed = flight?.airspeed ?? usualAirspeed;
  const trim = flight?.chosen?.flight.trim;
  const at = { alpha: trim?.alpha ?? 0.06, control: trim?.control ?? 0, airspeed, air };
  const meanChord = airframe.wing.reference.chord;
  const neutralPoint = foremostNeutralPoint(model, at);
  const staticMargin = (neutralPoint - sum.x) / meanChord;
  const controls = pitchControlsOf(model, air, airspeed, trim?.control);
  const { range, forwardSigma } = rangeOf(model, air, { neutralPoint, airspeed, alpha: at.alpha });
  const ballastSpan = ballastStations(model);
  const state = { mass: sum.mass, x: sum.x };
  const checked = checkBalance(state, range, ballastSpan);
  return {
    sum,
    beam: balanceBeam(grownItems(masses.items, masses.growth)),
    neutralPoint,
    staticMargin,
    staticMarginSigma: sum.uncertainty.x / meanChord,
    meanChord,
    meanChordStart: airframe.wing.reference.xMeanChord,
    range,
    forwardSigma,
    ...batteryOf(
      model,
      state,
      balancePointForMargin({ neutralPoint, meanChord, staticMargin: aimedStaticMargin }),
      ballastSpan,
    ),
    ...cellEffectOf(model, state, complete.battery?.mass.value),
    controls,
    ...(checked.ok ? {} : { problem: checked }),
    warnings: checked.ok ? checked.warnings : [],
  };
}

/** The balance report, remembered by the parts of the aircraft that it reads. */
export function balanceStage(
  model: AircraftModel,
  { air }: FlightConditions,
  flight: FlightNeed | undefined,
  stages: Stages,
): BalanceReport | undefined {
  const { airframe, balance, masses, array, drive, complete } = model;
  const { mass, x, movesFrom, movesTo } = complete.battery ?? {};
  const battery = [mass, x, movesFrom, movesTo];
  const cells = [array?.placed[0], complete.array?.cell, complete.array?.laminationArealMass];
  const trim = flight?.chosen?.flight.trim;
  return stages.run(
    'balance report',
    [airframe, balance, masses, drive?.thrustLine, ...battery, ...cells, trim, flight?.airspeed, JSON.stringify(air)],
    () => balanceReport(model, air, flight),
  );
}

/** Speeds beside the flown one at which stability is looked at, as multiples of it: gusts and dives come at higher speed. */
const fasterBy = [1, 1.3, 1.7];

/**
 * Neutral point at the speed flown and at higher ones; the foremost counts. Wide wings carry more of their lift far aft
 * at large angles of attack (side-edge lift), so that they are less stable when they fly faster.
 */
function foremostNeutralPoint(
  model: AircraftModel,
  at: { readonly alpha: number; readonly control: number; readonly airspeed: number; readonly air: Air },
): number {
  const { airframe, balance: sum, drive } = model;
  const forces = wingAirframe(airframe!.aircraft);
  const point = { x: sum!.x, z: sum!.z };
  const thrustLine = drive?.thrustLine ?? { z: 0, angle: 0 };
  const condition = { mass: sum!.mass, centreOfGravity: point, thrustLine, air: at.air, bank: 0 };
  const trimAt = trimmer(forces, condition, at);
  const points = fasterBy.map((factor) => {
    const airspeed = factor * at.airspeed;
    const trim = factor === 1 ? undefined : trimAt(airspeed);
    const state = trim?.ok ? { alpha: trim.value.alpha, control: trim.value.control } : at;
    return pitchStability(forces, { ...state, airspeed, air: at.air }, point).neutralPoint;
  });
  return Math.min(...points);
}

/** Aft limit by stability; forward limit where full up control just trims the lift of the slowest speed flown, and what that is uncertain by. */
function rangeOf(
  model: AircraftModel,
  air: Air,
  at: { readonly neutralPoint: number; readonly airspeed: number; readonly alpha: number },
): { readonly range: BalanceRange; readonly forwardSigma: number } {
  const airframe = model.airframe!;
  const forces = wingAirframe(airframe.aircraft);
  const reference = { x: at.neutralPoint, z: model.balance!.z };
  const ask = (alpha: number, control: number) =>
    forces.forces({
      alpha,
      control,
      pitchRate: 0,
      airspeed: at.airspeed,
      air,
      momentReference: reference,
    });
  const neutral = ask(at.alpha, 0);
  const up = forces.controlRange?.lower ?? 0;
  const deflected = ask(at.alpha, up);
  const controlMoment = Math.max(0, deflected.pitchingMomentCoefficient - neutral.pitchingMomentCoefficient);
  const rangeWith = (factor: number) =>
    balanceRange({
      neutralPoint: at.neutralPoint,
      meanChord: airframe.wing.reference.chord,
      leastStaticMargin,
      momentAboutNeutralPoint: neutral.pitchingMomentCoefficient,
      controlMoment: factor * controlMoment,
      // Lift at the least airspeed flown, 1.25 x the stall: about 0.64 of the maximum.
      trimLiftCoefficient: Math.max(0.1, 0.64 * (neutral.liftCoefficient + Math.max(0, neutral.stallMargin))),
    });
  const range = rangeWith(1);
  const spread = Math.max(0, ...pitchControlsOf(model, air, at.airspeed, up).map(relativeSpread));
  return { range, forwardSigma: Math.abs(rangeWith(1 + spread).forward - range.forward) };
}

const relativeSpread = ({ efficiency: { value, spread } }: PitchControl): number => spread / value;

/** Foremost and aftmost stations at which something can be fixed: the ends of bodies and surfaces. */
function ballastStations(model: AircraftModel): { readonly from: number; readonly to: number } {
  const { surfaces, bodies } = model.airframe!.assembled.shape;
  const starts = [
    ...bodies.map(({ x }) => x),
    ...surfaces.flatMap(({ stations }) => stations.map((s) => s.xLeadingEdge)),
  ];
  const ends = [
    ...bodies.map(({ x, length }) => x + length),
    ...surfaces.flatMap(({ stations }) => stations.map((s) => s.xLeadingEdge + s.chord)),
  ];
  return { from: Math.min(...starts), to: Math.max(...ends) };
}

function batteryOf(
  model: AircraftModel,
  state: { readonly mass: number; readonly x: number },
  target: number,
  ballastSpan: { readonly from: number; readonly to: number },
): Pick<BalanceReport, 'battery'> {
  const { battery } = model.complete;
  if (battery === undefined) return {};
  const { x, mass } = battery;
  const allowed = {
    from: battery.movesFrom?.value ?? ballastSpan.from,
    to: battery.movesTo?.value ?? ballastSpan.to,
  };
  const movable = { name: 'battery', mass: mass.value, x: x.value };
  const placement = placeForBalance(state, movable, target, allowed, ballastSpan);
  return {
    battery: {
      x: x.value,
      mass: mass.value,
      ...(placement.ok ? { placement: placement.value } : { problem: placement }),
    },
  };
}

function cellEffectOf(
  model: AircraftModel,
  state: { readonly mass: number; readonly x: number },
  batteryMass: number | undefined,
): Pick<BalanceReport, 'cellEffect'> {
  const row = model.array?.placed[0];
  const array = model.complete.array;
  if (row === undefined || array === undefined) return {};
  const each = array.cell.mass.value + array.laminationArealMass.value * array.cell.area.value;
  const added = { mass: 2 * each, x: row.centre[0] };
  const effect = additionEffect(state, added, batteryMass ?? 0);
  return {
    cellEffect: {
      mass: added.mass,
      shift: effect.shift,
      ...(batteryMass === undefined || effect.batteryMove === undefined ? {} : { batteryMove: effect.batteryMove }),
    },
  };
}

/**
 * Whether the aircraft is stable and trims, as a reason with grams when it is not.
 * An aircraft without static margin is a finding even where the control could hold it.
 */
export function balanceProblem(report: BalanceReport | undefined): Problem | undefined {
  if (report === undefined || report.staticMargin >= 0) return undefined;
  const margin = (100 * report.staticMargin).toFixed(1);
  const millimetres = (1000 * (report.sum.x - report.neutralPoint)).toFixed(0);
  return {
    ok: false,
    code: 'unstable',
    reason: `unstable in pitch: the balance point lies ${millimetres} mm behind the neutral point (static margin ${margin} % of the mean chord)`,
    where: 'balance point',
    remedy: report.problem?.remedy ?? 'move the battery or ballast forward',
  };
}
