import { createInterface } from 'node:readline/promises';

/** What a command talks to; tests put a recorder in its place. */
export interface Terminal {
  /** Writes an answer (standard output); a line end is added. */
  readonly out: (text: string) => void;
  /** Writes messages (standard error); a line end is added. */
  readonly note: (text: string) => void;
  /** Shows how far long work is; only where a person is watching. */
  readonly progress: (text: string) => void;
  /** Whether the answer may be coloured. */
  readonly colour: boolean;
  /** Whether a person can be asked. */
  readonly interactive: boolean;
  /** Asks one question; undefined when the input has ended. */
  readonly ask: (question: string) => Promise<string | undefined>;
  /** Lets go of the input after the last question. */
  readonly finish: () => void;
  readonly now: () => Date;
}

/** The process's own streams. No colour where the output is not a terminal, or where NO_COLOR is set (no-color.org). */
export function processTerminal(): Terminal {
  const { stdin, stdout, stderr, env } = process;
  let asker: ReturnType<typeof createInterface> | undefined;
  let ended = false;
  let shown = 0;
  return {
    out: (text) => stdout.write(`${text}\n`),
    note: (text) => stderr.write(`${text}\n`),
    progress: (text) => {
      if (!stderr.isTTY) return;
      stderr.write(`\r${text.padEnd(shown)}${text === '' ? '\r' : ''}`);
      shown = text.length;
    },
    colour: stdout.isTTY === true && (env.NO_COLOR ?? '') === '' && env.TERM !== 'dumb',
    interactive: stdin.isTTY === true,
    ask: async (question) => {
      if (ended) return undefined;
      if (asker === undefined) {
        asker = createInterface({ input: stdin, output: stdout });
        asker.on('close', () => {
          ended = true;
        });
      }
      const open = asker;
      const closed = new Promise<undefined>((resolve) => open.once('close', () => resolve(undefined)));
      return Promise.race([open.question(question), closed]);
    },
    finish: () => asker?.close(),
    now: () => new Date(),
  };
}

/** Headings stand out where colour is allowed; nothing else changes. */
export const heading = (terminal: Terminal, text: string): string =>
  terminal.colour ? `\u001b[1m${text}\u001b[0m` : text;
