import type { Check } from '../check.js';

type Row = Omit<Check, 'topic' | 'provenance'> & Partial<Pick<Check, 'provenance'>>;
/** A check row of this folder; what is left out is as most of them have it. */
export const row = (fields: Row): Check => ({
  topic: 'aeroelastic',
  provenance: 'recomputed from the published formula',
  ...fields,
});
