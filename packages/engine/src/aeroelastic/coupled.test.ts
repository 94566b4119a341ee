import { describe, expect, it } from 'vitest';
import { type LiftingSurface, trapezoidalWing } from '../shape/index.js';
import { buildModel, type HalfAircraft, halfModel, type PlateProperties } from '../structure/index.js';
import { solveWing, wingDerivatives, wingReference } from '../wing/index.js';
import { elasticHalf, loadHalf, steadyHalves } from './elasticHalf.js';
import { causeForces, elasticTrim } from './elasticTrim.js';
import { flutterPoints } from './flutter.js';
import { latticeWingFlutter } from './latticeWing.js';
import { modalModel, wingInfluence } from './modalModel.js';
import { staticLimits } from './staticLimits.js';
import { golandWing } from './stripWing.js';

function certain<T>(outcome: { ok: true; value: T } | { ok: false; reason: string }): T {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

const plank: LiftingSurface = {
  ...trapezoidalWing({ span: 1, aspectRatio: 2, section: 'plate' }),
  controls: [{ name: 'elevon', kind: 'elevon', fromY: 0.05, toY: 0.48, chordFraction: 0.2, effectiveness: 0.8 }],
};

const reflex = { chordFractions: [0, 0.3, 0.7, 1], slopes: [0.12, 0.02, -0.06, 0.05] };

/** A foam plate of stiffness D times `factor`, cells and battery as masses. */
function foamPlank(factor: number): HalfAircraft {
  const d = 0.6 * factor;
  const plate: PlateProperties = {
    d11: d,
    d22: d,
    d12: 0.3 * d,
    d16: 0,
    d26: 0,
    d66: 0.35 * d,
    arealMass: 0.9,
    heatCurvature: 0,
  };
  const { stations } = plank;
  return {
    surfaces: [
      {
        name: 'wing',
        stations: stations.map(({ y, xLeadingEdge, chord }) => ({ y, xLeadingEdge, chord })),
        plateAt: () => plate,
        beams: [],
        controls: [
          {
            name: 'elevon',
            fromY: 0.05,
            toY: 0.48,
            hinge: 0.8,
            hingeStiffness: 0.1 * factor,
            linkageStiffness: 8 * factor,
            hornY: 0.2,
          },
        ],
      },
    ],
    bodies: [],
    masses: [{ name: 'battery', x: 0.03, y: 0.02, mass: 0.28 }],
  };
}

const reference = wingReference([plank]);
const options = { panels: { chordwise: 6, spanwise: 8 }, camber: { plate: reflex } };
const halves = steadyHalves([plank], options, reference);

function elasticPlank(factor: number) {
  const model = certain(buildModel(foamPlank(factor), { corners: 50 }));
  const symmetric = certain(elasticHalf(halves.symmetric, model, halfModel(model, 'symmetric')));
  const antisymmetric = certain(elasticHalf(halves.antisymmetric, model, halfModel(model, 'antisymmetric')));
  const condition = {
    weight: 0.9 * 9.81,
    balancePoint: 0.1,
    pitchControls: ['elevon'],
    chord: reference.chord,
    bodyMoment: 0,
  };
  return { model, symmetric, antisymmetric, condition };
}

describe('wing on a structure', () => {
  it('is the rigid wing where the air is thin: same lift slope and neutral point as solveWing', () => {
    const { symmetric } = elasticPlank(1);
    const loaded = loadHalf(symmetric, 1e-6)!;
    const { lift, moment } = causeForces(symmetric, loaded, 0);
    const rigid = certain(solveWing({ surfaces: [plank], bodies: [], parasites: [] }, options));
    const { alpha } = wingDerivatives(rigid, { x: 0 });
    expect(lift[1] / reference.area).toBeCloseTo(alpha.lift, 6);
    expect(moment[1] / (reference.area * reference.chord)).toBeCloseTo(alpha.moment, 6);
  });

  it('has limits at dynamic pressures in proportion to stiffness, exactly', () => {
    const limits = (factor: number) => {
      const { symmetric, antisymmetric, condition } = elasticPlank(factor);
      const search = {
        rollControls: ['elevon'],
        controlRange: undefined,
        lowest: 2 * factor,
        flown: 3 * factor,
        highest: 4000 * factor,
      };
      const weight = condition.weight * factor;
      return staticLimits(symmetric, antisymmetric, { ...search, condition: { ...condition, weight } }).limits;
    };
    const [weak, strong] = [limits(1), limits(4)];
    expect(weak.map(({ kind }) => kind)).toContain('divergence');
    expect(strong.map(({ kind }) => kind)).toEqual(weak.map(({ kind }) => kind));
    strong.forEach(({ pressure }, i) => void expect(pressure / weak[i].pressure).toBeCloseTo(4, 3));
  });

  it('loses reflex with speed: the soft plank needs its elevons up again', () => {
    const { symmetric, condition } = elasticPlank(1);
    const rigid = elasticPlank(1e4);
    const control = (of: typeof symmetric, pressure: number) => elasticTrim(of, pressure, condition)!.control;
    expect(control(rigid.symmetric, 30)).toBeGreaterThan(control(rigid.symmetric, 20));
    expect(control(symmetric, 30)).toBeLessThan(control(symmetric, 20) - 0.01);
  });
});

describe('flutter of the coupled model', () => {
  it('is that of assumed modes on the same lattice: the Goland wing as plate and beam', () => {
    const { semispan: l, chord: c, axis, balance } = golandWing;
    const plate = { d11: 1e5, d22: 1e3, d12: 0, d16: 0, d26: 0, d66: 1, arealMass: 1e-6, heatCurvature: 0 };
    const offset = (balance - axis) * c;
    const at = {
      bending: golandWing.bendingStiffness,
      torsion: golandWing.torsionStiffness,
      linearMass: 1e-3,
      polarInertia: golandWing.inertia - golandWing.mass * offset * offset,
    };
    const model = certain(
      buildModel(
        {
          surfaces: [
            {
              name: 'wing',
              stations: [0, l].map((y) => ({ y, xLeadingEdge: 0, chord: c })),
              plateAt: () => plate,
              beams: [{ name: 'spar', points: [0, l].map((y) => ({ x: axis * c, y, at })) }],
              controls: [],
            },
          ],
          bodies: [],
          masses: Array.from({ length: 60 }, (_, i) => ({
            name: `mass ${i}`,
            x: balance * c,
            y: ((i + 0.5) * l) / 60,
            mass: (golandWing.mass * l) / 60,
            on: 'wing',
          })),
        },
        { corners: 60 },
      ),
    );
    const wing = trapezoidalWing({ span: 2 * l, aspectRatio: (2 * l) / c });
    const steady = steadyHalves([wing], { panels: { chordwise: 6, spanwise: 12 } }, wingReference([wing])).symmetric;
    const influence = wingInfluence(steady, c, false).symmetric;
    const half = halfModel(model, 'clamped');
    const modal = certain(modalModel(steady, influence, { model, half }, { density: 1.225, kept: 8 }));
    expect(modal.words.slice(0, 2)).toEqual(['first wing bending', 'first wing torsion']);
    const coupled = flutterPoints(modal, { lowest: 0.04 / c, highest: 2.6 / c }, 400).find(({ onset }) => onset)!;
    const assumed = certain(latticeWingFlutter(golandWing, 1.225, { chordwise: 6, spanwise: 12 }))!;
    expect(coupled.airspeed / assumed.airspeed).toBeGreaterThan(0.985);
    expect(coupled.airspeed / assumed.airspeed).toBeLessThan(1.015);
    // Strip theory is 14 % lower.
    expect(assumed.airspeed / 136.95).toBeGreaterThan(1.1);
  });
});
