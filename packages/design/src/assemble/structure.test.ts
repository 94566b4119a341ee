import { readFileSync } from 'node:fs';
import { surfacePart, surfaceSection } from '@noonwing/engine/structure';
import { describe, expect, it } from 'vitest';
import { completeDesign } from '../complete/index.js';
import { type MATERIALS, STRUCTURAL_MATERIALS } from '../library/materials.js';
import { readDesign } from '../read-files.js';
import { ownStiffenings } from './own-stiffening.js';
import { assembleShape, coverageOf } from './shape.js';
import { describedStructure, stiffnessSpread, structuralMaterial } from './structure.js';

const example = (name: string) => readFileSync(new URL(`../../../../examples/${name}.yaml`, import.meta.url), 'utf8');

function structureOf(text: string) {
  const { design, messages } = readDesign(text);
  if (design === undefined) throw new Error(JSON.stringify(messages));
  const { aircraft } = completeDesign(design);
  const shape = assembleShape(aircraft.surfaces, aircraft.bodies, aircraft.extraDrag, coverageOf(aircraft), {});
  if (!shape.ok) throw new Error(shape.reason);
  const [complete, surface] = [aircraft.surfaces[0]!, shape.value.shape.surfaces[0]!];
  return describedStructure(surface, complete, shape.value.sections, { array: aircraft.array });
}

describe('structure of a design', () => {
  it('of the examples gives stiffness as such wings have, and mass below what was weighed', () => {
    const expected = { bandeja: [4, 20], alondra: [80, 400], vigilia: [800, 4000] } as const;
    for (const [name, [low, high]] of Object.entries(expected)) {
      const made = structureOf(example(name));
      if (!made.ok || made.value === undefined) throw new Error(name);
      const section = surfaceSection(made.value, 0.3);
      expect(section.bending, name).toBeGreaterThan(low);
      expect(section.bending, name).toBeLessThan(high);
      expect(section.torsion, name).toBeGreaterThan(0.3);
    }
  });

  it('has the cells of a row as they are cut, turned, spaced and placed', () => {
    const rows = (of: string) => {
      const made = structureOf(example('bandeja').replace(/^ {2}rows:[\s\S]*?(?=^ {2}strings:)/m, `  rows:\n${of}`));
      if (!made.ok || made.value === undefined) throw new Error('bandeja');
      return made.value.cells;
    };
    const row = (more: string) =>
      `    one: {on: plank, face: upper, chord station: 40 %, from: 10 %, to: 90 %, ${more}}\n`;
    const [whole] = rows(row('cells: 6'));
    const share = (field: typeof whole) => field!.to - field!.from;
    expect(share(whole)).toBeCloseTo(whole!.width / 0.6, 6);
    // A half cell has half the width along the chord; turned, its long side lies there.
    const [half] = rows(row('cells: 6, pieces: 2'));
    const [turned] = rows(row('cells: 6, pieces: 2, turned: yes'));
    expect(share(half)).toBeCloseTo(share(whole) / 2, 3);
    expect(turned!.length).toBeCloseTo(half!.width, 6);
    expect(share(turned)).toBeCloseTo(turned!.width / 0.6, 6);
    // Side by side with a gap the row ends where its last cell ends.
    const [spaced] = rows(row('cells: 4, gap: 3 mm'));
    expect(spaced!.toY - spaced!.fromY).toBeCloseTo(2 * spaced!.length + 0.003, 6);
    const placed = rows(
      row('cells: 4, places: [{along: 20 %, chord station: 30 %}, {along: 60 %, chord station: 70 %}]'),
    );
    expect(placed.map(({ from, to }) => (from + to) / 2)).toEqual([expect.closeTo(0.3, 6), expect.closeTo(0.7, 6)]);
    expect(placed[0]!.toY).toBeLessThan(placed[1]!.fromY);
  });

  it('is undefined where the file says nothing of it', () => {
    const bare = example('bandeja').replace(/ {4}structure:[\s\S]*?(?= {4}stations:)/, '');
    expect(structureOf(bare)).toMatchObject({ ok: true, value: undefined });
  });

  it('names the layer without thickness and the tube that is none', () => {
    const thin = example('alondra').replace('{material: balsa, thickness: 1.5 mm, angle: 0 deg}', 'balsa');
    expect(structureOf(thin)).toMatchObject({ ok: false, code: 'layer-thickness' });
    const solid = example('bandeja').replace(
      'kind: strip, material: carbon strip, width: 1 mm',
      'kind: tube, material: carbon strip, width: 1 mm',
    );
    expect(structureOf(solid)).toMatchObject({
      ok: false,
      code: 'spar-size',
      where: 'surfaces.plank.structure.spars.front strip',
    });
  });

  it('comes apart where a joint says, its usual values named, and names a joiner whose size cannot be', () => {
    const joint = (size: string) =>
      structureOf(
        example('alondra').replace(
          'cells: floating',
          `joints:\n        outer: {material: carbon tube, at: 60 %, length: 80 mm, ${size}}\n      cells: floating`,
        ),
      );
    const made = joint('kind: tube, width: 8 mm, height: 6 mm');
    if (!made.ok || made.value === undefined) throw new Error('no structure');
    const [outer] = made.value.joints!;
    const { stations } = made.value;
    expect(outer!.y).toBeCloseTo(0.6 * stations.at(-1)!.y, 6);
    expect(outer).toMatchObject({ depth: 0.08, play: 0, torsionKept: 0.7, kind: 'tube' });
    const where = 'surfaces.wing.structure.joints.outer';
    expect(joint('kind: tube, width: 8 mm, height: 9 mm')).toMatchObject({ ok: false, code: 'joint-size', where });
    expect(joint('kind: blade, width: 3 mm')).toMatchObject({ ok: false, code: 'joint-size', where });
    expect(joint('kind: box, width: 8 mm, height: 8 mm, wall: 4 mm')).toMatchObject({ ok: false, code: 'joint-size' });
    expect(joint('kind: box, width: 8 mm, height: 8 mm, wall: 1 mm').ok).toBe(true);
  });

  it('takes materials with a density and moduli that can be', () => {
    for (const name of STRUCTURAL_MATERIALS) {
      const material = structuralMaterial(name);
      expect(material.density, name).toBeGreaterThan(10);
      expect(material.poisson ** 2 * material.modulusAcross, name).toBeLessThan(material.modulus);
    }
    expect(() => structuralMaterial('ETFE film 50 micron' as keyof typeof MATERIALS)).toThrow(RangeError);
  });

  it('takes the stiffness that load tests found, and their uncertainty once bending and twist were tested', () => {
    const tested = example('bandeja').replace(
      'cells: floating',
      'cells: floating\n      bending factor: 70 % ± 7 %\n      torsion factor: 80 % ± 4 %',
    );
    const [bare, made] = [structureOf(example('bandeja')), structureOf(tested)];
    if (!bare.ok || !made.ok || bare.value === undefined || made.value === undefined) throw new Error('no structure');
    expect(surfaceSection(made.value, 0.3).bending / surfaceSection(bare.value, 0.3).bending).toBeCloseTo(0.7, 6);
    expect(surfaceSection(made.value, 0.3).torsion / surfaceSection(bare.value, 0.3).torsion).toBeCloseTo(0.8, 6);
    const factor = (value: number, sigma: number) => ({ value, sigma, source: 'measured' as const });
    expect(stiffnessSpread({ bendingFactor: factor(0.7, 0.07) }, 'foam sheet')).toBeGreaterThan(0.4);
    const both = { bendingFactor: factor(0.7, 0.07), torsionFactor: factor(0.8, 0.04) };
    expect(stiffnessSpread(both, 'foam sheet')).toBeCloseTo(0.1, 6);
  });

  it('is as uncertain as its foam', () => {
    expect(stiffnessSpread({}, 'foam sheet')).toBeGreaterThan(0.4);
    expect(stiffnessSpread({ core: 'hollow' }, 'moulded')).toBeLessThan(0.3);
  });
});

