import { type AssembledStructure, warmAssembled } from '@noonwing/design';
import { type Limit, type LimitCondition, limitsReport, type SteadyWing } from '@noonwing/engine/aeroelastic';
import { groundCellTemperature } from '@noonwing/engine/array';
import { cellTemperatures, cellWarmth, coolingOf } from '@noonwing/engine/day';
import type { FaceTemperatures, WarmMaterial } from '@noonwing/engine/structure';
import { type Flown, limitModel, withStrength } from './limit-model.js';
import type { Slices } from './slices.js';
import type { Stages } from './stages.js';

/** Clear sun near noon on a top that lies level [W/m2]. */
const noonLight = 950;

/** Air over a parked wing: a light breath of wind, no flight [m/s] (judgement). */
const parkedWind = 1;

/** Faces of a wing in the noon sun: its top as warm as its hottest cell, its bottom in its own shade as the air [K]. */
export interface SunlitFaces {
  readonly flight: FaceTemperatures;
  readonly parked: FaceTemperatures;
}

/** What the noon sun does to the faces of a wing in the air of the day; undefined where no cell lies on it. airspeed - flown [m/s] */
export function sunlitFaces({ prepared }: Pick<Flown, 'prepared'>, airspeed: number): SunlitFaces | undefined {
  const { array, air } = prepared.run;
  const cells = array?.cells ?? [];
  if (cells.length === 0) return undefined;
  const places = cells.map(coolingOf);
  const ground = { irradiance: noonLight, airTemperature: air.temperature, windSpeed: parkedWind };
  const warmth = cellWarmth(places, { air, airspeed });
  const flown = cellTemperatures(warmth, new Float64Array(cells.length).fill(noonLight));
  const faces = (tops: Iterable<number>): FaceTemperatures => ({ upper: Math.max(...tops), lower: air.temperature });
  return { flight: faces(flown), parked: faces(places.map((place) => groundCellTemperature(ground, place))) };
}

/** The limit that comes first with the structure as warm as the sun makes it: softer, and bent by its warm top. */
export interface WarmLimit {
  readonly faces: FaceTemperatures;
  /** What has softened, the softest first. */
  readonly softer: readonly WarmMaterial[];
  /** Absent where none was found. */
  readonly first?: Limit;
}

/** Warm in flight, and parked in the sun and thrown at once. */
export interface WarmLimits {
  readonly flight: WarmLimit;
  readonly parked: WarmLimit;
}

/** What stands behind the limits of the cool aircraft. */
interface CoolLimits {
  readonly structure: AssembledStructure;
  readonly condition: LimitCondition;
  /** Flown [m/s]. */
  readonly airspeed: number;
}

/** The first limit with the structure at other temperatures, the lattice remembered; undefined where nothing in it softens. */
function warmLimit(
  wing: SteadyWing,
  { structure, condition }: CoolLimits,
  faces: FaceTemperatures,
): WarmLimit | undefined {
  const warm = warmAssembled(structure, faces);
  if (warm.softer.length === 0) return undefined;
  const built = limitModel(warm.structure);
  if (!built.ok) return undefined;
  const heated = { ...withStrength(condition, warm.structure), topWarmer: faces.upper - faces.lower };
  const spread = { stiffness: warm.structure.stiffnessSigma };
  const report = limitsReport(wing, built.value, heated, spread, { brief: true, kept: 10 });
  if (!report.ok) return undefined;
  const [first] = report.value.limits;
  return { faces, softer: warm.softer, ...(first === undefined ? {} : { first }) };
}

/**
 * Limits of the structure as warm as the sun makes it in flight at noon, and of one that stood in the sun and is thrown at once. Solved anew with the
 * moduli and strengths at those temperatures, with the lattice as it is.
 */
export function* warmLimits(
  of: Flown,
  wing: SteadyWing,
  put: CoolLimits,
  stages: Stages,
): Slices<WarmLimits | undefined> {
  const faces = sunlitFaces(of, put.airspeed);
  if (faces === undefined) return undefined;
  const at = (name: 'flight' | 'parked') =>
    stages.run(`warm limits, ${name}`, [wing, put.structure, JSON.stringify([put.condition, faces[name]])], () =>
      warmLimit(wing, put, faces[name]),
    );
  yield 0.7;
  const flight = at('flight');
  if (flight === undefined) return undefined;
  yield 0.85;
  const parked = at('parked');
  return parked && { flight, parked };
}
