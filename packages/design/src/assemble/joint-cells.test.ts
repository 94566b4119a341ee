import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { completeDesign } from '../complete/index.js';
import { readDesign } from '../read-files.js';
import { cellsAcrossJoints } from './joint-cells.js';

const vigilia = readFileSync(new URL('../../../../examples/vigilia.yaml', import.meta.url), 'utf8');
const length = 2.305;

function across(text: string): readonly string[] {
  const { design } = readDesign(text);
  const { aircraft } = completeDesign(design!);
  return cellsAcrossJoints(aircraft.surfaces[0]!, aircraft.array, length);
}

describe('cells across a joint', () => {
  it('are none in Vigilia, whose outer panels part between two cells', () => {
    expect(across(vigilia)).toEqual([]);
  });

  it('are told where a row is moved over it, by side, and not where the surface is in one piece', () => {
    const moved = vigilia.replace('side: right, from: 1.8 %, to: 92.1 %', 'side: right, from: 1 %, to: 90 %');
    expect(across(moved)).toEqual([
      'wing: a cell of the row front right lies across the joint outer panel: the panels cannot come apart',
    ]);
    expect(across(moved.replace(/ {6}joints:[\s\S]*?(?= {6}cells:)/, ''))).toEqual([]);
    expect(across(moved.replace(/at: 69.5 %/, 'at: 0 %'))).toEqual([]);
  });

  it('count each place of cells that are placed one by one', () => {
    const places = (second: string) =>
      vigilia.replace(
        /front right: \{on: wing, side: right.*cells: 16\}/,
        `front right: {on: wing, side: right, chord station: 25 %, cells: 2, places: [{along: 20 %, chord station: 30 %}, {along: ${second}, chord station: 30 %}]}`,
      );
    expect(across(places('69 %')).join()).toContain('front right');
    expect(across(places('80 %'))).toEqual([]);
  });
});
