import { existsSync, writeFileSync } from 'node:fs';
import {
  type AnswerProblem,
  answerProblem,
  type NewDesignAnswers,
  type NewDesignKey,
  type NewDesignQuestion,
  newDayPlanText,
  newDesignQuestions,
  newDesignText,
} from '@noonwing/design';
import { nearest, parseDate } from '@noonwing/quantities';
import { type CommandModule, exampleText } from '../command.js';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { answersFromFile } from '../input/answers.js';
import { systemReason } from '../input/file.js';
import { type Options, typed } from '../input/plan-options.js';
import { answer } from '../input/run.js';
import { jsonText } from '../output/json.js';
import { refusalAnswer } from '../output/refusal.js';
import { dayData } from '../report/day-json.js';
import { dayLines } from '../report/day-text.js';
import { heading, type Terminal } from '../terminal.js';

type Answers = Partial<Record<NewDesignKey, string>>;

/** `noonwing new`: a few questions, a design file, a day plan, and the verdict. */
export const command: CommandModule = {
  describe: (of) => {
    of.argument('[file]', 'design file to write; by default named after the aircraft')
      .argument('[answers...]', 'answers as key=value; what is left out is asked, or assumed')
      .option('--answers <file>', 'file with answers, key: value, one per line')
      .option('--date <date>', 'day of the plan; by default today')
      .option('--force', 'write over files that are there')
      .option('--json', 'for programs: the verdict with every number and its unit; asks nothing')
      .addHelpText(
        'after',
        `${exampleText(
          'noonwing new',
          "noonwing new my.yaml span=2.4m mass=1.3kg cells=20 battery=3S1P place='40.7 N 0.9 E'",
        )}\nAnswers: ${questions.map(({ key }) => key).join(', ')}`,
      );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const given = givenAnswers(args, options);
    if (!given.ok) return refusalAnswer(given, terminal, json);
    const asked = Object.keys(given.value.answers).length === 0 && !json;
    if (asked && !terminal.interactive)
      terminal.note(
        "No terminal to ask on: reading answers line by line; 'noonwing new --help' shows how to give them as key=value.",
      );
    const answers = asked ? await askAll(terminal) : given.value.answers;
    if (answers === undefined) {
      terminal.note('The input ended before the questions did: nothing was written.');
      return exitCode.unusableInput;
    }
    const written = writeFiles(given.value.file ?? fileName(answers.name), answers, options, terminal);
    if (!written.ok) return refusalAnswer(written, terminal, json);
    const { path, planPath } = written.value;
    const answered = answer(path, { plan: planPath }, terminal.now());
    if (!answered.ok) return refusalAnswer(answered, terminal, json);
    if (json) terminal.out(jsonText(dayData(answered.value)));
    else {
      for (const line of [
        '',
        ...dayLines(answered.value, terminal),
        '',
        `Written: ${path} and ${planPath}. Replace what is marked assumed by what you know, then: noonwing day ${path}`,
      ]) {
        terminal.out(line);
      }
    }
    return exitCode.answer;
  },
};

const questions: readonly NewDesignQuestion[] = newDesignQuestions;

