/** Stiffness and mass of spars and rods from their size: area, second moment and torsion constant. */
export interface Profile {
  /** [m2] */
  readonly area: number;
  /** Second moment about its own horizontal axis [m4]. */
  readonly inertia: number;
  /** Torsion constant [m4]. */
  readonly torsion: number;
  /** From its centre to the outermost fibre, up or down [m]. */
  readonly halfHeight: number;
}

/** Round tube. @param outer - diameter [m] @param inner - diameter [m], 0 for a rod. Source: textbook. */
export function tubeProfile(outer: number, inner = 0): Profile {
  if (!(outer > 0 && inner >= 0 && inner < outer)) throw new RangeError('a tube needs outer > inner >= 0');
  const inertia = (Math.PI * (outer ** 4 - inner ** 4)) / 64;
  return { area: (Math.PI * (outer ** 2 - inner ** 2)) / 4, inertia, torsion: 2 * inertia, halfHeight: outer / 2 };
}

/**
 * Torsion constant of a solid rectangle divided by (long side) x (short side)^3.
 * @param ratio - long / short side, at least 1
 * Source: Saint-Venant's series; Young and Budynas, Roark's Formulas, table 10.1 (table number from memory).
 */
export function rectangleTorsionCoefficient(ratio: number): number {
  const r = Math.max(ratio, 1 / ratio);
  let sum = 0;
  for (let k = 1; k < 60; k += 2) sum += Math.tanh((k * Math.PI * r) / 2) / k ** 5;
  return 1 / 3 - ((64 / Math.PI ** 5) * sum) / r;
}

/** Solid strip. @param width - across [m] @param height - up and down [m] */
export function stripProfile(width: number, height: number): Profile {
  if (!(width > 0 && height > 0)) throw new RangeError('a strip needs width and height');
  const [long, short] = [Math.max(width, height), Math.min(width, height)];
  return {
    area: width * height,
    inertia: (width * height ** 3) / 12,
    torsion: rectangleTorsionCoefficient(long / short) * long * short ** 3,
    halfHeight: height / 2,
  };
}

/**
 * Two caps of width b and thickness t whose outer faces are a height apart.
 * @param lower - thickness of the lower cap where it differs
 * Returns area, second moment about the common centre (caps alike), and no torsion: that is the web's and the skins'.
 */
export function capsProfile(width: number, thickness: number, height: number): Profile {
  if (!(width > 0 && thickness > 0 && height > 2 * thickness)) {
    throw new RangeError('two caps need width, thickness and a height above both');
  }
  const arm = (height - thickness) / 2;
  return {
    area: 2 * width * thickness,
    inertia: 2 * width * (thickness * arm ** 2 + thickness ** 3 / 12),
    torsion: (2 * width * thickness ** 3) / 3,
    halfHeight: height / 2,
  };
}
