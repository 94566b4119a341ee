import { fileURLToPath } from 'node:url';
import { runProgram } from '../program.js';
import type { Terminal } from '../terminal.js';

/** Folder of the repository, from a source file of this application. */
export const repository = fileURLToPath(new URL('../../../../', import.meta.url));

export const example = (name: string): string => `${repository}examples/${name}.yaml`;

export interface CliResult {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line in this process, with what it writes recorded. answers - lines that are typed when it asks */
export async function runCli(argv: readonly string[], answers: readonly string[] = []): Promise<CliResult> {
  const out: string[] = [];
  const err: string[] = [];
  const typed = [...answers];
  const terminal: Terminal = {
    out: (text) => out.push(text),
    note: (text) => err.push(text),
    progress: () => {},
    colour: false,
    interactive: answers.length > 0,
    ask: async (question) => {
      out.push(question);
      return typed.shift();
    },
    finish: () => {},
    now: () => new Date(Date.UTC(2026, 5, 21, 12)),
  };
  const code = await runProgram(argv, terminal);
  return { code, out: out.join('\n'), err: err.join('\n') };
}

/** Paths of numbers in data that have no unit beside or above them, and of numbers that are not finite. */
export function numbersWithoutUnit(data: unknown, path = '$', unit = false): readonly string[] {
  if (typeof data === 'number') return unit && Number.isFinite(data) ? [] : [path];
  if (Array.isArray(data)) return data.flatMap((item, i) => numbersWithoutUnit(item, `${path}[${i}]`, unit));
  if (typeof data !== 'object' || data === null) return [];
  const here = typeof (data as { unit?: unknown }).unit === 'string';
  return Object.entries(data).flatMap(([key, value]) => numbersWithoutUnit(value, `${path}.${key}`, here));
}
