import { parseTimeOfDay } from '@noonwing/quantities';
import { dayLedger, type Ledger, type LedgerRow } from '@noonwing/verdict';
import { type CommandModule, exampleText } from '../command.js';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { addCommonOptions, addPlanOptions, type Options, typed } from '../input/plan-options.js';
import { type Answered, answer } from '../input/run.js';
import { clockText, isoText } from '../output/clock.js';
import { jsonQuantity, jsonText } from '../output/json.js';
import { percent } from '../output/numbers.js';
import { refusalAnswer } from '../output/refusal.js';
import { tableLines, wrapped } from '../output/table.js';
import { problemLines } from '../report/aircraft-lines.js';
import { problemData } from '../report/day-json.js';
import { heading, type Terminal } from '../terminal.js';

/** `noonwing ledger`: from the sunlight on the cells to the work on the air, every loss named. */
export const command: CommandModule = {
  describe: (of) => {
    addCommonOptions(addPlanOptions(of.argument('<design>', 'design file')))
      .option(
        '--time <time>',
        "clock of the first day, such as 12:30; 'day' for the mean of the day; by default the best moment",
      )
      .addHelpText('after', exampleText('noonwing ledger examples/alondra.yaml --time 10:00 --sky thin'));
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const answered = answer(args[0]!, { ...options, samples: '0' }, terminal.now());
    if (!answered.ok) return refusalAnswer(answered, terminal, json);
    const when = momentOf(options, answered.value);
    if (!when.ok) return refusalAnswer(when, terminal, json);
    const { verdict, design } = answered.value;
    const ledger = dayLedger(verdict, 0, when.value);
    if (json) {
      const found =
        ledger === undefined ? { problems: problemData(verdict.problems) } : ledgerData(ledger, answered.value);
      terminal.out(jsonText({ ok: true, design: design.path, ...found }));
    } else for (const line of ledgerLines(ledger, answered.value, terminal)) terminal.out(line);
    return exitCode.answer;
  },
};

type Moment = Parameters<typeof dayLedger>[2];

function momentOf(options: Options, { verdict }: Answered): Attempt<Moment> {
  const written = typed(options, 'time');
  const { midnight } = verdict.prepared.plan;
  if (written === undefined) return ready(undefined);
  if (written === 'day') return ready({ from: midnight, to: midnight + 86_400 });
  const time = parseTimeOfDay(written);
  if (time.ok) return ready(midnight + Math.min(time.seconds, 86_399));
  return refuse(
    exitCode.wrongUsage,
    `--time: found "${time.found}"; expected ${time.expected}, or 'day'; ${time.hint}`,
  );
}

function ledgerLines(ledger: Ledger | undefined, { verdict, design }: Answered, terminal: Terminal): readonly string[] {
  const name = heading(terminal, design.aircraft.name);
  if (ledger === undefined) {
    const why = verdict.prepared.run.array === undefined ? ['  The aircraft has no solar cells.'] : [];
    return [name, 'There is no ledger:', ...why, ...problemLines(verdict.problems)];
  }
  const { utcOffset } = verdict.prepared.plan;
  const long = ledger.to - ledger.from > 3600;
  const when = long ? 'mean of the day' : `at ${clockText(ledger.at, utcOffset)}`;
  const shown = (row: LedgerRow) => Math.abs(row.watts) >= 5e-4 * Math.max(1, ledger.light);
  const rows: string[][] = [['sunlight on the cells', ledger.light.toFixed(1), percent(1)]];
  let known = ledger.light;
  for (const row of ledger.rows) {
    if (row.partOf !== undefined || !shown(row)) continue;
    known -= row.watts;
    rows.push([
      `${row.group === 'battery' ? '' : '- '}${row.label}`,
      row.watts.toFixed(2),
      percent(row.share, 1),
      withoutSign(known.toFixed(1)),
    ]);
  }
  const notes = ledger.rows.filter((row) => row.partOf !== undefined && shown(row));
  return [
    name,
    `${ledger.sky}, ${when}: income ${ledger.income.toFixed(1)} W, need ${ledger.need.toFixed(1)} W.`,
    '',
    ...tableLines({ head: ['', 'W', 'of the light', 'W left'], rows, left: [0] }),
    ...notes.flatMap(({ label, watts, note }) =>
      wrapped(`Part of the above: ${label}, ${watts.toFixed(2)} W${note === undefined ? '' : ` (${note})`}.`),
    ),
  ];
}

/** Rounding leaves a sign on nothing. */
const withoutSign = (text: string): string => text.replace(/^-(?=0\.0$)/, '');

function ledgerData(ledger: Ledger, { verdict }: Answered) {
  const { utcOffset } = verdict.prepared.plan;
  return {
    sky: ledger.sky,
    from: isoText(ledger.from, utcOffset),
    to: isoText(ledger.to, utcOffset),
    light: jsonQuantity(ledger.light, 'power'),
    income: jsonQuantity(ledger.income, 'power'),
    need: jsonQuantity(ledger.need, 'power'),
    rows: ledger.rows.map(({ key, label, watts, share, group, partOf, note }) => ({
      key,
      label,
      group,
      power: jsonQuantity(watts, 'power'),
      share: jsonQuantity(share, 'ratio'),
      ...(partOf === undefined ? {} : { partOf }),
      ...(note === undefined ? {} : { note }),
    })),
  };
}
