import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { example, numbersWithoutUnit, runCli } from './testing/run-cli.js';

const folder = mkdtempSync(join(tmpdir(), 'noonwing-section-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('section', () => {
  it('says the shape, and what a flat cell has to bridge', async () => {
    const { code, out } = await runCli(['section', 'NACA 3410', '--chord', '250mm', '--cell', '125mm']);
    expect(code).toBe(0);
    const text = out.replace(/\s+/g, ' ');
    expect(text).toMatch(/^NACA 3410 Thickness 10\.0 % of the chord at 30 %, camber 3\.0 % at 40 %/);
    expect(text).toContain('Flat cell of 125.0 mm on a chord of 250.0 mm');
    const data = JSON.parse((await runCli(['section', example('alondra'), '--json'])).out);
    expect(numbersWithoutUnit(data)).toEqual([]);
    expect(data.roundest.bulge.value).toBeGreaterThan(data.flattest.bulge.value);
  });

  it('lists the library, and knows each of its names', async () => {
    const { code, out } = await runCli(['section', '--list']);
    expect(code).toBe(0);
    expect(out).toContain('flat cells 3');
    const data = JSON.parse((await runCli(['section', '--list', '--json'])).out);
    expect(numbersWithoutUnit(data)).toEqual([]);
    for (const { write } of data.sections) expect((await runCli(['section', write])).out.split('\n')[0]).toBe(write);
    expect((await runCli(['section'])).code).toBe(2);
  });

  it('lays out flats, writes points that are read again, and is honest about the gain', async () => {
    const [points, picture] = [join(folder, 'flat.dat'), join(folder, 'flat.svg')];
    const argv = ['section', 'NACA 3410', '--flats', '--tries', '4', '--reynolds', '200000'];
    const { code, out } = await runCli([...argv, '--out', points, '--picture', picture]);
    expect(code).toBe(0);
    const text = out.replace(/\s+/g, ' ');
    expect(text).toMatch(/At lift 0\.60 and Reynolds number 200000 it has (\d+ % (less|more)|the same) drag/);
    expect(text).toContain('compared with no measurement');
    expect(readFileSync(picture, 'utf8')).toMatch(/^<svg /);
    const again = await runCli(['section', points]);
    expect(again.code).toBe(0);
    const data = JSON.parse((await runCli([...argv, '--json'])).out);
    expect(numbersWithoutUnit(data)).toEqual([]);
    // Four tries may find nothing better: the same shape is then solved twice, to the tolerance of the solver, 1e-4.
    expect(data.designedDrag.value).toBeLessThanOrEqual((1 + 1e-4) * data.naiveDrag.value);
    expect(again.out).toContain(`Thickness ${(100 * data.thickness.value).toFixed(1)} %`);
  }, 60_000);

  it('refuses what it cannot use, with the reason', async () => {
    const cases: readonly (readonly [number, string, ...string[]])[] = [
      [2, 'expected a width such as 62mm', 'NACA 3410', '--cell', 'wide'],
      [2, 'expected a moment coefficient', 'NACA 3410', '--flats', '--moment', '3'],
      [1, 'do not lie on it', 'NACA 3410', '--flats', '--cell', '125mm', '--count', '2'],
      [1, 'no such file', 'nothing.dat'],
    ];
    for (const [wanted, words, ...argv] of cases) {
      const { code, err } = await runCli(['section', ...argv]);
      expect(code, argv.join(' ')).toBe(wanted);
      expect(err).toContain(words);
    }
  });
});
