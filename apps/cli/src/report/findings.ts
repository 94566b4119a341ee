import { incomeAt } from '@noonwing/engine/day';
import { confidenceWords, type SkyVerdict, type Verdict } from '@noonwing/verdict';
import { clockOnDay, clockText } from '../output/clock.js';
import type { Band } from '../output/numbers.js';
import { durationText, percent } from '../output/numbers.js';

/** One part of the level power [W]. */
export interface PowerPart {
  readonly label: string;
  readonly watts: number;
}

/** Level power by what takes it, loads included; parts add up to it. Empty where it is only stated. */
export function levelPowerParts({ flight, prepared }: Verdict): readonly PowerPart[] {
  if (flight === undefined) return [];
  const loads = { label: 'loads that are always on', watts: prepared.conditions.steadyLoads };
  const { chosen } = flight;
  if (chosen === undefined) return [{ label: 'drive, as stated', watts: flight.drivePower }, loads];
  const { trim, drive } = chosen.flight;
  const work = (drag: number) => (drive.thrust * trim.airspeed * drag) / trim.drag;
  const parts = [
    { label: 'profile drag of wing and tail', watts: work(trim.profileDrag) },
    { label: 'induced drag', watts: work(trim.inducedDrag) },
    { label: 'drag of fuselage, gaps and fittings', watts: work(trim.parasiteDrag) },
    { label: 'lost in the propeller', watts: drive.losses.propeller },
    { label: 'lost in the gear', watts: drive.losses.gear },
    { label: 'lost in the motor', watts: drive.losses.motor },
    { label: 'lost in the speed controller (ESC)', watts: drive.losses.controller },
    { label: 'difference of the known from the computed power', watts: flight.drivePower - chosen.flight.levelPower },
    loads,
  ];
  return parts.filter(({ watts }) => Math.abs(watts) > 1e-9);
}

const halfWidth = ({ low, high }: Band): number => (high - low) / 2;

/** "each ± 30 min", or both ends where they differ by more than a third; empty without uncertainty. */
function edgeText(start: Band, end: Band): string {
  const [a, b] = [halfWidth(start), halfWidth(end)].map((seconds) => Math.max(5, Math.round(seconds / 300) * 5));
  if (halfWidth(start) === 0 && halfWidth(end) === 0) return '';
  return Math.abs(a! - b!) > Math.max(a!, b!) / 3
    ? ` (± ${a} min, ± ${b} min)`
    : ` (each about ± ${Math.max(a!, b!)} min)`;
}

/** The finding of one sky, without its name: 'carried 09:36 to 18:24 (each about ± 35 min), about 9 in 10'. */
export function skyFinding(sky: SkyVerdict, verdict: Verdict): string {
  const { utcOffset } = verdict.prepared.plan;
  const { start, end, run } = sky;
  if (start === undefined || end === undefined) return notCarried(sky, verdict);
  const more = run.figures.windows.filter((window) => window.start < verdict.grid.dayEnd).length - 1;
  const others = more > 0 ? `; ${more} shorter ${more === 1 ? 'stretch' : 'stretches'} besides` : '';
  const sure = verdict.samples === 0 ? '' : `, ${confidenceWords(sky.confidence)}`;
  return `carried ${clockText(start.value, utcOffset)} to ${clockText(end.value, utcOffset)}${edgeText(start, end)}${sure}${others}`;
}

function notCarried(sky: SkyVerdict, verdict: Verdict): string {
  const { prepared, grid } = verdict;
  const { bestRatio, bestRatioAt } = sky.run.figures;
  if (prepared.model.complete.array === undefined) return 'not carried: the aircraft has no solar cells';
  if (prepared.run.array === undefined) return 'not carried as far as can be said: the array could not be computed';
  if (!(grid.greatestSine[0]! > 0)) return 'not carried: the sun does not rise';
  if (!(bestRatio > 0)) return 'not carried: no power reaches the battery all day';
  const reach = `income reaches at most ${percent(bestRatio)} of need (${clockText(bestRatioAt, prepared.plan.utcOffset)})`;
  const chance =
    verdict.samples > 0 && sky.confidence > 0
      ? `; it may be carried for a while all the same: ${confidenceWords(sky.confidence)}`
      : '';
  return `not carried: ${reach}${chance}`;
}

const limitWords: Readonly<Record<string, string>> = {
  empty: 'the battery is used up',
  'cut-off voltage': 'a cell falls to its lowest voltage under load',
  'discharge current': 'the battery cannot give the current',
  'maximum power': 'the battery cannot give the power',
  'discharge power': 'the battery cannot give the power',
  'no battery': 'there is no battery, and the sun no longer gives enough',
};

/** What limits the day under one sky, in sentences. */
export function limitsOf(sky: SkyVerdict, verdict: Verdict): readonly string[] {
  const { prepared } = verdict;
  const { figures, course } = sky.run;
  const { utcOffset, midnight } = prepared.plan;
  const found: string[] = [];
  if (figures.longest === undefined && figures.bestRatio > 0) {
    const more = percent(1 / figures.bestRatio - 1);
    const less = percent(1 - figures.bestRatio);
    found.push(`${more} more income, or ${less} less power for flight and loads, would carry it at the best moment.`);
  }
  if (course.emptyAt !== undefined) found.push(endOfFlight(course.emptyAt, sky, verdict));
  if (course.fullAt !== undefined) {
    const lost = curtailedEnergy(sky, verdict) / 3600;
    found.push(
      `From ${clockOnDay(course.fullAt, utcOffset, midnight)} the battery takes less than the sun gives; ${lost.toFixed(0)} Wh of the first day stay unused.`,
    );
  }
  for (const reason of converterLimits(sky, verdict)) found.push(`At noon the converter is held by ${reason}.`);
  return found;
}

