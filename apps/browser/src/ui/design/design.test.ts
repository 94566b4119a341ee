import { readFileSync } from 'node:fs';
import { aircraftField, editDesign, removeFromDesign } from '@noonwing/design';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ValueEdit } from '../../core/commands.js';
import { writtenUnit } from '../../core/field-input.js';
import { measuredKeys, partKeys, partOfPath } from '../../core/field-place.js';
import { describeField } from '../../core/field-text.js';
import { fieldValue, keysAt } from '../../core/fields.js';
import { readingOfDesign } from '../../core/reading.js';
import type { LeverView } from '../../core/view.js';
import {
  addEntry,
  entryBrief,
  expandShort,
  freeName,
  insertListItem,
  listTexts,
  nameProblem,
  removeEntry,
  renameEntry,
} from './entries.js';
import { fieldsOf, gripPaths, gripsOf, moveEdits, stepMove } from './grips.js';
import { leversAt, pathOfContribution, payoffWords } from './lever-match.js';
import { gripOfHit, markOfGrip, planShape } from './plan-shape.js';
import { formAt, lastKey, shortFormAt } from './schema.js';
import { usualKeys } from './sections.js';
import { lineMarks, lineOfPath, movedCaret, pathAt } from './text-lines.js';
import { movedText, roundBelow } from './units.js';
import { cellEffectWords } from './words.js';

const text = (name = 'alondra') =>
  readFileSync(new URL(`../../../../../examples/${name}.yaml`, import.meta.url), 'utf8');

/** What 'set values' does with edits. */
function applied(before: string, edits: readonly ValueEdit[]): string {
  let now = before;
  for (const { path, text: value } of edits) {
    const { document } = readingOfDesign(now);
    const result = value === undefined ? removeFromDesign(document, path) : editDesign(document, path, value);
    if (!result.ok) throw new Error(`${path}: ${result.reason}`);
    now = result.text;
  }
  return now;
}
const errors = (of: string) => readingOfDesign(of).messages.filter(({ severity }) => severity === 'error');
const siAt = (of: string, path: string) => fieldValue('design', of, path)?.value;

describe('the schema as the page shows it', () => {
  it('gives every top-level key of the design file to one part, or to the place where one measures', () => {
    const keys = describeField('design', '')!.keys;
    expect(keys.length).toBe(Object.keys(aircraftField.fields).length);
    const shown = Object.values(partKeys).flat() as readonly string[];
    expect([...shown, ...measuredKeys].sort()).toEqual([...keys].sort());
  });
  it('knows how each key is written', () => {
    expect(formAt('surfaces')?.form).toBe('entries');
    expect(formAt('surfaces.wing')?.form).toBe('group');
    expect(formAt('surfaces.wing.stations')?.form).toBe('list');
    expect(formAt('surfaces.wing.mirrored')?.form).toBe('flag');
    expect(formAt('surfaces.wing.section')?.form).toBe('short');
    expect(shortFormAt('surfaces.wing.section')?.form).toBe('words');
    expect(formAt('masses.receiver')?.keys).toContain('on');
    expect(formAt('battery')).toMatchObject({ form: 'group', instead: ['none'] });
    expect(formAt('drive.propeller')?.form).toBe('short');
    expect(shortFormAt('drive.propeller')?.words.length).toBeGreaterThan(0);
    expect(formAt('flight.airspeed')).toMatchObject({ form: 'value', words: ['least power'] });
    expect(formAt('array.rows.top.cells')?.required).toBe(true);
    expect(formAt('no such key')).toBeUndefined();
  });
  it('agrees with the descriptions of the file about the keys of every group', () => {
    for (const path of [
      'surfaces.a',
      'surfaces.a.stations[1]',
      'surfaces.a.section',
      'surfaces.a.structure',
      'surfaces.a.structure.spars.b',
      'battery',
      'battery.cell',
      'drive.motor',
      'array',
      'array.converters.a',
      'flight',
    ])
      expect([...formAt(path)!.keys], path).toEqual([...describeField('design', path)!.keys]);
  });
  it('has only keys of the file among those shown first', () => {
    for (const path of [
      'surfaces.a',
      'flight',
      'battery',
      'drive.motor',
      'drive.propeller',
      'drive.speed controller',
      'drive',
      'array',
      'array.lamination',
      'array.cell',
      'array.converters.a',
      'surfaces.a.structure',
      'surfaces.a.structure.spars.b',
      'surfaces.a.structure.skins[1]',
    ])
      for (const key of usualKeys(path)!) expect(formAt(path)!.keys, `${path} ${key}`).toContain(key);
  });
  it('leads each path to its part', () => {
    expect(partOfPath('surfaces.wing.stations[2].chord')).toBe('airframe');
    expect(partOfPath('masses.receiver')).toBe('balance');
    expect(partOfPath('array.rows.top.cells')).toBe('array');
    expect(partOfPath('loads.camera.power')).toBe('drive');
    expect(partOfPath('surfaces.wing.structure.skins[1]')).toBe('structure');
    expect(partOfPath('surfaces.structure.x')).toBe('airframe');
    expect(partOfPath('wind')).toBeUndefined();
    expect(lastKey('surfaces.wing.stations[2]')).toBe('stations');
  });
});

