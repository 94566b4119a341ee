import { existsSync, readFileSync } from 'node:fs';
import fastCheck from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseSectionCoordinates, writeSectionCoordinates } from './section-coordinates.js';
import { orderSectionPoints } from './section-outline.js';

/**
 * Half thickness of the NACA 0012 section, open trailing edge.
 * Source: Jacobs, Ward, Pinkerton, NACA TR 460, 1933.
 */
const half = (x: number) =>
  0.6 * (0.2969 * Math.sqrt(x) - 0.126 * x - 0.3516 * x ** 2 + 0.2843 * x ** 3 - 0.1015 * x ** 4);
const camber = (x: number) => 0.08 * x * (1 - x);

const stations = Array.from({ length: 31 }, (_, at) => (1 - Math.cos((Math.PI * at) / 30)) / 2);
const upper = stations.map((x) => [x, camber(x) + half(x)] as const);
const lower = stations.map((x) => [x, camber(x) - half(x)] as const);
const round = [...[...upper].reverse(), ...lower.slice(1)];

type Pairs = readonly (readonly [number, number])[];
const write = (pairs: Pairs, join = ' ', scale = 1) =>
  pairs.map(([x, y]) => `${(x * scale).toFixed(6)}${join}${(y * scale).toFixed(6)}`).join('\n');

const roundFile = `TEST 12\n${write(round)}\n`;
const surfaceFile = `TEST 12\n31. 31.\n\n${write(upper)}\n\n${write(lower)}\n`;

const read = (input: string | Uint8Array) => {
  const outcome = parseSectionCoordinates(input);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome;
};
const codes = (input: string) => read(input).warnings.map((warning) => warning.code);
const reference = read(roundFile).value;

const area = ({ x, y }: { x: readonly number[]; y: readonly number[] }) =>
  x.reduce((sum, value, at) => {
    const next = (at + 1) % x.length;
    return sum + (value * y[next]! - x[next]! * y[at]!) / 2;
  }, 0);

const expectSame = (given: typeof reference, digits = 6) => {
  expect(given.x).toHaveLength(reference.x.length);
  for (let at = 0; at < reference.x.length; at += 1) {
    expect(given.x[at]).toBeCloseTo(reference.x[at]!, digits);
    expect(given.y[at]).toBeCloseTo(reference.y[at]!, digits);
  }
};

describe('both orders', () => {
  it('give the same points, round from the trailing edge with the upper surface first', () => {
    expect(read(roundFile).warnings).toEqual([]);
    expect(reference).toMatchObject({ name: 'TEST 12', order: 'round from the trailing edge', trailingEdge: 'open' });
    const surface = read(surfaceFile).value;
    expect(surface).toMatchObject({ name: 'TEST 12', order: 'surface by surface' });
    expectSame(surface);
    expect(reference.y[5]).toBeGreaterThan(reference.y.at(-6)!);
    expect(area(reference)).toBeGreaterThan(0);
  });

  it('enclose the published area of the thickness law, 0.685083 t c2', () => {
    // Source: integral of the thickness law of NACA TR 460. 61 points on chords lie inside the curve by some 1e-4.
    expect(area(reference)).toBeCloseTo(0.685083 * 0.12, 3);
  });

  it('are unchanged after reading, writing and reading again', () => {
    const again = read(writeSectionCoordinates(reference)).value;
    expect(again).toEqual(reference);
    expect(writeSectionCoordinates(again)).toBe(writeSectionCoordinates(reference));
  });
});

