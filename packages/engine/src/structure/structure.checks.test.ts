import { describe, expect, it } from 'vitest';
import { agrees } from '../check.js';
import { structureChecks } from './structure.checks.js';

describe('external checks of the structure', () => {
  it('has rows with distinct names', () => {
    expect(new Set(structureChecks.map((check) => check.id)).size).toBe(structureChecks.length);
    expect(structureChecks.length).toBeGreaterThanOrEqual(50);
  });

  for (const check of structureChecks) {
    it(`${check.id}: ${check.quantity}`, () => {
      const computed = check.compute();
      expect(agrees(check, computed), `${JSON.stringify(computed)} against ${check.expected} ${check.unit}`).toBe(
        check.miss === undefined,
      );
    });
  }
});
