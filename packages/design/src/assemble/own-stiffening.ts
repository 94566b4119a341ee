import {
  type SkinZone,
  type SparPart,
  type SurfaceStructure,
  strengthAlong,
  stripProfile,
  surfacePart,
  tubeProfile,
} from '@noonwing/engine/structure';
import type { AssembledStructure } from './assumed-structure.js';
import type { Stiffening } from './stiffening.js';

/** A change of the described wing; mass on its right half [kg]. */
interface Change {
  readonly name: string;
  readonly mass: number;
  readonly wing: SurfaceStructure;
}

/** Area of a surface from its root to a distance along it [m2]. */
function areaTo({ stations }: SurfaceStructure, end: number): number {
  let area = 0;
  for (const [i, b] of stations.slice(1).entries()) {
    const a = stations[i]!;
    const share = Math.min(1, Math.max(0, (end - a.y) / (b.y - a.y)));
    area += share * (b.y - a.y) * (a.chord + (share * (b.chord - a.chord)) / 2);
  }
  return area;
}

/** Films and foams are no stiffening. */
const leastModulus = 6e9;

/** One more of each stiff layer of its skins on both faces: over the inner half, and over all. */
function layerChanges(wing: SurfaceStructure): readonly Change[] {
  const layers = wing.zones.flatMap((zone) => zone.layers).filter(({ material }) => material.modulus > leastModulus);
  const layer = layers.find(({ material }) => material.name.includes('fabric')) ?? layers[0];
  if (layer === undefined) return [];
  const [root, tip] = [wing.stations[0]!.y, wing.stations.at(-1)!.y];
  return [0.5, 1].map((share) => {
    const end = root + share * (tip - root);
    const zone = (face: 'upper' | 'lower'): SkinZone => ({
      name: `added ${face} layer`,
      face,
      from: 0,
      to: 1,
      fromY: root,
      toY: end,
      layers: [layer],
    });
    return {
      name: `one more layer of its ${layer.material.name} on both faces, ${share < 1 ? 'inner half' : 'from root to tip'}`,
      mass: 2 * layer.material.density * layer.thickness * areaTo(wing, end),
      wing: { ...wing, zones: [zone('upper'), zone('lower'), ...wing.zones] },
    };
  });
}

/** Area of a spar's own material at a size [m2]. */
function areaOf({ kind }: SparPart, { width, depth }: SparPart['sizes'][number]): number {
  if (kind === 'tube') return tubeProfile(width, depth).area;
  return kind === 'strip' ? stripProfile(width, depth).area : 2 * width * depth;
}

/** Mass of a spar's own material between its ends [kg]. */
const massOf = (spar: SparPart): number =>
  spar.sizes.slice(1).reduce((sum, size, i) => {
    const before = spar.sizes[i]!;
    return sum + spar.material.density * (size.y - before.y) * ((areaOf(spar, size) + areaOf(spar, before)) / 2);
  }, 0);

/** Caps half as thick again over the inner half of the spar. */
function thickerCaps(wing: SurfaceStructure, spar: SparPart): Change {
  const [inner, outer] = [spar.sizes[0]!, spar.sizes.at(-1)!];
  const mix = (a: number, b: number) => (a + b) / 2;
  const middle = {
    y: mix(inner.y, outer.y),
    chordFraction: mix(inner.chordFraction, outer.chordFraction),
    width: mix(inner.width, outer.width),
    depth: mix(inner.depth, outer.depth),
  };
  const thick = (size: typeof inner) => ({ ...size, depth: 1.5 * size.depth });
  const beyond = { ...middle, y: middle.y + 0.01 * (outer.y - inner.y) };
  const changed = { ...spar, sizes: [thick(inner), thick(middle), beyond, outer] };
  return {
    name: `caps of ${spar.name} half as thick again in its ${spar.material.name}, inner half`,
    mass: massOf(changed) - massOf(spar),
    wing: { ...wing, spars: wing.spars.map((each) => (each === spar ? changed : each)) },
  };
}

/** The same spar once more, where the chord has none. */
function secondSpar(wing: SurfaceStructure, spar: SparPart): Change {
  const taken = wing.spars.map(({ sizes }) => sizes[0]!.chordFraction);
  const room = (at: number) => Math.min(...taken.map((each) => Math.abs(each - at)));
  const at = [0.1, 0.25, 0.4, 0.6, 0.7].reduce((best, each) => (room(each) > room(best) ? each : best));
  const shift = at - spar.sizes[0]!.chordFraction;
  const added: SparPart = {
    ...spar,
    name: `second ${spar.name}`,
    sizes: spar.sizes.map((size) => ({
      ...size,
      chordFraction: Math.min(0.95, Math.max(0.05, size.chordFraction + shift)),
    })),
  };
  return {
    name: `${spar.name} (${spar.material.name}) once more at ${Math.round(100 * at)} % of the chord`,
    mass: massOf(spar),
    wing: { ...wing, spars: [...wing.spars, added] },
  };
}

/**
 * Changes that stiffen the largest surface with what its design already names: its skin, its caps, its tubes and strips. Stiffness, mass and
 * strength follow from the description as those of the design do. None where the surface is not described.
 */
export function ownStiffenings(structure: AssembledStructure): readonly Stiffening[] {
  const [part, ...others] = structure.half.surfaces;
  const wing = part && structure.described[part.name];
  if (wing === undefined) return [];
  const [spar] = wing.spars;
  const changes = [
    ...layerChanges(wing),
    ...(spar === undefined ? [] : [spar.kind === 'caps' ? thickerCaps(wing, spar) : secondSpar(wing, spar)]),
  ];
  return changes.map(({ name, mass, wing: changed }) => {
    const heavier = changed.mass === undefined ? changed : { ...changed, mass: changed.mass + mass };
    return {
      name,
      mass: 2 * mass,
      structure: {
        ...structure,
        described: { ...structure.described, [changed.name]: heavier },
        strength: strengthAlong(heavier, structure.half.masses),
        half: { ...structure.half, surfaces: [surfacePart(heavier), ...others] },
      },
    };
  });
}
