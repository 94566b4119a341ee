import { hourText } from '@noonwing/drawing';
import type { BalanceView, FacetShape, ShapeView } from '../../core/view.js';
import type { Attitude, Vector } from './frames.js';

const degrees = (angle: number): number => Math.round((angle * 180) / Math.PI);

/** A bearing from north, clockwise, 0 to 359 degrees. */
export const bearing = (angle: number): number => ((degrees(angle) % 360) + 360) % 360;

const points = ['north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west'] as const;

/** Nearest of eight compass points. */
export const compassPoint = (angle: number): string => points[Math.round(bearing(angle) / 45) % 8]!;

/** "top, left"; "top, left, below" */
export const facetName = ({ row, side, face }: Pick<FacetShape, 'row' | 'side' | 'face'>): string => {
  const half = new RegExp(`\\b${side}\\b`).test(row) ? row : `${row}, ${side}`;
  return face === 'lower' ? `${half}, below` : half;
};

/** "640 W/m²" */
export const lightText = (light: number): string =>
  Number.isFinite(light) ? `${Math.round(light)} W/m²` : 'not known';

/** Elevation and azimuth of a direction east, north, up [rad]. */
export const sunAngles = ([east, north, up]: Vector): { readonly elevation: number; readonly azimuth: number } => ({
  elevation: Math.asin(Math.min(1, Math.max(-1, up))),
  azimuth: Math.atan2(east, north),
});

/** Indices of the patches of cells with most and least light; undefined without cells. */
export function lightEnds(light: ArrayLike<number>): { readonly most: number; readonly least: number } | undefined {
  let most = -1;
  let least = -1;
  for (let i = 0; i < light.length; i++) {
    const value = light[i]!;
    if (!Number.isFinite(value)) continue;
    if (most < 0 || value > light[most]!) most = i;
    if (least < 0 || value < light[least]!) least = i;
  }
  return most < 0 ? undefined : { most, least };
}

export interface Described {
  readonly name: string;
  readonly shape: ShapeView;
  readonly at: number;
  readonly attitude: Attitude;
  readonly sun?: { readonly elevation: number; readonly azimuth: number } | undefined;
  /** By facet [W/m2]; absent while it is computed. */
  readonly light?: ArrayLike<number> | undefined;
  readonly balance?: BalanceView | undefined;
}

function sunWords(sun: Described['sun']): string {
  if (sun === undefined) return 'the place of the sun is not known yet';
  const height = degrees(sun.elevation);
  if (sun.elevation <= 0) return `the sun is ${Math.abs(height)}° below the horizon`;
  return `the sun stands ${height}° above the horizon in the ${compassPoint(sun.azimuth)} (azimuth ${bearing(sun.azimuth)}°)`;
}

function lightWords({ shape, light }: Described): string {
  if (shape.facets.length === 0) return 'No cells.';
  if (light === undefined || light.length !== shape.facets.length) return 'The light on the cells is being computed.';
  const ends = lightEnds(light);
  if (ends === undefined) return 'The light on the cells is not known.';
  const [most, least] = [shape.facets[ends.most]!, shape.facets[ends.least]!];
  const [high, low] = [lightText(light[ends.most]!), lightText(light[ends.least]!)];
  if (high === low) return `All cells get ${high}.`;
  return `Most light: ${facetName(most)}, ${high}; least: ${facetName(least)}, ${low}.`;
}

function balanceWords(balance: BalanceView | undefined): string {
  if (balance === undefined) return '';
  const ahead = Math.round(1000 * (balance.neutralPoint - balance.balancePoint.x));
  if (!Number.isFinite(ahead)) return '';
  if (ahead === 0) return ' The balance point (CG) is at the neutral point.';
  return ` The balance point (CG) is ${Math.abs(ahead)} mm ${ahead > 0 ? 'ahead of' : 'behind'} the neutral point.`;
}

/** What the picture shows, in words. */
export function describe(given: Described): string {
  const { attitude } = given;
  const bank = degrees(attitude.bank);
  const wing = bank === 0 ? '' : `, banked ${Math.abs(bank)}° to the ${bank > 0 ? 'right' : 'left'}`;
  const heading = `${given.name} at ${hourText(given.at)}, heading ${bearing(attitude.heading)}° (${compassPoint(attitude.heading)})${wing}`;
  return `${heading}; ${sunWords(given.sun)}. ${lightWords(given)}${balanceWords(given.balance)}`;
}
