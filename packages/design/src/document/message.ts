/** Keys and list indices (from 0) that lead to a value. */
export type Path = readonly (string | number)[];

/** 'surfaces.wing.stations[2].chord': dots between keys; list entries count from 1, as a reader counts them. */
export const pathText = (path: Path): string =>
  path.reduce<string>(
    (text, step) => (typeof step === 'number' ? `${text}[${step + 1}]` : text === '' ? step : `${text}.${step}`),
    '',
  );

/** Reads what `pathText` writes. Keys with dots cannot be written so. */
export function parsePath(text: string): Path {
  return [...text.matchAll(/\[(\d+)\]|([^.[\]]+)/g)].map((part) =>
    part[1] === undefined ? part[2]!.trim() : Math.max(0, Number(part[1]) - 1),
  );
}

export type Severity = 'error' | 'warning' | 'note';

/** One finding in a file: where, what was found, what was expected, and the nearest way out. */
export interface Message {
  readonly severity: Severity;
  /** From 1 */
  readonly line: number;
  /** From 1 */
  readonly column: number;
  readonly path: string;
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
}

/** One line for a terminal: '12:9 surfaces.wing.chord: found "-200 mm"; expected ...; hint'. */
export function messageText(message: Message, file = ''): string {
  const where = `${file === '' ? '' : `${file}:`}${message.line}:${message.column}`;
  const what = message.path === '' ? '' : ` ${message.path}:`;
  const hint = message.hint === '' ? '' : `; ${message.hint}`;
  return `${where}${what} found ${message.found}; expected ${message.expected}${hint}`;
}
