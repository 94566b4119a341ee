import { createStages } from '@noonwing/verdict';
import { layouts } from '@noonwing/verdict/layout';
import type { Lever, LeverReport } from '@noonwing/verdict/levers';
import { type ExitCode, exitCode } from '../exit.js';
import type { Options } from '../input/plan-options.js';
import { loadBoth } from '../input/run.js';
import { jsonText } from '../output/json.js';
import { durationText } from '../output/numbers.js';
import { refusalAnswer } from '../output/refusal.js';
import { tableLines, wrapped } from '../output/table.js';
import { problemLines } from '../report/aircraft-lines.js';
import { problemData } from '../report/day-json.js';
import { heading, type Terminal } from '../terminal.js';
import { chosenText, reportData, signed } from './levers.js';

/** `noonwing array --layout`: layouts of the cells, most energy of the day first, each as edits of the design. */
export function layout(path: string, options: Options, terminal: Terminal): ExitCode {
  const json = options.json === true;
  const both = loadBoth(path, options, terminal.now());
  if (!both.ok) return refusalAnswer(both, terminal, json);
  const { design, day } = both.value;
  const report = layouts({
    designText: design.text,
    plan: day.plan,
    files: design.files,
    stages: createStages(),
    onProgress: (share) => terminal.progress(`layouts: ${(100 * share).toFixed(0)} %`),
  });
  terminal.progress('');
  if ('ok' in report) {
    if (json) terminal.out(jsonText({ ok: true, design: design.path, problems: problemData([report]) }));
    else for (const line of ['There is nothing to lay yet:', ...problemLines([report])]) terminal.out(line);
    return exitCode.answer;
  }
  const text = chosenText(report, options);
  if (!text.ok) return refusalAnswer(text, terminal, json);
  if (text.value !== undefined) terminal.out(text.value.replace(/\n$/, ''));
  else if (json) {
    const { levers, ...rest } = reportData(report);
    terminal.out(jsonText({ ok: true, design: design.path, ...rest, layouts: levers }));
  } else for (const line of layoutLines(report, design.aircraft.name, terminal)) terminal.out(line);
  return exitCode.answer;
}

/** Edits by what they are of, a line each as a file would have them; the rows of a string are one list. */
function editBlock({ edits }: Lever): readonly string[] {
  const made = new Map<string, Map<string, string[]>>();
  for (const { path, text } of edits) {
    if (text === undefined) continue;
    const [owner, key] = split(path);
    const values = made.get(owner) ?? new Map<string, string[]>();
    made.set(owner, values.set(key, [...(values.get(key) ?? []), text]));
  }
  const value = (key: string, texts: readonly string[]) =>
    key === 'rows' ? `rows: [${texts.join(', ')}]` : `${key}: ${texts.join(', ')}`;
  const gone = edits.flatMap(({ path, text }) => (text === undefined ? [path] : []));
  return [
    ...[...made].flatMap(([owner, values]) =>
      wrapped(`${owner}: {${[...values].map(([key, texts]) => value(key, texts)).join(', ')}}`, 100, '  ', '    '),
    ),
    ...(gone.length === 0 ? [] : wrapped(`without ${gone.join(', ')}`, 100, '  ', '    ')),
  ];
}

/** The thing that an edit is of, and what of it. */
function split(path: string): readonly [owner: string, key: string] {
  const dot = path.lastIndexOf('.');
  return [path.slice(0, dot), path.slice(dot + 1).replace(/\[\d+\]$/, '')];
}

function layoutLines({ base, sky, levers }: LeverReport, name: string, terminal: Terminal): readonly string[] {
  const usable = levers.filter(({ after }) => after !== undefined);
  const blocked = levers.filter(({ problem }) => problem !== undefined);
  const wattHours = (joules: number): string => (joules / 3600).toFixed(0);
  const rows = usable.map(({ label, after }, i) => [
    String(i + 1),
    label,
    wattHours(after!.income),
    signed(after!.solarRatio - base.solarRatio, 3),
    durationText(after!.carried),
    `${signed(1000 * (after!.mass - base.mass), 0)} g`,
  ]);
  return [
    heading(terminal, name),
    `Under ${sky}: the array as it is could give ${wattHours(base.income)} Wh on the day, carried ${durationText(base.carried)}.`,
    'The array as it is among layouts that fit, balance restored, most energy first:',
    '',
    ...tableLines({ head: ['', 'layout', 'Wh', 'solar ratio', 'carried', 'mass'], rows, left: [1] }),
    '',
    heading(terminal, 'What the first takes in the design file'),
    ...usable
      .slice(0, 1)
      .flatMap((lever) => (lever.edits.length === 0 ? ['  nothing: the array as it is gives most'] : editBlock(lever))),
    ...(blocked.length === 0 ? [] : ['', heading(terminal, 'Not to be had')]),
    ...blocked.flatMap(({ label, problem }) =>
      wrapped(`${label}: ${problem!.reason}; ${problem!.remedy}`, 100, '  ', '    '),
    ),
  ];
}
