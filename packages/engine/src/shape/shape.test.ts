import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { norm } from '../math/index.js';
import { facet } from './facets.js';
import { bodyWettedArea, meanFrictionCoefficient, rodDragArea, surfaceWettedArea } from './friction.js';
import { bodyDrag, parasiteDrag } from './parasite.js';
import { cutAlong, cutAt, isSteep, planform, stationDistances, trapezoidalWing } from './planform.js';
import { shapeRelations } from './relations.js';
import type { LiftingSurface, Shape, Station } from './types.js';
import { checkShape } from './validate.js';

const degree = Math.PI / 180;
const flow = { airspeed: 10, kinematicViscosity: 1.46e-5 };
const shapeOf = (...surfaces: LiftingSurface[]): Shape => ({ surfaces, bodies: [], parasites: [] });
const station = (y: number, chord: number, other: Partial<Station> = {}): Station => ({
  y,
  xLeadingEdge: 0,
  z: 0,
  chord,
  twist: 0,
  section: 'section',
  ...other,
});
const wing = trapezoidalWing({ span: 2, aspectRatio: 8, taper: 0.5, sweep: 20 * degree });
const fin: LiftingSurface = {
  name: 'fin',
  kind: 'fin',
  mirrored: false,
  stations: [station(0, 0.2, { z: 0.1 }), station(0, 0.1, { z: -0.2 })],
  controls: [],
};

describe('planform', () => {
  it('agrees with the closed forms of a straight taper', () => {
    const { area, span, aspectRatio, meanAerodynamicChord, yMeanChord, xMeanChord, sweep, taper } = planform(wing);
    const root = wing.stations[0].chord;
    expect(area).toBeCloseTo(0.5, 12);
    expect(span).toBe(2);
    expect(aspectRatio).toBeCloseTo(8, 12);
    expect(meanAerodynamicChord).toBeCloseTo(((2 / 3) * root * (1 + 0.5 + 0.25)) / 1.5, 12);
    expect(yMeanChord).toBeCloseTo((2 / 6) * (2 / 1.5), 12);
    // The quarter chord of the mean chord lies on the quarter-chord line.
    expect(xMeanChord + meanAerodynamicChord / 4).toBeCloseTo(root / 4 + yMeanChord * Math.tan(20 * degree), 12);
    expect(sweep).toBeCloseTo(20 * degree, 12);
    expect(taper).toBeCloseTo(0.5, 12);
  });

  it('does not change when a station is added on a straight part', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 0.95, noNaN: true }), (fraction) => {
        const cut = cutAt(wing, fraction);
        const split = { ...wing, stations: [wing.stations[0], cut, wing.stations[1]] };
        const [a, b] = [planform(wing), planform(split)];
        return (Object.keys(a) as (keyof typeof a)[]).every((key) => Math.abs(a[key] - b[key]) < 1e-12);
      }),
    );
  });

  it('keeps the projected area under dihedral, and counts the surface along it', () => {
    const bent = planform(trapezoidalWing({ span: 2, aspectRatio: 8, dihedral: 30 * degree }));
    expect(bent.projectedArea).toBeCloseTo(0.5, 12);
    expect(bent.area).toBeCloseTo(0.5 / Math.cos(30 * degree), 12);
  });

  it('goes along an upturned tip, which adds area but no span', () => {
    const tip = wing.stations[1];
    const upturned = { ...wing, stations: [...wing.stations, { ...tip, z: 0.2 }] };
    expect(planform(upturned).area).toBeCloseTo(0.5 + 2 * 0.2 * tip.chord, 12);
    expect(planform(upturned).span).toBe(2);
    expect(stationDistances(upturned)).toEqual([0, 1, 1.2]);
    const cut = cutAlong(upturned, 1.1);
    expect(cut.z).toBeCloseTo(0.1, 12);
    expect(cut.dihedral).toBeCloseTo(Math.PI / 2, 12);
  });

  it('counts the span of a fin below by its height', () => {
    expect(isSteep(fin)).toBe(true);
    expect(planform(fin).span).toBeCloseTo(0.3, 12);
    expect(planform(fin).area).toBeCloseTo(0.045, 12);
    expect(planform(fin).projectedArea).toBeCloseTo(0, 12);
    expect(cutAt(fin, 0.15).chord).toBeCloseTo(0.15, 12);
  });
});

