import type { PowerPoint } from './cell.js';
import { cellString, type StringCell, type StringWiring } from './cell-string.js';
import { maximumPowerPoint } from './maximum.js';
import { stringMaximumPowerPoint } from './string-maximum.js';
import { cellAt } from './translate.js';

/**
 * Remembers the greatest power of a string by the pattern of the light on its cells. A memory belongs to one string: it
 * must be thrown away when the wiring changes. It is state, and the only one in this folder.
 */
export interface StringMemory {
  /**
   * @param irradiance - effective, on every cell [W/m2]
   * @param temperature - mean temperature of the cells [K]
   * @param offset - first cell in `irradiance`, default 0
   */
  readonly maximum: (irradiance: Float64Array, temperature: number, offset?: number) => PowerPoint;
  /** Lookups, patterns computed, and the largest relative error in power among the lookups that were computed as well. */
  readonly shown: () => { readonly lookups: number; readonly patterns: number; readonly error: number };
}

/** Steps of the pattern: light of a cell relative to the brightest (logarithmic), level of light, temperature [K]. */
const patternStep = 0.004;
const levelStep = 0.1;
const temperatureStep = 4;
/** Cells darker than this share of the brightest are alike: they give next to nothing. */
const darkShare = 0.004;
/** Every so many lookups one is computed as well, to show the error. */
const checkedEvery = 97;

/** Two hashes of whole numbers side by side in one exact number of 53 bits: among millions of patterns none are confused. */
function patternKey(steps: Int32Array, level: number, warmth: number): number {
  let a = Math.imul(level + 7919, 0x9e3779b1) ^ warmth;
  let b = Math.imul(warmth + 104729, 0x85ebca6b) ^ level;
  for (let k = 0; k < steps.length; k++) {
    a = Math.imul(a ^ steps[k]!, 0x01000193);
    a ^= a >>> 15;
    b = Math.imul(b + steps[k]!, 0xc2b2ae35);
    b ^= b >>> 13;
  }
  return (a >>> 0) * 0x200000 + (b >>> 11);
}

/**
 * Memory of a string of so many cells.
 *
 * The pattern is kept relative to the brightest cell in steps of 0.4 %, the level of light in steps of 10 % and the
 * temperature in steps of 4 K. Level and temperature are corrected by a single cell in equal light, which carries most of
 * their effect; what is left stays under 0.3 % and is shown.
 *
 * @param wiring - the string, with its diodes
 * @param count - cells
 * @param conditions - damage and bin of each cell, where known
 */
export function stringMemory(
  wiring: StringWiring,
  count: number,
  conditions?: readonly Omit<StringCell, 'irradiance' | 'temperature'>[],
): StringMemory {
  const known = new Map<number, { readonly point: PowerPoint; readonly reference: PowerPoint }>();
  const steps = new Int32Array(count);
  let lookups = 0;
  let error = 0;
  const computed = (light: (k: number) => number, temperature: number): PowerPoint =>
    stringMaximumPowerPoint(
      cellString(
        wiring,
        Array.from({ length: count }, (_, k) => ({ ...conditions?.[k], irradiance: light(k), temperature })),
      ),
    );
  const one = (irradiance: number, temperature: number): PowerPoint =>
    maximumPowerPoint(cellAt(wiring.cell, { irradiance, temperature }));
  const maximum: StringMemory['maximum'] = (irradiance, temperature, offset = 0) => {
    let brightest = 0;
    for (let k = 0; k < count; k++) brightest = Math.max(brightest, irradiance[offset + k]!);
    if (!(brightest > 0)) return { voltage: 0, current: 0, power: 0 };
    lookups += 1;
    for (let k = 0; k < count; k++) {
      const share = Math.max(irradiance[offset + k]! / brightest, darkShare);
      steps[k] = Math.round(Math.log(share) / patternStep);
    }
    const level = Math.round(Math.log(brightest) / levelStep);
    const warmth = Math.round(temperature / temperatureStep);
    const key = patternKey(steps, level, warmth);
    let found = known.get(key);
    if (found === undefined) {
      const top = Math.exp(level * levelStep);
      const there = warmth * temperatureStep;
      const light = Float64Array.from(steps, (step) => top * Math.exp(step * patternStep));
      found = { point: computed((k) => light[k]!, there), reference: one(top, there) };
      known.set(key, found);
    }
    const { point, reference } = found;
    const now = one(brightest, temperature);
    const voltage = point.voltage * (now.voltage / reference.voltage);
    const current = point.current * (now.current / reference.current);
    const power = voltage * current;
    if (lookups % checkedEvery === 0) {
      const exact = computed((k) => irradiance[offset + k]!, temperature).power;
      if (exact > 0) error = Math.max(error, Math.abs(power / exact - 1));
    }
    return { voltage, current, power };
  };
  return { maximum, shown: () => ({ lookups, patterns: known.size, error }) };
}

/** Greatest power of a string over time. */
export interface StringCourse {
  readonly power: Float64Array;
  readonly voltage: Float64Array;
  readonly current: Float64Array;
}

/**
 * Greatest power of a string at many instants.
 *
 * @param memory - of the string; keeps what it computes for the next call
 * @param light.irradiance - index instant x cells + cell [W/m2]
 * @param light.temperature - mean of the cells by instant [K]
 * @returns power [W], voltage [V], current [A] by instant
 */
export function stringCourse(
  memory: StringMemory,
  light: { readonly irradiance: Float64Array; readonly temperature: Float64Array },
): StringCourse {
  const instants = light.temperature.length;
  const cells = instants === 0 ? 0 : light.irradiance.length / instants;
  const course = {
    power: new Float64Array(instants),
    voltage: new Float64Array(instants),
    current: new Float64Array(instants),
  };
  for (let i = 0; i < instants; i++) {
    const point = memory.maximum(light.irradiance, light.temperature[i]!, i * cells);
    course.power[i] = point.power;
    course.voltage[i] = point.voltage;
    course.current[i] = point.current;
  }
  return course;
}
