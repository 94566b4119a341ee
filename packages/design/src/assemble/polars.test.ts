import { nacaSection, sectionDragAtLift } from '@noonwing/engine/section';
import {
  polarKey,
  type SectionPolar,
  SOLVER_VERSION,
  sectionKey,
  trippedSettings,
} from '@noonwing/engine/section/viscous';
import { describe, expect, it } from 'vitest';
import { polarStoreName, polarStoreText, readMeasuredStore, readPolarStore } from './polars.js';
import { assembleSection } from './section.js';

const polar = (reynolds: number): SectionPolar => ({
  reynolds,
  holes: [0.25],
  points: Array.from({ length: 17 }, (_, k) => {
    const alpha = Number(((k - 6) * 0.0175).toFixed(5));
    const lift = Number((6 * (alpha + 0.05)).toFixed(4));
    return { alpha, lift, drag: 0.02, moment: -0.07, upperTransition: 0.5, lowerTransition: 0.9 };
  }),
});

const made = nacaSection('3410');
if (!made.ok) throw new Error(made.reason);
const text = polarStoreText({ [polarKey(made.value)]: { name: made.value.name, polars: [polar(1e5), polar(2e5)] } });

describe('polar store', () => {
  it('reads back what it wrote', () => {
    const store = readPolarStore(text);
    expect(store?.[polarKey(made.value)]?.polars).toEqual([polar(1e5), polar(2e5)]);
    expect(polarStoreText(store!)).toBe(text);
  });

  it('leaves out the polars of another solver, and refuses what is no store', () => {
    expect(readPolarStore(text.replace(`"solver": ${SOLVER_VERSION}`, '"solver": -1'))).toEqual({});
    for (const wrong of ['', '{}', '[1]', text.replace('0.02,', 'null,'), text.replace('0.02,', '-0.02,')])
      expect(readPolarStore(wrong)).toBeUndefined();
  });
});

describe('measured points in a store', () => {
  const points = [0.2, 0.4, 0.6].map((lift) => ({ reynolds: 2e5, incidence: lift / 6 - 0.05, lift, drag: 0.05 }));
  const key = sectionKey(made.value);
  const both = polarStoreText(
    { [polarKey(made.value)]: { name: made.value.name, polars: [polar(1e5), polar(2e5)] } },
    {
      [key]: {
        name: made.value.name,
        source: 'points.csv',
        points: [...points, { reynolds: 2e5, lift: 1, moment: -0.1, drag: 0.1 }],
      },
    },
  );

  it('are read back, and outlive another solver', () => {
    expect(readMeasuredStore(both)?.[key]?.points).toHaveLength(4);
    expect(readMeasuredStore(both.replace(`"solver": ${SOLVER_VERSION}`, '"solver": -1'))).toEqual(
      readMeasuredStore(both),
    );
    expect(readPolarStore(both)).toEqual(readPolarStore(text));
    for (const wrong of [
      '',
      '[]',
      both.replace('200000,0', '"x",0'),
      both.replace('points.csv"', 'points.csv", "points": 1, "a": "'),
    ])
      expect(readMeasuredStore(wrong)).not.toEqual(readMeasuredStore(both));
  });

  it('are laid over the stored polars of the section', () => {
    const section = (stored: string) => {
      const one = assembleSection(
        'wing: one',
        { type: 'naca', digits: '3410' } as never,
        0.25,
        { [polarStoreName]: stored },
        {},
      );
      if (!one.ok) throw new Error(one.reason);
      return one;
    };
    const [plain, laid] = [section(text), section(both)];
    expect(sectionDragAtLift(plain.value.model, 0.4, 2e5).value).toBeCloseTo(0.02, 6);
    expect(sectionDragAtLift(laid.value.model, 0.4, 2e5).value).toBeCloseTo(0.05, 6);
    expect(laid.warnings[0]?.message).toContain(
      'measured points of points.csv laid over them at Reynolds numbers 200 thousand',
    );
  });
});

describe('section with stored polars', () => {
  const assemble = (digits: string, files: Record<string, string>) => {
    const section = assembleSection('wing: one', { type: 'naca', digits } as never, 0.25, files, {});
    if (!section.ok) throw new Error(section.reason);
    return { kind: section.value.model.kind, codes: section.warnings.map(({ code }) => code) };
  };

  it('uses the store where it holds the section, and says which it used', () => {
    const files = { [polarStoreName]: text };
    expect(assemble('3410', files)).toEqual({ kind: 'table', codes: ['section.computed'] });
    expect(assemble('3411', files)).toEqual({ kind: 'estimate', codes: ['section.estimate'] });
    expect(assemble('3410', {})).toEqual({ kind: 'estimate', codes: [] });
    expect(assemble('3410', { [polarStoreName]: 'no store' }).codes).toEqual(['section.estimate']);
  });
});

describe('section under cells with stored polars', () => {
  const covered = (files: Record<string, string>) => {
    const cells = { from: 0.1, to: 0.8, edge: 0.0012 };
    const section = assembleSection('wing: one', { type: 'naca', digits: '3410' } as never, 0.25, files, { cells });
    if (!section.ok) throw new Error(section.reason);
    return section.warnings;
  };

  it('says what covering costs where the store holds it tripped at the front edge, else that the first estimate answers', () => {
    const bare = { name: made.value.name, polars: [polar(1e5), polar(2e5)] };
    const both = polarStoreText({
      [polarKey(made.value)]: bare,
      [polarKey(made.value, trippedSettings({ from: 0.1 }))]: { ...bare, name: 'tripped' },
    });
    const [, cost] = covered({ [polarStoreName]: both });
    expect(cost?.code).toBe('section.covering');
    // The same polar in both states: nothing is added.
    expect(cost?.message).toMatch(/^cells from 10 % of the chord add to section drag at lift 0.6: 0 %/);
    expect(covered({ [polarStoreName]: text })[1]?.message).toMatch(/first estimate/);
    expect(covered({})).toEqual([]);
  });
});
