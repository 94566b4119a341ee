import { bladeElements, type PropellerLoads, rotorSolver } from './bladeElement.js';
import { bladePlanformArea, chordFractionAt, type PropellerGeometry, pitchAngleAt } from './propellerGeometry.js';

/**
 * Loads of a propeller over every state from static through cruise and windmilling to a stopped shaft, tabulated from
 * blade-element momentum theory.
 *
 * Both coefficients are referred to the undisturbed flow at 0.75 R, W^2 = V^2 + (0.75 Omega R)^2, which never vanishes:
 * thrust = tau rho W^2 D^2, torque = kappa rho W^2 D^3. Axes: s = V / (V + m 0.75 Omega R) from 0 (static) to 1 (stopped), with m
 * so that s is about one half where the thrust vanishes; and the logarithm of the Reynolds number W c / nu at 0.75 R.
 */
export interface PropellerTable {
  readonly kind: 'table';
  /** [m] */
  readonly diameter: number;
  readonly bladeCount: number;
  /** Chord at 0.75 R [m]. */
  readonly chord: number;
  /** Plan area of all blades [m2] and pitch angle at 0.7 R [rad], for stopped and folded blades. */
  readonly bladeArea: number;
  readonly pitchAngle: number;
  /** The number m. */
  readonly advanceScale: number;
  readonly advanceCount: number;
  readonly logReynoldsStart: number;
  readonly logReynoldsStep: number;
  readonly reynoldsCount: number;
  /** [reynolds * advanceCount + advance] */
  readonly thrust: Float64Array;
  readonly torque: Float64Array;
}

export interface PropellerTableOptions {
  /** Relative speeds at 0.75 R in sea-level air that the table spans [m/s], default 7 to 150. */
  readonly slowest?: number;
  readonly fastest?: number;
  /** Nodes from static to stopped (default 37) and over Reynolds number (default 6). */
  readonly advanceCount?: number;
  readonly reynoldsCount?: number;
  /** Annuli of a blade (default 20). */
  readonly elements?: number;
}

/** Kinematic viscosity by which the table is filled [m2/s]; only the Reynolds number matters. */
const referenceViscosity = 1.46e-5;

/**
 * Builds the table of a propeller.
 *
 * @param geometry - shape
 * @param options - span and density of the table
 */
export function buildPropellerTable(geometry: PropellerGeometry, options: PropellerTableOptions = {}): PropellerTable {
  const { slowest = 7, fastest = 150, advanceCount = 37, reynoldsCount = 6, elements = 20 } = options;
  if (!(fastest > slowest && slowest > 0)) throw new RangeError('the range of speed is empty');
  if (!(advanceCount >= 8 && reynoldsCount >= 2)) throw new RangeError('the table needs at least 8 by 2 nodes');
  const { diameter } = geometry;
  const chord = (chordFractionAt(geometry, 0.75) * diameter) / 2;
  const advanceScale = Math.tan(Math.min(Math.max(pitchAngleAt(geometry, 0.75) + 0.04, 0.12), 1));
  const logReynoldsStart = Math.log((slowest * chord) / referenceViscosity);
  const logReynoldsStep = Math.log(fastest / slowest) / (reynoldsCount - 1);
  const solve = rotorSolver(bladeElements(geometry, elements));
  const loads: PropellerLoads = { thrust: 0, torque: 0 };
  const thrust = new Float64Array(advanceCount * reynoldsCount);
  const torque = new Float64Array(advanceCount * reynoldsCount);
  for (let row = 0; row < reynoldsCount; row++) {
    const speed = (Math.exp(logReynoldsStart + row * logReynoldsStep) * referenceViscosity) / chord;
    for (let k = 0; k < advanceCount; k++) {
      // Forth and back, so that each point starts from its neighbour.
      const column = row % 2 === 0 ? k : advanceCount - 1 - k;
      const s = column / (advanceCount - 1);
      const angle = Math.atan2(advanceScale * s, 1 - s);
      const rotationRate = (speed * Math.cos(angle)) / (0.375 * diameter);
      solve(speed * Math.sin(angle), column === advanceCount - 1 ? 0 : rotationRate, 1, referenceViscosity, loads);
      const reference = speed * speed * diameter * diameter;
      thrust[row * advanceCount + column] = loads.thrust / reference;
      torque[row * advanceCount + column] = loads.torque / (reference * diameter);
    }
  }
  return {
    kind: 'table',
    diameter,
    bladeCount: geometry.bladeCount,
    chord,
    bladeArea: bladePlanformArea(geometry),
    pitchAngle: pitchAngleAt(geometry, 0.7),
    advanceScale,
    advanceCount,
    logReynoldsStart,
    logReynoldsStep,
    reynoldsCount,
    thrust,
    torque,
  };
}

