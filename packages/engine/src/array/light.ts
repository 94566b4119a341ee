/** Factors between the light on the cover and the light that makes current; each 0 to 1 or slightly above, default 1. */
export interface LightFactors {
  /** Short-circuit current under film or lamination per current of the bare cell. */
  readonly filmFactor?: number;
  /** Light left after dust, dew and fingerprints. */
  readonly soilingFactor?: number;
  /** Light left after reflection away from normal incidence, where the caller has not applied it. */
  readonly incidenceFactor?: number;
  /** Current in this spectrum per current in the standard spectrum. */
  readonly spectralFactor?: number;
}

/**
 * Effective irradiance: what a bare, clean cell at normal incidence would need to give the same current.
 *
 * @param irradiance - in the plane of the cell [W/m2]
 * @param factors - film, soiling, incidence, spectrum
 * @returns effective irradiance [W/m2], never negative
 */
export function effectiveIrradiance(irradiance: number, factors: LightFactors = {}): number {
  const { filmFactor = 1, soilingFactor = 1, incidenceFactor = 1, spectralFactor = 1 } = factors;
  return Math.max(irradiance * filmFactor * soilingFactor * incidenceFactor * spectralFactor, 0);
}
