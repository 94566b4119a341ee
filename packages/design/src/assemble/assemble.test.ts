import { cellAt, maximumPowerPoint } from '@noonwing/engine/array';
import { sumMass } from '@noonwing/engine/balance';
import { propellerLoads, seaLevelAir } from '@noonwing/engine/drive';
import { flapGapLoss, sectionDragCoefficient } from '@noonwing/engine/section';
import { planform } from '@noonwing/engine/shape';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { completeDesign } from '../complete/index.js';
import { readDesign } from '../read-files.js';
import {
  assembleArray,
  assembleBattery,
  assembleCells,
  assembleDrive,
  assembleLoads,
  assembleMasses,
  assemblePropeller,
  assembleShape,
  coverageOf,
  engineConverter,
  propellerDiscs,
} from './index.js';

const bright = { irradiance: 1000, temperature: 298.15 };

const HEAD = 'noonwing: design 1\nname: a\n';

/** A completed design of some text. */
function complete(text: string) {
  const { design, ok, messages } = readDesign(HEAD + text);
  if (!ok || design === undefined) throw new Error(JSON.stringify(messages));
  return completeDesign(design).aircraft;
}

function shapeOf(text: string) {
  const aircraft = complete(text);
  const made = assembleShape(aircraft.surfaces, aircraft.bodies, aircraft.extraDrag, coverageOf(aircraft), {});
  if (!made.ok) throw new Error(made.reason);
  return { aircraft, assembled: made.value, warnings: made.warnings };
}

function arrayOf(text: string) {
  const { aircraft, assembled } = shapeOf(text);
  return assembleArray(aircraft.array!, assembled, 14.8);
}

const WING = `surfaces:
  wing:
    x: 50 mm
    section: NACA 2412
    stations:
      - {y: 0 mm, chord: 200 mm, dihedral: 3 deg}
      - {y: 500 mm, chord: 200 mm, leading edge: 0 mm, dihedral: 8 deg}
      - {y: 1000 mm, chord: 100 mm, leading edge: 50 mm, twist: -2 deg}
    controls:
      aileron: {kind: aileron, from: 60 %, to: 90 %, hinge: 75 %}
`;

const ARRAY = `array:
  cell: back-contact 125 mm
  rows:
    top: {on: wing, side: both, from: 0 %, to: 90 %, chord station: 40 %, cells: 14}
`;

