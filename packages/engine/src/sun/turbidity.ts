/** Kinds of place for which monthly turbidity is tabulated. */
export type PlaceKind = 'mountains' | 'rural' | 'city' | 'industrial';

/**
 * Linke turbidity by month, January first, mild northern climate.
 * Source: Hofierka and Suri, The solar radiation model for Open source GIS, 2002 (table of monthly means by kind of place).
 */
export const monthlyTurbidity: Readonly<Record<PlaceKind, readonly number[]>> = {
  mountains: [1.5, 1.6, 1.8, 1.9, 2.0, 2.3, 2.3, 2.3, 2.1, 1.8, 1.6, 1.5],
  rural: [2.1, 2.2, 2.5, 2.9, 3.2, 3.4, 3.5, 3.3, 2.9, 2.6, 2.3, 2.2],
  city: [3.1, 3.2, 3.5, 4.0, 4.2, 4.3, 4.4, 4.3, 4.0, 3.6, 3.3, 3.1],
  industrial: [4.1, 4.3, 4.7, 5.3, 5.5, 5.7, 5.8, 5.7, 5.3, 4.9, 4.5, 4.2],
};

/** Standard uncertainty of a turbidity that was not measured on the day [-]. Source: Remund et al., ISES Solar World Congress, 2003 (rms error of the interpolated world map). */
export const turbidityUncertainty = 0.73;

export interface TurbidityEstimate {
  readonly value: number;
  readonly standardUncertainty: number;
  /** How the value was found, for display */
  readonly note: string;
}

/**
 * Linke turbidity to expect for a month and kind of place.
 * South of the equator the month is shifted by six, since the table follows the seasons of the north.
 * @param at.month - 1 to 12
 * @param at.place - kind of place
 * @param at.latitude - north positive [rad]
 * @returns turbidity, its standard uncertainty, how it was found
 * Source: `monthlyTurbidity`, `turbidityUncertainty`. Deserts and the humid tropics are hazier (4 to 6): state a value there.
 */
export function linkeTurbidity(at: {
  readonly month: number;
  readonly place: PlaceKind;
  readonly latitude: number;
}): TurbidityEstimate {
  if (!Number.isInteger(at.month) || at.month < 1 || at.month > 12) {
    throw new RangeError(`month must be a whole number from 1 to 12, got ${at.month}`);
  }
  const southern = at.latitude < 0;
  const index = (at.month - 1 + (southern ? 6 : 0)) % 12;
  const shift = southern ? ', month shifted by six for the southern hemisphere' : '';
  const tropical = Math.abs(at.latitude) < (23.44 * Math.PI) / 180;
  const caution = tropical ? '; the table is for mild climates, the tropics are often hazier (4 to 6)' : '';
  return {
    value: monthlyTurbidity[at.place][index]!,
    standardUncertainty: turbidityUncertainty,
    note: `monthly mean of a mild climate, ${at.place}${shift}${caution}`,
  };
}

/**
 * Linke turbidity from aerosol and water.
 * @param column.absoluteAirMass - pressure-corrected air mass [-], above 0
 * @param column.water - precipitable water [cm]
 * @param column.aerosol - broadband aerosol optical depth, near that at 700 nm [-]
 * @returns Linke turbidity [-]
 * Source: Kasten, Solar Energy 56, 1996, with the optical depths of Molineaux et al., Applied Optics 37, 1998.
 */
export function turbidityFromColumn(column: {
  readonly absoluteAirMass: number;
  readonly water: number;
  readonly aerosol: number;
}): number {
  const airMass = column.absoluteAirMass;
  const cleanDry = -0.101 + 0.235 * airMass ** -0.16;
  const vapour = 0.112 * airMass ** -0.55 * column.water ** 0.34;
  return (9.4 + 0.9 * airMass) * (cleanDry + vapour + column.aerosol);
}
