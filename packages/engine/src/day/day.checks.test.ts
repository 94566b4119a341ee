import { describe, expect, test } from 'vitest';
import { agrees } from '../check.js';
import { dayChecks } from './day.checks.js';

describe('checks of the day against outside sources', () => {
  test.each(dayChecks.map((check) => [check.id, check] as const))('%s', (_, check) => {
    const computed = check.compute();
    const context = `${check.quantity}: expected ${check.expected}, computed ${JSON.stringify(computed)} ${check.unit}`;
    expect(agrees(check, computed), context).toBe(check.miss === undefined);
  });

  test('identifiers are unique', () => {
    expect(new Set(dayChecks.map((check) => check.id)).size).toBe(dayChecks.length);
  });
});
