import type { HalfModel, WireLine } from './model-types.js';
import { readRow } from './rows.js';

type Point = readonly [x: number, y: number, z: number];

/** A straight wire between two points. */
export interface Wire {
  /** Young's modulus [Pa] and diameter [m]. */
  readonly modulus: number;
  readonly diameter: number;
  /** Where it is tied to the wing and at its other end [m], z up. */
  readonly wing: Point;
  readonly end: Point;
}

export interface WireStiffness {
  /** [m] */
  readonly length: number;
  /** Tension for each metre that the wing end rises against the other [N/m]; negative where rising slackens it. */
  readonly pull: number;
  /** Force down on the wing for each metre of rise [N/m]. */
  readonly upward: number;
}

/**
 * A taut wire as a spring against the rise of the wing: axial stiffness E A / L; it stretches by sin of its slope for each
 * rise, and that part of its tension pulls down.
 * Source: two-force member, small displacements (S. Timoshenko, Strength of Materials, part 1, from memory)
 * Valid while it is taut; the thrust that its slope puts on the spar is left out.
 */
export function wireStiffness({ modulus, diameter, wing, end }: Wire): WireStiffness {
  const length = Math.hypot(wing[0] - end[0], wing[1] - end[1], wing[2] - end[2]);
  if (!(length > 0)) return { length: 0, pull: 0, upward: 0 };
  const axial = (modulus * Math.PI * diameter * diameter) / 4 / length;
  const slope = (wing[2] - end[2]) / length;
  return { length, pull: axial * slope, upward: axial * slope * slope };
}

/** Tension of each wire in a displacement of a half [N]; negative: slack. */
export const wireTensions = (
  half: HalfModel,
  wires: readonly WireLine[],
  displacement: Float64Array,
): readonly { readonly wire: WireLine; readonly tension: number }[] =>
  wires.map((wire) => ({ wire, tension: wire.pull * readRow(half, wire.dofs, wire.weights, displacement) }));
