import type { Diagnosis, LikelyCause, TraceFigures } from '@noonwing/engine/bench';
import type { BenchAnswer } from '@noonwing/verdict/bench';
import { jsonQuantity } from '../output/json.js';
import { tableLines, wrapped } from '../output/table.js';
import { heading, type Terminal } from '../terminal.js';

const percent = (share: number, digits = 0): string => `${(100 * share).toFixed(digits)} %`;
const signed = (share: number): string => `${share < 0 ? '-' : '+'}${percent(Math.abs(share))}`;
const clock = (seconds: number): string => `${new Date(seconds * 1000).toISOString().slice(0, 16)}Z`;

/** Chance in tenths: two digits would pretend too much. */
function chance(probability: number): string {
  const tenths = Math.round(10 * probability);
  if (tenths >= 10) return 'nearly sure';
  return tenths === 0 ? 'less than 1 in 10' : `about ${tenths} in 10`;
}

/** What the bench says, first in words. */
export function benchLines(
  { diagnosis, measured }: BenchAnswer,
  figures: TraceFigures | undefined,
  terminal: Terminal,
): readonly string[] {
  const title = (text: string) => ['', heading(terminal, text)];
  return [
    ...wrapped(finding(diagnosis), 100, ''),
    ...title('What this sun should give'),
    ...readingLines(diagnosis),
    ...budgetLines(diagnosis),
    ...(figures === undefined ? [] : [...title('The trace'), ...traceLines(figures)]),
    ...title('Likely causes'),
    ...diagnosis.causes.flatMap(causeLines),
    ...(diagnosis.next.length === 0 ? [] : [...title('What to measure next'), ...nextLines(diagnosis)]),
    ...(measured === undefined
      ? []
      : [
          '',
          ...wrapped(
            measured.on
              ? `As a record in the design this reading corrects the array by ${signed(measured.value - 1)} ± ${percent(measured.sigma)}.`
              : 'As long as something is wrong, keep this reading out of the design, or in it with "use: no".',
            100,
            '',
          ),
        ]),
    '',
    ...wrapped(
      'Take care: cells in light are always live, cover them before a plug is opened; propeller off, the motor may start; fuse the battery.',
      100,
      '',
    ),
  ];
}

function finding({ causes, isBlamed, readings }: Diagnosis): string {
  const first = causes[0];
  // What another converter shows in the place of the own says nothing about the fault.
  const last = readings.findLast(({ difference, otherConverter }) => difference !== undefined && !otherConverter);
  const beside =
    last === undefined ? '' : ` (${signed(last.difference!)} ± ${percent(last.differenceSigma!)} against the model)`;
  if (first === undefined) return 'Nothing can be said.';
  if (first.name === 'healthy') return `Nothing points to a fault${beside}.`;
  const words = isBlamed ? 'Most likely' : 'Not clear yet, first suspicion';
  return `${words}: ${first.words}${beside}.`;
}

const readingLines = ({ readings }: Diagnosis): readonly string[] =>
  tableLines({
    head: ['time', 'light', 'cells', 'expected', 'read', 'difference', ''],
    left: [6],
    rows: readings.map(
      ({
        time,
        light,
        cellTemperature,
        expected,
        expectedSigma,
        read,
        difference,
        differenceSigma,
        otherConverter,
      }) => [
        clock(time),
        `${light.toFixed(0)} W/m2`,
        `${(cellTemperature - 273.15).toFixed(0)} degC`,
        `${expected.toFixed(2)} A ± ${expectedSigma.toFixed(2)} A`,
        read === undefined ? '' : `${read.toFixed(2)} A`,
        difference === undefined ? '' : `${signed(difference)} ± ${percent(differenceSigma!)}`,
        otherConverter ? 'another converter' : '',
      ],
    ),
  });

function budgetLines({ budget }: Diagnosis): readonly string[] {
  const parts = budget.filter(({ share }) => share > 0.002).slice(0, 4);
  if (parts.length === 0) return [];
  return wrapped(
    `The uncertainty comes from: ${parts.map(({ what, share }) => `${what} ${percent(share, 1)}`).join('; ')}.`,
  );
}

