import { type Assumption, type Message, readDesign } from '@noonwing/design';
import { packWarnings } from '@noonwing/engine/battery';
import { formatQuantity } from '@noonwing/quantities';
import { stringReports, type Verdict } from '@noonwing/verdict';
import { type CommandModule, exampleText } from '../command.js';
import { type ExitCode, exitCode } from '../exit.js';
import { loadDesign, messageLines } from '../input/design.js';
import { readText } from '../input/file.js';
import { addCommonOptions, addPlanOptions } from '../input/plan-options.js';
import { answerForAircraft } from '../input/run.js';
import { jsonQuantity, jsonText } from '../output/json.js';
import { refusalAnswer } from '../output/refusal.js';
import { tableLines, wrapped } from '../output/table.js';
import { problemLines, warningLines } from '../report/aircraft-lines.js';
import { problemData, warningData } from '../report/day-json.js';
import { heading, type Terminal } from '../terminal.js';

/** `noonwing check`: messages of the file, then what was assumed and what does not fit. */
export const command: CommandModule = {
  describe: (of) => {
    addCommonOptions(addPlanOptions(of.argument('<design>', 'design file'))).addHelpText(
      'after',
      exampleText('noonwing check examples/alondra.yaml'),
    );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const path = args[0]!;
    const design = loadDesign(path);
    if (!design.ok) return unusable(path, terminal, json) ?? refusalAnswer(design, terminal, json);
    const answered = answerForAircraft(path, options, terminal.now());
    if (!answered.ok) return refusalAnswer(answered, terminal, json);
    const { day, verdict: result } = answered.value;
    const findings: Findings = {
      path,
      messages: [...design.value.messages, ...day.messages],
      notes: day.notes,
      assumptions: design.value.assumptions,
      dayAssumptions: day.assumptions,
      result,
    };
    if (json) terminal.out(jsonText(findingsData(findings)));
    else for (const line of findingsLines(findings, terminal)) terminal.out(line);
    return exitCode.answer;
  },
};

interface Findings {
  readonly path: string;
  readonly messages: readonly Message[];
  readonly notes: readonly string[];
  readonly assumptions: readonly Assumption[];
  readonly dayAssumptions: readonly Assumption[];
  readonly result: Verdict;
}

const messageData = ({ severity, line, column, path, found, expected, hint }: Message) => ({
  severity,
  at: `${line}:${column}`,
  path,
  found,
  expected,
  hint,
});

/** Messages as data where the file could at least be read as text; undefined otherwise. */
function unusable(path: string, terminal: Terminal, json: boolean): ExitCode | undefined {
  const text = readText(path);
  if (!text.ok) return undefined;
  const { messages } = readDesign(text.value);
  if (json) terminal.out(jsonText({ ok: false, messages: messages.map(messageData) }));
  else {
    for (const line of messageLines(messages, path)) terminal.out(line);
    const errors = messages.filter(({ severity }) => severity === 'error').length;
    terminal.out(`${errors} ${errors === 1 ? 'error' : 'errors'}: nothing can be computed before they are corrected.`);
  }
  return exitCode.unusableInput;
}

/** Battery warnings for how this aircraft charges and empties its pack. */
function batteryWarnings({ prepared }: Verdict) {
  const { pack, batteryTemperature } = prepared.run;
  const { battery, array, drive } = prepared.model.complete;
  if (pack.kind !== 'cells' || battery === undefined) return [];
  const ceilings = (array?.converters ?? []).flatMap(({ outputVoltage }) => outputVoltage?.value ?? []);
  const energy = (battery.capacity.value * prepared.model.battery.nominalVoltage) / battery.mass.value;
  return packWarnings(pack, {
    boostConverter: array?.converters.some(({ topology }) => topology.includes('boost')),
    lowestTemperature: batteryTemperature + prepared.plan.nightTemperature.value - prepared.plan.temperature.value,
    highestTemperature: batteryTemperature,
    ...(ceilings.length === 0 ? {} : { converterCeiling: Math.max(...ceilings) }),
    ...(drive?.speedController.lowVoltageCut === undefined
      ? {}
      : { motorCutOff: drive.speedController.lowVoltageCut.value }),
    ...(battery.mass.value > 0 ? { specificEnergy: energy } : {}),
  });
}

function stringsOf({ prepared }: Verdict) {
  const { nightTemperature, temperature } = prepared.plan;
  return stringReports(prepared.model, { coldest: nightTemperature.value, hottest: temperature.value });
}

