import { assumedCount, offsetText } from '@noonwing/design';
import { formatPlace, formatQuantity } from '@noonwing/quantities';
import { measurementsOf, type SkyVerdict, type Verdict } from '@noonwing/verdict';
import type { Answered } from '../input/run.js';
import { clockText, dateText } from '../output/clock.js';
import { bandText, durationBand, durationRange, percent } from '../output/numbers.js';
import { tableLines, wrapped } from '../output/table.js';
import { heading, type Terminal } from '../terminal.js';
import { balanceLine, problemLines, warningLines } from './aircraft-lines.js';
import { cautionLines } from './cautions.js';
import {
  airspeedSentence,
  enduranceWords,
  flyable,
  levelPowerParts,
  limitSentence,
  limitsOf,
  skyFinding,
} from './findings.js';
import { sectionsLines, sectionsOf } from './sections.js';
import { withoutFlight } from './without-flight.js';

/** The answer of `day`: findings first, then the numbers behind them. */
export function dayLines(answered: Answered, terminal: Terminal): readonly string[] {
  const { verdict, day, design } = answered;
  const title = (text: string) => ['', heading(terminal, text)];
  const parts: (readonly string[])[] = [titleLines(answered, terminal), day.notes];
  if (!flyable(verdict)) parts.push([...title('It cannot fly as described'), ...problemLines(verdict.problems)]);
  if (verdict.flight === undefined) {
    parts.push([...title('What can be said all the same'), ...restLines(answered), ...knownLimitLines(verdict)]);
  } else {
    const question = flyable(verdict)
      ? 'Does sunlight alone carry it?'
      : 'Would sunlight alone carry it, once that is cured?';
    parts.push([...title(question), ...findingLines(verdict)]);
    if (flyable(verdict) && verdict.problems.length > 0) {
      parts.push([...title('What does not work'), ...problemLines(verdict.problems)]);
    }
    parts.push([...title('The day in numbers'), ...figureLines(verdict)]);
    parts.push([
      ...title(verdict.prepared.run.pack.kind === 'none' ? 'Sun and need through the day' : 'Charge through the day'),
      ...courseLines(verdict),
    ]);
    parts.push([...title('What limits it'), ...limitLines(verdict)]);
    parts.push([...title('Level power'), ...powerLines(answered)]);
    if (verdict.contributions.length > 0) parts.push([...title('How sure is that?'), ...sureLines(verdict)]);
  }
  const warnings = warningLines(verdict.warnings);
  if (warnings.length > 0) parts.push([...title('Look at'), ...warnings]);
  parts.push(['', ...assumedLines(answered), '', ...cautionLines(design.aircraft)]);
  return parts.flat();
}

function titleLines({ design, day }: Answered, terminal: Terminal): readonly string[] {
  const { plan } = day;
  const where = plan.placeName === undefined ? formatPlace(plan) : `${plan.placeName} (${formatPlace(plan)})`;
  const days = plan.days > 1 ? `, ${plan.days} days` : '';
  return [
    heading(terminal, design.aircraft.name),
    `${where}, ${dateText(plan.date)}${days}, clock UTC${offsetText(plan.utcOffset)}`,
  ];
}

function findingLines(verdict: Verdict): readonly string[] {
  return verdict.skies.flatMap((sky) => wrapped(`${sky.run.sky.name}: ${skyFinding(sky, verdict)}`, 100, '  ', '    '));
}

function figureLines(verdict: Verdict): readonly string[] {
  const battery = verdict.prepared.run.pack.kind !== 'none';
  const row = (label: string, value: (sky: SkyVerdict) => string) => [label, ...verdict.skies.map(value)];
  const rows = [
    row('carried, first day', (sky) => durationBand(sky.carried)),
    row('from launch to empty', (sky) => enduranceWords(sky, verdict)),
    ...(verdict.samples === 0
      ? []
      : [row('', (sky) => (sky.run.figures.endurance === undefined ? '' : bracketed(durationRange(sky.endurance))))]),
    ...(battery
      ? [
          row('lowest charge (minimum state of charge)', (sky) =>
            bandText(sky.lowestCharge, 'ratio', { unit: '%', mostDecimals: 0 }),
          ),
          row('left at dawn (excess time)', (sky) =>
            sky.leftAtDawn === undefined ? 'empty before dawn' : durationBand(sky.leftAtDawn),
          ),
          row('full before dusk (charge margin)', (sky) =>
            sky.run.figures.fullBeforeDusk > 0 ? durationBand(sky.fullBeforeDusk) : 'never full',
          ),
        ]
      : []),
    row('best income over need (solar ratio)', (sky) => bandText(sky.bestRatio, 'ratio', { unit: '' })),
  ];
  const left = verdict.skies.map((_, i) => i + 1);
  return tableLines({
    head: ['', ...verdict.skies.map((sky) => sky.run.sky.name)],
    rows: rows.filter((cells) => cells.some((cell) => cell !== '')),
    left,
  });
}