describe('shape', () => {
  it('stations lie where the file says: x from the datum, dihedral along the panel', () => {
    const wing = shapeOf(WING).assembled.shape.surfaces[0]!;
    const [root, middle, tip] = wing.stations;
    expect(root).toMatchObject({ y: 0, z: 0, xLeadingEdge: 0.05, chord: 0.2 });
    expect(tip!.xLeadingEdge).toBeCloseTo(0.1, 12);
    expect(tip!.twist).toBeCloseTo((-2 * Math.PI) / 180, 9);
    const degree = Math.PI / 180;
    expect(middle!.z).toBeCloseTo(0.5 * Math.tan(3 * degree), 6);
    expect(tip!.z - middle!.z).toBeCloseTo(0.5 * Math.tan(8 * degree), 6);
    // Trapezoids of 0.5 m x 0.2 m and 0.5 m x 0.15 m in plan on each side, along their panels.
    const area = 2 * ((0.5 * 0.2) / Math.cos(3 * degree) + (0.5 * 0.15) / Math.cos(8 * degree));
    expect(planform(wing).area).toBeCloseTo(area, 9);
    expect(wing.mirrored).toBe(true);
  });

  it('controls go from shares of the half span to positions and chord fractions', () => {
    const [control] = shapeOf(WING).assembled.shape.surfaces[0]!.controls;
    expect(control).toMatchObject({ kind: 'aileron', fromY: 0.6, toY: 0.9 });
    expect(control!.chordFraction).toBeCloseTo(0.25, 12);
  });

  it('an open gap at the hinge costs a control effect, by its part of the chord there; closed is assumed', () => {
    const controlOf = (text: string) => shapeOf(text).assembled.shape.surfaces[0]!.controls[0]!;
    const closed = controlOf(WING);
    expect(closed.effectiveness).toBe(0.8);
    expect(closed.layerAhead).toBe(0.6);
    // The chord in the middle of the aileron, at three quarters of the half span, is 0.15 m.
    const open = controlOf(WING.replace('hinge: 75 %', 'hinge: 75 %, gap: 1 mm'));
    expect(open.effectiveness).toBeCloseTo(0.8 * (1 - flapGapLoss(0.001 / 0.15).loss), 2);
    expect(open.effectiveness).toBeLessThan(0.74);
  });

  it('stiff flat cells make facets of a curved section: more drag, said with how far the skin would stand over them', () => {
    const laid = (how: string) => shapeOf(`${WING}${ARRAY}${how === '' ? '' : `  laid: ${how}\n`}`);
    const drag = (made: ReturnType<typeof laid>) => sectionDragCoefficient(made.assembled.sections[0]!.model, 0.6, 2e5);
    const [along, flat] = [laid(''), laid('flat')];
    expect(drag(along)).toBeCloseTo(drag(laid('along the surface')), 12);
    expect(drag(flat)).toBeGreaterThan(1.1 * drag(along));
    const code = (made: ReturnType<typeof laid>) => made.warnings.map((one) => one.code);
    expect(code(flat)).toContain('section.facets');
    expect(code(along)).not.toContain('section.facets');
  });

  it('a wing without elevator has no pitch control; elevons have the least of their travels', () => {
    expect(shapeOf(WING).assembled.controlRange).toBeUndefined();
    const { controlRange, pitchControls } = shapeOf(
      WING.replace('kind: aileron', 'kind: elevon').replace('hinge: 75 %', 'hinge: 75 %, up: 20 deg, down: 12 deg'),
    ).assembled;
    expect(pitchControls).toEqual(['aileron']);
    expect(controlRange!.lower).toBeCloseTo((-20 * Math.PI) / 180, 9);
    expect(controlRange!.upper).toBeCloseTo((12 * Math.PI) / 180, 9);
  });

  it('a fin with "mirrored" stands on both sides, and is upright', () => {
    const fin = `  fin:
    role: fin
    mirrored: yes
    x: 800 mm
    y: 300 mm
    section: NACA 0009
    stations:
      - {z: 0 mm, chord: 150 mm}
      - {z: 200 mm, chord: 100 mm}
`;
    const made = shapeOf(WING + fin).assembled.shape.surfaces.find(({ name }) => name === 'fin')!;
    expect(made.mirrored).toBe(true);
    expect(made.kind).toBe('fin');
    expect(made.stations[1]!.z - made.stations[0]!.z).toBeCloseTo(0.2, 12);
    expect(made.stations[1]!.y).toBeCloseTo(0.3, 12);
  });

  it('a plate of the same sheet is another section at another chord, relatively thicker where the chord is smaller', () => {
    const { sections } = shapeOf(WING.replace('NACA 2412', 'plate 6 mm')).assembled;
    expect(sections.map(({ geometry }) => geometry.maximumThickness)).toEqual([
      expect.closeTo(0.03, 3),
      expect.closeTo(0.06, 3),
    ]);
  });

  it('reflex bends the rear of the mean line up: it carries a nose-up moment without lift', () => {
    const bent = (degrees: number) =>
      shapeOf(
        WING.replace(
          'section: NACA 2412',
          `section: {plate: {thickness: 6 mm, reflex: ${degrees} deg, reflex from: 75 %}}`,
        ),
      ).assembled.sections[0]!.camberLine;
    // Thin-airfoil theory: moment about the quarter chord 1/2 x integral of slope x (cos 2t - cos t) over t, 0 to pi.
    const moment = ({ chordFractions, slopes }: ReturnType<typeof bent>) => {
      const steps = 2000;
      let sum = 0;
      for (let i = 0; i < steps; i++) {
        const angle = ((i + 0.5) * Math.PI) / steps;
        const x = (1 - Math.cos(angle)) / 2;
        const near = chordFractions.reduce(
          (best, at, k) => (Math.abs(at - x) < Math.abs(chordFractions[best]! - x) ? k : best),
          0,
        );
        sum += slopes[near]! * (Math.cos(2 * angle) - Math.cos(angle));
      }
      return (sum * Math.PI) / steps / 2;
    };
    expect(moment(bent(0))).toBeCloseTo(0, 6);
    expect(moment(bent(4))).toBeGreaterThan(0.01);
    expect(moment(bent(8))).toBeGreaterThan(1.8 * moment(bent(4)));
  });

  it('cells cover chord stations of their own width about their station', () => {
    const coverage = coverageOf(complete(WING + ARRAY)).wing!;
    const width = coverage.to - coverage.from;
    expect(width).toBeCloseTo(0.125 / 0.2, 3);
    expect((coverage.from + coverage.to) / 2).toBeCloseTo(0.4, 9);
  });

  it('pieces cover less of the chord than whole cells, turned ones their long side', () => {
    const covered = (more: string) => {
      const { from, to } = coverageOf(complete(WING + ARRAY.replace(/cells: (\d+)/, `cells: $1, ${more}`))).wing!;
      return to - from;
    };
    expect(covered('pieces: 2')).toBeCloseTo(0.5 * covered('pieces: 1'), 2);
    expect(covered('pieces: 2, turned: yes')).toBeCloseTo(covered('pieces: 1'), 2);
  });
});

