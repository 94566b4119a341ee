import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPair } from './coordinateRows.js';
import { parseSectionCoordinates, sectionFromCoordinates, writeSectionCoordinates } from './coordinates.js';
import { nacaSection } from './naca.js';

const base = (() => {
  const outcome = nacaSection('4412', { points: 60 });
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
})();
const { outlineX: xs, outlineY: ys } = base;
const nose = xs.length >> 1;

type Style = {
  readonly scale?: number;
  readonly separator?: string;
  readonly end?: string;
  readonly comma?: boolean;
};

const line = (x: number, y: number, { scale = 1, separator = ' ', comma = false }: Style) => {
  const text = [x, y].map((value) => (value * scale).toFixed(6)).join(separator);
  return comma ? text.replaceAll('.', ',') : text;
};
const around = (style: Style = {}, title = 'a section') =>
  [title, ...xs.map((x, i) => line(x, ys[i], style))].join(style.end ?? '\n');
const bySurface = (style: Style = {}, counts = `${nose + 1}. ${nose + 1}.`) => {
  const upper = xs.slice(0, nose + 1).map((x, i) => line(x, ys[i], style));
  const lower = xs.slice(nose).map((x, i) => line(x, ys[nose + i], style));
  return ['a section', counts, '', ...upper.reverse(), '', ...lower].join(style.end ?? '\n');
};

const read = (text: string) => {
  const outcome = sectionFromCoordinates(text);
  if (!outcome.ok) throw new Error(`${outcome.where}: ${outcome.reason}`);
  return outcome.value;
};

const expectSame = (text: string) => {
  const g = read(text);
  expect(g.area).toBeCloseTo(base.area, 5);
  expect(g.maximumThickness).toBeCloseTo(base.maximumThickness, 4);
  expect(Math.abs(g.maximumCamber - base.maximumCamber)).toBeLessThan(3e-4);
};

describe('parseSectionCoordinates', () => {
  it.each([
    ['round the outline', around()],
    ['surface by surface', bySurface()],
    ['surfaces without counts', bySurface({}, '')],
    ['100 % chord', around({ scale: 100 })],
    ['100 % chord, surface by surface', bySurface({ scale: 100 })],
    ['millimetres on a metre of chord', around({ scale: 1000 })],
    ['Windows line ends and tabs', around({ end: '\r\n', separator: '\t' })],
    ['old line ends', around({ end: '\r' })],
    ['commas between', around({ separator: ', ' })],
    ['commas without space', around({ separator: ',' })],
    ['semicolons', around({ separator: ';' })],
    ['decimal commas', around({ comma: true, separator: '  ' })],
    ['decimal commas and semicolons', around({ comma: true, separator: ';' })],
    ['decimal commas separated by commas', around({ comma: true, separator: ',' })],
    ['byte order mark', `\uFEFF${around()}`],
    ['a title of digits', around({}, '63 412')],
    ['no title', around().split('\n').slice(1).join('\n')],
    ['comments and blank lines', `# measured\n\n${around()}\n\n`],
    ['Unicode minus', around().replaceAll('-', '\u2212')],
  ])('reads %s', (_, text) => expectSame(text));

  it('reads clockwise order', () => {
    const lines = around().split('\n').slice(1);
    expectSame(['title', ...lines.reverse()].join('\n'));
  });
  it('drops repeated points', () => {
    const lines = around().split('\n');
    expectSame(lines.flatMap((text, i) => (i % 7 === 3 ? [text, text] : [text])).join('\n'));
    const outcome = parseSectionCoordinates(bySurface());
    expect(outcome.ok && outcome.value.x.length).toBe(xs.length);
  });
  it('tells the order and keeps the title', () => {
    const first = parseSectionCoordinates(around());
    const second = parseSectionCoordinates(bySurface());
    expect(first.ok && first.value.order).toBe('round the outline');
    expect(second.ok && second.value.order).toBe('surface by surface');
    expect(second.ok && second.value.name).toBe('a section');
  });
  it('warns of counts that do not match', () => {
    const outcome = parseSectionCoordinates(bySurface({}, '40. 40.'));
    expect(outcome.ok && outcome.warnings.map((w) => w.code)).toEqual(['section.coordinates.counts']);
  });
  it('warns of text after the points', () => {
    const outcome = parseSectionCoordinates(`${around()}\nend of file`);
    expect(outcome.ok && outcome.warnings[0].where).toBe(`line ${xs.length + 2}`);
  });
  it('normalise, write and read again gives the same text', () => {
    const once = writeSectionCoordinates(read(around({ scale: 100 })));
    expect(writeSectionCoordinates(read(once))).toBe(once);
  });
});

describe('bad coordinate texts', () => {
  it.each([
    ['empty', '', 'empty'],
    ['blank', ' \n\n', 'empty'],
    ['binary', 'ab\u0000\u0001', 'not text'],
    ['prose', 'this is\nnot a section', 'no line with two numbers'],
    ['three points', 'x\n1 0\n0 0\n1 0.1', '3 points'],
    ['a word among the points', around().replace(/\n0\.5\d+ /, '\nabc '), "found 'abc"],
    ['one surface only', ['t', ...xs.slice(0, nose).map((x, i) => line(x, ys[i] * 0, {}))].join('\n'), 'outline'],
    ['columns swapped', ['t', ...xs.map((x, i) => line(ys[i], x, {}))].join('\n'), 'outline'],
  ])('%s', (_, text, reason) => {
    const outcome = sectionFromCoordinates(text);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) {
      expect(outcome.reason).toContain(reason);
      expect(outcome.remedy).not.toBe('');
    }
  });
  it('names the line of a word among the points', () => {
    const lines = around().split('\n');
    lines[20] = 'oops';
    const outcome = sectionFromCoordinates(lines.join('\n'));
    expect(!outcome.ok && outcome.where).toBe('line 21');
  });
  it('refuses surfaces that cross', () => {
    const crossed = ['t', ...xs.map((x, i) => line(x, x > 0.4 && x < 0.8 ? -ys[i] : ys[i], {}))].join('\n');
    const outcome = sectionFromCoordinates(crossed);
    expect(!outcome.ok && outcome.reason).toContain('cross');
  });
  it('never throws and never gives a non-finite number, whatever the text', () => {
    const piece = fc.oneof(
      fc.string(),
      fc.tuple(fc.double({ min: -200, max: 200 }), fc.double({ min: -200, max: 200 })).map(([a, b]) => `${a} ${b}`),
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), (lines) => {
        const outcome = sectionFromCoordinates(lines.join('\n'));
        if (!outcome.ok) return;
        const { area, maximumThickness, maximumCamber, leadingEdgeRadius, thinAirfoil } = outcome.value;
        const numbers = [area, maximumThickness, maximumCamber, leadingEdgeRadius, ...Object.values(thinAirfoil)];
        for (const value of numbers) expect(Number.isFinite(value)).toBe(true);
      }),
    );
  });
});

describe('readPair', () => {
  it.each([
    ['1.0 0.0', 1, 0],
    ['1,0', 1, 0],
    ['0,5 -0,25', 0.5, -0.25],
    ['.5,-.25', 0.5, -0.25],
    ['1e-3 2D-2', 0.001, 0.02],
    ['1, 0', 1, 0],
  ])('%s', (text, x, y) => {
    expect(readPair(text)).toEqual([x, y]);
  });
  it.each(['1', '1 2 3', 'a b', '1 NaN', '1 Infinity', '1e999 0'])('refuses %s', (text) => {
    expect(readPair(text)).toBeUndefined();
  });
});
