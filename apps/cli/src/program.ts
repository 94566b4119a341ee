import { Command, CommanderError } from 'commander';
import { type CommandModule, exampleText } from './command.js';
import { type ExitCode, exitCode } from './exit.js';
import type { Options } from './input/plan-options.js';
import type { Terminal } from './terminal.js';

interface Entry {
  readonly name: string;
  readonly summary: string;
  readonly load: () => Promise<{ readonly command: CommandModule }>;
}

/** In the order in which a builder needs them. */
const entries: readonly Entry[] = [
  { name: 'new', summary: 'asks about ten things and writes a design file', load: () => import('./commands/new.js') },
  {
    name: 'check',
    summary: 'what is wrong in a design file, what was assumed, what does not fit',
    load: () => import('./commands/check.js'),
  },
  {
    name: 'balance',
    summary: 'mass, balance point, where the battery goes',
    load: () => import('./commands/balance.js'),
  },
  {
    name: 'power',
    summary: 'level power against airspeed, climb and glide',
    load: () => import('./commands/power.js'),
  },
  {
    name: 'limits',
    summary: 'how fast it may fly: divergence, reversal, tuck, flutter',
    load: () => import('./commands/limits.js'),
  },
  { name: 'day', summary: 'will sunlight carry it, here, on that day', load: () => import('./commands/day.js') },
  { name: 'levers', summary: 'which change would help most', load: () => import('./commands/levers.js') },
  {
    name: 'array',
    summary: 'every cell, the energy of its day, and what shades it',
    load: () => import('./commands/array.js'),
  },
  { name: 'ledger', summary: 'where the sunlight goes, watt by watt', load: () => import('./commands/ledger.js') },
  {
    name: 'measure',
    summary: 'what readings of the array in the sun say, and what to measure next',
    load: () => import('./commands/measure.js'),
  },
  {
    name: 'wiring',
    summary: 'strings, wires, fuses, plugs of the array, and what the compass feels; as a drawing too',
    load: () => import('./commands/wiring.js'),
  },
  {
    name: 'polar',
    summary: 'what a section does: lift, drag, stall, and what cells on it cost',
    load: () => import('./commands/polar.js'),
  },
  {
    name: 'section',
    summary: 'the shape of a section, and one for flat cells',
    load: () => import('./commands/section.js'),
  },
  { name: 'figure', summary: 'any relation of the engine on its own', load: () => import('./commands/figure.js') },
  {
    name: 'schema',
    summary: 'JSON Schema of the design file or the day plan',
    load: () => import('./commands/schema.js'),
  },
];

const VERSION = '0.1.0';

const exitHelp = [
  '',
  '',
  'Exit codes: 0 an answer (also when sunlight does not carry it, or it cannot fly), 1 unusable input,',
  '2 wrong usage, 3 an error inside the program.',
].join('\n');

/**
 * Runs one command line.
 * argv - words after the program's name; returns the exit code
 */
export async function runProgram(argv: readonly string[], terminal: Terminal): Promise<ExitCode> {
  let code: ExitCode = exitCode.answer;
  const program = quiet(new Command('noonwing'), terminal)
    .description('Will sunlight carry this aircraft, here, on that day, and which change would help most?')
    .version(VERSION)
    .addHelpText('after', exampleText('noonwing day examples/alondra.yaml --at 40.7,0.9 --date 2026-06-21') + exitHelp);
  try {
    for (const entry of entries) {
      const command = quiet(program.command(entry.name), terminal).summary(entry.summary).description(entry.summary);
      if (argv.find((word) => !word.startsWith('-')) !== entry.name && !isHelpFor(argv, entry.name)) continue;
      const { command: module } = await entry.load();
      module.describe(command);
      command.action(async () => {
        code = await module.run({ args: command.args, options: command.opts() as Options }, terminal);
      });
    }
    if (argv.length === 0) {
      program.outputHelp();
      return exitCode.wrongUsage;
    }
    await program.parseAsync(argv, { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCode.answer : exitCode.wrongUsage;
    terminal.note(internalText(error));
    return exitCode.internalError;
  } finally {
    terminal.finish();
  }
}

/** `noonwing help day` needs the options of `day` too. */
const isHelpFor = (argv: readonly string[], name: string): boolean => argv[0] === 'help' && argv[1] === name;

/** A command that writes through the terminal and never ends the process by itself. */
function quiet(command: Command, terminal: Terminal): Command {
  const lineOf = (text: string) => text.replace(/\n$/, '');
  return command
    .exitOverride()
    .showHelpAfterError('(add --help for what this command takes)')
    .configureOutput({
      writeOut: (text) => terminal.out(lineOf(text)),
      writeErr: (text) => terminal.note(lineOf(text)),
    });
}

function internalText(error: unknown): string {
  const what = error instanceof Error ? error.message : String(error);
  const debug = process.env.NOONWING_DEBUG !== undefined && error instanceof Error ? `\n${error.stack}` : '';
  return `noonwing: an error inside the program: ${what}\nIt is not your doing: please report it with the command line and the file.${debug}`;
}
