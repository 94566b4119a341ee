import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { example, numbersWithoutUnit, runCli } from './testing/run-cli.js';

const folder = mkdtempSync(join(tmpdir(), 'noonwing-array-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('array', () => {
  it('draws every cell of the day, with its string and the fins', async () => {
    const path = join(folder, 'cells.svg');
    const { code, out } = await runCli(['array', example('bandeja'), '--picture', path]);
    expect(code).toBe(0);
    expect(out).toContain('24 cells');
    const svg = readFileSync(path, 'utf8');
    expect(svg).toContain('Wh of energy in the mean of 24');
    expect(svg).toContain('plank, from above');
  });

  it('says what cells and strings do at an hour, and draws their light', async () => {
    const path = join(folder, 'now.svg');
    const { code, out } = await runCli([
      'array',
      example('bandeja'),
      ...['--hour', '10:30', '--heading', '90 deg', '--picture', path],
    ]);
    expect(code).toBe(0);
    expect(out).toContain('At 10:30, heading 90 deg:');
    expect(out).toContain('what limits it');
    expect(readFileSync(path, 'utf8')).toContain('W/m2 of light');
  });

  it('at night says that the cells are dark', async () => {
    const { out } = await runCli(['array', example('alondra'), '--hour', '01:00']);
    expect(out).toContain('the cells are dark');
  });

  it('gives programs every number with its unit', async () => {
    const { code, out } = await runCli(['array', example('alondra'), '--hour', '12:00', '--json']);
    expect(code).toBe(0);
    expect(numbersWithoutUnit(JSON.parse(out).instant.cells)).toEqual([]);
  });

  it.each([
    [['--hour', 'noon'], '--hour: found "noon"'],
    [['--hour', '12:00', '--heading', 'east'], '--heading: found "east"'],
    [['--picture', join(folder, 'no', 'such.svg')], 'there is no folder'],
  ])('refuses %s with what was expected', async (options, words) => {
    const { code, err } = await runCli(['array', example('alondra'), ...options]);
    expect(code).not.toBe(0);
    expect(err).toContain(words);
  });

  it('adds the wiring in few lines, and every number of it with its unit', async () => {
    const { out } = await runCli(['array', example('bandeja'), '--wiring']);
    expect(out).toContain('always live');
    expect(out).toContain('noonwing wiring');
    const { out: data } = await runCli(['array', example('bandeja'), '--wiring', '--json']);
    expect(numbersWithoutUnit(JSON.parse(data).wiring)).toEqual([]);
  });
});
