import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { busOfDay } from './bus-day.js';

const bus = (changes: Readonly<Record<string, string>> = {}) =>
  busOfDay(test.verdictOf(test.edited(test.designText('alondra'), changes), test.planText('alondra')))!;

describe('bus in seconds over a day', () => {
  const found = bus();

  it('falls under a cloud, and furthest with the battery at its lowest', () => {
    const [turn, cloud, lowest] = found.turns;
    expect(cloud!.lowestVoltage).toBeLessThanOrEqual(turn!.lowestVoltage);
    expect(lowest!.lowestVoltage).toBeLessThanOrEqual(cloud!.lowestVoltage);
    expect(lowest!.lowestVoltage).toBeGreaterThan(found.floors.regulatorDropOut);
    expect(test.unreal(found)).toEqual([]);
  });

  it('names the floor that is passed, by its key', () => {
    const { warnings } = bus({ 'regulator drop out': '20 V' });
    expect(warnings.filter(({ code }) => code === 'bus-too-low').map(({ where }) => where)).toContain(
      'regulatorDropOut',
    );
    expect(found.warnings.map(({ code }) => code)).not.toContain('bus-too-low');
  });

  it('sets bursts at cloud edges against the ratings of the converter', () => {
    expect(found.bursts[0]!.shortCircuitCurrent).toBeGreaterThan(1.25 * 6.27);
    const { warnings } = bus({ 'array.converters.tracker.input voltage high': '9 V' });
    expect(warnings.map(({ code }) => code)).toContain('burst-voltage');
  });
});