describe('array', () => {
  it('a row on both sides has half its cells on each, mirrored', () => {
    const made = arrayOf(WING + ARRAY);
    if (!made.ok) throw new Error(made.reason);
    const [right, left] = made.value.placed;
    expect([right!.cells, left!.cells]).toEqual([7, 7]);
    expect(left!.centre[1]).toBeCloseTo(-right!.centre[1], 12);
    expect(left!.centre[0]).toBeCloseTo(right!.centre[0], 12);
    expect(made.value.cellCount).toBe(14);
    const normals = made.value.plan.facets.map(({ normal }) => normal);
    expect(normals).toHaveLength(2);
    expect(normals[0]![1]).toBeCloseTo(-normals[1]![1], 12);
    expect(made.value.plan.facets.reduce((sum, { area }) => sum + area, 0)).toBeCloseTo(made.value.cellArea, 12);
  });

  it('an odd cell goes to the right', () => {
    const made = arrayOf(WING + ARRAY.replace('cells: 14', 'cells: 13'));
    expect(made.ok && made.value.placed.map(({ cells }) => cells)).toEqual([7, 6]);
  });

  it('cells that do not fit are a warning with both lengths', () => {
    const made = arrayOf(WING + ARRAY.replace('cells: 14', 'cells: 40'));
    expect(made.ok && made.warnings.filter(({ code }) => code === 'cells-do-not-fit')).toHaveLength(1);
    expect(made.ok && made.warnings[0]!.message).toMatch(
      /20 cells of the row need \d+ mm on each side, there are 900 mm/,
    );
  });

  it('cells that do not split into equal strings are a problem with a number that does', () => {
    const aircraft = complete(WING + ARRAY);
    const { assembled } = shapeOf(WING);
    const uneven = {
      ...aircraft.array!,
      strings: aircraft.array!.strings.map((string) => ({ ...string, parallel: 4 })),
    };
    expect(assembleArray(uneven, assembled, 14.8)).toMatchObject({ ok: false, code: 'string-split' });
  });

  it('pieces carry their share of area and current, less the edge loss, at the voltage of a whole cell', () => {
    const cut = arrayOf(WING + ARRAY.replace('cells: 14', 'cells: 14, pieces: 2'));
    const whole = arrayOf(WING + ARRAY);
    if (!cut.ok || !whole.ok) throw new Error('no array');
    expect(cut.value.cellArea).toBeCloseTo(whole.value.cellArea / 2, 12);
    expect(cut.value.plan.cells!.every(({ share, area }) => share === 0.5 && Math.abs(area - 0.00765) < 1e-9)).toBe(
      true,
    );
    const power = (made: typeof whole) => maximumPowerPoint(cellAt(made.value.plan.strings[0]!.cell, bright));
    expect(power(cut).current / power(whole).current).toBeCloseTo(0.985 / 2, 3);
    expect(power(cut).voltage).toBeCloseTo(power(whole).voltage, 3);
    expect(cut.warnings.map(({ code }) => code)).not.toContain('cells-not-cut');
  });

  it('a kind of cell that cannot be cut says so', () => {
    const text =
      WING + ARRAY.replace('back-contact 125 mm', 'thin film 210 x 100 mm').replace('cells: 14', 'cells: 8, pieces: 2');
    const made = arrayOf(text);
    expect(made.ok && made.warnings.find(({ code }) => code === 'cells-not-cut')).toMatchObject({
      message: 'cells of this kind cannot be cut; lay them whole',
      where: 'array.rows.top',
    });
  });

  it('whole cells and pieces in series are refused', () => {
    const made = arrayOf(
      `${WING}${ARRAY}    rear: {on: wing, from: 0 %, to: 90 %, chord station: 80 %, cells: 14, pieces: 3}\n`,
    );
    expect(made).toMatchObject({ ok: false, code: 'string-pieces', where: 'array.strings.all' });
  });

  it('cells lie where they are placed one by one, or side by side with a gap', () => {
    const places = '[{along: 100 mm, chord station: 35 %}, {along: 300 mm, chord station: 45 %}]';
    const made = arrayOf(WING + ARRAY.replace('cells: 14', `cells: 4, places: ${places}`));
    if (!made.ok) throw new Error(made.reason);
    expect(made.value.plan.cells!.map(({ along }) => along)).toEqual(
      [0.1, 0.3, 0.1, 0.3].map((m) => expect.closeTo(m, 9)),
    );
    expect(made.value.plan.cells![1]!.behind / made.value.plan.cells![0]!.behind).toBeCloseTo(45 / 35, 6);
    const gapped = arrayOf(WING + ARRAY.replace('cells: 14', 'cells: 14, gap: 5 mm'));
    if (!gapped.ok) throw new Error(gapped.reason);
    const [a, b] = gapped.value.plan.cells!;
    expect(b!.along - a!.along).toBeCloseTo(0.13, 9);
  });

  it('diodes and cracked cells that are not there are said by their number', () => {
    const said = (string: string) =>
      readDesign(`${HEAD}${WING}${ARRAY}  strings: {all: {rows: [top], ${string}}}\n`)
        .messages.filter(({ severity }) => severity === 'error')
        .map(({ found }) => found);
    expect(said('diodes: [{from: 1, to: 7}, {from: 7, to: 14}]')).toEqual(['a diode over the cells 7 to 14']);
    expect(said('diodes: [{from: 1, to: 15}]')).toEqual(['a diode over the cells 1 to 15']);
    expect(said('cracked: [{cell: 15, lost area: 5 %}]')).toEqual(['cell 15']);
    expect(said('cells per diode: 7, diodes: [{from: 1, to: 7}]')).toEqual(['diodes and cells per diode']);
    expect(said('diodes: [{from: 1, to: 7}, {from: 8, to: 14}]')).toEqual([]);
  });

  it('diodes, a blocking diode and cracked cells reach the string', () => {
    const strings =
      '  strings: {all: {rows: [top], diodes: [{from: 1, to: 5}, {from: 8, to: 14}], blocking diode: 0.4 V, cracked: [{cell: 3, lost area: 20 %}]}}\n';
    const made = arrayOf(WING + ARRAY + strings);
    if (!made.ok) throw new Error(made.reason);
    expect(made.value.plan.strings[0]).toMatchObject({
      cellsPerDiode: 7,
      blockingVoltage: 0.4,
      diodes: [
        { from: 0, to: 5 },
        { from: 7, to: 14 },
      ],
    });
    expect(made.value.plan.strings[0]!.conditions!.get(2)).toEqual({ lostArea: 0.2, contactResistance: 0 });
  });

  it('without an airframe the cells lie level', () => {
    const aircraft = complete(`level power: 16 W\n${ARRAY}`);
    const made = assembleArray(aircraft.array!, undefined, 14.8);
    // Forward, right, down: a normal that points up.
    expect(made.ok && made.value.plan.facets.map(({ normal }) => normal)).toEqual([[0, 0, -1]]);
  });

  it('a converter has its best efficiency, as stated, at half its rated power', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.85, max: 0.99, noNaN: true }),
        fc.integer({ min: 10, max: 200 }),
        (best, rated) => {
          const [design] = complete(
            `level power: 16 W\n${ARRAY}  strings: {all: {rows: [top], converter: own}}\n  converters: {own: {topology: boost, efficiency: ${(100 * best).toFixed(3)} %, rated power: ${rated} W}}\n`,
          ).array!.converters;
          const converter = engineConverter(design!, 14.8);
          const efficiency = (output: number) => {
            const current = output / 14.8;
            const { fixed, perAmpere, resistance } = converter.loss;
            return output / (output + fixed + perAmpere * current + resistance * current ** 2);
          };
          expect(efficiency(rated / 2)).toBeCloseTo(best, 4);
          expect(efficiency(rated / 2)).toBeGreaterThan(efficiency(rated / 10));
          expect(efficiency(rated / 2)).toBeGreaterThan(efficiency(0.99 * rated));
        },
      ),
      { numRuns: 15 },
    );
  });
});