describe('files as they are', () => {
  it.each([
    ['tabs', `TEST 12\n${write(round, '\t')}`],
    ['commas', `TEST 12\n${write(round, ',')}`],
    ['commas and spaces', `TEST 12\n${write(round, ', ')}`],
    ['Windows line ends', roundFile.replaceAll('\n', '\r\n')],
    ['old Macintosh line ends', roundFile.replaceAll('\n', '\r')],
    ['decimal commas', `TEST 12\n${write(round).replaceAll('.', ',')}`],
    ['decimal commas with semicolons', `TEST 12\n${write(round, '; ').replaceAll('.', ',')}`],
    ['leading points', `TEST 12\n${write(round).replaceAll(/\b0\./g, '.')}`],
    ['begun at the leading edge without counts', `TEST 12\n${write(upper)}\n${write(lower)}`],
    ['a loop begun at the leading edge', `TEST 12\n${write(upper)}\n${write([...lower].reverse())}`],
    ['blank lines', `\n\n${roundFile.replaceAll('\n', '\n\n')}`],
    ['true minus signs', roundFile.replaceAll('-', '−')],
    ['dashes for minus signs', roundFile.replaceAll('-', '–')],
    ['semicolons', `TEST 12\n${write(round, ';')}`],
    ['decimal commas with commas between', `TEST 12\n${write(round, ',').replaceAll('.', ',')}`],
    ['a byte-order mark', `\ufeff${roundFile}`],
    ['comment lines', `# measured\n\n${roundFile}\n! end\n`],
    [
      'exponents',
      `TEST 12\n${round.map(([x, y]) => `${x.toExponential(8)} ${y.toExponential(8).replace('e', 'D')}`).join('\n')}`,
    ],
  ])('%s', (_, text) => {
    const outcome = read(text);
    expectSame(outcome.value);
    expect(outcome.value.name).toBe('TEST 12');
  });

  it.each([
    ['per cent', `TEST\n${write(round, ' ', 100)}`, 'scale'],
    ['per cent, surface by surface', `TEST\n31 31\n${write(upper, ' ', 100)}\n${write(lower, ' ', 100)}`, 'scale'],
    ['millimetres', `TEST\n${write(round, ' ', 230)}`, 'scale'],
    ['the wrong way round', `TEST\n${write([...round].reverse())}`, 'direction'],
    ['lower surface first', `TEST\n31 31\n${write(lower)}\n${write(upper)}`, 'direction'],
    ['counts that do not match', `TEST\n33 29\n${write(upper)}\n${write(lower)}`, 'counts'],
    ['repeated points', `TEST\n${write([...round.slice(0, 9), round[8]!, ...round.slice(9)])}`, 'repeated point'],
    ['metre of chord in millimetres', `TEST\n${write(round, ' ', 1000)}`, 'scale'],
    ['a note after the points', `TEST\n${write(round)}\nend of data`, 'unreadable line'],
    ['labels of the surfaces', `TEST\nupper\n${write(upper)}\nLower surface:\n${write(lower)}`, 'unreadable line'],
    ['a count before each surface', `TEST\n31\n${write(upper)}\n31\n${write(lower)}`, 'unreadable line'],
    ['a third number', `TEST\n${write(round).replaceAll('\n', ' 0.0\n')}`, 'third number'],
  ])('%s is mentioned', (_, text, code) => {
    const outcome = read(text);
    expectSame(outcome.value, 5);
    expect(outcome.warnings.map((warning) => warning.code)).toContain(code);
  });

  it('without title, and with titles that are numbers', () => {
    expect(read(write(round)).value.name).toBe('section');
    expect(read(`0012\n${write(round)}`).value.name).toBe('0012');
    const twoNumbers = read(`63 415\n${write(round)}`).value;
    expect(twoNumbers.name).toBe('63 415');
    expectSame(twoNumbers);
    const before = read(`63 415\n31 31\n${write(upper)}\n${write(lower)}`).value;
    expect(before.name).toBe('63 415');
    expectSame(before);
  });

  it('with a closed, and with a crossed trailing edge', () => {
    const closed = [[1, 0], ...round.slice(1, -1), [1, 0]] as const;
    expect(read(`T\n${write(closed)}`).value.trailingEdge).toBe('closed');
    const crossed = [[1, -0.002], ...round.slice(1, -1), [1, 0.002]] as const;
    expect(codes(`T\n${write(crossed)}`)).toEqual(['crossed trailing edge']);
  });

  it('a bevelled plate of few points, in each order', () => {
    const above = [
      [0, 0],
      [0.08, 0.01],
      [0.9, 0.01],
      [1, 0.001],
    ] as const;
    const below = above.map(([x, y]) => [x, -y] as const);
    const plate = read(`P\n${write([...above].reverse())}\n${write(below.slice(1))}`);
    expect(plate.value).toMatchObject({ order: 'round from the trailing edge', x: [1, 0.9, 0.08, 0, 0.08, 0.9, 1] });
    for (const text of [
      `P\n4 4\n${write(above)}\n${write(below)}`,
      `P\n${write(above)}\n${write([...below].reverse().slice(0, -1))}`,
    ]) {
      expect(read(text).value).toMatchObject({ x: plate.value.x, y: plate.value.y });
    }
  });

  it('without the point that closes the trailing edge, on either surface', () => {
    const closed = [[1, 0], ...round.slice(1, -1), [1, 0]] as const;
    const whole = read(`T\n${write(closed)}`).value;
    for (const cut of [closed.slice(0, -1), closed.slice(1)]) {
      const outcome = read(`T\n${write(cut)}`);
      expect(outcome.value).toEqual(whole);
      expect(outcome.warnings).toEqual([expect.objectContaining({ code: 'missing trailing edge' })]);
    }
  });

  it('with a missing leading edge, moved, rotated, or with crossing surfaces', () => {
    const missing = round.filter(([x]) => x > 0);
    expect(read(`T\n${write(missing)}`).value.x).toHaveLength(round.length - 1);
    const moved = round.map(([x, y]) => [x + 0.25, y - 0.1] as const);
    expect(read(`T\n${write(moved)}`).value.x[0]).toBeCloseTo(1.25, 6);
    const turned = round.map(
      ([x, y]) => [x * Math.cos(0.1) + y * Math.sin(0.1), y * Math.cos(0.1) - x * Math.sin(0.1)] as const,
    );
    const rotated = read(`T\n${write(turned)}`);
    expect(rotated.value).toMatchObject({ order: 'round from the trailing edge', trailingEdge: 'open' });
    expect(rotated.warnings).toEqual([]);
    const thin = round.map(([x, y], at) => [x, at < 30 && x > 0.6 && x < 0.8 ? y - 0.2 : y] as const);
    expect(codes(`T\n${write(thin)}`)).toContain('crossing');
  });

  it.each([
    ['nothing', ''],
    ['words', 'no numbers here\nat all'],
    ['too few points', 'T\n1 0\n0 0\n1 0'],
    [
      'no area',
      `T\n${write(stations.map((x) => [x, 0] as const).reverse())}\n${write(stations.map((x) => [x, 0] as const))}`,
    ],
    ['one x', `T\n${write(stations.map((x) => [0.5, x] as const))}`],
    ['one surface', `T\n${write(upper)}`],
    ['swapped columns', `T\n${write(round.map(([x, y]) => [y, x] as const))}`],
    ['control characters', 'ab\u0000\u0001'],
    ['blank lines', ' \n\n'],
    ['too high', `T\n${write(round.map(([x, y]) => [x, y * 30] as const))}`],
    ['too many points', `T\n${'1 0\n0.5 0.1\n'.repeat(3000)}`],
  ])('refuses %s with reason and remedy', (_, text) => {
    const outcome = parseSectionCoordinates(text);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) for (const part of [outcome.reason, outcome.where, outcome.remedy]) expect(part).not.toBe('');
  });
});

