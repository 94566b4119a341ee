import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type FieldFault, faultText, fieldKinds } from './field-checks.js';
import { keepsClock, planEdits, writtenValue } from './plan-text.js';

const plans = ['alondra', 'bandeja', 'vigilia'].map((name) =>
  readFileSync(new URL(`../../../examples/${name}.day.yaml`, import.meta.url), 'utf8'),
);

describe('fields of the day', () => {
  it('find a usable value in every example', () => {
    for (const plan of plans) {
      for (const { path, check } of fieldKinds) {
        const written = writtenValue(plan, path.at(-1)!);
        expect(written, path.join('.')).not.toBe('');
        expect(check(written), written).toBeUndefined();
      }
    }
  });

  it('leave comments out and know a key that is not there', () => {
    expect(writtenValue('a: 1\ndate: 2026-06-21   # midsummer\n', 'date')).toBe('2026-06-21');
    expect(writtenValue('date: 2026-06-21\n', 'launch')).toBe('');
  });

  it('edit only what differs', () => {
    const plan = plans[0]!;
    const same = fieldKinds.map(({ path }) => ({ path, value: writtenValue(plan, path.at(-1)!) }));
    expect(planEdits(plan, same)).toEqual([]);
    const moved = same.map((one) => (one.path[0] === 'date' ? { ...one, value: '2026-12-21' } : one));
    expect(planEdits(plan, moved)[0]).toEqual({ path: ['date'], value: '2026-12-21' });
  });

  it('take away what a plan says of its own place and season only', () => {
    const plan = plans[0]!;
    const removed = (key: string, value: string) =>
      planEdits(plan, [{ path: key.split('.'), value }])
        .filter((edit) => edit.value === '')
        .map(({ path }) => path.join('.'));
    expect(removed('date', '2026-06-28')).toEqual([]);
    expect(removed('date', '2026-12-21')).toEqual(['temperature', 'night temperature']);
    expect(removed('place.at', '47.6 N 8.5 E')).toEqual(['place.name', 'temperature', 'night temperature']);
  });

  const faultOf = (key: string, text: string): FieldFault | undefined =>
    fieldKinds.find((kind) => kind.key === key)!.check(text);

  it('take what a builder would write', () => {
    for (const [key, text] of [
      ['place', '40,7 N 0,9 E'],
      ['altitude', '1200 ft'],
      ['launch', 'sunrise'],
      ['charge', '0.9'],
      ['clock', 'UTC'],
      ['clock', ''],
    ] as const) {
      expect(faultOf(key, text), `${key} ${text}`).toBeUndefined();
    }
  });

  it('say what they expected', () => {
    expect(faultOf('date', '21.6.2026')?.hint).toBe('write "2026-06-21"');
    expect(faultOf('altitude', '1200')?.hint).toContain('a number needs its unit');
    expect(faultOf('altitude', '9 km')?.expected).toBe('a height from -430 m to 6000 m');
    expect(faultOf('charge', '120 %')?.expected).toContain('100 %');
    expect(faultOf('launch', 'noon')?.expected).toContain('or sunrise');
    expect(faultOf('clock', 'Nowhere/Land')?.hint).toContain('no zone of that name');
    expect(faultOf('clock', 'summer')).toBeDefined();
    const fault = faultOf('place', '95 N 0 E')!;
    expect(faultText(fault, '40.7 N 0.9 E')).toMatch(/^Found .*; expected .* Until then 40\.7 N 0\.9 E is used\.$/);
  });
});

describe('clock of a place that moves', () => {
  const degrees = (value: number) => (value * Math.PI) / 180;
  it('holds nearby, also across the date line, and not far away', () => {
    expect(keepsClock(degrees(0.9), degrees(5))).toBe(true);
    expect(keepsClock(degrees(179), degrees(-178))).toBe(true);
    expect(keepsClock(degrees(0.9), degrees(151))).toBe(false);
  });
});