/** When the flight ends and why; one that cannot begin at its launch hears when it could. */
function endOfFlight(emptyAt: number, { run }: SkyVerdict, { prepared, grid }: Verdict): string {
  const { utcOffset, midnight } = prepared.plan;
  const { figures, course } = run;
  if ((figures.endurance ?? 0) < grid.times[1]! - grid.times[0]! && prepared.run.pack.kind === 'none') {
    const { longest } = figures;
    const when =
      longest === undefined
        ? ''
        : `; launched at ${clockText(longest.start, utcOffset)} it would fly until ${clockText(longest.end, utcOffset)}`;
    return `There is no battery, and at the launch (${clockText(emptyAt, utcOffset)}) the sun does not carry it${when}.`;
  }
  const why = limitWords[course.emptyBecause ?? ''] ?? 'the bus cannot be held up';
  return `The flight ends at ${clockOnDay(emptyAt, utcOffset, midnight)}: ${why}.`;
}

/** Offered but not accepted on the first day [J]. */
function curtailedEnergy(sky: SkyVerdict, { grid }: Verdict): number {
  let energy = 0;
  for (let i = 0; i < grid.stepsPerDay; i++)
    energy += sky.run.course.curtailed[i]! * (grid.times[i + 1]! - grid.times[i]!);
  return energy;
}

const usualReasons = ['the light on the cells', 'no light', 'too little light to run the converter'];

/** What holds the converters back at the best instant of the day, other than the light itself. */
function converterLimits(sky: SkyVerdict, { prepared, grid }: Verdict): readonly string[] {
  const { array, busVoltage } = prepared.run;
  const { maxima, figures } = sky.run;
  if (array === undefined || maxima === undefined || !(figures.bestRatio > 0)) return [];
  const step = Math.min(
    grid.sun.time.length - 1,
    Math.max(0, Math.floor((figures.bestRatioAt - grid.times[0]!) / (grid.times[1]! - grid.times[0]!))),
  );
  const { reasons } = incomeAt(array, maxima, step, busVoltage > 0 ? busVoltage : prepared.conditions.busVoltage);
  return [...new Set(reasons)].filter((reason) => !usualReasons.includes(reason));
}

const reasonWords = {
  stated: 'as stated',
  'least power': 'the airspeed of least power',
  'stall floor': 'kept above the stall',
  'limit speed': 'held at the limit speed of the structure',
} as const;

/** Why the airspeed is what it is, as a sentence; undefined where the level power is only stated. */
export function airspeedSentence({ flight }: Verdict): string | undefined {
  const chosen = flight?.chosen;
  if (chosen === undefined) return undefined;
  const speed = `${chosen.flight.trim.airspeed.toFixed(1)} m/s`;
  const bank = `${(((flight?.bank ?? 0) * 180) / Math.PI).toFixed(0)} deg`;
  const stall = `stall at ${chosen.stallSpeed.toFixed(1)} m/s in the ${bank} of bank flown`;
  if (chosen.reason === 'least power') return `Flown at ${speed}, the airspeed of least power (${stall}).`;
  const cost =
    chosen.cost >= 0.05
      ? `, which costs ${chosen.cost.toFixed(1)} W over the least at ${chosen.leastPowerSpeed.toFixed(1)} m/s`
      : '';
  const why = reasonWords[chosen.reason];
  return `Flown at ${speed}, ${why}${cost} (${stall}).`;
}

/** The limit speed that the day was flown under, with its reason, as a sentence; undefined where none is known. */
export function limitSentence({ limit, flight }: Verdict): string | undefined {
  if (limit === undefined) return undefined;
  const { airspeed, words, without, assumed, warmTop } = limit;
  const margin =
    flight === undefined ? 'whatever drives it' : `${(airspeed / flight.airspeed).toFixed(1)} times the airspeed flown`;
  const left = without === undefined ? '' : ` (${without} not looked at: --limits does)`;
  const basis = assumed ? ', its structure partly assumed' : '';
  const warm = warmTop === undefined ? '' : ` in the noon sun, its top at ${(warmTop - 273.15).toFixed(0)} C`;
  return `Limit speed ${airspeed.toFixed(1)} m/s${warm}, ${margin}${basis}: ${words}${left}.`;
}

/** Endurance in words. */
export function enduranceWords(sky: SkyVerdict, verdict: Verdict): string {
  const { figures } = sky.run;
  if (figures.endurance === undefined) return `not empty after ${durationText(figures.horizon)}`;
  if (sky.endurance.high >= figures.horizon && verdict.samples > 0) {
    return `${durationText(figures.endurance)}, perhaps beyond ${durationText(figures.horizon)}`;
  }
  return durationText(figures.endurance);
}

/** Whether it flies at all: a flight was found, and the aircraft is stable. */
export const flyable = ({ flight, problems }: Verdict): boolean =>
  flight !== undefined && !problems.some(({ code }) => code === 'unstable');
