import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { example, numbersWithoutUnit, runCli } from './testing/run-cli.js';

const folder = mkdtempSync(join(tmpdir(), 'noonwing-wiring-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('wiring', () => {
  it('says wires, fuses, compass and order, and draws it', async () => {
    const path = join(folder, 'wiring.svg');
    const { code, out } = await runCli(['wiring', example('vigilia'), '--out', path]);
    expect(code).toBe(0);
    expect(out).toMatch(/The wires lose \d/);
    for (const words of ['AWG', 'fuse', 'autopilot', 'microtesla', 'cells covered', 'always live']) {
      expect(out).toContain(words);
    }
    const svg = readFileSync(path, 'utf8');
    expect(svg).toMatch(/^<svg [^>]*xmlns=/);
    expect(svg).toContain('isolator');
  });

  it('gives programs every number with its unit', async () => {
    const { code, out } = await runCli(['wiring', example('alondra'), '--json']);
    expect(code).toBe(0);
    expect(numbersWithoutUnit(JSON.parse(out))).toEqual([]);
  });

  it('says where it cannot write', async () => {
    const { code, err } = await runCli(['wiring', example('alondra'), '--out', join(folder, 'no', 'such.svg')]);
    expect(code).toBe(1);
    expect(err).toContain('there is no folder');
  });
});
