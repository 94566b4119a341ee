import { type Softening, softeningLaws } from '@noonwing/engine/structure';
import { type Entry, type Typical, typical } from './provenance.js';

/** Stiffness and strength of a material, 1 along its fibres, grain or length. SI. */
export interface Mechanics extends Softening {
  readonly modulus: number;
  readonly modulusAcross: number;
  readonly shearModulus: number;
  readonly poisson: number;
  readonly tension: number;
  readonly compression: number;
  readonly shearStrength: number;
  /** Linear thermal expansion [1/K]. */
  readonly expansion: number;
  /** Relative standard uncertainty of the moduli over what is sold under the name. */
  readonly spread: number;
  /** As applied, of sheets that are known by area [m]. */
  readonly thickness?: number;
  readonly source: string;
}

/** A material by volume [kg/m3] or by area [kg/m2]. */
export interface Material extends Entry {
  readonly density?: Typical;
  readonly arealDensity?: Typical;
  readonly mechanics?: Mechanics;
}

const practice = { provenance: 'common practice', source: 'common practice, no source' } as const;
const memory = { provenance: 'from memory', source: 'handbook values, from memory' } as const;

const solid = (density: number, sigma: number, help: string, entry: Omit<Entry, 'help'> = memory): Material => ({
  density: typical(density, sigma),
  help,
  ...entry,
});

const sheet = (arealDensity: number, sigma: number, help: string, entry: Omit<Entry, 'help'> = practice): Material => ({
  arealDensity: typical(arealDensity, sigma),
  help,
  ...entry,
});

/** Like in all directions. */
const even = (
  modulus: number,
  shearModulus: number,
  strength: readonly [tension: number, compression: number, shear: number],
  rest: Pick<Mechanics, 'expansion' | 'spread' | 'source'> & Partial<Mechanics>,
): Mechanics => ({
  modulus,
  modulusAcross: modulus,
  shearModulus,
  poisson: 0.3,
  tension: strength[0],
  compression: strength[1],
  shearStrength: strength[2],
  ...rest,
});

/** Expansion by data sheets of boards. */
const styrene = { expansion: 6.3e-5, ...softeningLaws['polystyrene foam'] };
const bends = 'three-point bends of 26 sheets, M. Drela and P. Barnes, 2003 (converted); strengths from memory';
const handbook = 'handbook values, from memory';
const wood = 'Wood Handbook (FPL-GTR-190) and Borrega, Gibson, Mech. Mater. 84, 2015 (from memory)';
const handLaid = {
  poisson: 0.15,
  expansion: 1.2e-5,
  spread: 0.2,
  ...softeningLaws['hand-laid laminate'],
  source: handbook,
};
const pultruded: Mechanics = {
  modulus: 127e9,
  modulusAcross: 8e9,
  shearModulus: 4e9,
  poisson: 0.3,
  tension: 1.3e9,
  compression: 6e8,
  shearStrength: 4.1e7,
  expansion: 0,
  spread: 0.08,
  ...softeningLaws['pultruded carbon'],
  source:
    "maker's data of pultruded tubes: 127 GPa in bending, shear strength 41 MPa; compression and shear modulus from memory",
};
const along = (modulus: number, strength: readonly [number, number, number], spread: number): Mechanics => ({
  modulus,
  modulusAcross: 0.04 * modulus,
  shearModulus: 0.05 * modulus,
  poisson: 0.3,
  tension: strength[0],
  compression: strength[1],
  shearStrength: strength[2],
  expansion: 4e-6,
  spread,
  source: wood,
});

/** The same of wood, which loses stiffness in the heat. */
const wooden = (...of: Parameters<typeof along>): Mechanics => ({ ...along(...of), ...softeningLaws.wood });

const film = (modulus: number, thickness: number): Mechanics =>
  even(modulus, modulus / 2.8, [1e8, 1e8, 5e7], {
    expansion: 3e-5,
    spread: 0.25,
    thickness,
    ...softeningLaws['polyester film'],
    source: handbook,
  });

