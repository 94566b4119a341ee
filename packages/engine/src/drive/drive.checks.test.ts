import { describe, expect, test } from 'vitest';
import { agrees } from '../check.js';
import { driveChecks } from './drive.checks.js';

describe('checks of the drive against outside sources', () => {
  test.each(driveChecks.map((check) => [check.id, check] as const))('%s', (_, check) => {
    const computed = check.compute();
    const context = `${check.quantity}: expected ${check.expected}, computed ${JSON.stringify(computed)} ${check.unit}`;
    expect(agrees(check, computed), context).toBe(check.miss === undefined);
  });

  test('identifiers are unique', () => {
    expect(new Set(driveChecks.map((check) => check.id)).size).toBe(driveChecks.length);
  });
});
