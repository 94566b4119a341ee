/**
 * Frame of this folder: x aft from the datum, y to the right wing, z up [m].
 * Products of inertia are the plain integrals of x y dm and so on (positive sense), about the stated point.
 */

/** How an item fills space about its own centre of gravity; adds to the inertia only. */
export type ItemShape =
  | { readonly kind: 'point' }
  /** Uniform box, edges along the axes [m]. */
  | { readonly kind: 'box'; readonly length: number; readonly width: number; readonly height: number }
  /** Thin uniform rod along one axis [m]. */
  | { readonly kind: 'rod'; readonly axis: 'x' | 'y' | 'z'; readonly length: number }
  /** Own inertia about its centre of gravity [kg m2]. */
  | { readonly kind: 'inertia'; readonly inertia: Inertia };

/** Inertia about a stated point, axes of the geometry frame [kg m2]. */
export interface Inertia {
  readonly xx: number;
  readonly yy: number;
  readonly zz: number;
  readonly xy: number;
  readonly xz: number;
  readonly yz: number;
}

export interface MassItem {
  readonly name: string;
  /** [kg]; negative removes what another item counted. */
  readonly mass: number;
  /** Centre of gravity of the item [m]. */
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Whether it grows while the aircraft is built: weighed and bought parts do not. */
  readonly provenance: 'assumed' | 'weighed';
  /** Where its mass comes from, in a word for people; as provenance where absent. */
  readonly source?: string;
  readonly shape?: ItemShape | undefined;
  /** Standard uncertainty [kg]. */
  readonly massUncertainty?: number | undefined;
  /** Standard uncertainty of each coordinate [m]. */
  readonly positionUncertainty?: { readonly x: number; readonly y: number; readonly z: number } | undefined;
}

/**
 * Allowance for what estimates leave out. One factor is common to all unweighed items: who forgets glue forgets it
 * everywhere. Common practice: 1.10 with a standard uncertainty of 0.08.
 */
export interface Growth {
  readonly factor: number;
  readonly standardUncertainty: number;
}

export const usualGrowth: Growth = { factor: 1.1, standardUncertainty: 0.08 };
export const noGrowth: Growth = { factor: 1, standardUncertainty: 0 };

export interface MassUncertainty {
  readonly mass: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly xx: number;
  readonly yy: number;
  readonly zz: number;
}

/** Sum of mass items. */
export interface MassSum {
  /** [kg] */
  readonly mass: number;
  /** Centre of gravity [m]. */
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** About the centre of gravity [kg m2]. */
  readonly inertia: Inertia;
  /** Standard uncertainties, first-order propagation (GUM). */
  readonly uncertainty: MassUncertainty;
  /** Mass of unweighed items after growth [kg]. */
  readonly assumedMass: number;
}

/** Inertia of an item about its own centre of gravity [kg m2]. Source: standard results for uniform bodies. */
export function itemInertia(mass: number, shape: ItemShape | undefined): Inertia {
  const zero = { xx: 0, yy: 0, zz: 0, xy: 0, xz: 0, yz: 0 };
  if (shape === undefined || shape.kind === 'point') return zero;
  if (shape.kind === 'inertia') return shape.inertia;
  if (shape.kind === 'rod') {
    const across = (mass * shape.length ** 2) / 12;
    return {
      ...zero,
      xx: shape.axis === 'x' ? 0 : across,
      yy: shape.axis === 'y' ? 0 : across,
      zz: shape.axis === 'z' ? 0 : across,
    };
  }
  const { length, width, height } = shape;
  return {
    ...zero,
    xx: (mass * (width ** 2 + height ** 2)) / 12,
    yy: (mass * (length ** 2 + height ** 2)) / 12,
    zz: (mass * (length ** 2 + width ** 2)) / 12,
  };
}

/**
 * Inertia about a point displaced from the centre of gravity (parallel-axis theorem).
 * @param offset - from the point to the centre of gravity, or the reverse [m]
 */
export function parallelAxis(
  inertia: Inertia,
  mass: number,
  offset: { readonly x: number; readonly y: number; readonly z: number },
): Inertia {
  const { x, y, z } = offset;
  return {
    xx: inertia.xx + mass * (y * y + z * z),
    yy: inertia.yy + mass * (x * x + z * z),
    zz: inertia.zz + mass * (x * x + y * y),
    xy: inertia.xy + mass * x * y,
    xz: inertia.xz + mass * x * z,
    yz: inertia.yz + mass * y * z,
  };
}

/** Items with the growth allowance on the unweighed ones; own inertia given as numbers grows with the mass. */
export function grownItems(items: readonly MassItem[], growth: Growth): readonly MassItem[] {
  if (growth.factor === 1) return items;
  return items.map((item) => (item.provenance === 'weighed' ? item : scaledItem(item, growth.factor)));
}

function scaledItem(item: MassItem, factor: number): MassItem {
  const grown: MassItem = {
    ...item,
    mass: item.mass * factor,
    massUncertainty: (item.massUncertainty ?? 0) * factor,
  };
  if (item.shape?.kind !== 'inertia') return grown;
  return { ...grown, shape: { kind: 'inertia', inertia: scaledInertia(item.shape.inertia, factor) } };
}