describe('entries', () => {
  const groups = [
    'surfaces',
    'bodies',
    'extra drag',
    'masses',
    'loads',
    'array.rows',
    'array.converters',
    'surfaces.wing.controls',
  ];
  it.each(groups)('adds one to %s that can be computed with', (group) => {
    const before = text();
    const after = applied(before, addEntry(before, group, 'new one'));
    expect(keysAt('design', after, group)).toContain('new one');
    expect(errors(after)).toEqual([]);
    expect(after).toContain('# washout keeps the tips flying');
  });
  it('makes a string of rows that are in none, else of one that another string can spare', () => {
    const after = applied(text('bandeja'), addEntry(text('bandeja'), 'array.strings', 'third'));
    expect(listTexts(after, 'array.strings.third.rows')).toEqual(['rear right']);
    expect(listTexts(after, 'array.strings.right.rows')).toEqual(['front right', 'middle right']);
    expect(errors(after)).toEqual([]);
    expect(addEntry(text(), 'array.strings', 'second')).toEqual([]);
  });
  it('says of every number of a new entry that it is assumed', () => {
    const after = applied(text(), addEntry(text(), 'masses', 'tracker'));
    expect(fieldValue('design', after, 'masses.tracker.mass')?.source).toBe('assumed');
  });
  it.each(groups)('takes one from %s away again', (group) => {
    const after = applied(text(), addEntry(text(), group, 'new one'));
    const removed = removeEntry(after, group, 'new one');
    expect(removed.ok).toBe(true);
    if (removed.ok) expect(keysAt('design', applied(after, removed.edits), group)).not.toContain('new one');
  });
  it('renames a surface wherever it is named, and keeps comments and order', () => {
    const renamed = renameEntry(text(), 'surfaces', 'wing', 'main wing');
    expect(renamed.ok).toBe(true);
    if (!renamed.ok) return;
    expect(keysAt('design', renamed.text, 'surfaces')).toEqual(['main wing', 'tailplane', 'fin']);
    expect(fieldValue('design', renamed.text, 'array.rows.top.on')?.text).toBe('main wing');
    expect(fieldValue('design', renamed.text, 'masses.wing.on')?.text).toBe('main wing');
    expect(errors(renamed.text)).toEqual([]);
    expect(renamed.text.split('\n').length).toBe(text().split('\n').length);
    const back = renameEntry(renamed.text, 'surfaces', 'main wing', 'wing');
    expect(back).toEqual({ ok: true, text: text() });
  });
  it('renames a row and a converter in the strings', () => {
    const row = renameEntry(text('bandeja'), 'array.rows', 'front right', 'front, right');
    expect(row.ok).toBe(false);
    const plain = renameEntry(text('bandeja'), 'array.rows', 'front right', 'first right');
    if (!plain.ok) throw new Error(plain.reason);
    expect(listTexts(plain.text, 'array.strings.right.rows')[0]).toBe('first right');
    const converter = renameEntry(text(), 'array.converters', 'tracker', 'yes');
    if (!converter.ok) throw new Error(converter.reason);
    expect(errors(converter.text)).toEqual([]);
    expect(keysAt('design', converter.text, 'array.converters')).toEqual(['yes']);
  });
  it('refuses names that are taken or cannot be a key', () => {
    expect(nameProblem('pod', ['pod'])).toMatch(/already/);
    expect(nameProblem('a.b', [])).toBeDefined();
    expect(nameProblem('  ', [])).toBeDefined();
    expect(nameProblem('rear camera', ['pod'])).toBeUndefined();
    expect(freeName(['row', 'row 2'], 'row')).toBe('row 3');
  });
  it('does not take away what something lies on, and takes a row out of its string', () => {
    expect(removeEntry(text(), 'surfaces', 'wing').ok).toBe(false);
    const removed = removeEntry(text('bandeja'), 'array.rows', 'rear left');
    if (!removed.ok) throw new Error(removed.reason);
    const after = applied(text('bandeja'), removed.edits);
    expect(listTexts(after, 'array.strings.left.rows')).toEqual(['front left', 'middle left']);
    expect(errors(after)).toEqual([]);
  });
  it('says each in one line, as the file has it', () => {
    expect(entryBrief(text(), 'masses', 'wing')).toBe('mass 392 g weighed, on wing');
    expect(entryBrief(text(), 'loads', 'receiver')).toBe('0.3 W ± 0.1 W');
    expect(entryBrief(text(), 'array.rows', 'top')).toBe('cells 16, on wing');
    expect(entryBrief(text(), 'masses', 'nothing of the kind')).toBe('');
  });
  it('puts a station between two others', () => {
    const put = insertListItem(text(), 'surfaces.wing.stations', 2, { y: '1000 mm', chord: '190 mm' });
    if (!put.ok) throw new Error(put.reason);
    expect(siAt(put.text, 'surfaces.wing.stations[3].y')).toBeCloseTo(1, 9);
    expect(siAt(put.text, 'surfaces.wing.stations[4].y')).toBeCloseTo(1.2, 9);
    expect(put.text).toContain('# washout keeps the tips flying');
    expect(insertListItem(text(), 'surfaces.none.stations', 0, {}).ok).toBe(false);
  });
  it('writes a short form in full, with its comment', () => {
    const full = expandShort(text(), 'loads.receiver', 'power');
    if (!full.ok) throw new Error(full.reason);
    expect(siAt(full.text, 'loads.receiver.power')).toBeCloseTo(0.3, 9);
    expect(errors(full.text)).toEqual([]);
    expect(expandShort(full.text, 'loads.receiver', 'power').ok).toBe(false);
  });
});

