import type { Limit, LimitCondition, LimitsReport } from '@noonwing/engine/aeroelastic';
import { standardGravity } from '@noonwing/engine/flight';
import { lineWords } from '@noonwing/verdict/launch-words';
import { type LimitChange, limitChanges, usefulChanges } from '@noonwing/verdict/limit-changes';
import {
  bentTexts,
  diveTexts,
  findingText,
  landingText,
  leastWarp,
  marginText,
  slopText,
  warmTexts,
  warpText,
} from '@noonwing/verdict/limit-words';
import {
  bentPower,
  jointReports,
  type LimitsAnswer,
  limitCondition,
  limits,
  limitWarnings,
  toldDives,
} from '@noonwing/verdict/limits';
import { forwardText, jointText, type LoadSaid, throwText, wireText } from '@noonwing/verdict/load-words';
import type { StiffnessReading } from '@noonwing/verdict/stiffness-records';
import type { WarmLimit } from '@noonwing/verdict/warm-limits';
import { type CommandModule, exampleText } from '../command.js';
import { exitCode } from '../exit.js';
import { addCommonOptions, addPlanOptions } from '../input/plan-options.js';
import { answerForAircraft } from '../input/run.js';
import { jsonQuantity, jsonText } from '../output/json.js';
import { refusalAnswer } from '../output/refusal.js';
import { tableLines, wrapped } from '../output/table.js';
import { problemLines, warningLines } from '../report/aircraft-lines.js';
import { problemData } from '../report/day-json.js';
import { plainWords, speedText, toldLimits, toldWarmth } from '../report/limit-lines.js';
import { heading, type Terminal } from '../terminal.js';

/** `noonwing limits`: how fast the aircraft may fly, why, and how soon a dive gets there. */
export const command: CommandModule = {
  describe: (of) => {
    addCommonOptions(addPlanOptions(of.argument('<design>', 'design file'))).addHelpText(
      'after',
      exampleText('noonwing limits examples/bandeja.yaml'),
    );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const answered = answerForAircraft(args[0]!, options, terminal.now());
    if (!answered.ok) return refusalAnswer(answered, terminal, json);
    const { verdict, design, day, stages } = answered.value;
    const found = limits(verdict, stages);
    const told = (answer: LimitsAnswer): Told => ({
      answer,
      changes: limitChanges(verdict, answer, stages),
      dive: limitCondition(verdict)?.dive,
    });
    if (json) {
      const data = found.ok ? limitsData(told(found.value)) : { problems: problemData([found]) };
      terminal.out(jsonText({ ok: true, design: design.path, ...data }));
      return exitCode.answer;
    }
    terminal.out(heading(terminal, design.aircraft.name));
    const lines = found.ok ? limitLines(told(found.value), terminal) : problemLines([found, ...verdict.problems]);
    for (const line of [...day.notes, ...lines]) terminal.out(line);
    return exitCode.answer;
  },
};

/** What the command tells. */
interface Told {
  readonly answer: LimitsAnswer;
  readonly changes: readonly LimitChange[];
  /** What dives are computed with. */
  readonly dive: LimitCondition['dive'] | undefined;
}

/** A reading of stiffness: what was read and expected, and the factor that it leaves. */
function readingText({ record, of, source, factor, spread, problem }: StiffnessReading): string {
  if (factor === undefined || spread === undefined) return `${record}: ${problem}`;
  const left = `${(100 * factor).toFixed(0)} % +/- ${(100 * factor * spread).toFixed(0)} %`;
  return `${record}: ${source}: ${of} ${left} of what is described`;
}

function limitRow({ kind, airspeed, low, high, frequency, words }: Limit): readonly string[] {
  const rate = frequency === undefined ? '' : ` at ${(frequency / (2 * Math.PI)).toFixed(1)} Hz`;
  return [kind, low.toFixed(1), airspeed.toFixed(1), high.toFixed(1), `${words}${rate}`];
}

function limitLines({ answer, changes, dive }: Told, terminal: Terminal): readonly string[] {
  const { report, structure } = answer;
  const title = (text: string) => ['', heading(terminal, text)];
  return [
    ...wrapped(`${findingText(toldLimits(answer), plainWords)} ${marginText(toldLimits(answer), plainWords)}`, 100, ''),
    ...warningLines(limitWarnings(answer)),
    ...title('Limits, by the lower edge of the band that should hold them nine times in ten'),
    ...tableLines({
      head: ['', 'lower edge, m/s', 'best estimate', 'upper edge', 'what happens'],
      left: [0, 4],
      rows: report.limits.map(limitRow),
    }),
    ...(report.loose === undefined
      ? []
      : wrapped(
          `With slop in the linkages, which is not counted above: ${report.loose.words}, from ${speedText(report.loose.low)}.`,
        )),
    ...title('How soon a dive without power gets to the limit speed'),
    ...diveLines(answer, dive),
    ...jointLines(answer, title('Where it comes apart')),
    ...forwardLines(answer, title('Bent forward')),
    ...title('Launch and landing'),
    ...groundLines(answer),
    ...title('Shape in normal flight, against the same aircraft held stiff'),
    ...bentLines(answer),
    ...title('Heat'),
    ...heatLines(answer),
    ...title('What would raise it, the most for its mass first'),
    ...changeLines(changes, answer),
    ...title('The structure behind it'),
    ...Object.keys(structure.described).flatMap((name) => wrapped(`${name}: as the design describes it`)),
    ...[...structure.assumed, ...structure.assumedJoints].flatMap((text) => wrapped(`assumed: ${text}`)),
    ...answer.readings.flatMap((reading) => wrapped(readingText(reading))),
    ...title('Mind'),
    ...cautions.flatMap((text) => wrapped(text)),
  ];
}

