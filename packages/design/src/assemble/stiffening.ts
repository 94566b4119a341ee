import type { HalfAircraft, PlateProperties, SurfacePart } from '@noonwing/engine/structure';
import type { AssembledStructure } from './assumed-structure.js';
import { ownStiffenings } from './own-stiffening.js';

/** A change of structure, and what it weighs on the whole aircraft [kg]. */
export interface Stiffening {
  readonly name: string;
  readonly structure: AssembledStructure;
  readonly mass: number;
}

const areaOf = ({ stations }: SurfacePart): number =>
  stations.slice(1).reduce((sum, s, i) => sum + ((s.y - stations[i]!.y) * (s.chord + stations[i]!.chord)) / 2, 0);

const lengthOf = ({ stations }: SurfacePart): number => stations.at(-1)!.y - stations[0]!.y;

/** The largest surface changed, its weighed mass grown by what is added. */
function withWing(half: HalfAircraft, added: number, change: (wing: SurfacePart) => SurfacePart): HalfAircraft {
  const [wing, ...others] = half.surfaces;
  const changed = change(wing!);
  const mass = wing!.mass === undefined ? {} : { mass: wing!.mass + added };
  return { ...half, surfaces: [{ ...changed, ...mass }, ...others] };
}

/** Glass of 25 g/m2, hand lay-up with as much resin again: 0.02 mm of 18 GPa on each face, 50 g/m2 (from memory: typical of woven glass). */
const glass = { modulus: 18e9, shear: 4e9, thickness: 2e-5, arealMass: 0.05 };

/** Height of a sheet of foam of known stiffness [m]. */
const heightOf = ({ d11 }: PlateProperties): number => Math.cbrt((12 * 0.91 * d11) / 12e6);

function glazed(plate: PlateProperties): PlateProperties {
  const height = heightOf(plate);
  const face = (modulus: number) => (modulus * glass.thickness * height ** 2) / 2;
  return {
    ...plate,
    d11: plate.d11 + face(glass.modulus),
    d22: plate.d22 + face(glass.modulus),
    d66: plate.d66 + face(glass.shear),
    arealMass: plate.arealMass + 2 * glass.arealMass,
  };
}

/** Carbon tube of 6 mm outside and 4 mm inside: 127 GPa, 4 GPa in shear, 1500 kg/m3 (maker's data). */
const tube = { bending: 6.49, torsion: 0.41, linearMass: 0.0236 };

/** A tube below the surface from root to tip at a share of the chord. */
const tubeAt = ({ stations }: SurfacePart, share: number) => ({
  name: `tube below at ${share}`,
  points: stations.map(({ y, xLeadingEdge, chord }) => ({ x: xLeadingEdge + share * chord, y, at: tube })),
});

/** Tubes along the chord between root and tip: a line across the surface at one y. */
const crossTube = ({ stations }: SurfacePart, share: number) => {
  const [root, tip] = [stations[0]!, stations.at(-1)!];
  const y = root.y + share * (tip.y - root.y);
  const mix = (a: number, b: number) => a + share * (b - a);
  const [x, chord] = [mix(root.xLeadingEdge, tip.xLeadingEdge), mix(root.chord, tip.chord)];
  return {
    name: `tube along the chord at ${share}`,
    points: [0.05, 0.8].map((u) => ({ x: x + u * chord, y, at: tube })),
  };
};

/**
 * Changes that stiffen the largest surface, to be compared by what they do to the limits for their mass: with materials of the
 * design where it describes the surface, and with glass, tubes and linkages that are usual.
 */
export function stiffenings(structure: AssembledStructure): readonly Stiffening[] {
  const wing = structure.half.surfaces[0];
  if (wing === undefined) return [];
  const [area, length] = [areaOf(wing), lengthOf(wing)];
  const chord = area / length;
  const made = (name: string, mass: number, change: (wing: SurfacePart) => SurfacePart): Stiffening => ({
    name,
    mass: 2 * mass,
    structure: { ...structure, half: withWing(structure.half, mass, change) },
  });
  const beams = (added: SurfacePart['beams']) => (part: SurfacePart) => ({ ...part, beams: [...part.beams, ...added] });
  const glazing = made('glass of 25 g/m2 on both faces', 2 * glass.arealMass * area, (part) => ({
    ...part,
    plateAt: (y, u) => glazed(part.plateAt(y, u)),
  }));
  return [
    ...ownStiffenings(structure),
    ...(structure.foam ? [glazing] : []),
    made(
      'two 6 mm carbon tubes below, from root to tip at 25 and 60 % of the chord',
      2 * tube.linearMass * length,
      (part) => beams([tubeAt(part, 0.25), tubeAt(part, 0.6)])(part),
    ),
    made('two 6 mm carbon tubes below each half, along the chord', 1.5 * tube.linearMass * chord, (part) =>
      beams([crossTube(part, 0.35), crossTube(part, 0.8)])(part),
    ),
    made('linkages three times as stiff', 0.002, (part) => ({
      ...part,
      controls: part.controls.map((control) => ({ ...control, linkageStiffness: 3 * control.linkageStiffness })),
    })),
  ];
}