describe('moving parts', () => {
  const move = (name: string, grip: Parameters<typeof moveEdits>[1], aft: number, right = 0) => {
    const before = text(name);
    const after = applied(before, moveEdits(before, grip, { aft, right }));
    expect(errors(after)).toEqual([]);
    return after;
  };
  it('moves the battery, rounded to a tenth of its step', () => {
    expect(moveEdits(text(), { kind: 'battery' }, { aft: -0.0412, right: 0 })).toEqual([
      { path: 'battery.x', text: '-21 mm' },
    ]);
  });
  it('leaves a part in the middle there', () => {
    expect(moveEdits(text(), { kind: 'mass', name: 'receiver' }, { aft: 0, right: 0.03 })).toEqual([]);
    const after = move('alondra', { kind: 'mass', name: 'aileron servos' }, 0.01, -0.02);
    expect(siAt(after, 'masses.aileron servos.x')).toBeCloseTo(0.12, 9);
    expect(siAt(after, 'masses.aileron servos.y')).toBeCloseTo(0.8, 9);
  });
  it('keeps the trailing edge while the leading edge moves, and the other way round', () => {
    const grip = { kind: 'station', surface: 'wing', index: 2, edge: 'leading edge' } as const;
    const nose = move('alondra', grip, 0.01);
    expect(siAt(nose, 'surfaces.wing.stations[3].leading edge')).toBeCloseTo(0.03, 9);
    expect(siAt(nose, 'surfaces.wing.stations[3].chord')).toBeCloseTo(0.14, 9);
    // Station 2 has no leading edge of its own: a quarter of the difference of chords follows from them.
    const tail = move('alondra', { kind: 'station', surface: 'wing', index: 1, edge: 'trailing edge' }, 0.02);
    const station = readingOfDesign(tail).aircraft!.surfaces[0]!.stations[1]!;
    expect(station.leadingEdge).toBeCloseTo(0, 9);
    expect(station.chord.value).toBeCloseTo(0.25, 9);
  });
  it('leaves stations outboard where they are when the root moves', () => {
    const after = move('alondra', { kind: 'station', surface: 'wing', index: 0, edge: 'leading edge' }, -0.03);
    const [was, now] = [text(), after].map((of) => readingOfDesign(of).aircraft!.surfaces[0]!);
    expect(now!.stations[0]!.chord.value).toBeCloseTo(0.26, 9);
    for (const i of [1, 2])
      expect(now!.x.value + now!.stations[i]!.leadingEdge).toBeCloseTo(was!.x.value + was!.stations[i]!.leadingEdge, 9);
  });
  it('keeps stations in their order', () => {
    const grip = { kind: 'station', surface: 'wing', index: 1, edge: 'trailing edge' } as const;
    const y = siAt(move('alondra', grip, 0, 5), 'surfaces.wing.stations[2].y')!;
    expect(y).toBeLessThan(1.2);
    expect(y).toBeGreaterThan(1.1);
  });
  it('does not widen an upright fin sideways', () => {
    const grip = { kind: 'station', surface: 'fin', index: 1, edge: 'trailing edge' } as const;
    expect(moveEdits(text(), grip, { aft: 0, right: 0.1 })).toEqual([]);
    const paths = gripPaths(grip, readingOfDesign(text()).aircraft!, fieldsOf(text()));
    expect(paths.across).toEqual([]);
  });
  it('moves a row of cells along the span without leaving the wing', () => {
    const grip = { kind: 'row', name: 'top', end: 'whole' } as const;
    const out = move('alondra', grip, 0, 9);
    expect(siAt(out, 'array.rows.top.to')).toBeCloseTo(1, 9);
    expect(siAt(out, 'array.rows.top.from')).toBeCloseTo(0.15, 2);
    const end = move('alondra', { ...grip, end: 'outer end' }, 0, -9);
    expect(siAt(end, 'array.rows.top.to')!).toBeGreaterThan(siAt(end, 'array.rows.top.from')!);
  });
  it('steps by the natural step of the field', () => {
    expect(stepMove(text(), { kind: 'battery' }, 'aft', -1)).toEqual({ aft: -0.005, right: 0 });
    const grip = { kind: 'station', surface: 'wing', index: 2, edge: 'trailing edge' } as const;
    expect(stepMove(text(), grip, 'right', 2).right).toBeCloseTo(0.1, 9);
    expect(stepMove(text(), { kind: 'battery' }, 'right', 1)).toEqual({ aft: 0, right: 0 });
  });
  it('moves there and back to the same design, for every part of every example', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('alondra', 'bandeja', 'vigilia'),
        fc.nat(),
        fc.integer({ min: -30, max: 30 }),
        (name, pick, millimetres) => {
          const before = text(name);
          const grips = gripsOf(before, ['battery', 'motor', 'mass', 'body', 'surface']);
          const grip = grips[pick % grips.length]!;
          const there = applied(before, moveEdits(before, grip, { aft: millimetres / 1000, right: 0 }));
          const back = applied(there, moveEdits(there, grip, { aft: -millimetres / 1000, right: 0 }));
          const paths = gripPaths(grip, readingOfDesign(before).aircraft!, fieldsOf(before)).along;
          for (const path of paths) expect(siAt(back, path)).toBeCloseTo(siAt(before, path) ?? siAt(back, path)!, 9);
        },
      ),
      { numRuns: 60 },
    );
  });
  it('has nothing to move in a file that cannot be read', () => {
    expect(gripsOf('nothing', ['battery'])).toEqual([]);
    expect(moveEdits('nothing', { kind: 'battery' }, { aft: 1, right: 0 })).toEqual([]);
  });
});

