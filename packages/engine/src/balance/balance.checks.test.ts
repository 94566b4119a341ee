import { describe, expect, it } from 'vitest';
import { agrees } from '../check.js';
import { balanceChecks } from './balance.checks.js';

describe('external checks of the balance', () => {
  it('has rows with distinct names', () => {
    expect(new Set(balanceChecks.map((check) => check.id)).size).toBe(balanceChecks.length);
    expect(balanceChecks.length).toBeGreaterThanOrEqual(6);
  });

  for (const check of balanceChecks) {
    it(`${check.id}: ${check.quantity}`, () => {
      const computed = check.compute();
      expect(agrees(check, computed), `${JSON.stringify(computed)} against ${check.expected} ${check.unit}`).toBe(
        check.miss === undefined,
      );
    });
  }
});
