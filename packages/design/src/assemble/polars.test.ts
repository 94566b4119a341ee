import { nacaSection, sectionDragAtLift, TURBULENCE } from '@noonwing/engine/section';
import {
  POLAR_SETTINGS,
  polarKey,
  type SectionPolar,
  SOLVER_VERSION,
  sectionKey,
  TRIP_STATIONS,
  trippedSettings,
} from '@noonwing/engine/section/polars';
import { describe, expect, it } from 'vitest';
import { completeDesign } from '../complete/index.js';
import { readDesign } from '../read-files.js';
import { computedSections, eitherComputed } from './computed-sections.js';
import { neededPolars } from './needed-polars.js';
import { polarStoreText, readStoredText } from './polars.js';
import { assembleSection, type SectionSources } from './section.js';
import { sectionsSentence } from './section-words.js';

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

const sources = (stored: string): SectionSources => ({ computed: computedSections(readStoredText(stored)!, 'store') });

describe('polar store', () => {
  it('reads back what it wrote', () => {
    const store = readStoredText(text)?.polars;
    expect(store?.[polarKey(made.value)]?.polars).toEqual([polar(1e5), polar(2e5)]);
    expect(polarStoreText(store!)).toBe(text);
  });

  it('leaves out the polars of another solver, and refuses what is no store', () => {
    expect(readStoredText(text.replace(`"solver": ${SOLVER_VERSION}`, '"solver": -1'))?.polars).toEqual({});
    for (const wrong of ['', '{}', '[1]', text.replace('0.02,', 'null,'), text.replace('0.02,', '-0.02,')])
      expect(readStoredText(wrong)).toBeUndefined();
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
    expect(readStoredText(both)?.measured[key]?.points).toHaveLength(4);
    expect(readStoredText(both.replace(`"solver": ${SOLVER_VERSION}`, '"solver": -1'))?.measured).toEqual(
      readStoredText(both)?.measured,
    );
    expect(readStoredText(both)?.polars).toEqual(readStoredText(text)?.polars);
    for (const wrong of [
      '',
      '[]',
      both.replace('200000,0', '"x",0'),
      both.replace('points.csv"', 'points.csv", "points": 1, "a": "'),
    ])
      expect(readStoredText(wrong)?.measured).not.toEqual(readStoredText(both)?.measured);
  });

  it('are laid over the stored polars of the section', () => {
    const section = (stored: string) => {
      const one = assembleSection('wing: one', { type: 'naca', digits: '3410' } as never, 0.25, sources(stored), {});
      if (!one.ok) throw new Error(one.reason);
      return one;
    };
    const [plain, laid] = [section(text), section(both)];
    expect(sectionDragAtLift(plain.value.model, 0.4, 2e5).value).toBeCloseTo(0.02, 6);
    expect(sectionDragAtLift(laid.value.model, 0.4, 2e5).value).toBeCloseTo(0.05, 6);
    expect(laid.value.basis).toMatchObject({ measured: { source: 'points.csv', reynolds: [2e5] } });
  });
});

