import type { Relation, RelationValues } from '../relation.js';
import { bendCantilever, cantileverFrequencies } from './cantilever.js';
import { sandwich, wrinklingStress } from './index.js';
import { socketBearing, webBucklingStress, webShearStress } from './joiner.js';
import { capsProfile, type Profile, stripProfile, tubeProfile } from './profiles.js';
import { type Softening, softenedBetween, softeningLaws, stiffnessKept } from './softening.js';

const numbers = <K extends string>(values: RelationValues, keys: readonly K[]) =>
  Object.fromEntries(keys.map((key) => [key, Number(values[key])])) as Record<K, number>;

/** Profile by its shape, or undefined where the sizes make none. */
function profileOf(shape: string, width: number, height: number, thickness: number): Profile | undefined {
  if (!(width > 0)) return undefined;
  if (shape === 'tube') return height >= 0 && height < width ? tubeProfile(width, height) : undefined;
  if (shape === 'strip') return height > 0 ? stripProfile(width, height) : undefined;
  return thickness > 0 && height > 2 * thickness ? capsProfile(width, thickness, height) : undefined;
}

const beam: Relation = {
  topic: 'beam',
  title: 'Spar that is held at its root and carries lift like half an ellipse: deflection, stress, frequency',
  inputs: [
    { key: 'shape', kind: 'choice', choices: ['tube', 'strip', 'caps'], help: 'of the spar', default: 'tube' },
    { key: 'width', kind: 'length', help: 'outer diameter; width of strip or caps', default: 0.008 },
    { key: 'height', kind: 'length', help: 'inner diameter; height of the strip; over both caps', default: 0.006 },
    { key: 'thickness', kind: 'length', help: 'of each cap', default: 0.001 },
    { key: 'modulus', kind: 'pressure', help: "Young's modulus", default: 127e9 },
    { key: 'strength', kind: 'pressure', help: 'of its outer fibre', default: 600e6 },
    { key: 'length', kind: 'length', help: 'from the root to the tip', default: 0.75 },
    { key: 'load', kind: 'force', help: 'on this half, over its whole length', default: 10 },
    { key: 'linearMass', kind: 'linear density', help: 'with what it carries, for the frequency', default: 0.3 },
  ],
  outputs: [
    { key: 'bendingStrength', kind: 'torque', help: 'moment at which the outer fibre reaches its strength' },
    { key: 'deflection', kind: 'length', help: 'of the tip' },
    { key: 'slope', kind: 'angle', help: 'of the tip' },
    { key: 'rootMoment', kind: 'torque', help: 'at the root' },
    { key: 'stress', kind: 'pressure', help: 'of the outer fibre at the root' },
    { key: 'loadFactor', kind: 'ratio', help: 'by which the load may grow until the fibre breaks' },
    { key: 'period', kind: 'time', help: 'of the first bending vibration, root held' },
  ],
  compute: (values) => {
    const v = numbers(values, ['width', 'height', 'thickness', 'modulus', 'strength', 'length', 'load', 'linearMass']);
    const profile = profileOf(String(values.shape), v.width, v.height, v.thickness);
    if (profile === undefined || !(v.modulus > 0 && v.strength > 0 && v.length > 0 && v.load > 0 && v.linearMass > 0)) {
      return {
        reason:
          'sizes, modulus, strength, length, load and mass must be positive, and a tube wider outside than inside',
        remedy: 'give shape=tube width=8mm height=6mm length=750mm load=10N',
      };
    }
    const bending = v.modulus * profile.inertia;
    const part = { length: v.length, elements: 8, at: () => ({ bending, torsion: bending, linearMass: v.linearMass }) };
    const peak = (4 * v.load) / (Math.PI * v.length);
    const bent = bendCantilever(part, (x) => peak * Math.sqrt(Math.max(0, 1 - (x / v.length) ** 2)));
    const stress = (bent.rootMoment * profile.halfHeight) / profile.inertia;
    return {
      bendingStrength: (v.strength * profile.inertia) / profile.halfHeight,
      deflection: bent.tipDeflection,
      slope: bent.tipSlope,
      rootMoment: bent.rootMoment,
      stress,
      loadFactor: v.strength / stress,
      period: (2 * Math.PI) / cantileverFrequencies(part, 1)[0],
    };
  },
};