describe('battery', () => {
  it('holds what its cells hold: 4S2P of 3.3 Ah (3.4 Ah on the label) about 97 Wh', () => {
    const { battery } = complete('level power: 16 W\nbattery: {cell: lithium-ion 18650 3.4 Ah, layout: 4S2P}\n');
    const { pack, nominalVoltage, lowestVoltage, highestVoltage } = assembleBattery(battery);
    if (pack.kind !== 'cells') throw new Error('a pack of cells');
    expect((pack.cellCapacity * pack.cellsInParallel) / 3600).toBeCloseTo(6.6, 2);
    // Data sheets of the format give 3.6 V under load (common practice); without load about 0.1 V more.
    expect(nominalVoltage / 4).toBeGreaterThan(3.6);
    expect(nominalVoltage / 4).toBeLessThan(3.8);
    const wattHours = (pack.cellCapacity * pack.cellsInParallel * nominalVoltage) / 3600;
    expect(wattHours).toBeGreaterThan(92);
    expect(wattHours).toBeLessThan(101);
    expect(lowestVoltage).toBeLessThan(nominalVoltage);
    expect(highestVoltage).toBeGreaterThan(nominalVoltage);
    expect(highestVoltage).toBeCloseTo(4 * battery!.fullVoltage.value, 9);
  });

  it('twice the cells in parallel halve the resistance of the pack and keep its voltage', () => {
    const of = (layout: string) =>
      assembleBattery(
        complete(`level power: 16 W\nbattery: {cell: lithium-ion 18650 3.4 Ah, layout: ${layout}}\n`).battery,
      );
    const [one, two] = [of('4S1P'), of('4S2P')];
    if (one.pack.kind !== 'cells' || two.pack.kind !== 'cells') throw new Error('packs of cells');
    expect(two.nominalVoltage).toBe(one.nominalVoltage);
    expect(two.pack.cellCapacity).toBeCloseTo(one.pack.cellCapacity, 6);
  });

  it('none is a pack without voltage', () => {
    expect(assembleBattery(undefined)).toMatchObject({ nominalVoltage: 0, pack: { kind: 'none' } });
  });
});

