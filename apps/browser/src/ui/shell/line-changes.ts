/** A line that only one of two texts has. */
export interface LineChange {
  /** '+': in the second text, '-': in the first. */
  readonly sign: '+' | '-';
  readonly text: string;
}

/** Lengths of the longest common run of lines from each pair of places on. */
function commonLengths(a: readonly string[], b: readonly string[]): Uint16Array[] {
  const table = Array.from({ length: a.length + 1 }, () => new Uint16Array(b.length + 1));
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      table[i]![j] = a[i] === b[j] ? table[i + 1]![j + 1]! + 1 : Math.max(table[i + 1]![j]!, table[i]![j + 1]!);
    }
  }
  return table;
}

/** Lines beyond this are not compared one by one. */
const mostLines = 2000;

/** What differs between two texts, line by line, in order; empty lines and the space around a line do not count. */
export function lineChanges(first: string, second: string): readonly LineChange[] {
  const lines = (text: string) =>
    text
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== '')
      .slice(0, mostLines);
  const [a, b] = [lines(first), lines(second)];
  const table = commonLengths(a, b);
  const changes: LineChange[] = [];
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      i++;
      j++;
    } else if (i < a.length && (j >= b.length || table[i + 1]![j]! >= table[i]![j + 1]!))
      changes.push({ sign: '-', text: a[i++]! });
    else changes.push({ sign: '+', text: b[j++]! });
  }
  return changes;
}
