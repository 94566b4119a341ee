import { createStages, describesStructure, type KnownLimit, type Stages, type Verdict } from '@noonwing/verdict';
import { type Lever, type LeverReport, levers } from '@noonwing/verdict/levers';
import { type CommandModule, exampleText } from '../command.js';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import type { LoadedDesign } from '../input/design.js';
import { addCommonOptions, addPlanOptions, type Options, typed } from '../input/plan-options.js';
import { loadBoth } from '../input/run.js';
import { jsonQuantity, jsonText } from '../output/json.js';
import { durationText } from '../output/numbers.js';
import { refusalAnswer } from '../output/refusal.js';
import { tableLines, wrapped } from '../output/table.js';
import { problemLines } from '../report/aircraft-lines.js';
import { problemData } from '../report/day-json.js';
import { sectionsLines } from '../report/sections.js';
import { traceLines } from '../report/trace.js';
import { heading, type Terminal } from '../terminal.js';

/** `noonwing levers`: what each change that a builder can make would bring, balance and strings restored. */
export const command: CommandModule = {
  describe: (of) => {
    addCommonOptions(addPlanOptions(of.argument('<design>', 'design file')))
      .option('--write <number>', 'write the design with the lever of that number in the list to standard output')
      .option('--trace', 'list the stages that ran and those whose results were used again')
      .addHelpText(
        'after',
        exampleText(
          'noonwing levers examples/alondra.yaml --sky broken',
          'noonwing levers examples/alondra.yaml --write 1 > changed.yaml',
        ),
      );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const both = loadBoth(args[0]!, options, terminal.now());
    if (!both.ok) return refusalAnswer(both, terminal, json);
    const { design, day } = both.value;
    const stages = createStages();
    const limitOf = await limitFor(design.aircraft, stages);
    const report = levers({
      designText: design.text,
      plan: day.plan,
      files: design.files,
      stages,
      ...(limitOf === undefined ? {} : { limitOf }),
      onProgress: (share) => terminal.progress(`levers: ${(100 * share).toFixed(0)} %`),
    });
    terminal.progress('');
    if (options.trace === true) for (const line of traceLines(stages)) terminal.note(line);
    if ('ok' in report) {
      if (json) terminal.out(jsonText({ ok: true, design: design.path, problems: problemData([report]) }));
      else for (const line of ['There is nothing to improve on yet:', ...problemLines([report])]) terminal.out(line);
      return exitCode.answer;
    }
    const text = chosenText(report, options);
    if (!text.ok) return refusalAnswer(text, terminal, json);
    if (text.value !== undefined) terminal.out(text.value.replace(/\n$/, ''));
    else if (json) terminal.out(jsonText({ ok: true, design: design.path, ...reportData(report) }));
    else for (const line of reportLines(report, design, terminal)) terminal.out(line);
    return exitCode.answer;
  },
};

/** Looks for limit speeds where the design says how it is built; its modules are loaded only then. */
async function limitFor(aircraft: LoadedDesign['aircraft'], stages: Stages) {
  if (!describesStructure(aircraft)) return undefined;
  const { steadyLimit } = await import('@noonwing/verdict/limits');
  return (of: Verdict) => steadyLimit(of, stages);
}

/** Text of the design with the lever asked for by --write; undefined where none is. */
export function chosenText({ levers: list }: LeverReport, options: Options): Attempt<string | undefined> {
  const written = typed(options, 'write');
  if (written === undefined) return ready(undefined);
  const lever = list[Number(written) - 1];
  if (lever?.text !== undefined) return ready(lever.text);
  const most = list.filter(({ text }) => text !== undefined).length;
  return refuse(exitCode.wrongUsage, `--write: found "${written}"; expected the number of a lever, 1 to ${most}`);
}

export const signed = (value: number, decimals: number): string =>
  `${value < 0 ? '-' : '+'}${Math.abs(value).toFixed(decimals)}`;

const signedTime = (seconds: number): string =>
  Math.abs(seconds) < 30 ? '0 min' : `${seconds < 0 ? '-' : '+'}${durationText(Math.abs(seconds))}`;