/** Reynolds number of the chord at 0.75 R without induction. */
export function propellerReynolds(
  propeller: { readonly diameter: number; readonly chord: number },
  airspeed: number,
  rotationRate: number,
  kinematicViscosity: number,
): number {
  return (Math.hypot(airspeed, 0.375 * rotationRate * propeller.diameter) * propeller.chord) / kinematicViscosity;
}

/**
 * Loads from a table, by cubic interpolation along both axes; held at the edge of the Reynolds range.
 *
 * @param table - propeller table
 * @param airspeed - zero or positive [m/s]
 * @param rotationRate - zero or positive [rad/s]
 * @param density - [kg/m3]
 * @param kinematicViscosity - [m2/s]
 * @param into - receives thrust [N] and torque [N m]
 */
export function tableLoads(
  table: PropellerTable,
  airspeed: number,
  rotationRate: number,
  density: number,
  kinematicViscosity: number,
  into: PropellerLoads,
): void {
  const { advanceCount, reynoldsCount, diameter } = table;
  const bladeSpeed = 0.375 * rotationRate * diameter;
  const squared = airspeed * airspeed + bladeSpeed * bladeSpeed;
  if (!(squared > 0)) {
    into.thrust = 0;
    into.torque = 0;
    return;
  }
  const s = airspeed / (airspeed + table.advanceScale * bladeSpeed);
  const column = s * (advanceCount - 1);
  const j = Math.min(Math.floor(column), advanceCount - 2);
  const logReynolds = Math.log((Math.sqrt(squared) * table.chord) / kinematicViscosity);
  const row = Math.min(Math.max((logReynolds - table.logReynoldsStart) / table.logReynoldsStep, 0), reynoldsCount - 1);
  const i = Math.min(Math.floor(row), reynoldsCount - 2);
  const reference = density * squared * diameter * diameter;
  into.thrust = reference * bicubic(table.thrust, advanceCount, reynoldsCount, i, row - i, j, column - j);
  into.torque = reference * diameter * bicubic(table.torque, advanceCount, reynoldsCount, i, row - i, j, column - j);
}

/** Cubic through four rows of a regular grid, each row a cubic through four columns; quadratic at the edges. */
function bicubic(
  grid: Float64Array,
  columns: number,
  rows: number,
  i: number,
  t: number,
  j: number,
  u: number,
): number {
  const p1 = alongRow(grid, i * columns, columns, j, u);
  const p2 = alongRow(grid, (i + 1) * columns, columns, j, u);
  if (rows < 3) return p1 + t * (p2 - p1);
  const p0 = i > 0 ? alongRow(grid, (i - 1) * columns, columns, j, u) : Number.NaN;
  const p3 = i + 2 < rows ? alongRow(grid, (i + 2) * columns, columns, j, u) : Number.NaN;
  return cubic(p0, p1, p2, p3, t);
}

function alongRow(grid: Float64Array, start: number, columns: number, j: number, u: number): number {
  const at = start + j;
  return cubic(
    j > 0 ? grid[at - 1] : Number.NaN,
    grid[at],
    grid[at + 1],
    j + 2 < columns ? grid[at + 2] : Number.NaN,
    u,
  );
}

/** Catmull-Rom cubic between p1 and p2; a missing neighbour (NaN) is replaced by quadratic continuation. */
function cubic(p0: number, p1: number, p2: number, p3: number, t: number): number {
  const before = Number.isNaN(p0) ? 3 * p1 - 3 * p2 + p3 : p0;
  const after = Number.isNaN(p3) ? 3 * p2 - 3 * p1 + p0 : p3;
  const m1 = (p2 - before) / 2;
  const m2 = (after - p1) / 2;
  const difference = p2 - p1;
  return p1 + t * (m1 + t * (3 * difference - 2 * m1 - m2 + t * (m1 + m2 - 2 * difference)));
}
