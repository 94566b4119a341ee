import { describe, expect, test } from 'vitest';
import { agrees } from '../check.js';
import { flightChecks } from './flight.checks.js';

describe('checks of the flight against outside sources', () => {
  test.each(flightChecks.map((check) => [check.id, check] as const))('%s', (_, check) => {
    const computed = check.compute();
    const context = `${check.quantity}: expected ${check.expected}, computed ${JSON.stringify(computed)} ${check.unit}`;
    expect(agrees(check, computed), context).toBe(check.miss === undefined);
  });

  test('identifiers are unique', () => {
    expect(new Set(flightChecks.map((check) => check.id)).size).toBe(flightChecks.length);
  });
});
