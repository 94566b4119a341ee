const gasConstant = 8.314462618;
const referenceTemperature = 298.15;

/**
 * Factor on the resistance at 25 C for another cell temperature (Arrhenius).
 *
 * @param temperature - cell temperature [K], 240 to 340
 * @param activationEnergy - for the total direct-current resistance 20 to 30 kJ/mol (from memory) [J/mol]
 * @returns ratio R(T) / R(25 C)
 * Source: Arrhenius law; single-process values for one cell in Chen et al., J. Electrochem. Soc. 167, 080534, 2020
 * (35 kJ/mol graphite, 17.8 kJ/mol NMC).
 */
export function resistanceFactor(temperature: number, activationEnergy: number): number {
  if (!(temperature > 0)) throw new RangeError('the temperature must be positive [K]');
  return Math.exp((activationEnergy / gasConstant) * (1 / temperature - 1 / referenceTemperature));
}

/** A limit that holds from a temperature upward until the next entry. */
export interface TemperatureLimit {
  /** [K] */
  readonly from: number;
  /** [A] per cell */
  readonly current: number;
}

/**
 * Largest charge current of a cell at a temperature: none below the first entry.
 * @param limits - in rising order of temperature; an entry of zero current closes the window above
 * @param temperature - cell temperature [K]
 * @returns current [A per cell]
 */
export function chargeCurrentLimit(limits: readonly TemperatureLimit[], temperature: number): number {
  let current = 0;
  for (const limit of limits) {
    if (temperature < limit.from) break;
    current = limit.current;
  }
  return current;
}

/**
 * Staged charge limits of a lithium pack: none below 0 C (lithium plating), 0.1 C to 5 C, 0.2 C to 15 C, then the
 * full rate up to 55 C, none above.
 * @param capacity - cell capacity [C = A s]
 * @param fullRate - charge rate between 15 and 55 C in units of capacity per hour, usually 0.5
 * Source: staged limits of one pack specification (checks file, data sheet read); plating below 0 C: general practice.
 */
export function stagedChargeLimits(capacity: number, fullRate = 0.5): readonly TemperatureLimit[] {
  const perHour = capacity / 3600;
  return [
    { from: 273.15, current: Math.min(0.1, fullRate) * perHour },
    { from: 278.15, current: Math.min(0.2, fullRate) * perHour },
    { from: 288.15, current: fullRate * perHour },
    { from: 328.15, current: 0 },
  ];
}
