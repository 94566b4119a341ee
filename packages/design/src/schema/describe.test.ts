import { describe, expect, it } from 'vitest';
import { describeDayPlanKey, describeDesignKey } from '../read-files.js';

describe('description of a key', () => {
  it('says kinds, step and limits', () => {
    expect(describeDesignKey('battery.usable')).toMatchObject({
      kinds: ['ratio'],
      bounds: { from: 0, to: 1 },
      limits: 'from 0 to 1',
    });
    expect(describeDesignKey('battery.x')).toMatchObject({ kinds: ['length'], step: '5 mm' });
    expect(describeDesignKey('battery.x')).not.toHaveProperty('bounds');
  });

  it('says limits in few digits', () => {
    expect(describeDesignKey('flight.bank')!.limits).toBe('from 0 to 74.48 deg');
    expect(describeDayPlanKey('pressure')!.limits).toContain('110000 Pa');
  });

  it('sees through the short form of a value', () => {
    expect(describeDayPlanKey('wind')).toMatchObject({ kinds: ['speed'], bounds: { from: 0, to: 60 } });
    expect(describeDesignKey('no such key')).toBeUndefined();
  });
});
