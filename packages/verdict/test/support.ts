import { readFileSync } from 'node:fs';
import {
  type CompleteAircraft,
  type CompletePlan,
  completeDesign,
  completePlan,
  editDesign,
  readDayPlan,
  readDesign,
} from '@noonwing/design';
import { createStages, type Stages, type Verdict, type VerdictOptions, verdict } from '../src/index.js';

export const exampleNames = ['alondra', 'bandeja', 'vigilia'] as const;
export type ExampleName = (typeof exampleNames)[number];

const text = (file: string): string => readFileSync(new URL(`../../../examples/${file}`, import.meta.url), 'utf8');

export const designText = (name: ExampleName): string => text(`${name}.yaml`);
export const planText = (name: ExampleName): string => text(`${name}.day.yaml`);

/** Aircraft of a design text; fails the test where the text has errors. */
export function aircraftOf(design: string): CompleteAircraft {
  const read = readDesign(design);
  if (!read.ok || read.design === undefined) throw new Error(`the design has errors: ${JSON.stringify(read.messages)}`);
  return completeDesign(read.design).aircraft;
}

export function planOf(plan: string): CompletePlan {
  const read = readDayPlan(plan);
  if (!read.ok || read.plan === undefined) throw new Error(`the plan has errors: ${JSON.stringify(read.messages)}`);
  return completePlan(read.plan).plan;
}

/** A text with some values set, each by its path. */
export function edited(design: string, changes: Readonly<Record<string, string>>): string {
  let current = design;
  for (const [path, value] of Object.entries(changes)) {
    const result = editDesign(readDesign(current).document, path, value);
    if (!result.ok) throw new Error(`${path}: ${result.reason}`);
    current = result.text;
  }
  return current;
}

/** The central case alone, in coarse steps. */
export const quick: VerdictOptions = { samples: 0, step: 1200, sampleStep: 1200 };

/** Verdict of texts. */
export const verdictOf = (
  design: string,
  plan: string | CompletePlan,
  options: VerdictOptions = quick,
  stages: Stages = createStages(),
): Verdict => verdict(aircraftOf(design), typeof plan === 'string' ? planOf(plan) : plan, {}, stages, options);

/** Where plain data holds NaN or an infinite number; empty where it does not. */
export function unreal(value: unknown, path = '', found: string[] = [], seen = new Set<unknown>()): readonly string[] {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) found.push(`${path} = ${value}`);
  } else if (typeof value === 'string') {
    if (/\bNaN\b|Infinity|undefined/.test(value)) found.push(`${path} = "${value}"`);
  } else if (ArrayBuffer.isView(value)) {
    const wrong = Array.from(value as Float64Array).findIndex((number) => !Number.isFinite(number));
    if (wrong >= 0) found.push(`${path}[${wrong}] = ${(value as Float64Array)[wrong]}`);
  } else if (typeof value === 'object' && value !== null && !seen.has(value)) {
    seen.add(value);
    for (const [key, part] of Object.entries(value)) unreal(part, `${path}.${key}`, found, seen);
  }
  return found;
}

/** A flight whose level power is stated: no airframe. */
export const statedDesign = `noonwing: design 1
name: stated
level power: 16 W ± 2 W
battery: {cell: lithium-ion 18650 3.4 Ah, layout: 4S2P}
array:
  cell: back-contact 125 mm
  rows:
    top: {on: wing, side: both, from: 0 %, to: 90 %, chord station: 40 %, cells: 24}
`;

export const midsummer = `noonwing: day 1
place: {at: 40.7 N 0.9 E, altitude: 0 m}
date: 2026-06-21
time zone: Europe/Madrid
`;

/**
 * Standard-normal numbers that are the same in every run (G. Marsaglia, Xorshift RNGs, J. Stat. Software 8(14), 2003;
 * G. Box, M. Muller, Ann. Math. Stat. 29, 1958). A multiplicative congruential generator would not do: the pairs that
 * Box and Muller take from it spread too widely.
 */
export function normalNumbers(seed: number): () => number {
  let [x, y, z, w] = [seed | 1, 362_436_069, 521_288_629, 88_675_123];
  const uniform = () => {
    const t = x ^ (x << 11);
    [x, y, z] = [y, z, w];
    w = w ^ (w >>> 19) ^ t ^ (t >>> 8);
    return ((w >>> 0) + 0.5) / 2 ** 32;
  };
  for (let i = 0; i < 50; i++) uniform();
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
