import { completeDesign, newDesignText, readDesign } from '@noonwing/design';
import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages, verdict } from './index.js';
import { leverCandidates } from './lever-edits.js';
import { applyEdits, figuresOf, type Lever, type LeverReport, leverSlices, levers } from './levers.js';

const comments = (text: string): string[] => text.match(/ # .*|^# .*/gm) ?? [];

const reports = new Map<string, LeverReport>();

function reportOf(name: test.ExampleName): LeverReport {
  const known = reports.get(name);
  if (known !== undefined) return known;
  const plan = test.planOf(test.planText(name));
  const report = levers({ designText: test.designText(name), plan, files: {}, stages: createStages() });
  if ('ok' in report) throw new Error(report.reason);
  reports.set(name, report);
  return report;
}

const possible = (report: LeverReport): readonly Required<Pick<Lever, 'text' | 'after' | 'key' | 'edits'>>[] =>
  report.levers.flatMap(({ text, after, key, edits }) =>
    text === undefined || after === undefined ? [] : [{ text, after, key, edits }],
  );

describe.each(test.exampleNames)('levers of %s', (name) => {
  const report = reportOf(name);
  const original = test.designText(name);
  const plan = test.planOf(test.planText(name));
  const before = test.verdictOf(original, plan);
  // Fresh stages for each: nothing is remembered from the design before.
  const again = new Map(
    possible(report).map(({ key, text }) => [
      key,
      verdict(test.aircraftOf(text), plan, {}, createStages(), { samples: 0, contributions: false }),
    ]),
  );

  it('finds levers, best first, each with a payoff or the reason why it cannot be had', () => {
    expect(possible(report).length).toBeGreaterThan(8);
    const payoffs = report.levers.flatMap(({ payoff }) => (payoff === undefined ? [] : [payoff.solarRatio]));
    expect(payoffs).toEqual([...payoffs].sort((a, b) => b - a));
    for (const { payoff, problem } of report.levers) expect(payoff === undefined).toBe(problem !== undefined);
    expect(new Set(report.levers.map(({ key }) => key)).size).toBe(report.levers.length);
  });

  it('edits applied one by one give the text, comments of the file kept', () => {
    for (const { edits, text, key } of possible(report)) {
      const applied = applyEdits(original, edits);
      expect('ok' in applied ? applied : applied.text, key).toBe(text);
      expect(comments(text), key).toEqual(comments(original));
    }
  });

  it('the payoff is that of a full run of the edited file, to 1e-9', () => {
    for (const { after, key } of possible(report)) {
      const fresh = figuresOf(again.get(key)!, 0)!;
      for (const figure of Object.keys(after) as (keyof typeof after)[]) {
        const scale = Math.max(1, Math.abs(after[figure]));
        expect(Math.abs(fresh[figure] - after[figure]) / scale, `${key}: ${figure}`).toBeLessThan(1e-9);
      }
    }
  });

  it('the static margin is that of before within 0.5 mm of the balance point', () => {
    for (const { key } of possible(report)) {
      const after = again.get(key)!.balance!;
      const change = (after.staticMargin - before.balance!.staticMargin) * after.meanChord;
      expect(Math.abs(change), `${key}: ${(1000 * change).toFixed(2)} mm`).toBeLessThan(0.5e-3);
    }
  });

  it('a lever does what its name says to the mass', () => {
    for (const { key, after } of possible(report)) {
      if (/^(cells in|battery larger|second row|longer|broader)/.test(key))
        expect(after.mass, key).toBeGreaterThan(report.base.mass);
      if (/^(lighter|battery smaller)/.test(key)) expect(after.mass, key).toBeLessThan(report.base.mass);
      if (/^(wider circles|cleaner|slower motor)/.test(key)) expect(after.mass, key).toBeCloseTo(report.base.mass, 9);
    }
  });
});

describe('levers', () => {
  it('an unreadable file is a problem with a remedy', () => {
    const report = levers({
      designText: 'noonwing: design 1\nname: a\nbattery: {layout: 4X}\n',
      plan: test.planOf(test.midsummer),
      files: {},
      stages: createStages(),
    });
    expect(report).toMatchObject({ ok: false, code: 'unreadable' });
  });

  it('an aircraft whose mass is stated or weighed gets heavier by what a lever adds', () => {
    const weighed = test.edited(test.designText('alondra'), {
      'measured[1].what': 'mass',
      'measured[1].mass': '1.35 kg ± 0.01 kg',
    });
    const plan = test.planOf(test.planText('alondra'));
    const report = levers({ designText: weighed, plan, files: {}, stages: createStages() });
    if ('ok' in report) throw new Error(report.reason);
    expect(report.base.mass).toBeCloseTo(1.35, 9);
    const plain = reportOf('alondra');
    for (const key of ['cells in top', 'battery larger', 'lighter wing', 'longer wing']) {
      const change = (of: LeverReport) => of.levers.find((lever) => lever.key === key)!.after!.mass - of.base.mass;
      expect(change(report), key).toBeCloseTo(change(plain), 3);
    }
  });

  it('goes in slices that say how far it is, and can be left between any two', () => {
    const plan = test.planOf(test.planText('alondra'));
    const request = { designText: test.designText('alondra'), plan, files: {}, stages: createStages() };
    const shares = [...leverSlices(request)];
    expect(shares.length).toBeGreaterThan(reportOf('alondra').levers.length);
    expect(shares.every((share, i) => i === 0 || share >= shares[i - 1]!)).toBe(true);
    expect(shares.at(-1)).toBe(1);
    const left = leverSlices(request);
    for (let i = 0; i < 10; i++) expect(left.next().done).toBe(false);
    left.return(reportOf('alondra'));
    expect(left.next().done).toBe(true);
  });
});

describe('levers of a design that leaves out its drive', () => {
  const text = newDesignText({});
  if (!text.ok) throw new Error('no design');
  const { design } = readDesign(text.text);
  const candidates = leverCandidates(design!, completeDesign(design!).aircraft);

  it('can all be written, those of the assumed propeller too', () => {
    const propellers = candidates.filter(({ key }) => key.startsWith('propeller'));
    expect(propellers.length).toBe(4);
    for (const { edits, key } of candidates) expect([key, 'ok' in applyEdits(text.text, edits)]).toEqual([key, false]);
  });
});

describe('levers of a new design whose cells do not all fit', () => {
  const made = newDesignText({ span: '3 m', chord: '280 mm', cells: '40', mass: '2 kg' });
  if (!made.ok) throw new Error('no design');
  const plan = test.planOf(test.midsummer);
  const report = levers({ designText: made.text, plan, files: {}, stages: createStages() });
  if ('ok' in report) throw new Error(report.reason);
  const lever = (key: string) => report.levers.find((one) => one.key === key)!;

  it('are refused only where the change lays the cells that do not fit, not all of them', () => {
    const base = verdict(test.aircraftOf(made.text), plan, {}, createStages(), { samples: 0 });
    expect(base.warnings.map(({ code }) => code)).toContain('cells-do-not-fit');
    expect(possible(report).length).toBeGreaterThan(8);
    const more = report.levers.filter(({ label }) => label.startsWith('2 more cells'));
    expect(more.map(({ problem }) => problem?.code)).toEqual(['cells-do-not-fit', 'cells-do-not-fit']);
  });

  it('make the whole lighter where only its mass is stated, and restoring does not undo it', () => {
    const { after, payoff } = lever('lighter');
    expect(after!.mass).toBeCloseTo(1.8, 3);
    expect(payoff!.solarRatio).toBeGreaterThan(0.1);
  });

  it('split an assumed string by writing it down, with converters that suit the shorter strings', () => {
    const { text, payoff } = lever('row row 2 apart');
    const { array } = test.aircraftOf(text!);
    expect(array!.strings.map(({ name, rows }) => [name, rows])).toEqual([
      ['all', ['row 1']],
      ['row 2', ['row 2']],
    ]);
    // 40 cells in series step down to three cells of the pack; 20 do not reach it at all times.
    expect(array!.converters.map(({ topology }) => topology)).toEqual(['buck-boost', 'buck-boost']);
    expect(payoff!.solarRatio).toBeGreaterThan(0);
  });
});
