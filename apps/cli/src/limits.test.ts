import { describe, expect, it } from 'vitest';
import { example, numbersWithoutUnit, runCli } from './testing/run-cli.js';

describe('limits', () => {
  it('begin with the limit speed and its reason, and end with cautions', async () => {
    const { code, out } = await runCli(['limits', example('bandeja')]);
    expect(code).toBe(0);
    const lines = out.split('\n');
    expect(lines[0]).toBe('Bandeja');
    expect(lines[1]).toMatch(/^Limit speed \d+\.\d m\/s: the wing twists/);
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /above its limit: the \d+\.\d m\/s flown are \d\.\d times the limit speed\./,
    );
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /Parked in that sun its top comes to \d+ C, where .* foam keeps \d+ % of its stiffness/,
    );
    expect(out).not.toContain('assumed: plank');
    expect(out).toContain('plank: as the design describes it');
    expect(out).toMatch(/Thrown by hand to \d\.\d m\/s within 1\.2 m/);
    expect(out).toContain('an estimate');
    expect(out).toContain('Follow the rules of your club');
    expect(out).not.toMatch(/\b(?:legal|safe)\b/i);
  });

  it('give JSON in which every number has a unit', async () => {
    const { code, out } = await runCli(['limits', example('bandeja'), '--json']);
    expect(code).toBe(0);
    const data = JSON.parse(out);
    expect(numbersWithoutUnit(data)).toEqual([]);
    expect(data.limits.length).toBeGreaterThan(2);
    expect(data.limitSpeed.unit).toBe('m/s');
    expect(data.changes[0].name).toContain('glass');
  });

  it('stand below a day where they are asked for, and only there', async () => {
    const asked = await runCli(['day', example('bandeja'), '--samples', '0', '--limits']);
    expect(asked.out).toContain('Limit speed ');
    expect(asked.out).not.toContain('its structure is assumed');
    const plain = await runCli(['day', example('bandeja'), '--samples', '0']);
    expect(plain.out).toMatch(/Limit speed \d\.\d m\/s.*\n?.*roll controls/);
    expect(plain.out).toContain('flutter not looked at');
    const without = await runCli(['day', example('bandeja'), '--samples', '0', '--no-limits']);
    expect(without.out).not.toContain('imit speed');
  });

  it('are named where the drive cannot hold the airspeed that is wanted', async () => {
    const fast = await runCli(['limits', example('bandeja'), '--airspeed', '30 m/s']);
    expect(fast.out.replace(/\s+/g, ' ')).toContain('It cannot fly level as it is');
    expect(fast.out).not.toContain('m/s flown');
    const day = await runCli(['day', example('bandeja'), '--samples', '0', '--airspeed', '30 m/s']);
    expect(day.out).toContain('It cannot fly as described');
    expect(day.out).toMatch(/Limit speed \d\.\d m\/s in the noon sun, its top at \d+ C,\s+whatever drives it/);
  });

  it('are for aircraft only', async () => {
    expect((await runCli(['limits', example('nothing')])).code).toBe(1);
    expect((await runCli(['limits'])).code).toBe(2);
  });
});
