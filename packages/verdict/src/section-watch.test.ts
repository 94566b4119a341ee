import { readFileSync } from 'node:fs';
import {
  type ComputedSections,
  completeDesign,
  completePlan,
  newDesignText,
  readDayPlan,
  readDesign,
} from '@noonwing/design';
import { sectionModel } from '@noonwing/engine/section';
import { describe, expect, it } from 'vitest';
import { centralVerdict } from './central.js';
import { type LeverReport, levers } from './levers.js';
import { createStages } from './stages.js';

const example = (name: string) => readFileSync(new URL(`../../../examples/${name}`, import.meta.url), 'utf8');
const { aircraft } = completeDesign(readDesign(example('alondra.yaml')).design!);
const { plan } = completePlan(readDayPlan(example('alondra.day.yaml')).plan!);

/** Computed sections by the first estimate, said to cover some Reynolds numbers and lifts; the tail's are not there. */
const said = (reynolds: readonly number[], lift: { least: number; most: number }): ComputedSections => ({
  from: 'test',
  inAir: () => said(reynolds, lift),
  of: (geometry, options) =>
    geometry.name === 'NACA 0007'
      ? { basis: { kind: 'not computed' } }
      : {
          model: sectionModel(geometry, options),
          basis: { kind: 'computed', from: 'test', rows: reynolds.map((one) => ({ reynolds: one, lift })) },
        },
});

const codes = (computed?: ComputedSections) =>
  centralVerdict(aircraft, plan, computed === undefined ? {} : { computed }, createStages())
    .warnings.filter(({ code }) => code.startsWith('section.'))
    .map(({ code, where }) => `${code} ${where}`);

const missing = ['section.estimate tailplane: NACA 0007', 'section.estimate fin: NACA 0007'];
const wide = { least: -0.5, most: 2 };

describe('sections beside what was computed', () => {
  it('are quiet where nothing is computed, and name what is missing where something is', () => {
    expect(codes()).toEqual([]);
    // Flown at 8 m/s with chords of 150 to 235 mm: 80 000 to 130 000.
    expect(codes(said([3e4, 6e5], wide))).toEqual(missing);
  });

  it('say where Reynolds numbers or lift leave what was computed', () => {
    expect(codes(said([2e5, 6e5], wide))).toEqual([...missing, 'section.reynolds wing: NACA 3410']);
    expect(codes(said([3e4, 6e4], wide))).toEqual([...missing, 'section.reynolds wing: NACA 3410']);
    expect(codes(said([3e4, 6e5], { least: 1.1, most: 1.2 }))).toEqual([...missing, 'section.lift wing: NACA 3410']);
  });
});

it('counts a strip between two sections for both, so that the section of a tip has an area', () => {
  const made = newDesignText({ layout: 'flying wing', span: '2 m' });
  if (!made.ok) throw new Error('no design');
  const wing = completeDesign(readDesign(made.text).design!).aircraft;
  const of = (reynolds: readonly number[]) =>
    centralVerdict(wing, plan, { computed: said(reynolds, wide) }, createStages()).warnings.filter(
      ({ code }) => code === 'section.reynolds',
    );
  expect(of([3e4, 6e5])).toEqual([]);
  const beyond = of([2e5, 6e5]);
  expect(beyond.map(({ where }) => where)).toEqual(['wing: NACA 2411', 'wing: NACA 0010']);
  // Once 'NaN % of its area'.
  for (const { message } of beyond) expect(message).toMatch(/^\d+ % of its area/);
});

describe('levers', () => {
  it('fly with the same computed sections, and refuse one whose polars are not computed', () => {
    const computed: ComputedSections = {
      from: 'test',
      inAir: () => computed,
      of: (geometry, options) =>
        geometry.name === 'NACA 2412'
          ? { basis: { kind: 'not computed' } }
          : {
              model: sectionModel(geometry, { ...options, dragFactor: 0.5 }),
              basis: { kind: 'computed', from: 'test', rows: [] },
            },
    };
    const lever = (path: string, text: string) => ({ key: path, label: path, edits: [{ path, text, why: 'test' }] });
    const changes = [lever('surfaces.wing.section', 'NACA 2412'), lever('surfaces.wing.stations[0].chord', '236 mm')];
    const ask = (files: { computed?: ComputedSections }) =>
      levers({
        designText: example('alondra.yaml'),
        plan,
        files,
        stages: createStages(),
        candidates: () => changes,
      }) as LeverReport;
    const found = ask({ computed });
    const by = (path: string) => found.levers.find(({ key }) => key === path);
    expect(by(changes[0]!.key)?.problem?.code).toBe('section.estimate');
    // Half the section drag is felt in the power after the change as in that before it.
    const plain = ask({});
    const chord = changes[1]!.key;
    expect(found.base.levelPower).toBeLessThan(plain.base.levelPower - 1);
    expect(by(chord)?.after?.levelPower).toBeLessThan(
      plain.levers.find(({ key }) => key === chord)!.after!.levelPower - 1,
    );
    expect(plain.levers.every(({ problem }) => problem === undefined)).toBe(true);
  });
});