describe('masses', () => {
  const text = `${WING}masses:
  wing: {mass: 300 g weighed, on: wing}
  servos: {mass: 10 g weighed, x: 100 mm, y: 400 mm, pair: yes}
battery: {cell: lithium-ion 18650 3.4 Ah, layout: 3S1P, x: -100 mm}
`;
  const itemsOf = (of: string) => {
    const { aircraft, assembled } = shapeOf(of);
    return assembleMasses(aircraft.masses, aircraft.growthAllowance, assembled.shape, []);
  };

  it('a pair is two items, mirrored', () => {
    const servos = itemsOf(text).items.filter(({ name }) => name.startsWith('servos'));
    expect(servos.map(({ y }) => y)).toEqual([0.4, -0.4]);
    expect(servos.map(({ mass }) => mass)).toEqual([0.01, 0.01]);
  });

  it('says where each mass comes from: what a data sheet gives was not weighed', () => {
    const of = new Map(itemsOf(text).items.map(({ name, source }) => [name, source]));
    expect([of.get('wing'), of.get('battery')]).toEqual(['weighed', 'data sheet']);
  });

  it('a mass on a surface lies within its chord, in the middle, and spreads over its span', () => {
    const wing = itemsOf(text).items.find(({ name }) => name === 'wing')!;
    expect(wing.y).toBe(0);
    expect(wing.x).toBeGreaterThan(0.05);
    expect(wing.x).toBeLessThan(0.25);
    expect(wing.shape).toMatchObject({ kind: 'box', width: expect.closeTo(2, 6) });
  });

  it('a battery that moves takes nothing with it', () => {
    const at = (x: number) => {
      const { items, growth } = itemsOf(text.replace('x: -100 mm', `x: ${x} mm`));
      return { sum: sumMass(items, growth), battery: items.find(({ name }) => name === 'battery')! };
    };
    const [ahead, behind] = [at(-100), at(50)];
    expect(behind.sum.mass).toBeCloseTo(ahead.sum.mass, 12);
    // Moment equilibrium.
    expect(behind.sum.x - ahead.sum.x).toBeCloseTo((0.15 * ahead.battery.mass) / ahead.sum.mass, 9);
  });

  it('only what was not weighed grows', () => {
    const { items, growth } = itemsOf(text);
    const weighed = items.filter(({ provenance }) => provenance === 'weighed').reduce((sum, { mass }) => sum + mass, 0);
    const rest = items.filter(({ provenance }) => provenance !== 'weighed').reduce((sum, { mass }) => sum + mass, 0);
    expect(growth.factor).toBeCloseTo(1.1, 9);
    expect(sumMass(items, growth).mass).toBeCloseTo(weighed + 1.1 * rest, 12);
  });
});

