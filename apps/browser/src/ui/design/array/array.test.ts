import { readFileSync } from 'node:fs';
import { editDesign, removeFromDesign } from '@noonwing/design';
import { cellPicture, ledgerChain, shadeCourse, stringCurve } from '@noonwing/drawing';
import { beforeAll, describe, expect, it } from 'vitest';
import type { ValueEdit } from '../../../core/commands.js';
import { laterJobs } from '../../../core/later-jobs.js';
import type { ComputeResponse } from '../../../core/messages.js';
import { readingOfDesign } from '../../../core/reading.js';
import type { ArrayView } from '../../../core/view-array-types.js';
import { createHandler } from '../../../core/worker.js';
import {
  cellName,
  curveData,
  lossData,
  lossWords,
  nextCell,
  pictureData,
  shadeData,
  shadeWords,
} from './array-data.js';
import { type CellPlace, type Split, splitEdits } from './split.js';

const example = (file: string) => readFileSync(new URL(`../../../../../../examples/${file}`, import.meta.url), 'utf8');
const context = { report: () => {}, stillWanted: async () => true };
const handler = createHandler(() => 0, laterJobs);

async function arrayOf(name: string, design = example(`${name}.yaml`), hour = 12.5): Promise<ArrayView> {
  const input = { design, plan: example(`${name}.day.yaml`), sections: {} };
  const response = (await handler.answer(
    { kind: 'array', input, sky: 0, hour, heading: 1 },
    context,
  )) as ComputeResponse;
  if (response.kind !== 'array') throw new Error(response.kind === 'refused' ? response.reason : response.kind);
  return response.view;
}

describe('the array as the page shows it', () => {
  let view: ArrayView;
  beforeAll(async () => {
    view = await arrayOf('bandeja');
  });

  it('draws the energy of every cell, and the sum is that of the cells', () => {
    const data = pictureData(view, 'day', { selected: 3, marked: [1, 2] });
    const cells = data.sheets.flatMap((sheet) => sheet.cells);
    expect(cells).toHaveLength(view.cells.length);
    const sum = cells.reduce((total, { value }) => total + value, 0);
    const energy = view.cells.reduce((total, { electricity }) => total + electricity, 0);
    expect(sum * 3600).toBeCloseTo(energy, 3);
    const { text, table } = cellPicture(data);
    const shown = table.rows.map(({ value }) => Number(value));
    expect(text).toContain(`${(sum / cells.length).toFixed(1)} Wh`);
    expect(text).toContain(`${Math.min(...shown).toFixed(1)} Wh`);
    expect(data.marked).toEqual(['1', '2']);
  });

  it('draws the light of the hour, the same as the facts of a cell', () => {
    const data = pictureData(view, 'hour', { marked: [] });
    expect(data.when).toBe('under a clear sky at 12:30, heading 57°');
    for (const { id, value } of data.sheets.flatMap((sheet) => sheet.cells)) {
      expect(value).toBe(view.now!.cells[Number(id)]!.light);
    }
  });

  it('numbers cells from the root of each half', () => {
    expect(cellName(view, view.cells[0]!)).toBe('cell 1 of row "front right"');
    const places = view.cells.filter(({ row }) => row === 'front left').map(({ place }) => place);
    expect([...places].sort((a, b) => a - b)).toEqual([0, 1, 2, 3]);
  });

  it('goes to the neighbour in the direction of an arrow key, and back', () => {
    for (const [there, back] of [
      ['ArrowRight', 'ArrowLeft'],
      ['ArrowDown', 'ArrowUp'],
    ] as const) {
      const next = nextCell(view.sheets, 0, there)!;
      expect(next).not.toBe(0);
      expect(nextCell(view.sheets, next, back)).toBe(0);
    }
    expect(nextCell(view.sheets, 0, 'Enter')).toBeUndefined();
  });

  it('says what shades a cell, and that nothing does', () => {
    const said = view.cells.map((_, c) => shadeWords(view, c));
    expect(new Set(said).size).toBeGreaterThan(0);
    for (const words of said) expect(words).toMatch(/^(nothing|.* takes \d+ % of the direct light.*|it looks away.*)$/);
  });

  it('splits shade by what casts it: parts add up to all together', () => {
    const { curves } = shadeData(view, undefined, 12);
    const all = curves.find(({ id }) => id === 'all')!;
    expect(all.points.length).toBeGreaterThan(10);
    for (const [k, [, share]] of all.points.entries()) {
      const parts = curves.filter(({ id }) => id !== 'all').reduce((sum, { points }) => sum + points[k]![1], 0);
      expect(share).toBeGreaterThanOrEqual(parts - 1e-9);
      expect(share).toBeLessThanOrEqual(100);
    }
    expect(shadeCourse(shadeData(view, 11, 12)).text).toMatch(/^On cell \d+ of row/);
  });

  it('gives losses that add up, in words and as the ledger', () => {
    const data = lossData(view);
    const sum = data.rows.reduce((total, { value }) => total + value, 0);
    expect(sum / (view.losses!.light / 3600)).toBeCloseTo(1, 5);
    expect(lossWords(view)).toContain(`Of ${Math.round(view.losses!.light / 3600)} Wh of light`);
    expect(ledgerChain(data).text).toContain(`${Math.round(view.losses!.taken / 3600)} Wh at the bus`);
  });

  it('reads the curve of a string with its maximum', () => {
    const data = curveData(view, 0)!;
    const most = Math.max(...data.points.map(({ power }) => power));
    expect(data.maxima[0]!.power).toBeGreaterThanOrEqual(most - 1e-6);
    expect(stringCurve(data).text).toContain(`${data.maxima[0]!.power.toFixed(1)} W`);
  });

  it('has the wiring with its caution', () => {
    expect(view.wiring!.picture.cautions[0]).toContain('always live');
    expect(view.wiring!.picture.strings.map(({ name }) => name)).toEqual(['right', 'left']);
  });

  it('is dark at night', async () => {
    const night = await arrayOf('bandeja', undefined, 1);
    expect(shadeWords(night, 0)).toBe('the sun is down');
    expect(stringCurve(curveData(night, 0)!).text).toContain('dark');
  });
});

