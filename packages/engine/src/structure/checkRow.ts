import type { Check } from '../check.js';

type Row = Pick<Check, 'id' | 'quantity' | 'expected' | 'unit' | 'tolerance' | 'calls' | 'compute'> & Partial<Check>;

/** A check row of this folder; what is left out is as most of them have it. */
export const row = (given: Row): Check => ({
  topic: 'structure',
  why: 'last printed digit',
  provenance: 'recomputed from the published formula',
  source: 'textbook: Gere and Timoshenko, Mechanics of Materials, appendix G',
  ...given,
  id: `structure-${given.id}`,
});
