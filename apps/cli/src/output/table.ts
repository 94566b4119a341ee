/** Cells of a text table; a column is aligned right where every body cell of it starts with a digit or a sign. */
export interface TextTable {
  readonly head?: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Columns that are aligned left although they look like numbers. */
  readonly left?: readonly number[];
}

const looksNumeric = (text: string): boolean => /^(?:|empty|none|-|[-−+±<]?\d.*)$/.test(text);

/** Lines of a table, two blanks between columns, no rules. */
export function tableLines({ head, rows, left = [] }: TextTable, indent = '  '): readonly string[] {
  const all = head === undefined ? rows : [head, ...rows];
  const columns = Math.max(0, ...all.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, c) => Math.max(0, ...all.map((row) => (row[c] ?? '').length)));
  const right = widths.map((_, c) => !left.includes(c) && rows.every((row) => looksNumeric(row[c] ?? '')));
  return all.map((row) =>
    (
      indent +
      widths.map((width, c) => (right[c] ? (row[c] ?? '').padStart(width) : (row[c] ?? '').padEnd(width))).join('  ')
    ).trimEnd(),
  );
}

/** Text broken at blanks so that no line is longer than the width; later lines are indented. */
export function wrapped(text: string, width = 100, indent = '  ', hanging = indent): readonly string[] {
  const lines: string[] = [];
  let line = indent;
  for (const word of text.split(' ')) {
    const longer = line.trim() === '' ? line + word : `${line} ${word}`;
    if (longer.length > width && line.trim() !== '') {
      lines.push(line);
      line = hanging + word;
    } else line = longer;
  }
  return [...lines, line];
}
