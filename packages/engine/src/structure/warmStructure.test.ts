import { describe, expect, it } from 'vitest';
import type { StructuralMaterial } from './laminate.js';
import { type Softening, softened, softeningLaws } from './softening.js';
import type { SurfaceStructure } from './surface-types.js';
import { surfaceSection } from './surfaceSection.js';
import { warmStructure } from './warmStructure.js';

const material = (name: string, modulus: number, law: Softening): StructuralMaterial => ({
  name,
  modulus,
  modulusAcross: modulus,
  shearModulus: modulus / 2.6,
  throughShear: modulus / 2.6,
  poisson: 0.3,
  density: 100,
  tension: modulus / 100,
  compression: modulus / 100,
  shearStrength: modulus / 200,
  expansion: 0,
  ...law,
});
const glass = material('glass', 14e9, softeningLaws['hand-laid laminate']);
const carbon = material('carbon', 127e9, softeningLaws['pultruded carbon']);
const skin = (face: 'upper' | 'lower') =>
  ({ name: face, face, from: 0, to: 1, layers: [{ material: glass, thickness: 5e-5, angle: 0 }] }) as const;
const spar = (place: 'middle' | 'below') =>
  ({
    name: place,
    kind: 'tube',
    material: carbon,
    place,
    sizes: [0, 1].map((y) => ({ y, chordFraction: 0.3, width: 0.006, depth: 0.004 })),
  }) as const;
const wing: SurfaceStructure = {
  name: 'wing',
  stations: [0, 1].map((y) => ({
    y,
    xLeadingEdge: 0,
    chord: 0.2,
    shape: { stations: [0, 1], upper: [0.05, 0.05], lower: [-0.05, -0.05] },
  })),
  core: material('foam', 12e6, softeningLaws['polystyrene foam']),
  zones: [skin('upper'), skin('lower')],
  spars: [spar('middle'), spar('below')],
  cells: [],
  controls: [],
  bendingFactor: 1,
  torsionFactor: 1,
};

describe('a surface whose faces are warm', () => {
  it('is as it was at room temperature', () => {
    const { structure, softer } = warmStructure(wing, { upper: 296, lower: 290 });
    expect(structure).toEqual(wing);
    expect(softer).toEqual([]);
  });

  it('has each part at its own temperature and names what softened, the softest first', () => {
    const { structure, softer } = warmStructure(wing, { upper: 345, lower: 300 });
    expect(structure.zones[0]!.layers[0]!.material).toEqual(softened(glass, 345));
    expect(structure.zones[1]!.layers[0]!.material).toEqual(softened(glass, 300));
    expect(structure.spars[1]!.material).toEqual(softened(carbon, 300));
    expect(structure.core!.modulus).toBeLessThan(wing.core!.modulus);
    expect(softer.map(({ name }) => name)).toEqual(['foam', 'glass', 'carbon']);
    for (const { temperature } of softer) expect(temperature).toBe(345);
  });

  it('bends and twists more easily, and the bottom side spar keeps its part of it', () => {
    const { structure } = warmStructure(wing, { upper: 345, lower: 300 });
    const [cold, warm] = [surfaceSection(wing, 0.5), surfaceSection(structure, 0.5)];
    expect(warm.bending).toBeLessThan(cold.bending);
    expect(warm.bending).toBeGreaterThan(0.8 * cold.bending);
  });
});
