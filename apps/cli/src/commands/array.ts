import { type ArrayLosses, arrayLosses } from '@noonwing/verdict/array-losses';
import { type BusOfDay, busOfDay } from '@noonwing/verdict/bus-day';
import { type CellsOfDay, cellsOfDay } from '@noonwing/verdict/cells-day';
import { cellsNow } from '@noonwing/verdict/cells-now';
import { type WiringPlan, wiringPlan } from '@noonwing/verdict/wiring';
import { wiringFinding } from '@noonwing/verdict/wiring-words';
import { type CommandModule, exampleText } from '../command.js';
import { exitCode } from '../exit.js';
import { readInstant } from '../input/instant.js';
import { addCommonOptions, addPlanOptions, typed } from '../input/plan-options.js';
import { type Answered, answer } from '../input/run.js';
import { writeDrawing } from '../output/drawing.js';
import { jsonQuantity, jsonText } from '../output/json.js';
import { percent } from '../output/numbers.js';
import { refusalAnswer } from '../output/refusal.js';
import { tableLines, wrapped } from '../output/table.js';
import { problemLines } from '../report/aircraft-lines.js';
import { lossData, lossLines } from '../report/array-losses.js';
import { cellsDrawing, nowData, nowLines } from '../report/cells-now.js';
import { problemData } from '../report/day-json.js';
import { secondsData, secondsLines } from '../report/seconds.js';
import { heading, type Terminal } from '../terminal.js';

const hour = 3600;

/** `noonwing array`: every cell where it lies, the energy of its day, and what shades it. */
export const command: CommandModule = {
  describe: (of) => {
    addCommonOptions(addPlanOptions(of.argument('<design>', 'design file')))
      .option('--hour <time>', 'also cells and strings at this hour of the clock, such as 11:30')
      .option('--heading <angle>', 'flown at that hour, from north clockwise', '0 deg')
      .option(
        '--picture <file>',
        'writes the cells on their unrolled surfaces as a drawing (SVG): energy of the day, or light at --hour',
      )
      .option('--layout', 'lay the cells anew: which rows on wing and tail give most energy on this day')
      .option('--write <number>', 'with --layout: write the design with the layout of that number to standard output')
      .option('--wiring', 'adds the wiring in few lines; the whole plan comes from noonwing wiring')
      .addHelpText(
        'after',
        exampleText(
          'noonwing array examples/bandeja.yaml --sky clear',
          'noonwing array examples/alondra.yaml --layout --write 1 > laid.yaml',
          'noonwing array examples/bandeja.yaml --sky clear --hour 09:00 --heading 90deg --picture cells.svg',
        ),
      );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    if (options.layout === true) return (await import('./array-layout.js')).layout(args[0]!, options, terminal);
    const asked = readInstant(options);
    if (!asked.ok) return refusalAnswer(asked, terminal, json);
    const answered = answer(args[0]!, { ...options, samples: '0' }, terminal.now());
    if (!answered.ok) return refusalAnswer(answered, terminal, json);
    const { verdict } = answered.value;
    const found = cellsOfDay(verdict, 0);
    const bus = busOfDay(verdict, 0);
    const losses = arrayLosses(verdict, 0);
    const instant = asked.value;
    const now = instant === undefined ? undefined : cellsNow(verdict, 0, instant);
    const { model, plan: day } = verdict.prepared;
    const wiring = options.wiring === true ? wiringPlan(model, day) : undefined;
    const out = typed(options, 'picture');
    if (out !== undefined && found !== undefined) {
      const written = writeDrawing(out, cellsDrawing(answered.value, found, instant, now));
      if (!written.ok) return refusalAnswer(written, terminal, json);
    }
    if (json) {
      const data =
        found === undefined
          ? { problems: problemData(verdict.problems) }
          : {
              findings: findings(answered.value, bus),
              ...arrayData(found),
              ...lossData(losses),
              ...secondsData(answered.value, bus),
              ...(now === undefined ? {} : nowData(now)),
            };
      terminal.out(jsonText({ ok: true, design: answered.value.design.path, ...data, ...wiringData(wiring) }));
      return exitCode.answer;
    }
    for (const line of arrayLines(found, { bus, losses }, answered.value, terminal)) terminal.out(line);
    if (instant !== undefined && now !== undefined) for (const line of nowLines(instant, now)) terminal.out(line);
    for (const line of wiringLines(wiring, args[0]!)) terminal.out(line);
    for (const line of nextLines(args[0]!, now !== undefined)) terminal.out(line);
    if (out !== undefined && found !== undefined) terminal.note(`The drawing is in ${out}.`);
    return exitCode.answer;
  },
};