/** Warnings of strings and battery together with those of the verdict. */
function allWarnings(result: Verdict) {
  const strings = stringsOf(result).flatMap(({ name, fit }) =>
    fit.ok ? fit.warnings.map((warning) => ({ ...warning, where: `array.strings.${name}` })) : [],
  );
  return [...result.warnings, ...strings, ...batteryWarnings(result)];
}

function findingsLines(findings: Findings, terminal: Terminal): readonly string[] {
  const { path, messages, notes, assumptions, dayAssumptions, result } = findings;
  const title = (text: string) => ['', heading(terminal, text)];
  const warnings = warningLines(allWarnings(result));
  const strings = stringsOf(result).map(({ name, cells, parallel, fit }) =>
    fit.ok ? stringLine(name, cells, parallel, fit.value) : `  ${name}: never fits, see above`,
  );
  return [
    messages.length === 0 ? `${path}: every key and value can be used.` : `${path}:`,
    ...messageLines(messages, path),
    ...notes,
    ...(result.problems.length === 0 ? [] : [...title('What does not work'), ...problemLines(result.problems)]),
    ...(strings.length === 0 ? [] : [...title('Strings and battery'), ...strings]),
    ...(warnings.length === 0 ? [] : [...title('Look at'), ...warnings]),
    ...title(`Assumed in the design: ${assumptions.length}`),
    ...assumptionLines(assumptions),
    ...(dayAssumptions.length === 0
      ? []
      : [...title(`Assumed of the day: ${dayAssumptions.length}`), ...assumptionLines(dayAssumptions)]),
  ];
}

function stringLine(
  name: string,
  cells: number,
  parallel: number,
  fit: {
    readonly fit: string;
    readonly maximumPowerVoltage: { readonly lowest: number; readonly highest: number };
    readonly openCircuitVoltageHighest: number;
  },
): string {
  const { lowest, highest } = fit.maximumPowerVoltage;
  const beside = parallel > 1 ? `, ${parallel} side by side` : '';
  const range = `${lowest.toFixed(1)} to ${highest.toFixed(1)} V at maximum power, up to ${fit.openCircuitVoltageHighest.toFixed(1)} V open`;
  const suits =
    fit.fit === 'always' ? 'suits the battery over its whole range' : 'suits the battery over part of its range';
  return wrapped(`${name}: ${cells} cells in series${beside}, ${range}; ${suits}`, 100, '  ', '    ').join('\n');
}

/** Values first, then uncertainties that were filled in. */
function assumptionLines(assumptions: readonly Assumption[]): readonly string[] {
  return tableLines({ rows: assumptions.map((entry) => [entry.path, assumedText(entry), entry.why]), left: [0, 1, 2] });
}

function assumedText({ what, kind, value, uncertainty }: Assumption): string {
  if (kind === 'choice' || typeof value === 'string') return String(value);
  const text = formatQuantity({ value, sigma: uncertainty }, kind);
  return what === 'uncertainty' ? `${text} (the ± only)` : text;
}

function findingsData({ path, messages, assumptions, dayAssumptions, result }: Findings) {
  const assumed = (list: readonly Assumption[]) =>
    list.map(({ path: where, what, kind, value, uncertainty, why }) => ({
      path: where,
      what,
      why,
      ...(kind === 'choice' || typeof value === 'string'
        ? { choice: String(value) }
        : jsonQuantity(value, kind, uncertainty)),
    }));
  return {
    ok: true,
    design: path,
    messages: messages.map(messageData),
    problems: problemData(result.problems),
    warnings: warningData(allWarnings(result)),
    strings: stringsOf(result).map(({ name, cells, parallel, fit }) => ({
      name,
      cellsInSeries: jsonQuantity(cells, 'count'),
      parallel: jsonQuantity(parallel, 'count'),
      ...(fit.ok
        ? {
            fit: fit.value.fit,
            lowestVoltage: jsonQuantity(fit.value.maximumPowerVoltage.lowest, 'voltage'),
            highestVoltage: jsonQuantity(fit.value.maximumPowerVoltage.highest, 'voltage'),
            openCircuitVoltage: jsonQuantity(fit.value.openCircuitVoltageHighest, 'voltage'),
          }
        : { fit: 'never', reason: fit.reason, remedy: fit.remedy }),
    })),
    assumed: assumed(assumptions),
    assumedOfTheDay: assumed(dayAssumptions),
  };
}
