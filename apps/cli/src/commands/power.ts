import type { Verdict } from '@noonwing/verdict';
import { type PowerPoint, type PowerReport, powerReport } from '@noonwing/verdict/power-report';
import { type CommandModule, exampleText } from '../command.js';
import { exitCode } from '../exit.js';
import { addPlanOptions, addRunOptions } from '../input/plan-options.js';
import { type Answered, answer } from '../input/run.js';
import { jsonBand, jsonQuantity, jsonText } from '../output/json.js';
import { bandText } from '../output/numbers.js';
import { refusalAnswer } from '../output/refusal.js';
import { tableLines, wrapped } from '../output/table.js';
import { problemLines, warningLines } from '../report/aircraft-lines.js';
import { problemData } from '../report/day-json.js';
import { airspeedSentence, levelPowerParts } from '../report/findings.js';
import { sectionsLines, sectionsOf } from '../report/sections.js';
import { traceLines } from '../report/trace.js';
import { heading, type Terminal } from '../terminal.js';

/** `noonwing power`: level power against airspeed, climb and glide. */
export const command: CommandModule = {
  describe: (of) => {
    addRunOptions(addPlanOptions(of.argument('<design>', 'design file'))).addHelpText(
      'after',
      exampleText('noonwing power examples/alondra.yaml', 'noonwing power examples/alondra.yaml --bank 20deg'),
    );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const answered = answer(args[0]!, options, terminal.now());
    if (!answered.ok) return refusalAnswer(answered, terminal, json);
    const { verdict, design, stages } = answered.value;
    const report = powerReport(verdict.prepared, verdict.flight?.bank ?? verdict.prepared.conditions.bank);
    if (json) {
      const curve = report.ok ? curveData(report.value) : { problems: problemData([report]) };
      terminal.out(jsonText({ ok: true, design: design.path, ...levelData(verdict), ...curve }));
    } else {
      terminal.out(heading(terminal, design.aircraft.name));
      const lines = [
        ...levelLines(answered.value, terminal),
        ...(report.ok ? curveLines(report.value, terminal) : ['', ...problemLines([report])]),
      ];
      for (const line of lines) terminal.out(line);
    }
    if (options.trace === true) for (const line of traceLines(stages)) terminal.note(line);
    return exitCode.answer;
  },
};

const degrees = (radians: number): string => `${((180 * radians) / Math.PI).toFixed(0)} deg`;

function levelLines({ design, verdict }: Answered, terminal: Terminal): readonly string[] {
  const { levelPower, flight, problems, warnings } = verdict;
  if (levelPower === undefined || flight === undefined)
    return ['It cannot fly level as described.', ...problemLines(problems)];
  const speed = airspeedSentence(verdict);
  const parts = levelPowerParts(verdict).map(({ label, watts }) => [label, `${watts.toFixed(2)} W`]);
  return [
    ...wrapped(
      `Level power ${bandText(levelPower, 'power')} from the battery in calm air, loads included, at ${degrees(flight.bank)} of bank.`,
      100,
      '',
    ),
    ...(speed === undefined ? [] : wrapped(speed, 100, '')),
    ...sectionsLines(design, sectionsOf(verdict), ''),
    '',
    heading(terminal, 'What takes it'),
    ...tableLines({ rows: parts }),
    ...problemLines(problems),
    ...warningLines(warnings),
  ];
}

function curveLines(report: PowerReport, terminal: Terminal): readonly string[] {
  const { points, leastPower, bestRange, bank, stallSpeed } = report;
  const head = [
    'airspeed',
    'level power',
    'profile',
    'induced',
    'parasite',
    'drive efficiency',
    'throttle',
    'climb',
    'sink',
    'glide',
  ];
  const rows = points.map(({ airspeed, levelPower, flight, climbRate, sinkRate, glideRatio }) => [
    `${airspeed.toFixed(1)} m/s`,
    `${levelPower.toFixed(1)} W`,
    `${flight.trim.profileDrag.toFixed(2)} N`,
    `${flight.trim.inducedDrag.toFixed(2)} N`,
    `${flight.trim.parasiteDrag.toFixed(2)} N`,
    `${(100 * flight.drive.efficiency).toFixed(0)} %`,
    `${(100 * flight.drive.duty).toFixed(0)} %`,
    climbRate === undefined ? 'none' : `${climbRate.toFixed(1)} m/s`,
    `${sinkRate.toFixed(2)} m/s`,
    glideRatio.toFixed(1),
  ]);
  const mark = (name: string, point: PowerPoint | undefined) =>
    point === undefined ? [] : [[name, `${point.airspeed.toFixed(1)} m/s`, `${point.levelPower.toFixed(1)} W`]];
  return [
    '',
    heading(terminal, `Against airspeed, at ${degrees(bank)} of bank`),
    ...tableLines({
      rows: [
        ['stall', `${stallSpeed.toFixed(1)} m/s`, ''],
        ...mark('least power', leastPower),
        ...mark('best range', bestRange),
      ],
    }),
    '',
    ...(rows.length === 0 ? [] : tableLines({ head, rows })),
    ...wrapped(
      `Level power includes ${report.steadyLoads.toFixed(1)} W of loads. Climb is at full throttle, sink and glide with the motor off, both in straight flight.`,
    ),
    ...(report.leftOut === undefined
      ? []
      : [
          rows.length === 0 ? '  No airspeed holds level flight:' : '  Other airspeeds are left out:',
          ...problemLines([report.leftOut]),
        ]),
  ];
}

function levelData(verdict: Verdict) {
  const { levelPower, problems } = verdict;
  return {
    ...(levelPower === undefined
      ? {}
      : {
          levelPower: {
            ...jsonBand(levelPower, 'power'),
            parts: levelPowerParts(verdict).map(({ label, watts }) => ({
              part: label,
              ...jsonQuantity(watts, 'power'),
            })),
          },
        }),
    problems: problemData(problems),
  };
}

function curveData(report: PowerReport) {
  const { leastPower, bestRange } = report;
  return {
    bank: jsonQuantity(report.bank, 'angle'),
    stallSpeed: jsonQuantity(report.stallSpeed, 'speed'),
    loads: jsonQuantity(report.steadyLoads, 'power'),
    ...(leastPower === undefined ? {} : { leastPower: pointData(leastPower) }),
    ...(bestRange === undefined ? {} : { bestRange: pointData(bestRange) }),
    points: report.points.map(pointData),
  };
}

function pointData({ airspeed, levelPower, flight, climbRate, sinkRate, glideRatio }: PowerPoint) {
  const { trim, drive } = flight;
  return {
    airspeed: jsonQuantity(airspeed, 'speed'),
    levelPower: jsonQuantity(levelPower, 'power'),
    profileDrag: jsonQuantity(trim.profileDrag, 'force'),
    inducedDrag: jsonQuantity(trim.inducedDrag, 'force'),
    parasiteDrag: jsonQuantity(trim.parasiteDrag, 'force'),
    angleOfAttack: jsonQuantity(trim.alpha, 'angle'),
    control: jsonQuantity(trim.control, 'angle'),
    driveEfficiency: jsonQuantity(drive.efficiency, 'ratio'),
    throttle: jsonQuantity(drive.duty, 'ratio'),
    ...(climbRate === undefined ? {} : { climbRate: jsonQuantity(climbRate, 'speed') }),
    sinkRate: jsonQuantity(sinkRate, 'speed'),
    glideRatio: jsonQuantity(glideRatio, 'ratio'),
  };
}
