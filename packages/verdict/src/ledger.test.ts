import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { dayLedger, type Ledger, type Verdict } from './index.js';

const summed = (ledger: Ledger): number =>
  ledger.rows.filter(({ partOf }) => partOf === undefined).reduce((sum, { watts }) => sum + watts, 0);

/** Sunlight on the cells from the light courses themselves, not from the rows [W]. */
function lightOf(verdict: Verdict, sky: number, from: number, to: number): number {
  const { array } = verdict.prepared.run;
  const { times } = verdict.grid;
  let sum = 0;
  let steps = 0;
  for (let step = 0; step < times.length - 1; step++) {
    if (times[step]! < from || times[step + 1]! > to) continue;
    steps++;
    for (const [f, { area }] of array!.facets.entries()) {
      const at = step * array!.facets.length + f;
      const { effective, incidenceLoss, shadeLoss } = verdict.courses[sky]!.ledger;
      sum += area * (effective[at]! + incidenceLoss[at]! + shadeLoss[at]!);
    }
  }
  return sum / steps;
}

describe.each(test.exampleNames)('ledger of %s', (name) => {
  const verdict = test.verdictOf(test.designText(name), test.planText(name));
  const { midnight } = verdict.grid;
  const hour = 3600;

  it.each([
    ['before dawn', 3],
    ['early', 7.2],
    ['noon', 13.5],
    ['evening', 20.8],
    ['night', 23.5],
    ['the next noon', 37.5],
  ])('%s: rows sum to the light on the cells to 1e-9 under every sky', (_, at) => {
    for (const sky of verdict.skies.keys()) {
      const ledger = dayLedger(verdict, sky, midnight + at * hour)!;
      const light = lightOf(verdict, sky, ledger.from, ledger.to);
      expect(Math.abs(summed(ledger) - light)).toBeLessThan(1e-9 * Math.max(1, light));
      expect(Math.abs(ledger.light - light)).toBeLessThan(1e-9 * Math.max(1, light));
      const offered = verdict.skies[sky]!.run.offered[Math.round((ledger.from - midnight) / 1200)]!;
      expect(ledger.income).toBeCloseTo(offered, 9);
    }
  });

  it.each([
    ['a morning', 6, 12],
    ['a day', 0, 24],
    ['a night', 22, 29],
  ])('%s: so do means over a stretch', (_, from, to) => {
    for (const sky of verdict.skies.keys()) {
      const ledger = dayLedger(verdict, sky, { from: midnight + from * hour, to: midnight + to * hour })!;
      const light = lightOf(verdict, sky, midnight + from * hour, midnight + to * hour);
      expect(Math.abs(summed(ledger) - light)).toBeLessThan(1e-9 * Math.max(1, light));
      expect(test.unreal(ledger)).toEqual([]);
    }
  });

  it('no loss is negative while the sun is up; shares are of the light', () => {
    const ledger = dayLedger(verdict, 0)!;
    for (const { key, watts, group, share } of ledger.rows) {
      if (group !== 'battery') expect(watts, key).toBeGreaterThanOrEqual(-1e-9);
      expect(share).toBeCloseTo(watts / ledger.light, 12);
    }
    expect(ledger.need).toBeGreaterThan(0);
  });
});

/**
 * Keys of the rows that another value of one thing changes, in the order of the ledger, at noon. A stated airspeed and
 * bank: the speed of least power and the circle would follow every change of the drive.
 */
