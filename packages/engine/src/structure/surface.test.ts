import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerRelation } from '../relation.js';
import { panelBucklingStress } from './buckling.js';
import { threePointModulus, threePointSpread, updateFactor } from './calibration.js';
import { cellStrain, crackChance, faceCurvature, leastBendRadius } from './cells.js';
import { buildModel, halfModel, heatLoad, pointRow, prepareStatic, readRow, solveStatic } from './index.js';
import type { StructuralMaterial } from './laminate.js';
import { planeStiffness, reducedBending, stackStiffness } from './laminate.js';
import { structureRelations } from './relations.js';
import { curvatureLimits, firstLimit } from './strength.js';
import type { SurfaceStructure } from './surface-types.js';
import { surfacePart } from './surfacePart.js';
import { surfaceSection } from './surfaceSection.js';
import { loopShear } from './thinWalled.js';

const material = (
  name: string,
  modulus: number,
  shearModulus: number,
  density: number,
  strength: number,
  expansion = 0,
): StructuralMaterial => ({
  name,
  modulus,
  modulusAcross: modulus,
  shearModulus,
  throughShear: shearModulus,
  poisson: modulus / (2 * shearModulus) - 1,
  density,
  tension: strength,
  compression: strength,
  shearStrength: strength / 2,
  expansion,
});
const foam = material('foam', 15e6, 6e6, 33, 2.5e5, 6.3e-5);
const glass = material('glass', 15e9, 6e9, 1700, 1.7e8);
const carbon = { ...material('carbon', 127e9, 50e9, 1500, 6e8), shearModulus: 4e9 };
const silicon = material('silicon', 150e9, 62e9, 2329, 1.5e8);
const flat = (thickness: number, chord: number) => ({
  stations: [0, 1],
  upper: [thickness / chord / 2, thickness / chord / 2],
  lower: [-thickness / chord / 2, -thickness / chord / 2],
});

const sheet = (changes: Partial<SurfaceStructure> = {}, thickness = 0.012, chord = 0.3): SurfaceStructure => ({
  name: 'wing',
  stations: [0, 0.6].map((y) => ({ y, xLeadingEdge: 0, chord, shape: flat(thickness, chord) })),
  core: foam,
  zones: [],
  spars: [],
  cells: [],
  controls: [],
  bendingFactor: 1,
  torsionFactor: 1,
  ...changes,
});
const skins = (layers: SurfaceStructure['zones'][number]['layers']): SurfaceStructure['zones'] =>
  (['upper', 'lower'] as const).map((face) => ({ name: face, face, from: 0, to: 1, layers }));

describe('section of a surface', () => {
  it('of bare foam is a plate of that foam', () => {
    const section = surfaceSection(sheet(), 0.3);
    const d = (15e6 * 0.012 ** 3) / (12 * (1 - 0.25 ** 2));
    expect(section.bending).toBeCloseTo(d * 0.3, 6);
    expect(section.torsion).toBeCloseTo((6e6 * 0.3 * 0.012 ** 3) / 3, 8);
    expect(section.linearMass).toBeCloseTo(33 * 0.012 * 0.3, 10);
    expect(section.elasticAxis).toBeCloseTo(0.5, 6);
  });

  it('grows by the tube that is put in its middle, and more by one below', () => {
    const spar = {
      name: 'tube',
      kind: 'tube' as const,
      material: carbon,
      place: 'middle' as const,
      sizes: [0, 0.6].map((y) => ({ y, chordFraction: 0.3, width: 8e-3, depth: 6e-3 })),
    };
    const bare = surfaceSection(sheet(), 0.3);
    const inside = surfaceSection(sheet({ spars: [spar] }), 0.3);
    const below = surfaceSection(sheet({ spars: [{ ...spar, place: 'below' }] }), 0.3);
    expect(inside.bending - bare.bending).toBeCloseTo(17.455, 2);
    expect(below.bending).toBeGreaterThan(inside.bending);
    // One section turns about one neutral axis: below it lies near the tube, which is by far the stiffer.
    expect(below.neutralAxis).toBeLessThan(-0.006);
    expect(inside.elasticAxis).toBeGreaterThan(0.3);
    expect(inside.elasticAxis).toBeLessThan(0.35);
  });

  it('of a hollow box of skins has the torsion of Bredt', () => {
    const box = sheet({ zones: skins([{ material: glass, thickness: 2e-4, angle: 0 }]) }, 0.03);
    const { core: _, ...hollow } = box;
    const section = surfaceSection(hollow, 0.3);
    // Open at nose and tail in this shape; the skins close at once there.
    expect(section.torsion).toBeCloseTo((4 * (0.3 * 0.03) ** 2 * 6e9 * 2e-4) / (2 * 0.3), 0);
  });

  it('with cells gains little through soft foam and much through glass', () => {
    const cell = {
      name: 'row',
      fromY: 0,
      toY: 0.6,
      from: 0.2,
      to: 0.6,
      face: 'upper' as const,
      material: silicon,
      thickness: 165e-6,
      length: 0.125,
      width: 0.125,
      gap: 2e-3,
    };
    const gain = (changes: Partial<SurfaceStructure>) =>
      surfaceSection(sheet({ ...changes, cells: [cell] }), 0.3).stretch - surfaceSection(sheet(changes), 0.3).stretch;
    const onGlass = gain({ zones: skins([{ material: glass, thickness: 6e-5, angle: 0 }]) });
    expect(gain({})).toBeLessThan(0.1 * onGlass);
  });
});

