import { describe, expect, it } from 'vitest';
import { agrees } from '../check.js';
import { shapeChecks } from './shape.checks.js';

describe('shape against external values', () => {
  it.each(shapeChecks.map((check) => [check.id, check] as const))('%s', (_, check) => {
    const computed = check.compute();
    if (agrees(check, computed) === (check.miss !== undefined))
      expect.fail(`${check.quantity}: computed ${computed}, expected ${check.expected} +- ${check.tolerance}`);
  });

  it('has ids that are used once', () => {
    expect(new Set(shapeChecks.map((check) => check.id)).size).toBe(shapeChecks.length);
  });
});
