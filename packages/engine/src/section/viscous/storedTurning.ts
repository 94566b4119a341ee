import type { ControlTurning } from '../../shape/index.js';
import { flapReynoldsLoss, glauertFlap, LAYER_AHEAD } from '../flap.js';
import type { SectionGeometry } from '../types.js';
import { contentHash, SOLVER_VERSION, sectionKey } from './stored.js';

/** What the deflected sections of a control are computed with. */
export interface TurningSettings {
  /** Chord station of the hinge. */
  readonly hinge: number;
  /** Lift coefficient at which deflections are compared. */
  readonly lift: number;
  /** Logarithm of amplitude at transition. */
  readonly critical: number;
  readonly reynolds: readonly number[];
  /** Rising, without zero, trailing edge down positive [rad]. */
  readonly deflections: readonly number[];
  readonly nodes: number;
}

const DEGREE = Math.PI / 180;

/** A coarse set that takes about as long as a set of polars: ends and middle of what trims, where small controls and large ones fly. */
export const TURNING_SETTINGS: Omit<TurningSettings, 'hinge' | 'lift'> = {
  critical: 9,
  reynolds: [6e4, 1.2e5, 2.4e5, 4.8e5],
  deflections: [-10, -5, 5, 10].map((angle) => angle * DEGREE),
  nodes: 140,
};

/** Station of a trip that stands for every layer that is turbulent ahead of a hinge: well ahead of it, and not further forward than 60 %. */
export const tripAhead = (hinge: number): number => Math.min(0.6, hinge - 0.1);

/** A section with its control deflected, at the lift that all are compared at. */
export interface DeflectedState {
  /** Trailing edge down positive [rad]; zero among them. */
  readonly deflection: number;
  /** Incidence [rad], coefficients of drag, of the moment about the quarter chord and of that about the hinge (on chord squared). */
  readonly alpha: number;
  readonly drag: number;
  readonly moment: number;
  readonly hingeMoment: number;
}

/** States at one Reynolds number, with the layer left to itself and tripped ahead of the hinge on both sides; what has not converged is left out. */
export interface TurningRow {
  readonly reynolds: number;
  readonly free: readonly DeflectedState[];
  readonly tripped: readonly DeflectedState[];
}

/** Name of a set of deflected sections by its content. */
export function turningKey(
  geometry: SectionGeometry,
  settings: TurningSettings,
  section = sectionKey(geometry),
): string {
  const { hinge, lift, critical, reynolds, deflections, nodes } = settings;
  const angles = deflections.map((angle) => angle.toFixed(5)).join(' ');
  const options = [hinge.toFixed(4), lift.toFixed(3), critical, reynolds.join(' '), angles, nodes];
  return contentHash(['control', SOLVER_VERSION, ...options, section].join('|'));
}

/**
 * Shift of incidence by a deflection / that of thin-section theory, from the neutral state, or from that deflected the other way where the neutral
 * one has not converged; undefined where neither is there.
 */
function ratioOf(states: readonly DeflectedState[], deflection: number, theory: number): number | undefined {
  const at = (angle: number) => states.find((state) => Math.abs(state.deflection - angle) < 1e-4);
  const [neutral, turned] = [at(0), at(deflection)];
  if (turned === undefined) return undefined;
  if (neutral !== undefined) return (neutral.alpha - turned.alpha) / (deflection * theory);
  const opposite = at(-deflection);
  return opposite && (opposite.alpha - turned.alpha) / (2 * deflection * theory);
}

/** Ratios beyond these come from two branches of a solution that are compared with each other, not from a control. */
const LEAST_RATIO = 0.1;
const MOST_RATIO = 1.25;

const held = (ratio: number): number => Math.min(MOST_RATIO, Math.max(LEAST_RATIO, ratio));

/** Deviation of evenly likely values between two. */
const between = (a: number, b: number): number => Math.abs(a - b) / Math.sqrt(12);

/**
 * What a control turns, from its computed states: in the middle between a layer left to itself and one tripped ahead of the hinge, for nobody
 * knows what a real surface, its tape and the air behind a propeller do; all between them is evenly likely. A state that is missing on one of
 * both sides is replaced by what the fit says of it.
 * rows - by rising Reynolds number; settings - they were computed with
 * Returns undefined where less than half of the states are there.
 */
export function controlTurning(rows: readonly TurningRow[], settings: TurningSettings): ControlTurning | undefined {
  const { hinge, deflections } = settings;
  const theory = glauertFlap(1 - hinge).effectiveness;
  const [ratio, spread]: [number[], number[]] = [[], []];
  let missing = 0;
  for (const { reynolds, free, tripped } of rows) {
    const fitted = (layer: number) => 1 - flapReynoldsLoss(reynolds, layer);
    for (const deflection of deflections) {
      const [a, b] = [ratioOf(free, deflection, theory), ratioOf(tripped, deflection, theory)];
      missing += Number(a === undefined) + Number(b === undefined);
      const laminar = held(a ?? fitted(LAYER_AHEAD.laminar));
      const turbulent = held(b ?? fitted(LAYER_AHEAD.turbulent));
      ratio.push((laminar + turbulent) / 2);
      spread.push(between(laminar, turbulent));
    }
  }
  if (rows.length === 0 || missing > rows.length * deflections.length) return undefined;
  return { reynolds: rows.map((row) => row.reynolds), deflections, ratio, spread };
}
