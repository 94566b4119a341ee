import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sectionModel } from './estimate.js';
import { flapEffect } from './flap.js';
import {
  sectionDragAtAngle,
  sectionDragAtLift,
  sectionDragCoefficient,
  sectionDragSpread,
  sectionLift,
  sectionLiftSlope,
  sectionMaximumLift,
  sectionMaximumLiftCoefficient,
  sectionMinimumLiftCoefficient,
  sectionMoment,
  sectionZeroLiftAngle,
} from './model.js';
import { nacaSection } from './naca.js';
import { flatPlateSection } from './plates.js';
import { blendSections, tabulate } from './table.js';
import type { SectionModel, SectionOptions } from './types.js';
import { sectionWarnings } from './validity.js';

const model = (designation: string, options: SectionOptions = {}) => {
  const outcome = nacaSection(designation);
  if (!outcome.ok) throw new Error(outcome.reason);
  return sectionModel(outcome.value, options);
};
const plate = (() => {
  const outcome = flatPlateSection({ thickness: 0.03, leading: { length: 0.05, side: 'both' } });
  if (!outcome.ok) throw new Error(outcome.reason);
  return sectionModel(outcome.value);
})();

const DEGREE = Math.PI / 180;
const reynolds = fc.double({ min: 3e4, max: 2e6, noNaN: true });
const lift = fc.double({ min: -0.6, max: 1.2, noNaN: true });
const models: readonly (readonly [string, SectionModel])[] = [
  ['cambered', model('4409')],
  ['symmetric', model('0010')],
  ['reflexed', model('23112')],
  ['plate', plate],
  ['table', tabulate(model('4409'))],
];

describe.each(models)('%s section', (_, section) => {
  it('is finite everywhere and drag is positive', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -10, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 1e8, noNaN: true }),
        fc.double({ min: -0.3, max: 0.3, noNaN: true }),
        (alpha, re, shift) => {
          const all = [
            sectionLift(section, alpha, re, shift),
            sectionMoment(section, alpha, re, shift),
            sectionMaximumLift(section, re, shift).high,
            sectionDragSpread(section, alpha, re, shift),
          ];
          for (const value of all) expect(Number.isFinite(value)).toBe(true);
          for (const drag of [
            sectionDragAtAngle(section, alpha, re, shift),
            sectionDragCoefficient(section, alpha, re, shift),
          ]) {
            expect(drag).toBeGreaterThan(0);
            expect(drag).toBeLessThan(10);
          }
        },
      ),
    );
  });
  it('has no lift at its zero-lift angle, also with a flap', () => {
    fc.assert(
      fc.property(reynolds, fc.double({ min: -0.1, max: 0.1, noNaN: true }), (re, shift) => {
        expect(Math.abs(sectionLift(section, sectionZeroLiftAngle(section, re, shift), re, shift))).toBeLessThan(0.02);
      }),
    );
  });
  it('lift repeats after a full turn and is continuous', () => {
    fc.assert(
      fc.property(fc.double({ min: -3.2, max: 3.2, noNaN: true }), reynolds, (alpha, re) => {
        expect(sectionLift(section, alpha + 2 * Math.PI, re)).toBeCloseTo(sectionLift(section, alpha, re), 9);
        expect(Math.abs(sectionLift(section, alpha + 1e-4, re) - sectionLift(section, alpha, re))).toBeLessThan(2e-3);
        expect(
          Math.abs(sectionDragAtAngle(section, alpha + 1e-4, re) - sectionDragAtAngle(section, alpha, re)),
        ).toBeLessThan(2e-3);
      }),
    );
  });
  it('the lift curve peaks within 3 % of the stated maximum', () => {
    const limit = sectionMaximumLiftCoefficient(section, 2e5);
    let peak = 0;
    for (let a = 0; a < 16; a += 0.1) peak = Math.max(peak, sectionLift(section, a * DEGREE, 2e5));
    expect(peak / limit).toBeGreaterThan(0.97);
    expect(peak / limit).toBeLessThan(1.03);
  });
  it('drag intervals hold their value and agree with the plain functions', () => {
    fc.assert(
      fc.property(lift, reynolds, (cl, re) => {
        const drag = sectionDragAtLift(section, cl, re);
        expect(drag.value).toBe(sectionDragCoefficient(section, cl, re));
        expect(Math.log(drag.high / drag.value)).toBeCloseTo(1.645 * sectionDragSpread(section, cl, re), 9);
        expect(drag.low * drag.high).toBeCloseTo(drag.value ** 2, 9);
      }),
    );
  });
});

