import { describe, expect, it } from 'vitest';
import { backContactCell, type Converter, cellString, type SeriesString } from '../array/index.js';
import { cellPack, packOpenCircuitVoltage } from '../battery/index.js';
import { cell18650 } from '../battery/testCells.js';
import { type BusRun, busCourse, cloudEdgeBurst } from './index.js';
import { busRelations } from './relations.js';

const pack = cellPack(cell18650, 4, 1);
const boost: Converter = {
  topology: 'boost',
  loss: { fixed: 0.3, perAmpere: 0.2, resistance: 0.05 },
  limits: { inputPower: 80, outputCurrent: 8, maximumInputVoltage: 12, outputVoltage: 16.8 },
  tracking: { method: 'maximum power' },
  standbyPower: 0.1,
};
const stringIn = (irradiance: number): SeriesString =>
  cellString(
    { cell: backContactCell, seriesResistance: 0.05 },
    Array.from({ length: 16 }, () => ({ irradiance, temperature: 305 })),
  );
const [bright, dim] = [stringIn(900), stringIn(150)];
const run = (more: Partial<BusRun> = {}): BusRun => ({
  feeds: [
    {
      converter: boost,
      tracker: { method: 'perturb and observe', step: 0.1, period: 0.05 },
      stringAt: () => bright,
    },
  ],
  pack,
  stateOfCharge: 0.5,
  temperature: 298.15,
  loadAt: () => 20,
  duration: 10,
  ...more,
});
const feeds = (stringAt: (time: number) => SeriesString) => [{ ...run().feeds[0]!, stringAt }];

describe('bus in seconds', () => {
  it('charges from what the loads leave: currents add up at the node', () => {
    const { income, charge, voltage, share } = busCourse(run());
    const last = voltage.length - 1;
    expect(income[last]!).toBeGreaterThan(30);
    expect(charge[last]! * voltage[last - 1]!).toBeCloseTo(income[last]! - 20, 6);
    expect(share).toBeGreaterThan(0.9);
    expect(busCourse(run()).warnings).toEqual([]);
  });

  it('falls under a cloud in a turn, and says what fails first', () => {
    const shaded = run({
      feeds: feeds((time) => (time > 5 ? dim : bright)),
      loadAt: (time) => (time > 5 ? 110 : 20),
      stateOfCharge: 0.12,
      floors: { lowVoltageCut: 13.2, receiverBrownOut: 3.5 },
    });
    const course = busCourse(shaded);
    expect(course.lowestVoltage).toBeLessThan(busCourse(run()).lowestVoltage);
    expect(course.warnings.map(({ where }) => where)).toEqual(['lowVoltageCut']);
  });

  it('holds back near full: the battery takes no more than its taper', () => {
    const { charge, share } = busCourse(run({ stateOfCharge: 0.998, loadAt: () => 2 }));
    expect(charge.at(-1)!).toBeLessThan(0.6);
    expect(share).toBeLessThan(0.6);
  });

  it('overshoots when the battery falls off in the sun, breaks down when it does in the dark', () => {
    const lost = busCourse(run({ disconnectedAt: 5, loadAt: () => 10, ceiling: 18 }));
    expect(lost.highestVoltage).toBeGreaterThan(18);
    expect(lost.warnings.map(({ code }) => code)).toEqual(['bus-too-high']);
    const dark = busCourse(run({ feeds: feeds(() => dim), disconnectedAt: 5, floors: { receiverBrownOut: 3.5 } }));
    expect(dark.lowestVoltage).toBeLessThan(1);
    expect(dark.warnings.map(({ where }) => where)).toEqual(['receiverBrownOut']);
  });

  it('starts from the rested battery without light or load', () => {
    const course = busCourse(run({ feeds: feeds(() => stringIn(0)), loadAt: () => 0, duration: 1 }));
    expect(course.lowestVoltage).toBeCloseTo(packOpenCircuitVoltage(pack, 0.5), 1);
    expect([...course.voltage, ...course.income, ...course.charge].every(Number.isFinite)).toBe(true);
  });
});

describe('burst at a cloud edge', () => {
  const string = { cell: backContactCell, cells: 16, parallel: 1, temperature: 273.15 };

  it('grows current with the light and voltage with the cold', () => {
    const report = cloudEdgeBurst([string], { maximumInputVoltage: 11.5, inputPower: 80 });
    expect(report.shortCircuitCurrent).toBeCloseTo(1.3 * 6.19, 1);
    expect(report.openCircuitVoltage).toBeGreaterThan(16 * 0.741);
    expect(report.warnings.map(({ code }) => code)).toEqual(['burst-voltage']);
  });

  it('names every rating that it passes', () => {
    const weak = { maximumInputVoltage: 10, inputCurrent: 6, inputPower: 50 };
    expect(cloudEdgeBurst([string], weak, 7.5).warnings.map(({ code }) => code)).toEqual([
      'burst-voltage',
      'burst-current',
      'burst-power',
      'burst-fuse',
    ]);
  });

  it('adds the currents of strings on one converter, and keeps the voltage of the longest', () => {
    const short = { ...string, cells: 8 };
    const [one, both] = [cloudEdgeBurst([string], {}), cloudEdgeBurst([string, short], {})];
    expect(both.openCircuitVoltage).toBe(one.openCircuitVoltage);
    expect(both.shortCircuitCurrent).toBeCloseTo(2 * one.shortCircuitCurrent, 9);
    expect(both.power).toBeCloseTo(1.5 * one.power, 9);
    expect(cloudEdgeBurst([string, short], { inputPower: 1.2 * one.power }).warnings).toHaveLength(1);
  });
});

describe('relation', () => {
  const [relation] = busRelations;
  const defaults = Object.fromEntries(relation!.inputs.map(({ key, default: value }) => [key, value ?? 0]));

  it('answers its defaults as the burst does, and refuses what has no sense', () => {
    expect(relation!.compute(defaults)).toMatchObject({ shortCircuit: expect.closeTo(8.07, 1) });
    expect(relation!.compute({ ...defaults, cells: 0 })).toMatchObject({ reason: expect.stringContaining('cells') });
  });
});
