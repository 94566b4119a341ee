import { createInterface } from 'node:readline';

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
  let lines: LineReader | undefined;
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
    ask: (question) => {
      lines ??= lineReader(stdin, stdout);
      return lines.ask(question);
    },
    finish: () => lines?.close(),
    now: () => new Date(),
  };
}

interface LineReader {
  readonly ask: (question: string) => Promise<string | undefined>;
  readonly close: () => void;
}

/** Lines in order, kept until they are asked for: piped answers arrive all at once. */
export function lineReader(input: NodeJS.ReadableStream, output: NodeJS.WritableStream): LineReader {
  const reader = createInterface({ input, output });
  const waitingLines: string[] = [];
  let waiting: ((line: string | undefined) => void) | undefined;
  let ended = false;
  const hand = (line: string | undefined) => {
    waiting?.(line);
    waiting = undefined;
  };
  reader.on('line', (line) => {
    if (waiting === undefined) waitingLines.push(line);
    else hand(line);
  });
  reader.on('close', () => {
    ended = true;
    hand(undefined);
  });
  return {
    ask: (question) => {
      const lastLine = question.lastIndexOf('\n') + 1;
      output.write(question.slice(0, lastLine));
      // The prompt is one line, so that editing the answer redraws it rightly.
      reader.setPrompt(question.slice(lastLine));
      if (ended) return Promise.resolve(waitingLines.shift());
      reader.prompt();
      const line = waitingLines.shift();
      if (line !== undefined) return Promise.resolve(line);
      return new Promise((resolve) => {
        waiting = resolve;
      });
    },
    close: () => reader.close(),
  };
}

/** Headings stand out where colour is allowed; nothing else changes. */
export const heading = (terminal: Terminal, text: string): string =>
  terminal.colour ? `\u001b[1m${text}\u001b[0m` : text;