const bracketed = (text: string): string => (text === '' ? '' : `(${text})`);

const blocks = ' ▁▂▃▄▅▆▇█';
const block = (share: number): string => blocks[Math.max(0, Math.min(8, Math.round(8 * share)))]!;

/** Hour by hour: power from the sun and need under the first sky, charge under each. */
function courseLines(verdict: Verdict): readonly string[] {
  const { grid, prepared, skies } = verdict;
  const { utcOffset } = prepared.plan;
  const first = skies[0]!.run;
  const step = grid.times[1]! - grid.times[0]!;
  const perHour = Math.max(1, Math.round(3600 / step));
  const from = Math.max(0, Math.ceil((prepared.run.launch - grid.times[0]!) / step));
  const last = Math.max(lastLitStep(verdict), ...skies.map(({ run }) => lastStep(run.course.emptyAt, verdict)));
  const stride = perHour * Math.max(1, Math.ceil((last - from) / perHour / 26));
  const battery = prepared.run.pack.kind !== 'none';
  const rows: string[][] = [];
  for (let i = Math.ceil(from / perHour) * perHour; i <= last; i += stride) {
    const at = Math.min(i, grid.sun.time.length - 1);
    const charge = skies.map(({ run }) =>
      i > lastStep(run.course.emptyAt, verdict) ? 'empty' : percent(run.course.stateOfCharge[i]!),
    );
    rows.push([
      clockText(grid.times[i]!, utcOffset),
      first.offered[at]!.toFixed(1),
      first.need[at]!.toFixed(1),
      ...(battery ? charge : []),
    ]);
  }
  const bars = skies.map(({ run }) => {
    const hours = Array.from({ length: Math.floor((last - from) / perHour) + 1 }, (_, h) => from + h * perHour);
    const marks = hours.map((i) =>
      i > lastStep(run.course.emptyAt, verdict) ? '·' : block(run.course.stateOfCharge[i]!),
    );
    return `  ${run.sky.name.padEnd(14)} ${marks.join('')}`;
  });
  const head = [
    'clock',
    `sun, ${first.sky.name} [W]`,
    'need [W]',
    ...(battery ? skies.map(({ run }) => `charge, ${run.sky.name}`) : []),
  ];
  return [
    ...(battery ? [...bars, `  ${'hour by hour'.padEnd(14)} from ${clockText(grid.times[from]!, utcOffset)}`] : []),
    ...tableLines({ head, rows }),
  ];
}

/** Step of the end of the flight, or the last of the days computed. */
function lastStep(emptyAt: number | undefined, { grid }: Verdict): number {
  const steps = grid.times.length - 1;
  if (emptyAt === undefined) return steps;
  return Math.min(steps, Math.ceil((emptyAt - grid.times[0]!) / (grid.times[1]! - grid.times[0]!)));
}

/** Last step of the first day with sun: what it would give is shown even after the flight has ended. */
function lastLitStep({ grid }: Verdict): number {
  let last = 0;
  for (let i = 0; i < grid.stepsPerDay; i++) if (grid.sun.up[i]! > 0) last = i;
  return last;
}

function knownLimitLines(verdict: Verdict): readonly string[] {
  const limit = limitSentence(verdict);
  return limit === undefined ? [] : wrapped(limit);
}

function limitLines(verdict: Verdict): readonly string[] {
  const bySky = verdict.skies.map((sky) => ({ name: sky.run.sky.name, found: limitsOf(sky, verdict) }));
  const lines = bySky.flatMap(({ name, found }) =>
    found.flatMap((text) => wrapped(`${name}: ${text}`, 100, '  ', '    ')),
  );
  return lines.length > 0 ? lines : ['  Nothing within the days computed.'];
}

