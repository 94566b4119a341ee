import {
  type AssembledArray,
  type AssembledBattery,
  type AssembledDrive,
  type AssembledMasses,
  type AssembledShape,
  assembleArray,
  assembleBattery,
  assembleCells,
  assembleDrive,
  assembleMasses,
  assemblePropeller,
  assembleShape,
  type CompleteAircraft,
  coverageOf,
  type MeasuredRecord,
  propellerDiscs,
  type SectionSources,
} from '@noonwing/design';
import { type Outcome, type Problem, success, type Warning } from '@noonwing/engine';
import { type Air, airAt, temperatureOffsetFrom } from '@noonwing/engine/air';
import { applyWeighing, type MassSum, sumMass } from '@noonwing/engine/balance';
import type { Propeller } from '@noonwing/engine/drive';
import { stripSection, type WingAirframe } from '@noonwing/engine/flight';
import { sectionLiftSlope, sectionZeroLiftAngle, TURBULENCE } from '@noonwing/engine/section';
import { parasiteDrag } from '@noonwing/engine/shape';
import { type StripSection, solveWing, type WingModel, type WingOptions } from '@noonwing/engine/wing';
import type { Stages } from './stages.js';

/** An airframe with what its drag is uncertain by. */
export interface AirframeModel {
  readonly aircraft: WingAirframe;
  readonly assembled: AssembledShape;
  readonly wing: WingModel;
  /** Relative standard uncertainty of the parasite drag. */
  readonly parasiteSigma: number;
}

/** Everything that does not depend on the day: the aircraft as the engine sees it. */
export interface AircraftModel {
  readonly complete: CompleteAircraft;
  readonly battery: AssembledBattery;
  readonly drive: AssembledDrive | undefined;
  readonly array: AssembledArray | undefined;
  readonly airframe: AirframeModel | undefined;
  readonly masses: AssembledMasses;
  /** Sum of the masses, with a weighing or a stated mass in its place where there is one. */
  readonly balance: MassSum | undefined;
  /** Why parts could not be modelled; the rest still answers what it can. */
  readonly problems: readonly Problem[];
  readonly warnings: readonly Warning[];
}

/**
 * Airspeed at which what hardly changes with it is taken [m/s]: the straight part of the lift curves of sections, and the parasite drag area,
 * whose friction changes by 3 % per m/s at most. It is not that flown, so that mass and weather solve no lattice again.
 */
export const usualAirspeed = 9;

/** Reynolds number on a chord at that airspeed [-]. chord - [m] */
export const usualReynolds = (chord: number): number =>
  (usualAirspeed * chord) / airAt({ altitude: 0 }).kinematicViscosity;

/** Reynolds number of every section, by its name: on the mean chord of the stations that have it. */
function sectionReynolds({ shape, sections }: AssembledShape): Readonly<Record<string, number>> {
  const stations = shape.surfaces.flatMap((surface) => surface.stations);
  return byName(sections, ({ name }) => {
    const own = stations.filter(({ section }) => section === name);
    return usualReynolds(own.reduce((sum, { chord }) => sum + chord, 0) / Math.max(1, own.length));
  });
}

/**
 * Models of an aircraft, stage by stage; each stage is remembered by the parts of the design that it reads.
 * @param sources - texts of coordinate files by name, computed polars
 */
export function aircraftModel(complete: CompleteAircraft, sources: SectionSources, stages: Stages): AircraftModel {
  const { computed } = sources;
  const { critical } = TURBULENCE[complete.flight.turbulence];
  const files: SectionSources = computed === undefined ? sources : { ...sources, computed: computed.inAir(critical) };
  const problems: Problem[] = [];
  const warnings: Warning[] = [];
  const take = <T>(outcome: Outcome<T> | undefined): T | undefined => {
    if (outcome === undefined) return undefined;
    if (!outcome.ok) {
      problems.push(outcome);
      return undefined;
    }
    warnings.push(...outcome.warnings);
    return outcome.value;
  };
  const battery = stages.run('battery', [complete.battery], () => assembleBattery(complete.battery));
  const shape = take(shapeStage(complete, files, stages));
  const airframe = shape === undefined ? undefined : take(wingStage(shape, stages));
  const array = take(arrayStage(complete, shape, battery, stages));
  const drive = take(driveStage(complete, files, stages));
  const masses = stages.run('masses', [complete.masses, complete.growthAllowance, shape, array], () =>
    assembleMasses(complete.masses, complete.growthAllowance, shape?.shape, array?.placed ?? []),
  );
  const balance = stages.run('balance', [masses, complete.allUpMass, complete.measured], () =>
    balanceOf(masses, complete),
  );
  // One object for the same parts, so that later stages recognise the aircraft as a whole.
  return stages.run('aircraft', [complete, battery, drive, array, airframe, masses, balance], () => ({
    complete,
    battery,
    drive,
    array,
    airframe,
    masses,
    balance,
    problems,
    warnings,
  }));
}

function shapeStage(
  complete: CompleteAircraft,
  files: SectionSources,
  stages: Stages,
): Outcome<AssembledShape> | undefined {
  const { surfaces, bodies, extraDrag } = complete;
  if (surfaces.length === 0) return undefined;
  const covering = JSON.stringify(coverageOf(complete));
  return stages.run(
    'shape',
    [surfaces, bodies, extraDrag, covering, JSON.stringify(files.texts ?? {}), files.computed],
    () => assembleShape(surfaces, bodies, extraDrag, coverageOf(complete), files),
  );
}

