/**
 * Closure of the two-equation integral boundary layer, incompressible: everything that momentum thickness, shape factor and speed decide.
 * Reynolds numbers are on the momentum thickness.
 * Source: M. Drela, M. Giles, Viscous-inviscid analysis of transonic and low Reynolds number airfoils, AIAA J. 25(10), 1987,
 * eqs. (11) to (22) (numbering from memory).
 */

/** Kinetic-energy shape factor of a laminar layer. h - shape factor, displacement / momentum thickness [-] */
export const laminarEnergyShape = (h: number): number =>
  h < 4 ? 1.515 + (0.076 * (4 - h) * (4 - h)) / h : 1.515 + (0.04 * (h - 4) * (h - 4)) / h;

/** Half the friction coefficient of a laminar layer times its Reynolds number. */
export function laminarFriction(h: number): number {
  if (h < 7.4) return -0.067 + (0.01977 * (7.4 - h) * (7.4 - h)) / (h - 1);
  const part = 1 - 1.4 / (h - 6);
  return -0.067 + 0.022 * part * part;
}

/** Dissipation of a laminar layer: 2 CD / H* times its Reynolds number. */
export function laminarDissipation(h: number): number {
  if (h < 4) return 0.207 + 0.00205 * (4 - h) ** 5.5;
  const square = (h - 4) * (h - 4);
  return 0.207 - (0.003 * square) / (1 + 0.02 * square);
}

/** Below this Reynolds number on momentum thickness the fit of the energy shape factor bends the wrong way; it is held there. */
const LEAST_TURBULENT = 200;

/** Kinetic-energy shape factor of a turbulent layer. */
export function turbulentEnergyShape(h: number, anyReynolds: number): number {
  const reynolds = Math.max(LEAST_TURBULENT, anyReynolds);
  const least = reynolds > 400 ? 3 + 400 / reynolds : 4;
  const floor = 1.505 + 4 / reynolds;
  if (h < least) return floor + ((0.165 - 1.6 / Math.sqrt(reynolds)) * (least - h) ** 1.6) / h;
  const logarithm = Math.log(reynolds);
  const away = h - least;
  const wide = away + 4 / logarithm;
  return away * away * (0.04 / h + (0.007 * logarithm) / (wide * wide)) + floor;
}

/** Friction coefficient of a turbulent layer, negative where it is separated. Source: T. Swafford, AIAA J. 21(6), 1983. */
export function turbulentFriction(h: number, reynolds: number): number {
  const decades = Math.max(1.2, Math.LOG10E * Math.log(reynolds));
  return 0.3 * Math.exp(-1.33 * h) * decades ** (-1.74 - 0.31 * h) + 0.00011 * (Math.tanh(4 - h / 0.875) - 1);
}

/** Speed at which the outer layer slips over the wall layer / edge speed. */
export const slipSpeed = (h: number, energyShape: number): number => 0.5 * energyShape * (1 - (4 * (h - 1)) / (3 * h));

/** Shear-stress coefficient of a turbulent layer in equilibrium. slip - from `slipSpeed`, below 1 */
export const equilibriumShear = (h: number, energyShape: number, slip: number): number =>
  (energyShape * 0.015 * (h - 1) ** 3) / ((1 - slip) * h ** 3);

/** Thickness of the layer / momentum thickness. Source: as above, after J. Green, D. Weeks, J. Brooman, ARC R&M 3791, 1973. */
export const layerThickness = (h: number): number => 3.15 + 1.72 / (h - 1) + h;

/** How fast the shear stress follows its equilibrium. Source: Drela and Giles 1987. */
export const LAG = 4.2;
/** Shear stress just behind transition / equilibrium, as ratio of the roots. Source: Drela and Giles 1987. */
export const INITIAL_SHEAR = 0.7;
