import type { Entry } from './provenance.js';

/**
 * A propeller as sold. Blade geometry is not data: a generic propeller of this diameter and pitch is designed by minimum
 * induced loss (Adkins and Liebeck, J. Propulsion and Power 10(5), 1994) where the drive is assembled.
 */
export interface PropellerSheet extends Entry {
  /** [m] */
  readonly diameter: number;
  /** [m] */
  readonly pitch: number;
  readonly blades: number;
  readonly folding: boolean;
  /** With hub and spinner [kg] */
  readonly mass: number;
}

const INCH = 0.0254;

/** Blade and hub mass grows about with the cube of the diameter: 25 g at 11 in, common practice. */
const propeller = (diameter: number, pitch: number, folding: boolean): PropellerSheet => ({
  diameter: diameter * INCH,
  pitch: pitch * INCH,
  blades: 2,
  folding,
  mass: (folding ? 0.025 : 0.018) * (diameter / 11) ** 2.5,
  provenance: 'common practice',
  source: 'sizes commonly sold for models, common practice, no source',
  help: `two-blade ${folding ? 'folding' : 'fixed'} propeller, diameter x pitch ${diameter}x${pitch} in`,
});

/** Propellers by the name that a design file uses; any other size is written as 'AxB in'. */
export const PROPELLERS = {
  'folding 8x5 in': propeller(8, 5, true),
  'folding 9x5 in': propeller(9, 5, true),
  'folding 10x6 in': propeller(10, 6, true),
  'folding 11x6 in': propeller(11, 6, true),
  'folding 12x6 in': propeller(12, 6, true),
  'folding 13x8 in': propeller(13, 8, true),
  'folding 14x8 in': propeller(14, 8, true),
  'folding 16x8 in': propeller(16, 8, true),
  'folding 18x10 in': propeller(18, 10, true),
  'folding 20x12 in': propeller(20, 12, true),
  'fixed 7x5 in': propeller(7, 5, false),
  'fixed 8x4 in': propeller(8, 4, false),
  'fixed 9x4.5 in': propeller(9, 4.5, false),
  'fixed 10x4.7 in': propeller(10, 4.7, false),
  'fixed 11x5.5 in': propeller(11, 5.5, false),
} as const satisfies Readonly<Record<string, PropellerSheet>>;

export type PropellerName = keyof typeof PROPELLERS;