function reportLines(report: LeverReport, design: LoadedDesign, terminal: Terminal): readonly string[] {
  const { base, sky } = report;
  const usable = report.levers.filter(({ payoff }) => payoff !== undefined);
  const blocked = report.levers.filter(({ problem }) => problem !== undefined);
  const rows = usable.map(({ label, payoff, after }, i) => [
    String(i + 1),
    label,
    signed(payoff!.solarRatio, 3),
    signedTime(payoff!.carried),
    signedTime(payoff!.endurance),
    `${signed(1000 * (after!.mass - base.mass), 0)} g`,
  ]);
  return [
    heading(terminal, design.aircraft.name),
    `Under ${sky}: income over need ${base.solarRatio.toFixed(2)} in the mean of the day, carried ${durationText(base.carried)}, endurance ${durationText(base.endurance)}, ${base.levelPower.toFixed(1)} W.`,
    ...sectionsLines(design, report.sections, ''),
    'Each change with what keeps the aircraft flyable (balance, strings, mass) restored, best first:',
    '',
    ...tableLines({ head: ['', 'change', 'solar ratio', 'carried', 'endurance', 'mass'], rows, left: [1] }),
    '',
    heading(terminal, 'What each takes in the design file'),
    ...usable.flatMap((lever, i) => editLines(lever, i + 1)),
    ...(blocked.length === 0 ? [] : ['', heading(terminal, 'Not to be had')]),
    ...blocked.flatMap(({ label, problem }) =>
      wrapped(`${label}: ${problem!.reason}; ${problem!.remedy}`, 100, '  ', '    '),
    ),
    ...(report.measurements.length === 0 ? [] : ['', heading(terminal, 'Measuring instead of changing')]),
    ...tableLines({
      rows: report.measurements.map(({ what, minutes, share }) => [
        what,
        `about ${minutes} min`,
        `up to ${(100 * share).toFixed(0)} % of the doubt`,
      ]),
    }),
  ];
}

const limitText = ({ airspeed, words }: KnownLimit): string =>
  ` (lowers the limit speed to ${airspeed.toFixed(1)} m/s: ${words})`;

function editLines({ edits, limit }: Lever, number: number): readonly string[] {
  const text = edits.map(({ path, text: value }) => (value === undefined ? `remove ${path}` : `${path}: ${value}`));
  const lowered = limit === undefined ? '' : limitText(limit);
  return wrapped(`${number}. ${text.join('; ')}${lowered}`, 100, '  ', '     ');
}

function figuresData(figures: LeverReport['base']) {
  return {
    solarRatio: jsonQuantity(figures.solarRatio, 'ratio'),
    bestSolarRatio: jsonQuantity(figures.bestRatio, 'ratio'),
    timeCarried: jsonQuantity(figures.carried, 'time'),
    income: jsonQuantity(figures.income, 'energy'),
    endurance: jsonQuantity(figures.endurance, 'time'),
    lowestCharge: jsonQuantity(figures.lowestCharge, 'ratio'),
    levelPower: jsonQuantity(figures.levelPower, 'power'),
    mass: jsonQuantity(figures.mass, 'mass'),
  };
}

export function reportData(report: LeverReport) {
  return {
    sky: report.sky,
    base: figuresData(report.base),
    levers: report.levers.map(({ key, label, edits, payoff, after, problem }) => ({
      key,
      label,
      edits,
      ...(payoff === undefined
        ? {}
        : {
            payoff: {
              solarRatio: jsonQuantity(payoff.solarRatio, 'ratio'),
              timeCarried: jsonQuantity(payoff.carried, 'time'),
              endurance: jsonQuantity(payoff.endurance, 'time'),
            },
          }),
      ...(after === undefined ? {} : { after: figuresData(after) }),
      ...(problem === undefined ? {} : { problem: problemData([problem])[0] }),
    })),
    measurements: report.measurements.map(({ what, minutes, share }) => ({
      what,
      time: jsonQuantity(60 * minutes, 'time'),
      shareOfVariance: jsonQuantity(share, 'ratio'),
    })),
  };
}
