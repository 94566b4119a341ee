import { describe, expect, it } from 'vitest';
import { agrees } from '../check.js';
import { batteryChecks } from './battery.checks.js';

describe('external checks of the battery', () => {
  it('has rows with distinct names', () => {
    expect(new Set(batteryChecks.map((check) => check.id)).size).toBe(batteryChecks.length);
    expect(batteryChecks.length).toBeGreaterThanOrEqual(10);
  });

  for (const check of batteryChecks) {
    it(`${check.id}: ${check.quantity}`, () => {
      const computed = check.compute();
      expect(agrees(check, computed), `${JSON.stringify(computed)} against ${check.expected} ${check.unit}`).toBe(
        check.miss === undefined,
      );
    });
  }
});
