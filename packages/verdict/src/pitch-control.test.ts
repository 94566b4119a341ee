import { readFileSync } from 'node:fs';
import {
  completeDesign,
  completePlan,
  computedSections,
  readDayPlan,
  readDesign,
  readStoredText,
  type SectionSources,
} from '@noonwing/design';
import { describe, expect, it } from 'vitest';
import { centralVerdict } from './central.js';
import { pitchControlWords } from './pitch-control.js';
import { createStages } from './stages.js';

const text = (file: string) => readFileSync(new URL(`../../../examples/${file}`, import.meta.url), 'utf8');
const stored = readStoredText(text('polars.json'))!;

/** The balance of the demo aircraft with the given sections. */
function balanceOf(sections: SectionSources, design = text('alondra.yaml')) {
  const aircraft = completeDesign(readDesign(design).design!).aircraft;
  const plan = completePlan(readDayPlan(text('alondra.day.yaml')).plan!).plan;
  return centralVerdict(aircraft, plan, sections, createStages()).balance!;
}

const computed = balanceOf({ computed: computedSections(stored, 'store') });
const { controls: _, ...before } = stored;
const old = balanceOf({ computed: computedSections(before, 'store') });

describe('a pitch control', () => {
  it('turns what its deflected sections do where they were computed; a store of before leaves the fit, and both say so', () => {
    expect(computed.controls[0]).toMatchObject({ computed: true });
    expect(pitchControlWords(computed.controls[0]!)).toContain('computed with this section deflected');
    expect(old.controls[0]).toMatchObject({ computed: false });
    expect(pitchControlWords(old.controls[0]!)).toContain('by a fit to other sections');
    // NACA 0007 at 55 thousand: 0.71 of theory computed, 0.62 by the fit (docs/polars.md).
    expect(computed.controls[0]!.efficiency.value).toBeGreaterThan(old.controls[0]!.efficiency.value);
  });

  it('trims between two deflections, further out where it turns less', () => {
    for (const { controls } of [computed, old]) {
      const { trim, trimBand, efficiency } = controls[0]!;
      expect(trimBand!.low).toBeLessThan(trim!);
      expect(trimBand!.high).toBeGreaterThan(trim!);
      // Log-normal: the ends lie a factor apart that is the same both ways, where the ratio hardly changes with deflection.
      const factor = Math.exp((1.645 * efficiency.spread) / efficiency.value);
      expect(trimBand!.low / trim!).toBeGreaterThan(0.9 * Math.min(factor, 1 / factor));
      expect(trimBand!.low / trim!).toBeLessThan(1.1 * Math.max(factor, 1 / factor));
    }
  });

  it('moves the foremost balance point with what it turns', () => {
    expect(computed.forwardSigma).toBeGreaterThan(0);
    // 0.1 to 0.4 of its effect, which moves the point by some 50 mm.
    expect(computed.forwardSigma).toBeLessThan(0.03);
  });

  it('with an open gap turns less, and the limit of the balance point lies further aft', () => {
    const open = balanceOf(
      { computed: computedSections(stored, 'store') },
      text('alondra.yaml').replace('{kind: elevator,', '{kind: elevator, gap: 1 mm,'),
    );
    expect(open.controls[0]!.efficiency.value).toBeLessThan(computed.controls[0]!.efficiency.value);
    expect(pitchControlWords(open.controls[0]!)).toContain('the open gap of 1.0 mm at its hinge costs');
    expect(open.range.forward).toBeGreaterThan(computed.range.forward);
  });
});
