import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages, type Verdict, verdict } from './index.js';
import { powerReport } from './power-report.js';

const alondra = test.designText('alondra');
const bandeja = test.designText('bandeja');
const plan = test.planText('alondra');

/** Without its pitch control. */
const rigid = alondra.replace(/ {4}controls:\n {6}elevator:.*\n/, '');

/** What has no good answer: design, plan, and the code of the reason expected (in problems or warnings). */
const cases: readonly (readonly [string, string, string, RegExp])[] = [
  [
    'a string that can never reach the battery',
    test
      .edited(alondra, { 'array.rows.top.cells': '4' })
      .replace('{like: boost 80 W, mass: 40 g weighed}', '{like: boost 80 W, topology: buck, mass: 40 g weighed}'),
    plan,
    /string-voltage-never-fits/,
  ],
  [
    'a battery that the motor flattens at once',
    alondra.replace(
      /battery:[\s\S]*?\n\ndrive/,
      'battery: {layout: 4S1P, capacity: 30 mAh, resistance: 1.5 ohm, mass: 12 g, x: -30 mm}\n\ndrive',
    ),
    test.edited(plan, { launch: '05:30' }),
    /battery-gives-up/,
  ],
  ['an aircraft without pitch control', rigid, plan, /./],
  ['a tail-heavy one', test.edited(bandeja, { 'battery.x': '120 mm' }), plan, /unstable/],
  [
    'a nose-heavy one that cannot trim',
    test.edited(alondra, { 'masses.pod.mass': '92 g', 'masses.lead.mass': '900 g', 'masses.lead.x': '-290 mm' }),
    plan,
    /trim|control|stall|balance/,
  ],
  ['an airspeed below the stall', test.edited(alondra, { 'flight.airspeed': '3 m/s' }), plan, /stall/],
  ['an airspeed far above what the motor gives', test.edited(alondra, { 'flight.airspeed': '60 m/s' }), plan, /./],
  ['a tiny circle', test.edited(alondra, { 'flight.circle radius': '3 m' }), plan, /./],
  ['a mass no wing carries', test.edited(alondra, { 'all up mass': '30 kg' }), plan, /./],
  ['cells that do not fit', test.edited(alondra, { 'array.rows.top.cells': '40' }), plan, /cells-do-not-fit/],
  [
    'a section file that is not there',
    test
      .edited(alondra, { 'surfaces.wing.section': 'file: nowhere.dat' })
      .replace("section: 'file: nowhere.dat'", 'section: {file: nowhere.dat}'),
    plan,
    /section\.file/,
  ],
];

/** Days that have no good answer for a good aircraft. */
const days: readonly (readonly [string, string])[] = [
  ['the pole in winter', test.edited(test.midsummer, { 'place.at': '90 N 0 E', date: '2026-12-21' })],
  ['the pole in summer', test.edited(test.midsummer, { 'place.at': '90 N 0 E' })],
  ['the south pole', test.edited(test.midsummer, { 'place.at': '90 S 0 E' })],
  ['polar day', test.edited(test.midsummer, { 'place.at': '78 N 15 E', days: '3' })],
  ['polar night', test.edited(test.midsummer, { 'place.at': '78 N 15 E', date: '2026-12-21' })],
  ['the equator, sun overhead', test.edited(test.midsummer, { 'place.at': '0 N 0 E', date: '2026-03-20' })],
  ['the date line from the west', test.edited(test.midsummer, { 'place.at': '17 S 179.99 E', 'time zone': 'UTC+12' })],
  ['the date line from the east', test.edited(test.midsummer, { 'place.at': '17 S 180 W', 'time zone': 'UTC-12' })],
  [
    'a high plateau in frost',
    test.edited(test.midsummer, {
      'place.altitude': '5500 m',
      temperature: '-40 degC',
      'night temperature': '-55 degC',
    }),
  ],
  ['an empty battery at launch', test.edited(test.midsummer, { 'charge at launch': '0 %', launch: '05:00' })],
  ['launch at the last minute', test.edited(test.midsummer, { launch: '23:59' })],
  ['no light at all', test.edited(test.midsummer, { clearness: '0 %' })],
  ['more than clear', test.edited(test.midsummer, { clearness: '120 %' })],
  ['a fortnight', test.edited(test.midsummer, { days: '14', sky: 'broken' })],
];

