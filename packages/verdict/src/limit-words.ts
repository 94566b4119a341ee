import type { KeptStiffness } from '@noonwing/engine/structure';
import { leastMargin } from './held-speed.js';

/** How an edge of the program writes quantities: the page in the units that are preferred, the command line in plain characters. */
export interface QuantityWords {
  readonly speed: (value: number) => string;
  readonly height: (value: number) => string;
  /** In whole degrees. */
  readonly angle: (value: number) => string;
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
