const degree = Math.PI / 180;

/** Total solar irradiance at one astronomical unit [W/m2]. Source: Kopp and Lean, Geophysical Research Letters 38, 2011 (1360.8 +/- 0.5, from memory). */
export const solarConstant = 1361;

/**
 * Irradiance on a plane facing the sun above the air.
 * @param distance - Earth to sun [AU]
 * @param constant - irradiance at 1 AU [W/m2]
 * @returns irradiance [W/m2]
 * Source: inverse square law.
 */
export function extraterrestrialIrradiance(distance: number, constant: number = solarConstant): number {
  return constant / distance ** 2;
}

/**
 * Relative optical air mass: path of sunlight through the air in units of the vertical path.
 * @param apparentZenith - refracted zenith angle [rad]; beyond 90 degrees the value at 90 degrees (37.9) is returned
 * @returns air mass [-]; 0.99971 overhead, as the fit has it
 * Source: Kasten and Young, Applied Optics 28, 1989, eq. 3.
 */
export function airMassKastenYoung(apparentZenith: number): number {
  const zenith = Math.min(Math.max(apparentZenith / degree, 0), 90);
  return 1 / (Math.cos(zenith * degree) + 0.50572 * (96.07995 - zenith) ** -1.6364);
}

/**
 * Relative optical air mass, older fit, used with the Bird model.
 * @param zenith - zenith angle [rad]; beyond 90 degrees the value at 90 degrees is returned
 * @param exponent - 1.253 in the paper; a published worked example of the Bird model has 1.25
 * @returns air mass [-]
 * Source: Kasten, Archiv fuer Meteorologie, Geophysik und Bioklimatologie B14, 1966.
 */
export function airMassKasten1966(zenith: number, exponent = 1.253): number {
  const angle = Math.min(Math.max(zenith / degree, 0), 90);
  return 1 / (Math.cos(angle * degree) + 0.15 * (93.885 - angle) ** -exponent);
}

/**
 * Pressure of the standard atmosphere at an altitude, for the sky models alone (the air folder has the full atmosphere).
 * @param altitude - above sea level [m], -1000 to 11000; held at the ends
 * @returns pressure [Pa]
 * Source: ISO 2533:1975.
 */
export function standardPressureAt(altitude: number): number {
  const height = Math.min(Math.max(altitude, -1000), 11000);
  return 101325 * (1 - (0.0065 * height) / 288.15) ** 5.25588;
}

/**
 * Air mass corrected for pressure.
 * @param airMass - relative [-]
 * @param pressure - at the place [Pa]
 * @returns absolute air mass [-]
 */
export function absoluteAirMass(airMass: number, pressure: number): number {
  return (airMass * pressure) / 101325;
}