const reasons = (found: Verdict): string[] => [
  ...found.problems.flatMap(({ code, reason, remedy }) => [code, reason, remedy]),
  ...found.warnings.flatMap(({ code, message }) => [code, message]),
];

const options = { samples: 6, step: 1200, sampleStep: 1200 };

describe('what cannot work gets a reasoned verdict', () => {
  it.each(cases)('%s', (_, design, day, expected) => {
    const found = test.verdictOf(design, day, options);
    expect(test.unreal(found)).toEqual([]);
    for (const { reason, remedy, where } of found.problems)
      for (const word of [reason, remedy, where]) expect(word.length).toBeGreaterThan(3);
    expect(reasons(found).join('\n') || 'no reason given').toMatch(expected);
    const carriedSomewhere = found.skies.some(({ confidence }) => confidence > 0);
    if (found.flight === undefined) {
      expect(found.problems.length).toBeGreaterThan(0);
      expect(carriedSomewhere).toBe(false);
    }
  });

  it('a battery that the motor flattens at once: the endurance is minutes, the sun still carries by day', () => {
    const [, design] = cases[1]!;
    const found = test.verdictOf(design, test.edited(plan, { launch: '05:30' }), options);
    expect(found.skies[0]!.endurance.value).toBeLessThan(1200);
  });

  it.each(['alondra', 'bandeja'] as const)('%s: every day of the world', (name) => {
    for (const [label, day] of days) {
      const found = test.verdictOf(test.designText(name), day, options);
      expect(test.unreal(found), label).toEqual([]);
    }
  });
});

describe('where the sun does not set or rise', () => {
  const at = (day: string, change: Record<string, string> = {}) =>
    test.verdictOf(test.edited(test.statedDesign, change), test.edited(day, { sky: 'clear' }));

  it('polar night: nothing is carried, the battery alone flies', () => {
    const { figures } = at(days[4]![1]).skies[0]!.run;
    expect(figures.windows).toEqual([]);
    expect(figures.solarRatio).toBe(0);
    expect(figures.endurance).toBeGreaterThan(3600);
  });

  it('polar day with enough cells: carried round the clock', () => {
    const { figures } = at(days[1]![1], { 'level power': '3 W' }).skies[0]!.run;
    expect(figures.carried).toBeCloseTo(86400, 6);
    expect(figures.endurance).toBeUndefined();
  });

  it('both sides of the date line see the same sun', () => {
    const west = at(days[6]![1]).skies[0]!.run.figures;
    const east = at(days[7]![1]).skies[0]!.run.figures;
    expect(east.carried / west.carried).toBeCloseTo(1, 2);
    expect(east.bestRatio / west.bestRatio).toBeCloseTo(1, 2);
  });
});

