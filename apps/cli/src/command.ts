import type { Command } from 'commander';
import type { ExitCode } from './exit.js';
import type { Options } from './input/plan-options.js';
import type { Terminal } from './terminal.js';

/** One command of the program; its file is loaded only when it is asked for. */
export interface CommandModule {
  /** Adds arguments, options and the example to a commander command. */
  readonly describe: (command: Command) => void;
  /** Does it: arguments and options as typed; returns the exit code. */
  readonly run: (
    call: { readonly args: readonly string[]; readonly options: Options },
    terminal: Terminal,
  ) => Promise<ExitCode>;
}

/** Text below the help of a command. */
export const exampleText = (...lines: readonly string[]): string =>
  `\nExample${lines.length > 1 ? 's' : ''}:\n${lines.map((line) => `  ${line}`).join('\n')}`;
