import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { messageText, parsePath, pathText } from './document/message.js';
import {
  describeDayPlanKey,
  describeDesignKey,
  readDayPlan,
  readDesign,
  writeDayPlan,
  writeDesign,
} from './read-files.js';

const examples = new URL('../../../examples/', import.meta.url);
const example = (name: string) => readFileSync(new URL(name, examples), 'utf8');

const SMALL = `noonwing: design 1
name: Small
level power: 16 W ± 2 W
`;

const WING = `noonwing: design 1
name: Wing
surfaces:
  wing:
    role: wing
    stations:
      - {y: 0 mm, chord: 240 mm}
      - {y: 600 mm, chord: 220 mm}
      - {y: 1200 mm, chord: 160 mm}
battery:
  layout: 3S2P
  x: 60 mm
array:
  rows:
    top: {on: wing, cells: 12}
  strings:
    all: {rows: [top]}
`;

const only = (text: string) => {
  const { messages: all, ok } = readDesign(text);
  const messages = all.filter((message) => message.severity === 'error');
  expect(ok).toBe(false);
  expect(messages.map((message) => messageText(message))).toHaveLength(1);
  return messages[0]!;
};

describe('a design file', () => {
  it('needs no airframe where the level power is stated', () => {
    const { ok, design, messages } = readDesign(SMALL);
    expect(messages).toEqual([]);
    expect(ok).toBe(true);
    expect(design?.levelPower?.power).toEqual({ value: 16, sigma: 2, source: 'stated' });
  });

  it('takes a level power that was measured in place of a stated one, and a record switched off does not count', () => {
    const measured = 'noonwing: design 1\nname: a\nmeasured:\n  - {what: level power, power: 12 W}\n';
    expect(readDesign(measured).ok).toBe(true);
    expect(readDesign(measured.replace('12 W}', '12 W, use: no}')).ok).toBe(false);
  });

  it('says where a number comes from', () => {
    const { design } = readDesign(
      `${SMALL}masses:\n  a: 12 g weighed\n  b: 12 g (assumed)\n  c: 12 g\n  d: 12 g ± 1 g measured\n`,
    );
    expect(Object.values(design?.masses ?? {}).map((item) => item.mass.source)).toEqual([
      'measured',
      'assumed',
      'stated',
      'measured',
    ]);
  });

  it('reads keys with hyphens, underscores and capitals', () => {
    const { design, messages } = readDesign(
      `${SMALL}drive:\n  motor: {speed constant: 900 rpm/V, No-Load_Current: 0.6 A}\n`,
    );
    expect(messages).toEqual([]);
    expect(design?.drive?.motor?.noLoadCurrent?.value).toBe(0.6);
  });

  it('accepts no battery and no cells, said or not', () => {
    expect(readDesign(`${SMALL}battery: none\narray: none\n`).ok).toBe(true);
  });

  it('reads CRLF and a byte order mark', () => {
    expect(readDesign(`\ufeff${SMALL.replaceAll('\n', '\r\n')}`).ok).toBe(true);
  });
});

