import type { SectionGeometry } from '@noonwing/engine/section';
import { TURBULENCE, type Turbulence } from '@noonwing/engine/section';
import { type Attempt, ready } from '../exit.js';
import { type Options, typed } from './plan-options.js';
import { airOf, geometryOf, numberOf } from './polar.js';

/** A section with the flat cell that is laid on it. Lengths [m]. */
export interface SectionRequest {
  readonly geometry: SectionGeometry;
  readonly chord: number;
  readonly cell: number;
}

/** What a section for flat cells is asked for. */
export interface FlatsRequest extends SectionRequest {
  readonly count?: number;
  readonly edge: number;
  readonly reynolds: number;
  readonly lift: number;
  readonly air: Turbulence;
  readonly critical: number;
  readonly moment?: number;
  readonly thickness?: number;
  readonly tries: number;
}

export function sectionRequest(name: string, options: Options): Attempt<SectionRequest> {
  const geometry = geometryOf(name);
  if (!geometry.ok) return geometry;
  const chord = numberOf(options, 'chord', 'length', [0.02, 5], 'a length such as 250mm');
  if (!chord.ok) return chord;
  const cell = numberOf(options, 'cell', 'length', [0.002, 1], 'a width such as 62mm');
  if (!cell.ok) return cell;
  return ready({ geometry: geometry.value, chord: chord.value, cell: cell.value });
}

/** Number of an option that may be left out. */
function maybe(options: Options, ...rest: readonly [string, 'ratio' | 'count', readonly [number, number], string]) {
  return typed(options, rest[0]) === undefined ? ready(undefined) : numberOf(options, ...rest);
}

/** Everything the layout of flats needs, or what is wrong with what was typed. */
export function flatsRequest(name: string, options: Options): Attempt<FlatsRequest> {
  const section = sectionRequest(name, options);
  if (!section.ok) return section;
  const count = maybe(options, 'count', 'count', [1, 20], 'a number of flats from 1 to 20');
  if (!count.ok) return count;
  const edge = numberOf(options, 'edge', 'length', [0, 0.02], 'a height such as 0.3mm');
  if (!edge.ok) return edge;
  const reynolds = numberOf(options, 'reynolds', 'count', [4e4, 2e6], 'a number from 40000 to 2000000');
  if (!reynolds.ok) return reynolds;
  const lift = numberOf(options, 'lift', 'ratio', [-0.5, 1.5], 'a lift coefficient such as 0.6');
  if (!lift.ok) return lift;
  const moment = maybe(options, 'moment', 'ratio', [-0.4, 0.2], 'a moment coefficient such as -0.05');
  if (!moment.ok) return moment;
  const thickness = maybe(options, 'thickness', 'ratio', [0.05, 0.25], 'a share of the chord such as 9%');
  if (!thickness.ok) return thickness;
  const tries = numberOf(options, 'tries', 'count', [1, 2000], 'a number from 1 to 2000');
  if (!tries.ok) return tries;
  const air = airOf(options);
  if (!air.ok) return air;
  return ready({
    ...section.value,
    ...(count.value === undefined ? {} : { count: Math.round(count.value) }),
    edge: edge.value,
    reynolds: reynolds.value,
    lift: lift.value,
    air: air.value,
    critical: TURBULENCE[air.value].critical,
    ...(moment.value === undefined ? {} : { moment: moment.value }),
    ...(thickness.value === undefined ? {} : { thickness: thickness.value }),
    tries: Math.round(tries.value),
  });
}
