import { readFileSync } from 'node:fs';
import { resistanceFromMass } from '@noonwing/engine/drive';
import { describe, expect, it } from 'vitest';
import { MOTORS } from '../library/motors.js';
import { zoneOffsetAt } from '../notations.js';
import { readDayPlan, readDesign } from '../read-files.js';
import {
  assumedCount,
  assumedValues,
  completeDesign,
  completePlan,
  suitableTopology,
  surfaceArea,
  usualTemperature,
} from './index.js';

const complete = (text: string) => {
  const { design, messages } = readDesign(text);
  expect(messages).toEqual([]);
  return completeDesign(design!);
};
const HEAD = 'noonwing: design 1\nname: a\n';
const WING = `${HEAD}surfaces:
  wing:
    stations:
      - {y: 0 mm, chord: 200 mm, dihedral: 3 deg}
      - {y: 500 mm, chord: 200 mm, dihedral: 8 deg}
      - {y: 1000 mm, chord: 100 mm}
`;

/** Every number in plain data. */
function* numbers(value: unknown, path = ''): Generator<readonly [string, number]> {
  if (typeof value === 'number') yield [path, value];
  else if (typeof value === 'object' && value !== null)
    for (const [key, part] of Object.entries(value)) yield* numbers(part, `${path}.${key}`);
}

describe('bracing wires', () => {
  const braced = (wire: string) =>
    complete(`${HEAD}surfaces:
  wing:
    x: 10 mm
    structure:
      wires:
        front: ${wire}
    stations:
      - {y: 0 mm, chord: 200 mm}
      - {y: 1000 mm, chord: 200 mm}
`).aircraft;
  const wire = '{material: steel wire, diameter: 0.5 mm, at: 60 %, chord station: 45 %, x: 100 mm, z: -250 mm}';

  it('weigh by their length and size with a tenth for fittings, on both sides', () => {
    const { masses } = braced(wire);
    const own = masses.find(({ name }) => name === 'wire front of wing')!;
    // 650 mm from 600 mm out to 250 mm below the middle: 0.196 mm2 at 7850 kg/m3.
    expect(own.mass.value).toBeCloseTo(1.1 * (Math.PI / 4) * 0.0005 ** 2 * 0.65 * 7850, 9);
    expect(own.count).toBe(2);
  });

  it('weigh beside joiners that are named among the masses, which they are not', () => {
    const named = (masses: string) =>
      complete(`${HEAD}surfaces:
  wing:
    structure:
      wires:
        front: ${wire}
    stations:
      - {y: 0 mm, chord: 200 mm}
      - {y: 1000 mm, chord: 200 mm}
${masses}`).aircraft.masses.map(({ name }) => name);
    expect(named('masses:\n  joiners: {mass: 50 g, x: 60 mm}\n')).toContain('wire front of wing');
  });

  it('have the drag of a cylinder across the flow, less where they lean', () => {
    const area = (of: string) => braced(of).extraDrag.find(({ name }) => name === 'wire front of wing')!.area.value;
    expect(area(wire)).toBeCloseTo(2 * 1.1 * 0.0005 * 0.65, 9);
    const length = Math.hypot(0.65, 0.65);
    expect(area(wire.replace('x: 100 mm', 'x: -550 mm'))).toBeCloseTo(2 * 1.1 * 0.0005 * length * Math.SQRT1_2 ** 3, 9);
  });
});