/** Materials by name. Sheets are as applied. */
export const MATERIALS = {
  'expanded polypropylene foam': {
    ...solid(20, 3, 'tough foam of moulded models', practice),
    mechanics: even(2.5e6, 1e6, [2.5e5, 1e5, 1e5], {
      expansion: 1e-4,
      spread: 0.5,
      ...softeningLaws['polypropylene foam'],
      source: 'range 1 to 5 MPa, from memory',
    }),
  },
  'extruded polystyrene foam': {
    ...solid(33, 3, 'blue or pink building foam, hot-wire cut'),
    mechanics: even(15e6, 5e6, [3e5, 2.5e5, 2e5], { ...styrene, spread: 0.4, source: bends }),
  },
  'expanded polystyrene foam': {
    ...solid(18, 3, 'white bead foam, hot-wire cut'),
    mechanics: even(4e6, 1.6e6, [2e5, 1e5, 1e5], {
      ...styrene,
      spread: 0.3,
      source: 'least values of ASTM D6817 (EPS19: 4.0 MPa, 110 kPa)',
    }),
  },
  'depron foam': {
    ...solid(36, 4, 'extruded polystyrene sheet of 3 to 6 mm', practice),
    mechanics: even(12e6, 4.5e6, [3e5, 2e5, 2e5], {
      ...styrene,
      spread: 0.4,
      source: 'range 8 to 20 MPa, from memory',
    }),
  },
  'structural PMI foam': {
    ...solid(52, 4, 'closed-cell core of moulded skins'),
    mechanics: even(68.6e6, 19e6, [1.5e6, 8e5, 7e5], {
      expansion: 3.5e-5,
      spread: 0.1,
      source: `${bends}; shear from memory`,
    }),
  },
  balsa: { ...solid(140, 35, 'light to medium sheet'), mechanics: wooden(3.2e9, [2e7, 1.3e7, 2.5e6], 0.3) },
  spruce: { ...solid(430, 40, 'spar caps and stringers'), mechanics: wooden(1.08e10, [7e7, 3.8e7, 7e6], 0.12) },
  'birch plywood': {
    ...solid(680, 40, 'formers and ribs'),
    mechanics: even(8e9, 7e8, [6e7, 4e7, 1e7], {
      expansion: 5e-6,
      spread: 0.15,
      ...softeningLaws.wood,
      source: handbook,
    }),
  },
  'carbon tube': { ...solid(1550, 50, 'pultruded or wrapped, fibre share about 60 %'), mechanics: pultruded },
  'carbon strip': { ...solid(1550, 50, 'unidirectional, fibre share about 60 %'), mechanics: pultruded },
  'steel wire': {
    ...solid(7850, 50, 'spring steel, drawn'),
    mechanics: even(2e11, 7.7e10, [1.8e9, 1.8e9, 1e9], { expansion: 1.2e-5, spread: 0.05, source: handbook }),
  },
  'aramid cord': {
    ...solid(1440, 60, 'braided or twisted, some stretch at first'),
    mechanics: {
      ...along(4e10, [1.4e9, 1e7, 1e7], 0.35),
      expansion: -4e-6,
      source: 'fibres of 70 to 80 GPa, less by the lay of the cord; from memory',
    },
  },
  'glass laminate': {
    ...solid(1850, 80, 'hand-laid fabric with epoxy'),
    mechanics: even(18e9, 4e9, [2.5e8, 2e8, 5e7], handLaid),
  },
  aluminium: {
    ...solid(2750, 50, 'joiners and fittings'),
    mechanics: even(70e9, 26e9, [2.5e8, 2.5e8, 1.5e8], { expansion: 2.3e-5, spread: 0.02, source: handbook }),
  },
  'glass fabric 25 g/m2 with epoxy': {
    ...sheet(0.055, 0.008, 'one layer, hand-laid and blotted'),
    mechanics: even(14e9, 3.5e9, [2e8, 1.5e8, 4e7], { ...handLaid, thickness: 3.3e-5 }),
  },
  'glass fabric 49 g/m2 with epoxy': {
    ...sheet(0.1, 0.012, 'one layer, hand-laid and blotted'),
    mechanics: even(15e9, 3.5e9, [2.2e8, 1.7e8, 4e7], { ...handLaid, thickness: 6e-5 }),
  },
  'carbon fabric 93 g/m2 with epoxy': {
    ...sheet(0.18, 0.02, 'one layer, hand-laid and blotted'),
    mechanics: even(50e9, 4e9, [4e8, 3e8, 5e7], { ...handLaid, expansion: 3e-6, thickness: 1.25e-4 }),
  },
  'covering film': { ...sheet(0.065, 0.01, 'iron-on polyester, one side'), mechanics: film(3e9, 4.5e-5) },
  'light covering film': {
    ...sheet(0.035, 0.006, 'iron-on polyester for slow aircraft, one side'),
    mechanics: film(3e9, 2.5e-5),
  },
  'laminating film': {
    ...sheet(0.055, 0.015, 'polyester with adhesive, 40 micron, one side'),
    mechanics: film(2.5e9, 4e-5),
  },
  'fibre tape': {
    ...sheet(0.13, 0.02, 'glass-fibre reinforced packing tape, as hinge or strap'),
    mechanics: { ...along(4e9, [2.5e8, 3e7, 1e7], 0.4), thickness: 1.3e-4, source: 'judgement' },
  },
  'ETFE film 50 micron': sheet(0.085, 0.005, 'cover film of cells', memory),
  'EVA film 100 micron': sheet(0.095, 0.01, 'adhesive film of laminated cells', memory),
} as const satisfies Readonly<Record<string, Material>>;

export type MaterialName = keyof typeof MATERIALS;

/** Materials that can carry load. */
export const STRUCTURAL_MATERIALS = (Object.keys(MATERIALS) as MaterialName[]).filter(
  (name) => (MATERIALS[name] as Material).mechanics !== undefined,
);
