import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fastCheck from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as drawing from './index.js';
import type { Drawing, DrawOptions } from './model.js';
import { all } from './testing/all.js';
import * as data from './testing/fixtures.js';
import { allTexts, elementsOf, outside, overlaps } from './testing/read-svg.js';
import * as section from './testing/section-fixtures.js';
import * as structure from './testing/structure-fixtures.js';

const widths = [320, 480, 800, 1280];

/** What any SVG of this package must be, whatever its data. */
function demandSound({ svg, title, text, table, scales, series }: Drawing): void {
  expect(svg).toMatch(/^<svg [^>]*role="img"/);
  expect(svg).not.toMatch(/NaN|Infinity|undefined|null/);
  expect(svg).not.toMatch(/<script|<style|<foreignObject|<image|<a[ >]|\son\w+=|\sstyle=|javascript:|href/i);
  expect(() => elementsOf(svg)).not.toThrow();
  expect(title).not.toBe('');
  expect(text).not.toBe('');
  const keys = new Set(table.columns.map(({ key }) => key));
  expect(keys.size).toBe(table.columns.length);
  for (const row of table.rows) for (const key of Object.keys(row)) expect(keys).toContain(key);
  for (const { domain, range } of scales) {
    expect([...domain, ...range].every(Number.isFinite)).toBe(true);
    expect(domain[1]).toBeGreaterThan(domain[0]);
  }
  for (const { points } of series) expect(points.flat().every(Number.isFinite)).toBe(true);
}

describe.each(all)('%s', (name, draw) => {
  it.each(widths)('is sound, with words that cover none and stay inside, at %i px', (width) => {
    const made = draw({ width });
    demandSound(made);
    expect(overlaps(made.svg)).toEqual([]);
    expect(outside(made.svg, made.size)).toEqual([]);
  });

  it('takes its colours from classes in a page and from itself in a file', () => {
    const inPage = draw({ standalone: false }).svg;
    const alone = draw({ standalone: true, theme: 'dark' }).svg;
    expect(inPage).not.toMatch(/#[0-9a-f]{6}"/i);
    expect(alone).toContain('xmlns="http://www.w3.org/2000/svg"');
    expect(alone).not.toMatch(/class="nw-[fs]-/);
    expect(alone).toContain(drawing.themes.dark.paper);
  });

  it('names itself by ids of its own', () => {
    const { svg, title } = draw({ id: 'mine' });
    const ids = [...svg.matchAll(/\sid="([^"]*)"/g)].map((match) => match[1]!);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.every((id) => id.startsWith('mine-'))).toBe(true);
    expect(svg).toContain('aria-labelledby="mine-title"');
    expect(elementsOf(svg).find((each) => each.name === 'title')?.text).toBe(title);
  });

  it('gives every point to look at a place inside', () => {
    const { hits, size } = draw({ width: 700 });
    for (const { polygon, label } of hits) {
      expect(label).not.toBe('');
      expect(polygon.length).toBeGreaterThan(2);
      expect(polygon.some(([x, y]) => x >= 0 && y >= 0 && x <= size.width && y <= size.height)).toBe(true);
    }
    expect(name).not.toBe('');
  });
});

type Draw = (given: never, options?: DrawOptions) => Drawing;
const functions: readonly (readonly [string, Draw, unknown])[] = [
  ['theDay', drawing.theDay as Draw, data.day],
  ['dayStage', drawing.dayStage as Draw, data.day],
  ['chargeCourse', drawing.chargeCourse as Draw, data.charge],
  ['powerAgainstAirspeed', drawing.powerAgainstAirspeed as Draw, data.power],
  ['liftDragMoment', drawing.liftDragMoment as Draw, data.polar],
  ['driveMatch', drawing.driveMatch as Draw, data.drive],
  ['balanceBeam', drawing.balanceBeam as Draw, data.beam],
  ['whereAndWhen', drawing.whereAndWhen as Draw, data.dateAndHour],
  ['ledgerChain', drawing.ledgerChain as Draw, data.ledger],
  ['uncertaintyShares', drawing.uncertaintyShares as Draw, data.shares],
  ['comparedCurves', drawing.comparedCurves as Draw, data.compare],
  ['intervalBand', drawing.intervalBand as Draw, data.intervals],
  ['sparkline', drawing.sparkline as Draw, data.spark],
  ['threeView', drawing.threeView as Draw, data.aircraft],
  ['planView', drawing.planView as Draw, data.aircraft],
  ['firstFlightPage', drawing.firstFlightPage as Draw, data.firstFlight],
  ['limitBands', drawing.limitBands as Draw, structure.limits],
  ['sectionCut', drawing.sectionCut as Draw, structure.cut],
  ['layUpPlan', drawing.layUpPlan as Draw, structure.plan],
  ['underLoad', drawing.underLoad as Draw, structure.load],
  ['layerPicture', drawing.layerPicture as Draw, section.layer],
  ['cellStrain', drawing.cellStrain as Draw, structure.strain],
];

/** The value with each number and each word replaced, and lists cut to a length. */
function changed(
  value: unknown,
  change: { number: (n: number) => number; text: (t: string) => string; length: number },
  key = '',
): unknown {
  if (typeof value === 'number') return change.number(value);
  // What selects a kind, and identities, are names of the program rather than data.
  if (typeof value === 'string') return ['id', 'kind', 'group'].includes(key) ? value : change.text(value);
  if (Array.isArray(value)) {
    const tuple = value.every((each) => typeof each === 'number') && value.length <= 3;
    const list = tuple ? value : value.slice(0, change.length);
    return list.map((each) => changed(each, change, key));
  }
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, changed(each, change, name)]));
  }
  return value;
}

