import type { SectionGeometry } from '../types.js';
import { preparedOutline } from './covering.js';
import type { LayerState } from './layer.js';
import type { PolarPoint, SectionPolar } from './polar.js';
import { type PreparedSection, solveViscous, type ViscousInput } from './solve.js';
import { POLAR_SETTINGS, type PolarSettings } from './stored.js';

const DEGREE = Math.PI / 180;

export interface SweepInput extends Omit<ViscousInput, 'alpha'> {
  /** Incidence from which both ways are swept [rad]. */
  readonly middle?: number;
  readonly step?: number;
  readonly lowest?: number;
  readonly highest?: number;
}

/** How many incidences in a row may fail before a sweep ends. */
const MOST_HOLES = 3;

/** Whether the lift has passed its extreme by a tenth: what is beyond belongs to the law of separated flow. */
const passedExtreme = (lift: number, extreme: number): boolean => Math.abs(extreme) > 0.3 && lift / extreme < 0.9;

/** Sweep in one direction; each incidence starts from its neighbour. */
function sweepOneWay(
  section: PreparedSection,
  input: SweepInput,
  angles: readonly number[],
  first: LayerState | undefined,
): {
  readonly points: readonly PolarPoint[];
  readonly holes: readonly number[];
  readonly first: LayerState | undefined;
} {
  const points: PolarPoint[] = [];
  const holes: number[] = [];
  let state = first;
  let start: LayerState | undefined = first;
  let failed = 0;
  let extreme = 0;
  for (const alpha of angles) {
    const solved = solveViscous(section, { ...input, alpha }, state);
    if (!solved.ok) {
      holes.push(alpha);
      if (state !== undefined && ++failed >= MOST_HOLES) break;
      continue;
    }
    failed = 0;
    state = solved.value.state;
    start ??= state;
    const { lift, drag, moment, upper, lower } = solved.value.flow;
    points.push({ alpha, lift, drag, moment, upperTransition: upper.transition, lowerTransition: lower.transition });
    if (Math.sign(lift) === Math.sign(alpha - angles[0])) {
      if (passedExtreme(lift, extreme)) break;
      if (Math.abs(lift) > Math.abs(extreme)) extreme = lift;
    }
  }
  return { points, holes, first: start };
}

/**
 * Polar of a section at one Reynolds number, from a middle incidence both ways past maximum and minimum lift.
 * section - prepared; input - Reynolds number, transition; step - between incidences [rad], default half a degree
 */
export function sweepPolar(section: PreparedSection, input: SweepInput): SectionPolar {
  const step = input.step ?? 0.5 * DEGREE;
  const middle = input.middle ?? 2 * DEGREE;
  const count = (room: number): number => Math.max(0, Math.floor(room / step + 1e-9));
  const up = Array.from({ length: 1 + count((input.highest ?? 18 * DEGREE) - middle) }, (_, k) => middle + k * step);
  const down = Array.from(
    { length: count(middle - (input.lowest ?? -10 * DEGREE)) },
    (_, k) => middle - (k + 1) * step,
  );
  const upward = sweepOneWay(section, input, up, undefined);
  const downward = sweepOneWay(section, input, down, upward.first);
  const points = [...upward.points, ...downward.points].sort((a, b) => a.alpha - b.alpha);
  return { reynolds: input.reynolds, points, holes: [...upward.holes, ...downward.holes].sort((a, b) => a - b) };
}

/**
 * Polars of a section at every Reynolds number of the settings; empty where its outline cannot be prepared.
 * geometry - section that `isComputable`; settings - of the computation
 */
export function computePolars(
  geometry: SectionGeometry,
  settings: PolarSettings = POLAR_SETTINGS,
): readonly SectionPolar[] {
  const prepared = preparedOutline(geometry.outlineX, geometry.outlineY, settings.nodes);
  if (!prepared.ok) return [];
  const { critical, trips, step } = settings;
  return settings.reynolds.map((reynolds) =>
    sweepPolar(prepared.value, { reynolds, critical, step, ...(trips === undefined ? {} : { trips }) }),
  );
}