/** What to ask next. */
const nextLines = (path: string, hasInstant: boolean): readonly string[] => [
  '',
  `Other strings and layouts by their energy: noonwing array ${path} --layout`,
  ...(hasInstant ? [] : [`Every string at an hour of the day: noonwing array ${path} --hour 12:00`]),
];

/** The wiring in few lines. */
const wiringLines = (plan: WiringPlan | undefined, path: string): readonly string[] =>
  plan === undefined
    ? []
    : [
        '',
        ...wrapped(`Wiring: ${wiringFinding(plan)} ${plan.cautions[0] ?? ''}`, 100, ''),
        ...plan.strings.map(
          ({ name, gauge, length, loss, connector }) =>
            `  ${name}: AWG ${gauge}, ${length.toFixed(2)} m, ${loss.toFixed(2)} W lost; ${connector}`,
        ),
        `The whole plan, for print too: noonwing wiring ${path} --out wiring.svg`,
      ];

const wiringData = (plan: WiringPlan | undefined) =>
  plan === undefined
    ? {}
    : {
        wiring: {
          finding: wiringFinding(plan),
          strings: plan.strings.map(({ name, gauge, length, loss, connector }) => ({
            name,
            gauge: `AWG ${gauge}`,
            length: jsonQuantity(length, 'length'),
            loss: jsonQuantity(loss, 'power'),
            connector,
          })),
          cautions: plan.cautions,
        },
      };

/** What was found: cells that do not fit or bend too far, trackers on a lower maximum, a bus too low, bursts above a rating. */
const findings = ({ verdict }: Answered, bus: BusOfDay | undefined) =>
  [...verdict.warnings.filter(({ code }) => /^(cells|tracker|strings)-/.test(code)), ...(bus?.warnings ?? [])].map(
    ({ message, where }) => ({ message, ...(where === undefined ? {} : { where }) }),
  );

interface RowSum {
  readonly row: string;
  readonly side: string;
  readonly face: string;
  readonly electricity: readonly number[];
  readonly light: number;
  readonly shade: number;
  readonly warmest: number;
}

function rowSums({ cells }: CellsOfDay): readonly RowSum[] {
  const keys = [...new Set(cells.map(({ cell }) => `${cell.row}\n${cell.side}\n${cell.face}`))];
  return keys.map((key) => {
    const [row, side, face] = key.split('\n') as [string, string, string];
    const own = cells.filter(({ cell }) => cell.row === row && cell.side === side && cell.face === face);
    return {
      row,
      side,
      face,
      electricity: own.map(({ electricity }) => electricity),
      light: own.reduce((sum, { light }) => sum + light, 0),
      shade: own.reduce((sum, { shade }) => sum + shade, 0),
      warmest: own.reduce((most, { warmest }) => Math.max(most, warmest), 0),
    };
  });
}

const wattHours = (joules: number): string => (joules / hour).toFixed(1);
const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

