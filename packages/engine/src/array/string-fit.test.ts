import { describe, expect, it } from 'vitest';
import type { Converter, Topology } from './converter.js';
import { backContactCell } from './reference.js';
import { stringVoltageFit } from './string-fit.js';

const converter = (topology: Topology, limits: Converter['limits'] = {}): Converter => ({
  topology,
  loss: { fixed: 0.2, perAmpere: 0.1, resistance: 0.05 },
  limits,
  tracking: { method: 'maximum power' },
  standbyPower: 0,
});

/** Three lithium-ion cells in series, cells from 0 to 60 C. */
const ask = (count: number, topology: Topology, limits: Converter['limits'] = {}) =>
  stringVoltageFit({
    string: { cell: backContactCell, count },
    converter: converter(topology, limits),
    batteryVoltageRange: { minimum: 9, maximum: 12.6 },
    temperatures: { coldest: 273.15, hottest: 333.15 },
  });

describe('stringVoltageFit', () => {
  it('finds the headroom limits of three cells in series: boost to 12 cells, buck from 28, neither between', () => {
    expect(ask(12, 'boost')).toMatchObject({ ok: true, value: { fit: 'always', cellCounts: { most: 12 } } });
    expect(ask(28, 'buck')).toMatchObject({ ok: true, value: { fit: 'always', cellCounts: { fewest: 28 } } });
    for (const count of [20, 24]) {
      expect(ask(count, 'boost')).toMatchObject({ ok: true, value: { fit: 'part of the range' } });
      expect(ask(count, 'buck')).toMatchObject({ ok: true, value: { fit: 'part of the range' } });
      expect(ask(count, 'buck-boost')).toMatchObject({ ok: true, value: { fit: 'always' } });
    }
  });

  it('says never, with the nearest remedies', () => {
    const low = ask(6, 'buck');
    expect(low).toMatchObject({ ok: false, code: 'string-voltage-never-fits' });
    expect(!low.ok && low.remedy).toBe(
      'add 22 cells in series (28 with this buck converter), or use a boost or buck-boost converter with these 6 cells',
    );
    const high = ask(40, 'boost');
    expect(!high.ok && high.remedy).toContain('remove 28 cells in series (12 with this boost converter)');
    expect(!high.ok && high.remedy).toContain('buck or buck-boost');
    expect(ask(11, 'direct')).toMatchObject({ ok: false, code: 'string-voltage-never-fits' });
  });

  it('says never exactly where the converter then gives nothing or no more than it passes through', () => {
    for (let count = 4; count < 40; count++) {
      const answer = ask(count, 'buck');
      const highest = count * 0.7412;
      expect(answer.ok).toBe(highest > 9 * 1.05 + 0.3);
    }
  });

  it('warns of feed-through and of an exceeded rating', () => {
    const codes = (count: number, limits: Converter['limits']) => {
      const answer = ask(count, 'boost', limits);
      return answer.ok ? answer.warnings.map((warning) => warning.code) : [];
    };
    expect(codes(13, {})).toContain('string-feeds-through');
    expect(codes(12, { maximumInputVoltage: 8 })).toContain('string-above-input-rating');
    expect(codes(12, {})).toEqual([]);
  });

  it('proposes one cell in the singular', () => {
    const answer = ask(13, 'boost');
    expect(answer.ok && answer.warnings.map((warning) => warning.message).join()).toContain('remove 1 cell in series');
  });

  it('refuses ranges in the wrong order and strings without cells', () => {
    expect(ask(0, 'boost')).toMatchObject({ ok: false, code: 'string-question' });
    expect(
      stringVoltageFit({
        string: { cell: backContactCell, count: 10 },
        converter: converter('boost'),
        batteryVoltageRange: { minimum: 12, maximum: 9 },
        temperatures: { coldest: 273, hottest: 333 },
      }),
    ).toMatchObject({ ok: false });
  });
});
