import { describesStructure, type KnownLimit } from '@noonwing/verdict';
import { type CommandModule, exampleText } from '../command.js';
import { exitCode } from '../exit.js';
import { addPlanOptions, addRunOptions } from '../input/plan-options.js';
import { type Answered, answer, withinLimit } from '../input/run.js';
import { jsonText } from '../output/json.js';
import { refusalAnswer } from '../output/refusal.js';
import { dayData } from '../report/day-json.js';
import { dayLines } from '../report/day-text.js';
import { traceLines } from '../report/trace.js';

/** `noonwing day`: the verdict of a design on a day. */
export const command: CommandModule = {
  describe: (of) => {
    addRunOptions(addPlanOptions(of.argument('<design>', 'design file')))
      .option('--limits', 'also every limit of the structure, flutter too, which takes a second or two')
      .option('--no-limits', 'without the limit speed of a structure that is described, a little sooner')
      .addHelpText(
        'after',
        exampleText(
          'noonwing day examples/alondra.yaml --at 40.7,0.9 --date 2026-06-21',
          "noonwing day my.yaml --at '40,7 N 0,9 E' --sky broken --charge '80 %' --json",
        ),
      );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const free = answer(args[0]!, options, terminal.now());
    if (!free.ok) return refusalAnswer(free, terminal, json);
    const limited = options.limits === true ? await limitsOf(free.value) : undefined;
    const isPlain = options.limits === undefined;
    const answered = withinLimit(free.value, isPlain ? await steadyLimitOf(free.value) : limited?.known);
    const { stages } = answered;
    if (json) {
      const added = limited === undefined ? {} : { limits: limited.data };
      terminal.out(jsonText({ ...dayData(answered), ...added }));
    } else {
      const added = limited === undefined ? [] : ['', ...limited.lines];
      terminal.out([...dayLines(answered, terminal), ...added].join('\n'));
    }
    if (options.trace === true) for (const line of traceLines(stages)) terminal.note(line);
    return exitCode.answer;
  },
};

/** Every limit of the structure, flutter too; the modules are loaded only where they are asked for. */
async function limitsOf({ stages, verdict }: Answered) {
  const [{ limits, knownLimit }, { limitSummary, limitSummaryData }] = await Promise.all([
    import('@noonwing/verdict/limits'),
    import('../report/limit-lines.js'),
  ]);
  const found = limits(verdict, stages);
  return {
    known: found.ok ? knownLimit(found.value) : undefined,
    lines: limitSummary(found),
    data: limitSummaryData(found),
  };
}

/** The limit speed without flutter; nothing where the design does not say how it is built, and no module is loaded for it. */
async function steadyLimitOf({ design, stages, verdict }: Answered): Promise<KnownLimit | undefined> {
  if (!describesStructure(design.aircraft)) return undefined;
  return (await import('@noonwing/verdict/limits')).steadyLimit(verdict, stages);
}
