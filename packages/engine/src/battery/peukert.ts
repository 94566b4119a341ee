/**
 * Duration of a discharge by Peukert's law, t = (R_t / I^n) (C / R_t)^n. A legacy option: for lithium cells resistance
 * and cut-off voltage (`usableCharge`) describe more; the law holds only in a narrow range of current at near constant
 * temperature (Omar et al., Peukert Revisited, Energies 6, 5625, 2013).
 *
 * @param capacity - at the rated duration [C]
 * @param ratedDuration - at which the capacity was rated [s]
 * @param current - [A], > 0
 * @param exponent - 1 to 1.3; lithium-ion about 1.02 to 1.05 (from memory)
 * @returns duration [s]
 * Source: Traub, Range and endurance estimates for battery-powered aircraft, J. Aircraft 48(2), 2011.
 */
export function peukertDuration(at: {
  readonly capacity: number;
  readonly ratedDuration: number;
  readonly current: number;
  readonly exponent: number;
}): number {
  const { capacity, ratedDuration, current, exponent } = at;
  if (!(capacity > 0 && ratedDuration > 0 && current > 0)) {
    throw new RangeError('capacity, duration and current must be positive');
  }
  return ratedDuration * (capacity / (ratedDuration * current)) ** exponent;
}
