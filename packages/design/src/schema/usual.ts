import type { QuantityKind } from '@noonwing/quantities';
import type { Bounds, QuantityField } from './field.js';

/**
 * What the numbers of small aircraft usually are [SI], by kind: a value outside is taken as it is written, and said, because most
 * such values are a wrong unit or a digit too many. Wide on purpose: from a hand-launched glider to an aircraft of a few tens of
 * kilograms. Common practice, no source.
 */
const USUAL: Readonly<Partial<Record<QuantityKind, Bounds>>> = {
  length: { from: -20, to: 20 },
  area: { to: 20 },
  mass: { to: 60 },
  speed: { to: 60 },
  angle: { from: -2 * Math.PI, to: 2 * Math.PI },
  'angular speed': { to: 5000 },
  'areal density': { to: 10 },
  charge: { to: 200 * 3600 },
  energy: { to: 5000 * 3600 },
  power: { to: 10_000 },
  'areal power': { to: 1500 },
  force: { to: 2000 },
  voltage: { to: 120 },
  current: { to: 300 },
  resistance: { to: 20 },
  temperature: { from: 233, to: 363 },
};

/** What a value of this field usually is [SI]; undefined where anything goes. */
export const usualBounds = (field: QuantityField, kind: QuantityKind): Bounds | undefined =>
  field.usual ?? (field.bounds.to === undefined ? USUAL[kind] : undefined);
