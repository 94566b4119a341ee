import type { AircraftDesign } from '../aircraft.js';
import { completeBodies, completeSurfaces, type Surfaces, surfaceArea } from './airframe.js';
import { completeArray } from './array.js';
import { type Assumption, type Log, orDefault, withSpread } from './assumptions.js';
import { completeBattery } from './battery.js';
import { completeDrive } from './drive.js';
import { completeFlight, completeLoads } from './flight.js';
import { completeMasses, partsWithMasses, usualGlue } from './masses.js';
import { completeMeasured } from './measured.js';
import type { Size } from './types.js';

/** Usual wing loading of small solar aircraft [kg/m2] and level power per mass [W/kg], for choosing defaults only. */
const USUAL_LOADING = 2.6;
const USUAL_POWER_PER_MASS = 8;

/** Rough mass by which defaults are chosen: as stated or weighed, else by wing area, else by level power [kg]. */
export function roughMass(design: AircraftDesign, surfaces: Surfaces): number {
  const records = (design.measured ?? []).filter((record) => record.use !== false);
  const weighed = records.find((record) => record.what === 'mass');
  const stated = design.allUpMass ?? weighed?.mass ?? design.levelPower?.mass;
  if (stated !== undefined) return stated.value;
  const wings = Object.values(surfaces).filter((surface) => surface.role === 'wing');
  const area = wings.reduce((sum, surface) => sum + surfaceArea(surface), 0);
  if (area > 0) return USUAL_LOADING * area;
  const flown = records.find((record) => record.what === 'level power');
  return ((design.levelPower ?? flown)?.power.value ?? USUAL_POWER_PER_MASS) / USUAL_POWER_PER_MASS;
}

function completeLevelPower(log: Log, design: AircraftDesign): Pick<AircraftDesign, 'levelPower'> {
  const level = design.levelPower;
  if (level === undefined) return {};
  const power = withSpread(log, 'level power', 'power', level.power, { share: 0.15 }, 'stated without uncertainty');
  return { levelPower: { ...level, power } };
}

function completeExtraDrag(log: Log, design: AircraftDesign): Pick<AircraftDesign, 'extraDrag'> {
  const entries = Object.entries(design.extraDrag ?? {}).map(([name, drag]) => {
    const why = 'drag areas are rarely known better';
    return [
      name,
      { ...drag, area: withSpread(log, `extra drag.${name}.area`, 'area', drag.area, { share: 0.3 }, why) },
    ] as const;
  });
  return { extraDrag: Object.fromEntries(entries) };
}

/** Battery, drive and array with every number, where the aircraft has them. */
function completeParts(log: Log, design: AircraftDesign, surfaces: Surfaces, size: Size) {
  const { masses, ...parts } = partsWithMasses(design, design.masses ?? {});
  const battery =
    parts.battery === undefined || parts.battery === 'none' ? undefined : completeBattery(log, parts.battery, size);
  // With a stated level power and no airframe, a drive that nobody described is part of that power.
  const flies = parts.drive !== undefined || Object.keys(surfaces).length > 0;
  const drive = flies ? completeDrive(log, parts.drive ?? {}, size, battery) : undefined;
  const array =
    parts.array === undefined || parts.array === 'none'
      ? undefined
      : completeArray(log, parts.array, surfaces, battery);
  return { masses, parts: { battery: battery ?? ('none' as const), drive, array: array ?? ('none' as const) } };
}

export interface Completed {
  /** The design with nothing left open that a stage needs: each number with its source. */
  readonly design: AircraftDesign;
  /** Everything that was filled in, by the path where it could be written. */
  readonly assumptions: readonly Assumption[];
}

/**
 * Fills in whatever a design leaves open, each with a value usual for its size and a wide uncertainty.
 * An aircraft that names no battery has none, and one that names no array has no cells.
 */
export function completeDesign(design: AircraftDesign): Completed {
  const log: Log = [];
  const surfaces = completeSurfaces(log, design.surfaces);
  const bodies = completeBodies(log, design.bodies);
  const sizeMass = roughMass(design, surfaces);
  const nose = Math.min(0, ...[...Object.values(surfaces), ...Object.values(bodies)].map((part) => part.x?.value ?? 0));
  const { masses: given, parts } = completeParts(log, design, surfaces, { mass: sizeMass, nose });
  const masses = completeMasses(log, given, parts, { surfaces, bodies, sizeMass });
  const glue = usualGlue(masses);
  const allUp = design.allUpMass;
  const complete: AircraftDesign = {
    ...design,
    ...parts,
    surfaces,
    bodies,
    masses,
    ...completeExtraDrag(log, design),
    ...completeLevelPower(log, design),
    ...(allUp === undefined
      ? {}
      : { allUpMass: withSpread(log, 'all up mass', 'mass', allUp, { share: 0.03 }, 'stated without uncertainty') }),
    glueWireAndPaint: orDefault(log, 'glue wire and paint', design.glueWireAndPaint, {
      kind: 'mass',
      ...glue,
      why: '4 % of the airframe, common practice',
    }),
    growthAllowance: orDefault(log, 'growth allowance', design.growthAllowance, {
      kind: 'ratio',
      value: 0.1,
      sigma: 0.08,
      why: 'parts that are not weighed grow, common practice',
    }),
    regulatorEfficiency: orDefault(log, 'regulator efficiency', design.regulatorEfficiency, {
      kind: 'ratio',
      value: 0.88,
      sigma: 0.04,
      why: 'switching receiver supply, common practice',
    }),
    loads: completeLoads(log, design.loads, sizeMass),
    flight: completeFlight(log, design),
    measured: completeMeasured(log, design.measured ?? []),
  };
  return { design: complete, assumptions: log };
}
