import type { Warning } from '@noonwing/engine';
import type { Prepared } from './prepare.js';
import type { SkyRun } from './run.js';

/** Share of what strings could give by themselves from which it is said that they hold each other back (judgement: more than a tracker misses). */
const saidFrom = 0.02;

/**
 * Converters whose strings hold each other back: they stand at one voltage, which suits strings of unlike length or light badly.
 * @param sky - a run through the days, whose string maxima are there
 */
export function sharedWarnings({ model, run }: Prepared, sky: SkyRun | undefined): readonly Warning[] {
  const maxima = sky?.maxima;
  const { array } = run;
  if (array === undefined || maxima === undefined) return [];
  return array.converters.flatMap((_, c): readonly Warning[] => {
    const hung = array.strings.flatMap((string, s) => (string.converter === c ? [{ string, s }] : []));
    let [own, given] = [0, 0];
    for (const { s } of hung) {
      for (let at = s * maxima.instants; at < (s + 1) * maxima.instants; at++) {
        own += maxima.ownPower[at]!;
        given += maxima.power[at]!;
      }
    }
    const lost = own > 0 ? 1 - given / own : 0;
    if (lost < saidFrom) return [];
    const lengths = hung.map(({ string }) => string.groups.reduce((sum, { count }) => sum + count, 0));
    const unlike = new Set(lengths).size > 1;
    const what = unlike ? `of ${lengths.join(' and ')} cells` : 'in unlike light';
    const remedy = unlike ? 'strings of equal length, or a converter for each' : 'a converter for each';
    const name = model.complete.array?.converters[c]?.name ?? String(c + 1);
    return [
      {
        code: 'strings-pulled',
        message: `strings ${what} on one converter stand at one voltage and lose ${(100 * lost).toFixed(0)} % of what each could give by itself: ${remedy}`,
        where: `array.converters.${name}`,
      },
    ];
  });
}
