import type { KeptStiffness } from '@noonwing/engine/structure';
import { leastMargin } from './held-speed.js';

/** How an edge of the program writes quantities: the page in the units that are preferred, the command line in plain characters. */
export interface QuantityWords {
  readonly speed: (value: number) => string;
  readonly height: (value: number) => string;
  /** In whole degrees. */
  readonly angle: (value: number) => string;
  /** In tenths of a degree, without a sign. */
  readonly turn: (value: number) => string;
  /** In whole degrees Celsius. */
  readonly temperature: (kelvin: number) => string;
}

/** A limit as it is told; frequency of a vibration in Hz. */
export interface ToldLimit {
  readonly kind: string;
  readonly words: string;
  readonly airspeed: number;
  readonly low: number;
  readonly high: number;
  readonly frequency?: number;
}

/** Limits with the airspeed that margins refer to [m/s]. */
export interface ToldLimits {
  /** Lowest lower edge first. */
  readonly limits: readonly ToldLimit[];
  readonly airspeed: number;
  /** It cannot fly level as it is: the airspeed is not flown. */
  readonly undriven: boolean;
  readonly searchedTo: number;
}

const one = (value: number): string => value.toFixed(1);

/** The limit speed with its band and reason. */
export function findingText({ limits, searchedTo }: ToldLimits, { speed }: QuantityWords): string {
  const [first] = limits;
  if (first === undefined) return `No limit was found up to ${speed(searchedTo)}.`;
  const rate = first.frequency === undefined ? '' : `, ${one(first.frequency)} vibrations a second`;
  return `Limit speed ${speed(first.low)}: ${first.words}${rate}. Best estimate ${speed(first.airspeed)}, at most ${speed(first.high)}; the lower edge is what counts.`;
}

/** How the limit compares with the airspeed flown, or with that at which it was looked for; empty where there is no limit. */
export function marginText({ limits, airspeed, undriven }: ToldLimits, { speed }: QuantityWords): string {
  const [first] = limits;
  if (first === undefined) return '';
  const times = first.low / airspeed;
  if (undriven) {
    const place =
      times < 1 ? `${one(1 / times)} times the limit speed` : `the limit speed is ${one(times)} times as high`;
    return `It cannot fly level as it is, so that nothing is flown too fast yet: limits were looked for at ${speed(airspeed)}, which a dive or a line gets to; ${times < 1 ? `that is ${place}` : place}.`;
  }
  const flown = `the ${speed(airspeed)} flown`;
  if (times < 1) return `It is flown above its limit: ${flown} are ${one(1 / times)} times the limit speed.`;
  const room = `${one(times)} times ${flown}, ${speed(first.low - airspeed)} of room`;
  return times < leastMargin ? `Too close for gusts and errors: ${room}.` : `That is ${room}.`;
}

/** How soon a dive gets to the limit; `steady` is where drag stops it getting faster. */
export interface ToldDive {
  readonly angle: number;
  readonly time?: number;
  readonly height?: number;
  readonly steady?: number;
}

/** One line for each dive. */
export function diveTexts(
  { limits, airspeed }: ToldLimits,
  dives: readonly ToldDive[],
  words: QuantityWords,
): readonly string[] {
  const [first] = limits;
  if (first === undefined) return [];
  if (first.low <= airspeed) return ['There is no room below the limit speed: nothing is left to dive into.'];
  return dives.map(({ angle, time, height, steady }) => {
    const end =
      time !== undefined && height !== undefined
        ? `${one(time)} s and ${words.height(height)} of height`
        : steady === undefined
          ? 'it slows down'
          : `never; drag holds it at ${words.speed(steady)}`;
    return `${words.angle(angle)} nose down: ${end}`;
  });
}

/** What bending by its own lift changes: factors, and the pitch control, up negative [rad]; static margin in chords. */
export interface ToldBending {
  readonly inducedDrag: number;
  readonly levelPower: number;
  readonly stallSpeed: number;
  readonly control: number;
  readonly staticMargin: number;
}

const change = (factor: number): string => `${factor < 1 ? '-' : '+'}${one(Math.abs(100 * (factor - 1)))} %`;

const turned = (angle: number, { turn }: QuantityWords): string =>
  `${turn(Math.abs(angle))} ${angle < 0 ? 'up' : 'down'}`;

