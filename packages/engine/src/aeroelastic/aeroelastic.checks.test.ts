import { describe, expect, it } from 'vitest';
import { agrees } from '../check.js';
import { aeroelasticChecks } from './aeroelastic.checks.js';

describe('aeroelastic results against external values', () => {
  it.each(aeroelasticChecks.map((check) => [check.id, check] as const))('%s', (_, check) => {
    const computed = check.compute();
    if (agrees(check, computed) === (check.miss !== undefined))
      expect.fail(`${check.quantity}: computed ${computed}, expected ${check.expected} +- ${check.tolerance}`);
  });

  it('has ids that are used once', () => {
    expect(new Set(aeroelasticChecks.map((check) => check.id)).size).toBe(aeroelasticChecks.length);
  });
});
