import fastCheck from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellNumber, decimalMarkOf, readColumn, writeTable } from './column.js';
import { findColumn, parseTable, readColumnHead } from './table.js';

const table = (text: string | Uint8Array) => {
  const read = parseTable(text);
  if (!read.ok) throw new Error(read.reason);
  return read;
};
const cells = (text: string | Uint8Array) => table(text).value.rows.map((row) => row.cells);

describe('parseTable', () => {
  it('finds the separator, also where commas are decimal marks', () => {
    expect(cells('a,b\n1.5,2\n3,4')).toEqual([
      ['1.5', '2'],
      ['3', '4'],
    ]);
    expect(cells('a;b\n1,5;2,5\n3,0;4,0\n')).toEqual([
      ['1,5', '2,5'],
      ['3,0', '4,0'],
    ]);
    expect(cells('a\tb\r\n1,5\t2\r\n')).toEqual([['1,5', '2']]);
    expect(cells('a|b\n1|2')).toEqual([['1', '2']]);
    expect(table('sep=;\na;b,c\n1;2,3').value.separator).toBe(';');
    expect(table('sep=;\na;b,c\n1;2,3').value.rows[0]!.line).toBe(3);
  });

  it('reads quotes, doubled quotes, and separators and line ends within them (RFC 4180)', () => {
    expect(cells('a,b\n"x, y","say ""noon"""\n"two\nlines",2\n3,4')).toEqual([
      ['x, y', 'say "noon"'],
      ['two\nlines', '2'],
      ['3', '4'],
    ]);
    expect(table('a,b\n"two\nlines",2\n3,4').value.rows.map((row) => row.line)).toEqual([2, 4]);
    expect(cells('size,b\n15" prop,2')).toEqual([['15" prop', '2']]);
  });

  it('reads comments, files without heads, and a single column', () => {
    const read = table('# light: 850 W/m2\n\nU;I\n1;2\n').value;
    expect(read.comments).toEqual(['light: 850 W/m2']);
    expect(read.columns.map((column) => column.name)).toEqual(['U', 'I']);
    expect(table('1,2\n3,4').value.columns.map((column) => column.name)).toEqual(['column 1', 'column 2']);
    expect(cells('mass\n1.5\n2.5')).toEqual([['1.5'], ['2.5']]);
  });

  it('evens rows and says so once; a separator at the end of a line is no fault', () => {
    const uneven = table('a,b\n1\n1,2,3\n4,5');
    expect(uneven.value.rows.map((row) => row.cells)).toEqual([
      ['1', ''],
      ['1', '2'],
      ['4', '5'],
    ]);
    expect(uneven.warnings).toEqual([
      expect.objectContaining({
        code: 'uneven row',
        where: 'line 2',
        message: expect.stringContaining('2 such places'),
      }),
    ]);
    expect(table('a,b\n1,2,\n3,4,').warnings).toEqual([]);
  });

  it('reads UTF-16 and Western European bytes', () => {
    const wide = new Uint8Array([0xff, 0xfe, ...[...'a;b\n1;2'].flatMap((one) => [one.charCodeAt(0), 0])]);
    expect(cells(wide)).toEqual([['1', '2']]);
    expect(cells(wide.slice(2)), 'without mark').toEqual([['1', '2']]);
    const western = table(new Uint8Array([...'T (\u00b0C);b\n1;2'].map((one) => one.charCodeAt(0))));
    expect(western.value.columns[0]).toEqual({ text: 'T (°C)', name: 'T', unit: '°C' });
    expect(western.warnings).toEqual([expect.objectContaining({ code: 'encoding' })]);
  });

  it('refuses empty and binary files, and a quote that does not end', () => {
    const code = (input: string | Uint8Array) => {
      const read = parseTable(input);
      return read.ok ? 'read' : read.code;
    };
    expect(code(new Uint8Array())).toBe('empty');
    expect(code(' \n\t\n')).toBe('empty');
    expect(code(new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 1, 2, 3]))).toBe('not text');
    expect(code('a,b\n"open,2\n3,4')).toBe('open quote');
    expect(code('# only\n# comments')).toBe('no rows');
  });
});

describe('heads', () => {
  it.each([
    ['Alt (m)', 'Alt', 'm'],
    ['voltage [V]', 'voltage', 'V'],
    ['Strom / A', 'Strom', 'A'],
    ['current, mA', 'current', 'mA'],
    ['Curr(A)', 'Curr', 'A'],
    ['speed', 'speed', undefined],
    ['lift to drag', 'lift to drag', undefined],
    ['empty ()', 'empty', undefined],
  ])('%s', (text, name, unit) => {
    expect(readColumnHead(text)).toEqual({ text, name, unit });
  });

  it('are found without regard to case and punctuation, in the order of preference', () => {
    const read = table('Cell_Voltage (V),Current (A)\n1,2').value;
    expect(findColumn(read, ['voltage', 'cell voltage'])).toBe(0);
    expect(findColumn(read, ['power'])).toBe(-1);
  });
});