/** Each joint with what it keeps and bears; nothing where no surface comes apart. */
function jointLines(answer: LimitsAnswer, title: readonly string[]): readonly string[] {
  const joints = jointReports(answer.structure);
  if (joints.length === 0) return [];
  return [...title, ...joints.flatMap((joint) => wrapped(jointText(joint, loadSaid)))];
}

/** What bending forward does to a pull-up, where it counts. */
function forwardLines({ report: { allowed, foreAft } }: LimitsAnswer, title: readonly string[]): readonly string[] {
  if (allowed === undefined || foreAft === undefined) return [];
  return [...title, ...wrapped(forwardText(foreAft, allowed, loadSaid))];
}

const loadSaid: LoadSaid = {
  speed: speedText,
  force: (value) => `${value.toFixed(0)} N`,
  length: (value) => `${(1000 * value).toFixed(0)} mm`,
  way: (value) => `${value.toFixed(1)} m`,
  degrees: plainWords.angle,
  fine: (value) => `${((180 * value) / Math.PI).toFixed(2)} deg`,
};

function groundLines({ report: { landing }, launch, line }: LimitsAnswer): readonly string[] {
  const lines: string[] = [];
  if (launch !== undefined) lines.push(throwText(launch, loadSaid));
  lines.push(...lineWords(line, loadSaid));
  if (landing !== undefined) lines.push(landingText(landing, plainWords));
  return lines.flatMap((each) => wrapped(each));
}

function bentLines(answer: LimitsAnswer): readonly string[] {
  const { bent, slop, wires } = answer.report;
  const levelPower = bentPower(answer);
  const lines = [
    ...(bent === undefined || levelPower === undefined ? [] : bentTexts({ ...bent, levelPower }, plainWords)),
    ...wires.map((wire) => wireText(wire, loadSaid)),
    ...(slop === undefined ? [] : [slopText(slop, plainWords)]),
  ];
  return lines.length > 0 ? lines.flatMap((line) => wrapped(line)) : wrapped('Nothing is known of it.');
}

function heatLines(answer: LimitsAnswer): readonly string[] {
  const { report, warm } = answer;
  const { heat } = report;
  const lines = [
    ...(heat === undefined || Math.abs(heat.control) < leastWarp ? [] : [warpText(heat, plainWords)]),
    ...(warm === undefined
      ? []
      : warmTexts(
          toldLimits(answer),
          { flight: toldWarmth(warm.flight), parked: toldWarmth(warm.parked) },
          plainWords,
        )),
  ];
  return lines.length > 0
    ? lines.flatMap((line) => wrapped(line))
    : wrapped('Nothing in it is known to warp or soften.');
}

function changeLines(changes: readonly LimitChange[], answer: LimitsAnswer): readonly string[] {
  const useful = usefulChanges(changes, answer);
  if (useful.length === 0) return wrapped(`None of the ${changes.length} changes looked at raises it.`);
  return tableLines({
    head: ['', 'added, g', 'limit speed, m/s', 'm/s per 10 g', 'then'],
    left: [0, 4],
    rows: useful.map(({ name, mass, limitSpeed, perGram, first }) => [
      name,
      (1000 * mass).toFixed(0),
      limitSpeed.toFixed(1),
      (10 * perGram).toFixed(2),
      first?.kind ?? 'none found',
    ]),
  });
}

function diveLines(answer: LimitsAnswer, aircraft: Told['dive']): readonly string[] {
  const lines = diveTexts(toldLimits(answer), toldDives(answer.report, aircraft), plainWords);
  return lines.length > 0 ? lines.flatMap((line) => wrapped(line)) : wrapped('No limit was found to get to.');
}

const cautions = [
  'A computed limit speed is an estimate. Load the wing by hand or with sand first, watch how far it bends and twists.',
  'Approach it in steps, with height, and keep a margin (common practice). Stop where something vibrates or the trim wanders.',
  'Follow the rules of your club and your country.',
];

function limitData({ kind, words, airspeed, low, high, frequency }: Limit) {
  return {
    kind,
    words,
    airspeed: { ...jsonQuantity(airspeed, 'speed'), low, high },
    ...(frequency === undefined ? {} : { frequency: jsonQuantity(frequency, 'frequency') }),
  };
}

function warmData({ faces, softer, first }: WarmLimit) {
  return {
    top: jsonQuantity(faces.upper, 'temperature'),
    bottom: jsonQuantity(faces.lower, 'temperature'),
    softer: softer.map(({ name, kept, low, high }) => ({ name, kept: { ...jsonQuantity(kept, 'ratio'), low, high } })),
    ...(first === undefined ? {} : { first: limitData(first) }),
  };
}

