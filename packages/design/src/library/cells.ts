import { type Entry, type Typical, typical } from './provenance.js';

/**
 * Data sheet of one solar cell at 1000 W/m2, air mass 1.5, 25 degC, and what a builder handles.
 * Mass is as laid on a wing: tabbed, without the film of the lamination, which is its own line.
 */
export interface CellSheet extends Entry {
  /** Along the span when laid in a row [m] */
  readonly length: Typical;
  /** Along the chord [m] */
  readonly width: Typical;
  /** Lit area [m2] */
  readonly area: Typical;
  readonly shortCircuitCurrent: Typical;
  readonly openCircuitVoltage: Typical;
  readonly maximumPowerCurrent: Typical;
  readonly maximumPowerVoltage: Typical;
  /** Change of short-circuit current with temperature [A/K] */
  readonly currentCoefficient: Typical;
  /** Change of open-circuit voltage with temperature [V/K] */
  readonly voltageCoefficient: Typical;
  /** Tabbed mass [kg] */
  readonly mass: Typical;
  /** Least bend radius that is comfortable [m] */
  readonly bendRadius: Typical;
  /** Equal strips that it can be cut into at most; 1: it cannot be cut */
  readonly mostPieces: number;
}

/** One strip of a wafer cell: current and area in parts, the edge loss of the cut on the current at maximum power. */
function strip(whole: CellSheet, parts: number, loss: number, help: string): CellSheet {
  const part = (of: Typical, factor = 1): Typical => typical((of.value * factor) / parts, (of.sigma * factor) / parts);
  return {
    ...whole,
    width: part(whole.width),
    area: part(whole.area),
    shortCircuitCurrent: part(whole.shortCircuitCurrent),
    maximumPowerCurrent: part(whole.maximumPowerCurrent, 1 - loss),
    currentCoefficient: part(whole.currentCoefficient),
    mass: part(whole.mass),
    mostPieces: 1,
    source: `${whole.source}; scaled to 1/${parts}, edge loss ${loss * 100} % from memory (1 to 2 %)`,
    help,
  };
}

/**
 * Reference cell of the engine's checks: one-diode fit with ideality 1.05, whose temperature coefficients these are.
 * Efficiency over 153 cm2: 22.4 %.
 */
const backContact125: CellSheet = {
  length: typical(0.125, 0.0003),
  width: typical(0.125, 0.0003),
  area: typical(0.0153, 0.0001),
  shortCircuitCurrent: typical(6.27, 0.06),
  openCircuitVoltage: typical(0.686, 0.005),
  maximumPowerCurrent: typical(5.9, 0.08),
  maximumPowerVoltage: typical(0.58, 0.006),
  currentCoefficient: typical(0.003135, 0.0006),
  voltageCoefficient: typical(-0.00222, 0.0002),
  mass: typical(0.0078, 0.0007),
  bendRadius: typical(0.3, 0.08),
  // Between the contact fields of its rear (from memory).
  mostPieces: 4,
  provenance: 'from memory',
  source: 'sheet values of the 125 mm back-contact class, from memory; bare 6.5 to 7 g, tabs and solder added',
  help: 'pseudo-square back-contact wafer cell, 125 mm, about 3.4 W; keeps most of its power with small cracks',
};

const frontContact182: CellSheet = {
  length: typical(0.182, 0.0003),
  width: typical(0.182, 0.0003),
  area: typical(0.033, 0.0002),
  shortCircuitCurrent: typical(13.226, 0.15),
  openCircuitVoltage: typical(0.688, 0.005),
  maximumPowerCurrent: typical(12.604, 0.17),
  maximumPowerVoltage: typical(0.592, 0.006),
  currentCoefficient: typical(0.0006 * 13.226, 0.0013),
  voltageCoefficient: typical(-0.003 * 0.688, 0.0002),
  mass: typical(0.0145, 0.0013),
  bendRadius: typical(0.4, 0.1),
  // Between its tabs (from memory).
  mostPieces: 12,
  provenance: 'published',
  source:
    'vendor-neutral specification page of a 182 mm front-contact cell of 22.6 %; mass and bend radius from memory',
  help: 'square front-contact wafer cell, 182 mm, about 7.5 W; brittle, seldom flown whole',
};

const thinFilm: CellSheet = {
  length: typical(0.21, 0.002),
  width: typical(0.1, 0.001),
  area: typical(0.02, 0.0004),
  shortCircuitCurrent: typical(6.6, 0.5),
  openCircuitVoltage: typical(0.62, 0.04),
  maximumPowerCurrent: typical(5.6, 0.5),
  maximumPowerVoltage: typical(0.46, 0.03),
  currentCoefficient: typical(0.0007, 0.0007),
  voltageCoefficient: typical(-0.0019, 0.0003),
  mass: typical(0.02, 0.008),
  bendRadius: typical(0.04, 0.01),
  // A cut short-circuits the layers at its edge.
  mostPieces: 1,
  provenance: 'from memory',
  source: 'flexible thin film of 10 to 16 % aperture, 0.6 to 2 kg/m2 laminated, from memory',
  help: 'flexible thin-film strip, 210 mm x 100 mm, about 2.6 W; bends to 40 mm, heavy for its power',
};

/** Solar cells by the name that a design file uses. */
export const CELLS = {
  'back-contact 125 mm': backContact125,
  'back-contact 125 mm half': strip(
    backContact125,
    2,
    0.015,
    'half of a 125 mm back-contact cell, cut by laser between its contact fields',
  ),
  'front-contact 182 mm': frontContact182,
  'front-contact 182 mm half': strip(frontContact182, 2, 0.01, 'half of a 182 mm front-contact cell'),
  'front-contact 182 mm fifth': strip(
    frontContact182,
    5,
    0.015,
    'shingle strip, a fifth of a 182 mm front-contact cell',
  ),
  'front-contact 182 mm sixth': strip(
    frontContact182,
    6,
    0.015,
    'shingle strip, a sixth of a 182 mm front-contact cell',
  ),
  'thin film 210 x 100 mm': thinFilm,
} as const satisfies Readonly<Record<string, CellSheet>>;

export type CellName = keyof typeof CELLS;
