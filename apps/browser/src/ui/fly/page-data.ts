import type { BeamData, FirstFlightData as PageData, PageFigure } from '@noonwing/drawing';
import { fixed } from '../../core/decimal.js';
import type { FirstFlightData } from '../../core/first-flight.js';
import { lengthWords, massWords, speedWords, unitOnce } from '../../core/said.js';
import type { Preferences } from '../../core/state.js';
import type { AssumptionView, BeamLoadView, VerdictView } from '../../core/view.js';
import { shownAs, words } from '../day/shown.js';
import { clockText, dateText, durationText } from '../shell/clock.js';
import { percentText, skyTitle, wattsText } from '../shell/words.js';

type Units = Pick<Preferences, 'units' | 'language'>;

/** Short, each once; what a club or a country asks is theirs to say. */
export const cautions: readonly string[] = [
  'Ask place, club and country what they require; an observer watches the sky.',
  'Check balance and control throws on the day.',
  'Stand behind the propeller; cells in light are always live.',
  'Lithium cells: land with charge left, look at them before charging.',
  'Come home at the reserve, whatever the sun does.',
  'A computed limit speed is an estimate: load the wing first, approach it in steps, keep a margin.',
];

/** Charge to land with at the latest, of the full battery; field practice, no source. */
export const reserve = 0.2;

/** In words: where the balance point is, where it may be, what to do. */
export function balanceWords(data: FirstFlightData, units: Units): string {
  const { balance } = data;
  if (balance === undefined) return 'The design has no airframe: there is no balance point to show.';
  const station = (x: number) => lengthWords(x, units);
  const share = (value: number) => percentText(value);
  const range = `Keep the balance point (CG) between ${station(balance.forward)} and ${station(balance.aft)} aft of the datum, ${share(balance.forwardOfChord)} to ${share(balance.aftOfChord)} of the mean chord.`;
  const at = `It is ${balance.inside ? 'at' : 'OUTSIDE, at'} ${unitOnce(`${station(balance.point)} ± ${station(balance.sigma)}`)} (${share(balance.pointOfChord)}).`;
  const battery = balance.battery === undefined ? '' : ` Battery at ${station(balance.battery)}.`;
  return `${range} ${at}${battery}`;
}

/** Loads that a beam of a few centimetres on paper can name. */
const mostLoads = 3;

type Load = Pick<BeamLoadView, 'name' | 'x' | 'mass' | 'weighed'>;

/** The heaviest loads by name, the others as one at their common station: mass and balance point stay the same. */
export function fewLoads(loads: readonly Load[]): readonly Load[] {
  if (loads.length <= mostLoads + 1) return loads;
  const sorted = [...loads].sort((a, b) => b.mass - a.mass);
  const [named, others] = [sorted.slice(0, mostLoads), sorted.slice(mostLoads)];
  const mass = others.reduce((sum, one) => sum + one.mass, 0);
  if (!(mass > 0)) return named;
  const moment = others.reduce((sum, one) => sum + one.mass * one.x, 0);
  const weighed = others.every((one) => one.weighed);
  return [...named, { name: `${others.length} others`, x: moment / mass, mass, weighed }];
}

/** The beam of the page: what has weight, in the units of the person. */
export function beamOf(view: VerdictView, units: Units): BeamData {
  const { balance } = view;
  const mass = shownAs(
    'mass',
    'mass',
    balance?.mass !== undefined && balance.mass >= 10 ? balance.mass : 0.1,
    units,
    0,
  );
  const position = shownAs('length', 'aft of the datum', 0.1, units, units.units.length === undefined ? 0 : 1);
  if (balance === undefined) return { position: position.measure, mass: mass.measure, items: [] };
  return {
    position: position.measure,
    mass: mass.measure,
    items: fewLoads(balance.loads).map(({ name, x, mass: own, weighed }, i) => ({
      id: `${i} ${name}`,
      label: name,
      x: position.of(x),
      mass: mass.of(own),
      assumed: !weighed,
    })),
    balance: { x: position.of(balance.balancePoint.x), sigma: position.of(balance.balanceSigma) - position.of(0) },
    neutral: { x: position.of(balance.neutralPoint) },
    allowed: [position.of(balance.range.forward), position.of(balance.range.aft)],
    meanChord: {
      leadingEdge: position.of(balance.meanChordStart),
      chord: position.of(balance.meanChord) - position.of(0),
    },
  };
}

/** How fast it may fly and why, or that this is not known. */
export function limitFigure({ limit, limitUnknown }: FirstFlightData, units: Units): PageFigure {
  if (limit === undefined) return { label: 'Limit', value: 'not known', note: limitUnknown ?? '' };
  return {
    label: 'Limit',
    value: speedWords(limit.speed, units),
    note: limit.warm === undefined ? limit.words : `${limit.words}; ${speedWords(limit.warm, units)} in the noon sun`,
    ...(limit.assumed ? { assumed: true } : {}),
  };
}

