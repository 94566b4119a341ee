import { agrees } from '@noonwing/engine';
import { describe, expect, test } from 'vitest';
import { aircraftChecks } from './aircraft.checks.js';

describe('checks of whole aircraft against outside sources', () => {
  test.each(aircraftChecks.map((check) => [check.id, check] as const))('%s', (_, check) => {
    const computed = check.compute();
    const context = `${check.quantity}: expected ${check.expected}, computed ${JSON.stringify(computed)} ${check.unit}`;
    expect(agrees(check, computed), context).toBe(check.miss === undefined);
  });

  test('identifiers are unique', () => {
    expect(new Set(aircraftChecks.map((check) => check.id)).size).toBe(aircraftChecks.length);
  });
});