describe('units of moved values', () => {
  it('stays in the unit that the builder wrote, rounded there', () => {
    expect(writtenUnit('15 in ± 0.5 in measured', 'length')).toBe('in');
    expect(writtenUnit('-43 mm', 'length')).toBe('mm');
    expect(writtenUnit('', 'length')).toBeUndefined();
    expect(movedText(0.3815, { kind: 'length', like: '15 in', fineness: 0.001 })).toBe('15.02 in');
    expect(movedText(0.1, { kind: 'length', like: '8 cm ± 1 cm measured', fineness: 0.001 })).toBe('10 cm ± 1 cm');
    expect(movedText(0.5, { kind: 'ratio', like: '42 %', fineness: 0.005 })).toBe('50 %');
    expect(movedText(-0.0004, { kind: 'length', like: '0 mm', fineness: 0.001 })).toBe('0 mm');
  });
  it('rounds to 1, 2 or 5', () => {
    expect(roundBelow(0.001)).toBeCloseTo(0.001, 12);
    expect(roundBelow(0.03937)).toBeCloseTo(0.02, 12);
    expect(roundBelow(7)).toBe(5);
  });
});

describe('the plan view', () => {
  const shape = (name: string) => {
    const aircraft = readingOfDesign(text(name)).aircraft!;
    return planShape(aircraft, keysAt('design', text(name), 'masses'), undefined, { masses: true, cells: true });
  };
  it('draws as many cells as the file has', () => {
    expect(shape('alondra').cells).toHaveLength(16);
    expect(shape('bandeja').cells).toHaveLength(24);
  });
  it('marks what it lets move', () => {
    for (const grip of gripsOf(text(), ['battery', 'motor', 'mass', 'surface', 'body']))
      expect(gripOfHit({ id: markOfGrip(grip), kind: 'mass' })).toEqual(grip);
    const station = { kind: 'station', surface: 'wing', index: 2, edge: 'trailing edge' } as const;
    expect(gripOfHit({ id: markOfGrip(station), kind: 'station' })).toEqual(station);
    expect(gripOfHit({ id: 'row top', kind: 'cell' }, 0.9)).toEqual({ kind: 'row', name: 'top', end: 'outer end' });
    expect(gripOfHit({ id: 'balance point', kind: 'point' })).toBeUndefined();
  });
});