function changedRows(path: string, values: readonly [string, string]) {
  const design = test.designText('alondra').replace('cell: back-contact 125 mm', 'cell: {like: back-contact 125 mm}');
  const base = test.edited(design, {
    'flight.airspeed': '9 m/s',
    'flight.circle radius': '10 km',
    'drive.motor.z': '0 mm',
  });
  const [a, b] = values.map((value) => {
    const verdict = test.verdictOf(test.edited(base, { [path]: value }), test.planText('alondra'));
    return dayLedger(verdict, 0, verdict.grid.midnight + 13.5 * 3600)!;
  });
  const rows = a!.rows.filter(({ partOf }) => partOf === undefined);
  const changed = rows.filter((row) => {
    const other = b!.rows.find(({ key }) => key === row.key)!;
    return Math.abs(other.watts - row.watts) > 1e-9 * a!.light;
  });
  return { order: rows.map(({ key }) => key), changed: changed.map(({ key }) => key) };
}

describe('one efficiency changes its own row and those below', () => {
  it.each([
    ['cover', 'array.lamination.transmittance', ['95 %', '92 %']],
    ['conversion', 'array.cell.maximum power current', ['5.9 A', '5.8 A']],
    ['wires', 'array.wiring resistance', ['0.05 ohm', '0.2 ohm']],
    ['tracking', 'array.converters.tracker.tracking efficiency', ['99 %', '96 %']],
    ['converter', 'array.converters.tracker.efficiency', ['96 %', '93 %']],
    ['parasite drag', 'extra drag.camera window and antennas', ['3 cm2', '5 cm2']],
    ['motor', 'drive.motor.resistance', ['95 mohm', '120 mohm']],
    ['speed controller', 'drive.speed controller.resistance', ['8 mohm', '20 mohm']],
    ['air factor', 'flight.air and control factor', ['1.15', '1.25']],
    ['loads', 'loads.servos', ['0.6 W', '0.9 W']],
  ] as const)('%s', (own, path, values) => {
    const { order, changed } = changedRows(path, values);
    expect(changed).toContain(own);
    expect(order.indexOf(changed[0]!), `${changed.join(', ')} of ${order.join(', ')}`).toBe(order.indexOf(own));
    expect(changed.at(-1)).toBe('battery');
  });
});

describe('ledger of special designs', () => {
  it('a stated level power without airframe is one row', () => {
    const verdict = test.verdictOf(test.statedDesign, test.midsummer);
    const ledger = dayLedger(verdict, 0)!;
    expect(ledger.rows.map(({ key }) => key)).toContain('flight');
    expect(Math.abs(summed(ledger) - ledger.light)).toBeLessThan(1e-9 * ledger.light);
  });

  it('an array reading shows as its own row, and rows still sum', () => {
    const design = test.edited(test.designText('alondra'), {
      'measured[1].what': 'array reading',
      'measured[1].current': '1.5 A',
      'measured[1].voltage': '15 V',
      'measured[1].time': '2026-05-20 13:00 +02:00',
    });
    const ledger = dayLedger(test.verdictOf(design, test.planText('alondra')), 0)!;
    expect(ledger.rows.find(({ key }) => key === 'reading')!.watts).not.toBeCloseTo(0, 2);
    expect(Math.abs(summed(ledger) - ledger.light)).toBeLessThan(1e-9 * ledger.light);
  });

  it('a measured level power shows as its own row', () => {
    const design = test.edited(test.designText('alondra'), {
      'measured[1].what': 'level power',
      'measured[1].power': '20 W ± 1 W',
      'measured[1].airspeed': '9 m/s',
    });
    const ledger = dayLedger(test.verdictOf(design, test.planText('alondra')), 0)!;
    expect(Math.abs(ledger.rows.find(({ key }) => key === 'calibration')!.watts)).toBeGreaterThan(0.1);
    expect(Math.abs(summed(ledger) - ledger.light)).toBeLessThan(1e-9 * ledger.light);
  });

  it('there is none without cells', () => {
    const design = test
      .edited(test.statedDesign, { 'battery.layout': '4S4P' })
      .replace(/array:[\s\S]*/, 'array: none\n');
    expect(dayLedger(test.verdictOf(design, test.midsummer), 0)).toBeUndefined();
    expect(dayLedger(test.verdictOf(test.statedDesign, test.midsummer), 7)).toBeUndefined();
  });
});
