import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { completeDesign } from '../complete/index.js';
import { readDayPlan, readDesign } from '../read-files.js';
import { answerProblem, newDayPlanText, newDesignQuestions, newDesignText } from './index.js';

const design = (answers: Parameters<typeof newDesignText>[0]) => {
  const made = newDesignText(answers);
  if (!made.ok) throw new Error(made.problems[0]?.hint);
  const read = readDesign(made.text);
  expect(read.messages).toEqual([]);
  return read.design!;
};

describe('a new design', () => {
  it('needs no answer at all', () => {
    const made = design({});
    expect(made.surfaces).toHaveProperty('wing');
    expect(made.allUpMass?.source).toBe('assumed');
  });

  it('asks about ten things', () => {
    expect(newDesignQuestions.length).toBeGreaterThanOrEqual(8);
    expect(newDesignQuestions.length).toBeLessThanOrEqual(14);
    for (const question of newDesignQuestions) expect(answerProblem(question.key, question.default)).toBeUndefined();
  });

  it('needs no airframe where the level power is known', () => {
    const made = design({ 'level power': '16 W ± 2 W', battery: '3S2P', cells: '12' });
    expect(made.surfaces).toBeUndefined();
    expect(made.levelPower?.power.value).toBe(16);
  });

  it('marks answers as stated and the rest as assumed', () => {
    const made = design({ span: '2.4 m', chord: '220 mm', mass: '1.3 kg ± 0.1 kg' });
    expect(made.allUpMass).toEqual({ value: 1.3, sigma: 0.1, source: 'stated' });
    const stations = made.surfaces!.wing!.stations;
    expect(stations.at(-1)?.y).toMatchObject({ value: 1.2, source: 'stated' });
    expect(stations.at(-1)?.chord.source).toBe('assumed');
  });

  it('has the mean chord that was answered', () => {
    const { aircraft } = completeDesign(design({ span: '2 m', chord: '200 mm' }));
    const [a, b, c] = aircraft.surfaces[0]!.stations;
    const half = (b!.y - a!.y) * a!.chord.value + ((c!.y - b!.y) * (b!.chord.value + c!.chord.value)) / 2;
    expect(half).toBeCloseTo(0.2, 2);
  });

  it('holds all the cells, also in several rows', () => {
    for (const cells of [1, 7, 16, 40]) {
      const { array } = completeDesign(design({ span: '2.4 m', chord: '300 mm', cells: String(cells) })).aircraft;
      expect(array?.rows.reduce((sum, row) => sum + row.cells, 0)).toBe(cells);
    }
    expect(design({ cells: '0' }).array).toBe('none');
  });

  it('lays cells where they fit: on the chord that the outermost has, and none across the break of the dihedral', () => {
    const few = [{}, { span: '2.4 m', chord: '250 mm', cells: '20' }, { span: '1.8 m', chord: '200 mm' }];
    for (const answers of few) {
      const { surfaces, array } = completeDesign(design(answers)).aircraft;
      const { stations } = surfaces[0]!;
      const [root, broken, tip] = stations;
      const chordAt = (y: number) =>
        y <= broken!.y
          ? root!.chord.value
          : broken!.chord.value + ((y - broken!.y) / (tip!.y - broken!.y)) * (tip!.chord.value - broken!.chord.value);
      const half = array!.cell.width.value / 2;
      for (const row of array!.rows) {
        const chord = chordAt(row.to * tip!.y);
        expect(row.chordStation.value * chord - half).toBeGreaterThan(0);
        expect((1 - row.chordStation.value) * chord - half).toBeGreaterThan(0);
        const along = broken!.y / Math.cos((2 * Math.PI) / 180);
        const surface = along + (tip!.y - broken!.y) / Math.cos((6 * Math.PI) / 180);
        const place = (along - row.from * surface) / (((row.to - row.from) * surface) / (row.cells / 2));
        // The break lies within a millimetre of a seam, or beyond the row.
        if (place < row.cells / 2) expect(Math.abs(place - Math.round(place))).toBeLessThan(0.01);
      }
      const [first, ...others] = array!.rows;
      for (const row of others) expect(row.cells).toBe(first!.cells);
    }
  });

  it('says which answer cannot be used, and how to write it', () => {
    const made = newDesignText({ span: '80', battery: '3P', propeller: '10x6', cell: 'gold', mass: '-1 kg' });
    expect(made.ok).toBe(false);
    expect(made.ok ? [] : made.problems.map((problem) => problem.key)).toEqual([
      'span',
      'mass',
      'cell',
      'battery',
      'propeller',
    ]);
  });

  it('is a file that can be read for any answers that are accepted', () => {
    const size = fc.double({ min: 0.3, max: 8, noNaN: true }).map((value) => `${value.toFixed(2)} m`);
    const answers = fc.record(
      {
        name: fc.string(),
        layout: fc.constantFrom('tailed', 'flying wing', 'plank'),
        span: size,
        chord: fc.double({ min: 0.06, max: 0.9, noNaN: true }).map((value) => `${(value * 1000).toFixed(0)} mm`),
        mass: fc.double({ min: 0.05, max: 20, noNaN: true }).map((value) => `${value.toFixed(2)} kg`),
        cells: fc.nat(90).map(String),
        battery: fc.constantFrom('none', '2S1P', '6S4P'),
        'level power': fc.constantFrom('', '12 W', '40 W ± 4 W'),
      },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(answers, (given) => {
        const made = design(given);
        expect(completeDesign(made).aircraft.loads.length).toBeGreaterThan(0);
      }),
      { numRuns: 60 },
    );
  });

  it('comes with a day plan that can be read', () => {
    const { plan, messages } = readDayPlan(
      newDayPlanText({ place: '40,7 N 0,9 E', date: { year: 2026, month: 6, day: 21 }, utcOffset: 7200 }),
    );
    expect(messages).toEqual([]);
    expect(plan?.timeZone).toEqual({ offset: 7200 });
    expect(readDayPlan(newDayPlanText({ place: '40.7,0.9', date: { year: 2026, month: 6, day: 21 } })).ok).toBe(true);
  });
});