describe('a damaged point among the others', () => {
  it.each(['abc 0.05', '0.5 0.0x', '0.5', '0.5 NaN', '1e999 0'])(
    '"%s" is refused with its line and what was found',
    (damaged) => {
      const lines = roundFile.split('\n');
      lines[20] = damaged;
      const outcome = parseSectionCoordinates(lines.join('\n'));
      expect(outcome).toMatchObject({ ok: false, where: 'line 21', reason: expect.stringContaining(`"${damaged}"`) });
    },
  );

  it('a word in the place of a point is mentioned with its line', () => {
    const lines = roundFile.split('\n');
    lines[20] = 'oops';
    const outcome = read(lines.join('\n'));
    expect(outcome.warnings).toEqual([expect.objectContaining({ code: 'unreadable line', where: 'line 21' })]);
  });
});

describe('orderSectionPoints', () => {
  it('reads the pairs that a file would hold, in both orders', () => {
    for (const pairs of [round, [...upper, ...lower]]) {
      const outcome = orderSectionPoints('own', pairs);
      expect(outcome.ok && outcome.value.name).toBe('own');
      if (outcome.ok) expectSame({ ...outcome.value }, 5);
    }
  });

  it('names the point that is no number, and refuses few points', () => {
    const broken = round.map(([x, y], at) => [x, at === 4 ? Number.NaN : y] as const);
    expect(orderSectionPoints('own', broken)).toMatchObject({ ok: false, where: 'point 5' });
    expect(orderSectionPoints('own', round.slice(0, 4))).toMatchObject({ ok: false });
  });
});

