import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { example, numbersWithoutUnit, repository, runCli } from './testing/run-cli.js';

const dayOf = (name: string, ...more: readonly string[]) =>
  runCli([
    ...['day', example(name), '--at', '40.7,0.9', '--date', '2026-06-21', '--samples', '8', '--no-limits'],
    ...more,
  ]);

interface DayJson {
  readonly canFly: boolean;
  readonly clock: string;
  readonly notes: readonly string[];
  readonly problems: readonly { readonly code: string; readonly remedy: string }[];
  readonly levelPower: { readonly value: number; readonly parts: readonly { readonly value: number }[] };
  readonly skies: readonly {
    readonly sky: string;
    readonly finding: string;
    readonly carried: boolean;
    readonly confidence: { readonly value: number };
    readonly window?: { readonly start: { readonly time: string }; readonly end: { readonly time: string } };
    readonly limits: readonly string[];
  }[];
}

const dayJson = async (name: string, ...more: readonly string[]): Promise<DayJson> => {
  const { code, out } = await dayOf(name, '--json', ...more);
  expect(code).toBe(0);
  return JSON.parse(out) as DayJson;
};

describe('day', () => {
  it('says in words, before any number, from when to when each sky carries the demo aircraft', async () => {
    const { code, out } = await dayOf('alondra');
    expect(code).toBe(0);
    expect(out).toMatch(/^Alondra\n.*Sunday 21 June 2026, clock UTC\+02:00/);
    expect(out).toMatch(/clear: carried \d\d:\d\d to \d\d:\d\d \(each about ± \d+ min\), /);
    expect(out.indexOf('clear: carried')).toBeLessThan(out.indexOf('The day in numbers'));
    for (const words of [
      'excess time',
      'charge margin',
      'minimum state of charge',
      'Take care:',
      'values are only assumed',
    ]) {
      expect(out).toContain(words);
    }
    expect(out).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('gives every number of the JSON a unit, and the same window as the text', async () => {
    const data = await dayJson('alondra');
    expect(numbersWithoutUnit(data)).toEqual([]);
    expect(data.skies.map(({ sky }) => sky)).toEqual(['clear', 'thin cloud', 'broken cloud']);
    const [clear] = data.skies;
    const clock = (time: string) => time.slice(11, 16);
    expect(clear!.window!.start.time).toMatch(/^2026-06-21T\d\d:\d\d\+02:00$/);
    expect(clear!.finding).toContain(`${clock(clear!.window!.start.time)} to ${clock(clear!.window!.end.time)}`);
  });

  it('has parts of the level power that add up to it', async () => {
    const { levelPower } = await dayJson('vigilia');
    const sum = levelPower.parts.reduce((total, part) => total + part.value, 0);
    expect(sum).toBeCloseTo(levelPower.value, 9);
  });

  it('is sure or not at all without samples of the uncertainty', async () => {
    const { skies } = await dayJson('alondra', '--samples', '0');
    for (const { confidence } of skies) expect([0, 1]).toContain(confidence.value);
  });

  it('answers for a polar winter and names the reason', async () => {
    const { out, code } = await runCli([
      'day',
      example('alondra'),
      '--at',
      '80 N 15 E',
      '--date',
      '2026-12-21',
      '--samples',
      '0',
    ]);
    expect(code).toBe(0);
    expect(out).toContain('clear: not carried: the sun does not rise');
  });

  it('leaves out clock and weather of the plan where the place is another, and says so', async () => {
    const data = await dayJson('alondra', '--at', '-33.87 151.21');
    expect(data.clock).toBe('UTC+10:00');
    expect(data.notes.join(' ')).toContain('another place');
    expect((await dayJson('alondra')).notes).toEqual([]);
  });

  it('says how far the income falls short where nothing is carried', async () => {
    const { skies } = await dayJson('alondra', '--sky', 'overcast');
    expect(skies[0]!.carried).toBe(false);
    expect(skies[0]!.finding).toMatch(/income reaches at most \d+ % of need \(\d\d:\d\d\)/);
    expect(skies[0]!.limits.join(' ')).toMatch(/\d+ % more income, or \d+ % less power/);
  });

  it('lists stages with --trace', async () => {
    const { err } = await dayOf('alondra', '--trace');
    expect(err).toMatch(/trace: wing: ran/);
    expect(err).toMatch(/trace: flight: ran/);
  });

  it('refuses options that cannot be read, by their own names, as wrong usage', async () => {
    const cases: readonly (readonly [readonly string[], RegExp])[] = [
      [['--date', '21.06.2026'], /--date: found .*2026-06-21/],
      [['--at', '40,7'], /--at: found/],
      [['--charge', '120 %'], /--charge: found/],
      [['--height', '80'], /--height: .*unit/],
      [['--sky', 'claer'], /--sky: .*clear/],
      [['--samples', 'many'], /--samples: found "many"/],
    ];
    for (const [argv, expected] of cases) {
      const { code, err, out } = await runCli(['day', example('alondra'), ...argv]);
      expect(err, argv.join(' ')).toMatch(expected);
      expect([code, out]).toEqual([2, '']);
    }
  });

  it('reads a place with decimal commas as one with points', async () => {
    const comma = await dayJson('alondra', '--at', '40,7 N 0,9 E');
    const point = await dayJson('alondra', '--at', '40.7, 0.9');
    expect(comma).toEqual(point);
  });

  it('never crashes on any text behind an option', async () => {
    const option = fc.constantFrom(
      '--at',
      '--date',
      '--sky',
      '--charge',
      '--height',
      '--launch',
      '--zone',
      '--wind',
      '--days',
    );
    const text = fc.oneof(
      fc.string({ maxLength: 12 }),
      fc.constantFrom('-5', '1e400', '２', '±', 'NaN', '"', "'", '\n', ': x', '- a', '{', '0'),
    );
    await fc.assert(
      fc.asyncProperty(option, text, async (name, value) => {
        const { code, out } = await runCli(['day', example('alondra'), '--samples', '0', '--json', `${name}=${value}`]);
        expect([0, 2]).toContain(code);
        if (out !== '') expect(() => JSON.parse(out)).not.toThrow();
      }),
      { numRuns: 40 },
    );
  });
});

describe('the built program', () => {
  const bin = `${repository}apps/cli/bin/noonwing.js`;
  const built = existsSync(`${repository}apps/cli/dist/main.js`);

  it.skipIf(!built)('ends quietly when its reader stops early, and colours nothing in a pipe', () => {
    const piped = spawnSync('node', [bin, 'figure', '--list'], {
      encoding: 'utf8',
      env: { ...process.env, FORCE_COLOR: '1' },
    });
    expect(piped.status).toBe(0);
    expect(piped.stdout).toContain('propeller');
    expect(piped.stdout).not.toContain('\u001b');
    const early = spawnSync(
      'node',
      [
        '-e',
        `const c=require('child_process').spawn('node',['${bin}','schema']);c.stdout.once('data',()=>c.stdout.destroy());c.on('close',code=>process.exit(code??0))`,
      ],
      { encoding: 'utf8' },
    );
    expect([early.status, early.stderr]).toEqual([0, '']);
  });
});