function powerLines(answered: Answered): readonly string[] {
  const { verdict } = answered;
  const { levelPower, prepared } = verdict;
  const parts = levelPowerParts(verdict);
  const factor = prepared.run.airFactor.midday;
  const speed = airspeedSentence(verdict);
  return [
    `  ${bandText(levelPower!, 'power')} from the battery in calm air, loads included${verdict.samples > 0 ? '; the band holds nine times in ten' : ''}.`,
    ...(speed === undefined ? [] : wrapped(speed)),
    ...knownLimitLines(verdict),
    ...sectionsLines(answered.design, sectionsOf(verdict)),
    ...tableLines({ rows: parts.map(({ label, watts }) => [label, `${watts.toFixed(2)} W`]) }, '    '),
    ...wrapped(
      `Turbulence, control activity and height hold multiply the drive's part by ${prepared.run.airFactor.night.toFixed(2)} at night and ${factor.toFixed(2)} at midday.`,
    ),
    `  ${balanceLine(verdict)}`,
    ...prepared.measured.map(({ stage, source }) => `  Measured (${stage}): ${source}.`),
  ];
}

function sureLines(verdict: Verdict): readonly string[] {
  const biggest = verdict.contributions.filter(({ share }) => share >= 0.005).slice(0, 3);
  const cheapest = measurementsOf(verdict).filter(({ share }) => share >= 0.005);
  return [
    '  Most of the doubt comes from:',
    ...tableLines(
      {
        rows: biggest.map(({ input, effect, share }) => [
          input.label,
          `moves the solar ratio by ± ${percent(Math.abs(effect), Math.abs(effect) < 0.1 ? 1 : 0)}`,
          `${percent(share)} of the doubt`,
        ]),
      },
      '    ',
    ),
    ...(cheapest.length === 0 ? [] : ['  What would settle most for the least work:']),
    ...tableLines(
      {
        rows: cheapest.map(({ what, minutes, share }) => [
          what,
          `about ${minutes} min`,
          `up to ${percent(share)} of the doubt`,
        ]),
      },
      '    ',
    ),
    ...weatherLines(verdict),
  ];
}

/** What the named skies mean, kept apart from the confidence in the aircraft. */
function weatherLines({ skies }: Verdict): readonly string[] {
  const meaning = skies.map(({ run: { sky } }) =>
    sky.indexSigma > 0
      ? `${sky.name} lets through ${percent(sky.clearSkyIndex)} ± ${percent(sky.indexSigma)} of clear light`
      : `${sky.name} is a cloudless sky with the haze of the month`,
  );
  return wrapped(
    `The weather is another matter: ${meaning.join(', ')}, from one such day to another; how likely such a day is, the forecast has to say.`,
  );
}

/** What holds without a flight: mass, sun, income, battery. */
function restLines(answered: Answered): readonly string[] {
  const { prepared, grid } = answered.verdict;
  const { harvests, stored } = withoutFlight(answered);
  const up = grid.sun.up.subarray(0, grid.stepsPerDay);
  const lit = up.filter((sine) => sine > 0).length * (grid.times[1]! - grid.times[0]!);
  const highest = Math.asin(Math.min(1, Math.max(-1, Math.max(...up))));
  const sun =
    lit > 0
      ? `The sun is up for ${(lit / 3600).toFixed(1)} h and reaches ${formatQuantity({ value: highest }, 'angle', { digits: 2 })} above the horizon.`
      : 'The sun does not rise on that day.';
  const battery =
    prepared.run.pack.kind === 'none'
      ? 'There is no battery.'
      : `The battery stores ${(stored / 3600).toFixed(0)} Wh that can be used, at ${prepared.conditions.busVoltage.toFixed(1)} V half charged.`;
  const noIncome =
    answered.design.aircraft.array === undefined
      ? 'There are no solar cells'
      : 'What the cells give could not be computed';
  const income = harvests.map(
    ({ sky, most, mostAt, energy, eightHours }) =>
      `${sky}: up to ${most.toFixed(1)} W (${clockText(mostAt, prepared.plan.utcOffset)}) and ${(energy / 3600).toFixed(0)} Wh in the day; eight hours would be carried at a need of ${eightHours.toFixed(1)} W, loads included`,
  );
  return [
    `  ${balanceLine(answered.verdict)}`,
    `  ${sun}`,
    `  ${battery}`,
    ...(income.length === 0 ? [`  ${noIncome}.`] : ['  The cells would give:']),
    ...income.flatMap((text) => wrapped(text, 100, '    ', '      ')),
  ];
}

function assumedLines({ design, day }: Answered): readonly string[] {
  const all = [...design.assumptions, ...day.assumptions];
  if (all.length === 0) return ['Nothing was assumed.'];
  const words = assumedCount(all);
  return [`${words.charAt(0).toUpperCase()}${words.slice(1)}; 'noonwing check ${design.path}' lists them.`];
}