describe('drive and loads', () => {
  it('a measured propeller keeps its table and has no uncertainty of generic blades', () => {
    const { drive } = complete(
      `level power: 16 W\ndrive: {propeller: {size: 10x6 in, measured: [{advance ratio: 0, thrust coefficient: 0.1, power coefficient: 0.05}, {advance ratio: 0.3, thrust coefficient: 0.07, power coefficient: 0.045}, {advance ratio: 0.6, thrust coefficient: 0.02, power coefficient: 0.025}]}}\n`,
    );
    const made = assemblePropeller(drive!.propeller);
    if (!made.ok) throw new Error(made.reason);
    const generic = assemblePropeller(complete('level power: 16 W\ndrive: {propeller: 10x6 in}\n').drive!.propeller);
    expect(generic.ok && generic.value.powerUncertainty).toBeGreaterThan(made.value.powerUncertainty);
    const { thrustLine, drive: engineDrive } = assembleDrive(drive!, made.value);
    expect(engineDrive.count).toBe(1);
    expect(thrustLine.angle).toBeCloseTo(0, 12);
  });

  it('blades of a stated section take its lift and drag; a section that cannot be made is said with its place', () => {
    const propeller = (section: string) =>
      assemblePropeller(
        complete(`level power: 16 W\ndrive: {propeller: {size: 10x6 in${section}}}\n`).drive!.propeller,
      );
    const thrust = (made: ReturnType<typeof propeller>) => {
      if (!made.ok) throw new Error(made.reason);
      const loads = { thrust: 0, torque: 0 };
      propellerLoads(made.value, 8, 500, seaLevelAir, loads);
      return loads.thrust;
    };
    const [generic, flat, cambered] = ['', ', section: NACA 0008', ', section: NACA 4408'].map((s) =>
      thrust(propeller(s)),
    );
    expect(flat).not.toBeCloseTo(generic!, 2);
    // The pitch is that of the nose-tail chord: more camber, more thrust.
    expect(cambered!).toBeGreaterThan(1.1 * flat!);
    const missing = propeller(', section: blade.dat');
    expect(!missing.ok && [missing.code, missing.where]).toEqual(['section.file', 'drive.propeller.section']);
  });

  it('a share of the time is a share of the power, hours are hours of the clock', () => {
    const loads = assembleLoads(
      complete('level power: 16 W\nloads: {camera: {power: 2 W, from: 07:00, to: 13:30, share: 40 %}, radio: 1 W}\n')
        .loads,
    );
    expect(loads).toContainEqual({ name: 'camera', power: expect.closeTo(0.8, 12), hours: { from: 7, to: 13.5 } });
    expect(loads.find(({ name }) => name === 'radio')).toEqual({ name: 'radio', power: 1 });
  });

  it('pulls down where the thrust line points down', () => {
    const { drive } = complete(`${WING}drive: {down thrust: 2 deg}\n`);
    const made = assemblePropeller(drive!.propeller);
    expect(made.ok && assembleDrive(drive!, made.value).thrustLine.angle).toBeCloseTo((-2 * Math.PI) / 180, 9);
  });
});

