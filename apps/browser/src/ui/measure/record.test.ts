import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apply } from '../../core/commands.js';
import { readingOfDesign } from '../../core/reading.js';
import type { Work } from '../../core/state.js';
import { kindOf, recordKinds } from './kinds.js';
import {
  type Draft,
  readDraft,
  recordEdits,
  recordLines,
  recordsOf,
  switchEdit,
  typedValue,
  withoutRecord,
  withRecord,
} from './record.js';

const alondra = readFileSync(new URL('../../../../../examples/alondra.yaml', import.meta.url), 'utf8');
const run = kindOf('motor run')!;
const array = kindOf('array reading')!;

function added(design: string, what: 'motor run' | 'array reading' | 'mass', draft: Draft): string {
  const kind = kindOf(what)!;
  const { ok, values, problems } = readDraft(kind, draft);
  expect(problems).toEqual({});
  expect(ok).toBe(true);
  const result = withRecord(design, recordLines(what, values, kind.keys));
  if (!result.ok) throw new Error(result.reason);
  return result.text;
}

const motorDraft = { voltage: '14,2', current: '12.5 A ± 0.2 A', throttle: '100', note: 'no: "second" run # of two' };

describe('a new record', () => {
  it('is appended and leaves every other character of the file', () => {
    const text = added(alondra, 'motor run', motorDraft);
    expect(text.startsWith(alondra.trimEnd())).toBe(true);
    expect(readingOfDesign(text).messages.filter(({ severity }) => severity === 'error')).toEqual([]);
    const [record] = readingOfDesign(text).design!.measured!;
    expect(record).toMatchObject({
      what: 'motor run',
      voltage: { value: 14.2 },
      current: { value: 12.5, sigma: 0.2 },
      throttle: { value: 1 },
      note: 'no: "second" run # of two',
    });
  });

  it('comes after those that are there, whatever follows the list', () => {
    const before = `${added(alondra, 'motor run', motorDraft)}\n# at the end\nlevel power: 16 W\n`;
    const text = added(before, 'array reading', {
      current: '1.9',
      voltage: '15.2',
      time: '2026-06-21T12:00+02:00',
      tilt: '30',
    });
    expect(recordsOf(text).map(({ what }) => what)).toEqual(['motor run', 'array reading']);
    expect(text).toContain('# at the end\nlevel power: 16 W\n');
    expect(readingOfDesign(text).design!.measured![1]).toMatchObject({ what: 'array reading', time: 1782036000 });
  });

  it('is refused where the list is written in one line, and says the way out', () => {
    const flow = `${alondra}measured: [{what: mass, mass: 1.3 kg}]\n`;
    const result = withRecord(flow, ['- what: mass', '  mass: 1.4 kg']);
    expect(result).toMatchObject({ ok: false });
    expect(!result.ok && result.reason).toContain('text of the file');
  });

  it('never brings an error into the file', () => {
    const result = withRecord(alondra, ['- what: mass', '  mass: 1.4 apples']);
    expect(result).toMatchObject({ ok: false });
  });

  it('reads back whatever is written as a note', () => {
    fc.assert(
      fc.property(
        fc
          .string({ unit: 'grapheme', minLength: 1, maxLength: 40 })
          .map((text) => text.trim())
          .filter((text) => text !== ''),
        (note) => {
          const result = withRecord(alondra, recordLines('mass', { mass: '1.3 kg', note }, kindOf('mass')!.keys));
          if (!result.ok) throw new Error(result.reason);
          const record = readingOfDesign(result.text).design!.measured![0]!;
          expect(record.note?.trim()).toBe(note);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('typed values', () => {
  const key = (name: string, of = run) => of.keys.find((one) => one.key === name)!;

  it('take the unit of the field where none is typed', () => {
    expect(typedValue(key('voltage'), '14.2')).toMatchObject({ ok: true, text: '14.2 V', value: 14.2 });
    expect(typedValue(key('voltage'), '14200 mV')).toMatchObject({ ok: true, text: '14200 mV' });
    expect(typedValue(key('thrust'), '480', 'N')).toMatchObject({ ok: true, text: '480 N' });
  });

  it('say what is wrong', () => {
    expect(typedValue(key('voltage'), '')).toEqual({ ok: false, problem: 'Volts is needed.' });
    expect(typedValue(key('voltage'), '14.2 A')).toMatchObject({ ok: false });
    expect(typedValue(key('time', array), '12:00')).toMatchObject({ ok: false });
    expect(typedValue(key('speed'), '')).toEqual({ ok: true, text: '' });
  });

  it('are all keys that the file knows', () => {
    for (const kind of recordKinds) {
      const values = Object.fromEntries(
        kind.keys.map(({ key: name, kinds, unit, notation, example, choices }) => [
          name,
          notation === 'instant'
            ? '2026-06-21T10:00Z'
            : notation === 'date'
              ? '2026-06-21'
              : notation === 'place'
                ? '40.7 N 0.9 E'
                : kinds === undefined
                  ? (choices?.[0] ?? example ?? 'words')
                  : `1 ${unit === '%' ? '%' : unit}`,
        ]),
      );
      const result = withRecord(alondra, recordLines(kind.what, values, kind.keys));
      expect(result, kind.what).toMatchObject({ ok: true });
      const messages = result.ok
        ? readingOfDesign(result.text).messages.filter(({ path }) => path.startsWith('measured'))
        : [];
      expect(messages, kind.what).toEqual([]);
      if (result.ok) expect(recordsOf(result.text)[0]!.values).toEqual(values);
    }
  });
});

describe('records of a file', () => {
  const two = added(added(alondra, 'mass', { mass: '1.3 kg' }), 'mass', { mass: '1.4 kg' });

  it('count the last in use of each kind', () => {
    expect(recordsOf(two).map(({ counts }) => counts)).toEqual([false, true]);
    const off = two.replace('mass: 1.4 kg', 'mass: 1.4 kg\n    use: no');
    expect(recordsOf(off).map(({ isUsed, counts }) => [isUsed, counts])).toEqual([
      [true, true],
      [false, false],
    ]);
    expect(recordsOf(alondra)).toEqual([]);
  });

  it('are taken away one by one, the list with the last', () => {
    const one = withoutRecord(two, 0);
    expect(one.ok && recordsOf(one.text)[0]!.values.mass).toBe('1.4 kg');
    const none = one.ok ? withoutRecord(one.text, 0) : one;
    expect(none.ok && none.text.trimEnd()).toBe(alondra.trimEnd());
  });

  it('are changed and switched through edits of the file', () => {
    const work: Work = {
      projects: { p: { id: 'p', name: 'p', files: { 'a.yaml': two }, design: 'a.yaml' } },
      current: 'p',
      pending: {},
    };
    const record = recordsOf(two)[1]!;
    const edits = [
      ...recordEdits(record, { mass: '1.45 kg', note: 'with camera' }, kindOf('mass')!.keys),
      switchEdit(record),
    ];
    const { work: after, result } = apply(work, { kind: 'set values', edits });
    expect(result).toMatchObject({ ok: true });
    const changed = recordsOf(after.projects.p!.files['a.yaml']!)[1]!;
    expect(changed).toMatchObject({ isUsed: false, values: { mass: '1.45 kg', note: 'with camera' } });
    const { work: back } = apply(after, { kind: 'set values', edits: [switchEdit(changed)] });
    expect(recordsOf(back.projects.p!.files['a.yaml']!)[1]!.isUsed).toBe(true);
  });

  it('give no edits where nothing was changed', () => {
    const record = recordsOf(two)[0]!;
    expect(recordEdits(record, record.values, kindOf('mass')!.keys)).toEqual([]);
  });
});
