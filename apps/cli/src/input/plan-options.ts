import type { Command } from 'commander';

/** An option that stands in for one key of the day plan. */
interface PlanOption {
  readonly flags: string;
  readonly help: string;
  /** Name under which commander hands the value over. */
  readonly attribute: string;
  /** Key of the day plan, as it is written there. */
  readonly key: string;
}

/** What can be said about the day on the command line, in the words of the day plan. */
export const planOptions: readonly PlanOption[] = [
  { flags: '--at <place>', help: "place: '40.7,0.9' or '40,7 N 0,9 E'", attribute: 'at', key: 'place.at' },
  { flags: '--altitude <length>', help: 'ground above sea level', attribute: 'altitude', key: 'place.altitude' },
  { flags: '--date <date>', help: 'day, such as 2026-06-21', attribute: 'date', key: 'date' },
  { flags: '--days <count>', help: 'how many days on end', attribute: 'days', key: 'days' },
  { flags: '--zone <zone>', help: 'clock: +02:00 or Europe/Madrid', attribute: 'zone', key: 'time zone' },
  { flags: '--sky <sky>', help: 'clear, thin, broken, overcast or all', attribute: 'sky', key: 'sky' },
  { flags: '--clearness <share>', help: 'own share of clear-sky light', attribute: 'clearness', key: 'clearness' },
  {
    flags: '--surroundings <kind>',
    help: 'mountain, rural, coast, urban, industrial, desert',
    attribute: 'surroundings',
    key: 'surroundings',
  },
  { flags: '--turbidity <number>', help: 'own Linke turbidity', attribute: 'turbidity', key: 'turbidity' },
  { flags: '--ground <kind>', help: 'grass, water, sand, snow, ...', attribute: 'ground', key: 'ground' },
  { flags: '--temperature <temperature>', help: 'afternoon', attribute: 'temperature', key: 'temperature' },
  { flags: '--wind <speed>', help: 'mean wind 10 m above the ground', attribute: 'wind', key: 'wind' },
  { flags: '--launch <time>', help: 'such as 08:30, or sunrise', attribute: 'launch', key: 'launch' },
  { flags: '--charge <share>', help: 'state of charge at launch', attribute: 'charge', key: 'charge at launch' },
  { flags: '--height <length>', help: 'flown above the ground', attribute: 'height', key: 'height' },
  {
    flags: '--airspeed <speed>',
    help: 'flown, in place of that of the design',
    attribute: 'airspeed',
    key: 'airspeed',
  },
  { flags: '--bank <angle>', help: 'held, in place of that of the design', attribute: 'bank', key: 'bank' },
];

/** Values of the options as typed, by attribute. */
export type Options = Readonly<Record<string, string | boolean | undefined>>;

export const typed = (options: Options, attribute: string): string | undefined => {
  const value = options[attribute];
  return typeof value === 'string' ? value : undefined;
};

/** Adds the options of the day: the plan file and everything that overrides it. */
export function addPlanOptions(command: Command): Command {
  command.optionsGroup('The day (what is not said here comes from the plan):');
  command.option('--plan <file>', 'day plan; by default <design>.day.yaml beside the design file');
  for (const { flags, help } of planOptions) command.option(flags, help);
  return command.optionsGroup('The answer:');
}

export const addCommonOptions = (command: Command): Command =>
  command
    .option('--json', 'for programs: every number with its unit')
    .option('--polars <file>', 'computed polars of its sections; by default polars.json beside the design file')
    .option('--no-polars', 'the first estimate of every section');

export const addRunOptions = (command: Command): Command =>
  addCommonOptions(command)
    .option('--samples <count>', 'samples of the uncertainty; 0 for the central case alone', '128')
    .option('--trace', 'list the stages that ran and those whose results were used again');