describe('trends', () => {
  // Above 4.1e5 transition reaches the surface and drag may rise for a while.
  it('drag falls as Reynolds number rises at model size', () => {
    const section = model('4409');
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 0.9, noNaN: true }),
        fc.double({ min: 6e4, max: 3.7e5, noNaN: true }),
        (cl, re) => {
          expect(sectionDragCoefficient(section, cl, re * 1.1)).toBeLessThan(sectionDragCoefficient(section, cl, re));
        },
      ),
    );
  });
  it('below the bubble range, thickness costs more than at high Reynolds number', () => {
    const ratio = (re: number) =>
      sectionDragCoefficient(model('4412'), 0.6, re) / sectionDragCoefficient(model('4406'), 0.6, re);
    expect(ratio(8e4)).toBeGreaterThan(ratio(8e5));
  });
  it('a section upside down has the mirrored polar', () => {
    const up = model('3410');
    const down: SectionModel = {
      ...up,
      camber: -up.camber,
      zeroLiftAngle: -up.zeroLiftAngle,
      moment: -up.moment,
      designLift: -up.designLift,
    };
    fc.assert(
      fc.property(lift, reynolds, fc.double({ min: -3, max: 3, noNaN: true }), (cl, re, alpha) => {
        expect(sectionDragCoefficient(down, -cl, re)).toBeCloseTo(sectionDragCoefficient(up, cl, re), 12);
        expect(sectionLift(down, -alpha, re)).toBeCloseTo(-sectionLift(up, alpha, re), 9);
        expect(sectionMoment(down, -alpha, re)).toBeCloseTo(-sectionMoment(up, alpha, re), 9);
        expect(sectionMaximumLiftCoefficient(down, re)).toBeCloseTo(-sectionMinimumLiftCoefficient(up, re), 12);
      }),
    );
  });
  it('beyond stall it becomes a plate: no lift and drag near 2 at 90 degrees, and least drag in reverse', () => {
    for (const [, section] of models) {
      expect(Math.abs(sectionLift(section, Math.PI / 2, 1e5))).toBeLessThan(0.03);
      expect(Math.abs(sectionDragAtAngle(section, Math.PI / 2, 1e5) - 2)).toBeLessThan(0.06);
      expect(sectionDragAtAngle(section, Math.PI, 1e5)).toBeLessThan(0.1);
    }
  });
  it('a reflexed section pitches up about its quarter chord, a plain cambered one down', () => {
    expect(sectionMoment(model('23112'), 0, 2e5)).toBeGreaterThan(0);
    expect(sectionMoment(model('4409'), 0, 2e5)).toBeLessThan(-0.05);
  });
  it('the zero-lift angle of a 4412 lies near the measured -3.8 degrees (NACA Report 824, from memory)', () => {
    expect(sectionZeroLiftAngle(model('4412'), 3e6) / DEGREE).toBeCloseTo(-3.8, 0);
  });
});

describe('deflections', () => {
  const section = model('2410');
  const effect = flapEffect(0.25);
  const shift = effect.zeroLiftShift * 10 * DEGREE;
  it('10 degrees of flap add slope x shift to the lift at small angles', () => {
    const added = sectionLift(section, 0, 2e5, shift) - sectionLift(section, 0, 2e5);
    expect(added / (-shift * sectionLiftSlope(section, 2e5))).toBeGreaterThan(0.98);
    expect(added / (-shift * sectionLiftSlope(section, 2e5))).toBeLessThan(1.02);
  });
  it('raise maximum lift by less than that, and the stall comes earlier', () => {
    const gained = sectionMaximumLiftCoefficient(section, 2e5, shift) - sectionMaximumLiftCoefficient(section, 2e5);
    expect(gained).toBeGreaterThan(0.1);
    expect(gained).toBeLessThan(-shift * sectionLiftSlope(section, 2e5));
  });
  it('move the low-drag range up', () => {
    expect(sectionDragCoefficient(section, 0.9, 2e5, shift)).toBeLessThan(sectionDragCoefficient(section, 0.9, 2e5));
    expect(sectionDragCoefficient(section, -0.2, 2e5, shift)).toBeGreaterThan(
      sectionDragCoefficient(section, -0.2, 2e5),
    );
  });
  it('moment follows the flap', () => {
    const moment = effect.moment * 10 * DEGREE;
    expect(sectionMoment(section, 0, 2e5, shift, moment)).toBeCloseTo(section.moment + moment, 9);
  });
});