describe('messages', () => {
  it('a misspelt key: line, column, path, nearest key', () => {
    expect(only(WING.replace('layout', 'layuot'))).toMatchObject({
      line: 11,
      column: 3,
      path: 'battery.layuot',
      hint: 'did you mean "layout"?',
    });
  });

  it('a missing unit', () => {
    const message = only(WING.replace('x: 60 mm', 'x: 60'));
    expect(message).toMatchObject({ line: 12, path: 'battery.x', found: '"60"' });
    expect(message.hint).toContain('"60 mm"');
  });

  it('a unit of another kind, at its column', () => {
    expect(only(WING.replace('x: 60 mm', 'x: 60 g'))).toMatchObject({
      line: 12,
      column: 9,
      hint: 'g is a unit of mass',
    });
  });

  it('a negative chord', () => {
    expect(only(WING.replace('220 mm', '-220 mm'))).toMatchObject({
      line: 8,
      path: 'surfaces.wing.stations[2].chord',
      found: '"-220 mm"',
      hint: 'the value must be above 0',
    });
  });

  it('crossed stations', () => {
    const message = only(WING.replace('y: 1200 mm', 'y: 500 mm'));
    expect(message).toMatchObject({ line: 9, path: 'surfaces.wing.stations[3].y', found: '500 mm' });
    expect(message.expected).toContain('600 mm');
  });

  it('an ambiguous number with both readings', () => {
    expect(only(`${WING}all up mass: 1,500 g\n`).hint).toMatch(/1500 g.*1\.5 g/);
  });

  it('a name of a part that does not exist, with the nearest', () => {
    expect(only(WING.replace('on: wing', 'on: wign'))).toMatchObject({
      path: 'array.rows.top.on',
      hint: 'did you mean "wing"?',
    });
    expect(only(WING.replace('rows: [top]', 'rows: [tip]'))).toMatchObject({ path: 'array.strings.all.rows[1]' });
  });

  it('a decimal comma inside brackets, which YAML takes for the next key', () => {
    const { messages } = readDesign(`${SMALL}masses:\n  a: {mass: 1,5 kg, x: 0 mm}\n`);
    expect(messages.map((message) => message.hint).join()).toContain('inside { } a comma separates keys');
    expect(readDesign(`${SMALL}masses:\n  a: {mass: "1,5 kg", x: 0 mm}\n`).design?.masses?.a?.mass.value).toBe(1.5);
  });

  it('strings that do not split evenly', () => {
    expect(only(WING.replace('{rows: [top]}', '{rows: [top], parallel: 5}')).hint).toContain('leave out 2 or add 3');
  });

  it('a part of the library that does not exist', () => {
    expect(only(WING.replace('layout: 3S2P', 'cell: lithium-iom 18650 3.4 Ah')).hint).toBe(
      'did you mean "lithium-ion 18650 3.4 Ah"?',
    );
  });

  it('a missing key, an empty value, a list in place of a value', () => {
    expect(only(SMALL.replace('name: Small\n', '')).path).toBe('name');
    expect(only(SMALL.replace('16 W ± 2 W', '')).found).toBe('nothing');
    expect(only(SMALL.replace('16 W ± 2 W', '[16 W]')).found).toBe('a list');
  });

  it('stations by share of a span that is not given, and both places at once', () => {
    const shares = WING.replace('y: 600 mm', 'span share: 50 %').replace('y: 1200 mm', 'span share: 100 %');
    expect(only(shares).hint).toContain('span');
    expect(readDesign(shares.replace('role: wing', 'role: wing\n    span: 2.4 m')).ok).toBe(true);
    expect(only(WING.replace('y: 600 mm', 'y: 600 mm, span share: 50 %')).found).toBe('y and span share');
  });

  it('nothing to compute the level power from', () => {
    expect(only('noonwing: design 1\nname: a\n').hint).toContain('level power');
  });

  it('several at once, in the order of the file', () => {
    const { messages } = readDesign(
      WING.replace('240 mm', '240').replace('x: 60 mm', 'x: 60').replace('cells: 12', 'cells: many'),
    );
    expect(messages.map((message) => message.line)).toEqual([7, 12, 15]);
  });
});

describe('files that are something else', () => {
  it.each([
    ['', 'an empty file'],
    ['  \n', 'an empty file'],
    ['\u0000\u0001\u0002PNG', 'a binary file'],
    ['\ufffd\ufffd\ufffd\ufffd', 'a binary file'],
    ['# only a comment\n', ''],
    ['name: a\n', 'no line that says what the file is'],
    ['noonwing: 1\n', '"1"'],
    ['noonwing: design 2\n', 'version 2'],
    ['noonwing: day 1\n', 'a day plan'],
    ['- a\n- b\n', 'no line that says what the file is'],
    ['noonwing: design 1\nname: a\nname: b\n', '"name: b"'],
    ['noonwing: design 1\n\tname: a\n', ''],
    ['noonwing: design 1\nname: &a b\nnotes: *a\n', '&a'],
    ['noonwing: design 1\nname: !!binary aGk=\n', 'tag:yaml.org,2002:binary'],
    ['%YAML 1.1\n---\nnoonwing: design 1\nname: !!set {a, b}\n', 'tag:yaml.org,2002:set'],
    ['noonwing: design 1\n---\nname: b\n', 'a second document'],
    ['name: [', ''],
    ['{'.repeat(20000), ''],
    [`noonwing: design 1\nname: ${'x'.repeat(5_000_000)}`, '5000025 characters'],
  ])('%#', (text, found) => {
    const { ok, messages } = readDesign(text);
    expect(ok).toBe(false);
    expect(messages).toHaveLength(1);
    if (found !== '') expect(messages[0]!.found).toBe(found);
    expect(messages[0]!.expected).not.toBe('');
  });

  it('a file that names YAML 1.1 is read like every other: a date or a time stays what is written', () => {
    const names = ['2001-12-14', '1:30', '0o7', 'yes'].map(
      (name) => readDesign(`%YAML 1.1\n---\nnoonwing: design 1\nname: ${name}\n`).design?.name,
    );
    expect(names).toEqual(['2001-12-14', '1:30', '0o7', 'yes']);
    expect(readDesign('noonwing: design 1\nname: !!str 5\n').design?.name).toBe('5');
  });

  it('a newer version asks for a newer program', () => {
    expect(readDesign('noonwing: design 7\nanything: else\n').messages[0]!.hint).toContain('newer noonwing');
    expect(readDayPlan('noonwing: day 2\n').messages[0]!.hint).toContain('newer noonwing');
  });

  it('names that would change what an object is are refused', () => {
    const { ok, design } = readDesign(`${SMALL}masses:\n  __proto__: 1 g\n  constructor: 1 g\n`);
    expect(ok).toBe(false);
    expect(Object.keys(design?.masses ?? {})).toEqual([]);
  });
});

