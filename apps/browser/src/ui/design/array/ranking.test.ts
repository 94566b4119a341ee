import { describe, expect, it } from 'vitest';
import type { LayoutsView, LeverFiguresView, LeversView, LeverView } from '../../../core/view.js';
import {
  arrayChanges,
  balanceCostWords,
  changesWords,
  layoutsWords,
  rankedRows,
  stringsWords,
} from './ranking-data.js';

const said = { units: {}, language: 'en' } as const;
const base: LeverFiguresView = {
  income: 471 * 3600,
  carried: 34500,
  endurance: 40000,
  solarRatio: 1.474,
  bestRatio: 2.2,
  lowestCharge: 0.1,
  levelPower: 21,
  mass: 1.015,
};
const lever = (label: string, paths: readonly string[], change: Partial<LeverFiguresView>): LeverView => ({
  key: label,
  label,
  edits: paths.map((path) => ({ path, text: '1', why: 'the change' })),
  text: label,
  after: { ...base, ...change },
});

describe('changes of the array by the energy of the day', () => {
  const view: LeversView = {
    sky: 'clear',
    base,
    measurements: [],
    levers: [
      lever('wing longer', ['surfaces.plank.span'], { income: 999 * 3600 }),
      lever('a diode', ['array.strings.left.cells per diode'], { income: base.income + 60, mass: 1.017 }),
      lever('fin aft', ['surfaces.fin.x'], { income: 484 * 3600, solarRatio: 1.516, carried: 35580 }),
      {
        ...lever('a string', ['array.strings.a.rows[1]'], {}),
        problem: { reason: 'too short', where: '', remedy: 'x' },
      },
    ],
  };
  const found = arrayChanges(view, ['fin']);

  it('are those of array and fins, and those that cannot be had apart', () => {
    expect(found.can.map(({ label }) => label)).toEqual(['fin aft', 'a diode']);
    expect(found.cannot.map(({ label }) => label)).toEqual(['a string']);
  });

  it('say figure and change, and what stays as it is', () => {
    expect(rankedRows(base, found.can, said).map(({ figures }) => figures)).toEqual([
      ['484 Wh\n(+13 Wh)', '1.52\n(+0.05)', '9 h 53 min\n(18 min more)', '1.01 kg\n(as now)', 'nothing'],
      ['471 Wh\n(as now)', '1.47\n(as now)', '9 h 35 min\n(as now)', '1.02 kg\n(+2 g)', 'nothing'],
    ]);
  });

  it('are told in one sentence, also where none helps', () => {
    expect(changesWords(view, found.can)).toBe(
      'Most energy over the day under a clear sky: fin aft, 484 instead of 471 Wh.',
    );
    expect(changesWords({ ...view, sky: 'thin cloud' }, found.can.slice(1))).toBe(
      'No change of cells, strings, converters or fins that was tried gives more than the 471 Wh over the day under thin cloud.',
    );
  });
});

describe('layouts', () => {
  const built = { ...lever('as built', [], {}), strings: [{ count: 2, cells: 12, parallel: 1, voltage: 6.16 }] };
  const other = {
    ...lever('3 strings', ['array.strings.a.rows[1]'], { income: 464 * 3600 }),
    strings: [
      { count: 1, cells: 8, parallel: 2, voltage: 4.107 },
      { count: 1, cells: 8, parallel: 1, voltage: 4.107 },
    ],
  };
  const view: LayoutsView = { sky: 'clear', base, layouts: [built, other] };

  it('say their strings, and nothing of a change where there is none', () => {
    expect(stringsWords(built.strings)).toBe('2 strings of 12 cells at 6.2 V');
    expect(stringsWords(other.strings)).toBe('1 string of 2 × 8 cells at 4.1 V, 1 string of 8 cells at 4.1 V');
    expect(rankedRows(base, view.layouts, said)[0]!.figures).toEqual(['471 Wh', '1.47', '9 h 35 min', '1.01 kg', '']);
  });

  it('are told in one sentence', () => {
    expect(layoutsWords(view)).toBe(
      'No other layout (1 tried) gives more over the day under a clear sky than the array as it is: 471 Wh.',
    );
    const better = { ...other, after: { ...base, income: 480 * 3600 } };
    expect(layoutsWords({ ...view, layouts: [better, built] })).toBe(
      'Most over the day under a clear sky: 3 strings, 480 instead of 471 Wh as it is.',
    );
  });
});

describe('what the balance takes', () => {
  it('is the way of the battery and ballast, and nothing below half a millimetre', () => {
    expect(balanceCostWords({ battery: -0.025, ballast: 0.0093 }, said)).toBe(
      'battery 25 mm forward and 9 g more ballast',
    );
    expect(balanceCostWords({ battery: 0.0004, ballast: -0.004 }, said)).toBe('4 g less ballast');
    expect(balanceCostWords(undefined, said)).toBe('nothing');
  });
});
