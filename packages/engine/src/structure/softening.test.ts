import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { StructuralMaterial } from './laminate.js';
import { structureRelations } from './relations.js';
import { softened, softenedBetween, softeningLaws, stiffnessKept } from './softening.js';

const { 'polystyrene foam': polystyrene, 'polypropylene foam': polypropylene, wood } = softeningLaws;
const temperatures = fc.double({ min: 250, max: 420, noNaN: true });

const material = (of: Partial<StructuralMaterial>): StructuralMaterial => ({
  name: 'part',
  modulus: 10e9,
  modulusAcross: 10e9,
  shearModulus: 3e9,
  throughShear: 3e9,
  poisson: 0.3,
  density: 1000,
  tension: 2e8,
  compression: 1e8,
  shearStrength: 4e7,
  expansion: 0,
  ...of,
});

describe('stiffness of a warm material', () => {
  it('of foam is a tenth where it is said to be, and whole at room temperature and where nothing softens', () => {
    for (const foam of [polystyrene, polypropylene]) {
      expect(stiffnessKept(foam, foam.softensAt).kept).toBeCloseTo(0.1, 12);
      expect(stiffnessKept(foam, 296).kept).toBe(1);
    }
    expect(stiffnessKept({}, 380)).toEqual({ kept: 1, low: 1, high: 1 });
  });

  it('falls late in polystyrene, steadily in polypropylene and by 7 % from 20 to 50 C in wood (Wood Handbook, from memory)', () => {
    expect(stiffnessKept(polystyrene, 333).kept).toBeGreaterThan(0.85);
    expect(stiffnessKept(polystyrene, 348).kept).toBeCloseTo(0.62, 2);
    expect(stiffnessKept(polypropylene, 333).kept).toBeCloseTo(0.44, 2);
    expect(stiffnessKept(wood, 323).kept).toBeCloseTo(0.93, 2);
    expect(softened(material(wood), 323).compression / 1e8).toBeCloseTo(0.78, 2);
  });

  it('never rises with temperature and stays within its band', () => {
    for (const law of Object.values(softeningLaws))
      fc.assert(
        fc.property(temperatures, fc.double({ min: 0, max: 30, noNaN: true }), (from, by) => {
          const [cool, warm] = [stiffnessKept(law, from), stiffnessKept(law, from + by)];
          expect(warm.kept).toBeLessThanOrEqual(cool.kept);
          expect(warm.low).toBeLessThanOrEqual(Math.max(warm.kept, 0.02));
          expect(warm.high).toBeGreaterThanOrEqual(warm.kept);
        }),
      );
  });

  it('of fibres stays, while the resin around them lets go of shear and compression', () => {
    const cloth = material(softeningLaws['hand-laid laminate']);
    const hot = softened(cloth, cloth.softensAt!);
    expect(hot.modulus / cloth.modulus).toBeCloseTo(0.85 + 0.15 * 0.1, 9);
    expect(hot.modulusAcross).toBe(hot.modulus);
    expect(hot.shearModulus / cloth.shearModulus).toBeCloseTo(0.1, 9);
    expect(hot.compression / cloth.compression).toBeCloseTo(0.1, 9);
    expect(hot.tension / cloth.tension).toBeCloseTo(hot.modulus / cloth.modulus, 9);
    const rod = material({ ...softeningLaws['pultruded carbon'], modulusAcross: 5e8 });
    expect(softened(rod, 393).modulusAcross / 5e8).toBeCloseTo(0.1, 9);
  });

  it('between two faces is their mean, whichever is the warm one, and its strength that of the warm one', () => {
    const foam = material(polystyrene);
    const [upper, lower] = [softened(foam, 345), softened(foam, 300)];
    const between = softenedBetween(foam, 345, 300);
    expect(between).toEqual(softenedBetween(foam, 300, 345));
    expect(between.modulus).toBeCloseTo((upper.modulus + lower.modulus) / 2, 3);
    expect(between.compression).toBe(upper.compression);
  });

  it('is left as it is where nothing softens, and refuses a temperature that is no number', () => {
    const metal = material({});
    expect(softened(metal, 400)).toBe(metal);
    expect(() => stiffnessKept(polystyrene, Number.NaN)).toThrow(RangeError);
  });

  it('can be asked for on its own', () => {
    const relation = structureRelations.find(({ topic }) => topic === 'softening')!;
    const answer = relation.compute({ kind: 'polystyrene foam', temperature: 348.15 });
    expect(answer).toMatchObject({
      stiffness: expect.closeTo(0.62, 2),
      speedFactor: expect.closeTo(Math.sqrt(0.62), 2),
    });
    expect(relation.compute({ kind: 'wood', temperature: -5 })).toHaveProperty('reason');
  });
});
