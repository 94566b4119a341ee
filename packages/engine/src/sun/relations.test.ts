import { describe, expect, it } from 'vitest';
import type { Relation, RelationValues } from '../relation.js';
import { sunRelations } from './relations.js';

const degree = Math.PI / 180;

function relation(topic: string): Relation {
  const found = sunRelations.find((candidate) => candidate.topic === topic);
  if (!found) throw new Error(topic);
  return found;
}

/** Asks with defaults filled in, as the command line does. */
function ask(topic: string, given: RelationValues): Record<string, number | string> {
  const { inputs, compute } = relation(topic);
  const values: Record<string, number | string> = {};
  for (const input of inputs) {
    const value = given[input.key] ?? input.default;
    if (value === undefined) throw new Error(`${topic} needs ${input.key}`);
    values[input.key] = value;
  }
  return compute(values);
}

const instant = Date.UTC(2026, 5, 21, 12) / 1000;
const place = { latitude: 40.7 * degree, longitude: 0.9 * degree, instant };
const samples: Readonly<Record<string, RelationValues>> = {
  sun: place,
  daylight: place,
  sky: { zenith: 60 * degree },
  turbidity: { month: 6 },
  plane: { zenith: 60 * degree, tilt: 30 * degree, directNormal: 786.07, diffuseHorizontal: 75.55, cover: 'none' },
  incidence: { angle: 60 * degree },
  attitude: { heading: 90 * degree, bank: 30 * degree },
  circle: { zenith: 60 * degree, bank: 30 * degree },
};

describe('relations', () => {
  it.each(sunRelations.map((item) => [item.topic, item] as const))('%s returns every output, finite', (topic, item) => {
    const result = ask(topic, samples[topic]!);
    expect(Object.keys(result).sort()).toEqual(item.outputs.map((output) => output.key).sort());
    for (const value of Object.values(result)) expect(Number.isFinite(value)).toBe(true);
  });
  it('sky gives the published clear sky', () => {
    const result = ask('sky', { zenith: 60 * degree, turbidity: 3, altitude: 0 });
    expect(result.globalHorizontal).toBeCloseTo(468.59, 2);
    expect(result.directNormal).toBeCloseTo(786.07, 2);
    expect(result.diffuseHorizontal).toBeCloseTo(75.55, 2);
    const january = ask('sky', { zenith: 60 * degree, day: 1 });
    expect((january.globalHorizontal as number) / 468.59).toBeCloseTo(1.03505, 4);
    const half = ask('sky', { zenith: 60 * degree, clearSkyIndex: 0.5 });
    expect(half.globalHorizontal).toBeCloseTo(234.29, 1);
  });
  it('plane gives the banked wing of the checks', () => {
    const result = ask('plane', samples.plane!);
    expect(result.direct).toBeCloseTo(680.757, 2);
    expect((result.circumsolar as number) + (result.isotropic as number) + (result.horizon as number)).toBeCloseTo(
      111.533,
      2,
    );
  });
  it('attitude faces south in a right bank flying east', () => {
    const result = ask('attitude', samples.attitude!);
    expect((result.facing as number) / degree).toBeCloseTo(180, 9);
    expect((result.tilt as number) / degree).toBeCloseTo(30, 9);
    expect(ask('attitude', {}).facing).toBe(0);
  });
  it('circle without bank or dihedral is the level wing', () => {
    const result = ask('circle', { zenith: 40 * degree, bank: 0 });
    expect(result.ratioToLevel).toBeCloseTo(1, 6);
    expect(result.least).toBeCloseTo(result.most as number, 6);
  });
  it.each([
    ['sun', { ...place, latitude: 2 }],
    ['sun', { ...place, instant: 1e12 }],
    ['sun', { ...place, temperature: 20 }],
    ['daylight', { ...place, latitude: 80 * degree }],
    ['sky', { zenith: -1 }],
    ['sky', { zenith: 1, turbidity: 0 }],
    ['sky', { zenith: 1, altitude: 9000 }],
    ['sky', { zenith: 1, extraterrestrial: 0 }],
    ['sky', { zenith: 1, day: 400 }],
    ['sky', { zenith: 1, clearSkyIndex: 2 }],
    ['turbidity', { month: 0 }],
    ['plane', { ...samples.plane, tilt: 4 }],
    ['plane', { ...samples.plane, directNormal: -1 }],
    ['plane', { ...samples.plane, albedo: 20 }],
    ['circle', { zenith: 2, bank: 0 }],
    ['circle', { zenith: 1, bank: 2 }],
  ] as const)('%s says why not %#', (topic, values) => {
    const result = ask(topic, values as RelationValues);
    expect(result).toHaveProperty('reason');
    expect(result).toHaveProperty('remedy');
  });
  it('daylight of a polar day names what happens', () => {
    expect(ask('daylight', { ...place, latitude: 80 * degree }).reason).toContain('never sets');
  });
});
