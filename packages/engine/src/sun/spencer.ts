/** Rough sun of a day of the year, for hand calculations and where no instant is known. */
export interface DaySun {
  /** (mean distance / distance) squared: factor on the solar constant [-] */
  readonly distanceFactor: number;
  /** Apparent minus mean solar time [s] */
  readonly equationOfTime: number;
  /** [rad] */
  readonly declination: number;
}

/**
 * Distance factor, equation of time and declination of a day of the year by Fourier series.
 * @param dayOfYear - 1 on 1 January to 366
 * @returns distance factor, equation of time, declination; for noon of the years about 2026 they differ from the ephemeris by at
 *   most 0.0012, 50 s and 0.45 degrees (0.25 degrees when half a day is added), since the calendar slips against the seasons
 * Source: Spencer, Search 2, 1971, with the constant 0.0000075 of the equation of time as in the original.
 */
export function spencerDay(dayOfYear: number): DaySun {
  const b = (2 * Math.PI * (dayOfYear - 1)) / 365;
  const [c1, s1, c2, s2] = [Math.cos(b), Math.sin(b), Math.cos(2 * b), Math.sin(2 * b)];
  const minutes = (1440 / (2 * Math.PI)) * (0.0000075 + 0.001868 * c1 - 0.032077 * s1 - 0.014615 * c2 - 0.040849 * s2);
  return {
    distanceFactor: 1.00011 + 0.034221 * c1 + 0.00128 * s1 + 0.000719 * c2 + 0.000077 * s2,
    equationOfTime: 60 * minutes,
    declination:
      0.006918 -
      0.399912 * c1 +
      0.070257 * s1 -
      0.006758 * c2 +
      0.000907 * s2 -
      0.002697 * Math.cos(3 * b) +
      0.00148 * Math.sin(3 * b),
  };
}
