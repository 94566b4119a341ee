import { describe, expect, it } from 'vitest';
import { type LiftingSurface, trapezoidalWing } from '../shape/index.js';
import {
  buildModel,
  type HalfAircraft,
  halfModel,
  type PlateProperties,
  type StructuralModel,
} from '../structure/index.js';
import { wingReference } from '../wing/index.js';
import { bandedLimit } from './limitBands.js';
import { aeroelasticWing, limitsReport, steadyWing } from './limits.js';
import type { LimitCondition } from './limitTypes.js';
import { looseControls } from './looseControls.js';
import { modalModel } from './modalModel.js';

function certain<T>(outcome: { ok: true; value: T } | { ok: false; reason: string }): T {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

const plank: LiftingSurface = {
  ...trapezoidalWing({ span: 1.2, aspectRatio: 2, section: 'plate' }),
  controls: [{ name: 'elevon', kind: 'elevon', fromY: 0.06, toY: 0.57, chordFraction: 0.16, effectiveness: 0.8 }],
};
const reflex = { chordFractions: [0, 0.78, 0.82, 1], slopes: [0, 0, 0.052, 0.052] };
const rodAt = (x: number) => ({
  name: `rod at ${x}`,
  points: [0, 0.6].map((y) => ({ x, y, at: { bending: 2, torsion: 0.1, linearMass: 0.01 } })),
});

/** A foam sheet of 9 mm with two rods and, where `face` is not zero, glass of that thickness on both faces. */
function foamPlank(face: number): HalfAircraft {
  const [modulus, thickness] = [12e6, 0.009];
  const d = (modulus * thickness ** 3) / 12 / 0.91 + (20e9 * face * thickness ** 2) / 2 / 0.91;
  const plate: PlateProperties = {
    d11: d,
    d22: d,
    d12: 0.3 * d,
    d16: 0,
    d26: 0,
    d66: 0.35 * d,
    arealMass: 0.86 + 2 * face * 1900,
    // Foam that grows by 65 millionths for each kelvin, free to bend.
    heatCurvature: face > 0 ? 0 : 65e-6 / thickness,
  };
  return {
    surfaces: [
      {
        name: 'wing',
        stations: plank.stations.map(({ y, xLeadingEdge, chord }) => ({ y, xLeadingEdge, chord })),
        plateAt: () => plate,
        beams: [rodAt(0.15), rodAt(0.35)],
        controls: [
          {
            name: 'elevon',
            fromY: 0.06,
            toY: 0.57,
            hinge: 0.84,
            hingeStiffness: 0.05,
            linkageStiffness: 8,
            hornY: 0.26,
          },
        ],
      },
    ],
    bodies: [{ name: 'nose', y: 0, fromX: -0.3, toX: 0.2, at: { bending: 200, torsion: 50, linearMass: 0.1 } }],
    masses: [
      { name: 'battery', x: -0.265, y: 0, mass: 0.09 },
      { name: 'motor', x: -0.33, y: 0, mass: 0.04 },
    ],
  };
}

const reference = wingReference([plank]);
const wing = aeroelasticWing(steadyWing([plank], { camber: { plate: reflex }, unknowns: 60 }, reference));

const conditionOf = ({ totalMass, balancePoint }: StructuralModel): LimitCondition => ({
  trim: {
    weight: 2 * totalMass * 9.81,
    balancePoint,
    pitchControls: ['elevon'],
    chord: reference.chord,
    bodyMoment: 0,
  },
  rollControls: ['elevon'],
  controlRange: { lower: -0.38, upper: 0.31 },
  marginOffset: 0,
  density: 1.225,
  stallSpeed: 4.5,
  airspeed: 6,
  area: reference.area,
  liftSlope: 2.4,
  maximumLift: 0.9,
  dive: { mass: 2 * totalMass, area: reference.area, density: 1.225, zeroLiftDrag: 0.03, inducedFactor: 0.2 },
  allowed: { up: 3, down: -1.5, reason: 'the rods break' },
});

const reportOf = (face: number) => {
  const model = certain(buildModel(foamPlank(face), { corners: 50 }));
  return certain(limitsReport(wing, model, conditionOf(model), { stiffness: 0.3 }));
};

describe('words for natural modes', () => {
  const modesOf = (model: StructuralModel) => {
    const half = halfModel(model, 'symmetric');
    const influence = wing.oscillating.symmetric;
    return certain(modalModel(wing.symmetric, influence, { model, half }, { density: 1.225 }));
  };
  const stiff = certain(buildModel(foamPlank(0.0001)));

  it('names a control only where it moves most: behind a wing that bends a loose one lags, and is not what vibrates', () => {
    const loose = modesOf(looseControls(stiff)!);
    const held = modesOf(stiff);
    // Every mode of the loose plank once bore the name of its elevon.
    const named = loose.words.filter((word) => word.includes('elevon'));
    expect(named.length).toBeLessThan(loose.words.length / 2);
    const first = loose.words.indexOf('first turn of the elevon');
    expect(first).toBeGreaterThan(0);
    // A thousandth of the linkage is left: its turn is slower than any bending of the glass plank.
    expect(loose.frequencies[first]).toBeLessThan(held.frequencies[held.rigidCount]!);
  });

  it('counts each word from the first on', () => {
    for (const { words } of [modesOf(stiff), modesOf(looseControls(stiff)!)]) {
      expect(new Set(words).size).toBe(words.length);
      for (const word of words.filter((each) => each.startsWith('second ')))
        expect(words).toContain(word.replace('second', 'first'));
    }
  });
});

describe('limits of a foam plank', () => {
  const bare = reportOf(0);

  it('are listed by the lower edge of their band, which is what is quoted', () => {
    expect(bare.limits.length).toBeGreaterThan(2);
    bare.limits.forEach(({ low, airspeed, high }, i) => {
      expect(low).toBeLessThan(airspeed);
      expect(high).toBeGreaterThan(airspeed);
      if (i > 0) expect(low).toBeGreaterThanOrEqual(bare.limits[i - 1].low);
    });
    expect(bare.limits.map(({ kind }) => kind)).toContain('manoeuvre');
  });

  it('see what boundary layers take of the pitch control: more travel for the same trim, none of the other limits moved', () => {
    const model = certain(buildModel(foamPlank(0), { corners: 50 }));
    const condition = conditionOf(model);
    const pitchLayers = { layerAhead: 1, chord: 0.6, density: 1.225, kinematicViscosity: 1.46e-5, spread: 0.2 };
    const slow = certain(
      limitsReport(wing, model, { ...condition, trim: { ...condition.trim, pitchLayers } }, { stiffness: 0.3 }),
    );
    slow.trims.forEach(({ control, counted, pressure }, i) => {
      expect(counted).toBeCloseTo(bare.trims[i].counted, 12);
      // exp(-V c / nu / 1.2e5) of the turning is lost.
      const lost = Math.exp((-Math.sqrt((2 * pressure) / 1.225) * 0.6) / 1.46e-5 / 1.2e5);
      if (Math.abs(control) < Math.PI / 12) expect(control * (1 - lost)).toBeCloseTo(counted, 3);
    });
    const others = (limits: typeof bare.limits) =>
      limits.filter(({ kind }) => kind !== 'pitch trim' && kind !== 'tuck').map(({ kind, low }) => [kind, low]);
    expect(others(slow.limits)).toEqual(others(bare.limits));
  });

  it('rise with glass on both faces, far beyond those of bare foam', () => {
    const glazed = reportOf(1e-4);
    const elastic = (report: typeof bare) =>
      report.limits.find(({ kind }) => kind !== 'manoeuvre' && kind !== 'gust')?.airspeed ?? report.searchedTo;
    expect(elastic(glazed)).toBeGreaterThan(2 * elastic(bare));
  });

  it('follow every elastic motion from low speed on, no two curves the same', () => {
    expect(bare.curves.symmetric.length).toBeGreaterThan(2);
    const starts = bare.curves.symmetric.flatMap(({ points }) => points.slice(0, 1).map(({ frequency }) => frequency));
    expect(new Set(starts.map((value) => value.toFixed(3))).size).toBe(starts.length);
    for (const { points } of bare.curves.symmetric)
      for (const { frequency } of points) expect(frequency).toBeGreaterThan(0);
  });

  it('know that a warm top needs up control: its edges droop, the rear one most', () => {
    expect(bare.heat!.difference).toBe(20);
    expect(bare.heat!.control).toBeLessThan(-0.005);
    expect(reportOf(1e-4).heat).toBeUndefined();
  });

  it('say how soon a dive reaches the first of them, sooner the steeper', () => {
    const [first, second, third] = bare.dives.map(({ dive }) => dive?.time);
    if (bare.limits[0].low <= 6) expect([first, second, third]).toEqual([undefined, undefined, undefined]);
    else expect(third!).toBeLessThan(second ?? Infinity);
  });
});

describe('a brief look for the first limit', () => {
  it.each([
    [0, 1.6],
    [0, 30],
    [1e-4, 3],
    [1e-4, 300],
  ])('finds the one that a full look finds, glass of %f m, %f g allowed', (face, up) => {
    const model = certain(buildModel(foamPlank(face), { corners: 50 }));
    const condition = { ...conditionOf(model), allowed: { up, down: -up, reason: 'the rods break' } };
    const { oscillating: _, ...steady } = wing;
    const [full, brief] = [false, true].map((quick) =>
      certain(limitsReport(steady, model, condition, { stiffness: 0.3 }, { brief: quick })),
    );
    expect(brief.limits[0].kind).toBe(full.limits[0].kind);
    expect(brief.limits[0].low / full.limits[0].low).toBeCloseTo(1, 4);
    expect(brief.trims.length).toBeLessThanOrEqual(full.trims.length);
  });
});

describe('flight of the bent aircraft', () => {
  const bentOf = (face: number) => reportOf(face).bent!;

  it('is that of the stiff one where nothing gives, and differs more the softer it is', () => {
    const [soft, stiff] = [bentOf(0), bentOf(3e-4)];
    const off = ({ inducedDrag, stallSpeed, control, staticMargin }: typeof soft) =>
      Math.hypot(inducedDrag - 1, stallSpeed - 1, control, staticMargin);
    expect(off(stiff)).toBeLessThan(0.05 * off(soft));
    expect(soft.inducedDrag).toBeGreaterThan(0.5);
    expect(soft.inducedDrag).toBeLessThan(2);
  });
});

describe('what holds a pitch control', () => {
  const model = certain(buildModel(foamPlank(1e-4), { corners: 50 }));
  const report = (extra: Partial<LimitCondition>) =>
    certain(
      limitsReport(wing, model, { ...conditionOf(model), ...extra }, { stiffness: 0.3 }, { brief: true, kept: 6 }),
    );

  it('lets go at some speed where it is weak, and never where it is strong', () => {
    const floats = (holdingTorque: number) =>
      report({ holdingTorque }).limits.find(({ kind }) => kind === 'elevon float');
    expect(floats(0.02)!.airspeed).toBeLessThan(50);
    expect(floats(0.04)?.airspeed ?? 50).toBeGreaterThan(floats(0.02)!.airspeed);
    expect(floats(1e3)).toBeUndefined();
    // Found between the pressures that are searched: a little more torque holds to a little more speed.
    const rises = [1, 1.01, 1.02, 1.03].map((factor) => floats(0.04 * factor)!.airspeed);
    rises.slice(1).forEach((value, i) => void expect(value / rises[i]).toBeGreaterThan(1.0005));
    rises.slice(1).forEach((value, i) => void expect(value / rises[i]).toBeLessThan(1.03));
  });

  it('lets the trimmed airspeed wander by its slop, in proportion', () => {
    const wander = (linkageSlop: number) => report({ linkageSlop }).slop!.airspeed;
    expect(wander(0.002)).toBeGreaterThan(0);
    expect(wander(0.004) / wander(0.002)).toBeCloseTo(2, 9);
    expect(report({}).slop).toBeUndefined();
  });
});

describe('load that strength allows', () => {
  it("is what bends the first place to its limit, by lift less the wing's own inertia", () => {
    const model = certain(buildModel(foamPlank(1e-4), { corners: 50 }));
    const condition = conditionOf(model);
    const y = [0.02, 0.15, 0.3, 0.45];
    const strength = {
      surface: 'wing',
      y,
      up: y.map(() => 0.5),
      down: y.map(() => 0.25),
      reasons: y.map((at) => `place ${at}`),
    };
    const report = (extra: Partial<LimitCondition>) => {
      const { allowed: _, ...rest } = condition;
      return certain(limitsReport(wing, model, { ...rest, ...extra }, { stiffness: 0.3 }, { brief: true, kept: 6 }));
    };
    const { allowed, limits } = report({ strength });
    expect(allowed!.up).toBeGreaterThan(0);
    // The same places twice as strong bear twice the load, and half as much upside down.
    const strong = { ...strength, up: y.map(() => 1), down: y.map(() => 0.5) };
    expect(report({ strength: strong }).allowed!.up / allowed!.up).toBeCloseTo(2, 9);
    expect(allowed!.up / -allowed!.down).toBeCloseTo(2, 1);
    expect(limits.map(({ kind }) => kind)).toContain('manoeuvre');
    expect(report({}).allowed).toBeUndefined();
    // Weak fore and aft, it bears less in a pull-up, and drag breaks it at some speed.
    const strain = { tension: 1, compression: 1, wrinkles: false };
    const weak = (byMoment: number) => ({
      ...strength,
      foreAft: {
        strengths: y.map(() => ({
          bending: 1,
          parts: [{ part: 'spar', byCurvature: -1 / 0.5, byMoment, roundByCurvature: 0, roundByMoment: 0, strain }],
        })),
        massMoments: y.map(() => 0),
      },
    });
    expect(report({ strength: weak(0) }).allowed!.up).toBeCloseTo(allowed!.up, 9);
    const soft = report({ strength: weak(-20) });
    expect(soft.allowed!.up).toBeLessThan(0.95 * allowed!.up);
    expect(soft.allowed!.reason).toContain('bent up and forward');
    expect(soft.foreAft!.without).toBeCloseTo(allowed!.up, 9);
    expect(soft.foreAft!.tilt).toBeGreaterThan(0);
    expect(report({ strength: weak(-0.01) }).limits.map(({ kind }) => kind)).not.toContain('drag');
    // A touchdown bends the tips down: twice as strong, it bears some twice the deceleration, and root two of the sink rate.
    const landing = (of: typeof strength) => {
      const all = certain(limitsReport(wing, model, { ...condition, strength: of }, { stiffness: 0.3 }, { kept: 6 }));
      return all.landing!;
    };
    const [once, twice] = [landing(strength), landing(strong)];
    expect(once.loadFactor).toBeGreaterThan(0);
    expect(twice.loadFactor / once.loadFactor).toBeGreaterThan(1.5);
    expect(twice.sinkRate / once.sinkRate).toBeCloseTo(Math.sqrt(twice.loadFactor / once.loadFactor), 9);
    expect(once.sinkRate ** 2 / (2 * once.stoppedWithin)).toBeCloseTo(once.loadFactor * 9.80665, 9);
  });
});

describe('band of a limit', () => {
  it('holds stiffness at the root of its spread, and none of it for loads', () => {
    const elastic = bandedLimit('divergence', 'words', 20, { stiffness: 0.4 });
    const exact = bandedLimit('divergence', 'words', 20, { stiffness: 0 });
    expect(elastic.low).toBeLessThan(exact.low);
    expect(Math.sqrt(elastic.low * elastic.high)).toBeCloseTo(20, 9);
    const gust = (stiffness: number) => bandedLimit('gust', 'words', 20, { stiffness }).low;
    expect(gust(0.4)).toBe(gust(0));
  });
});
