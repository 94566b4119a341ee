import { readFileSync } from 'node:fs';
import { editDesign } from '@noonwing/design';
import { cellStrain, layUpPlan, limitBands, sectionCut, underLoad } from '@noonwing/drawing';
import { beforeAll, describe, expect, it } from 'vitest';
import { laterJobs } from '../../../core/later-jobs.js';
import type { ComputeInput, ComputeRequest, ComputeResponse, ViewOf } from '../../../core/messages.js';
import { readingOfDesign } from '../../../core/reading.js';
import { createHandler } from '../../../core/worker.js';
import { pendingWords } from '../pending.js';
import { bandData } from './band-data.js';
import { bentShape, caseWords, cellStrainData, edgeAt, underLoadData } from './bent-data.js';
import { cutAt, numbered, planData, sectionData, spanOf, sparAt } from './lay-up-data.js';
import {
  cautions,
  diveWords,
  flightWords,
  heatWords,
  limitFinding,
  marginWords,
  stiffeningWords,
} from './limit-words.js';
import { structureStart } from './start.js';

const example = (file: string) => readFileSync(new URL(`../../../../../../examples/${file}`, import.meta.url), 'utf8');
const said = { units: {}, language: 'en' } as const;
const context = { report: () => {}, stillWanted: async () => true };

/** What the worker answers about an example; the text of the design changed by `edit`. */
async function asked<K extends 'limits' | 'stiffenings'>(
  kind: K,
  name: string,
  handler = createHandler(() => 0, laterJobs),
  edit: (text: string) => string = (text) => text,
): Promise<ViewOf[K]> {
  const input: ComputeInput = {
    design: edit(example(`${name}.yaml`)),
    plan: example(`${name}.day.yaml`),
    sections: {},
  };
  const request = { kind, input } as ComputeRequest;
  const response = (await handler.answer(request, context)) as ComputeResponse;
  if (response.kind === 'refused') throw new Error(response.reason);
  return response.view as unknown as ViewOf[K];
}

describe('limits of Bandeja', () => {
  const handler = createHandler(() => 0, laterJobs);
  let view: ViewOf['limits'];
  beforeAll(async () => {
    view = await asked('limits', 'bandeja', handler);
    // A loaded machine is slow; nothing here is about time.
  }, 60_000);

  it('say that it is flown above its limit, by how much, and that no dive has room', () => {
    expect(limitFinding(view, said)).toMatch(/^Limit speed 7\.\d+ m\/s: the wing twists against its roll controls/);
    expect(marginWords(view, said)).toMatch(/^It is flown above its limit: the 9\.\d+ m\/s flown are 1\.2 times/);
    const grounded = { ...view, undriven: true };
    expect(marginWords(grounded, said)).toMatch(/^It cannot fly level as it is, .* looked for at 9\.\d+ m\/s/);
    expect(diveWords(view, said)).toEqual([expect.stringContaining('no room below the limit speed')]);
    expect(heatWords(view, said).join(' ')).toMatch(
      /20 K warmer .* In flight in the noon sun, air at \d+ °C, .* Parked in that sun .* foam keeps \d+ % .* for the same reason/,
    );
  });

  it('are the same in the drawing, with the airspeeds flown and what is not counted', () => {
    const data = bandData(view, 'Bandeja', undefined, { units: {} });
    expect(data.limits.map(({ id }) => id)).toHaveLength(new Set(data.limits.map(({ id }) => id)).size);
    expect(data.limits.at(-1)).toMatchObject({ label: 'loose linkage', aside: true });
    expect(data.flown[0]).toMatchObject({ label: 'level, flown', value: view.airspeed });
    expect(bandData({ ...view, undriven: true }, 'Bandeja', undefined, { units: {} }).flown[0]!.label).toBe(
      'looked for at',
    );
    expect(limitBands(data).text).toContain(`${view.limits[0]!.low.toFixed(1)} m/s`);
    const knots = bandData(view, 'Bandeja', undefined, { units: { speed: 'kt' } });
    expect(knots.speed.unit).toBe('kt');
    expect(knots.limits[0]!.low).toBeCloseTo(view.limits[0]!.low / 0.514444, 3);
  });

  it('come with what to stiffen, the most for its mass first; what does nothing is left out', async () => {
    const { changes, tried } = await asked('stiffenings', 'bandeja', handler);
    expect(tried).toBeGreaterThanOrEqual(changes.length);
    expect(stiffeningWords(changes[0]!, said)).toMatch(/glass.*\+ \d+ g, limit speed .* for each 10 g\); then/);
    for (const [i, change] of changes.entries()) {
      expect(change.limitSpeed).toBeGreaterThan(view.limits[0]!.low);
      if (i > 0) expect(change.perMass).toBeLessThanOrEqual(changes[i - 1]!.perMass);
    }
  });

  it('hold its lay-up: foam, two strips, cells on soft glue, one number each', () => {
    const [plank] = view.layUps;
    const { parts } = numbered(plank!, view.materials);
    expect(parts.map(({ number }) => number)).toEqual(parts.map((_, i) => i + 1));
    expect(parts[0]).toMatchObject({ kind: 'core', detail: 'extruded polystyrene foam' });
    expect(parts[0]!.known).toBe('assumed: typical stiffness, ± 40 %');
    expect(parts.filter(({ kind }) => kind === 'spar').map(({ label }) => label)).toEqual([
      'front strip',
      'rear strip',
    ]);
    expect(parts.filter(({ kind }) => kind === 'cell')[0]!.detail).toContain('floating on 0.3 mm of soft glue');
    const cut = sectionData(plank!, 0.3, view.materials);
    expect(cut.shapes).toHaveLength(2);
    expect(cut.shapes[0]).toMatchObject({ form: 'box', x: 90, width: 1, height: 6 });
    expect(sectionCut(cut).text).toContain('600 mm of chord, 9 mm thick');
    // At the tip neither strips nor cells are left.
    const tip = sectionData(plank!, spanOf(plank!)[1], view.materials);
    expect([tip.shapes, tip.cells]).toEqual([[], []]);
    for (const { kind, detail } of tip.parts) if (kind === 'spar') expect(detail).toContain('not cut here');
    expect(cut.parts.find(({ kind }) => kind === 'spar')!.detail).not.toContain('not cut here');
    const plan = planData(plank!, 0.3, view.materials);
    expect(plan.outline).toHaveLength(4);
    expect(plan.spars).toHaveLength(2);
    expect(layUpPlan(plan).text).toContain('A dashed line marks the cut');
  });
});

