import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { example, numbersWithoutUnit, runCli } from './testing/run-cli.js';

const folder = mkdtempSync(join(tmpdir(), 'noonwing-polar-'));
const examplePolars = join(dirname(example('alondra')), 'polars.json');
afterAll(() => rmSync(folder, { recursive: true }));

describe('polar', () => {
  it('says the finding in words, then the table, and draws it', async () => {
    const path = join(folder, 'polar.svg');
    const { code, out } = await runCli(['polar', 'NACA 3410', '--reynolds', '200000', '--picture', path]);
    expect(code).toBe(0);
    expect(out).toMatch(/^NACA 3410 at Reynolds number 200000/);
    for (const words of ['At lift 0.60', 'greatest lift', 'laminar to', 'incidence']) expect(out).toContain(words);
    expect(readFileSync(path, 'utf8')).toMatch(/^<svg /);
  });

  it('says first what cells cost, and gives programs every number with its unit', async () => {
    const options = ['polar', example('alondra'), '--reynolds', '150000', '--cells', '10%..80%'];
    const text = await runCli(options);
    expect(text.code).toBe(0);
    expect(text.out.split('\n')[1]).toMatch(/^Covering it with cells (costs|saves)/);
    const data = JSON.parse((await runCli([...options, '--json'])).out);
    expect(numbersWithoutUnit(data)).toEqual([]);
    expect(data.covered.dragRatio.value).toBeGreaterThan(0.7);
    expect(data.covered.dragRatio.value).toBeLessThan(2);
  });

  it('refuses what it cannot use, with the reason', async () => {
    const cases: readonly (readonly [number, string, ...string[]])[] = [
      [2, 'expected a number from 30000', 'NACA 3410', '--reynolds', '12'],
      [2, 'expected quiet tunnel', 'NACA 3410', '--air', 'stormy'],
      [2, 'expected a stretch of the chord', 'NACA 3410', '--cells', 'all'],
      [1, 'no such file', 'nothing.dat'],
    ];
    for (const [wanted, words, ...argv] of cases) {
      const { code, err } = await runCli(['polar', ...argv]);
      expect(code, argv.join(' ')).toBe(wanted);
      expect(err).toContain(words);
    }
  });

  it('lays measured points over the computed polar, in words, numbers and a drawing', async () => {
    const points = join(folder, 'points.csv');
    const picture = join(folder, 'measured.svg');
    const rows = [0, 2, 4, 6].map((degrees) => `200000,${degrees},${(0.4 + 0.1 * degrees).toFixed(2)},0.03`);
    writeFileSync(points, `# own wind tunnel\nReynolds number,incidence (deg),lift,drag\n${rows.join('\n')}\n`);
    const { code, out } = await runCli(['polar', 'NACA 3410', '--measured', points, '--picture', picture]);
    expect(code).toBe(0);
    expect(out).toMatch(
      /Measured at Reynolds number 200000: drag at equal lift \d+ % more\s+in the median of 4 points/,
    );
    expect(readFileSync(picture, 'utf8')).toContain('measured');
    const data = JSON.parse((await runCli(['polar', 'NACA 3410', '--measured', points, '--json'])).out);
    expect(numbersWithoutUnit(data)).toEqual([]);
    expect(data.measured[0].medianDragRatio.value).toBeGreaterThan(2);
    writeFileSync(points, 'Reynolds number,incidence (deg),lift,drag\n200000,2,high,0.01\n');
    const refused = await runCli(['polar', 'NACA 3410', '--measured', points]);
    expect(refused.code).toBe(1);
    expect(refused.err).toContain('line 2, column "lift": "high" was found, where a lift coefficient');
  });

  it('answers for a plate by its own formulas, with their bands, and never by the solver that does not apply', async () => {
    const words = await runCli(['polar', example('bandeja'), '--lift', '0.3', '--cells', '10%..80%']);
    expect(words.code).toBe(0);
    expect(words.out).toMatch(/Covering it with cells costs [78] % of its drag at lift 0\.30/);
    expect(words.out).toMatch(/greatest lift 0\.[45]\d \(0\.[45]\d to 0\.6\d\)/);
    expect(words.out).not.toContain('laminar above');
    const data = JSON.parse((await runCli(['polar', example('bandeja'), '--lift', '0.3', '--json'])).out);
    expect(data.basis).toBe('plate formulas');
    expect(data.designPoint.drag.high / data.designPoint.drag.low).toBeGreaterThan(2);
    const beyond = await runCli(['polar', example('bandeja')]);
    expect(beyond.out).toContain('It stalls before it reaches lift 0.60');
  });

  it('leaves plates to the first estimate in a store, and keeps what a store holds', async () => {
    const path = join(folder, 'polars.json');
    const plates = await runCli(['polar', example('bandeja'), '--store', path]);
    expect(plates.code).toBe(0);
    expect(plates.out).toContain('Left to the first estimate');
    writeFileSync(path, readFileSync(examplePolars, 'utf8'));
    const known = await runCli(['polar', example('alondra'), '--store', path]);
    expect(known.out).toMatch(/^In the store already: NACA 3410/);
    expect(readFileSync(path, 'utf8')).toBe(readFileSync(examplePolars, 'utf8'));
  });

  it('keeps measured points with the polars of a store, also when it is added to again', async () => {
    const path = join(folder, 'measured.json');
    const points = join(folder, 'kept.csv');
    writeFileSync(path, readFileSync(examplePolars, 'utf8'));
    writeFileSync(points, 'Reynolds number,lift,drag\n120000,0.4,0.03\n120000,0.9,0.04\n');
    const added = await runCli(['polar', example('alondra'), '--store', path, '--measured', points]);
    expect(added.out).toContain('Measured: 2 points are kept for NACA 3410');
    await runCli(['polar', example('alondra'), '--store', path]);
    const { out } = await runCli(['day', example('alondra'), '--samples', '0', '--polars', path]);
    expect(out.replace(/\s+/g, ' ')).toContain(`${points} at Reynolds numbers 120 thousand`);
    // Points alone, as the page keeps them, lie over the polars that come with the program.
    const alone = join(folder, 'alone');
    mkdirSync(alone);
    const whole = JSON.parse(readFileSync(path, 'utf8')) as Record<string, unknown>;
    writeFileSync(join(alone, 'polars.json'), JSON.stringify({ ...whole, sections: {}, controls: {} }));
    const own = join(alone, 'alondra.yaml');
    writeFileSync(own, readFileSync(example('alondra'), 'utf8'));
    const plan = example('alondra').replace('.yaml', '.day.yaml');
    const beside = await runCli(['day', own, '--plan', plan, '--samples', '0']);
    const words = beside.out.replace(/\s+/g, ' ');
    expect(words).toContain('Sections: computed, from the polars that come with noonwing (wing: NACA 3410');
    expect(words).toContain(`${points} at Reynolds numbers 120 thousand`);
  });

  it('are taken from beside the design by every command, which says so; --polars and --no-polars override', async () => {
    for (const name of ['alondra', 'vigilia']) {
      const { code, out } = await runCli(['day', example(name), '--samples', '0']);
      expect(code).toBe(0);
      expect(out).toContain('Sections: computed, from');
      expect(out).not.toContain('first estimate');
    }
    const { out } = await runCli(['power', example('alondra'), '--samples', '0', '--no-polars']);
    expect(out).toContain('Sections: first estimate, as --no-polars asks.');
    const plates = await runCli(['power', example('bandeja'), '--samples', '0', '--polars', examplePolars]);
    expect(plates.out).toContain('beyond the computation');
    const refused = await runCli(['day', example('alondra'), '--polars', example('alondra')]);
    expect(refused.code).toBe(1);
    expect(refused.err).toContain('not a store of computed polars');
  });

  it('are used for what the store holds, and the rest is named', async () => {
    const path = join(folder, 'part.json');
    const whole = JSON.parse(readFileSync(examplePolars, 'utf8')) as { sections: Record<string, { name: string }> };
    const sections = Object.entries(whole.sections).filter(([, { name }]) => name !== 'NACA 0007');
    writeFileSync(path, JSON.stringify({ ...whole, sections: Object.fromEntries(sections) }));
    const { out } = await runCli(['day', example('alondra'), '--samples', '0', '--polars', path]);
    const words = out.replace(/\s+/g, ' ');
    expect(words).toContain('first estimate for tailplane, fin: NACA 0007;');
    expect(words).toContain('tailplane: NACA 0007: the first estimate is used, beside computed sections');
    const data = JSON.parse(
      (await runCli(['day', example('alondra'), '--samples', '0', '--polars', path, '--json'])).out,
    );
    expect(data.sections.map(({ basis }: { basis: string }) => basis)).toEqual([
      'computed',
      'not computed',
      'not computed',
    ]);
  });

  it('come with the program for the sections that a new design begins with; what is missing says how it is had', async () => {
    const own = join(folder, 'own');
    mkdirSync(own);
    const path = join(own, 'my.yaml');
    const text = readFileSync(example('alondra'), 'utf8');
    const day = ['--samples', '0', '--plan', example('alondra').replace('.yaml', '.day.yaml')];
    writeFileSync(path, text);
    const known = await runCli(['power', path, ...day]);
    expect(known.out.replace(/\s+/g, ' ')).toContain(
      'Sections: computed, from the polars that come with noonwing (wing: NACA',
    );
    writeFileSync(path, text.replaceAll('NACA 3410', 'NACA 3409'));
    const partly = await runCli(['power', path, ...day]);
    // Bare and tripped at three stations, 4 s each; those of the tail are known.
    expect(partly.out.replace(/\s+/g, ' ')).toMatch(
      /first estimate for wing: NACA 3409; '[^']+' computes them, about 16 s\./,
    );
    const stored = await runCli(['polar', 'NACA 2411', '--store', join(own, 'polars.json')]);
    expect(stored.out).toMatch(/^Copied from the polars that come with noonwing: NACA 2411/);
    expect(stored.out).not.toContain('Computed');
  });
});