/** Words that say that an answer is not known. */
const unknown = /^(?:unknown|\?|-|n\/a|don'?t know|no idea)$/i;

const cleaned = (answer: string): string => (unknown.test(answer.trim()) ? '' : answer.trim());

interface Given {
  readonly file: string | undefined;
  readonly answers: Answers;
}

/** File name and answers from the command line. */
function givenAnswers(args: readonly string[], options: Options): Attempt<Given> {
  const isAnswer = (word: string) => word.includes('=');
  const [first] = args;
  const file = first === undefined || isAnswer(first) ? undefined : first;
  const pairs: (readonly [string, string])[] = [];
  const path = typed(options, 'answers');
  if (path !== undefined) {
    const read = answersFromFile(path);
    if (!read.ok) return read;
    pairs.push(...read.value);
  }
  for (const word of file === undefined ? args : args.slice(1)) {
    const equals = word.indexOf('=');
    if (equals <= 0) return refuse(exitCode.wrongUsage, `found "${word}"; expected key=value, such as span=2.4m`);
    pairs.push([word.slice(0, equals), word.slice(equals + 1)]);
  }
  const answers: Answers = {};
  for (const [key, value] of pairs) {
    const known = questions.find((question) => question.key === key.trim().toLowerCase().replace(/[-_]/g, ' '));
    if (known === undefined) {
      const near = nearest(
        key,
        questions.map((question) => question.key),
      );
      return refuse(
        exitCode.wrongUsage,
        `there is no answer "${key}"${near === undefined ? '' : `; did you mean "${near}"?`}`,
        `answers: ${questions.map((question) => question.key).join(', ')}`,
      );
    }
    answers[known.key as NewDesignKey] = cleaned(value);
  }
  return ready({ file, answers });
}

/** Asks every question; Enter takes the default. Undefined when the input ends. */
async function askAll(terminal: Terminal): Promise<Answers | undefined> {
  terminal.out(heading(terminal, 'A new aircraft'));
  terminal.out(
    'Enter takes what is in brackets; where you do not know, just press Enter: it is assumed and marked so.',
  );
  const answers: Answers = {};
  for (const question of questions) {
    const given = await askOne(question, terminal);
    if (given === undefined) return undefined;
    answers[question.key as NewDesignKey] = given;
  }
  return answers;
}

async function askOne(question: NewDesignQuestion, terminal: Terminal): Promise<string | undefined> {
  const fallback = question.default === '' ? 'not known' : question.default;
  const list = question.choices ?? [];
  const choices = list.length > 3 ? list.map((choice, i) => `    ${i + 1}  ${choice}\n`).join('') : '';
  for (;;) {
    const typedText = await terminal.ask(`\n${question.question}\n${choices}    ${question.help}\n  [${fallback}] > `);
    if (typedText === undefined) return undefined;
    const given = numbered(question, cleaned(typedText)) || question.default;
    const wrong = answerProblem(question.key as NewDesignKey, given);
    if (wrong === undefined) return given;
    terminal.out(`  ${problemText(wrong)}`);
  }
}

/** A choice may be answered by its number. */
function numbered({ choices }: NewDesignQuestion, given: string): string {
  const picked = /^\d+$/.test(given) ? choices?.[Number(given) - 1] : undefined;
  return picked ?? given;
}

const problemText = ({ found, expected, hint }: AnswerProblem): string =>
  `found "${found}"; expected ${expected}${hint === '' ? '' : `; ${hint}`}`;

const fileName = (name: string | undefined): string => {
  const plain = (name ?? '')
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return `${plain === '' ? 'my-aircraft' : plain}.yaml`;
};

/** Writes design file and day plan; what is there already stays unless --force. */
function writeFiles(
  file: string,
  answers: Answers,
  options: Options,
  terminal: Terminal,
): Attempt<{ readonly path: string; readonly planPath: string }> {
  const path = /\.ya?ml$/i.test(file) ? file : `${file}.yaml`;
  const planPath = path.replace(/\.ya?ml$/i, '.day.yaml');
  const there = [path, planPath].filter((name) => existsSync(name));
  if (there.length > 0 && options.force !== true) {
    return refuse(
      exitCode.unusableInput,
      `${there.join(' and ')} ${there.length > 1 ? 'are' : 'is'} there already: choose another name, or add --force to write over`,
    );
  }
  const design = newDesignText(answers as NewDesignAnswers);
  if (!design.ok) {
    return refuse(exitCode.wrongUsage, ...design.problems.map((problem) => `${problem.key}: ${problemText(problem)}`));
  }
  const date = dateOf(options, terminal);
  if (!date.ok) return date;
  const place = answers.place ?? '';
  const plan = newDayPlanText({ place: place === '' ? defaultPlace : place, date: date.value });
  try {
    writeFileSync(path, design.text);
    writeFileSync(planPath, plan);
  } catch (error) {
    return refuse(exitCode.unusableInput, `${path}: it cannot be written: ${unwritable(error)}`);
  }
  return ready({ path, planPath });
}

const unwritable = (error: unknown): string =>
  (error as { code?: string }).code === 'ENOENT' ? 'there is no such folder' : systemReason(error);

const defaultPlace = questions.find(({ key }) => key === 'place')!.default;

function dateOf(options: Options, terminal: Terminal): Attempt<{ year: number; month: number; day: number }> {
  const written = typed(options, 'date');
  if (written === undefined) {
    const today = terminal.now();
    return ready({ year: today.getFullYear(), month: today.getMonth() + 1, day: today.getDate() });
  }
  const date = parseDate(written);
  return date.ok
    ? ready(date)
    : refuse(exitCode.wrongUsage, `--date: found "${date.found}"; expected ${date.expected}; ${date.hint}`);
}
