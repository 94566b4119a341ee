import { describe, expect, it } from 'vitest';
import { agrees } from '../check.js';
import { arrayChecks } from './array.checks.js';

describe('array against published and recomputed values', () => {
  for (const check of arrayChecks) {
    it(`${check.id}: ${check.quantity}${check.miss === undefined ? '' : ' (known miss)'}`, () => {
      const computed = check.compute();
      expect(typeof computed === 'number' && Number.isFinite(computed), `${computed}`).toBe(true);
      expect(agrees(check, computed), `computed ${computed}, expected ${check.expected} ${check.unit}`).toBe(
        check.miss === undefined,
      );
    });
  }

  it('names each row once', () => {
    expect(new Set(arrayChecks.map((check) => check.id)).size).toBe(arrayChecks.length);
  });
});