const traceLines = ({
  shortCircuitCurrent,
  openCircuitVoltage,
  maximum,
  plateaus,
  addedResistance,
  warnings,
}: TraceFigures) => [
  ...tableLines({
    rows: [
      ['short circuit', `${shortCircuitCurrent.toFixed(2)} A`],
      ['open circuit', `${openCircuitVoltage.toFixed(2)} V`],
      ['greatest power', `${maximum.power.toFixed(1)} W at ${maximum.voltage.toFixed(2)} V`],
      ['steps', String(Math.max(plateaus.length, 1))],
      ...(addedResistance === undefined
        ? []
        : [['in series beside the model', `${(1000 * addedResistance).toFixed(0)} mohm`]]),
    ],
  }),
  ...warnings.flatMap(({ message }) => wrapped(`${message}.`)),
];

const causeLines = ({ probability, words, next }: LikelyCause): readonly string[] => [
  ...wrapped(`${chance(probability)}: ${words}`, 100, '  ', '    '),
  ...(next === undefined ? [] : wrapped(`tells it apart: ${next.what} (${next.minutes} min)`, 100, '    ', '      ')),
];

const nextLines = ({ next }: Diagnosis): readonly string[] =>
  tableLines({
    head: ['', 'takes', 'tells'],
    left: [0],
    rows: next
      .slice(0, 4)
      .map(({ what, minutes, information }) => [what, `${minutes} min`, `${information.toFixed(2)} bit`]),
  });

/** The same for programs. */
export function benchData({ diagnosis, measured }: BenchAnswer, figures: TraceFigures | undefined) {
  const ratio = (value: number, sigma?: number) => jsonQuantity(value, 'ratio', sigma);
  return {
    isBlamed: diagnosis.isBlamed,
    finding: finding(diagnosis),
    readings: diagnosis.readings.map(
      ({
        time,
        light,
        cellTemperature,
        expected,
        expectedSigma,
        read,
        difference,
        differenceSigma,
        otherConverter,
      }) => ({
        time: clock(time),
        light: jsonQuantity(light, 'areal power'),
        cellTemperature: jsonQuantity(cellTemperature, 'temperature'),
        expected: jsonQuantity(expected, 'current', expectedSigma),
        ...(read === undefined ? {} : { read: jsonQuantity(read, 'current') }),
        ...(difference === undefined ? {} : { difference: ratio(difference, differenceSigma) }),
        ...(otherConverter ? { otherConverter } : {}),
      }),
    ),
    budget: diagnosis.budget.map(({ what, share }) => ({ what, share: ratio(share) })),
    ...(figures === undefined
      ? {}
      : {
          trace: {
            shortCircuitCurrent: jsonQuantity(figures.shortCircuitCurrent, 'current'),
            openCircuitVoltage: jsonQuantity(figures.openCircuitVoltage, 'voltage'),
            maximumPower: jsonQuantity(figures.maximum.power, 'power'),
            steps: jsonQuantity(Math.max(figures.plateaus.length, 1), 'count'),
            ...(figures.addedResistance === undefined
              ? {}
              : { addedResistance: jsonQuantity(figures.addedResistance, 'resistance') }),
            findings: figures.warnings.map(({ code, message }) => ({ code, message })),
          },
        }),
    causes: diagnosis.causes.map(({ name, probability, words, next }) => ({
      cause: name,
      probability: ratio(Math.round(100 * probability) / 100),
      words,
      ...(next === undefined ? {} : { next: { what: next.what, time: jsonQuantity(60 * next.minutes, 'time') } }),
    })),
    next: diagnosis.next.map(({ what, minutes, information }) => ({
      what,
      time: jsonQuantity(60 * minutes, 'time'),
      bits: ratio(information),
    })),
    ...(measured === undefined
      ? {}
      : {
          measured: {
            stage: measured.stage,
            factor: ratio(measured.value),
            sigma: ratio(measured.sigma),
            source: measured.source,
            on: measured.on,
          },
        }),
  };
}
