import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { busOfDay } from './bus-day.js';

const verdictWith = (name: 'alondra' | 'bandeja', changes: Readonly<Record<string, string>>) =>
  test.verdictOf(test.edited(test.designText(name), changes), test.planText(name));
const bus = (warnings: readonly { readonly code: string; readonly where?: string | undefined }[]) =>
  warnings.filter(({ code }) => /^(bus|burst)-/.test(code)).map(({ code, where }) => `${code} ${where}`);

describe('the bus in a plain day', () => {
  it('is not mentioned where nothing is wrong', () => {
    expect(bus(verdictWith('alondra', {}).warnings)).toEqual([]);
  });

  it('names floors that the battery passes when it carries everything, where the design states them', () => {
    const { warnings } = verdictWith('alondra', {
      'regulator drop out': '20 V',
      'drive.speed controller.low voltage cut': '19 V',
    });
    expect(bus(warnings)).toEqual([
      'bus-too-low drive.speed controller.low voltage cut',
      'bus-too-low regulator drop out',
    ]);
  });

  it('finds what the seconds of the turns find, to the 0.1 V that they go on discharging', () => {
    const weak = verdictWith('alondra', {});
    const lowest = Math.min(...busOfDay(weak)!.turns.map(({ lowestVoltage }) => lowestVoltage));
    const above = verdictWith('alondra', { 'regulator drop out': `${(lowest + 0.1).toFixed(2)} V` });
    expect(bus(above.warnings)).toEqual(['bus-too-low regulator drop out']);
  });

  it('sets the strings of one converter against its ratings together', () => {
    const limit = { 'array.converters.right.rated power': '60 W', 'array.converters.left.rated power': '60 W' };
    expect(bus(verdictWith('bandeja', limit).warnings)).toEqual([]);
    const shared = verdictWith('bandeja', { ...limit, 'array.strings.left.converter': 'right' });
    expect(bus(shared.warnings)).toEqual(['burst-power array.converters.right']);
  });
});