/** Bent by its own lift, against the same aircraft held stiff. */
export const bentTexts = (
  { inducedDrag, levelPower, stallSpeed, control, staticMargin }: ToldBending,
  words: QuantityWords,
): readonly string[] => [
  `Bent by its own lift: induced drag ${change(inducedDrag)}, which changes the level power by ${change(levelPower)}; stall speed ${change(stallSpeed)}.`,
  `The trimmed pitch control moves ${turned(control, words)}, the static margin by ${one(100 * staticMargin)} % of the chord. Level power and stall of a day leave that out.`,
];

/** angle - half of the free travel [rad]; airspeed - half of the range that it trims [m/s] */
export const slopText = (
  { angle, airspeed }: { readonly angle: number; readonly airspeed: number },
  { turn, speed }: QuantityWords,
): string =>
  `Within the slop of its linkages, ${turn(angle)} to either side, the trimmed airspeed wanders by ${speed(airspeed)} to either side.`;

/** What a top that is warmer by so many kelvin does to the trim. */
export const warpText = (
  { difference, control }: { readonly difference: number; readonly control: number },
  words: QuantityWords,
): string =>
  `A top ${difference.toFixed(0)} K warmer than the bottom moves the trimmed pitch control ${turned(control, words)}.`;

/** Less than this nobody would trim [rad]. */
export const leastWarp = 0.001;

/** A touchdown: load factor, and the sink rate [m/s] that ends within a way [m]. */
export const landingText = (
  {
    loadFactor,
    sinkRate,
    stoppedWithin,
  }: { readonly loadFactor: number; readonly sinkRate: number; readonly stoppedWithin: number },
  { speed }: QuantityWords,
): string =>
  `On skid or belly the wing's own inertia bends its tips down: it bears ${loadFactor.toFixed(0)} g, which is ${speed(sinkRate)} of sink ended evenly within ${(1000 * stoppedWithin).toFixed(0)} mm (judgement: grass).`;

/** What has softened, at its warmest place. */
export interface ToldMaterial extends KeptStiffness {
  readonly name: string;
}

/** The limit that comes first in the sun. */
export interface ToldWarmth {
  /** Top and bottom of the wing [K]. */
  readonly top: number;
  readonly bottom: number;
  readonly softer: readonly ToldMaterial[];
  readonly first?: ToldLimit;
}

const percent = (share: number): string => (100 * share).toFixed(0);

/** Materials that keep all but a hundredth are not worth a word. */
const leastLoss = 0.01;

function softerText(softer: readonly ToldMaterial[]): string {
  const lost = softer.filter(({ kept }) => 1 - kept >= leastLoss);
  if (lost.length === 0) return ', where hardly anything softens';
  const each = lost.map(
    ({ name, kept, low, high }, i) =>
      `${name} ${i === 0 ? 'keeps ' : ''}${percent(kept)} %${i === 0 ? ' of its stiffness' : ''} (${percent(low)} to ${percent(high)} %)`,
  );
  return `, where ${each.join(', ')}`;
}

function warmLimitText(told: ToldLimits, { first }: ToldWarmth, { speed }: QuantityWords): string {
  if (first === undefined) return `no limit was found up to ${speed(told.searchedTo)}`;
  const [cold] = told.limits;
  const reason = cold?.kind === first.kind ? 'for the same reason' : first.words;
  const instead = cold === undefined ? '' : ` instead of ${speed(cold.low)}`;
  return `the limit speed is then ${speed(first.low)}${instead}, ${reason}`;
}

/** What the noon sun does to the limit: warm in flight, and parked in it and thrown at once. */
export function warmTexts(
  told: ToldLimits,
  { flight, parked }: { readonly flight: ToldWarmth; readonly parked: ToldWarmth },
  words: QuantityWords,
): readonly string[] {
  const { temperature } = words;
  const at = (of: ToldWarmth) => `${temperature(of.top)}${softerText(of.softer)}; ${warmLimitText(told, of, words)}.`;
  return [
    `In flight in the noon sun, air at ${temperature(flight.bottom)}, its top comes to ${at(flight)} A day holds its airspeed below the lower of both.`,
    `Parked in that sun its top comes to ${at(parked)} Let it cool in the shade before a launch.`,
    'Solved anew with the wing as soft as that and bent by its warm top. How much materials soften is common practice or from memory.',
  ];
}
