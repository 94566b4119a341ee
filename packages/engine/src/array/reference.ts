import type { ReverseBreakdown } from './cell.js';
import type { CellParameters } from './translate.js';

/**
 * A generic 125 mm pseudo-square back-contact cell of 22 %: the fit of 6.27 A, 0.686 V, 5.90 A, 0.580 V with an
 * ideality of 1.05. A defined cell for tests and defaults, not a product.
 * Source: data class of 125 mm back-contact cells, from memory; parameters recomputed from the single-diode equation.
 */
export const backContactCell: CellParameters = {
  photocurrent: 6.273693405091622,
  saturationCurrent: 5.5792683329170935e-11,
  seriesResistance: 0.0038502529232194794,
  shuntResistance: 6.536268228750789,
  modifiedIdeality: 0.026977208077140144,
  currentTemperatureCoefficient: 0.003135,
  bandGap: 1.121,
  bandGapTemperatureCoefficient: -0.0002677,
  referenceIrradiance: 1000,
  referenceTemperature: 298.15,
  area: 0.0153,
  cellsInSeries: 1,
};

/** Breakdown of back-contact cells of the 125 mm class. Source: public reference values, in the form of Bishop, Solar Cells 25, 1988. */
export const backContactBreakdown: ReverseBreakdown = { factor: 1.036748e-4, voltage: -5.52726, exponent: 3.284629 };

/** Breakdown of front-contact mono and multi cells. Source: public reference values, in the form of Bishop, Solar Cells 25, 1988. */
export const frontContactBreakdown: ReverseBreakdown = { factor: 2e-3, voltage: -15, exponent: 3 };
