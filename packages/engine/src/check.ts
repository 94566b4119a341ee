/** Where an expected value comes from. */
export type Provenance = 'published' | 'recomputed from the published formula' | 'common practice' | 'from memory';

/** What a check computes: a number, or a number with the band that must contain the expected value. */
export type Computed = number | { readonly value: number; readonly low: number; readonly high: number };

/**
 * One comparison with something outside the project. VALIDATION.md is generated from these, and the tests run them.
 * A known disagreement stays in the table: `miss` gives its reason, and the test then demands that it still misses.
 */
export interface Check {
  readonly id: string;
  /** Group in the table: sun, sky, plane, air, cell, string, converter, battery, motor, propeller, section, wing, balance, flight, aircraft ... */
  readonly topic: string;
  readonly quantity: string;
  readonly expected: number;
  readonly unit: string;
  /** Absolute, in `unit`. For a band result: greatest allowed half-width of the band. */
  readonly tolerance: number;
  /** Reason for the tolerance. */
  readonly why: string;
  readonly provenance: Provenance;
  readonly source: string;
  /** Name of the exported function that is called. */
  readonly calls: string;
  readonly compute: () => Computed;
  readonly miss?: string;
}

/** Whether the computed value agrees with the expected one: within the tolerance, or inside a band no wider than it. */
export function agrees(check: Check, computed: Computed): boolean {
  if (typeof computed === 'number') return Math.abs(computed - check.expected) <= check.tolerance;
  const halfWidth = (computed.high - computed.low) / 2;
  return computed.low <= check.expected && check.expected <= computed.high && halfWidth <= check.tolerance;
}