describe('options', () => {
  it('cells cost 7.5 % of profile drag with 4.3 % deviation', () => {
    const [bare, covered] = [model('4409'), model('4409', { cells: { from: 0.1, to: 0.8 } })];
    expect(sectionDragCoefficient(covered, 0.5, 2e5) / sectionDragCoefficient(bare, 0.5, 2e5)).toBeCloseTo(1.075, 9);
    expect(covered.addedSpread).toBeCloseTo(0.15 / Math.sqrt(12), 9);
    expect(model('4409', { cells: { from: 0.5, to: 0.5 } }).dragFactor).toBe(1);
  });
  it('a trip costs at 300 000 and saves the bubble at 60 000', () => {
    const [clean, tripped] = [model('4409'), model('4409', { transitionAt: 0.03 })];
    expect(sectionDragCoefficient(tripped, 0.5, 3e5)).toBeGreaterThan(sectionDragCoefficient(clean, 0.5, 3e5));
    expect(sectionDragCoefficient(tripped, 0.7, 6e4)).toBeLessThan(sectionDragCoefficient(clean, 0.7, 6e4));
    expect(tripped.addedSpread).toBeGreaterThan(clean.addedSpread);
  });
  it('an own drag factor scales and widens', () => {
    const own = model('4409', { dragFactor: 1.2, dragFactorSpread: 0.05 });
    expect(sectionDragCoefficient(own, 0.5, 2e5)).toBeCloseTo(
      1.2 * sectionDragCoefficient(model('4409'), 0.5, 2e5),
      12,
    );
    expect(own.addedSpread).toBeCloseTo(0.05, 12);
  });
});

describe('polar tables', () => {
  const section = model('4409');
  const table = tabulate(section);
  it('reproduce the model between their points', () => {
    fc.assert(
      fc.property(lift, reynolds, fc.double({ min: -3.1, max: 3.1, noNaN: true }), (cl, re, alpha) => {
        expect(
          Math.abs(sectionDragCoefficient(table, cl, re) / sectionDragCoefficient(section, cl, re) - 1),
        ).toBeLessThan(0.02);
        expect(Math.abs(sectionDragSpread(table, cl, re) - sectionDragSpread(section, cl, re))).toBeLessThan(0.02);
        expect(Math.abs(sectionLift(table, alpha, re) - sectionLift(section, alpha, re))).toBeLessThan(0.01);
        expect(Math.abs(sectionMoment(table, alpha, re) - sectionMoment(section, alpha, re))).toBeLessThan(0.005);
        expect(
          Math.abs(sectionMaximumLiftCoefficient(table, re) - sectionMaximumLiftCoefficient(section, re)),
        ).toBeLessThan(0.01);
      }),
    );
  });
  it('a table of a table on the same grid is the same table', () => {
    const again = tabulate(table);
    again.logDrag.values.forEach((value, i) => {
      expect(value).toBeCloseTo(table.logDrag.values[i], 9);
    });
  });
  it('hold their ends', () => {
    expect(sectionDragCoefficient(table, 0.5, 1)).toBe(sectionDragCoefficient(table, 0.5, 1e3));
    expect(sectionDragCoefficient(table, 9, 2e5)).toBe(sectionDragCoefficient(table, 8, 2e5));
  });
  it('need two rows', () => {
    expect(() => tabulate(section, { rows: 1 })).toThrow(RangeError);
  });
});

describe('blendSections', () => {
  const [root, tip] = [model('4412'), model('2409')];
  it('gives the ends and lies between them', () => {
    expect(blendSections(root, tip, 0)).toBe(root);
    expect(blendSections(root, tip, 1)).toBe(tip);
    const middle = blendSections(root, tip, 0.5);
    expect(middle.thickness).toBeCloseTo((root.thickness + tip.thickness) / 2, 12);
    const angle = sectionZeroLiftAngle(middle, 2e5);
    expect(angle).toBeCloseTo((root.zeroLiftAngle + tip.zeroLiftAngle) / 2, 12);
  });
  it('blends a plate into a section by tables', () => {
    const middle = blendSections(plate, tip, 0.25);
    expect(middle.kind).toBe('table');
    const drag = (m: SectionModel) => sectionDragCoefficient(m, 0.5, 2e5);
    expect(drag(middle)).toBeLessThan(drag(plate));
    expect(drag(middle)).toBeGreaterThan(drag(tip));
  });
});

describe('sectionWarnings', () => {
  const use = { lowest: 1e5, highest: 3e5 };
  it('are silent within the calibrated range', () => {
    expect(sectionWarnings(model('4409'), use)).toEqual([]);
    expect(sectionWarnings(plate, use)).toEqual([]);
    expect(sectionWarnings(tabulate(model('4409')), use)).toEqual([]);
  });
  it.each([
    ['section.thickness', model('4418'), use],
    ['section.camber', model('6409'), use],
    ['section.reynolds', model('4409'), { lowest: 3e4, highest: 1e5 }],
    ['section.reynolds', plate, { lowest: 1e5, highest: 1e6 }],
    ['section.reynolds', tabulate(model('4409')), { lowest: 1e3, highest: 1e5 }],
  ] as const)('%s', (code, section, range) => {
    expect(sectionWarnings(section, range).map((w) => w.code)).toEqual([code]);
  });
});