const plate: Relation = {
  topic: 'plate',
  title: 'Foam sheet, bare or with a face on both sides: how far it bends along an overhang under pressure and heat',
  inputs: [
    { key: 'thickness', kind: 'length', help: 'of the foam', default: 0.006 },
    { key: 'foamModulus', kind: 'pressure', help: "Young's modulus of the foam", default: 15e6 },
    { key: 'foamShear', kind: 'pressure', help: 'shear modulus of the foam', default: 5e6 },
    { key: 'faceThickness', kind: 'length', help: 'of the face on each side; 0 for bare foam', default: 0 },
    { key: 'faceModulus', kind: 'pressure', help: 'of the faces', default: 15e9 },
    { key: 'overhang', kind: 'length', help: 'from where it is held to its free edge', default: 0.15 },
    { key: 'pressure', kind: 'pressure', help: 'on it', default: 10 },
    { key: 'difference', kind: 'temperature difference', help: 'top warmer than bottom', default: 20 },
    {
      key: 'expansion',
      kind: 'ratio',
      help: 'thermal expansion of the foam per kelvin (of bare foam)',
      default: 6.3e-5,
    },
  ],
  outputs: [
    {
      key: 'bendingStiffness',
      kind: 'torque',
      help: 'moment that bends a strip of one metre of width to a radius of one metre: D',
    },
    { key: 'deflection', kind: 'length', help: 'of the free edge under the pressure' },
    { key: 'shearShare', kind: 'ratio', help: 'part of it by shear of the foam' },
    { key: 'slope', kind: 'angle', help: 'of the free edge by bending' },
    { key: 'heatSlope', kind: 'angle', help: 'of the free edge by heat, downwards; bare foam' },
    { key: 'wrinklingStress', kind: 'pressure', help: 'at which a face on this foam would wrinkle' },
  ],
  compute: (values) => {
    const v = numbers(values, [
      'thickness',
      'foamModulus',
      'foamShear',
      'faceThickness',
      'faceModulus',
      'overhang',
      'pressure',
      'difference',
      'expansion',
    ]);
    if (
      !(
        v.thickness > 0 &&
        v.foamModulus > 0 &&
        v.foamShear > 0 &&
        v.faceThickness >= 0 &&
        v.faceModulus > 0 &&
        v.overhang > 0
      )
    ) {
      return { reason: 'thickness, moduli and overhang must be positive', remedy: 'give thickness=6mm overhang=150mm' };
    }
    const face = { modulus: v.faceModulus, thickness: v.faceThickness };
    const { bending, shear } = sandwich(face, {
      modulus: v.foamModulus,
      shearModulus: v.foamShear,
      thickness: v.thickness,
    });
    const byBending = (v.pressure * v.overhang ** 4) / (8 * bending);
    const byShear = (v.pressure * v.overhang ** 2) / (2 * (v.faceThickness > 0 ? shear : (5 / 6) * shear));
    return {
      bendingStiffness: bending,
      deflection: byBending + byShear,
      shearShare: v.pressure === 0 ? 0 : byShear / (byBending + byShear),
      slope: (v.pressure * v.overhang ** 3) / (6 * bending),
      heatSlope: v.faceThickness > 0 ? 0 : (v.expansion * v.difference * v.overhang) / v.thickness,
      wrinklingStress: wrinklingStress(face, { modulus: v.foamModulus, shearModulus: v.foamShear }),
    };
  },
};

