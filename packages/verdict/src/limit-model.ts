import type { AssembledStructure } from '@noonwing/design';
import type { Outcome } from '@noonwing/engine';
import type { LimitCondition } from '@noonwing/engine/aeroelastic';
import { buildModel, type StructuralModel } from '@noonwing/engine/structure';
import type { Verdict } from './central.js';

/** What limits need of a verdict. */
export type Flown = Pick<Verdict, 'prepared' | 'flight'>;

/** Corners of the largest surface's mesh: a finer one changes limits by 1 or 2 % and takes longer (docs/aeroelastic-convergence.md). */
const mesh = { corners: 70 };

/** The model of a structure on which limits are computed. */
export const limitModel = ({ half }: AssembledStructure): Outcome<StructuralModel> => buildModel(half, mesh);

/** What limits ask of flight, with the strength that the structure has. */
export const withStrength = (condition: LimitCondition, { strength }: AssembledStructure): LimitCondition =>
  strength === undefined ? condition : { ...condition, strength };
