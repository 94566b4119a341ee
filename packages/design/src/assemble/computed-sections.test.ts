import { nacaSection, sectionModel } from '@noonwing/engine/section';
import { describe, expect, it } from 'vitest';
import { eitherComputed } from './computed-sections.js';
import type { ComputedSections } from './section.js';

const geometryOf = (digits: string) => {
  const made = nacaSection(digits);
  if (!made.ok) throw new Error(made.reason);
  return made.value;
};

/** Computed sections of one section alone. */
const of = (from: string, digits: string): ComputedSections => ({
  from,
  inAir: (critical) => of(`${from} at ${critical}`, digits),
  of: (geometry, options) =>
    geometry.name === `NACA ${digits}`
      ? { model: sectionModel(geometry, options), basis: { kind: 'computed', from, rows: [] } }
      : { basis: { kind: 'not computed' } },
});

describe('eitherComputed', () => {
  it('asks the second only for what the first does not hold, and makes it once', () => {
    let made = 0;
    const both = eitherComputed(of('first', '3410'), () => {
      made += 1;
      return of('second', '0007');
    });
    const basis = (digits: string, sections = both) => sections.of(geometryOf(digits), {}).basis;
    expect(basis('3410')).toMatchObject({ from: 'first' });
    expect(made).toBe(0);
    expect(basis('0007')).toMatchObject({ from: 'second' });
    expect(basis('2412')).toEqual({ kind: 'not computed' });
    expect(made).toBe(1);
    expect(basis('0007', both.inAir(5))).toMatchObject({ from: 'second at 5' });
    expect(basis('3410', both.inAir(5))).toMatchObject({ from: 'first at 5' });
    expect(both.inAir(5)).toBe(both.inAir(5));
  });

  it('does with one of them, or with none', () => {
    const none = eitherComputed(undefined, () => undefined);
    expect(none.of(geometryOf('3410'), {}).basis).toEqual({ kind: 'not computed' });
    const second = eitherComputed(undefined, () => of('second', '3410'));
    expect(second.of(geometryOf('3410'), {}).basis).toMatchObject({ from: 'second' });
  });
});