describe('what is missing', () => {
  it('no array: the battery alone, ratio 0', () => {
    const design = test.statedDesign.replace(/array:[\s\S]*/, 'array: none\n');
    const found = test.verdictOf(design, test.midsummer, options);
    expect(test.unreal(found)).toEqual([]);
    expect(found.skies[0]!.bestRatio.value).toBe(0);
    expect(found.skies[0]!.confidence).toBe(0);
    const { battery } = test.aircraftOf(design);
    const hours = (battery!.capacity.value * battery!.series * 3.6 * 0.9) / 16 / 3600;
    expect(found.skies[0]!.endurance.value / 3600).toBeGreaterThan(0.7 * hours);
    expect(found.skies[0]!.endurance.value / 3600).toBeLessThan(1.2 * hours);
  });

  it('no battery: flies while the sun carries, no longer', () => {
    const found = test.verdictOf(test.statedDesign.replace(/battery:.*\n/, 'battery: none\n'), test.midsummer, options);
    expect(test.unreal(found)).toEqual([]);
    const { figures } = found.skies[0]!.run;
    expect(figures.carried).toBeGreaterThan(0);
    const dusk = figures.longest!.end - (found.grid.midnight + 0);
    expect(dusk).toBeLessThan(86400);
  });

  it('neither a level power nor an airframe: says what to write', () => {
    // The reader refuses such a file; a program that builds aircraft by itself gets the same answer.
    const { levelPower: _, ...aircraft } = test.aircraftOf(test.statedDesign);
    const result = verdict(aircraft, test.planOf(test.midsummer), {}, createStages(), options);
    expect(result.flight).toBeUndefined();
    expect(result.skies).toEqual([]);
    expect(result.problems.map(({ remedy }) => remedy).join()).toMatch(/level power/);
  });

  it('a measured propeller outside its table refuses to extrapolate', () => {
    const measured = `{size: 11x6 in, measured: [{advance ratio: 0.1, thrust coefficient: 0.09, power coefficient: 0.04}, {advance ratio: 0.15, thrust coefficient: 0.085, power coefficient: 0.04}, {advance ratio: 0.2, thrust coefficient: 0.08, power coefficient: 0.039}]}`;
    const design = alondra.replace('propeller: folding 11x6 in', `propeller: ${measured}`);
    const found = test.verdictOf(design, plan, options);
    expect(test.unreal(found)).toEqual([]);
    expect(found.flight).toBeUndefined();
    expect(reasons(found).join('\n')).toMatch(/table|advance ratio|measured/);
  });
});

describe('power against airspeed', () => {
  it.each(test.exampleNames)('%s: real numbers, a least at or above the stall', (name) => {
    const { prepared, flight } = test.verdictOf(test.designText(name), test.planText(name));
    const report = powerReport(prepared, flight!.bank);
    if (!report.ok) throw new Error(report.reason);
    expect(test.unreal(report.value)).toEqual([]);
    const { points, leastPower, stallSpeed } = report.value;
    expect(points.length).toBeGreaterThan(8);
    expect(leastPower!.airspeed).toBeGreaterThanOrEqual(stallSpeed);
    for (const { levelPower } of points) expect(levelPower).toBeGreaterThanOrEqual(leastPower!.levelPower * (1 - 1e-4));
    // The day flies the same model: its point lies on the curve.
    const whole = flight!.drivePower + report.value.steadyLoads;
    expect(whole).toBeGreaterThanOrEqual(leastPower!.levelPower * (1 - 1e-3));
    const nearest = points.reduce((a, b) =>
      Math.abs(b.airspeed - flight!.airspeed) < Math.abs(a.airspeed - flight!.airspeed) ? b : a,
    );
    expect(Math.abs(nearest.levelPower / whole - 1)).toBeLessThan(0.08);
  });

  it.each(test.exampleNames)(
    '%s: with the control held the moment vanishes where it is flown, and falls beyond',
    (name) => {
      const { prepared, balance } = test.verdictOf(test.designText(name), test.planText(name));
      const report = powerReport(prepared, 0);
      if (!report.ok) throw new Error(report.reason);
      const { points, alpha } = report.value.held!;
      const at = points.find((point) => Math.abs(point.alpha - alpha) < 1e-9)!;
      expect(Math.abs(at.pitchingMomentCoefficient)).toBeLessThan(1e-6);
      const next = points[points.indexOf(at) + 1] ?? at;
      const before = points[points.indexOf(at) - 1]!;
      const slope =
        (next.pitchingMomentCoefficient - before.pitchingMomentCoefficient) /
        (next.liftCoefficient - before.liftCoefficient);
      // Static margin is minus the slope of the moment by lift; sections that bend with lift move it by some per cent of chord.
      expect(Math.abs(-slope - balance!.staticMargin)).toBeLessThan(0.05);
    },
  );

  it('needs an airframe', () => {
    const { prepared } = test.verdictOf(test.statedDesign, test.midsummer);
    expect(powerReport(prepared, 0)).toMatchObject({ ok: false, code: 'no-airframe' });
  });
});
