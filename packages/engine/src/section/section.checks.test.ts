import { describe, expect, it } from 'vitest';
import { agrees } from '../check.js';
import { sectionChecks } from './section.checks.js';

describe('section checks', () => {
  for (const check of sectionChecks) {
    it(`${check.id}: ${check.quantity}`, () => {
      const computed = check.compute();
      const shown = `expected ${check.expected} ${check.unit}, computed ${JSON.stringify(computed)}`;
      expect(agrees(check, computed), shown).toBe(check.miss === undefined);
    });
  }
  it('names every row once', () => {
    expect(new Set(sectionChecks.map((check) => check.id)).size).toBe(sectionChecks.length);
  });
});
