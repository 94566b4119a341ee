import type { SkyView } from './view.js';

/**
 * Confidence for a page: without samples there is none yet. Under 'not carried' a bare 'about 3 in 10' would read as the chance
 * of that, and it is the share of the cases that are carried.
 */
export function confidenceText({ confidenceText: words, start }: Pick<SkyView, 'confidenceText' | 'start'>): string {
  if (words === '') return 'not computed yet';
  return start === undefined && / in 10$/.test(words)
    ? `carried in ${words.replace(/ in 10$/, ' of 10 cases')}`
    : words;
}