describe('joiners of wing panels', () => {
  const wing = (joint: string, masses = '') =>
    complete(`${HEAD}surfaces:
  wing:
    x: 10 mm
    structure:
      spars:
        main: {kind: caps, material: carbon strip, width: 8 mm, height: 1 mm, chord station: 30 %, tip chord station: 40 %}
      joints:
        outer: ${joint}
    stations:
      - {y: 0 mm, chord: 200 mm}
      - {y: 1000 mm, chord: 100 mm, leading edge: 50 mm}
${masses}`).aircraft.masses.filter(({ group }) => group === 'joiner');
  const tube = 'kind: tube, material: carbon tube, width: 10 mm, height: 8 mm, at: 50 %, length: 100 mm';

  it('weigh what their size says, on both sides, where the spar runs', () => {
    const [joiner] = wing(`{${tube}}`);
    // A ring of 28.27 mm2, 200 mm long, at 1550 kg/m3 of the parts library.
    expect(joiner!.mass.value).toBeCloseTo(((Math.PI / 4) * (10 ** 2 - 8 ** 2) * 200 * 1550) / 1e9, 9);
    expect(joiner!.count).toBe(2);
    const place = joiner!.place as { x: { value: number }; y: { value: number } };
    expect([place.x.value, place.y.value]).toEqual([0.01 + 0.025 + 0.35 * 0.15, 0.5].map((v) => expect.closeTo(v, 9)));
    expect(wing(`{${tube.replace('50 %', '0 %')}}`)[0]!.count).toBe(1);
    expect(wing(`{${tube}, chord station: 40 %}`)[0]!.place).toMatchObject({ x: { value: expect.closeTo(0.095, 9) } });
  });

  it('weigh what is stated, and are not counted twice in a wing that was weighed or beside joiners among the masses', () => {
    expect(wing(`{${tube}, mass: 30 g}`)[0]!.mass.value).toBeCloseTo(0.03, 9);
    expect(wing(`{${tube}}`, 'masses:\n  wing: {mass: 400 g weighed, on: wing}\n')).toEqual([]);
    expect(wing(`{${tube}}`, 'masses:\n  wing: {mass: 400 g, on: wing}\n')).toHaveLength(1);
    expect(wing(`{${tube}, mass: 30 g}`, 'masses:\n  wing: {mass: 400 g weighed, on: wing}\n')).toHaveLength(1);
    const own = wing(`{${tube}}`, 'masses:\n  joiners: {mass: 50 g, x: 60 mm}\n');
    expect(own.map(({ name }) => name)).toEqual(['joiners']);
  });

  it('have no mass where their size cannot be', () => {
    expect(wing(`{${tube.replace('height: 8', 'height: 12')}}`)).toEqual([]);
  });
});