describe('numbers', () => {
  it('take their decimal mark from the whole column', () => {
    expect(decimalMarkOf(['1,500', '2,25'])).toBe(',');
    expect(decimalMarkOf(['1,500', '2.25'])).toBe('.');
    expect(decimalMarkOf(['1.500,25'])).toBe(',');
    expect(decimalMarkOf(['1,234,567'])).toBe('.');
    expect(decimalMarkOf(['0,500'])).toBe(',');
    expect(decimalMarkOf(['1,500', '2,750'])).toBe('either');
    expect(decimalMarkOf(['1', '2'])).toBe('.');
    expect(cellNumber('1.500,25', ',')).toBe(1500.25);
    expect(cellNumber('−1,5e3', ',')).toBe(-1500);
    expect(cellNumber('1 500.5', '.')).toBe(1500.5);
    expect(cellNumber('1.2.3', '.')).toBeUndefined();
    expect(cellNumber('1e999', '.')).toBeUndefined();
  });

  it('come out in SI units', () => {
    const read = table('current (mA);temperature (°C);x\n1,5;20;\n-;n/a;7').value;
    expect(readColumn(read, 0, 'current')).toEqual({ ok: true, value: [0.0015, undefined], warnings: [] });
    expect(readColumn(read, 1, 'temperature')).toMatchObject({ value: [293.15, undefined] });
    expect(readColumn(read, 2, 'length', 'mm')).toMatchObject({
      value: [undefined, 0.007],
      warnings: [expect.objectContaining({ code: 'unit assumed' })],
    });
  });

  it('are refused where unit or decimal mark are unknown, never guessed', () => {
    const read = table('a;b (parsec);c (A)\n1,500;2;1,500\n2,750;3;2,250').value;
    expect(readColumn(read, 0, 'current')).toMatchObject({ ok: false, code: 'unit', where: 'column "a"' });
    expect(readColumn(read, 1, 'length')).toMatchObject({ ok: false, code: 'unit' });
    expect(readColumn(read, 9, 'length', 'm')).toMatchObject({ ok: false, code: 'unit' });
    const refusal = readColumn(read, 2, 'current');
    expect(refusal).toMatchObject({ ok: false, code: 'decimal mark' });
    expect(refusal.ok ? '' : refusal.reason).toContain('1.500 or 1500');
  });

  it('that are none are mentioned with their line', () => {
    const read = table('a (V)\n1\nbroken\n2').value;
    expect(readColumn(read, 0, 'voltage')).toMatchObject({
      value: [1, undefined, 2],
      warnings: [expect.objectContaining({ code: 'not a number', where: 'line 3, column "a (V)"' })],
    });
  });
});

describe('writeTable', () => {
  const separator = fastCheck.constantFrom(',' as const, ';' as const, '\t' as const);
  const text = fastCheck.string({ unit: fastCheck.constantFrom(...'abc ,;\t"\n#=.é°'.split('')), maxLength: 8 });

  it('is read back as it was written', () => {
    const body = fastCheck.array(fastCheck.tuple(text, text), { minLength: 1, maxLength: 6 });
    fastCheck.assert(
      fastCheck.property(body, separator, (rows, mark) => {
        const named = rows.map((row, at) => [`row ${at}`, ...row]);
        const heads = ['name', 'first', 'second'];
        // The separator is stated: two or three lines of odd text leave it open.
        const written = `sep=${mark}\n${writeTable(heads, named, { separator: mark })}`;
        expect(cells(written)).toEqual(named);
      }),
    );
  });

  it('keeps every digit of numbers with either decimal mark', () => {
    const numbers = fastCheck.array(fastCheck.double({ noNaN: true, noDefaultInfinity: true }), { minLength: 2 });
    fastCheck.assert(
      fastCheck.property(
        numbers,
        separator,
        fastCheck.constantFrom('.' as const, ',' as const),
        (values, mark, decimalMark) => {
          const rows = [...values, 0.5].map((value) => [value, 'x']);
          const read = table(
            `sep=${mark}\n${writeTable(['a (m)', 'b'], rows, { separator: mark, decimalMark })}`,
          ).value;
          const column = readColumn(read, 0, 'length');
          expect(column.ok && column.value.map((value) => (value ?? 0) + 0)).toEqual(
            [...values, 0.5].map((value) => value + 0),
          );
        },
      ),
    );
    expect(() => writeTable(['a'], [[Number.NaN]])).toThrow(RangeError);
  });
});

describe('any input', () => {
  it('never throws and never gives a number that is not finite', () => {
    const bytes = fastCheck.uint8Array({ maxLength: 300 });
    const likely = fastCheck.string({
      unit: fastCheck.constantFrom(...'01.,;\t\n"#-e()V a'.split('')),
      maxLength: 120,
    });
    fastCheck.assert(
      fastCheck.property(fastCheck.oneof(bytes, likely), (input) => {
        const read = parseTable(input);
        if (!read.ok) return read.reason !== '';
        expect(read.value.rows.every((row) => row.cells.length === read.value.columns.length)).toBe(true);
        const column = readColumn(read.value, 0, 'voltage', 'V');
        if (column.ok) expect(column.value.every((value) => value === undefined || Number.isFinite(value))).toBe(true);
        return true;
      }),
      { numRuns: 500 },
    );
  });
});
