import { fixed } from '../../core/decimal.js';
import { type Said, speedWords } from '../../core/said.js';
import type { LimitsView, StiffnessReadingView } from '../../core/view-limits-types.js';
import type { StiffnessWhat } from './kinds.js';

/** Readings that lie farther from what was expected than this many standard deviations ask for a second look (judgement). */
const surprising = 2;

/** A reading with the factor that it leaves: '22 mm down ..., expected 19 mm: bending stiffness 86 % ± 8 % of what is described'. */
export function readingWords({ of, source, factor, spread, surprise = 0, problem }: StiffnessReadingView): string {
  const read = source === '' ? '' : `${source}: `;
  if (factor === undefined || spread === undefined) return `${read}${problem ?? 'it says nothing'}`;
  const what = of === 'bending' || of === 'torsion' ? `${of} stiffness` : `stiffness of ${of}`;
  const look =
    surprise > surprising
      ? `; far from what was expected (${fixed(surprise, 1)} standard deviations): read it again`
      : '';
  return `${read}${what} ${fixed(100 * factor, 0)} % ± ${fixed(100 * factor * spread, 0)} % of what is described${look}`;
}

/** The readings of one kind, a strip's by its material. */
export const readingsOf = (
  { readings }: Pick<LimitsView, 'readings'>,
  what: StiffnessWhat,
  material?: string,
): readonly StiffnessReadingView[] =>
  readings.filter(({ record, of }) => record === what && (material === undefined || of === material));

/** What a record changes of the limit speed. */
export function limitChangeWords(
  without: Pick<LimitsView, 'limits'> | undefined,
  withIt: Pick<LimitsView, 'limits'>,
  said: Said,
): string {
  const after = withIt.limits[0];
  if (after === undefined) return 'No limit speed is found with it.';
  const before = without?.limits[0];
  const now = `${speedWords(after.low, said)}, the lower edge of ${speedWords(after.airspeed, said)}`;
  return before === undefined
    ? `Limit speed with it ${now}.`
    : `Limit speed ${speedWords(before.low, said)} without it, ${now}, with it.`;
}
