import type { AircraftDesign } from '../aircraft.js';
import type { Valued } from '../schema/field.js';
import { completeBodies, completeSurfaces, surfaceArea } from './airframe.js';
import { completeArray } from './array.js';
import { type Assumption, type Log, orDefault, usual, withSpread } from './assumptions.js';
import { completeBattery } from './battery.js';
import { completeDrive } from './drive.js';
import { completeFlight, completeLoads } from './flight.js';
import { completeMasses } from './masses.js';
import { completeMeasured } from './measured.js';
import type { CompleteAircraft, CompleteSurface } from './types.js';
import { wireDrags } from './wires.js';

const ZERO: Valued = { value: 0, source: 'stated' };

/** Usual wing loading of small solar aircraft [kg/m2] and level power per mass [W/kg], for choosing defaults only. */
const USUAL_LOADING = 2.6;
const USUAL_POWER_PER_MASS = 8;

/** Rough mass by which defaults are chosen: as stated or weighed, else by wing area, else by level power [kg]. */
function roughMass(design: AircraftDesign, surfaces: readonly CompleteSurface[]): number {
  const weighed = (design.measured ?? []).find((record) => record.what === 'mass' && record.use !== false);
  const stated =
    design.allUpMass?.value ??
    (weighed?.what === 'mass' ? weighed.mass.value : undefined) ??
    design.levelPower?.mass?.value;
  if (stated !== undefined) return stated;
  const area = surfaces
    .filter((surface) => surface.role === 'wing')
    .reduce((sum, surface) => sum + surfaceArea(surface), 0);
  if (area > 0) return USUAL_LOADING * area;
  const flown = (design.measured ?? []).find((record) => record.what === 'level power');
  const power =
    design.levelPower?.power.value ?? (flown?.what === 'level power' ? flown.power.value : USUAL_POWER_PER_MASS);
  return power / USUAL_POWER_PER_MASS;
}

/** Nose of the aircraft: the most forward body or surface [m]. */
function noseOf(aircraft: { surfaces: CompleteAircraft['surfaces']; bodies: CompleteAircraft['bodies'] }): number {
  const places = [...aircraft.surfaces, ...aircraft.bodies].map((part) => part.x.value);
  return places.length === 0 ? 0 : Math.min(...places);
}

/** What is stated of the aircraft as a whole: its mass and its level power. */
function completeWhole(log: Log, design: AircraftDesign): Pick<CompleteAircraft, 'levelPower' | 'allUpMass'> {
  const unsure = 'stated without uncertainty';
  const mass = design.allUpMass;
  const whole =
    mass === undefined ? {} : { allUpMass: withSpread(log, 'all up mass', 'mass', mass, { share: 0.03 }, unsure) };
  return { ...whole, ...completeLevelPower(log, design) };
}

function completeLevelPower(log: Log, design: AircraftDesign): Pick<CompleteAircraft, 'levelPower'> {
  const level = design.levelPower;
  if (level === undefined) return {};
  const power = withSpread(log, 'level power', 'power', level.power, { share: 0.15 }, 'stated without uncertainty');
  const { airspeed, altitude, mass } = level;
  return {
    levelPower: {
      power,
      ...(airspeed === undefined ? {} : { airspeed }),
      ...(altitude === undefined ? {} : { altitude }),
      ...(mass === undefined ? {} : { mass }),
    },
  };
}

function completeExtraDrag(log: Log, design: AircraftDesign): CompleteAircraft['extraDrag'] {
  return Object.entries(design.extraDrag ?? {}).map(([name, drag]) => ({
    name,
    area: withSpread(
      log,
      `extra drag.${name}.area`,
      'area',
      drag.area,
      { share: 0.3 },
      'drag areas are rarely known better',
    ),
    x: drag.x ?? ZERO,
    y: drag.y ?? ZERO,
    z: drag.z ?? ZERO,
  }));
}

export interface Completed {
  readonly aircraft: CompleteAircraft;
  readonly assumptions: readonly Assumption[];
}

interface Frame {
  readonly surfaces: CompleteAircraft['surfaces'];
  readonly bodies: CompleteAircraft['bodies'];
  readonly sizeMass: number;
}

/** Battery, drive and array, where the aircraft has them. */
function completeParts(log: Log, design: AircraftDesign, { surfaces, bodies, sizeMass }: Frame) {
  const nose = noseOf({ surfaces, bodies });
  const pack = design.battery === 'none' ? undefined : design.battery;
  const battery = pack === undefined ? undefined : completeBattery(log, pack, { mass: sizeMass, x: nose + 0.08 });
  // With a stated level power and no airframe, a drive that nobody described is part of that power.
  const driven = design.drive !== undefined || surfaces.length > 0;
  const drive = driven ? completeDrive(log, design.drive ?? {}, { mass: sizeMass, x: nose }, battery) : undefined;
  const cells = design.array === 'none' ? undefined : design.array;
  const array = cells === undefined ? undefined : completeArray(log, cells, surfaces, battery);
  return { battery, drive, array };
}

const GROWTH = usual('ratio', 0.1, 0.08, 'parts that are not weighed grow, common practice');
const DROP_OUT = usual('voltage', 5.5, 0.3, 'half a volt above a supply of 5 V, common practice');
const BROWN_OUT = usual('voltage', 4, 0.4, 'receiver at 3.5 V behind its supply, from memory');
const REGULATOR = usual('ratio', 0.88, 0.04, 'switching receiver supply, common practice');

/**
 * Fills in whatever a design leaves open, each with a value usual for its size and a wide uncertainty. An aircraft that
 * names no battery has none, and one that names no array has no cells.
 * Returns the complete aircraft and the list of everything that was assumed, by the path where it could be written.
 */
export function completeDesign(design: AircraftDesign): Completed {
  const log: Log = [];
  const surfaces = completeSurfaces(log, design);
  const bodies = completeBodies(log, design);
  const frame = { surfaces, bodies, sizeMass: roughMass(design, surfaces) };
  const { battery, drive, array } = completeParts(log, design, frame);
  const aircraft: CompleteAircraft = {
    name: design.name,
    ...frame,
    extraDrag: [...completeExtraDrag(log, design), ...wireDrags(design, surfaces)],
    masses: completeMasses({ log, design, ...frame, battery, drive, array }),
    growthAllowance: orDefault(log, 'growth allowance', design.growthAllowance, GROWTH),
    ...completeWhole(log, design),
    ...(battery === undefined ? {} : { battery }),
    ...(drive === undefined ? {} : { drive }),
    ...(array === undefined ? {} : { array }),
    loads: completeLoads(log, design, frame.sizeMass),
    regulatorEfficiency: orDefault(log, 'regulator efficiency', design.regulatorEfficiency, REGULATOR),
    regulatorDropOut: orDefault(log, 'regulator drop out', design.regulatorDropOut, DROP_OUT),
    receiverBrownOut: orDefault(log, 'receiver brown out', design.receiverBrownOut, BROWN_OUT),
    flight: completeFlight(log, design),
    ...(design.launch === undefined ? {} : { launch: design.launch }),
    measured: completeMeasured(log, design.measured ?? []),
  };
  return { aircraft, assumptions: log };
}
