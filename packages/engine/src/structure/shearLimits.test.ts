import { describe, expect, it } from 'vitest';
import type { StructuralMaterial } from './laminate.js';
import { closedShear } from './shearLimits.js';
import { curvatureLimits, firstLimit } from './strength.js';
import type { SparPart, SurfaceStructure } from './surface-types.js';
import { surfaceSection } from './surfaceSection.js';

const material = (name: string, modulus: number, shearStrength: number): StructuralMaterial => ({
  name,
  modulus,
  modulusAcross: modulus,
  shearModulus: modulus / 2.6,
  throughShear: modulus / 2.6,
  poisson: 0.3,
  density: 500,
  tension: 5e8,
  compression: 5e8,
  shearStrength,
  expansion: 0,
});
const glass = material('glass', 18e9, 5e7);
const foam = material('foam', 40e6, 5e5);
const spar: SparPart = {
  name: 'main',
  kind: 'caps',
  material: material('carbon', 120e9, 5e7),
  place: 'middle',
  web: { material: material('balsa', 2e9, 1e6), thickness: 3e-3 },
  sizes: [0, 1].map((y) => ({ y, chordFraction: 0.3, width: 0.01, depth: 0.001 })),
};
const shell = [
  { material: glass, thickness: 1e-4, angle: 0 },
  { material: foam, thickness: 2e-3, angle: 0 },
  { material: glass, thickness: 1e-4, angle: 0 },
];
/** A hollow wing of constant chord with an elliptic section, its skin as far as `to`. */
const wing = (to: number, layers = shell): SurfaceStructure => ({
  name: 'wing',
  stations: [0, 1].map((y) => ({
    y,
    xLeadingEdge: 0,
    chord: 0.3,
    shape: {
      stations: [0, 0.02, 0.1, 0.3, 0.6, 0.9, 1],
      upper: [0, 0.015, 0.035, 0.05, 0.04, 0.01, 0],
      lower: [0, -0.015, -0.035, -0.05, -0.04, -0.01, 0],
    },
  })),
  zones: (['upper', 'lower'] as const).map((face) => ({ name: `${face} skin`, face, from: 0, to, layers })),
  spars: [spar],
  cells: [],
  controls: [],
  bendingFactor: 1,
  torsionFactor: 1,
});
const shearOf = (structure: SurfaceStructure, part: string) =>
  Math.min(
    ...closedShear(structure, surfaceSection(structure, 0.2))!
      .filter((one) => one.part === part)
      .map(({ shear }) => shear),
  );

describe('shear of closed shells', () => {
  it('relieves the web, which then bears more than its own height and thickness say', () => {
    const alone = 1e6 * 3e-3 * 0.03;
    expect(shearOf(wing(1), 'web of main')).toBeGreaterThan(1.05 * alone);
    expect(shearOf(wing(1), 'web of main')).toBeLessThan(3 * alone);
  });

  it('limits the skin as well, in proportion to its strength', () => {
    const weak = shell.map((layer) =>
      layer.material === glass ? { ...layer, material: { ...glass, shearStrength: 1e6 } } : layer,
    );
    const [strong, poor] = [shearOf(wing(1), 'upper glass'), shearOf(wing(1, weak), 'upper glass')];
    expect(poor).toBeLessThan(0.2 * strong);
    expect(
      firstLimit(
        curvatureLimits(
          wing(
            1,
            weak.map((layer) => ({ ...layer, material: { ...layer.material, shearStrength: 1e4 } })),
          ),
          0.2,
        ),
        'up',
      )!.reason,
    ).toContain('shear');
  });

  it('stops where the tail is open: a D-box, or a control behind its hinge', () => {
    const [all, box] = [wing(1), wing(0.3001)].map((one) => closedShear(one, surfaceSection(one, 0.2))!);
    expect(box!.length).toBeLessThan(all!.length);
    const control = {
      name: 'aileron',
      fromY: 0.1,
      toY: 0.5,
      hinge: 0.75,
      hingeStiffness: 0,
      linkageStiffness: 6,
      hornY: 0.2,
    };
    const cut = { ...wing(1), controls: [control] };
    expect(closedShear(cut, surfaceSection(cut, 0.2))!).toHaveLength(box!.length);
    expect(closedShear(cut, surfaceSection(cut, 0.8))!).toHaveLength(all!.length);
  });

  it('is left to the webs where the nose is open or covered with film, and in solid sections', () => {
    const film = [{ material: { ...glass, modulus: 4e9 }, thickness: 3e-5, angle: 0 }];
    for (const structure of [wing(0.1), wing(1, film), { ...wing(1), core: foam }]) {
      expect(closedShear(structure, surfaceSection(structure, 0.2))).toBeUndefined();
      expect(curvatureLimits(structure, 0.2).map(({ part }) => part)).toContain('web of main');
    }
  });
});