const same = { number: (n: number) => n, text: (t: string) => t, length: Number.POSITIVE_INFINITY };

describe.each(functions)('%s with strange data', (_, draw, usual) => {
  const drawn = (given: unknown, options: DrawOptions = {}) =>
    draw(given as never, { width: 360, heading: true, ...options });

  it.each([0, 1, 2])('lists of %i', (length) => demandSound(drawn(changed(usual, { ...same, length }))));

  it.each([
    0,
    1e-15,
    1e-7,
    1e11,
    1e300,
    -1,
    Number.NaN,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.MIN_VALUE,
  ])('every number %d', (number) => demandSound(drawn(changed(usual, { ...same, number: () => number }))));

  it('any numbers, any lengths, any size', () => {
    const number = fastCheck.oneof(
      fastCheck.double(),
      fastCheck.double({ min: -1e3, max: 1e3, noNaN: true }),
      fastCheck.constantFrom(0, 1, -1, Number.NaN, 1e12),
    );
    const property = fastCheck.property(
      fastCheck.infiniteStream(number),
      fastCheck.integer({ min: 0, max: 9 }),
      fastCheck.oneof(fastCheck.double(), fastCheck.integer({ min: -10, max: 3000 })),
      (numbers, length, width) => {
        const next = () => numbers.next().value as number;
        demandSound(
          drawn(changed(usual, { ...same, number: (n) => (Math.abs(next()) % 2 < 0.7 ? n : next()), length }), {
            width,
            height: width,
          }),
        );
      },
    );
    fastCheck.assert(property, { numRuns: 40 });
  });

  it('words that try to be markup stay words', () => {
    const attack = '<script>alert(1)</script>"\'><img src=x onerror=alert(1)>&amp;<![CDATA[]]>-->\u0000\ud800';
    const made = drawn(changed(usual, { ...same, text: () => attack }), { id: '"><script>' });
    expect(() => elementsOf(made.svg)).not.toThrow();
    const known = new Set(['svg', 'title', 'desc', 'defs', 'pattern', 'g', 'path', 'rect', 'line', 'circle', 'text']);
    for (const { name } of elementsOf(made.svg)) expect(known).toContain(name);
    expect(made.svg).not.toContain('\u0000');
    // Half of a letter pair would make the file unreadable.
    expect(new TextDecoder().decode(new TextEncoder().encode(made.svg))).toBe(made.svg);
  });

  it('any words', () => {
    const property = fastCheck.property(fastCheck.string({ unit: 'binary', maxLength: 60 }), (text) => {
      const known = new Set(['svg', 'title', 'desc', 'defs', 'pattern', 'g', 'path', 'rect', 'line', 'circle', 'text']);
      for (const { name } of elementsOf(drawn(changed(usual, { ...same, text: () => text })).svg))
        expect(known).toContain(name);
    });
    fastCheck.assert(property, { numRuns: 20 });
  });
});

it('the style sheet beside the package is the one of the code', () => {
  const file = fileURLToPath(new URL('../drawing.css', import.meta.url));
  // The formatter lays the file out anew; the rules are the same.
  const rules = (text: string) =>
    text
      .replaceAll("'", '"')
      .replace(/\s+/g, ' ')
      .replace(/ ?([{};,]) ?/g, '$1')
      .trim();
  expect(rules(readFileSync(file, 'utf8'))).toBe(rules(drawing.drawingStyles()));
});

it('every class of a drawing has a rule', () => {
  const styles = drawing.drawingStyles();
  const classes = new Set(
    all.flatMap(([, draw]) =>
      [...draw({ standalone: false }).svg.matchAll(/class="([^"]*)"/g)].flatMap((match) => match[1]!.split(' ')),
    ),
  );
  const colours = [...classes].filter((name) => /^nw-[fs]-/.test(name));
  expect(colours.length).toBeGreaterThan(20);
  for (const name of colours) expect(styles).toContain(`.${name} {`);
});

