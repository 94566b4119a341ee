import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { example, numbersWithoutUnit, runCli } from './testing/run-cli.js';

const folder = mkdtempSync(join(tmpdir(), 'noonwing-measure-'));
afterAll(() => rmSync(folder, { recursive: true }));

const file = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

const day = ['--at', '40.7,0.9', '--date', '2026-06-21'];
const measure = (...more: readonly string[]) => runCli(['measure', 'array', example('alondra'), ...day, ...more]);
const noon = ['--time', '2026-06-21T13:00+02:00', '--volts', '15.2 V'];

describe('measure array', () => {
  it('says first in words that nothing points to a fault, and what the record would correct', async () => {
    const { code, out } = await measure(...noon, '--amps', '2.45 A', '--array-volts', '8.4 V');
    expect(code).toBe(0);
    expect(out.split('\n')[1]).toMatch(/^Nothing points to a fault/);
    expect(out).toContain('corrects the array by');
    expect(out).toContain('always live');
  });

  it('blames the setting of a converter that holds the string too high', async () => {
    const { out } = await measure(...noon, '--amps', '1.9 A', '--array-volts', '9.5 V', '--other-amps', '2.4 A');
    expect(out).toMatch(/Most likely: the converter holds the string at 9\.\d V,\s+too high/);
    expect(out).toContain('keep this reading out of the design');
  });

  it('names the difference of the own converter beside the cause, not that of the other one', async () => {
    const { out } = await measure(...noon, '--amps', '1.9 A', '--array-volts', '9.5 V', '--other-amps', '2.4 A');
    expect(out.replace(/\s+/g, ' ')).toMatch(/Most likely: [^(]* \(-\d+ % ± \d+ % against the model\)/);
    expect(out).toMatch(/2\.40 A .* another converter/);
  });

  it('reads a file of readings and a trace, and gives programs every number with its unit', async () => {
    const readings = file(
      'bench.csv',
      'time,battery voltage (V),battery current (A)\n2026-06-21T12:30+02:00,15.2,2.45\n2026-06-21T13:00+02:00,15.2,2.5\n',
    );
    const trace = file('trace.csv', 'voltage (V),current (A)\n0,5.4\n4,5.38\n7,5.3\n8.2,5.0\n9,3.9\n9.6,2.0\n10,0.3\n');
    const { code, out } = await measure('--readings', readings, '--trace', trace, '--json');
    expect(code).toBe(0);
    const data = JSON.parse(out) as { readings: unknown[]; trace: { steps: { value: number } }; causes: unknown[] };
    expect(data.readings.length).toBe(2);
    expect(data.trace.steps.value).toBe(1);
    expect(data.causes.length).toBeGreaterThan(0);
    expect(numbersWithoutUnit(data)).toEqual([]);
  });

  it('names file and line of what it cannot read, and the remedy in the dark', async () => {
    const bad = file('bad.csv', 'time,battery voltage (V)\nnoon,15.2\n');
    const unreadable = await measure('--readings', bad);
    expect(unreadable.code).toBe(1);
    expect(unreadable.err).toContain(`${bad}: line 2`);
    const dark = await measure('--time', '2026-06-21T01:00+02:00', '--volts', '15.2 V', '--amps', '1 A');
    expect(dark.code).toBe(1);
    expect(dark.err).toContain('offset from UTC');
  });

  it('refuses wrong usage', async () => {
    expect((await runCli(['measure', 'motor', example('alondra')])).code).toBe(2);
    expect((await measure('--amps', '2 A')).code).toBe(2);
    expect((await measure(...noon, '--amps', '2 W')).code).toBe(2);
  });
});