function divesData({ dives }: LimitsReport) {
  return dives.map(({ angle, dive }) => ({
    angle: jsonQuantity(angle, 'angle'),
    ...(dive === undefined
      ? {}
      : { time: jsonQuantity(dive.time, 'time'), height: jsonQuantity(dive.height, 'length') }),
  }));
}

function bentData(answer: LimitsAnswer) {
  const { bent, slop } = answer.report;
  const power = bentPower(answer);
  return {
    ...(bent === undefined || power === undefined
      ? {}
      : {
          bent: {
            inducedDrag: jsonQuantity(bent.inducedDrag, 'ratio'),
            levelPower: jsonQuantity(power, 'ratio'),
            stallSpeed: jsonQuantity(bent.stallSpeed, 'ratio'),
            control: jsonQuantity(bent.control, 'angle'),
            staticMargin: jsonQuantity(bent.staticMargin, 'ratio'),
          },
        }),
    ...(slop === undefined
      ? {}
      : { slop: { angle: jsonQuantity(slop.angle, 'angle'), airspeed: jsonQuantity(slop.airspeed, 'speed') } }),
  };
}

function lineData({ greatest, by, climb, least, most, way, hook, assumed }: LimitsAnswer['line']) {
  const bungee = ({ pull, airspeed }: typeof least) => ({
    pull: jsonQuantity(pull, 'force'),
    airspeed: jsonQuantity(airspeed, 'speed'),
  });
  return {
    greatestPull: jsonQuantity(greatest, 'force'),
    by,
    loadFactor: jsonQuantity(climb, 'ratio'),
    bungee: { way: jsonQuantity(way, 'length'), least: bungee(least), most: bungee(most) },
    hookAhead: hook.ahead.map((ahead) => jsonQuantity(ahead, 'length')),
    assumed,
  };
}

function limitsData({ answer, changes }: Told) {
  const { report, structure, airspeed, undriven, warm } = answer;
  return {
    airspeed: jsonQuantity(airspeed, 'speed'),
    ...(undriven ? { cannotFlyLevel: true } : {}),
    ...(report.limits[0] === undefined ? {} : { limitSpeed: jsonQuantity(report.limits[0].low, 'speed') }),
    searchedTo: jsonQuantity(report.searchedTo, 'speed'),
    limits: report.limits.map(limitData),
    ...(report.loose === undefined ? {} : { looseControls: limitData(report.loose) }),
    ...(report.heat === undefined
      ? {}
      : {
          heat: {
            difference: jsonQuantity(report.heat.difference, 'temperature difference'),
            control: jsonQuantity(report.heat.control, 'angle'),
            alpha: jsonQuantity(report.heat.alpha, 'angle'),
          },
        }),
    ...(warm === undefined ? {} : { inSun: { flight: warmData(warm.flight), parked: warmData(warm.parked) } }),
    ...bentData(answer),
    ...(report.foreAft === undefined
      ? {}
      : {
          foreAft: {
            tilt: jsonQuantity(report.foreAft.tilt, 'angle'),
            without: jsonQuantity(report.foreAft.without, 'ratio'),
            alone: jsonQuantity(report.foreAft.loadFactor, 'ratio'),
            at: jsonQuantity(report.foreAft.y, 'length'),
            reason: report.foreAft.reason,
          },
        }),
    ...(report.landing === undefined
      ? {}
      : {
          landing: {
            loadFactor: jsonQuantity(report.landing.loadFactor, 'ratio'),
            sinkRate: jsonQuantity(report.landing.sinkRate, 'speed'),
          },
        }),
    ...(answer.launch === undefined
      ? {}
      : {
          launch: {
            speed: jsonQuantity(answer.launch.speed, 'speed'),
            needs: jsonQuantity(answer.launch.needs / standardGravity, 'ratio'),
            bears: jsonQuantity(answer.launch.bears / standardGravity, 'ratio'),
          },
        }),
    line: lineData(answer.line),
    dives: divesData(report),
    changes: changes.map(({ name, mass, limitSpeed, first, perGram }) => ({
      name,
      mass: jsonQuantity(mass, 'mass'),
      limitSpeed: jsonQuantity(limitSpeed, 'speed'),
      ...(first === undefined ? {} : { firstThen: first.words }),
      perGram: { value: perGram, unit: 'm/s per g' },
    })),
    described: Object.keys(structure.described),
    joints: jointReports(answer.structure).map(({ surface, name, kept, breaks, crushes, kink }) => ({
      surface,
      name,
      bendingKept: jsonQuantity(kept.bending, 'ratio'),
      torsionKept: jsonQuantity(kept.torsion, 'ratio'),
      breaks: jsonQuantity(breaks, 'torque'),
      crushes: jsonQuantity(crushes, 'torque'),
      kink: jsonQuantity(kink, 'angle'),
    })),
    assumed: [...structure.assumed, ...structure.assumedJoints],
    readings: answer.readings,
    warnings: limitWarnings(answer).map(({ message }) => message),
  };
}