const sidesOf = (view: ArrayView) => (row: string, side: 'right' | 'left') =>
  view.cells.filter((cell) => cell.row === row && cell.side === side).length;

function changed(text: string, split: Split): string {
  if (!split.ok) throw new Error(split.reason);
  return split.edits.reduce((before: string, { path, text: value }: ValueEdit) => {
    const { document } = readingOfDesign(before);
    const next = value === undefined ? removeFromDesign(document, path) : editDesign(document, path, value);
    if (!next.ok) throw new Error(`${path}: ${next.reason}`);
    return next.text;
  }, text);
}

describe('cells given to another string', () => {
  const given = async (name: string, places: readonly CellPlace[], target: Parameters<typeof splitEdits>[3]) => {
    const text = example(`${name}.yaml`);
    const before = await arrayOf(name);
    const { aircraft } = readingOfDesign(text);
    const split = splitEdits(text, aircraft!.array!, places, target, sidesOf(before));
    const after = changed(text, split);
    expect(readingOfDesign(after).messages.filter(({ severity }) => severity === 'error')).toEqual([]);
    return { before, after: await arrayOf(name, after) };
  };
  const spots = ({ cells }: ArrayView) => cells.map(({ centre }) => centre.map((at) => at.toFixed(5)).join(' ')).sort();
  const counts = ({ strings }: ArrayView) => strings.map(({ name, cells, parallel }) => [name, cells * parallel]);

  it('cuts a row where they end: every cell stays where it lies', async () => {
    const places = [0, 1].map((place): CellPlace => ({ row: 'top', side: 'left', place }));
    const { before, after } = await given('alondra', places, { string: 'inner' });
    expect(spots(after)).toEqual(spots(before));
    expect(counts(after)).toEqual([
      ['all', 14],
      ['inner', 2],
    ]);
    expect(after.strings.map(({ converter }) => converter)).toEqual(['tracker', 'inner']);
  });

  it('takes both halves together where the same of both is given', async () => {
    const places = (['right', 'left'] as const).flatMap((side) =>
      [5, 6, 7].map((place): CellPlace => ({ row: 'top', side, place })),
    );
    const { before, after } = await given('alondra', places, { string: 'tips', converter: 'tracker' });
    expect(spots(after)).toEqual(spots(before));
    expect(new Set(after.cells.map(({ row }) => row)).size).toBe(2);
    expect(counts(after)).toEqual([
      ['all', 10],
      ['tips', 6],
    ]);
  });

  it('moves a whole row to a string that is there', async () => {
    const places = [0, 1, 2, 3].map((place): CellPlace => ({ row: 'rear left', side: 'left', place }));
    const { before, after } = await given('bandeja', places, { string: 'right' });
    expect(spots(after)).toEqual(spots(before));
    expect(counts(after)).toEqual([
      ['right', 16],
      ['left', 8],
    ]);
  });

  it('takes a string away that has nothing left, with its converter', async () => {
    const places = ['front left', 'middle left', 'rear left'].flatMap((row) =>
      [0, 1, 2, 3].map((place): CellPlace => ({ row, side: 'left', place })),
    );
    const { after } = await given('bandeja', places, { string: 'right' });
    expect(counts(after)).toEqual([['right', 24]]);
  });

  it.each([
    ['those below on one side', 'left', [5, 6], ['all', 22], 2],
    ['the same above and below, on one side', 'right', [3, 4, 8, 9], ['all', 20], 4],
    ['all above and some below', 'left', [0, 1, 2, 3, 4, 7], ['all', 18], 6],
  ] as const)('cuts a row that lies on both faces: %s', async (_, side, numbers, kept, count) => {
    const text = example('alondra.yaml').replace(
      /top: \{.*\}/,
      'top: {on: wing, side: both, face: both, from: 2 %, to: 80 %, chord station: 42 %, cells: 20}',
    );
    const wide = text
      .replace(
        'cells: 20}',
        'cells: 20}\n    tail: {on: wing, side: both, from: 2 %, to: 80 %, chord station: 80 %, cells: 4}',
      )
      .replace('rows: [top]', 'rows: [top, tail]');
    const before = await arrayOf('alondra', wide);
    const places = numbers.map((place): CellPlace => ({ row: 'top', side, place }));
    const { aircraft } = readingOfDesign(wide);
    const split = splitEdits(wide, aircraft!.array!, places, { string: 'apart' }, sidesOf(before));
    const made = changed(wide, split);
    expect(readingOfDesign(made).messages.filter(({ severity }) => severity === 'error')).toEqual([]);
    const after = await arrayOf('alondra', made);
    expect(spots(after)).toEqual(spots(before));
    const faces = ({ cells }: ArrayView, face: string) => cells.filter((cell) => cell.face === face).length;
    expect(faces(after, 'lower')).toBe(faces(before, 'lower'));
    expect(counts(after)).toEqual([kept, ['apart', count]]);
  });

  it('says why not', async () => {
    const view = await arrayOf('bandeja');
    const text = example('bandeja.yaml');
    const array = readingOfDesign(text).aircraft!.array!;
    const of = (places: readonly CellPlace[], string: string, change = array) =>
      splitEdits(text, change, places, { string }, sidesOf(view));
    const cell: CellPlace = { row: 'rear left', side: 'left', place: 1 };
    expect(of([], 'right')).toEqual({ ok: false, reason: 'no cell is marked' });
    expect(of([cell], 'left')).toMatchObject({ ok: false, reason: expect.stringContaining('has these cells already') });
    const spaced = { ...array, rows: array.rows.map((row) => ({ ...row, gap: 0.002 })) };
    expect(of([cell], 'right', spaced)).toMatchObject({ ok: false, reason: expect.stringContaining('gap') });
    const paired = { ...array, strings: array.strings.map((string) => ({ ...string, parallel: 2 })) };
    expect(of([cell], 'right', paired)).toMatchObject({ ok: false, reason: expect.stringContaining('side by side') });
    const guarded = { ...array, strings: array.strings.map((string) => ({ ...string, diodes: [{ from: 1, to: 4 }] })) };
    expect(of([cell], 'right', guarded)).toMatchObject({ ok: false, reason: expect.stringContaining('diodes') });
  });
});
