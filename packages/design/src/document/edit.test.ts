import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editDesign, editDesignBy, readDesign, removeFromDesign } from '../read-files.js';
import { locate, openDocument } from './document.js';
import { keepLines } from './keep-lines.js';
import { parsePath } from './message.js';

const text = readFileSync(new URL('../../../../examples/alondra.yaml', import.meta.url), 'utf8');
const edit = (source: string, path: string, value: string) => {
  const result = editDesign(openDocument(source).document, path, value);
  if (!result.ok) throw new Error(result.reason);
  return result.text;
};
const comments = (source: string) => [...source.matchAll(/#.*$/gm)].map((found) => found[0].trim());

describe('an edit in place', () => {
  it.each([
    ['battery.x', '-55 mm'],
    ['surfaces.wing.stations[3].chord', '162 mm ± 1 mm'],
    ['array.rows.top.cells', '18'],
    ['name', 'Alondra: the second'],
    ['drive.motor.speed constant', '700 rpm/V'],
    ['masses.wing.mass', '401 g weighed'],
    ['datum', 'firewall # not the spinner'],
  ])('%s changes its own characters only', (path, value) => {
    const changed = edit(text, path, value);
    let start = 0;
    while (text[start] === changed[start]) start++;
    let end = 0;
    while (text.at(-1 - end) === changed.at(-1 - end)) end++;
    const line = text.slice(0, start).split('\n').length;
    expect(text.slice(start, text.length - end)).not.toContain('\n');
    expect(line).toBe(locate(openDocument(text).document, parsePath(path)).line);
    expect(readDesign(changed).messages).toEqual([]);
  });

  it('undoes by the old value', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 3 }), fc.integer({ min: 100, max: 400 }), (station, chord) => {
        const path = `surfaces.wing.stations[${station}].chord`;
        const old = station === 3 ? '150 mm' : '230 mm';
        expect(edit(edit(text, path, `${chord} mm`), path, old)).toBe(text);
      }),
      { numRuns: 30 },
    );
  });

  it('keeps quotes where the value needs them', () => {
    const changed = edit('noonwing: design 1\nname: a\nlevel power: 3 W\n', 'name', 'a: b');
    expect(changed).toContain('name: "a: b"');
  });

  it('replaces a block of notes', () => {
    const changed = edit(text, 'notes', 'first line\nsecond line');
    expect(readDesign(changed).design?.notes).toBe('first line\nsecond line');
    expect(readDesign(changed).messages).toEqual([]);
  });
});

describe('a new key', () => {
  it('is added to its group, and every comment stays', () => {
    const changed = edit(text, 'battery.mass', '212 g weighed');
    expect(readDesign(changed).design?.battery).toMatchObject({ mass: { source: 'measured' } });
    expect(comments(changed)).toEqual(comments(text));
  });

  it('brings the groups on its way', () => {
    const changed = edit('noonwing: design 1\nname: a\nlevel power: 3 W # ok\n', 'flight.bank', '10 deg');
    expect(readDesign(changed).messages).toEqual([]);
    expect(changed).toContain('# ok');
  });

  it('finds a key that is spelt with a hyphen', () => {
    const source = 'noonwing: design 1\nname: a\nlevel power: 3 W\ndrive:\n  motor: {no-load current: 0.5 A}\n';
    expect(edit(source, 'drive.motor.no load current', '0.6 A')).toBe(source.replace('0.5 A', '0.6 A'));
  });

  it('is refused where a single value stands', () => {
    const { document } = openDocument(text);
    expect(editDesign(document, 'name.first', 'x').ok).toBe(false);
    expect(editDesign(document, 'surfaces', 'x').ok).toBe(false);
    expect(editDesign(document, '', 'x').ok).toBe(false);
    expect(editDesign(openDocument('a: [').document, 'a', 'x').ok).toBe(false);
  });
});

describe('lines that were not changed', () => {
  const changed = (after: string) => after.split('\n').filter((line) => !text.split('\n').includes(line));

  it.each([
    ['surfaces.wing.stations[2].twist', '1 deg'],
    ['flight.bank', '10 deg'],
    ['measured.level power', '16 W'],
  ])('keep their columns when %s is added', (path, value) => {
    const lines = changed(edit(text, path, value));
    expect(lines.length).toBeLessThanOrEqual(2);
    expect(lines.some((line) => line.includes(value))).toBe(true);
  });

  it('keep their columns when a key is removed', () => {
    const result = removeFromDesign(openDocument(text).document, 'battery.moves to');
    expect(result.ok && changed(result.text)).toEqual([]);
  });

  it('are written anew where the old spacing would mean something else', () => {
    expect(keepLines('a:\n    - 1', 'a:\n  - 1\n  - 2')).toBe('a:\n  - 1\n  - 2');
  });

  it('a value with a comma stands in quotes within braces, and is then refused with both readings', () => {
    const after = edit(text, 'surfaces.wing.stations[2].chord', '1,500 mm');
    expect(changed(after)).toHaveLength(1);
    const messages = readDesign(after).messages.map(({ found, expected }) => `${found} ${expected}`);
    expect(messages.join()).toMatch(/1,500 mm/);
  });
});

describe('removal', () => {
  it('takes the key away and keeps the comments of others', () => {
    const result = removeFromDesign(openDocument(text).document, 'battery.moves to');
    expect(result.ok && readDesign(result.text).design?.battery).not.toHaveProperty('movesTo');
    expect(result.ok && comments(result.text)).toEqual(comments(text));
    expect(removeFromDesign(openDocument(text).document, 'battery.nothing').ok).toBe(false);
  });
});

describe('several edits', () => {
  const pool = [
    { path: 'battery.x', text: '-55 mm' },
    { path: 'array.rows.back.on', text: 'wing' },
    { path: 'array.rows.back.cells', text: '8' },
    { path: 'array.strings.back.rows[0]', text: 'back' },
    { path: 'array.strings.back.rows[0]', text: 'top' },
    { path: 'array.strings.all' },
    { path: 'array.converters.tracker' },
    { path: 'array.converters.own.topology', text: 'boost' },
    { path: 'masses.lead.mass', text: '12 g weighed' },
    { path: 'masses.lead' },
    { path: 'battery.x' },
    { path: 'nothing.here' },
  ] as const;

  it('together give what they give one by one, and are refused where one of them is', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...pool), { maxLength: 8 }), (edits) => {
        let one: string | undefined = text;
        for (const change of edits) {
          if (one === undefined) break;
          const { document } = openDocument(one);
          const result =
            'text' in change ? editDesign(document, change.path, change.text) : removeFromDesign(document, change.path);
          one = result.ok ? result.text : undefined;
        }
        const all = editDesignBy(text, edits);
        expect(all.ok).toBe(one !== undefined);
        if (!all.ok || one === undefined) return;
        expect(openDocument(all.text).document.yaml?.toJS()).toEqual(openDocument(one).document.yaml?.toJS());
        expect(comments(all.text)).toEqual(comments(one));
      }),
      { numRuns: 60 },
    );
  });
});

describe('any edit', () => {
  it('never throws, and what it gives reads back', () => {
    const paths = [
      'name',
      'battery.x',
      'masses.wing.mass',
      'surfaces.wing.stations[1].chord',
      'new.key',
      'flight.bank',
      'notes',
    ];
    const { document } = openDocument(text);
    fc.assert(
      fc.property(fc.constantFrom(...paths), fc.string(), (path, value) => {
        const result = editDesign(document, path, value);
        if (result.ok) expect(openDocument(result.text).messages).toEqual([]);
      }),
      { numRuns: 120 },
    );
  });
});