describe('section with computed polars', () => {
  const assemble = (digits: string, files: SectionSources) => {
    const section = assembleSection('wing: one', { type: 'naca', digits } as never, 0.25, files, {});
    if (!section.ok) throw new Error(section.reason);
    const { model, basis } = section.value;
    return { kind: model.kind, basis: basis.kind, codes: section.warnings.map(({ code }) => code) };
  };

  it('uses the store where it holds the section, and says what it rests on', () => {
    const files = sources(text);
    expect(assemble('3410', files)).toEqual({ kind: 'table', basis: 'computed', codes: [] });
    expect(assemble('3411', files)).toEqual({ kind: 'estimate', basis: 'not computed', codes: [] });
    expect(assemble('3403', files)).toEqual({ kind: 'estimate', basis: 'beyond the solver', codes: [] });
    expect(assemble('3410', {})).toEqual({ kind: 'estimate', basis: 'first estimate', codes: [] });
  });

  it('measured points of a section beyond the solver are laid over its first estimate', () => {
    const thin = nacaSection('0003');
    if (!thin.ok) throw new Error(thin.reason);
    const points = [0.1, 0.2, 0.3].map((lift) => ({ reynolds: 1.2e5, incidence: lift / 5.5, lift, drag: 0.05 }));
    const measured = { [sectionKey(thin.value)]: { name: 'thin', source: 'tunnel.csv', points } };
    const files = sources(polarStoreText({}, measured));
    const section = assembleSection('wing: one', { type: 'naca', digits: '0003' } as never, 0.2, files, {});
    if (!section.ok) throw new Error(section.reason);
    expect(section.value.basis).toEqual({ kind: 'measured', source: 'tunnel.csv', reynolds: [120e3] });
    expect(sectionDragAtLift(section.value.model, 0.2, 1.2e5).value).toBeCloseTo(0.05, 3);
    expect(sectionsSentence([section.value])).toBe(
      'Sections: wing: one: the measured points of tunnel.csv at Reynolds numbers 120 thousand over the first estimate',
    );
  });

  it('measured points of a section whose polars are not computed yet are laid over its first estimate too', () => {
    const points = [0.2, 0.5, 0.8].map((lift) => ({ reynolds: 1.2e5, incidence: lift / 5.5 - 0.05, lift, drag: 0.05 }));
    const measured = { [sectionKey(made.value)]: { name: '3410', source: 'tunnel.csv', points } };
    const own = computedSections(readStoredText(polarStoreText({}, measured))!, 'own');
    expect(assemble('3410', { computed: own })).toEqual({ kind: 'table', basis: 'measured', codes: [] });
    // Computed polars of another store go before them, with the points laid over by that store.
    const library = () => computedSections({ ...readStoredText(text)!, measured }, 'library');
    const both = { computed: eitherComputed(own, library) };
    expect(assemble('3410', both)).toEqual({ kind: 'table', basis: 'computed', codes: [] });
    expect(assemble('3411', both)).toEqual({ kind: 'estimate', basis: 'not computed', codes: [] });
  });

  it('has other polars for other air, and wants blades of a stated section too', () => {
    const gusty = { ...POLAR_SETTINGS, critical: TURBULENCE['gusty or behind a propeller'].critical };
    const key = polarKey(made.value, gusty);
    expect(key).not.toBe(polarKey(made.value));
    const usual = computedSections(readStoredText(text)!, 'store');
    const basis = (computed: typeof usual) => computed.of(made.value, {}).basis.kind;
    expect(basis(usual)).toBe('computed');
    expect(basis(usual.inAir(gusty.critical))).toBe('not computed');
    expect(usual.inAir(POLAR_SETTINGS.critical)).toBe(usual);
    const both = polarStoreText({ [key]: { name: made.value.name, polars: [polar(1e5), polar(2e5)] } });
    expect(basis(computedSections(readStoredText(both)!, 'store').inAir(gusty.critical))).toBe('computed');
    const read = readDesign(
      'noonwing: design 1\nname: one\nsurfaces:\n  wing: {section: NACA 3410, stations: [{y: 0 m, chord: 200 mm}, {y: 1 m, chord: 150 mm}]}\n' +
        'drive: {propeller: {size: 10x6 in, section: NACA 3408}}\nflight: {turbulence: gusty or behind a propeller}\n',
    );
    const needed = neededPolars(completeDesign(read.design!).aircraft, {});
    if (!needed.ok) throw new Error(needed.reason);
    expect(needed.value.map((one) => one.key)).toContain(key);
    expect(needed.value.map((one) => one.settings.critical)).toEqual(needed.value.map(() => gusty.critical));
    expect(needed.value.at(-1)?.name).toBe('NACA 3408');
  });

  it('remembers the model of a section', () => {
    const files = sources(text);
    const model = () => {
      const section = assembleSection('wing: one', { type: 'naca', digits: '3410' } as never, 0.25, files, {});
      return section.ok ? section.value.model : undefined;
    };
    expect(model()).toBe(model());
  });
});

describe('section under cells with computed polars', () => {
  const covered = (files: SectionSources, from = 0.1) => {
    const cells = { from, to: 0.8, edge: 0.0012 };
    const section = assembleSection('wing: one', { type: 'naca', digits: '3410' } as never, 0.25, files, { cells });
    if (!section.ok) throw new Error(section.reason);
    return section;
  };
  const bare = { name: made.value.name, polars: [polar(1e5), polar(2e5)] };
  const tripped = TRIP_STATIONS.map((station) => [polarKey(made.value, trippedSettings(station)), bare]);
  const both = polarStoreText({ [polarKey(made.value)]: bare, ...Object.fromEntries(tripped) });

  it('says what covering costs wherever the front edge lies, else that the first estimate answers', () => {
    for (const from of [0.02, 0.1, 0.37]) {
      const { warnings } = covered(sources(both), from);
      expect(warnings.map(({ code }) => code)).toEqual(['section.covering']);
      // The same polar in both states: nothing is added.
      const words = `cells from ${Math.round(100 * from)} % of the chord add to section drag at lift 0.6: 0 %`;
      expect(warnings[0]?.message.startsWith(words)).toBe(true);
    }
    expect(covered(sources(text)).warnings[0]?.message).toMatch(/first estimate/);
    expect(covered({}).warnings).toEqual([]);
  });
});
