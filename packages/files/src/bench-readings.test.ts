import fastCheck from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseBenchReadings } from './bench-readings.js';

const text = [
  'time,battery voltage (V),battery current (mA),array voltage (V),cell temperature (°C),converter',
  '2026-06-21T10:00+02:00,15.1,3900,8.2,41,own',
  '',
  '2026-06-21T08:20Z,15.2,4010,,,other',
].join('\n');

describe('parseBenchReadings', () => {
  it('reads rows in SI with their lines; what is empty is absent', () => {
    const read = parseBenchReadings(text);
    if (!read.ok) throw new Error(read.reason);
    expect(read.value).toEqual([
      {
        line: 2,
        time: Date.UTC(2026, 5, 21, 8) / 1000,
        batteryVoltage: 15.1,
        batteryCurrent: 3.9,
        arrayVoltage: 8.2,
        cellTemperature: 314.15,
      },
      {
        line: 4,
        time: Date.UTC(2026, 5, 21, 8, 20) / 1000,
        batteryVoltage: 15.2,
        batteryCurrent: 4.01,
        otherConverter: true,
      },
    ]);
  });

  it('names the line of a time that it cannot read', () => {
    expect(parseBenchReadings(text.replace('2026-06-21T08:20Z', 'ten past'))).toMatchObject({
      ok: false,
      code: 'time',
      where: 'line 4, column "time"',
    });
  });

  it('refuses a table without readings', () => {
    expect(parseBenchReadings('a,b\n1,2')).toMatchObject({ ok: false, code: 'columns' });
  });

  it('answers any text', () => {
    fastCheck.assert(
      fastCheck.property(fastCheck.string(), (anything) => {
        const read = parseBenchReadings(anything);
        expect(typeof read.ok).toBe('boolean');
      }),
    );
  });
});
