import { type CommandModule, exampleText } from '../command.js';
import { exitCode } from '../exit.js';
import { addPlanOptions, addRunOptions } from '../input/plan-options.js';
import { type Answered, answer } from '../input/run.js';
import { jsonText } from '../output/json.js';
import { refusalAnswer } from '../output/refusal.js';
import { dayData } from '../report/day-json.js';
import { dayLines } from '../report/day-text.js';
import { traceLines } from '../report/trace.js';

/** `noonwing day`: the verdict of a design on a day. */
export const command: CommandModule = {
  describe: (of) => {
    addRunOptions(addPlanOptions(of.argument('<design>', 'design file')))
      .option('--limits', 'also the limit speed of the structure, which takes a second or two')
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
    const answered = answer(args[0]!, options, terminal.now());
    if (!answered.ok) return refusalAnswer(answered, terminal, json);
    const { stages } = answered.value;
    const limited = options.limits === true ? await limitsOf(answered.value) : undefined;
    if (json) {
      const added = limited === undefined ? {} : { limits: limited.data };
      terminal.out(jsonText({ ...dayData(answered.value), ...added }));
    } else {
      const added = limited === undefined ? [] : ['', ...limited.lines];
      terminal.out([...dayLines(answered.value, terminal), ...added].join('\n'));
    }
    if (options.trace === true) for (const line of traceLines(stages)) terminal.note(line);
    return exitCode.answer;
  },
};

/** Limit speed of the structure; its modules are loaded only where they are asked for. */
async function limitsOf({ stages, verdict }: Answered) {
  const [{ limits }, { limitSummary, limitSummaryData }] = await Promise.all([
    import('@noonwing/verdict/limits'),
    import('../report/limit-lines.js'),
  ]);
  const found = limits(verdict, stages);
  return { lines: limitSummary(found), data: limitSummaryData(found) };
}