const joiner: Relation = {
  topic: 'joiner',
  title: 'Tube that joins two wing panels, and the web of a spar beside it: bending, bearing, shear',
  inputs: [
    { key: 'moment', kind: 'torque', help: 'at the joint', default: 5 },
    { key: 'shear', kind: 'force', help: 'across the joint', default: 20 },
    { key: 'diameter', kind: 'length', help: 'outside', default: 0.01 },
    { key: 'bore', kind: 'length', help: 'inner diameter; 0 for a rod', default: 0.008 },
    { key: 'depth', kind: 'length', help: 'in the socket of each panel', default: 0.12 },
    { key: 'play', kind: 'length', help: 'between joiner and socket', default: 0.0001 },
    { key: 'strength', kind: 'pressure', help: 'of its outer fibre', default: 600e6 },
    { key: 'bearing', kind: 'pressure', help: 'strength of the socket in compression', default: 10e6 },
    { key: 'webHeight', kind: 'length', help: 'of the web between caps', default: 0.02 },
    { key: 'webThickness', kind: 'length', help: 'of the web', default: 0.0015 },
    { key: 'webModulus', kind: 'pressure', help: "Young's modulus of the web", default: 1.5e9 },
    { key: 'webStrength', kind: 'pressure', help: 'of the web in shear', default: 2e6 },
  ],
  outputs: [
    { key: 'stress', kind: 'pressure', help: 'of its outer fibre' },
    { key: 'bendingMargin', kind: 'ratio', help: 'by which the load may grow until it breaks' },
    { key: 'pressure', kind: 'pressure', help: 'on the socket at its mouth' },
    { key: 'bearingMargin', kind: 'ratio', help: 'by which the load may grow until the socket is crushed' },
    { key: 'kink', kind: 'angle', help: 'of each panel by the play' },
    { key: 'webStress', kind: 'pressure', help: 'shear of the web' },
    { key: 'webMargin', kind: 'ratio', help: 'by which the load may grow until the web shears or buckles' },
  ],
  compute: (values) => {
    const v = numbers(values, [
      ...(['moment', 'shear', 'diameter', 'bore', 'depth', 'play', 'strength', 'bearing'] as const),
      ...(['webHeight', 'webThickness', 'webModulus', 'webStrength'] as const),
    ]);
    const { play, bore, ...positive } = v;
    if (!(Object.values(positive).every((value) => value > 0) && play >= 0 && bore >= 0 && bore < v.diameter)) {
      return {
        reason: 'loads, sizes and strengths must be positive, and the bore less than the diameter',
        remedy: 'give moment=5N*m shear=20N diameter=10mm bore=8mm depth=120mm',
      };
    }
    const { inertia, halfHeight } = tubeProfile(v.diameter, v.bore);
    const stress = (v.moment * halfHeight) / inertia;
    const { pressure, kink } = socketBearing(v, { depth: v.depth, width: v.diameter, play: v.play });
    const webStress = webShearStress(v.shear, v.webHeight, v.webThickness);
    const most = Math.min(v.webStrength, webBucklingStress(v.webModulus, 0.3, v.webThickness, v.webHeight));
    return {
      stress,
      bendingMargin: v.strength / stress,
      pressure,
      bearingMargin: v.bearing / pressure,
      kink,
      webStress,
      webMargin: most / webStress,
    };
  },
};

/** A part of which all is one, so that what is left of it are shares. */
const unitMaterial = {
  ...{ name: 'part', modulus: 1, modulusAcross: 1, shearModulus: 1, throughShear: 1, poisson: 0.3, density: 1 },
  ...{ tension: 1, compression: 1, shearStrength: 1, expansion: 0 },
};

const softening: Relation = {
  topic: 'softening',
  title: 'What a warm material keeps of its stiffness and strength, over that at 23 C',
  inputs: [
    {
      key: 'kind',
      kind: 'choice',
      choices: Object.keys(softeningLaws),
      help: 'of material; in fibres the resin softens, in foam and wood all of it',
      default: 'polystyrene foam',
    },
    { key: 'temperature', kind: 'temperature', help: 'of the material', default: 333.15 },
  ],
  outputs: [
    { key: 'stiffness', kind: 'ratio', help: 'that is left along fibres, grain or sheet' },
    { key: 'low', kind: 'ratio', help: 'lower end: half as much again is lost' },
    { key: 'high', kind: 'ratio', help: 'upper end: half as much is lost' },
    { key: 'shear', kind: 'ratio', help: 'of its stiffness in shear that is left' },
    { key: 'compression', kind: 'ratio', help: 'of its strength in compression that is left' },
    { key: 'speedFactor', kind: 'ratio', help: 'on a limit speed that rests on this stiffness alone: its root' },
  ],
  compute: ({ kind, temperature }) => {
    const law: Softening | undefined = softeningLaws[kind as keyof typeof softeningLaws];
    const at = Number(temperature);
    if (law === undefined || !(at > 200 && at < 450))
      return { reason: 'the temperature must lie between -70 and 175 C', remedy: 'give temperature=60C' };
    const { kept, low, high } = stiffnessKept(law, at);
    const { shearModulus, compression } = softenedBetween({ ...unitMaterial, ...law }, at, at);
    return { stiffness: kept, low, high, shear: shearModulus, compression, speedFactor: Math.sqrt(kept) };
  },
};

/** What can be asked of beams, plates, joiners and warm materials on their own. */
export const structureRelations: readonly Relation[] = [beam, plate, joiner, softening];
