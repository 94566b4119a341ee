import type { Relation, RelationInput, RelationValues } from '@noonwing/engine';
import { answerRelation } from '@noonwing/engine';
import { allRelations } from '@noonwing/engine/relations';
import {
  formatQuantity,
  nearest,
  parseQuantity,
  type QuantityKind,
  suggestedUnits,
  writeQuantity,
} from '@noonwing/quantities';
import { type CommandModule, exampleText } from '../command.js';
import { type Attempt, type ExitCode, exitCode, ready, refuse } from '../exit.js';
import { jsonQuantity, jsonText } from '../output/json.js';
import { refusalAnswer } from '../output/refusal.js';
import { tableLines } from '../output/table.js';
import { heading, type Terminal } from '../terminal.js';

/** `noonwing figure TOPIC key=value ...`: one relation of the engine on its own. */
export const command: CommandModule = {
  describe: (of) => {
    of.argument('[topic]', 'relation, such as sky; all of them with --list')
      .argument('[values...]', 'inputs as key=value with units')
      .option('--list', 'what can be asked: topics, or inputs and outputs of one')
      .option('--json', 'for programs: every number with its unit')
      .addHelpText(
        'after',
        exampleText(
          'noonwing figure sky zenith=60deg turbidity=3 altitude=0m --json',
          'noonwing figure --list',
          'noonwing figure --list propeller',
        ),
      );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const [topic, ...values] = args;
    if (topic === undefined) {
      listTopics(terminal, json);
      return options.list === true ? exitCode.answer : exitCode.wrongUsage;
    }
    const relation = findRelation(topic);
    if (!relation.ok) return refusalAnswer(relation, terminal, json);
    if (options.list === true) {
      describeRelation(relation.value, terminal, json);
      return exitCode.answer;
    }
    return figure(relation.value, values, terminal, json);
  },
};

/** Spelling of a topic or key without what people vary: capitals, hyphens, blanks. */
const spelling = (name: string): string => name.toLowerCase().replace(/[-_\s]+/g, '');

function findRelation(topic: string): Attempt<Relation> {
  const found = allRelations.find((relation) => spelling(relation.topic) === spelling(topic));
  if (found !== undefined) return ready(found);
  const topics = allRelations.map((relation) => relation.topic);
  const near = nearest(topic, topics);
  return refuse(
    exitCode.wrongUsage,
    `there is no topic "${topic}"${near === undefined ? '' : `; did you mean "${near}"?`}`,
    `topics: ${topics.join(', ')}`,
  );
}

function figure(relation: Relation, words: readonly string[], terminal: Terminal, json: boolean): ExitCode {
  const values = readValues(relation, words);
  if (!values.ok) return refusalAnswer(values, terminal, json);
  const result = answerRelation(relation, values.value);
  if (isReason(result)) {
    return refusalAnswer(
      refuse(exitCode.unusableInput, `${relation.topic}: ${result.reason}; ${result.remedy}`),
      terminal,
      json,
    );
  }
  if (json) terminal.out(jsonText(resultData(relation, values.value, result)));
  else for (const line of resultLines(relation, values.value, result, terminal)) terminal.out(line);
  return exitCode.answer;
}

const isReason = (result: object): result is { readonly reason: string; readonly remedy: string } =>
  'reason' in result && typeof result.reason === 'string';

/** Values of all inputs: as given, or the defaults. */
function readValues(relation: Relation, words: readonly string[]): Attempt<RelationValues> {
  const values: Record<string, number | string> = {};
  const wrong: string[] = [];
  for (const word of words) {
    const read = readWord(relation, word, values);
    if (read !== undefined) wrong.push(read);
  }
  for (const input of relation.inputs) {
    if (input.key in values) continue;
    if (input.default === undefined) wrong.push(`${input.key} is missing: ${expectedOf(input)}; ${input.help}`);
    else values[input.key] = input.default;
  }
  if (wrong.length === 0) return ready(values);
  return refuse(exitCode.wrongUsage, ...wrong, `'noonwing figure --list ${relation.topic}' shows inputs and outputs`);
}

/** Reads one key=value into the values; returns what is wrong with it. */
function readWord(relation: Relation, word: string, values: Record<string, number | string>): string | undefined {
  const equals = word.indexOf('=');
  if (equals <= 0) return `found "${word}"; expected key=value, such as ${exampleOf(relation)}`;
  const [key, written] = [word.slice(0, equals).trim(), word.slice(equals + 1).trim()];
  const input = relation.inputs.find((candidate) => spelling(candidate.key) === spelling(key));
  if (input === undefined) {
    const keys = relation.inputs.map((candidate) => candidate.key);
    const near = nearest(key, keys);
    return `${relation.topic} has no input "${key}"${near === undefined ? `; its inputs: ${keys.join(', ')}` : `; did you mean "${near}"?`}`;
  }
  if (input.key in values) return `${input.key} is given twice`;
  if (input.kind === 'choice') {
    const choice = input.choices.find((candidate) => spelling(candidate) === spelling(written));
    if (choice === undefined) {
      const near = nearest(written, input.choices);
      return `${key}: found "${written}"; expected ${expectedOf(input)}${near === undefined ? '' : `; did you mean "${near}"?`}`;
    }
    values[input.key] = choice;
    return undefined;
  }
  const read = parseQuantity(written, input.kind);
  if (!read.ok) return `${key}: found "${read.found}"; expected ${read.expected}; ${read.hint}`;
  values[input.key] = read.value;
  return undefined;
}

