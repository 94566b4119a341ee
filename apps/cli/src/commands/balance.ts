import { formatQuantity } from '@noonwing/quantities';
import { type BalanceReport, pitchControlWords, type Verdict } from '@noonwing/verdict';
import { type CommandModule, exampleText } from '../command.js';
import { exitCode } from '../exit.js';
import type { LoadedDesign } from '../input/design.js';
import { addCommonOptions, addPlanOptions } from '../input/plan-options.js';
import { answerForAircraft } from '../input/run.js';
import { jsonQuantity, jsonText } from '../output/json.js';
import { percent } from '../output/numbers.js';
import { refusalAnswer } from '../output/refusal.js';
import { tableLines, wrapped } from '../output/table.js';
import { balanceLine, problemLines, warningLines } from '../report/aircraft-lines.js';
import { problemData } from '../report/day-json.js';
import { controlsRemedy } from '../report/sections.js';
import { heading, type Terminal } from '../terminal.js';

/** `noonwing balance`: the aircraft as a beam on its balance point, and how to bring that where it belongs. */
export const command: CommandModule = {
  describe: (of) => {
    addCommonOptions(addPlanOptions(of.argument('<design>', 'design file'))).addHelpText(
      'after',
      exampleText('noonwing balance examples/bandeja.yaml'),
    );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const answered = answerForAircraft(args[0]!, options, terminal.now());
    if (!answered.ok) return refusalAnswer(answered, terminal, json);
    const { verdict, design, day } = answered.value;
    if (json) terminal.out(jsonText({ ok: true, design: design.path, ...balanceData(verdict) }));
    else {
      terminal.out(heading(terminal, design.aircraft.name));
      for (const line of [...day.notes, ...balanceLines(verdict, design, terminal)]) terminal.out(line);
    }
    return exitCode.answer;
  },
};

const mm = (metres: number): string => `${(1000 * metres).toFixed(0)} mm`;
const mmBand = (value: number, sigma: number): string => `${mm(value)} ± ${mm(sigma)}`;

function balanceLines(verdict: Verdict, design: LoadedDesign, terminal: Terminal): readonly string[] {
  const report = verdict.balance;
  if (report === undefined) {
    return [
      balanceLine(verdict),
      'Neutral point and range need an airframe with masses: describe surfaces and masses.',
      ...problemLines(verdict.problems),
    ];
  }
  const { sum, range, forwardSigma, warnings, problem } = report;
  const title = (text: string) => ['', heading(terminal, text)];
  const found = problem === undefined ? [] : problemLines([problem]);
  return [
    ...wrapped(`${finding(report)}`, 100, ''),
    ...found,
    ...title('Balance'),
    ...tableLines({
      left: [1],
      rows: [
        ['mass', formatQuantity({ value: sum.mass, sigma: sum.uncertainty.mass }, 'mass')],
        ['  of it not weighed, growth included', formatQuantity({ value: sum.assumedMass }, 'mass')],
        ['balance point (CG), aft of the datum', mmBand(sum.x, sum.uncertainty.x)],
        ['  in the mean chord', percent((sum.x - report.meanChordStart) / report.meanChord)],
        ['neutral point, aft of the datum', mm(report.neutralPoint)],
        [
          'static margin, of the mean chord',
          `${percent(report.staticMargin, 1)} ± ${percent(report.staticMarginSigma, 1)}`,
        ],
        ['mean chord', mm(report.meanChord)],
        [
          'balance point may lie',
          range.width > 0
            ? `from ${mmBand(range.forward, forwardSigma)} to ${mm(range.aft)}`
            : 'nowhere: no point is both stable and in trim',
        ],
      ],
    }),
    ...title('Pitch control'),
    ...controlLines(report, design),
    ...title('Where the battery goes'),
    ...batteryLines(report),
    ...cellLines(report),
    ...title('The beam, nose to tail'),
    ...beamLines(report),
    ...warningLines(warnings),
  ];
}

function finding({ staticMargin, problem }: BalanceReport): string {
  if (staticMargin < 0) return 'Unstable as it is.';
  if (problem !== undefined) return 'Stable, but outside the range in which it should be flown.';
  return 'It balances: stable, and the control can trim it.';
}

/** "117 mm aft of the datum", "326 mm ahead of the datum". */
const station = (x: number): string => `${mm(Math.abs(x))} ${x < 0 ? 'ahead' : 'aft'} of the datum`;

function batteryLines({ battery, problem, staticMargin }: BalanceReport): readonly string[] {
  if (battery === undefined) return ['  There is no battery to move.'];
  const { placement } = battery;
  const fine = problem === undefined && staticMargin >= 0;
  const now = `It is ${station(battery.x)} now${fine ? ', and the aircraft balances with it there' : ''}.`;
  if (placement === undefined) {
    return [...wrapped(now), ...problemLines(battery.problem === undefined ? [] : [battery.problem])];
  }
  const { wanted, x, ballast } = placement;
  const aim = `A static margin of 10 % puts it ${station(wanted)}`;
  if (ballast === undefined) return wrapped(`${now} ${aim}.`);
  return wrapped(
    `${now} ${aim}, where it does not fit; with it ${station(x)}, the last place that it fits, ${Math.ceil(1000 * ballast.mass)} g of ballast ${station(ballast.x)} make up the rest.`,
  );
}

