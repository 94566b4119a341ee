import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { cellSheets } from './cell-sheets.js';
import { cellsNow } from './cells-now.js';
import { skyTermsAtStep, stepAt } from './sky-at.js';

const of = (name: 'alondra' | 'vigilia' | 'bandeja', changes: Record<string, string> = {}) =>
  test.verdictOf(test.edited(test.designText(name), changes), test.planText(name));

describe('cells at an instant', () => {
  const verdict = of('alondra');

  it('around the circle have the mean light of the day at that hour', () => {
    const step = verdict.grid.times[1]! - verdict.grid.times[0]!;
    const index = Math.round((12 * 3600) / step);
    // In the middle of the step, as the course has it.
    const hour = 12 + step / 7200;
    const headings = verdict.light!.geometry.headings;
    let sum = 0;
    for (const heading of headings) {
      for (const { light } of cellsNow(verdict, 0, { hour, heading })!.cells) sum += light;
    }
    const cells = verdict.prepared.run.array!.cells!.length;
    const facets = verdict.prepared.run.array!.facets;
    const mean = facets.reduce(
      (total, { cells: own }, f) =>
        total + (own!.length / cells) * verdict.courses[0]!.ledger.effective[index * facets.length + f]!,
      0,
    );
    // The attitude of the course is rounded, its table of shade is read at the same places.
    expect(sum / headings.length / cells / mean).toBeCloseTo(1, 2);
  });

  it('no string gives more than its cells, and a curve falls from short to open circuit', () => {
    const { strings } = cellsNow(verdict, 0, { hour: 13, heading: 1 })!;
    for (const { maxima, cells, current, voltage, held } of strings) {
      expect(maxima[0]!.power).toBeLessThanOrEqual(cells * (1 + 1e-9));
      expect(maxima[0]!.power).toBeGreaterThan(0.8 * cells);
      expect(held.power).toBeLessThanOrEqual(maxima[0]!.power * (1 + 1e-9));
      for (let k = 1; k < voltage.length; k++) expect(current[k]!).toBeLessThanOrEqual(current[k - 1]! + 1e-9);
      expect(current.at(-1)!).toBeCloseTo(0, 6);
    }
  });

  it('behind a blocking diode give its drop less, at every current', () => {
    const guarded = of('alondra', { 'array.strings.all.blocking diode': '0.5 V' });
    const at = { hour: 13, heading: 1 };
    const [plain, blocked] = [cellsNow(verdict, 0, at)!.strings[0]!, cellsNow(guarded, 0, at)!.strings[0]!];
    expect(plain.voltage.at(-1)! - blocked.voltage.at(-1)!).toBeCloseTo(0.5, 2);
    const [best] = plain.maxima;
    expect(best!.power - blocked.maxima[0]!.power).toBeGreaterThan(0.4 * best!.current);
    expect(blocked.held.power).toBeLessThanOrEqual(blocked.maxima[0]!.power * (1 + 1e-9));
  });

  it('name the cell that the others would heat', () => {
    const hurt = of('alondra', {
      'array.strings.all.cracked[0].cell': '3',
      'array.strings.all.cracked[0].lost area': '85 %',
      'array.lamination.transmittance': '100 %',
    });
    const [string] = cellsNow(hurt, 0, { hour: 14, heading: 1 })!.strings;
    const wired = hurt.prepared.run.array!.strings[0]!.members![0]![2]!;
    const { index, side } = hurt.prepared.run.array!.cells![wired]!;
    expect(string!.warnings[0]).toMatchObject({
      code: 'hot-spot',
      where: 'array.strings.all',
      message: expect.stringContaining(`cell ${index + 1} of row "top", ${side}`),
    });
  });

  it('on one converter are held at one voltage, and share what it takes', () => {
    const at = { hour: 9, heading: 1.5 };
    const apart = cellsNow(of('vigilia'), 0, at)!.strings;
    const shared = cellsNow(
      of('vigilia', {
        'array.strings.front left.converter': 'front right',
        'array.strings.rear left.converter': 'rear right',
      }),
      0,
      at,
    )!.strings;
    const [right, , left] = shared;
    expect(left!.held.voltage).toBe(right!.held.voltage);
    const both = right!.held.power + left!.held.power;
    // Side by side they lose little, and gain nothing.
    expect(both / (apart[0]!.held.power + apart[2]!.held.power)).toBeGreaterThan(0.97);
    expect(both).toBeLessThanOrEqual(right!.maxima[0]!.power + left!.maxima[0]!.power);
  });

  it('of unlike length on one converter are told what holds them: each other, not the light', () => {
    const at = { hour: 12, heading: 1.5 };
    const strings = cellsNow(of('vigilia', { 'array.strings.rear right.converter': 'front right' }), 0, at)!.strings;
    const [long, short, alone] = strings;
    expect(long!.held.voltage).toBe(short!.held.voltage);
    expect(long!.held.because).toContain('shares with the others');
    expect(alone!.held.because).toBe('the light on the cells');
    // The 16 cells are held near the voltage of the 12, well below their own best.
    expect(long!.held.voltage).toBeLessThan(0.85 * long!.maxima[0]!.voltage);
    expect(long!.held.power).toBeLessThan(0.9 * long!.maxima[0]!.power);
  });

  it('at night are dark, without a number that is none', () => {
    const { cells, strings } = cellsNow(verdict, 0, { hour: 1, heading: 0 })!;
    expect(cells.every(({ light, power }) => light === 0 && power === 0)).toBe(true);
    expect(strings[0]!.maxima).toEqual([]);
    expect(strings[0]!.held.power).toBe(0);
  });
});

