import { lineWords } from '@noonwing/verdict/launch-words';
import {
  bentTexts,
  diveTexts,
  findingText,
  landingText,
  leastWarp,
  marginText,
  type QuantityWords,
  slopText,
  warmTexts,
  warpText,
} from '@noonwing/verdict/limit-words';
import { forwardText, jointText, type LoadSaid, throwText, wireText } from '@noonwing/verdict/load-words';
import { fixed } from '../../../core/decimal.js';
import { lengthWords, massWords, type Said, speedWords } from '../../../core/said.js';
import { shownQuantity } from '../../../core/shown-quantity.js';
import type { LimitsView, StiffeningView } from '../../../core/view-limits-types.js';

/** What a computed limit is worth; shown once in the structure place and on paper. What a club or a country asks is theirs to say. */
export const cautions: readonly string[] = [
  'A computed limit speed is an estimate. Load the wing by hand or with sand first; watch how far it bends and twists.',
  'Approach it in steps, with height, and keep a margin (common practice). Stop where something vibrates or the trim wanders.',
  'Follow the rules of your club and your country.',
];

/** Heights in whole metres, unless another unit is preferred. */
const lengthIn = (height: number, said: Said): string =>
  said.units.length === undefined ? `${Math.round(height)} m` : lengthWords(height, said);

const degreeWords = (angle: number): string => `${Math.round((180 * angle) / Math.PI)}°`;

/** Quantities as the page writes them. */
const wordsOf = (said: Said): QuantityWords => ({
  speed: (value) => speedWords(value, said),
  height: (value) => lengthIn(value, said),
  angle: degreeWords,
  turn: (value) => `${fixed((180 * value) / Math.PI, 1)}°`,
  temperature: (kelvin) => `${Math.round(kelvin - 273.15)} °C`,
});

/** The limit speed with its band and reason. */
export const limitFinding = (view: LimitsView, said: Said): string => findingText(view, wordsOf(said));

/** How the limit compares with the speed flown. */
export const marginWords = (view: LimitsView, said: Said): string => marginText(view, wordsOf(said));

/** How soon a dive without power gets there: one line for each angle. */
export const diveWords = (view: LimitsView, said: Said): readonly string[] =>
  diveTexts(view, view.dives, wordsOf(said));

/** What a warm day does. */
export function heatWords(view: LimitsView, said: Said): readonly string[] {
  const { heat, warm } = view;
  const words = wordsOf(said);
  return [
    ...(heat === undefined || Math.abs(heat.control) < leastWarp ? [] : [warpText(heat, words)]),
    ...(warm === undefined ? [] : warmTexts(view, warm, words)),
  ];
}

const loadSaid = (said: Said): LoadSaid => ({
  speed: (value) => speedWords(value, said),
  force: (value) => shownQuantity({ value }, 'force', said, 2),
  length: (value) => lengthWords(value, said),
  way: (value) => shownQuantity({ value }, 'length', said, 2),
  degrees: degreeWords,
  fine: (value) => `${fixed((180 * value) / Math.PI, 2)}°`,
});

/** What bending, slop, a line and a touchdown do, as far as it is known. */
export function flightWords(
  { bent, slop, landing, allowed, foreAft, launch, line, joints, wires }: LimitsView,
  said: Said,
): readonly string[] {
  const words = wordsOf(said);
  const lines: string[] = bent === undefined ? [] : [...bentTexts(bent, words)];
  if (slop !== undefined) lines.push(slopText(slop, words));
  const loads = loadSaid(said);
  lines.push(...joints.map((joint) => jointText(joint, loads)));
  lines.push(...wires.map((wire) => wireText(wire, loads)));
  if (allowed !== undefined && foreAft !== undefined) lines.push(forwardText(foreAft, allowed, loads));
  if (launch !== undefined) lines.push(throwText(launch, loads));
  if (line !== undefined) lines.push(...lineWords(line, loads));
  if (landing !== undefined) lines.push(landingText(landing, words));
  return lines;
}

/** A change in one line. */
export function stiffeningWords({ name, mass, limitSpeed, first, perMass }: StiffeningView, said: Said): string {
  const gain = `+ ${shownQuantity({ value: perMass * 0.01 }, 'speed', said, 2)} for each 10 g`;
  const then = first === undefined ? 'no limit is left' : `then ${first} comes first`;
  return `${name}: + ${massWords(mass, said)}, limit speed ${speedWords(limitSpeed, said)} (${gain}); ${then}`;
}