/** Every component times a factor. */
export function scaledInertia(inertia: Inertia, factor: number): Inertia {
  return {
    xx: inertia.xx * factor,
    yy: inertia.yy * factor,
    zz: inertia.zz * factor,
    xy: inertia.xy * factor,
    xz: inertia.xz * factor,
    yz: inertia.yz * factor,
  };
}

/**
 * Total mass, centre of gravity and inertia about it, with standard uncertainties.
 *
 * @param items - at least one; the total must be positive
 * @param growth - allowance on items that are not weighed
 * @throws RangeError when the total mass is not positive or a number is not finite
 * Source: definitions; parallel-axis theorem (Huygens-Steiner); uncertainty: JCGM 100:2008, eq. 10 and 13.
 */
export function sumMass(items: readonly MassItem[], growth: Growth = noGrowth): MassSum {
  const grown = grownItems(items, growth);
  let mass = 0;
  let assumedMass = 0;
  const moment = { x: 0, y: 0, z: 0 };
  for (const item of grown) {
    mass += item.mass;
    if (item.provenance === 'assumed') assumedMass += item.mass;
    moment.x += item.mass * item.x;
    moment.y += item.mass * item.y;
    moment.z += item.mass * item.z;
  }
  if (!(mass > 0) || !Number.isFinite(moment.x + moment.y + moment.z)) {
    throw new RangeError('mass items need finite numbers and a positive total mass');
  }
  const centre = { x: moment.x / mass, y: moment.y / mass, z: moment.z / mass };
  let inertia: Inertia = { xx: 0, yy: 0, zz: 0, xy: 0, xz: 0, yz: 0 };
  for (const item of grown) {
    const offset = { x: item.x - centre.x, y: item.y - centre.y, z: item.z - centre.z };
    inertia = addInertia(inertia, parallelAxis(itemInertia(item.mass, item.shape), item.mass, offset));
  }
  return { mass, ...centre, inertia, uncertainty: propagate(grown, mass, centre, growth), assumedMass };
}

function addInertia(a: Inertia, b: Inertia): Inertia {
  return { xx: a.xx + b.xx, yy: a.yy + b.yy, zz: a.zz + b.zz, xy: a.xy + b.xy, xz: a.xz + b.xz, yz: a.yz + b.yz };
}

/** Derivatives of total, centre and inertia by one item's mass, own inertia growing with it. */
function massSensitivity(item: MassItem, mass: number, centre: { x: number; y: number; z: number }): MassUncertainty {
  const offset = { x: item.x - centre.x, y: item.y - centre.y, z: item.z - centre.z };
  const own = itemInertia(item.mass, item.shape);
  const perMass = item.mass === 0 ? 0 : 1 / item.mass;
  const rotated = parallelAxis(scaledInertia(own, perMass), 1, offset);
  return {
    mass: 1,
    x: offset.x / mass,
    y: offset.y / mass,
    z: offset.z / mass,
    xx: rotated.xx,
    yy: rotated.yy,
    zz: rotated.zz,
  };
}

const uncertaintyKeys = ['mass', 'x', 'y', 'z', 'xx', 'yy', 'zz'] as const;

function propagate(
  items: readonly MassItem[],
  mass: number,
  centre: { x: number; y: number; z: number },
  growth: Growth,
): MassUncertainty {
  const variance = { mass: 0, x: 0, y: 0, z: 0, xx: 0, yy: 0, zz: 0 };
  const common = { mass: 0, x: 0, y: 0, z: 0, xx: 0, yy: 0, zz: 0 };
  for (const item of items) {
    const byMass = massSensitivity(item, mass, centre);
    const u = item.massUncertainty ?? 0;
    const shared = item.provenance === 'assumed' ? (item.mass / growth.factor) * growth.standardUncertainty : 0;
    for (const key of uncertaintyKeys) {
      variance[key] += (byMass[key] * u) ** 2;
      common[key] += byMass[key] * shared;
    }
    const p = item.positionUncertainty;
    if (p === undefined) continue;
    const m = item.mass;
    const [dx, dy, dz] = [
      2 * m * (item.x - centre.x) * p.x,
      2 * m * (item.y - centre.y) * p.y,
      2 * m * (item.z - centre.z) * p.z,
    ];
    variance.x += ((m * p.x) / mass) ** 2;
    variance.y += ((m * p.y) / mass) ** 2;
    variance.z += ((m * p.z) / mass) ** 2;
    variance.xx += dy ** 2 + dz ** 2;
    variance.yy += dx ** 2 + dz ** 2;
    variance.zz += dx ** 2 + dy ** 2;
  }
  const result = { mass: 0, x: 0, y: 0, z: 0, xx: 0, yy: 0, zz: 0 };
  for (const key of uncertaintyKeys) result[key] = Math.sqrt(variance[key] + common[key] ** 2);
  return result;
}
