import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { uncertainInputs, type Verdict } from './index.js';

type Records = readonly Readonly<Record<string, string>>[];

/** The example with records, as a person would add them. */
function withRecords(design: string, records: Records): string {
  const changes = records.flatMap((record, i) =>
    Object.entries(record).map(([key, value]) => [`measured[${i + 1}].${key}`, value] as const),
  );
  return test.edited(design, Object.fromEntries(changes));
}

const plan = test.planText('alondra');
const design = test.designText('alondra');
const run = (records: Records, of = design, options = test.quick): Verdict =>
  test.verdictOf(withRecords(of, records), plan, options);

const bare = test.verdictOf(design, plan);
const inputsOf = ({ prepared }: Verdict) => uncertainInputs(prepared.model, prepared.spreads);
const keys = (verdict: Verdict) => inputsOf(verdict).map(({ key }) => key);
const sigma = (verdict: Verdict, key: string) => inputsOf(verdict).find((input) => input.key === key)?.sigma ?? 0;
const stages = (verdict: Verdict) => verdict.prepared.measured.map(({ stage }) => stage);

/** Relative half width of the level power's interval. */
function width(verdict: Verdict): number {
  const { low, high, value } = verdict.levelPower!;
  return (high - low) / (2 * value);
}

describe('level power', () => {
  it('stated alone, without an airframe: it is the level power, and its uncertainty the flight model', () => {
    const verdict = test.verdictOf(test.statedDesign, test.midsummer);
    expect(verdict.problems).toEqual([]);
    expect(verdict.levelPower!.value).toBeCloseTo(16, 9);
    expect(sigma(verdict, 'levelPower')).toBeCloseTo(2 / 16, 9);
    expect(keys(verdict)).not.toContain('profileDrag');
    expect(verdict.prepared.measured).toEqual([]);
  });

  it('stated for another mass: grows with m^1.5 where the mass of the aircraft is known, and only there', () => {
    const of = test.edited(test.statedDesign.replace('level power: 16 W ± 2 W', 'level power: {power: 16 W ± 2 W}'), {
      'level power.mass': '1.2 kg',
      // Stated, because usual loads follow the size of the aircraft.
      'loads.receiver': '1 W',
    });
    const power = (text: string) => {
      const { flight } = test.verdictOf(text, test.midsummer);
      return flight!.drivePower;
    };
    const heavier = test.edited(of, { 'all up mass': '1.5 kg' });
    const same = test.edited(of, { 'all up mass': '1.2 kg' });
    // Without an all-up mass the masses listed are not the whole aircraft: no scaling by their sum.
    expect(power(of)).toBeCloseTo(power(same), 9);
    expect(power(heavier) / power(same)).toBeCloseTo(1.25 ** 1.5, 6);
  });

  it('stated with an airframe calibrates the computed one at its own airspeed', () => {
    const stated = test.edited(design, { 'level power.power': '22 W ± 1 W', 'level power.airspeed': '9 m/s' });
    const at = test.verdictOf(
      test.edited(stated, { 'flight.airspeed': '9 m/s', 'flight.circle radius': '100 km' }),
      plan,
    );
    expect(at.levelPower!.value).toBeCloseTo(22, 2);
    const elsewhere = test.verdictOf(stated, plan);
    const { calibration } = elsewhere.prepared;
    expect(calibration).toBeGreaterThan(1);
    expect(elsewhere.flight!.drivePower).toBeCloseTo(calibration * bare.flight!.drivePower, 6);
    expect(keys(elsewhere)).toContain('levelPower');
    expect(keys(elsewhere)).not.toContain('propellerPower');
  });

  const flown = { what: 'level power', power: '21 W ± 1 W', airspeed: '8.5 m/s' };

  it('flown takes the place of a stated one, is listed, and makes the level power surer', () => {
    const verdict = run([flown], test.edited(design, { 'level power.power': '30 W' }), { ...test.quick, samples: 64 });
    expect(stages(verdict)).toEqual(['level power']);
    expect(verdict.prepared.known!.power).toBeCloseTo(21, 9);
    expect(verdict.prepared.measured[0]!.value).toBeCloseTo(verdict.prepared.calibration, 12);
    expect(sigma(verdict, 'levelPower')).toBeCloseTo(1 / 21, 9);
    const before = test.verdictOf(design, plan, { ...test.quick, samples: 64 });
    expect(width(verdict)).toBeLessThan(0.7 * width(before));
  });

  it('at the same airspeed gives back what was measured', () => {
    const verdict = run(
      [flown],
      test.edited(design, { 'flight.airspeed': '8.5 m/s', 'flight.circle radius': '100 km' }),
    );
    expect(verdict.levelPower!.value).toBeCloseTo(21, 2);
  });
});

describe('mass and balance point', () => {
  it('a weighing takes the place of the sum, with its uncertainty', () => {
    const verdict = run([{ what: 'mass', mass: '1.42 kg ± 0.005 kg' }]);
    expect(verdict.prepared.model.balance!.mass).toBe(1.42);
    expect(stages(verdict)).toEqual(['mass']);
    expect(sigma(verdict, 'mass')).toBeCloseTo(0.005, 9);
    expect(sigma(verdict, 'mass')).toBeLessThan(sigma(bare, 'mass'));
    expect(verdict.levelPower!.value).toBeGreaterThan(bare.levelPower!.value);
  });

  it('a balance point measured with the battery elsewhere is moved to where the battery is now', () => {
    const there = test.aircraftOf(design).battery!;
    const records = (batteryX: number): Records => [
      { what: 'mass', mass: '1.4 kg ± 0.005 kg' },
      { what: 'balance point', x: '80 mm ± 2 mm', 'battery x': `${1000 * batteryX} mm` },
    ];
    const here = run(records(there.x.value)).prepared.model.balance!;
    expect(here.x).toBeCloseTo(0.08, 9);
    const moved = run(records(there.x.value + 0.05)).prepared.model.balance!;
    // Moment equilibrium: the battery is now 50 mm further forward than on the balance.
    expect(moved.x).toBeCloseTo(0.08 - (0.05 * there.mass.value) / 1.4, 9);
    expect(moved.uncertainty.x).toBeCloseTo(0.002, 9);
  });
});