const exampleOf = ({ inputs }: Relation): string => {
  const first = inputs[0];
  if (first === undefined) return 'key=value';
  if (first.kind === 'choice') return `${first.key}=${first.choices[0]}`;
  const unit = suggestedUnits(first.kind)[0] ?? '';
  return `${first.key}=1${unit}`;
};

function expectedOf(input: RelationInput): string {
  if (input.kind === 'choice') return `one of ${input.choices.join(', ')}`;
  return kindText(input.kind);
}

function kindText(kind: QuantityKind): string {
  if (kind === 'ratio') return 'ratio (0.95 or 95 %)';
  if (kind === 'count') return 'whole number';
  if (kind === 'instant') return 'date and time, such as 2026-06-21T10:00Z';
  return `${kind} (${suggestedUnits(kind).slice(0, 3).join(', ')})`;
}

/** A result, to five digits. */
function shown(value: number, kind: QuantityKind): string {
  if (kind === 'instant') return instantText(value);
  return kind === 'count' ? String(value) : formatQuantity({ value }, kind, { digits: 5 });
}

/** An input as one would type it. */
const typedText = (value: number, kind: QuantityKind): string =>
  kind === 'instant' ? instantText(value) : writeQuantity({ value }, kind);

const instantText = (seconds: number): string =>
  new Date(Math.round(seconds) * 1000).toISOString().replace('.000Z', 'Z');

/** Instants are no numbers with a unit but moments. */
const data = (value: number, kind: QuantityKind) =>
  kind === 'instant' ? { time: instantText(value) } : jsonQuantity(value, kind);

function inputData(relation: Relation, values: RelationValues) {
  return Object.fromEntries(
    relation.inputs.map((input) => {
      const value = values[input.key]!;
      return [input.key, input.kind === 'choice' || typeof value === 'string' ? value : data(value, input.kind)];
    }),
  );
}

function resultData(relation: Relation, values: RelationValues, result: Readonly<Record<string, number>>) {
  const outputs = relation.outputs.filter(({ key }) => key in result);
  return {
    ok: true,
    topic: relation.topic,
    inputs: inputData(relation, values),
    ...Object.fromEntries(outputs.map(({ key, kind }) => [key, data(result[key]!, kind)])),
  };
}

function resultLines(
  relation: Relation,
  values: RelationValues,
  result: Readonly<Record<string, number>>,
  terminal: Terminal,
): readonly string[] {
  const inputs = relation.inputs.map((input) => {
    const value = values[input.key]!;
    const text = input.kind === 'choice' || typeof value === 'string' ? String(value) : typedText(value, input.kind);
    return [input.key, text, input.help];
  });
  const outputs = relation.outputs
    .filter(({ key }) => key in result)
    .map(({ key, kind, help }) => [key, shown(result[key]!, kind), help]);
  return [heading(terminal, relation.title), ...tableLines({ rows: outputs }), 'from', ...tableLines({ rows: inputs })];
}

function listTopics(terminal: Terminal, json: boolean): void {
  if (json) {
    terminal.out(jsonText({ ok: true, topics: allRelations.map(({ topic, title }) => ({ topic, title })) }));
    return;
  }
  terminal.out('Relations that can be asked for: noonwing figure TOPIC key=value ...');
  for (const line of tableLines({ rows: allRelations.map(({ topic, title }) => [topic, title]) })) terminal.out(line);
  terminal.out("'noonwing figure --list TOPIC' shows inputs, units and outputs.");
}

function describeRelation(relation: Relation, terminal: Terminal, json: boolean): void {
  const { topic, title, inputs, outputs } = relation;
  const defaultOf = (input: RelationInput) => (input.default === undefined ? {} : { default: defaultData(input) });
  if (json) {
    const described = inputs.map((input) => ({
      key: input.key,
      kind: input.kind,
      help: input.help,
      ...(input.kind === 'choice' ? { choices: input.choices } : { units: suggestedUnits(input.kind) }),
      ...defaultOf(input),
    }));
    terminal.out(
      jsonText({
        ok: true,
        topic,
        title,
        inputs: described,
        outputs: outputs.map((output) => ({ ...output, unit: jsonQuantity(1, output.kind).unit })),
      }),
    );
    return;
  }
  const rows = inputs.map((input) => [input.key, expectedOf(input), defaultText(input), input.help]);
  const results = outputs.map(({ key, kind, help }) => [key, kindText(kind), help]);
  const lines = [
    heading(terminal, `${topic}: ${title}`),
    'inputs',
    ...tableLines({ rows, left: [0, 1, 2, 3] }),
    'outputs',
    ...tableLines({ rows: results }),
  ];
  for (const line of lines) terminal.out(line);
}

function defaultData(input: RelationInput) {
  return input.kind === 'choice' || input.default === undefined ? input.default : data(input.default, input.kind);
}

function defaultText(input: RelationInput): string {
  if (input.default === undefined) return 'needed';
  return `default ${input.kind === 'choice' ? input.default : typedText(input.default, input.kind)}`;
}
