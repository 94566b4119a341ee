import { describe, expect, it } from 'vitest';
import { apply } from '../../core/commands.js';
import type { Work } from '../../core/state.js';
import { asGroup, isGroup, placeChange, plainTextAt, settingRows, withGroup } from './plan-edits.js';

const long =
  'noonwing: day 1\nplace:\n  at: 40.7 N 0.9 E\n  name: delta\n  altitude: 0 m\ndate: 2026-06-21\ntime zone: Europe/Madrid\nwind: {speed: 3 m/s, from: 120 deg}\n';
const short = 'noonwing: day 1   # of ours\nplace: 40.7 N 0.9 E\ndate: 2026-06-21\nwind: 4 m/s\n';

const degree = Math.PI / 180;
const at = (latitude: number, longitude: number) => ({ latitude: latitude * degree, longitude: longitude * degree });

/** The plan after the edits, as the page applies them. */
function applied(plan: string, edits: Parameters<typeof withGroup>[1]): string {
  const work: Work = {
    projects: { p: { id: 'p', name: 'p', files: { 'a.day.yaml': plan }, plan: 'a.day.yaml' } },
    current: 'p',
    pending: {},
  };
  const { work: after, result } = apply(work, { kind: 'set values', file: 'day', edits });
  expect(result).toMatchObject({ ok: true });
  return after.projects.p!.files['a.day.yaml']!;
}

describe('a new place', () => {
  it('keeps name, altitude and clock when the point is only made finer', () => {
    const after = applied(long, placeChange(long, at(40.72, 0.91)).edits);
    expect(plainTextAt(after, 'place.at')).toBe('40.720 N 0.910 E');
    expect(plainTextAt(after, 'place.name')).toBe('delta');
    expect(plainTextAt(after, 'time zone')).toBe('Europe/Madrid');
  });

  it('takes the clock of the region with it and drops the old name when it is far', () => {
    const { edits, note } = placeChange(long, at(60.4, 5.3));
    const after = applied(long, edits);
    expect(plainTextAt(after, 'place.name')).toBeUndefined();
    expect(plainTextAt(after, 'time zone')).toBe('Europe/Oslo');
    expect(note).toContain('check');
  });

  it('works where the plan has its place in one line', () => {
    const after = applied(short, placeChange(short, at(52.5, 13.4)).edits);
    expect(plainTextAt(after, 'place.at')).toBe('52.500 N 13.400 E');
    expect(after).toContain('# of ours');
    const named = applied(short, withGroup(short, [{ path: 'place.name', text: 'field' }]));
    expect(plainTextAt(named, 'place.at')).toBe('40.7 N 0.9 E');
    expect(plainTextAt(named, 'place.name')).toBe('field');
  });
});

describe('a value that becomes a group', () => {
  it('keeps what was written', () => {
    expect(isGroup(short, 'wind')).toBe(false);
    const after = applied(short, asGroup(short, 'wind', 'speed'));
    expect(isGroup(after, 'wind')).toBe(true);
    expect(plainTextAt(after, 'wind.speed')).toBe('4 m/s');
    expect(asGroup(long, 'wind', 'speed')).toEqual([]);
  });

  it('begins with a usual value where nothing was written', () => {
    const none = short.replace('wind: 4 m/s\n', '');
    expect(plainTextAt(applied(none, asGroup(none, 'wind', 'speed', '3 m/s')), 'wind.speed')).toBe('3 m/s');
  });
});

describe('what an import would set', () => {
  it('stands beside what the plan says or assumes', () => {
    const rows = settingRows(long, [
      { path: 'clearness', text: '80 % ± 5 %' },
      { path: 'place.altitude', text: '0 m' },
      { path: 'temperature', text: '25 degC' },
      { path: 'place.name' },
    ]);
    expect(rows[0]).toEqual({ path: 'clearness', before: 'not stated', after: '80 % ± 5 %', isChange: true });
    expect(rows[1]).toMatchObject({ before: '0 m', isChange: false });
    expect(rows[2]!.before).toContain('assumed');
    expect(rows[3]).toMatchObject({ before: 'delta', after: 'not stated', isChange: true });
  });
});
