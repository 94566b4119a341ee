import type { Check } from '../check.js';
import type { Outcome } from '../result.js';
import { type LiftingSurface, trapezoidalWing } from '../shape/index.js';
import { solveWing } from './solve.js';
import type { PanelCounts, WingModel } from './types.js';

export const degree = Math.PI / 180;

/** The value of an outcome that cannot fail here. */
export function certain<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(`${outcome.where}: ${outcome.reason}`);
  return outcome.value;
}

type Row = Pick<Check, 'id' | 'quantity' | 'expected' | 'unit' | 'tolerance' | 'why' | 'calls' | 'compute'> &
  Partial<Pick<Check, 'provenance' | 'source' | 'miss'>>;

const latticeSource =
  'linear lifting-surface theory, converged vortex lattice of 40 x 16 panels (independent computation)';

/** A row with what most rows share. */
export const row = (fields: Row): Check => ({
  topic: 'wing',
  provenance: 'recomputed from the published formula',
  source: latticeSource,
  ...fields,
});

/** Rectangular wing of span 1. */
export const rectangular = (aspectRatio: number): LiftingSurface => trapezoidalWing({ span: 1, aspectRatio });
/** Model of one surface alone. */
export const modelOf = (surface: LiftingSurface, panels?: PanelCounts): WingModel =>
  certain(solveWing({ surfaces: [surface], bodies: [], parasites: [] }, panels ? { panels } : {}));

export const meshWhy = 'mesh of about 150 unknowns against the converged value';
