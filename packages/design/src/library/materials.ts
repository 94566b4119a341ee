import { type Entry, type Typical, typical } from './provenance.js';

/** A material by volume [kg/m3] or by area [kg/m2]. */
export interface Material extends Entry {
  readonly density?: Typical;
  readonly arealDensity?: Typical;
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

/** Materials by name. Sheets are as applied. */
export const MATERIALS = {
  'expanded polypropylene foam': solid(20, 3, 'tough foam of moulded models', practice),
  'extruded polystyrene foam': solid(33, 3, 'blue or pink building foam, hot-wire cut'),
  'expanded polystyrene foam': solid(18, 3, 'white bead foam, hot-wire cut'),
  'depron foam': solid(36, 4, 'extruded polystyrene sheet of 3 to 6 mm', practice),
  'structural PMI foam': solid(52, 4, 'closed-cell core of moulded skins'),
  balsa: solid(140, 35, 'light to medium sheet'),
  spruce: solid(430, 40, 'spar caps and stringers'),
  'birch plywood': solid(680, 40, 'formers and ribs'),
  'carbon tube': solid(1550, 50, 'pultruded or wrapped, fibre share about 60 %'),
  'carbon strip': solid(1550, 50, 'unidirectional, fibre share about 60 %'),
  'glass laminate': solid(1850, 80, 'hand-laid fabric with epoxy'),
  aluminium: solid(2750, 50, 'joiners and fittings'),
  'glass fabric 25 g/m2 with epoxy': sheet(0.055, 0.008, 'one layer, hand-laid and blotted'),
  'glass fabric 49 g/m2 with epoxy': sheet(0.1, 0.012, 'one layer, hand-laid and blotted'),
  'carbon fabric 93 g/m2 with epoxy': sheet(0.18, 0.02, 'one layer, hand-laid and blotted'),
  'covering film': sheet(0.065, 0.01, 'iron-on polyester, one side'),
  'light covering film': sheet(0.035, 0.006, 'iron-on polyester for slow aircraft, one side'),
  'laminating film': sheet(0.055, 0.015, 'polyester with adhesive, 40 micron, one side'),
  'ETFE film 50 micron': sheet(0.085, 0.005, 'cover film of cells', memory),
  'EVA film 100 micron': sheet(0.095, 0.01, 'adhesive film of laminated cells', memory),
} as const satisfies Readonly<Record<string, Material>>;

export type MaterialName = keyof typeof MATERIALS;
