import type { AllowedLoad, ForeAftFlight, WirePull } from '@noonwing/engine/aeroelastic';
import type { JointReport } from '@noonwing/engine/structure';
import type { LaunchLoad } from './launch.js';

/** How an edge of the program writes numbers of loads. */
export interface LoadSaid {
  readonly speed: (value: number) => string;
  readonly force: (value: number) => string;
  /** Of small lengths and places, and of ways. */
  readonly length: (value: number) => string;
  readonly way: (value: number) => string;
  /** In whole degrees, and in hundredths of one. */
  readonly degrees: (value: number) => string;
  readonly fine: (value: number) => string;
}

/** [m/s2] */
const gravity = 9.80665;
const one = (value: number): string => value.toFixed(1);
const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;

const placeText = (y: number, { length }: LoadSaid): string => (y > 0.05 ? `${length(y)} out` : 'at the root');

/** What a joint keeps and bears. */
export function jointText(
  { surface, name, y, kept, breaks, crushes, kink }: JointReport & { readonly surface: string },
  said: LoadSaid,
): string {
  const play = kink > 0 ? `; play lets the panels kink by ${said.fine(kink)}` : '';
  return `${surface}, joint ${name}, ${placeText(y, said)}: over its length ${percent(kept.bending)} of the bending and ${percent(kept.torsion)} of the torsional stiffness are left; the joiner breaks at ${one(breaks)} N m, its socket is crushed at ${one(crushes)} N m${play}.`;
}

/** What bending forward does to a pull-up. */
export const forwardText = (
  { tilt, without, loadFactor, reason, y }: ForeAftFlight,
  allowed: Pick<AllowedLoad, 'up'>,
  said: LoadSaid,
): string =>
  `In a full pull-up the chord stands ${said.degrees(tilt)} above the path, and its lift bends the wing forward too: alone that breaks it at ${one(loadFactor)} g (${placeText(y, said)}, ${reason}); with it the wing bears ${one(allowed.up)} g, without it ${one(without)} g.`;

/** What a throw by hand asks of the wings, and what they bear. */
export function throwText({ speed, way, needs, bears, y, reason }: LaunchLoad, said: LoadSaid): string {
  const g = (acceleration: number) => one(acceleration / gravity);
  const borne = bears > 50 * gravity ? 'more than 50 g' : `${g(bears)} g`;
  const less = bears < needs ? ', which is less' : '';
  return `Thrown by hand to ${said.speed(speed)} within ${said.way(way)} it is pushed with ${g(needs)} g, and its wings lag behind: fore and aft they bear ${borne}${less} (${placeText(y, said)}, ${reason}).`;
}

/** What a bracing wire does in normal flight. */
export const wireText = ({ name, surface, tension, breaks }: WirePull, { force }: Pick<LoadSaid, 'force'>): string =>
  `Wire ${name} of ${surface} pulls with ${force(tension)} in level flight and parts at ${force(breaks)}, which is ${(breaks / tension).toFixed(1)} g.`;