describe('motor run', () => {
  const bench = { what: 'motor run', voltage: '14.8 V ± 0.05 V', current: '20 A ± 0.2 A', throttle: '100 %' };
  const expected = (() => {
    const [measured] = run([bench]).prepared.measured;
    return Number(/expected (\d+\.\d+) A/.exec(measured!.source)![1]);
  })();

  it('of what the model expects changes nothing but the uncertainty', () => {
    const verdict = run([{ ...bench, current: `${expected} A ± 0.2 A` }]);
    expect(stages(verdict)).toEqual(['drive']);
    expect(verdict.prepared.measured[0]!.value).toBeCloseTo(1, 2);
    expect(verdict.levelPower!.value / bare.levelPower!.value).toBeCloseTo(1, 2);
    expect(keys(verdict)).not.toContain('motorResistance');
    expect(keys(verdict)).not.toContain('motorNoLoad');
    const drive = (of: Verdict) => Math.hypot(sigma(of, 'propellerPower'));
    expect(drive(verdict)).toBeLessThan(drive(bare));
  });

  it('of more current than expected makes level flight cost more, and of less, less', () => {
    const more = run([{ ...bench, current: `${expected * 1.1} A` }]);
    const less = run([{ ...bench, current: `${expected * 0.93} A` }]);
    expect(more.levelPower!.value).toBeGreaterThan(bare.levelPower!.value);
    expect(less.levelPower!.value).toBeLessThan(bare.levelPower!.value);
    expect(more.problems).toEqual([]);
  });

  it('that no motor of this kind can give is a problem with a reason, and the model stays', () => {
    const verdict = run([{ ...bench, current: '0.01 A ± 0.001 A' }]);
    const found = verdict.problems.find(({ where }) => where.includes('motor run'));
    if (found === undefined) expect(verdict.prepared.measured[0]!.value).toBeGreaterThan(0);
    else expect(found.remedy).not.toBe('');
    expect(test.unreal(verdict)).toEqual([]);
  });
});

describe('array reading', () => {
  const reading = {
    what: 'array reading',
    current: '2.4 A ± 0.03 A',
    voltage: '14.4 V ± 0.05 V',
    time: '2026-06-10 14:00 +02:00',
  };

  it('scales the income by what was read over what was expected', () => {
    const verdict = run([reading]);
    const [measured] = verdict.prepared.measured;
    expect(measured!.stage).toBe('array');
    const expectedCurrent = Number(/expected (\d+\.\d+) A/.exec(measured!.source)![1]);
    expect(measured!.value).toBeCloseTo(2.4 / expectedCurrent, 2);
    const best = (of: Verdict) => of.skies[0]!.run.figures.bestRatio;
    expect(best(verdict) / best(bare)).toBeCloseTo(measured!.value, 2);
  });

  it('takes the place of the uncertainty of cells, film and converter, and is surer with the light measured too', () => {
    const verdict = run([reading]);
    for (const key of ['cover', 'converter']) expect(keys(verdict)).not.toContain(key);
    const together = Math.hypot(...['cellPower', 'cover', 'converter'].map((key) => sigma(bare, key)));
    expect(together).toBeGreaterThan(0);
    const lit = run([{ ...reading, irradiance: '930 W/m2 ± 20 W/m2', 'cell temperature': '48 degC ± 2 K' }]);
    expect(sigma(lit, 'cellPower')).toBeLessThan(sigma(verdict, 'cellPower'));
    expect(sigma(lit, 'cellPower')).toBeLessThan(together);
  });

  it('taken at night is a problem with a remedy, not a factor', () => {
    const verdict = run([{ ...reading, time: '2026-06-10 23:00 +02:00' }]);
    expect(verdict.problems.map(({ code }) => code)).toContain('reading-in-the-dark');
    expect(verdict.prepared.run.arrayFactor).toBe(1);
  });
});

describe('any record', () => {
  it.each([
    [{ what: 'level power', power: '21 W' }],
    [{ what: 'mass', mass: '1.42 kg' }],
    [{ what: 'balance point', x: '70 mm' }],
    [{ what: 'motor run', voltage: '14.8 V', current: '20 A' }],
    [{ what: 'array reading', current: '2.4 A', voltage: '14.4 V', time: '2026-06-10 14:00 +02:00' }],
  ])('%o: with "use: no" the verdict is that without it', (record) => {
    const off = run([{ ...record, use: 'no' }]);
    expect(off.prepared.measured).toEqual([]);
    expect(off.levelPower).toEqual(bare.levelPower);
    expect(off.skies.map(({ run: { figures } }) => figures)).toEqual(bare.skies.map(({ run: { figures } }) => figures));
    const on = run([record]);
    expect(on.prepared.measured).toHaveLength(1);
    expect(on.prepared.measured[0]!.on).toBe(true);
    expect(on.prepared.measured[0]!.source).toMatch(/\d/);
  });
});
