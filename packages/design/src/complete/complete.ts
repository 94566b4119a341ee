import type { AircraftDesign } from '../aircraft.js';
import type { Valued } from '../schema/field.js';
import { completeBodies, completeSurfaces, surfaceArea } from './airframe.js';
import { completeArray } from './array.js';
import { type Assumption, type Log, orDefault, withSpread } from './assumptions.js';
import { completeBattery } from './battery.js';
import { completeDrive } from './drive.js';
import { completeFlight, completeLoads } from './flight.js';
import { completeMasses } from './masses.js';
import { completeMeasured } from './measured.js';
import type { CompleteAircraft, CompleteSurface } from './types.js';

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

/**
 * Fills in whatever a design leaves open, each with a value usual for its size and a wide uncertainty.
 * Returns the complete aircraft and the list of everything that was assumed, by the path where it could be written.
 */
export function completeDesign(design: AircraftDesign): Completed {
  const log: Log = [];
  const surfaces = completeSurfaces(log, design);
  const bodies = completeBodies(log, design);
  const sizeMass = roughMass(design, surfaces);
  const nose = noseOf({ surfaces, bodies });
  const hasFrame = surfaces.length > 0;
  const battery =
    design.battery === undefined || design.battery === 'none'
      ? undefined
      : completeBattery(log, design.battery, { mass: sizeMass, x: nose + 0.08 });
  // With a stated level power and no airframe, a drive that nobody described is part of that power.
  const drive =
    design.drive === undefined && !hasFrame
      ? undefined
      : completeDrive(log, design.drive ?? {}, { mass: sizeMass, x: nose }, battery);
  const array =
    design.array === undefined || design.array === 'none'
      ? undefined
      : completeArray(log, design.array, surfaces, battery);
  const allUp = design.allUpMass;
  const aircraft: CompleteAircraft = {
    name: design.name,
    surfaces,
    bodies,
    extraDrag: completeExtraDrag(log, design),
    masses: completeMasses({ log, design, surfaces, bodies, battery, drive, array, sizeMass }),
    growthAllowance: orDefault(log, 'growth allowance', design.growthAllowance, {
      kind: 'ratio',
      value: 0.1,
      sigma: 0.08,
      why: 'parts that are not weighed grow, common practice',
    }),
    ...(allUp === undefined
      ? {}
      : { allUpMass: withSpread(log, 'all up mass', 'mass', allUp, { share: 0.03 }, 'stated without uncertainty') }),
    sizeMass,
    ...completeLevelPower(log, design),
    ...(battery === undefined ? {} : { battery }),
    ...(drive === undefined ? {} : { drive }),
    ...(array === undefined ? {} : { array }),
    loads: completeLoads(log, design, sizeMass),
    regulatorEfficiency: orDefault(log, 'regulator efficiency', design.regulatorEfficiency, {
      kind: 'ratio',
      value: 0.88,
      sigma: 0.04,
      why: 'switching receiver supply, common practice',
    }),
    flight: completeFlight(log, design),
    measured: completeMeasured(log, design.measured ?? []),
  };
  return { aircraft, assumptions: log };
}