describe('a completed design', () => {
  it.each(['alondra', 'bandeja', 'vigilia'])('%s: every number is finite, every assumption has a reason', (name) => {
    const { aircraft, assumptions } = complete(
      readFileSync(new URL(`../../../../examples/${name}.yaml`, import.meta.url), 'utf8'),
    );
    for (const [path, value] of numbers(aircraft)) expect(Number.isFinite(value), path).toBe(true);
    for (const assumption of assumptions) expect(assumption.why, assumption.path).not.toBe('');
    expect(new Set(assumptions.map((assumption) => `${assumption.path} ${assumption.what}`)).size).toBe(
      assumptions.length,
    );
  });

  it('weighs what the demo says: about 1.3 kg, 1 kg and 6 kg', () => {
    const mass = (name: string) =>
      complete(
        readFileSync(new URL(`../../../../examples/${name}.yaml`, import.meta.url), 'utf8'),
      ).aircraft.masses.reduce((sum, item) => sum + item.count * item.mass.value, 0);
    expect(mass('alondra')).toBeCloseTo(1.3, 1);
    expect(mass('bandeja')).toBeCloseTo(1.0, 1);
    expect(mass('vigilia')).toBeCloseTo(6.0, 1);
  });

  it('changes nothing that is stated', () => {
    const { aircraft } = complete(
      `${HEAD}level power: 16 W ± 2 W\nbattery: {layout: 4S2P, capacity: 7 Ah ± 0.1 Ah, resistance: 90 mohm ± 5 mohm, mass: 400 g ± 2 g}\n`,
    );
    expect(aircraft.levelPower?.power).toEqual({ value: 16, sigma: 2, source: 'stated' });
    expect(aircraft.battery).toMatchObject({
      series: 4,
      parallel: 2,
      capacity: { value: 25200, sigma: 360 },
      resistance: { value: 0.09 },
      mass: { value: 0.4 },
    });
  });

  it('gives a stated number without uncertainty the usual one, written down', () => {
    const { aircraft, assumptions } = complete(`${HEAD}level power: 16 W\n`);
    expect(aircraft.levelPower?.power.sigma).toBeCloseTo(2.4, 12);
    expect(assumptions).toContainEqual(expect.objectContaining({ path: 'level power', what: 'uncertainty' }));
  });

  it('has no battery, no cells and no drive where none is described beside a level power', () => {
    const { aircraft } = complete(`${HEAD}level power: 16 W\n`);
    expect(aircraft.battery).toBeUndefined();
    expect(aircraft.array).toBeUndefined();
    expect(aircraft.drive).toBeUndefined();
    expect(aircraft.loads).toHaveLength(1);
  });

  it('places stations by dihedral, in line at the quarter chord', () => {
    const { aircraft } = complete(WING);
    const [root, middle, tip] = aircraft.surfaces[0]!.stations;
    expect(root).toMatchObject({ y: 0, z: 0, leadingEdge: 0 });
    expect(middle?.z).toBeCloseTo(0.5 * Math.tan((3 * Math.PI) / 180), 12);
    expect(tip!.z - middle!.z).toBeCloseTo(0.5 * Math.tan((8 * Math.PI) / 180), 12);
    expect(tip?.leadingEdge).toBeCloseTo(0.025, 12);
    expect(surfaceArea(aircraft.surfaces[0]!)).toBeGreaterThan(0.35);
  });

  it('gives the same wing by shares of the span', () => {
    const shares = WING.replace('y: 0 mm', 'span share: 0 %')
      .replace('y: 500 mm', 'span share: 50 %')
      .replace('y: 1000 mm', 'span share: 100 %')
      .replace('  wing:\n', '  wing:\n    span: 2 m\n');
    const places = (text: string) =>
      complete(text).aircraft.surfaces[0]!.stations.map((station) => [station.y, station.z]);
    expect(places(shares)).toEqual(places(WING));
  });

  it('takes fins beside the middle as a pair, one in the middle as single, and roles from names', () => {
    const fin = (y: string) =>
      `${WING}  fin:\n    y: ${y}\n    stations:\n      - {z: 0 mm, chord: 100 mm}\n      - {z: -90 mm, chord: 80 mm}\n`;
    expect(complete(fin('0 mm')).aircraft.surfaces[1]).toMatchObject({ role: 'fin', mirrored: false });
    expect(complete(fin('300 mm')).aircraft.surfaces[1]).toMatchObject({ role: 'fin', mirrored: true });
    expect(complete(fin('0 mm')).aircraft.surfaces[1]!.stations[1]!.z).toBe(-0.09);
  });

  it('counts a part once: a mass named after a part takes the place of its own line', () => {
    const { aircraft } = complete(
      `${WING}battery: {layout: 3S1P}\nmasses:\n  battery: {mass: 170 g weighed, x: 10 mm}\n`,
    );
    const batteries = aircraft.masses.filter((item) => item.group === 'battery');
    expect(batteries).toHaveLength(1);
    expect(batteries[0]?.mass.value).toBe(0.17);
  });

  it('gives no growth to what was weighed or bought, but to what is built and stated', () => {
    const { aircraft } = complete(
      `${WING}battery: {layout: 3S1P, cell: lithium-ion 18650 3.4 Ah}\nmasses:\n  wing: {mass: 300 g, on: wing}\n  pod: 60 g weighed\n`,
    );
    const weighed = (name: string) => aircraft.masses.find((item) => item.name === name)?.weighed;
    expect(weighed('wing')).toBe(false);
    expect(weighed('pod')).toBe(true);
    expect(weighed('motor')).toBe(true);
  });

  it('leaves records that are switched off aside, and takes the others as measured with an uncertainty', () => {
    const { aircraft } = complete(
      `${WING}measured:\n  - {what: mass, mass: 1.2 kg}\n  - {what: mass, mass: 9 kg, use: no}\n`,
    );
    expect(aircraft.measured).toHaveLength(1);
    expect(aircraft.measured[0]).toMatchObject({ what: 'mass', mass: { value: 1.2, source: 'measured' } });
    expect(aircraft.measured[0]?.what === 'mass' && aircraft.measured[0].mass.sigma).toBeGreaterThan(0);
  });
});