describe('the unrolled surfaces', () => {
  it.each(['alondra', 'vigilia', 'bandeja'] as const)(
    'of %s hold every cell once, within their outline, with its string',
    (name) => {
      const verdict = of(name);
      const sheets = cellSheets(verdict);
      const all = sheets.flatMap(({ cells }) => cells);
      expect(all.map(({ index }) => index).sort((a, b) => a - b)).toEqual(
        verdict.prepared.run.array!.cells!.map((_, i) => i),
      );
      for (const { outlines, cells } of sheets) {
        const across = outlines.flat().map(([, y]) => y);
        for (const { corners, string } of cells) {
          expect(string).toBeDefined();
          for (const [, y] of corners) {
            expect(y).toBeGreaterThan(Math.min(...across) - 0.02);
            expect(y).toBeLessThan(Math.max(...across) + 0.02);
          }
        }
      }
    },
  );

  it('show both faces where cells lie on both, the lower ones in the light of ground and horizon', () => {
    const verdict = of('alondra', {
      'array.rows.top.face': 'both',
      'array.rows.top.cells': '32',
      'array.strings.all.parallel': '2',
    });
    const sheets = cellSheets(verdict);
    expect(sheets.map(({ face, cells }) => [face, cells.length])).toEqual([
      ['upper', 16],
      ['lower', 16],
    ]);
    const places = sheets.flatMap(({ cells }) => cells.map(({ side, place }) => `${side} ${place}`));
    expect(new Set(places).size).toBe(32);
    const { cells } = cellsNow(verdict, 0, { hour: 13, heading: 1 })!;
    const terms = skyTermsAtStep(verdict, 0, stepAt(verdict, 13))!;
    for (const { index } of sheets[1]!.cells) {
      // Ground alone is `ground` of the whole view down; from below nothing of sun or clear sky comes near that.
      expect(cells[index]!.light).toBeGreaterThan(0.6 * terms.ground);
      expect(cells[index]!.light).toBeLessThan(1.3 * terms.ground);
    }
  });

  it('bear the fins that stand on them, not those of a tail boom', () => {
    expect(cellSheets(of('bandeja'))[0]!.walls.map(({ name }) => name)).toEqual(['fin', 'fin']);
    expect(cellSheets(of('vigilia'))[0]!.walls).toEqual([]);
  });

  it('keep the size of a cell', () => {
    const [cell] = cellSheets(of('alondra'))[0]!.cells;
    const aft = cell!.corners.map(([x]) => x);
    const across = cell!.corners.map(([, y]) => y);
    expect(Math.max(...across) - Math.min(...across)).toBeCloseTo(0.125, 3);
    expect(Math.max(...aft) - Math.min(...aft)).toBeCloseTo(0.125, 2);
  });
});