describe('facet', () => {
  const flat = trapezoidalWing({ span: 2, aspectRatio: 8 });
  const range = { fromY: 0.1, toY: 0.5, fromChord: 0, toChord: 1, slope: 0, side: 'right' as const };

  it('of a flat plate looks straight up, down being positive', () => {
    const found = facet(flat, range);
    if (!found.ok) throw new Error(found.reason);
    expect(found.value.normal[2]).toBe(-1);
    expect(found.value.area).toBeCloseTo(0.1, 12);
    expect(found.value.centre).toEqual([0.125, 0.3, 0]);
  });

  it('leans aft with nose-up twist, inwards with dihedral, and is mirrored on the left', () => {
    const bent: LiftingSurface = {
      ...flat,
      stations: flat.stations.map((s) => ({ ...s, twist: 3 * degree, z: s.y * Math.tan(6 * degree) })),
    };
    const [right, left] = (['right', 'left'] as const).map((side) => facet(bent, { ...range, side }));
    if (!right.ok || !left.ok) throw new Error('facet');
    expect(right.value.normal[0]).toBeCloseTo(-Math.sin(3 * degree), 12);
    expect(right.value.normal[1]).toBeCloseTo(-Math.sin(6 * degree) * Math.cos(3 * degree), 12);
    expect(left.value.normal[1]).toBe(-right.value.normal[1]);
    expect(left.value.centre[1]).toBe(-right.value.centre[1]);
  });

  it('has a unit normal, and areas that add up along the chord', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.5, max: 0.5, noNaN: true }),
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        (slope, split) => {
          const parts = [
            { ...range, slope },
            { ...range, slope, toChord: split },
            { ...range, slope, fromChord: split },
          ].map((part) => facet(wing, part));
          const areas = parts.map((part) => (part.ok ? part.value.area : Number.NaN));
          const unit = parts.every((part) => part.ok && Math.abs(norm(part.value.normal) - 1) < 1e-12);
          return unit && Math.abs(areas[0] - areas[1] - areas[2]) < 1e-12;
        },
      ),
    );
  });

  it('is refused off the surface', () => {
    expect(facet(flat, { ...range, toY: 1.2 })).toMatchObject({ ok: false, where: 'wing' });
    expect(facet(flat, { ...range, toChord: 1.1 }).ok).toBe(false);
    expect(facet(flat, { ...range, fromY: 0.6 }).ok).toBe(false);
    expect(facet(flat, { ...range, slope: Number.NaN }).ok).toBe(false);
  });
});

describe('parasite drag', () => {
  const body = { name: 'fuselage', length: 1, width: 0.1, height: 0.1, x: 0, z: 0 };

  it('of a body is close to friction x form factor', () => {
    const { dragArea, uncertainty } = bodyDrag(body, flow);
    // Fineness 10: form factor 1.054; Re 6.8e5; half-and-half boundary layer between laminar 0.0016 and turbulent 0.0048.
    expect(dragArea / bodyWettedArea(body)).toBeGreaterThan(0.0016);
    expect(dragArea / bodyWettedArea(body)).toBeLessThan(0.0048 * 1.054 * 1.32);
    expect(uncertainty / dragArea).toBeCloseTo(0.25, 12);
  });

  it('of a pair of pods is twice that of one', () => {
    expect(bodyDrag({ ...body, y: 0.3 }, flow).dragArea).toBeCloseTo(2 * bodyDrag(body, flow).dragArea, 12);
  });

  it('wets a sphere-like body about as a sphere, and a long one about as a cylinder', () => {
    expect(bodyWettedArea({ ...body, length: 2 }) / (Math.PI * 0.1 * 2)).toBeCloseTo(0.935, 2);
  });

  it('adds rows and their uncertainties in squares', () => {
    const shape: Shape = {
      surfaces: [
        {
          ...wing,
          controls: [{ name: 'elevon', kind: 'elevon', fromY: 0.5, toY: 1, chordFraction: 0.25, effectiveness: 0.8 }],
        },
      ],
      bodies: [body],
      parasites: [{ name: 'wheel', dragArea: 0.001 }],
    };
    const { items, dragArea, uncertainty } = parasiteDrag(shape, flow);
    expect(items.map((item) => item.name)).toEqual(['fuselage', 'elevon gap', 'wheel']);
    expect(dragArea).toBeCloseTo(
      items.reduce((sum, item) => sum + item.dragArea, 0),
      12,
    );
    expect(uncertainty ** 2).toBeCloseTo(
      items.reduce((sum, item) => sum + item.uncertainty ** 2, 0),
      12,
    );
  });

  it('friction is continuous at transition, between laminar and turbulent, and falls with Reynolds number', () => {
    expect(meanFrictionCoefficient(1e5 * 1.000001, 1e5)).toBeCloseTo(meanFrictionCoefficient(1e5, 1e5), 7);
    fc.assert(
      fc.property(fc.double({ min: 2e4, max: 1e7, noNaN: true }), (reynolds) => {
        const friction = meanFrictionCoefficient(reynolds, 1e5);
        return friction > 0 && friction < 0.0101;
      }),
    );
    expect(() => meanFrictionCoefficient(0, 1e5)).toThrow(RangeError);
  });

  it('of a rod vanishes along the flow; a thin surface wets twice its area', () => {
    expect(rodDragArea({ length: 1, diameter: 0.001 })).toBeCloseTo(0.0011, 12);
    expect(rodDragArea({ length: 1, diameter: 0.001, sweep: Math.PI / 2 })).toBeCloseTo(0, 12);
    expect(surfaceWettedArea(wing, 0)).toBeCloseTo(1, 12);
  });
});