describe('stiffening a wing with what it is built of', () => {
  const changesOf = (text: string) => {
    const made = structureOf(text);
    if (!made.ok || made.value === undefined) throw new Error('the wing is not described');
    const part = surfacePart(made.value);
    return ownStiffenings({
      described: { [part.name]: made.value },
      half: { surfaces: [part], bodies: [], masses: [] },
      stiffnessSigma: 0.3,
      foam: false,
      ...{ assumed: [], assumedJoints: [], acrossJoints: [], slackWires: [], strips: [] },
    });
  };
  const torsion = (changed: ReturnType<typeof changesOf>[number]) =>
    surfaceSection(Object.values(changed.structure.described)[0]!, 0.3).torsion;

  it('offers thicker sheeting of its nose where it has some: half of what lies there, and more torsion', () => {
    const text = example('alondra');
    const change = changesOf(text).find(({ name }) => name.includes('sheeting'))!;
    expect(change.name).toBe('sheeting of its nose half as thick again in its balsa');
    // 0.5 x 1.5 mm of balsa of 140 kg/m3 on 30 % of both faces of 0.51 m2.
    expect(change.mass).toBeCloseTo(0.5 * 1.5e-3 * 140 * 0.3 * 2 * 0.51, 2);
    const before = structureOf(text);
    if (!before.ok) throw new Error(before.reason);
    expect(torsion(change)).toBeGreaterThan(1.2 * surfaceSection(before.value!, 0.3).torsion);
  });

  it('offers sheeting to ribs under film that have none, and none to foam or shells', () => {
    const bare = example('alondra').replace(/^ +D-box:.*\n/m, '');
    const change = changesOf(bare).find(({ name }) => name.includes('nose'))!;
    expect(change.name).toContain('1.5 mm balsa on both faces, to 30 % of the chord');
    const before = structureOf(bare);
    if (!before.ok) throw new Error(before.reason);
    expect(torsion(change)).toBeGreaterThan(3 * surfaceSection(before.value!, 0.3).torsion);
    for (const name of ['bandeja', 'vigilia'])
      expect(changesOf(example(name)).some((each) => each.name.includes('nose'))).toBe(false);
  });
});
