import { describe, expect, it } from 'vitest';
import { confidenceText } from './words.js';

const start = { value: 9, low: 8.5, high: 9.5 };

describe('confidence in words', () => {
  it('is that of what is said', () => {
    expect(confidenceText({ confidenceText: 'about 9 in 10', start })).toBe('about 9 in 10');
    expect(confidenceText({ confidenceText: 'about 3 in 10' })).toBe('carried in about 3 of 10 cases');
    expect(confidenceText({ confidenceText: 'in no case computed' })).toBe('in no case computed');
    expect(confidenceText({ confidenceText: '' })).toBe('not computed yet');
  });
});
