import { describe, expect, it } from 'vitest';
import { sentence } from './notices.js';

describe('a sentence of a notice', () => {
  it.each([
    ['the wing is bent', 'The wing is bent.'],
    ['mine.yaml was not written', 'mine.yaml was not written.'],
    ['sections/tip.dat: it has 12 MB', 'sections/tip.dat: it has 12 MB.'],
    ['"mine.yaml" is not a text file', '"mine.yaml" is not a text file.'],
    ['about 9 in 10', 'About 9 in 10.'],
    ['2.4 m of span', '2.4 m of span.'],
    ['e.g. this', 'E.g. this.'],
    ['', ''],
  ])('%s', (text, said) => {
    expect(sentence(text)).toBe(said);
  });
});
