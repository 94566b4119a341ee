import { describe, expect, it } from 'vitest';
import { agrees } from '../check.js';
import { wingChecks } from './wing.checks.js';

describe('wing against external values', () => {
  it.each(wingChecks.map((check) => [check.id, check] as const))('%s', (_, check) => {
    const computed = check.compute();
    if (agrees(check, computed) === (check.miss !== undefined))
      expect.fail(`${check.quantity}: computed ${computed}, expected ${check.expected} +- ${check.tolerance}`);
  });

  it('has ids that are used once', () => {
    expect(new Set(wingChecks.map((check) => check.id)).size).toBe(wingChecks.length);
  });
});
