/** Boltzmann constant over elementary charge [V/K], exact since the SI revision of 2019. Source: BIPM, The International System of Units, 9th ed., 2019. */
export const boltzmannOverCharge = 1.380649e-23 / 1.602176634e-19;

/** Stefan-Boltzmann constant [W/(m2 K4)]. Source: CODATA 2018. */
export const stefanBoltzmann = 5.670374419e-8;

/** Irradiance of the standard test condition [W/m2]. Source: IEC 60904-3. */
export const standardIrradiance = 1000;

/** Cell temperature of the standard test condition [K]. Source: IEC 60904-3 (25 C). */
export const standardTemperature = 298.15;

/** Largest exponent that is evaluated: beyond it exp() would leave the range of doubles. */
const largestExponent = 700;

/** exp(x), held finite for any x. */
export const finiteExp = (x: number): number => Math.exp(Math.min(x, largestExponent));