const byName = <S extends { readonly name: string }, T>(list: readonly S[], value: (item: S) => T): Record<string, T> =>
  Object.fromEntries(list.map((item) => [item.name, value(item)]));

/** Camber and straight lift curves of the sections, as every lattice of this aircraft takes them. */
export function wingOptions(assembled: AssembledShape): WingOptions {
  const { sections } = assembled;
  const reynolds = sectionReynolds(assembled);
  return {
    camber: byName(sections, ({ camberLine }) => camberLine),
    sectionLift: byName(sections, ({ name, model }) => ({
      liftSlope: sectionLiftSlope(model, reynolds[name]!),
      zeroLiftAngle: sectionZeroLiftAngle(model, reynolds[name]!),
    })),
  };
}

function wingStage(assembled: AssembledShape, stages: Stages): Outcome<AirframeModel> {
  return stages.run('wing', [assembled], () => {
    const { sections, shape } = assembled;
    const named = <T>(value: (section: (typeof sections)[number]) => T): Record<string, T> => byName(sections, value);
    const reynolds = sectionReynolds(assembled);
    const solved = solveWing(shape, wingOptions(assembled));
    if (!solved.ok) return solved;
    const strips: Record<string, StripSection> = named(({ name, model }) =>
      stripSection(model, reynolds[name]!, assembled.flaps[name]),
    );
    const { kinematicViscosity } = airAt({ altitude: 0 });
    const parasite = parasiteDrag(shape, { airspeed: usualAirspeed, kinematicViscosity });
    const aircraft: WingAirframe = {
      wing: solved.value,
      sections: strips,
      pitchControls: assembled.pitchControls,
      controlRange: assembled.controlRange,
      parasiteDragArea: parasite.dragArea,
    };
    const parasiteSigma = parasite.dragArea > 0 ? parasite.uncertainty / parasite.dragArea : 0;
    return success({ aircraft, assembled, wing: solved.value, parasiteSigma }, solved.warnings);
  });
}

function arrayStage(
  complete: CompleteAircraft,
  shape: AssembledShape | undefined,
  battery: AssembledBattery,
  stages: Stages,
): Outcome<AssembledArray> | undefined {
  const { array } = complete;
  if (array === undefined) return undefined;
  // Battery and strings leave the cells where they are: the shade over the sphere is remembered by rows, cell size and shape.
  const { rows, cell } = array;
  const { drive } = complete;
  const disc = drive === undefined ? [] : propellerDiscs(drive);
  const cells =
    shape === undefined
      ? undefined
      : stages.run('cells and their shade', [shape, JSON.stringify([rows, cell, disc])], () =>
          assembleCells(array, shape, drive),
        );
  return stages.run('array', [array, shape, cells, battery.nominalVoltage], () =>
    assembleArray(array, shape, battery.nominalVoltage, cells),
  );
}

function driveStage(
  complete: CompleteAircraft,
  files: SectionSources,
  stages: Stages,
): Outcome<AssembledDrive> | undefined {
  const { drive } = complete;
  if (drive === undefined) return undefined;
  const { section } = drive.propeller;
  const sources = section === undefined ? {} : files;
  const propeller: Outcome<Propeller> = stages.run(
    'propeller',
    [drive.propeller, JSON.stringify(sources.texts ?? {}), sources.computed],
    () => assemblePropeller(drive.propeller, sources),
  );
  if (!propeller.ok) return propeller;
  return stages.run('drive', [drive, propeller], () =>
    success(assembleDrive(drive, propeller.value), propeller.warnings),
  );
}

/** Mass sum with a weighing, a measured balance point or a stated all-up mass in its place. */
function balanceOf(masses: AssembledMasses, complete: CompleteAircraft): MassSum | undefined {
  if (masses.items.reduce((sum, item) => sum + item.mass, 0) <= 0) return undefined;
  const sum = sumMass(masses.items, masses.growth);
  const scale = recordOf(complete.measured, 'mass')?.mass ?? complete.allUpMass;
  const point = recordOf(complete.measured, 'balance point');
  if (scale === undefined && point === undefined) return sum;
  return applyWeighing(sum, {
    ...(scale === undefined ? {} : { mass: scale.value, massUncertainty: scale.sigma ?? 0 }),
    ...(point === undefined
      ? {}
      : { x: balancePointNow(point, complete, scale?.value ?? sum.mass), xUncertainty: point.x.sigma ?? 0 }),
  });
}

/** A balance point measured with the battery elsewhere, moved to where the battery is now. */
function balancePointNow(
  point: Extract<MeasuredRecord, { what: 'balance point' }>,
  complete: CompleteAircraft,
  mass: number,
): number {
  const { battery } = complete;
  if (point.batteryX === undefined || battery === undefined) return point.x.value;
  return point.x.value + (battery.mass.value * (battery.x.value - point.batteryX.value)) / mass;
}

/** The last record of a kind that is in use. */
export function recordOf<W extends MeasuredRecord['what']>(
  records: readonly MeasuredRecord[],
  what: W,
): Extract<MeasuredRecord, { what: W }> | undefined {
  return records.filter((record): record is Extract<MeasuredRecord, { what: W }> => record.what === what).at(-1);
}

/**
 * Air that the aircraft flies in: the standard column shifted so that it has the temperature of the day at the ground.
 * @param at - altitude flown and of the ground [m], temperature at the ground [K], relative humidity
 */
export function flightAir(at: { altitude: number; ground: number; temperature: number; humidity: number }): Air {
  return airAt({
    altitude: at.altitude,
    temperatureOffset: temperatureOffsetFrom({ temperature: at.temperature, altitude: at.ground }),
    relativeHumidity: at.humidity,
  });
}