describe('laminates', () => {
  it('turned by a right angle exchange along and across; strain energy is positive at any angle', () => {
    const ply = { ...carbon, modulusAcross: 8e9, poisson: 0.3 };
    const [a, b] = [planeStiffness(ply, 0), planeStiffness(ply, Math.PI / 2)];
    expect(a.q22).toBeCloseTo(b.q11, 0);
    expect(a.q22).toBeGreaterThan(10 * a.q11);
    fc.assert(
      fc.property(fc.double({ min: -3, max: 3, noNaN: true }), (angle) => {
        const q = planeStiffness(ply, angle);
        expect(q.q11 * q.q22).toBeGreaterThan(q.q12 ** 2);
        expect(q.q66).toBeGreaterThan(0);
      }),
    );
  });

  it('with one face only bend about their own neutral plane, softer than about the middle', () => {
    const stack = stackStiffness([
      { material: foam, thickness: 6e-3, angle: 0, middle: 0 },
      { material: glass, thickness: 1e-4, angle: 0, middle: 3.05e-3 },
    ]);
    expect(reducedBending(stack)[2]).toBeLessThan(stack.d[2]);
    expect(reducedBending(stack)[2]).toBeGreaterThan((15e6 * 6e-3 ** 3) / 12);
  });
});

describe('shear flow', () => {
  it('of a box alike fore and aft has its shear centre in the middle and sums to the force', () => {
    const wall = (x1: number, z1: number, x2: number, z2: number) => ({ x1, z1, x2, z2, stretch: 1e6, shear: 4e5 });
    const box = [
      wall(0, -0.02, 0.1, -0.02),
      wall(0.1, -0.02, 0.1, 0.02),
      wall(0.1, 0.02, 0, 0.02),
      wall(0, 0.02, 0, -0.02),
    ];
    expect(loopShear(box).shearCentre).toBeCloseTo(0.05, 10);
    const soft = box.map((w, i) => (i === 1 ? { ...w, stretch: 1, shear: 4e4 } : w));
    expect(loopShear(soft).shearCentre).toBeLessThan(0.05);
  });
});

describe('strength', () => {
  it('names the spar of foam with a tube, and glass that wrinkles', () => {
    const spar = {
      name: 'tube',
      kind: 'tube' as const,
      material: carbon,
      place: 'middle' as const,
      sizes: [0, 0.6].map((y) => ({ y, chordFraction: 0.3, width: 8e-3, depth: 6e-3 })),
    };
    const first = firstLimit(curvatureLimits(sheet({ spars: [spar] }), 0.1), 'up');
    // 600 MPa at 4 mm of 127 GPa, or foam of 250 kPa at 6 mm of 15 MPa: the tube.
    expect(first?.part).toBe('tube');
    expect(first?.up).toBeCloseTo(6e8 / 127e9 / 4e-3, 3);
    const glazed = firstLimit(
      curvatureLimits(sheet({ zones: skins([{ material: glass, thickness: 6e-5, angle: 0 }]) }), 0.1),
      'up',
    );
    expect(glazed?.reason).toBe('wrinkles');
  });

  it('of a flat sheet between ribs falls with the square of their distance', () => {
    expect(panelBucklingStress(3e9, 0.3, 1e-3, 0.1) / panelBucklingStress(3e9, 0.3, 1e-3, 0.05)).toBeCloseTo(0.25, 12);
  });
});

describe('heat', () => {
  it('turns the edge of 150 mm of free 12 mm foam, top 20 K warmer, 0.9 degrees down', () => {
    const built = buildModel({ surfaces: [surfacePart(sheet())], bodies: [], masses: [] });
    if (!built.ok) throw new Error(built.reason);
    const half = halfModel(built.value, 'symmetric');
    const system = prepareStatic(half);
    if (!system.ok) throw new Error(system.reason);
    const { displacement } = solveStatic(system.value, heatLoad(built.value, half, 20));
    const slope = (x: number) => {
      const row = pointRow(built.value, 'wing', x, 0);
      return readRow(half, row.dofs, row.slopeX, displacement);
    };
    // Free: the whole chord of 300 mm bends alike, so that half of it is an overhang of 150 mm.
    expect(((slope(0.15) - slope(0.3)) * 180) / Math.PI).toBeCloseTo(0.9, 1);
  });
});