describe('any input', () => {
  it('never throws, and gives finite points only', () => {
    const likely = fastCheck.string({ unit: fastCheck.constantFrom(...'01.,; \t\n-eT'.split('')), maxLength: 200 });
    const pairs = fastCheck
      .array(
        fastCheck.tuple(
          fastCheck.double({ min: -2, max: 2, noNaN: true }),
          fastCheck.double({ min: -1, max: 1, noNaN: true }),
        ),
        {
          maxLength: 40,
        },
      )
      .map((points) => write(points));
    fastCheck.assert(
      fastCheck.property(fastCheck.oneof(likely, pairs, fastCheck.uint8Array({ maxLength: 200 })), (input) => {
        const outcome = parseSectionCoordinates(input);
        if (!outcome.ok) return outcome.reason !== '';
        expect([...outcome.value.x, ...outcome.value.y].every(Number.isFinite)).toBe(true);
        expect(area(outcome.value)).toBeGreaterThan(0);
        return true;
      }),
      { numRuns: 1000 },
    );
  });

  it('reads what remains of a file that is cut off anywhere', () => {
    for (let end = 0; end < surfaceFile.length; end += 7)
      expect(() => parseSectionCoordinates(surfaceFile.slice(0, end))).not.toThrow();
  });
});

const measured = new URL('../../../../shared/data/sections/', import.meta.url);
const isThere = existsSync(measured);
if (!isThere) console.log('Measured section coordinates are not here (../shared/data): their test is skipped.');

describe.skipIf(!isThere)('measured sections of the University of Illinois tunnel', () => {
  // Maximum thickness: E387 9.1 %, from the measured coordinates' own table (Selig et al., Summary of Low-Speed Airfoil Data).
  it.each(['E387', 'SD7037', 'A18', 'E374', 'SD7080', 'S1223'])('%s is read, in every set of its file', (name) => {
    const lines = readFileSync(new URL(`${name}_coords.csv`, measured), 'utf8')
      .trim()
      .split('\n')
      .slice(1);
    const sets = new Map<string, string[]>();
    for (const line of lines) {
      const [, set = '', , , x, y] = line.split(',');
      sets.set(set, [...(sets.get(set) ?? [set]), `${x} ${y}`]);
    }
    for (const [set, text] of sets) {
      const outcome = read(text.join('\n'));
      expect(outcome.value.x.length, set).toBeGreaterThan(30);
      expect(area(outcome.value), set).toBeGreaterThan(0.03);
      expect(area(outcome.value), set).toBeLessThan(0.1);
    }
  });
});
