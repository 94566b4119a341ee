import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { QuantityKind } from './kinds.js';
import { parseQuantity } from './parse.js';
import { QUANTITY_KINDS, UNITS } from './units.js';
import { convert, formatQuantity, preferredUnit, writeQuantity } from './write.js';

const kinds = QUANTITY_KINDS.filter((kind) => kind !== 'instant' && kind !== 'count');
const unitOfKind = fc
  .constantFrom<QuantityKind>(...kinds)
  .chain((kind) => fc.tuple(fc.constant(kind), fc.constantFrom(...UNITS[kind].map((unit) => unit.names[0]!))));
const sized = fc
  .tuple(fc.double({ min: 1, max: 10, noNaN: true }), fc.integer({ min: -6, max: 6 }), fc.boolean())
  .map(([digits, order, negative]) => (negative ? -1 : 1) * digits * 10 ** order);

/** A temperature must stay above absolute zero; everything else may have either sign. */
const allowed = (kind: QuantityKind, number: number) => (kind === 'temperature' ? Math.abs(number) : number);

describe('writing', () => {
  it.each([
    [{ value: 0.62, sigma: 0.02 }, 'mass', '620 g ± 20 g'],
    [{ value: 1.234, sigma: 0.02 }, 'mass', '1.234 kg ± 0.020 kg'],
    [{ value: 1.3456 }, 'mass', '1.346 kg'],
    [{ value: 0.9996 }, 'mass', '1000 g'],
    [{ value: 0 }, 'mass', '0 g'],
    [{ value: 2.4 }, 'length', '2.40 m'],
    [{ value: 0.38 }, 'length', '380 mm'],
    [{ value: 298.15 }, 'temperature', '25.0 degC'],
    [{ value: 16, sigma: 2 }, 'power', '16.0 W ± 2.0 W'],
    [{ value: 16, sigma: 0 }, 'power', '16.00 W'],
    [{ value: 12345, sigma: 1234 }, 'ratio', '12300 ± 1200'],
    [{ value: -0.000001 }, 'angle', '-0.0000573 deg'],
  ] as const)('%j as %s', (quantity, kind, expected) => {
    expect(formatQuantity(quantity, kind)).toBe(expected);
  });

  it('gives the unit that is asked for', () => {
    expect(formatQuantity({ value: 0.95, sigma: 0.02 }, 'ratio', { unit: '%' })).toBe('95.0 % ± 2.0 %');
    expect(formatQuantity({ value: 0.0254 }, 'length', { unit: 'in', digits: 2 })).toBe('1.0 in');
  });

  it('refuses what is not finite, or a unit of another kind: both are programming errors', () => {
    expect(() => formatQuantity({ value: Number.NaN }, 'mass')).toThrow(RangeError);
    expect(() => formatQuantity({ value: 1, sigma: Number.POSITIVE_INFINITY }, 'mass')).toThrow(RangeError);
    expect(() => formatQuantity({ value: 1 }, 'mass', { unit: 'mm' })).toThrow(RangeError);
  });

  it('shows mass in g below 1 kg', () => {
    expect(preferredUnit('mass', 0.999)).toBe('g');
    expect(preferredUnit('mass', 1)).toBe('kg');
    expect(preferredUnit('mass', -0.2)).toBe('g');
  });
});

describe('round trips', () => {
  it('written for a file, a quantity reads back to 1e-12 of itself', () => {
    fc.assert(
      fc.property(unitOfKind, sized, ([kind, unit], number) => {
        const written = allowed(kind, number);
        const parsed = parseQuantity(`${written} ${unit}`, kind);
        if (!parsed.ok) throw new Error(parsed.hint);
        const again = parseQuantity(writeQuantity(parsed, kind, unit), kind);
        if (!again.ok) throw new Error(again.hint);
        expect(Math.abs(again.value - parsed.value)).toBeLessThanOrEqual(
          1e-12 * Math.max(Math.abs(parsed.value), kind === 'temperature' ? 1e3 : 0),
        );
      }),
      { numRuns: 2000 },
    );
  });

  it('shown with its uncertainty, a quantity reads back to a tenth of the uncertainty', () => {
    fc.assert(
      fc.property(unitOfKind, sized, fc.double({ min: 1e-4, max: 0.5, noNaN: true }), ([kind, unit], number, share) => {
        if (unit === 'Bft') return;
        const written = allowed(kind, number);
        const parsed = parseQuantity(`${written} ${unit} ± ${Math.abs(written) * share} ${unit}`, kind);
        if (!parsed.ok) throw new Error(parsed.hint);
        const again = parseQuantity(formatQuantity(parsed, kind, { unit }), kind);
        if (!again.ok) throw new Error(`${formatQuantity(parsed, kind, { unit })}: ${again.hint}`);
        expect(Math.abs(again.value - parsed.value)).toBeLessThanOrEqual(
          0.1 * parsed.sigma! + 1e-9 * Math.abs(parsed.value),
        );
        expect(Math.abs(again.sigma! - parsed.sigma!)).toBeLessThanOrEqual(0.06 * parsed.sigma!);
      }),
      { numRuns: 2000 },
    );
  });

  it('conversion there and back changes nothing', () => {
    fc.assert(
      fc.property(unitOfKind, fc.nat(), sized, ([kind, from], pick, number) => {
        const units = UNITS[kind];
        const to = units[pick % units.length]!.names[0]!;
        const back = convert(convert(number, kind, from, to), kind, to, from);
        expect(Math.abs(back - number)).toBeLessThanOrEqual(
          1e-9 * Math.abs(number) + (kind === 'temperature' ? 1e-9 : 0),
        );
      }),
    );
  });
});
