import { benchLoad } from '@noonwing/engine/structure';
import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages } from './index.js';
import { type LimitsAnswer, limits } from './limits.js';
import { chordAt } from './stiffness-records.js';

function certain<T>(outcome: { ok: true; value: T } | { ok: false; reason: string }): T {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

const stages = createStages();
const alondra = test.designText('alondra');
const known = new Map<string, LimitsAnswer>();
function limitsOf(design: string, name: 'alondra' | 'bandeja' = 'alondra'): LimitsAnswer {
  const found =
    known.get(design) ?? certain(limits(test.verdictOf(design, test.planText(name), test.quick, stages), stages));
  known.set(design, found);
  return found;
}
const withRecords = (design: string, ...records: string[]) =>
  `${design}\nmeasured:\n${records.map((one) => `  - ${one}\n`).join('')}`;

/** What an aircraft with other stiffness would show on the bench. */
function bench(design: string, mass: number, station: number) {
  const { model, structure } = limitsOf(design);
  const { stations } = structure.half.surfaces[0]!;
  const { x, chord } = chordAt(stations, station);
  return certain(
    benchLoad(
      model,
      { surface: 'wing', y: station, x: x + 0.1 * chord, force: 9.80665 * mass },
      { y: station, leadingEdge: x, trailingEdge: x + chord },
    ),
  );
}
const degrees = (angle: number) => `${((180 * angle) / Math.PI).toFixed(4)} deg`;

describe('a load test', () => {
  it('finds the stiffness of a wing that is softer than described, with less doubt than before', () => {
    const soft = alondra.replace(
      'cells: floating',
      'cells: floating\n      bending factor: 70 %\n      torsion factor: 80 %',
    );
    const read = bench(soft, 0.4, 1.1);
    const record = `{what: load test, mass: 0.4 kg, station: 1100 mm, chord station: 10 %, deflection: ${(1000 * read.deflection).toFixed(3)} mm ± 0.5 mm, twist: ${degrees(read.twist)} ± 0.02 deg}`;
    const before = limitsOf(alondra);
    const after = limitsOf(withRecords(alondra, record));
    const [bending, torsion] = after.readings;
    expect(bending).toMatchObject({ record: 'load test', of: 'bending' });
    // The reading is certain to some 7 %, what was believed before to 30 %: nearly all of the way to 0.7.
    expect(bending!.factor).toBeGreaterThan(0.68);
    expect(bending!.factor).toBeLessThan(0.74);
    expect(bending!.spread).toBeLessThan(0.1);
    expect(torsion!.factor).toBeGreaterThan(0.75);
    expect(torsion!.factor).toBeLessThan(0.88);
    expect(bending!.source).toMatch(/ down under 0\.40 kg at 1100 mm, expected /);
    expect(after.structure.described.wing!.bendingFactor).toBeCloseTo(bending!.factor!, 12);
    expect(after.structure.stiffnessSigma).toBeLessThan(before.structure.stiffnessSigma);
    // Bands are narrower by it.
    const tuck = ({ report }: LimitsAnswer) => report.limits.find(({ kind }) => kind === 'tuck')!;
    const width = (answer: LimitsAnswer) => tuck(answer).high / tuck(answer).low;
    expect(width(after)).toBeLessThan(width(before));
  });

  it('that agrees leaves the stiffness as it is', () => {
    const read = bench(alondra, 0.4, 1.1);
    const record = `{what: load test, mass: 0.4 kg, station: 1100 mm, chord station: 10 %, deflection: ${(1000 * read.deflection).toFixed(3)} mm}`;
    const [bending, ...rest] = limitsOf(withRecords(alondra, record)).readings;
    expect(rest).toEqual([]);
    expect(bending!.factor).toBeCloseTo(1, 3);
    expect(bending!.surprise).toBeLessThan(0.05);
  });

  it('says why it means nothing where that is so', () => {
    const load = '{what: load test, mass: 0.4 kg, station: 3 m, deflection: 20 mm}';
    expect(limitsOf(withRecords(alondra, load)).readings[0]!.problem).toContain('must lie between 0.0 mm and 120');
    const tail = '{what: load test, surface: tailplane, mass: 0.1 kg, station: 200 mm, deflection: 2 mm}';
    expect(limitsOf(withRecords(alondra, tail)).readings[0]!.problem).toContain('tailplane is not described');
    const wrong =
      '{what: load test, mass: 0.4 kg, station: 1100 mm, chord station: 10 %, deflection: 20 mm, twist: 3 deg}';
    const readings = limitsOf(withRecords(alondra, wrong)).readings;
    expect(readings[0]!.factor).toBeDefined();
    expect(readings[1]!.problem).toContain('other way');
    expect(limitsOf(withRecords(alondra, wrong.replace('what:', 'use: no, what:'))).readings).toEqual([]);
  });
});

it('a tap that sounds lower than expected says that the wing bends more easily, by the square', () => {
  const base = limitsOf(withRecords(alondra, '{what: tap frequency, frequency: 10 Hz}')).readings[0]!;
  const expected = Number(/expected ([\d.]+) Hz/.exec(base.source)![1]);
  const low = limitsOf(
    withRecords(alondra, `{what: tap frequency, frequency: ${(0.9 * expected).toFixed(3)} Hz ± 0.01 Hz}`),
  );
  expect(low.readings[0]!.factor).toBeGreaterThan(0.78);
  expect(low.readings[0]!.factor).toBeLessThan(0.87);
});

it('a bent strip corrects its material wherever it is, and narrows what is not known', () => {
  const bandeja = test.designText('bandeja');
  const strip =
    '{what: strip bend, material: extruded polystyrene foam, width: 50 mm, thickness: 9 mm, span: 300 mm, mass: 100 g, deflection: 16 mm}';
  const before = limitsOf(bandeja, 'bandeja');
  const after = limitsOf(withRecords(bandeja, strip), 'bandeja');
  const [reading] = after.readings;
  expect(reading).toMatchObject({ record: 'strip bend', of: 'extruded polystyrene foam' });
  // P L^3 / 48 E I by hand: 0.981 N, 0.3 m, 3.04e-9 m4, 16 mm: 11.3 MPa, with shear 11.6; the library has 15.
  expect(reading!.source).toMatch(/^11\.\d MPa by a bent strip, expected 15\.0 MPa$/);
  expect(reading!.factor).toBeGreaterThan(0.75);
  expect(reading!.factor).toBeLessThan(0.83);
  expect(after.structure.stiffnessSigma).toBeLessThan(before.structure.stiffnessSigma);
  expect(after.structure.described.plank!.core!.modulus).toBeCloseTo(15e6 * reading!.factor!, 0);
  expect(after.report.limits[0]!.airspeed).toBeLessThan(before.report.limits[0]!.airspeed);
});