describe('levers beside their field', () => {
  const lever = (key: string, path: string, why: string): LeverView => ({
    key,
    label: key,
    edits: [{ path, text: '1', why }],
    payoff: { solarRatio: 0.07, carried: 840, endurance: 0 },
  });
  it('are those that change the field itself', () => {
    const all = [
      lever('one more cell', 'array.rows.top.cells', 'the change'),
      lever('longer wing', 'battery.x', 'balance'),
    ];
    expect(leversAt(all, 'array.rows.top.cells').map(({ key }) => key)).toEqual(['one more cell']);
    expect(leversAt(all, 'array.rows').map(({ key }) => key)).toEqual(['one more cell']);
    expect(leversAt(all, 'battery.x')).toEqual([]);
    expect(leversAt(all, 'array.rows.to')).toEqual([]);
  });
  it('say what they bring', () => {
    expect(payoffWords(lever('one more cell', 'a', 'the change'))).toBe(
      'one more cell: carried 14 min longer, income over need +0.07',
    );
    expect(payoffWords({ label: 'x', payoff: { solarRatio: -0.004, carried: 1, endurance: 0 } })).toBe(
      'x: hours carried as before, income over need unchanged',
    );
  });
  it('finds the key of what is unsure', () => {
    expect(pathOfContribution('profile drag of the sections')).toBe('flight.profile drag factor');
    expect(pathOfContribution('haze (turbidity)')).toBeUndefined();
    for (const label of ['mass', 'cells', 'converter (MPPT)', 'battery capacity', 'propeller', 'always-on loads'])
      expect(describeField('design', pathOfContribution(label)!), label).toBeDefined();
  });
});

describe('lines of the text', () => {
  it('finds the line of a key and the key of a line', () => {
    const of = text();
    const line = lineOfPath(of, 'battery.x');
    expect(of.split('\n')[line - 1]).toContain('x: 20 mm');
    for (const path of ['battery.x', 'surfaces.wing.stations[3].chord', 'loads.camera.share', 'name']) {
      const field = fieldValue('design', of, path)!;
      const start = of.indexOf(
        field.text,
        of
          .split('\n')
          .slice(0, lineOfPath(of, path) - 1)
          .join('\n').length,
      );
      if (path !== 'loads.camera.share') expect(pathAt(of, start)).toBe(path);
    }
    expect(pathAt(of, of.indexOf('moves from') + 3)).toBe('battery.moves from');
    expect(pathAt(of, of.indexOf('# x aft'))).toBeUndefined();
  });
  it('keeps the caret where its text is', () => {
    expect(movedCaret('a: 1\nb: 2\n', 'a: 100\nb: 2\n', 7)).toBe(9);
    expect(movedCaret('a: 1\nb: 2\n', 'a: 1\nb: 200\n', 2)).toBe(2);
    expect(movedCaret('abc', '', 2)).toBe(0);
    fc.assert(
      fc.property(fc.string(), fc.string(), fc.nat(), (was, now, at) => {
        const caret = movedCaret(was, now, at % (was.length + 1));
        return caret >= 0 && caret <= now.length;
      }),
    );
  });
  it('marks the worst of a line', () => {
    const message = (line: number, severity: 'error' | 'note') =>
      ({ line, severity, column: 1, path: '', found: '', expected: '', hint: '' }) as const;
    expect(lineMarks([message(2, 'note'), message(2, 'error'), message(3, 'note')])).toEqual(
      new Map([
        [2, 'error'],
        [3, 'note'],
      ]),
    );
  });
});

describe('what two more cells would do', () => {
  const said = { units: {}, language: 'en' } as const;

  it('is said as a change, and not as the mass of all cells', () => {
    expect(cellEffectWords({ mass: 0.0217, shift: 0.0014, batteryMove: -0.003 }, said)).toBe(
      'Two more cells on the first row, with film, would weigh 22 g and move the balance point 1 mm aft; the battery 3 mm forward makes up for it.',
    );
  });

  it('never says 0 mm', () => {
    expect(cellEffectWords({ mass: 0.0217, shift: 0.0002 }, said)).toBe(
      'Two more cells on the first row, with film, would weigh 22 g and hardly move the balance point.',
    );
  });
});
