import { nacaSection } from '@noonwing/engine/section';
import { describe, expect, it } from 'vitest';
import { readDesign } from '../read-files.js';
import { assembleGeometry } from './section.js';

const base = (() => {
  const outcome = nacaSection('4412', { points: 60 });
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
})();
const pairs = base.outlineX.map((x, i) => [x, base.outlineY[i] ?? 0] as const);
const nose = pairs.length >> 1;
const lines = (points: readonly (readonly [number, number])[], scale = 1) =>
  points.map(([x, y]) => `${(scale * x).toFixed(6)} ${(scale * y).toFixed(6)}`);

const around = ['a section', ...lines(pairs)];
const bySurface = [
  'a section',
  `${nose + 1} ${nose + 1}`,
  ...lines(pairs.slice(0, nose + 1)).reverse(),
  ...lines(pairs.slice(nose)),
];

const ofFile = (text: string) =>
  assembleGeometry({ type: 'file', path: 'own.dat' }, 0.2, { texts: { 'own.dat': text } });

describe('section of the library', () => {
  it('is named in a design file as it is listed, scaled like any other, and refused with what is expected', () => {
    const text = (section: string) =>
      `noonwing: design 1\nname: t\nsurfaces:\n  wing:\n    span: 2 m\n    section: ${section}\n    stations:\n      - chord: 200 mm\n        y: 0 m\n      - chord: 200 mm\n        y: 1 m\n`;
    const read = readDesign(text('Joukowsky 12 % camber 3 %'));
    expect(read.messages.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(read.design?.surfaces?.wing?.section).toEqual({ library: 'Joukowsky 12 % camber 3 %' });
    const made = assembleGeometry(
      { type: 'library', name: 'flat cells 3', thickness: { value: 0.12, source: 'stated' } },
      0.2,
      {},
    );
    expect(made.ok && made.value.maximumThickness).toBeCloseTo(0.12, 3);
    expect(JSON.stringify(readDesign(text('flat sells 3')).messages)).toContain('noonwing section --list');
    expect(JSON.stringify(readDesign(text('{ library: wing }')).messages)).toContain('noonwing section --list');
  });
});

describe('section of a coordinate file', () => {
  it.each([
    ['round the outline', around, 5],
    ['surface by surface', bySurface, 5],
    ['in per cent', ['a section', ...lines(pairs, 100)], 5],
    // Of a length only the span is known: the lower lip of the open trailing edge lies 0.02 % behind the chord.
    ['in millimetres', ['a section', ...lines(pairs, 230)], 4],
    ['clockwise', ['a section', ...lines(pairs).reverse()], 5],
  ])('is the section that was written, %s', (_, text, digits) => {
    const made = ofFile(text.join('\n'));
    expect(made).toMatchObject({ ok: true });
    if (!made.ok) return;
    expect(made.value.area).toBeCloseTo(base.area, digits);
    expect(made.value.maximumThickness).toBeCloseTo(base.maximumThickness, 4);
    expect(Math.abs(made.value.maximumCamber - base.maximumCamber)).toBeLessThan(3e-4);
  });

  it('names the file, the line and what was found', () => {
    const damaged = around.with(20, '0.5 0.0x').join('\n');
    expect(ofFile(damaged)).toMatchObject({
      ok: false,
      where: 'own.dat, line 21',
      reason: expect.stringContaining('"0.5 0.0x"'),
    });
    const noted = ofFile([...around, 'end of file'].join('\n'));
    expect(noted.ok && noted.warnings).toEqual([
      expect.objectContaining({ where: `own.dat, line ${around.length + 1}` }),
    ]);
  });

  it.each([
    ['an absent file', undefined, 'not found'],
    ['an empty file', '', 'empty'],
    ['a binary file', 'ab\u0000\u0001', 'not text'],
    ['prose', 'this is\nnot a section', '0 coordinate pairs'],
    ['crossed surfaces', ['t', ...lines(pairs.map(([x, y]) => [x, x > 0.4 && x < 0.8 ? -y : y]))].join('\n'), 'cross'],
    ['a section as thick as long', ['t', ...lines(pairs.map(([x, y]) => [x, 7 * y]))].join('\n'), 'do not outline'],
  ])('refuses %s with its name', (_, text, reason) => {
    const made = text === undefined ? assembleGeometry({ type: 'file', path: 'own.dat' }, 0.2, {}) : ofFile(text);
    expect(made).toMatchObject({ ok: false, where: 'own.dat', reason: expect.stringContaining(reason) });
  });
});

describe('section of points in the design file', () => {
  it('is read in both orders, as a file is', () => {
    const surfaces = [...pairs.slice(0, nose + 1).reverse(), ...pairs.slice(nose)];
    for (const points of [pairs, surfaces]) {
      const made = assembleGeometry({ type: 'coordinates', points }, 0.2, {});
      expect(made.ok && made.value.maximumCamber).toBeCloseTo(base.maximumCamber, 3);
      expect(made.ok && made.value.name).toBe('own points');
    }
  });

  it('names a point without ordinate', () => {
    const points = pairs.map(([x, y], i) => (i === 3 ? [x] : [x, y]));
    const made = assembleGeometry({ type: 'coordinates', points }, 0.2, {});
    expect(made).toMatchObject({ ok: false, where: 'own points, point 4' });
  });
});
