import { describe, expect, it } from 'vitest';
import { agrees } from '../../check.js';
import { mappedCase, viscousChecks } from './viscous.checks.js';

describe('panel and boundary-layer checks', () => {
  for (const check of viscousChecks) {
    it(`${check.id}: ${check.quantity}`, () => {
      const computed = check.compute();
      const shown = `expected ${check.expected} ${check.unit}, computed ${JSON.stringify(computed)}`;
      expect(agrees(check, computed), shown).toBe(check.miss === undefined);
    });
  }
  it('the error of the panels falls to less than a half with each doubling', () => {
    const errors = [40, 80, 160, 320].map((panels) =>
      Math.abs(mappedCase(panels).lift - mappedCase(panels).exact.lift),
    );
    for (let i = 1; i < errors.length; i++) expect(errors[i]).toBeLessThan(0.5 * errors[i - 1]!);
  });
});
