import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { cellsOfDay } from './cells-day.js';

describe('energy of the day, cell by cell', () => {
  const verdict = test.verdictOf(test.designText('bandeja'), test.planText('bandeja'));
  const found = cellsOfDay(verdict, 0)!;

  it('adds up to the light on the facets of the array', () => {
    const { array } = verdict.prepared.run;
    const { effective } = verdict.courses[0]!.ledger;
    const facets = array!.facets.length;
    let light = 0;
    for (let step = 0; step < verdict.grid.stepsPerDay; step++) {
      for (const [f, { area }] of array!.facets.entries()) light += area * effective[step * facets + f]!;
    }
    const step = verdict.grid.times[1]! - verdict.grid.times[0]!;
    const sum = found.cells.reduce((total, cell) => total + cell.light, 0);
    expect(sum / (light * step)).toBeCloseTo(1, 9);
  });

  it('is least on the cells beside the fins, which cast most of the shade', () => {
    const least = [...found.cells].sort((a, b) => a.electricity - b.electricity).slice(0, 2);
    expect(least.map(({ cell }) => cell.row).sort()).toEqual(['rear left', 'rear right']);
    expect(found.casters[0]!.name).toBe('fin');
  });
});
