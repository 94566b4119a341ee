import {
  type Layer,
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
import { structuralMaterial } from './structure.js';

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

/** Films and foams are no stiffening, and wood is laid on the nose alone. */
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

/** Usual sheeting of a nose: thickness [m] and share of the chord. */
const usualSheeting = { thickness: 1.5e-3, to: 0.3 };

const isWood = ({ material }: Layer): boolean => material.lostByKelvin !== undefined;

/** Wooden sheeting of the nose half as thick again where there is some; else balsa on the nose of a wing of ribs. */
function sheetingChanges(wing: SurfaceStructure): readonly Change[] {
  const tip = wing.stations.at(-1)!.y;
  const sheeted = wing.zones.filter(({ to, layers }) => to < 1 && layers.some(isWood));
  const areaOf = ({ from, to, toY = tip }: SkinZone) => (to - from) * areaTo(wing, toY);
  if (sheeted.length > 0) {
    const thick = (layer: Layer): Layer => (isWood(layer) ? { ...layer, thickness: 1.5 * layer.thickness } : layer);
    const wood = sheeted[0]!.layers.find(isWood)!.material;
    return [
      {
        name: `sheeting of its nose half as thick again in its ${wood.name}`,
        mass: sheeted.reduce(
          (sum, zone) =>
            sum +
            areaOf(zone) *
              zone.layers
                .filter(isWood)
                .reduce((all, { material, thickness }) => all + material.density * 0.5 * thickness, 0),
          0,
        ),
        wing: {
          ...wing,
          zones: wing.zones.map((zone) =>
            sheeted.includes(zone) ? { ...zone, layers: zone.layers.map(thick) } : zone,
          ),
        },
      },
    ];
  }
  if (wing.core !== undefined || wing.ribs === undefined) return [];
  const { thickness, to } = usualSheeting;
  const balsa = structuralMaterial('balsa');
  const zone = (face: 'upper' | 'lower'): SkinZone => ({
    name: `${face} D-box`,
    face,
    from: 0,
    to,
    layers: [{ material: balsa, thickness, angle: 0 }],
  });
  return [
    {
      name: `nose sheeted with ${(1000 * thickness).toFixed(1)} mm balsa on both faces, to ${Math.round(100 * to)} % of the chord`,
      mass: 2 * balsa.density * thickness * to * areaTo(wing, tip),
      wing: { ...wing, zones: [...wing.zones, zone('upper'), zone('lower')] },
    },
  ];
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
 * Changes that stiffen the largest surface with what its design already names: its skin, the sheeting of its nose, its caps, its tubes and strips. Stiffness, mass and
 * strength follow from the description as those of the design do. None where the surface is not described.
 */
export function ownStiffenings(structure: AssembledStructure): readonly Stiffening[] {
  const [part, ...others] = structure.half.surfaces;
  const wing = part && structure.described[part.name];
  if (wing === undefined) return [];
  const [spar] = wing.spars;
  const changes = [
    ...layerChanges(wing),
    ...sheetingChanges(wing),
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
