import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseAnyQuantity, parseQuantity, type QuantityError } from './parse.js';
import { QUANTITY_KINDS, UNITS, unitSpelling } from './units.js';

const value = (text: string, kind: Parameters<typeof parseQuantity>[1]) => {
  const parsed = parseQuantity(text, kind);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.hint}`);
  return parsed;
};

const refusal = (text: string, kind: Parameters<typeof parseQuantity>[1]): QuantityError => {
  const parsed = parseQuantity(text, kind);
  if (parsed.ok) throw new Error(`${text} was read as ${parsed.value}`);
  return parsed;
};

describe('numbers with unit', () => {
  it.each([
    ['380 mm', 'length', 0.38],
    ['15 in', 'length', 0.381],
    ['7 ft', 'length', 2.1336],
    ['1,5 kg', 'mass', 1.5],
    ['0,62 kg', 'mass', 0.62],
    ['0,620 kg', 'mass', 0.62],
    ['1234,567 g', 'mass', 1.234567],
    ['1,500,000 g', 'mass', 1500],
    ['1.500,5 g', 'mass', 1.5005],
    ['12 000 mAh', 'charge', 43200],
    ['−3.5 deg', 'angle', (-3.5 * Math.PI) / 180],
    ['1e-3 ohm', 'resistance', 1e-3],
    ['40.7', 'ratio', 40.7],
    ['95 %', 'ratio', 0.95],
    ['8', 'count', 8],
    ['25 °C', 'temperature', 298.15],
    ['68 °F', 'temperature', 293.15],
    ['18 degF', 'temperature difference', 10],
    ['900 rpm/V', 'motor speed constant', (900 * 2 * Math.PI) / 60],
    ['6000 rpm', 'angular speed', 200 * Math.PI],
    ['40 g/dm2', 'areal density', 4],
    ['0.2 W/dm²', 'areal power', 20],
    ['25 W/(m2 K)', 'heat transfer coefficient', 25],
    ['-0.3 %/K', 'ratio per kelvin', -0.003],
    ['2026-06-21T12:00+02:00', 'instant', Date.UTC(2026, 5, 21, 10) / 1000],
  ] as const)('%s', (text, kind, expected) => {
    expect(value(text, kind).value).toBeCloseTo(expected, 10);
  });

  it('uses the exact definitions of inch, pound and knot (NIST SP 811, appendix B)', () => {
    expect(value('1 in', 'length').value).toBe(0.0254);
    expect(value('1 lb', 'mass').value).toBe(0.45359237);
    expect(value('1 kt', 'speed').value).toBeCloseTo(1852 / 3600, 15);
    expect(value('1 oz/yd2', 'areal density').value).toBeCloseTo(0.0339057, 7);
  });

  it('takes the wind speed of a Beaufort number from WMO code table 1100', () => {
    // Means of the classes 4 and 8 of the table: 5.5 to 7.9 m/s and 17.2 to 20.7 m/s.
    expect(value('4 Bft', 'speed').value).toBeGreaterThan(5.5);
    expect(value('4 Bft', 'speed').value).toBeLessThan(7.9);
    expect(value('8 Beaufort', 'speed').value).toBeCloseTo(18.9, 1);
  });

  it('lets the unit choose between kinds', () => {
    expect(value('2200 mAh', ['charge', 'energy'])).toMatchObject({ kind: 'charge', value: 7920 });
    expect(value('24 Wh', ['charge', 'energy'])).toMatchObject({ kind: 'energy', value: 86400 });
    expect(parseAnyQuantity('60deg')).toMatchObject({ kind: 'angle' });
    expect(parseAnyQuantity('3')).toMatchObject({ kind: 'ratio', value: 3 });
  });
});

describe('uncertainty', () => {
  it.each([
    ['0.62 kg ± 0.02 kg', 'mass', 0.02],
    ['0.62 ± 0.02 kg', 'mass', 0.02],
    ['(0.62 ± 0.02) kg', 'mass', 0.02],
    ['0.62 kg +- 20 g', 'mass', 0.02],
    ['0.62 kg +/- 20 g', 'mass', 0.02],
    ['0,62 kg±0,02 kg', 'mass', 0.02],
    ['12 g ± 5 %', 'mass', 0.0006],
    ['95 % ± 2 %', 'ratio', 0.02],
    ['10 % ± 8 %', 'ratio', 0.08],
    ['0.95 ± 0.02', 'ratio', 0.02],
    ['25 °C ± 2 °C', 'temperature', 2],
    ['25 degC ± 2 K', 'temperature', 2],
    ['-3 deg ± 10 %', 'angle', (0.3 * Math.PI) / 180],
  ] as const)('%s', (text, kind, sigma) => {
    expect(value(text, kind).sigma).toBeCloseTo(sigma, 12);
  });

  it('is absent where none is written', () => {
    expect(value('1 kg', 'mass')).not.toHaveProperty('sigma');
  });

  it.each([
    ['0.62 kg ± 0.02', 'mass', 'bad uncertainty'],
    ['0.62 kg ± -0.02 kg', 'mass', 'bad uncertainty'],
    ['0.95 ± 5 %', 'ratio', 'bad uncertainty'],
    ['25 degC ± 5 %', 'temperature', 'bad uncertainty'],
    ['0.62 ± 5 %', 'mass', 'missing unit'],
    ['0.62 kg ± 2 mm', 'mass', 'wrong kind'],
    ['0.62 kg ±', 'mass', 'no number'],
  ] as const)('refuses %s', (text, kind, code) => {
    expect(refusal(text, kind).code).toBe(code);
  });
});

describe('refusals', () => {
  it('names both readings of an ambiguous comma', () => {
    const error = refusal('1,500 g', 'mass');
    expect(error.code).toBe('ambiguous number');
    expect(error.hint).toContain('1500 g');
    expect(error.hint).toContain('1.5 g');
  });

  it('refuses a bare number with a hint that can be typed', () => {
    const error = refusal('380', 'length');
    expect(error).toMatchObject({ code: 'missing unit', position: 3 });
    expect(parseQuantity('380 mm', 'length').ok).toBe(true);
    expect(error.hint).toContain('"380 mm"');
  });

  it.each([
    ['380 mn', 'length', 'mm'],
    ['380 rpm/v', 'motor speed constant', 'rpm/V'],
    ['5 gramms', 'mass', 'grams'],
    ['5 wh', 'energy', undefined],
    ['5 Whh', 'energy', 'Wh'],
    ['5 m/S', 'speed', 'm/s'],
  ] as const)('suggests the nearest unit for %s', (text, kind, near) => {
    if (near === undefined) expect(parseQuantity(text, kind).ok).toBe(true);
    else expect(refusal(text, kind).hint).toBe(`did you mean "${near}"?`);
  });

  it('says what the unit is where it belongs to another kind', () => {
    expect(refusal('380 kg', 'length')).toMatchObject({ code: 'wrong kind', found: 'kg', position: 4 });
    expect(refusal('380 kg', 'length').hint).toContain('mass');
  });

  it('keeps milli and mega apart', () => {
    expect(value('5 mW', 'power').value).toBe(0.005);
    expect(parseQuantity('5 MW', 'power').ok).toBe(false);
  });

  it.each([
    ['', 'length', 'empty'],
    ['   ', 'length', 'empty'],
    ['mm', 'length', 'no number'],
    ['1.2.3 mm', 'length', 'malformed number'],
    ['1e999 m', 'length', 'too large'],
    ['1e308 km', 'length', 'out of range'],
    ['-300 degC', 'temperature', 'out of range'],
    ['2.5', 'count', 'out of range'],
    ['-2', 'count', 'out of range'],
    ['NaN m', 'length', 'no number'],
    ['Infinity m', 'length', 'no number'],
    ['0x10 m', 'length', 'unknown unit'],
  ] as const)('%s as %s: %s', (text, kind, code) => {
    expect(refusal(text, kind).code).toBe(code);
  });

  it('quotes all of what is no number, not its first letter', () => {
    const read = parseQuantity('north', 'angle');
    expect(read).toMatchObject({ ok: false, code: 'no number', found: 'north' });
  });
});

describe('any text', () => {
  const pieces = fc.constantFrom(
    '1',
    '0,5',
    '1.500,2',
    '-',
    '−',
    '±',
    '+-',
    ' ',
    'kg',
    'mm',
    '%',
    '(',
    ')',
    'e5',
    '°C',
    '.',
    ',',
    'S',
    '\u00a0',
    'N',
  );
  const scraps = fc.array(pieces, { maxLength: 9 }).map((parts) => parts.join(''));

  it('never throws and never gives a number that is not finite', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), scraps), fc.constantFrom(...QUANTITY_KINDS), (text, kind) => {
        const parsed = parseQuantity(text, kind);
        if (parsed.ok) {
          expect(Number.isFinite(parsed.value)).toBe(true);
          expect(Number.isFinite(parsed.sigma ?? 0)).toBe(true);
          expect(parsed.sigma ?? 0).toBeGreaterThanOrEqual(0);
        } else {
          expect(parsed.expected).not.toBe('');
          expect(parsed.position).toBeGreaterThanOrEqual(0);
          expect(parsed.position).toBeLessThanOrEqual(text.length);
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('knows every unit by every one of its names', () => {
    for (const kind of QUANTITY_KINDS) {
      if (kind === 'instant') continue;
      for (const unit of UNITS[kind])
        for (const name of unit.names) expect(parseQuantity(`3 ${name}`, kind).ok, `${kind}: ${name}`).toBe(true);
    }
  });

  it('has no spelling that means two units of one kind', () => {
    for (const kind of QUANTITY_KINDS) {
      const names = UNITS[kind].flatMap((unit) => unit.names.map(unitSpelling));
      expect(new Set(names).size, kind).toBe(names.length);
    }
  });
});