describe('checkShape', () => {
  const bad = (stations: Station[], other: Partial<LiftingSurface> = {}) =>
    checkShape(shapeOf({ ...wing, ...other, stations }));

  it('accepts wings, tails and fins above or below', () => {
    expect(checkShape(shapeOf(wing, fin)).ok).toBe(true);
  });

  it.each([
    ['chord-not-positive', [station(0, 0.2), station(1, -0.1)]],
    ['stations-crossed', [station(0, 0.2), station(1, 0.2), station(0.5, 0.2)]],
    ['stations-coincide', [station(0, 0.2), station(0, 0.1)]],
    ['station-not-a-number', [station(0, 0.2), station(Number.NaN, 0.1)]],
    ['twist-too-large', [station(0, 0.2, { twist: 3 }), station(1, 0.1)]],
    ['too-few-stations', [station(0, 0.2)]],
    ['station-left', [station(-0.5, 0.2), station(0.5, 0.2)]],
  ])('refuses: %s', (code, stations) => {
    const found = bad(stations);
    expect(found).toMatchObject({ ok: false, code });
    if (!found.ok) expect(found.where).toContain('wing');
  });

  it('refuses single surfaces off the centre, mirrored ones in it, bad controls, doubled names, no wing', () => {
    expect(bad([station(0, 0.2), station(1, 0.2)], { mirrored: false })).toMatchObject({
      code: 'single-surface-off-centre',
    });
    expect(checkShape(shapeOf(wing, { ...fin, mirrored: true }))).toMatchObject({ code: 'fin-on-itself' });
    const control = {
      name: 'e',
      kind: 'elevon' as const,
      fromY: 0.2,
      toY: 0.8,
      chordFraction: 0.25,
      effectiveness: 0.8,
    };
    const withControl = (change: object) => checkShape(shapeOf({ ...wing, controls: [{ ...control, ...change }] }));
    expect(withControl({}).ok).toBe(true);
    expect(withControl({ toY: 1.5 })).toMatchObject({ code: 'control-off-surface' });
    expect(withControl({ toY: 0.1 })).toMatchObject({ code: 'control-without-span' });
    expect(withControl({ chordFraction: 1.5 })).toMatchObject({ code: 'control-chord' });
    expect(withControl({ effectiveness: -1 })).toMatchObject({ code: 'control-effectiveness' });
    expect(checkShape(shapeOf(wing, { ...wing, name: 'second' }))).toMatchObject({
      code: 'surfaces-coincide',
      where: 'second',
    });
    const lower = { ...wing, stations: wing.stations.map((s) => ({ ...s, z: -0.3 })) };
    expect(checkShape(shapeOf(wing, lower))).toMatchObject({ code: 'name-used-twice', where: 'wing' });
    expect(checkShape(shapeOf({ ...fin, kind: 'wing' }))).toMatchObject({ code: 'wing-upright' });
    const folded = { ...fin, stations: [...fin.stations, station(0, 0.1, { z: 0 })] };
    expect(checkShape(shapeOf(wing, folded))).toMatchObject({ code: 'stations-crossed', where: 'fin, station 3' });
    expect(checkShape(shapeOf(fin))).toMatchObject({ code: 'no-wing' });
  });

  it('refuses bodies without size and negative drag areas; warns of a gap at the root', () => {
    const body = { name: 'pod', length: 0, width: 0.1, height: 0.1, x: 0, z: 0 };
    expect(checkShape({ ...shapeOf(wing), bodies: [body] })).toMatchObject({ code: 'body-size', where: 'pod' });
    const item = { name: 'wheel', dragArea: -1 };
    expect(checkShape({ ...shapeOf(wing), parasites: [item] })).toMatchObject({ code: 'drag-area' });
    const apart = checkShape(shapeOf({ ...wing, stations: [station(0.1, 0.2), station(1, 0.2)] }));
    expect(apart.ok && apart.warnings[0].code).toBe('open-root');
  });
});

describe('relations', () => {
  it('give finite numbers for plain questions and a reason for impossible ones', () => {
    const [planformRelation, parasite] = shapeRelations;
    const form = planformRelation.compute({ span: 2, aspectRatio: 8, taper: 0.5, sweep: 0 });
    expect(form).toMatchObject({ area: 0.5 });
    expect(Object.keys(form).sort()).toEqual(planformRelation.outputs.map((output) => output.key).sort());
    expect(planformRelation.compute({ span: -1, aspectRatio: 8, taper: 1, sweep: 0 })).toHaveProperty('reason');
    const values = { length: 1, width: 0.1, height: 0.1, airspeed: 10, viscosity: 1.46e-5, density: 1.225 };
    const drag = parasite.compute(values);
    expect('drag' in drag && drag.drag).toBeGreaterThan(0);
    expect(parasite.compute({ ...values, airspeed: 0 })).toHaveProperty('reason');
  });
});