describe('the reader under fuzz', () => {
  const text = example('alondra.yaml');
  const scrap = fc.constantFrom(
    '',
    ':',
    '- ',
    '  ',
    '\n',
    '{',
    '}',
    '[',
    ']',
    '"',
    "'",
    '|',
    '&a',
    '*a',
    '#',
    '1',
    ' mm',
    '±',
    '\t',
    '!!x',
    'null',
    '~',
    '%',
    '\0',
  );

  it('never throws on any text, and says something where it refuses', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(scrap).map((parts) => `noonwing: design 1\n${parts.join('')}`),
        ),
        (any) => {
          for (const result of [readDesign(any), readDayPlan(any)])
            if (!result.ok) expect(result.messages.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 500 },
    );
  });

  it('never throws on a damaged design, and every message lies in the file', () => {
    const lines = text.split('\n').length;
    fc.assert(
      fc.property(fc.nat(text.length), fc.nat(12), scrap, (at, length, put) => {
        const { ok, messages } = readDesign(text.slice(0, at) + put + text.slice(at + length));
        expect(ok || messages.length > 0).toBe(true);
        for (const message of messages) {
          expect(message.line).toBeGreaterThan(0);
          expect(message.line).toBeLessThanOrEqual(lines + 1);
          expect(message.column).toBeGreaterThan(0);
        }
      }),
      { numRuns: 250 },
    );
  });
});

describe('examples', () => {
  const names = readdirSync(examples).filter((name) => name.endsWith('.yaml'));
  it.each(names.filter((name) => !name.includes('.day.')))(
    '%s is read without a word, and again after it was written',
    (name) => {
      const first = readDesign(example(name));
      expect(first.messages).toEqual([]);
      const again = readDesign(writeDesign(first.design!));
      expect(again.messages).toEqual([]);
      expect(rounded(again.design)).toEqual(rounded(first.design));
    },
  );

  it.each(names.filter((name) => name.includes('.day.')))('%s likewise', (name) => {
    const first = readDayPlan(example(name));
    expect(first.messages).toEqual([]);
    const again = readDayPlan(writeDayPlan(first.plan!));
    expect(again.messages).toEqual([]);
    expect(rounded(again.plan)).toEqual(rounded(first.plan));
  });
});

/** Written digits end at 1e-12 of a value. */
const rounded = (data: unknown) =>
  JSON.parse(JSON.stringify(data), (_key, value) => (typeof value === 'number' ? Number(value.toPrecision(3)) : value));

describe('a day plan', () => {
  const plan = 'noonwing: day 1\nplace: 40,7 N 0,9 E\ndate: 2026-06-21\n';
  it('needs place and date only', () => {
    const { plan: read } = readDayPlan(plan);
    expect(read?.place.at.latitude).toBeCloseTo(0.71035, 5);
    expect(read?.date).toEqual({ year: 2026, month: 6, day: 21 });
  });

  it.each([
    ['landing: 08:00\nlaunch: 09:00', 'landing'],
    ['time zone: Europe/Madird', 'time zone'],
    ['sky: cloudy', 'sky'],
    ['charge at launch: 120 %', 'charge at launch'],
    ['date: 2026-06-22', ''],
    ['launch: 9', 'launch'],
    ['wind: 3', 'wind'],
  ])('%s', (line, path) => {
    const { ok, messages } = readDayPlan(`${plan}${line}\n`);
    expect(ok).toBe(false);
    expect(messages[0]!.path).toBe(path);
  });

  it('takes sunrise or a time as launch', () => {
    expect(readDayPlan(`${plan}launch: sunrise\n`).plan?.launch).toBe('sunrise');
    expect(readDayPlan(`${plan}launch: 08:30\n`).plan?.launch).toBe(30600);
  });
});

describe('descriptions of keys', () => {
  it('give kind, units, step and choices', () => {
    expect(describeDesignKey('battery.x')).toMatchObject({ kinds: ['length'], step: '5 mm' });
    expect(describeDesignKey('surfaces.wing.stations[2].chord')).toMatchObject({ kinds: ['length'], step: '10 mm' });
    expect(describeDesignKey('masses.spar.mass')?.kinds).toEqual(['mass']);
    expect(describeDesignKey('masses.spar')?.kinds).toEqual(['mass']);
    expect(describeDesignKey('array.cell')?.choices).toContain('back-contact 125 mm');
    expect(describeDesignKey('flight.airspeed')).toMatchObject({ kinds: ['speed'], choices: ['least power'] });
    expect(describeDesignKey('drive.motor.no-load current')?.units).toContain('A');
    expect(describeDesignKey('measured[1].power')?.kinds).toEqual(['power']);
    expect(describeDesignKey('')?.keys).toContain('battery');
    expect(describeDesignKey('battery.xx')).toBeUndefined();
    expect(describeDayPlanKey('wind.gusts')?.kinds).toEqual(['speed']);
  });
});

describe('paths', () => {
  it('read back as written', () => {
    const step = fc.oneof(fc.stringMatching(/^[a-z][a-z ]{0,8}[a-z]$/), fc.nat(50));
    fc.assert(
      fc.property(fc.stringMatching(/^[a-z]{1,8}$/), fc.array(step, { maxLength: 5 }), (first, rest) => {
        const path = [first, ...rest];
        expect(parsePath(pathText(path))).toEqual(path);
      }),
    );
  });
});
