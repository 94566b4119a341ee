import type { SkyView } from './view.js';

/** Confidence for a page: without samples there is none yet. */
export const confidenceText = ({ confidenceText: words }: Pick<SkyView, 'confidenceText'>): string =>
  words === '' ? 'not computed yet' : words;