/** To a whole px: the last digits of a sine differ between machines, and nobody sees a tenth of a px. */
const rounded = (svg: string) => svg.replace(/-?\d+\.\d+/g, (number) => String(Math.round(Number(number)) || 0));

it.each(all)('%s looks as it did', async (name, draw) => {
  const { svg, title, text } = draw({ width: 480, standalone: true });
  const lines = rounded(svg).replaceAll('><', '>\n<');
  await expect(`<!-- ${title}: ${text} -->\n${lines}\n`).toMatchFileSnapshot(`./__snapshots__/${name}.svg`);
});

it('texts say what was drawn', () => {
  const { text } = drawing.theDay(data.day);
  expect(text).toContain('Clear: carried 09:50 to 17:40, about 9 in 10.');
  expect(text).toContain('Broken: not carried');
  expect(drawing.balanceBeam(data.beam).text).toContain('92 mm, 37.7 %');
  expect(drawing.balanceBeam({ ...data.beam, balance: { x: 120 } }).text).toContain('10 mm too far aft');
  expect(drawing.ledgerChain(data.ledger).text).toMatch(
    /^413\.3 W of light on the cells give 71\.3 W at the bus \(17 %\)/,
  );
  expect(drawing.chargeCourse(data.charge).text).toContain('below the reserve');
  expect(drawing.driveMatch(data.drive).text).toContain('weakest link is the propeller at 64 %');
  expect(drawing.whereAndWhen(data.dateAndHour).text).toContain('at or above 1 (carried)');
  expect(drawing.liftDragMoment(data.polar).text).toContain('it returns by itself');
  const unstable = data.polar.points.map((point) => ({ ...point, moment: -point.moment }));
  expect(drawing.liftDragMoment({ ...data.polar, points: unstable }).text).toContain('does not return by itself');
});

it('limits say their lower edge, and the cursor how likely each lies below', () => {
  const made = drawing.limitBands(structure.limits, { width: 640 });
  expect(made.text).toMatch(/^The limit speed is 11\.2 m\/s, the lower edge of 14\.1 m\/s/);
  const [tuck] = drawing.cursorAt(made, 14.1);
  expect(tuck!.text).toBe('tuck: chance that it lies below 50 %');
  expect(drawing.cursorAt(made, 11.2)[0]!.value).toBeCloseTo(5, 6);
  expect(drawing.limitBands({ ...structure.limits, limits: [] }).text).toBe(
    'No limit of Alondra was found up to 50.0 m/s.',
  );
});

it('a cut says what is enlarged, and small parts are enlarged in whole steps', () => {
  expect(drawing.sectionCut(structure.cut, { width: 640 }).text).toContain(
    'drawn to scale, but skins and cells 2 times',
  );
  const flat = structure.cut.upper.map(([x, z]) => [x, z / 10] as const);
  const thin = { ...structure.cut, upper: flat, lower: flat.map(([x, z]) => [x, -z] as const), shapes: [] };
  expect(drawing.sectionCut(thin, { width: 640 }).text).toContain('heights 10 times as large');
});

it('shape and strain under load are told by their worst place', () => {
  expect(drawing.underLoad(structure.load).text).toContain(
    'tip of the wing: leading edge 34 mm up, trailing edge 28 mm up, twisted 1.4° nose up',
  );
  expect(drawing.underLoad(structure.load).text).toContain('Displacements 3 times as large');
  expect(drawing.cellStrain(structure.strain).text).toContain('the worst cell is cell 5 of the front row: 104 %');
});

it('a ledger adds up: the last bar ends where nothing is left', () => {
  const rows = drawing.ledgerChain(data.ledger).table.rows;
  const contained = rows.filter(({ note }) => String(note).startsWith('contained'));
  const sum = rows.filter((row) => !contained.includes(row)).reduce((total, { share }) => total + Number(share), 0);
  // Shares are rounded to four digits each.
  expect(sum).toBeCloseTo(100, 1);
});

it('hits of the plan view stand where the scales say', () => {
  for (const noseLeft of [false, true]) {
    const made = drawing.planView(data.aircraft, { width: 900, noseLeft });
    const scale = (id: string) => made.scales.find((each) => each.id === id)!;
    const battery = made.hits.find(({ id }) => id === 'battery')!;
    const middle = [0, 1].map(
      (n) => battery.polygon.reduce((sum, point) => sum + point[n]!, 0) / battery.polygon.length,
    );
    const [along, across] = noseLeft ? middle : [...middle].reverse();
    expect(drawing.valueOn(scale('along'), along!)).toBeCloseTo(-40, 6);
    expect(drawing.valueOn(scale('across'), across!)).toBeCloseTo(0, 6);
  }
});

it('words of all drawings are words of the trade, in plain English', () => {
  for (const [, draw] of all)
    for (const text of allTexts(draw({ heading: true }).svg)) expect(text).not.toMatch(/\b(undefined|object)\b/);
});
