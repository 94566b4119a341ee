import type { CompleteAircraft } from '@noonwing/design';
import { wrapped } from '../output/table.js';

/** Cautions, once at the end of an answer. */
export function cautionLines({ drive, battery, array, levelPower }: CompleteAircraft): readonly string[] {
  const cautions = [
    ...(drive !== undefined || levelPower !== undefined
      ? ['take the propeller off for bench work and keep out of its plane']
      : []),
    ...(battery !== undefined ? ['lithium cells burn when crushed, shorted or overcharged'] : []),
    ...(array !== undefined ? ['an array in light is always live: cover it before wiring'] : []),
    'ask your club and the local rules before flying',
  ];
  return wrapped(`Take care: ${cautions.join('; ')}.`, 100, '', '');
}
