import type { MassItem } from './mass.js';

/** One load of the balance beam: an item by its station, with its moment about the balance point. */
export interface BeamLoad {
  readonly name: string;
  /** Station [m aft of the datum]. */
  readonly x: number;
  /** [kg] */
  readonly mass: number;
  /** Mass times distance behind the balance point; the moments of all loads sum to zero [kg m]. */
  readonly moment: number;
  readonly provenance: MassItem['provenance'];
  readonly source: string;
}

/** The aircraft as a beam loaded along x and resting on its balance point. */
export interface BalanceBeam {
  /** From nose to tail. */
  readonly loads: readonly BeamLoad[];
  /** Where the beam rests [m aft of the datum]. */
  readonly balancePoint: number;
  /** Sum of the moments of what lies ahead, as a positive number: what has to be held by what lies behind [kg m]. */
  readonly noseMoment: number;
}

/**
 * Balance as a loaded beam: which item pulls how much to which side.
 * @param items - of positive total mass
 */
export function balanceBeam(items: readonly MassItem[]): BalanceBeam {
  const mass = items.reduce((sum, item) => sum + item.mass, 0);
  if (!(mass > 0)) throw new RangeError('the items must have a positive total mass');
  const balancePoint = items.reduce((sum, item) => sum + item.mass * item.x, 0) / mass;
  const loads = items
    .map((item) => ({
      name: item.name,
      x: item.x,
      mass: item.mass,
      moment: item.mass * (item.x - balancePoint),
      provenance: item.provenance,
      source: item.source ?? item.provenance,
    }))
    .sort((a, b) => a.x - b.x);
  const noseMoment = -loads.reduce((sum, load) => sum + Math.min(0, load.moment), 0);
  return { loads, balancePoint, noseMoment };
}