describe('the lay-up of the others', () => {
  it('of Alondra has sheeting under film, caps with a web, ribs and a hinge', async () => {
    const view = await asked('limits', 'alondra');
    const wing = view.layUps.find(({ name }) => name === 'wing')!;
    const { parts } = numbered(wing, view.materials);
    expect(parts.map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['skin', 'sheet', 'spar', 'web', 'rib', 'cell', 'control']),
    );
    expect(parts.find(({ kind }) => kind === 'skin')!.label).toBe('skin of both faces');
    const cut = sectionData(wing, 0.3, view.materials);
    expect(cut.core).toBeUndefined();
    expect(cut.shapes).toHaveLength(3);
    const web = cut.shapes[0]!;
    const caps = cut.shapes.slice(1);
    expect(web).toMatchObject({ width: 3 });
    expect(caps[0]!.z).toBeGreaterThan(web.z);
    expect(caps[1]!.z).toBeLessThan(web.z);
    // Caps taper: narrower half way than at the root.
    const half = sparAt(wing.spars[0]!, 0.6)!;
    expect(half.width).toBeLessThan(sparAt(wing.spars[0]!, 0)!.width);
    expect(sparAt(wing.spars[0]!, 99)).toBeUndefined();
    expect(planData(wing, undefined, []).ribs.length).toBeGreaterThan(10);
    expect(cutAt(wing, 0.72).chord).toBeCloseTo(0.23, 6);
    expect(marginWords(view, said)).toMatch(/^That is 2\.\d times the/);
    expect(diveWords(view, said)[0]).toMatch(/^10° nose down: never; drag holds it at/);
  });

  it('of Vigilia shows where its outer panels come off: a cut through the joiner has it, one beside it has not', async () => {
    const view = await asked('limits', 'vigilia');
    const wing = view.layUps.find(({ name }) => name === 'wing')!;
    const joint = numbered(wing, view.materials).parts.find(({ kind }) => kind === 'joint')!;
    expect(joint.detail).toBe(
      'panels part 1602 mm out, joined by a carbon tube, 16/12 mm, 160 mm in the socket of each',
    );
    const tubes = (y: number) =>
      sectionData(wing, y, view.materials).shapes.filter(({ number }) => number === joint.number);
    expect(tubes(1.5)).toMatchObject([{ form: 'tube', outer: 16, inner: 12 }]);
    expect(tubes(1.3)).toEqual([]);
    const plan = planData(wing, undefined, view.materials);
    expect(plan.joints![0]!.split[0]![1]).toBeCloseTo(1602, 0);
    expect(layUpPlan(plan).text).toContain('panels part 1602 mm out');
  });

  it('of a braced wing draws the wire, says where it is tied and what it bears', async () => {
    const wire = 'front: {material: steel wire, diameter: 0.5 mm, at: 60 %, x: 80 mm, z: -120 mm}';
    const braced = (text: string) =>
      text.replace('    structure:\n', `    structure:\n      wires:\n        ${wire}\n`);
    const view = await asked('limits', 'alondra', undefined, braced);
    const wing = view.layUps.find(({ name }) => name === 'wing')!;
    const plan = planData(wing, undefined, view.materials);
    expect(plan.wires![0]!.points[0]).toEqual([80, 0]);
    expect(plan.wires![0]!.points[1]![1]).toBeGreaterThan(700);
    expect(layUpPlan(plan).text).toMatch(/wire front: tied 7\d\d mm out/);
    expect(flightWords(view, said).join(' ')).toMatch(
      /Wire front of wing pulls with .* N in level flight and parts at/,
    );
  });

  it('that is not described says what is assumed', async () => {
    const bare = (text: string) => text.replace(/ {4}structure:[\s\S]*?(?= {4}stations:)/, '');
    const view = await asked('limits', 'bandeja', undefined, bare);
    expect(view.layUps).toEqual([]);
    expect(view.assumed.join()).toContain('bare foam');
  });
});