function arrayLines(
  found: CellsOfDay | undefined,
  { bus, losses }: { readonly bus: BusOfDay | undefined; readonly losses: ArrayLosses | undefined },
  answered: Answered,
  terminal: Terminal,
): readonly string[] {
  const name = heading(terminal, answered.design.aircraft.name);
  if (found === undefined) {
    return [name, 'There is no light on single cells:', ...problemLines(answered.verdict.problems)];
  }
  const { cells, casters } = found;
  const area = total(cells.map(({ cell }) => cell.area));
  const [electricity, shade] = [cells.map((cell) => cell.electricity), total(cells.map((cell) => cell.shade))];
  const open = total(cells.map(({ light }) => light)) + shade;
  const least = cells.reduce((worst, cell) => (cell.electricity < worst.electricity ? cell : worst));
  const mean = total(electricity) / cells.length;
  const under = mean > 0 ? 1 - least.electricity / mean : 0;
  const sums = rowSums(found);
  // The side is said where a row lies on both halves, and not again where its name says it.
  const isBoth = (row: string) => new Set(sums.filter((one) => one.row === row).map(({ side }) => side)).size > 1;
  const rows = sums.map(({ row, side, face, electricity: own, light, shade: lost, warmest }) => [
    `${row}${isBoth(row) ? `, ${side}` : ''}${face === 'lower' ? ', below' : ''}`,
    String(own.length),
    wattHours(total(own)),
    own.map((joules) => wattHours(joules)).join(' '),
    percent(lost / Math.max(light + lost, 1), 1),
    (warmest - 273.15).toFixed(0),
  ]);
  return [
    name,
    `${found.sky}: ${cells.length} cells, ${area.toFixed(3)} m2, could give ${wattHours(total(electricity))} Wh in the day, each at its own maximum; shade takes ${percent(shade / Math.max(open, 1), 1)} of the light.`,
    ...offeredLine(answered),
    ...wrapped(
      `Least: cell ${least.cell.index + 1} of row "${least.cell.row}", ${least.cell.side}, ${percent(under, 1)} under the mean.`,
    ),
    ...gathered(findings(answered, bus)).flatMap((line) => wrapped(line, 100, '  ', '    ')),
    '',
    ...tableLines({
      head: ['row', 'cells', 'Wh', 'Wh of each cell, from the root', 'shade', 'hottest degC'],
      rows,
      left: [0, 3],
    }),
    ...casters
      .filter(({ energy }) => energy >= 5e-5 * open)
      .map(({ name: caster, energy }) => `Shade of "${caster}": ${wattHours(energy)} Wh of direct light.`),
    ...lossLines(losses, terminal),
    '',
    ...secondsLines(answered, bus),
  ];
}

/** What strings and converters make of it in the first day. */
function offeredLine({ verdict }: Answered): readonly string[] {
  const run = verdict.skies[0]?.run;
  if (run === undefined) return [];
  const { times, stepsPerDay } = verdict.grid;
  const day = run.offered.subarray(0, stepsPerDay).reduce((sum, watts) => sum + Math.max(0, watts), 0);
  return [`Through strings and converters ${wattHours(day * (times[1]! - times[0]!))} Wh of it can reach the battery.`];
}

/** Findings as lines; what is said of several rows or converters is said once. */
function gathered(found: ReturnType<typeof findings>): readonly string[] {
  const places = new Map<string, string[]>();
  for (const { message, where = 'array' } of found) places.set(message, [...(places.get(message) ?? []), where]);
  return [...places].map(([message, at]) => `${at.join(', ')}: ${message}.`);
}

function arrayData(found: CellsOfDay) {
  return {
    sky: found.sky,
    cells: found.cells.map(({ cell, light, shade, warmest, electricity }) => ({
      row: cell.row,
      cell: jsonQuantity(cell.index + 1, 'count'),
      side: cell.side,
      face: cell.face,
      surface: cell.surface,
      area: jsonQuantity(cell.area, 'area'),
      aft: jsonQuantity(cell.centre[0], 'length'),
      right: jsonQuantity(cell.centre[1], 'length'),
      up: jsonQuantity(cell.centre[2], 'length'),
      // Outward, in body axes.
      facing: {
        forward: jsonQuantity(cell.normal[0], 'ratio'),
        right: jsonQuantity(cell.normal[1], 'ratio'),
        down: jsonQuantity(cell.normal[2], 'ratio'),
      },
      ...(cell.bendRadius === undefined ? {} : { bendRadius: jsonQuantity(cell.bendRadius, 'length') }),
      light: jsonQuantity(light, 'energy'),
      shade: jsonQuantity(shade, 'energy'),
      hottest: jsonQuantity(warmest, 'temperature'),
      electricity: jsonQuantity(electricity, 'energy'),
    })),
    casters: found.casters.map(({ name, energy }) => ({ name, energy: jsonQuantity(energy, 'energy') })),
  };
}