describe('cells', () => {
  const cell = {
    name: 'row',
    fromY: 0,
    toY: 0.6,
    from: 0.2,
    to: 0.6,
    face: 'upper' as const,
    material: silicon,
    thickness: 165e-6,
    length: 0.125,
    width: 0.125,
    gap: 2e-3,
  };

  it('bonded on glass are strained with it, floating hardly', () => {
    const base = sheet({ zones: skins([{ material: glass, thickness: 6e-5, angle: 0 }]) });
    const hard = cellStrain(base, cell, 0.1);
    const soft = cellStrain(base, { ...cell, glue: { thickness: 3e-4, shearModulus: 4e5 } }, 0.1);
    expect(hard.handedOver).toBeCloseTo(1, 6);
    expect(Math.abs(soft.carried)).toBeLessThan(0.2 * Math.abs(hard.carried));
    expect(hard.carried).toBeLessThan(0);
  });

  it('are bent by the section they are laid on', () => {
    const radius = 0.4;
    const chord = 0.3;
    const stations = Array.from({ length: 41 }, (_, i) => i / 40);
    const arc = stations.map(
      (u) => (radius - (radius - Math.sqrt(radius ** 2 - ((u - 0.4) * chord) ** 2))) / chord - radius / chord + 0.02,
    );
    const round = sheet({
      stations: [0, 0.6].map((y) => ({
        y,
        xLeadingEdge: 0,
        chord,
        shape: { stations, upper: arc, lower: stations.map(() => 0) },
      })),
    });
    expect(1 / faceCurvature(round, cell)).toBeCloseTo(radius, 1);
    expect(leastBendRadius(130e9, 160e-6, 50e6)).toBeCloseTo(0.208, 3);
  });

  it('crack the likelier the greater stress and area, between 0 and 1, inside the band', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e9, noNaN: true }),
        fc.double({ min: 1e-4, max: 2, noNaN: true }),
        (stress, area) => {
          const chance = crackChance(stress, area);
          expect(chance.low).toBeGreaterThanOrEqual(0);
          expect(chance.low).toBeLessThanOrEqual(chance.value);
          expect(chance.value).toBeLessThanOrEqual(chance.high);
          expect(chance.high).toBeLessThanOrEqual(1);
          expect(crackChance(1.1 * stress, area).value).toBeGreaterThanOrEqual(chance.value);
        },
      ),
    );
  });
});

describe('bench', () => {
  it('finds the modulus of a strip that was bent, shear included', () => {
    const [width, thickness, span, force] = [0.05, 6e-3, 0.2, 0.5];
    const deflection =
      (force * span ** 3) / (48 * 15e6 * ((width * thickness ** 3) / 12)) +
      (force * span) / (4 * 5e6 * (5 / 6) * width * thickness);
    expect(threePointModulus({ width, thickness }, { span, force, deflection, shearRatio: 3 })).toBeCloseTo(15e6, 3);
    expect(threePointSpread({ span: 0.01, thickness: 0.02, width: 0.01, force: 0.02, deflection: 0.03 })).toBeCloseTo(
      0.077,
      2,
    );
  });

  it('lets a sure reading decide, an unsure one say little, and narrows the belief', () => {
    const belief = { factor: 1, spread: 0.4 };
    expect(updateFactor(belief, { ratio: 0.7, spread: 0.01 }).belief.factor).toBeCloseTo(0.7, 2);
    expect(updateFactor(belief, { ratio: 0.7, spread: 4 }).belief.factor).toBeCloseTo(1, 1);
    // A frequency of 1.1 times stands for a stiffness of 1.21 times.
    expect(updateFactor(belief, { ratio: 1.1, spread: 1e-4, power: 0.5 }).belief.factor).toBeCloseTo(1.21, 4);
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        fc.double({ min: 0.01, max: 2, noNaN: true }),
        (ratio, spread) => {
          const { belief: after } = updateFactor(belief, { ratio, spread });
          expect(after.spread).toBeLessThan(belief.spread);
          expect(Math.log(after.factor) * Math.log(ratio)).toBeGreaterThanOrEqual(0);
        },
      ),
    );
    expect(() => updateFactor(belief, { ratio: -1, spread: 0.1 })).toThrow(RangeError);
  });
});

describe('relations', () => {
  const ask = (topic: string, given: Record<string, number | string> = {}) => {
    const relation = structureRelations.find((one) => one.topic === topic)!;
    const defaults = Object.fromEntries(
      relation.inputs.map(({ key, default: value }) => [key, value as number | string]),
    );
    return answerRelation(relation, { ...defaults, ...given }) as Record<string, number>;
  };

  it('give the worked spar: 23.37 mm and 2.308 degrees at the tip', () => {
    expect(ask('beam').deflection).toBeCloseTo(0.02337, 4);
    expect((ask('beam').slope * 180) / Math.PI).toBeCloseTo(2.308, 2);
    expect(ask('beam', { height: 0.01 })).toHaveProperty('reason');
  });

  it('give the droop of a warm sheet and less bending with glass', () => {
    expect((ask('plate', { thickness: 0.012 }).heatSlope * 180) / Math.PI).toBeCloseTo(0.902, 2);
    expect(ask('plate', { faceThickness: 1e-4 }).deflection).toBeLessThan(0.05 * ask('plate').deflection);
    expect(ask('plate', { thickness: 0 })).toHaveProperty('reason');
  });
});
