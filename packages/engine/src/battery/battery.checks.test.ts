import { describe, expect, it } from 'vitest';
import { agrees } from '../check.js';
import { batteryChecks } from './battery.checks.js';
import { cellChecks } from './cell.checks.js';

const checks = [...cellChecks, ...batteryChecks];

describe('external checks of the battery', () => {
  it('has rows with distinct names', () => {
    expect(new Set(checks.map((check) => check.id)).size).toBe(checks.length);
    expect(checks.length).toBeGreaterThanOrEqual(10);
  });

  for (const check of checks) {
    it(`${check.id}: ${check.quantity}`, () => {
      const computed = check.compute();
      expect(agrees(check, computed), `${JSON.stringify(computed)} against ${check.expected} ${check.unit}`).toBe(
        check.miss === undefined,
      );
    });
  }
});