export function speedFigures(data: FirstFlightData, units: Units): readonly PageFigure[] {
  const { speeds, levelPower } = data;
  if (speeds === undefined) return [];
  const speed = (value: number) => speedWords(value, units);
  return [
    {
      label: 'Stall',
      value: speed(speeds.stallStraight ?? speeds.stall),
      note:
        speeds.stallStraight === undefined
          ? 'in the circle flown'
          : `straight; ${speed(speeds.stall)} in the circle flown`,
    },
    { label: 'Least power', value: speed(speeds.leastPower) },
    {
      label: 'Flown',
      value: speed(speeds.flown),
      ...(levelPower === undefined
        ? {}
        : { note: `${wattsText(levelPower.value)}, ${wattsText(levelPower.low)} to ${wattsText(levelPower.high)}` }),
    },
    ...(speeds.bestRange === undefined ? [] : [{ label: 'Best range', value: speed(speeds.bestRange) }]),
    limitFigure(data, units),
  ];
}

export function throttleFigure({ throttle }: FirstFlightData, units: Units): PageFigure | undefined {
  if (throttle === undefined) return undefined;
  const climb =
    throttle.climb === undefined ? '' : `; full throttle climbs ${words(throttle.climb, 'speed', units, 2)}`;
  return {
    label: 'Throttle, level',
    value: percentText(throttle.level),
    note: `${fixed(throttle.batteryCurrent, 1)} A from the battery${climb}`,
  };
}

export function windFigure({ wind }: FirstFlightData, units: Units): PageFigure {
  const speed = (value: number) => words(value, 'speed', units, 2);
  const gusts = wind.gusts === undefined ? '' : `, gusts ${speed(wind.gusts)}`;
  return {
    label: 'Wind, at most',
    value: wind.most === undefined ? 'not known' : speed(wind.most),
    note: `mean at flying height, to come home against it; plan: ${speed(wind.expected)}${gusts}`,
  };
}

/** Time in the air until the charge is at the reserve, under one sky: a part of the endurance where the battery gives out. */
export function enduranceFigure(view: VerdictView, skyIndex: number): PageFigure | undefined {
  const sky = view.skies[skyIndex] ?? view.skies[0];
  if (sky === undefined) return undefined;
  if (!view.hasBattery) return { label: 'Endurance', value: 'only in sun', note: 'no battery' };
  const at = reserveAt(view, skyIndex);
  if (at === undefined) {
    return {
      label: 'Endurance',
      value: 'reserve not reached',
      note: `${skyTitle(sky)}, within the days computed`,
    };
  }
  return {
    label: `Until ${percentText(reserve)} are left`,
    value: durationText(Math.max(0, at - view.launch)),
    note: `${skyTitle(sky)}, land by ${clockText(at)}; empty at ${sky.emptyAt === undefined ? 'no time computed' : clockText(sky.emptyAt)}`,
  };
}

/** When the charge first falls to the reserve after launch [h]. */
export function reserveAt(view: Pick<VerdictView, 'times' | 'launch' | 'skies'>, skyIndex: number): number | undefined {
  const sky = view.skies[skyIndex] ?? view.skies[0];
  if (sky === undefined) return undefined;
  const { times, launch } = view;
  for (let i = 0; i < times.length; i++) {
    if (times[i]! >= launch && sky.charge[i]! <= reserve) return times[i];
  }
  return undefined;
}

export const sunFigures = ({ skies }: FirstFlightData): readonly PageFigure[] =>
  skies.map(({ name, start, end, confidence }) => ({
    label: `Carried, ${skyTitle({ name })}`,
    value: start === undefined || end === undefined ? 'not carried' : `${clockText(start)} to ${clockText(end)}`,
    note: confidence,
  }));

/** Lines of what is only assumed that fit the page. */
const mostAssumed = 7;

export const assumedLine = ({ name, text }: AssumptionView): string => `${name}: ${text}`;

/** What is assumed, and what speaks against a first flight, which stands first. */
function assumedLines(data: FirstFlightData): readonly string[] {
  const lines = data.onlyAssumed.map(assumedLine);
  const rest = lines.length - mostAssumed;
  return rest > 0 ? [...lines.slice(0, mostAssumed), `and ${rest} more of ${lines.length} values`] : lines;
}

/** The printable page. footer - when it was made */
export function pageData(
  view: VerdictView,
  data: FirstFlightData,
  sky: number,
  units: Units,
  footer: string,
): PageData {
  const throttle = throttleFigure(data, units);
  const endurance = enduranceFigure(view, sky);
  const against = data.against.length === 0 ? [] : [`Not yet: ${data.against.join('; ')}.`];
  return {
    aircraft: data.aircraft,
    place: data.place,
    date: dateText(data.date),
    ...(data.mass === undefined
      ? {}
      : {
          configuration: `${unitOnce(`${massWords(data.mass.value, units)} ± ${massWords(data.mass.sigma, units)}`)} ready to fly`,
        }),
    balance: beamOf(view, units),
    balanceWords: balanceWords(data, units),
    speeds: speedFigures(data, units),
    ...(throttle === undefined ? {} : { throttle }),
    wind: windFigure(data, units),
    ...(endurance === undefined ? {} : { endurance }),
    sun: sunFigures(data),
    assumed: assumedLines(data),
    cautions: [...against, ...cautions],
    footer,
  };
}