describe('usual parts', () => {
  it('estimate the resistance of every motor class within a factor of two from speed constant and mass', () => {
    for (const [name, motor] of Object.entries(MOTORS)) {
      if (motor.gearRatio !== 1) continue;
      const estimate = resistanceFromMass(motor.speedConstant.value, motor.mass.value);
      expect(estimate / motor.resistance.value, name).toBeGreaterThan(0.5);
      expect(estimate / motor.resistance.value, name).toBeLessThan(2);
    }
  });

  it('boost short strings, buck long ones, and do both in between (3S: boost to 12 cells, buck from 28)', () => {
    const { aircraft } = complete(
      `${HEAD}level power: 9 W\nbattery: {layout: 3S1P, empty voltage: 3 V}\narray: {rows: {a: {on: wing, cells: 12}}}\n`,
    );
    const topology = (cells: number) => suitableTopology(cells, aircraft.array!.cell, aircraft.battery);
    expect(topology(12)).toBe('boost');
    expect(topology(20)).toBe('buck-boost');
    expect(topology(28)).toBe('buck');
  });

  it('put temperature coefficients in their own unit', () => {
    const cell = complete(
      `${HEAD}level power: 9 W\narray:\n  cell: {open circuit voltage: 0.7 V, voltage coefficient: -0.3 %/K}\n  rows: {a: {on: wing, cells: 12}}\n`,
    ).aircraft.array!.cell;
    expect(cell.voltageCoefficient.value).toBeCloseTo(-0.0021, 12);
  });
});

describe('a completed day plan', () => {
  const plan = (lines = '') => {
    const { plan: read, messages } = readDayPlan(`noonwing: day 1\nplace: 40.7 N 0.9 E\ndate: 2026-06-21\n${lines}`);
    expect(messages).toEqual([]);
    return completePlan(read!);
  };

  it('knows summer time from the name of a zone', () => {
    expect(plan('time zone: Europe/Madrid').plan.utcOffset).toBe(7200);
    expect(plan('time zone: Europe/Madrid').plan.midnight).toBe(Date.UTC(2026, 5, 20, 22) / 1000);
    expect(zoneOffsetAt({ zone: 'Europe/Madrid' }, Date.UTC(2026, 0, 1) / 1000)).toBe(3600);
    expect(zoneOffsetAt({ zone: 'America/St_Johns' }, Date.UTC(2026, 0, 1) / 1000)).toBe(-12600);
  });

  it('takes the clock from the longitude where none is stated, and says so', () => {
    const { plan: read, assumptions } = plan();
    expect(read.utcOffset).toBe(0);
    expect(assumptions.map((assumption) => assumption.path)).toContain('time zone');
  });

  it('computes clear, thin and broken unless one sky is asked for', () => {
    expect(plan().plan.skies).toEqual(['clear', 'thin', 'broken']);
    expect(plan('sky: thin').plan.skies).toEqual(['thin']);
  });

  it('has air that is warmer in summer on both halves of the earth', () => {
    const june = 172;
    const december = 355;
    expect(usualTemperature(0.7, june)).toBeGreaterThan(usualTemperature(0.7, december) + 8);
    expect(usualTemperature(-0.7, december)).toBeGreaterThan(usualTemperature(-0.7, june) + 8);
    expect(Math.abs(usualTemperature(0, june) - usualTemperature(0, december))).toBeLessThan(1);
  });

  it('has finite numbers everywhere from pole to pole', () => {
    for (const place of ['90 N 0 E', '90 S 0 E', '0 N 180 W', '0 N 180 E']) {
      const read = readDayPlan(`noonwing: day 1\nplace: ${place}\ndate: 2026-12-21\n`).plan!;
      for (const [path, value] of numbers(completePlan(read).plan)) expect(Number.isFinite(value), path).toBe(true);
    }
  });
});

describe('how much is assumed', () => {
  it('is one count of values, with uncertainties apart', () => {
    const of = (...what: ('value' | 'choice' | 'uncertainty')[]) => what.map((one) => ({ what: one }));
    expect(assumedCount(of('value', 'choice', 'uncertainty'))).toBe(
      '2 values are only assumed, and the uncertainty of 1 stated one',
    );
    expect(assumedCount(of('value'))).toBe('1 value is only assumed');
    expect(assumedValues(of('value', 'uncertainty', 'choice'))).toHaveLength(2);
  });
});