describe('rows and the facets that hold their cells', () => {
  it('are led from one to the other by what was placed, also where rows of two surfaces face alike', () => {
    const twice =
      WING.replace('wing:\n', 'front:\n').replace('aileron:', 'elevon:') +
      WING.replace('surfaces:\n', '').replace('x: 50 mm', 'x: 600 mm');
    const made = arrayOf(`${twice}array:
  cell: back-contact 125 mm
  rows:
    ahead: {on: front, side: both, from: 0 %, to: 45 %, chord station: 40 %, cells: 6}
    behind: {on: wing, side: both, from: 0 %, to: 45 %, chord station: 40 %, cells: 4}
  strings:
    all: {rows: [ahead, behind]}
`);
    if (!made.ok) throw new Error(made.reason);
    const { placed, facetOf, plan } = made.value;
    expect(placed.map(({ row, side }) => `${row} ${side}`)).toEqual([
      'ahead right',
      'ahead left',
      'behind right',
      'behind left',
    ]);
    const held = plan.facets.map((_, facet) =>
      placed.reduce((sum, { cells }, i) => sum + (facetOf[i] === facet ? cells : 0), 0),
    );
    expect(held).toEqual(plan.facets.map(({ cells }) => cells!.length));
    // What a row is said to face is the mean of its own cells.
    for (const [i, { centre }] of placed.entries()) {
      const { cells } = plan.facets[facetOf[i]!]!;
      expect(cells!.some((cell) => Math.abs(plan.cells![cell]!.centre[1] - centre[1]) < 0.4)).toBe(true);
    }
  });

  it('lie on both faces where a row says so: as many below as above, facing down, wired along the lower face on the way back', () => {
    const made = arrayOf(`${WING}array:
  cell: back-contact 125 mm
  rows:
    skin: {on: wing, side: both, face: both, from: 0 %, to: 45 %, chord station: 40 %, cells: 9}
  strings:
    all: {rows: [skin]}
`);
    if (!made.ok) throw new Error(made.reason);
    const { placed, plan, facetOf } = made.value;
    expect(placed.map(({ side, face, cells }) => [side, face, cells])).toEqual([
      ['right', 'upper', 3],
      ['right', 'lower', 2],
      ['left', 'upper', 2],
      ['left', 'lower', 2],
    ]);
    for (const [i, { face }] of placed.entries()) {
      const { normal } = plan.facets[facetOf[i]!]!;
      expect(normal[2] < 0).toBe(face === 'upper');
    }
    const wired = plan.strings[0]!.members![0]!.map((cell) => plan.cells![cell]!);
    expect(wired.map(({ face }) => face)).toEqual([...Array(5).fill('upper'), ...Array(4).fill('lower')]);
    expect(wired.map(({ centre }) => Math.sign(centre[1]))).toEqual([1, 1, 1, -1, -1, -1, -1, 1, 1]);
    expect(new Set(wired).size).toBe(9);
  });

  it('are veiled by a turning propeller ahead of them: 2 blades of 8 % of the diameter take 2 x 0.08 x 2 / pi of what passes its disc', () => {
    const propeller = 'drive: {motor: {like: outrunner 75 g 750 rpm/V, x: -300 mm, z: 0 mm}, propeller: 10x6 in}\n';
    const { drive, array } = complete(`${WING}${ARRAY}${propeller}`);
    const [disc, ...others] = propellerDiscs(drive!);
    expect(others).toEqual([]);
    expect(disc).toMatchObject({ centre: [-0.3, 0, 0], diameter: 0.254 });
    expect(disc!.solidity).toBeCloseTo((2 * 0.08 * 2) / Math.PI, 9);
    const { assembled } = shapeOf(`${WING}${ARRAY}${propeller}`);
    const casters = (of: typeof drive) => assembleCells(array!, assembled, of)!.shade.casters.map(({ name }) => name);
    expect(casters(undefined)).not.toContain('propeller');
    expect(casters(drive)).toContain('propeller');
  });
});
