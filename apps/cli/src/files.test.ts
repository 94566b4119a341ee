import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { newDesignQuestions } from '@noonwing/design';
import { afterAll, describe, expect, it } from 'vitest';
import { example, numbersWithoutUnit, runCli } from './testing/run-cli.js';

const folder = mkdtempSync(join(tmpdir(), 'noonwing-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const file = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};

const alondra = readFileSync(example('alondra'), 'utf8');
const statedPower = `noonwing: design 1
name: Stated
all up mass: 1 kg
level power: 9 W
battery: {cell: lithium-ion 18650 3.4 Ah, layout: 3S1P}
array:
  cell: back-contact 125 mm
  rows:
    top: {on: wing, cells: 16}
`;

const commands = ['check', 'balance', 'power', 'day', 'levers', 'array', 'ledger'];
// One sky is enough where the weather is not what is tested, and a third of the work.
const place = ['--at', '40.7,0.9', '--date', '2026-06-21', '--sky', 'clear'];

describe('files that cannot be used', () => {
  const bad: readonly (readonly [string, string, RegExp])[] = [
    ['a missing file', join(folder, 'none.yaml'), /there is no such file/],
    ['a folder', folder, /this is a folder/],
    ['an empty file', file('empty.yaml', ''), /the file is empty/],
    [
      'a binary file',
      file(
        'image.yaml',
        Uint8Array.from({ length: 400 }, (_, i) => (i * 7) % 256),
      ),
      /not text/,
    ],
    ['a file that is too long', file('long.yaml', 'a: b\n'.repeat(900_000)), /too long/],
    ['no YAML', file('prose.yaml', 'noonwing: design 1\n  - {'), /prose\.yaml:\d+:\d+/],
    ['a day plan in place of a design', example('alondra.day'), /expected a design file/],
    ['a misspelt key', file('key.yaml', alondra.replace('chord: 230 mm', 'cord: 230 mm')), /key\.yaml:\d+:\d+ .*chord/],
    ['a missing unit', file('unit.yaml', alondra.replace('chord: 230 mm', 'chord: 230')), /unit/],
    ['a negative chord', file('sign.yaml', alondra.replace('chord: 230 mm', 'chord: -230 mm')), /chord.*-230 mm/],
    ['crossed stations', file('cross.yaml', alondra.replace('y: 720 mm', 'y: 1720 mm')), /stations/],
    ['a newer version', file('newer.yaml', alondra.replace('design 1', 'design 9')), /newer/],
  ];
  it.each(bad)('%s: one clear message and exit code 1 from every command', async (_what, path, message) => {
    for (const name of commands) {
      const { code, out, err } = await runCli([name, path, ...place]);
      expect([name, code]).toEqual([name, 1]);
      expect(out + err).toMatch(message);
      expect(out + err).not.toMatch(/\n\s+at /);
      const data = JSON.parse((await runCli([name, path, ...place, '--json'])).out);
      expect(data.ok).toBe(false);
      expect(numbersWithoutUnit(data)).toEqual([]);
    }
  });
});

describe('check', () => {
  it('lists what was assumed with its uncertainty, the strings, and battery cautions', async () => {
    const { code, out } = await runCli(['check', example('alondra')]);
    expect(code).toBe(0);
    expect(out).toMatch(/battery\.resistance\s+\d+ mohm ± \d+ mohm/);
    expect(out).toMatch(/16 cells in series.*suits the battery/);
    expect(out).toContain('spread');
  });

  it('has data with units', async () => {
    const { out } = await runCli(['check', example('bandeja'), '--json']);
    const data = JSON.parse(out);
    expect(numbersWithoutUnit(data)).toEqual([]);
    expect(data.assumed.length).toBeGreaterThan(10);
  });

  it('needs no place', async () => {
    const alone = file('alone.yaml', alondra);
    const { code, out } = await runCli(['check', alone]);
    expect(code).toBe(0);
    expect(out).toContain('No place is stated');
    const day = await runCli(['day', alone]);
    expect([day.code, day.out]).toEqual([2, '']);
    expect(day.err).toContain('--at');
  });

  it('names a string that can never fit and what would', async () => {
    const wrong = file('string.yaml', alondra.replace('like: boost 80 W', 'topology: buck'));
    const { out } = await runCli(['check', wrong, ...place]);
    expect(out).toMatch(/never feed the battery/);
    expect(out).toMatch(/Nearest remedy: .*boost/);
  });
});

describe('an aircraft that cannot fly', () => {
  const moved = (x: string) => {
    const text = readFileSync(example('bandeja'), 'utf8');
    return text.replace(/(battery:[\s\S]*?\n {2}x: )-?[\d.]+ mm/, `$1${x}`);
  };

  it('is an answer: Bandeja with its battery moved back, with the grams that cure it', async () => {
    const back = file('back.yaml', moved('120 mm'));
    const { code, out } = await runCli(['day', back, ...place, '--samples', '0']);
    expect(code).toBe(0);
    expect(out).toContain('It cannot fly as described');
    expect(out.replace(/\s+/g, ' ')).toMatch(/Nearest remedy: [^.]*\d+ g of ballast/);
    expect(out).toMatch(/Mass .* g|Mass .* kg/);
    const data = JSON.parse((await runCli(['day', back, ...place, '--samples', '0', '--json'])).out);
    expect(data.canFly).toBe(false);
    expect(numbersWithoutUnit(data)).toEqual([]);
  });

  it('without a battery hears from when on the sun carries it', async () => {
    const path = file('none-battery.yaml', statedPower.replace(/battery:.*/, 'battery: none'));
    const { out } = await runCli(['day', path, ...place, '--launch', '04:40', '--samples', '0']);
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /the sun does not carry it; launched at \d\d:\d\d it would fly until \d\d:\d\d/,
    );
    expect(out).not.toMatch(/lowest charge|NaN|undefined/);
  });

  it('still says what the sun and the battery give, as text and as data', async () => {
    const weak = file('weak.yaml', alondra.replace('speed constant: 620', 'speed constant: 60'));
    const { out } = await runCli(['day', weak, ...place, '--samples', '0']);
    expect(out).toMatch(/The cells would give:\n +clear: up to \d+\.\d W/);
    const data = JSON.parse((await runCli(['day', weak, ...place, '--samples', '0', '--json'])).out);
    const able = JSON.parse((await runCli(['day', example('alondra'), ...place, '--samples', '0', '--json'])).out);
    const best = Math.max(...able.skies[0].course.income.values);
    // The file has no plan beside it, so other haze and ground, and no pitch: together a few per cent.
    expect(data.income[0].most.value / best).toBeCloseTo(1, 1);
    expect(numbersWithoutUnit(data)).toEqual([]);
  });

  it.each([
    ['too weak a drive', alondra.replace('speed constant: 620', 'speed constant: 60')],
    ['far too heavy', alondra.replace('wing:            {mass: 392 g', 'wing:            {mass: 39 kg')],
    ['no pitch control', alondra.replace('elevator: {kind: elevator', 'elevator: {kind: rudder')],
    [
      'a battery flattened at once',
      alondra
        .replace('x: -30 mm\n', 'x: -30 mm\n  capacity: 20 mAh\n')
        .replace('x: 20 mm\n', 'x: 20 mm\n  capacity: 20 mAh\n'),
    ],
    ['no cells', alondra.replace(/array:[\s\S]*?\n\n/, '')],
  ])('%s: every command still answers', async (name, text) => {
    const path = file(`${name.replaceAll(' ', '-')}.yaml`, text);
    // Levers run the whole day many times; an aircraft that cannot fly at all ends them at once.
    for (const command of name === 'far too heavy' ? commands : commands.filter((each) => each !== 'levers')) {
      const { code, out, err } = await runCli([command, path, ...place]);
      expect([name, command, code, err]).toEqual([name, command, 0, '']);
      expect(out).not.toMatch(/NaN|Infinity|undefined/);
    }
  });
});

describe('balance, power, ledger and levers', () => {
  it.each(['balance', 'power', 'array', 'ledger'])('%s: text and data', async (command) => {
    const text = await runCli([command, example('alondra'), ...place]);
    expect([text.code, text.err]).toEqual([0, '']);
    expect(text.out).not.toMatch(/NaN|Infinity|undefined/);
    const data = JSON.parse((await runCli([command, example('alondra'), ...place, '--json'])).out);
    expect(data.ok).toBe(true);
    expect(numbersWithoutUnit(data)).toEqual([]);
  });

  it('the ledger adds up to the light on the cells', async () => {
    const data = JSON.parse((await runCli(['ledger', example('alondra'), ...place, '--time', '10:00', '--json'])).out);
    const rows = data.rows as readonly { readonly power: { readonly value: number }; readonly partOf?: string }[];
    const sum = rows.filter(({ partOf }) => partOf === undefined).reduce((total, row) => total + row.power.value, 0);
    expect(sum).toBeCloseTo(data.light.value, 6);
  });

  it('a lever written out is a design file that gives what the lever promised', async () => {
    // A stated level power leaves few levers; those of whole airframes are tested where they are computed.
    const path = file('stated-power.yaml', statedPower);
    const text = await runCli(['levers', path, ...place]);
    expect([text.code, text.err]).toEqual([0, '']);
    expect(text.out).toMatch(/1 {2}\S.* \+\d+ min/);
    const list = JSON.parse((await runCli(['levers', path, ...place, '--json'])).out);
    expect(numbersWithoutUnit(list)).toEqual([]);
    const written = await runCli(['levers', path, ...place, '--write', '1']);
    const changed = file('lever.yaml', `${written.out}\n`);
    const day = JSON.parse((await runCli(['day', changed, ...place, '--samples', '0', '--json'])).out);
    expect(day.skies[0].timeCarried.value).toBeCloseTo(list.levers[0].after.timeCarried.value, 6);
    expect((await runCli(['levers', path, ...place, '--write', '99'])).code).toBe(2);
  });
});

describe('new', () => {
  it('asks, takes Enter for what is not known, writes two files and gives a verdict', async () => {
    const path = join(folder, 'asked.yaml');
    const answers = newDesignQuestions.map(({ key }) => (key === 'span' ? '2.2 m' : key === 'mass' ? 'unknown' : ''));
    const { code, out } = await runCli(['new', path], answers);
    expect(code).toBe(0);
    expect(out).toMatch(/clear: (?:not )?carried/);
    expect(readFileSync(path, 'utf8')).toMatch(/^noonwing: design 1/);
    expect((await runCli(['check', path])).code).toBe(0);
    const again = await runCli(['new', path, 'span=2m']);
    expect(again.code).toBe(1);
    expect(again.err).toContain('--force');
  });

  it('asks again after an answer that cannot be read', async () => {
    const { out, code } = await runCli(
      ['new', join(folder, 'again.yaml')],
      ['Lark', 'tailed', '2.2', '2.2 m', ...new Array<string>(11).fill('')],
    );
    expect(code).toBe(0);
    expect(out).toMatch(/found "2\.2".*unit/);
  });

  it('takes answers as key=value or from a file, and asks nothing then', async () => {
    const given = file('answers.yaml', 'span: 2 m   # of the wing\nmass: "900 g"\ncells: 14\n');
    const { code, out } = await runCli([
      'new',
      join(folder, 'given.yaml'),
      'battery=3S1P',
      '--answers',
      given,
      '--json',
    ]);
    expect(code).toBe(0);
    expect(numbersWithoutUnit(JSON.parse(out))).toEqual([]);
    const text = readFileSync(join(folder, 'given.yaml'), 'utf8');
    expect(text).toContain('900 g');
    expect(text).toContain('3S1P');
  });

  it('with a stated level power it needs no airframe answer at all', async () => {
    const { code, out } = await runCli(['new', join(folder, 'stated.yaml'), 'level power=9 W', 'cells=16']);
    expect(code).toBe(0);
    expect(out).toMatch(/carried/);
  });

  it('writes nothing when the input ends early or an answer is wrong', async () => {
    const early = await runCli(['new', join(folder, 'early.yaml')], ['Lark']);
    expect(early.code).toBe(1);
    const wrong = await runCli(['new', join(folder, 'wrong.yaml'), 'span=2']);
    expect(wrong.code).toBe(2);
    const unknown = await runCli(['new', join(folder, 'wrong.yaml'), 'spam=2m']);
    expect(unknown.err).toContain('did you mean "span"?');
    expect(() => readFileSync(join(folder, 'early.yaml'))).toThrow();
    expect(() => readFileSync(join(folder, 'wrong.yaml'))).toThrow();
  });
});