function controlLines({ controls }: BalanceReport, design: LoadedDesign): readonly string[] {
  if (controls.length === 0) return ['  There is none: only one airspeed trims by itself.'];
  const remedy = controls.some(({ computed }) => !computed) ? controlsRemedy(design) : undefined;
  return [
    ...controls.flatMap((control) => wrapped(pitchControlWords(control))),
    ...(remedy === undefined ? [] : wrapped(remedy)),
  ];
}

function cellLines({ cellEffect }: BalanceReport): readonly string[] {
  if (cellEffect === undefined) return [];
  const { mass, shift, batteryMove } = cellEffect;
  const direction = (metres: number) => (metres < 0 ? 'forward' : 'aft');
  const undone =
    batteryMove === undefined ? '' : `; the battery ${mm(Math.abs(batteryMove))} ${direction(batteryMove)} undoes that`;
  return wrapped(
    `Two more cells on the first row (${formatQuantity({ value: mass }, 'mass')}) move the balance point ${(1000 * Math.abs(shift)).toFixed(1)} mm ${direction(shift)}${undone}.`,
  );
}

/** Items with a bar whose length is their pull about the balance point. */
function beamLines({ beam }: BalanceReport): readonly string[] {
  const most = Math.max(1e-9, ...beam.loads.map(({ moment }) => Math.abs(moment)));
  const rows = beam.loads.map(({ name, x, mass, moment, source }) => [
    mm(x),
    formatQuantity({ value: mass }, 'mass', { unit: 'g', digits: mass < 0.1 ? 2 : 3 }),
    `${moment < 0 ? 'nose' : 'tail'} ${(1000 * Math.abs(moment)).toFixed(1)} kg mm`,
    '#'
      .repeat(Math.max(moment === 0 ? 0 : 1, Math.round((20 * Math.abs(moment)) / most)))
      .replaceAll('#', moment < 0 ? '<' : '>'),
    name,
    source,
  ]);
  return [
    ...tableLines({ head: ['at', 'mass', 'pulls the', '', 'item', ''], rows }),
    `  The beam rests at ${mm(beam.balancePoint)}.`,
  ];
}

function balanceData(verdict: Verdict) {
  const report = verdict.balance;
  const problems = problemData(verdict.problems);
  if (report === undefined) return { problems };
  const { sum, range, battery, cellEffect } = report;
  const { placement } = battery ?? {};
  const length = (value: number, sigma?: number) => jsonQuantity(value, 'length', sigma);
  return {
    mass: jsonQuantity(sum.mass, 'mass', sum.uncertainty.mass),
    assumedMass: jsonQuantity(sum.assumedMass, 'mass'),
    balancePoint: { x: length(sum.x, sum.uncertainty.x), y: length(sum.y), z: length(sum.z) },
    inertia: {
      roll: jsonQuantity(sum.inertia.xx, 'moment of inertia', sum.uncertainty.xx),
      pitch: jsonQuantity(sum.inertia.yy, 'moment of inertia', sum.uncertainty.yy),
      yaw: jsonQuantity(sum.inertia.zz, 'moment of inertia', sum.uncertainty.zz),
    },
    neutralPoint: length(report.neutralPoint),
    staticMargin: jsonQuantity(report.staticMargin, 'ratio', report.staticMarginSigma),
    meanChord: length(report.meanChord),
    range: { forward: length(range.forward, report.forwardSigma), aft: length(range.aft), width: length(range.width) },
    ...(placement === undefined
      ? {}
      : {
          battery: {
            now: length(battery!.x),
            wanted: length(placement.wanted),
            place: length(placement.x),
            ...(placement.ballast === undefined
              ? {}
              : { ballast: { mass: jsonQuantity(placement.ballast.mass, 'mass'), x: length(placement.ballast.x) } }),
          },
        }),
    ...(cellEffect === undefined
      ? {}
      : {
          twoMoreCells: {
            mass: jsonQuantity(cellEffect.mass, 'mass'),
            shift: length(cellEffect.shift),
            ...(cellEffect.batteryMove === undefined ? {} : { batteryMove: length(cellEffect.batteryMove) }),
          },
        }),
    pitchControls: report.controls.map(({ name, reynolds, efficiency, computed, gap, trim, trimBand }) => ({
      name,
      reynolds: jsonQuantity(Math.round(reynolds), 'count'),
      effectiveness: jsonQuantity(efficiency.value, 'ratio', efficiency.spread),
      lostToLayer: jsonQuantity(efficiency.lostToLayer, 'ratio'),
      computed,
      lostToGap: jsonQuantity(efficiency.lostToGap, 'ratio'),
      gap: length(gap),
      ...(trim === undefined || trimBand === undefined
        ? {}
        : {
            trim: jsonQuantity(trim, 'angle'),
            trimLow: jsonQuantity(trimBand.low, 'angle'),
            trimHigh: jsonQuantity(trimBand.high, 'angle'),
          }),
    })),
    beam: report.beam.loads.map(({ name, x, mass, source }) => ({
      item: name,
      x: length(x),
      mass: jsonQuantity(mass, 'mass'),
      source,
    })),
    problems: [...problems, ...(report.problem === undefined ? [] : problemData([report.problem]))],
  };
}