describe('under load', () => {
  it('Alondra bends up and its cells are strained, each where it lies', async () => {
    const handler = createHandler(() => 0, laterJobs);
    const input = { design: example('alondra.yaml'), plan: example('alondra.day.yaml'), sections: {} };
    const verdict = (await handler.answer({ kind: 'verdict', input, samples: 0 }, context)) as ComputeResponse;
    const load = { kind: 'underLoad', input, airspeed: 12, loadFactor: 2 } as const;
    const found = (await handler.answer(load, context)) as ComputeResponse;
    if (verdict.kind !== 'verdict' || found.kind !== 'underLoad') throw new Error('kind');
    const { shape } = verdict.view;
    const { view } = found;
    expect(caseWords(view, said)).toBe('at 12.0 m/s and 2.0 g');
    const data = underLoadData(shape, view, { aircraft: 'Alondra', times: 1, said });
    const { strips } = data.surfaces[0]!;
    // Dihedral stands in the shape at rest, the rise comes on top of it.
    expect(strips.at(-1)!.y).toBeCloseTo(1200, 0);
    expect(strips.at(-1)!.rest[0]![1]).toBeGreaterThan(50);
    expect(strips.at(-1)!.bent[0]![1]).toBeGreaterThan(strips.at(-1)!.rest[0]![1]);
    expect(underLoad(data).text).toMatch(/tip of the wing: leading edge \d+(\.\d)? mm up/);
    const bent = bentShape(shape, view, 3).surfaces.find(({ name }) => name === 'wing')!;
    expect(bent.bend!.rises.at(-1)![0]).toBeCloseTo(3 * view.surfaces[0]!.chords.at(-1)!.rise[0]!, 12);
    const strain = cellStrainData(shape, view, 'Alondra', said);
    expect(strain.cells).toHaveLength(
      shape.facets.filter(({ surface }) => surface === 'wing').reduce((sum, { cells }) => sum + cells, 0),
    );
    expect(new Set(strain.cells.map(({ id }) => id)).size).toBe(strain.cells.length);
    const across = strain.cells.flatMap(({ corners }) => corners.map(([, y]) => y));
    expect(Math.min(...across)).toBeCloseTo(-Math.max(...across), 6);
    expect(cellStrain(strain).text).toContain('of the strain that cracks a usual cell');
  });

  it('edges of a surface are found by the share of its span, dihedral included', () => {
    const stations = [
      { x: 0, y: 0, z: 0, chord: 0.3, twist: 0 },
      { x: 0, y: 0.6, z: 0.8, chord: 0.3, twist: 0 },
      { x: 0.1, y: 1.6, z: 0.8, chord: 0.1, twist: 0.1 },
    ];
    expect(edgeAt({ stations }, 0.25)).toMatchObject({ y: 0.3, z: 0.4 });
    expect(edgeAt({ stations }, 0.75).chord).toBeCloseTo(0.2, 12);
    expect(edgeAt({ stations }, 2).y).toBeCloseTo(1.6, 12);
  });
});

describe('a start', () => {
  it.each(['foam sheet', 'foam', 'built-up', 'moulded'])('of %s is a structure that the file takes', (construction) => {
    let text = example('bandeja.yaml').replace(/ {4}structure:[\s\S]*?(?= {4}stations:)/, '');
    for (const { path, text: value } of structureStart('surfaces.plank.structure', construction)) {
      const edited = editDesign(readingOfDesign(text).document, path, value!);
      if (!edited.ok) throw new Error(`${path}: ${edited.reason}`);
      text = edited.text;
    }
    const { messages, aircraft } = readingOfDesign(text);
    expect(messages.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(Object.keys(aircraft!.surfaces[0]!.structure!.spars!)).toHaveLength(1);
  });
});

it('what is pending is said, with the way out of a refusal', () => {
  expect(pendingWords({ kind: 'idle' }, 'Limits')).toBe('');
  expect(pendingWords({ kind: 'running', share: 0.3 }, 'Limits')).toBe('Limits: being computed … 30 %');
  const refusal = { kind: 'refused' as const, reason: 'it has no height', where: 'x', remedy: 'give a height' };
  expect(pendingWords({ kind: 'refused', refusal }, 'Limits')).toBe(
    'Limits: not known. It has no height. Give a height.',
  );
  expect(cautions.join(' ')).not.toMatch(/\b(safe|legal)\b/i);
});
