import type { BenchReading, TraceFigures } from '@noonwing/engine/bench';
import { benchAnswer, benchReading, benchSetup, withTrace } from '@noonwing/verdict/bench';
import { type CommandModule, exampleText } from '../command.js';
import { exitCode, refuse } from '../exit.js';
import { addReadingOptions, readBench, type TypedBench } from '../input/bench.js';
import { addCommonOptions, addPlanOptions } from '../input/plan-options.js';
import { type Answered, answerForAircraft } from '../input/run.js';
import { jsonText } from '../output/json.js';
import { refusalAnswer } from '../output/refusal.js';
import { benchData, benchLines } from '../report/bench.js';
import { heading } from '../terminal.js';

/** `noonwing measure array`: readings in the sun against the model, likely causes, what to measure next. */
export const command: CommandModule = {
  describe: (of) => {
    addReadingOptions(
      addCommonOptions(addPlanOptions(of.argument('<what>', 'array').argument('<design>', 'design file'))),
    ).addHelpText(
      'after',
      exampleText(
        'noonwing measure array examples/alondra.yaml --time 2026-06-21T12:00+02:00 --volts 15.2V --amps 2.4A --array-volts 9.8V',
        'noonwing measure array examples/alondra.yaml --readings bench.csv --trace trace.csv',
      ),
    );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const [what, path] = args;
    if (what !== 'array') {
      return refusalAnswer(
        refuse(
          exitCode.wrongUsage,
          `found "${what}"; only the array can be measured so: noonwing measure array <design>`,
        ),
        terminal,
        json,
      );
    }
    const bench = readBench(options);
    if (!bench.ok) return refusalAnswer(bench, terminal, json);
    const answered = answerForAircraft(path!, options, terminal.now());
    if (!answered.ok) return refusalAnswer(answered, terminal, json);
    const { model, plan } = answered.value.verdict.prepared;
    const joined = joinedReadings(bench.value, answered.value);
    const found = benchAnswer(model, plan, joined.readings);
    if (found === undefined || !found.ok) {
      const lines =
        found === undefined
          ? [`${path}: the design has no array; describe its rows of cells`]
          : [`${found.where}: ${found.reason}; ${found.remedy}`];
      return refusalAnswer(refuse(exitCode.unusableInput, ...lines), terminal, json);
    }
    const { notes } = answered.value.day;
    if (json) terminal.out(jsonText({ ok: true, design: path, ...benchData(found.value, joined.figures) }));
    else {
      terminal.out(heading(terminal, answered.value.design.aircraft.name));
      for (const line of [...notes, ...bench.value.notes, ...benchLines(found.value, joined.figures, terminal)]) {
        terminal.out(line);
      }
    }
    return exitCode.answer;
  },
};

/** Readings with place and instruments; a trace belongs to the last of them. */
function joinedReadings(
  bench: TypedBench,
  { verdict }: Answered,
): { readonly readings: readonly BenchReading[]; readonly figures: TraceFigures | undefined } {
  const { model, plan } = verdict.prepared;
  const readings = bench.readings.map((numbers) => benchReading(numbers, plan));
  const setup = benchSetup(model, plan);
  if (bench.trace === undefined || setup === undefined) return { readings, figures: undefined };
  const last = readings.findLastIndex(({ otherConverter }) => otherConverter !== true);
  const { reading, figures } = withTrace(readings[Math.max(last, 0)]!, bench.trace, setup);
  return { readings: readings.map((one, k) => (k === Math.max(last, 0) ? reading : one)), figures };
}
