import type { Check } from '../check.js';
import { row } from './checkRow.js';
import { forwardMoment } from './foreAftFlight.js';
import { bungeeSpeed, lineLoadFactor } from './lineLaunch.js';

/** Elliptic lift of 1.25 kg at 3.8 g on half spans of 0.75 m, all of it along the chord. */
const pulled = Array.from({ length: 4000 }, (_, i) => {
  const eta = (i + 0.5) / 4000;
  const share = ((4 / Math.PI) * Math.sqrt(1 - eta * eta)) / 4000;
  return { along: 0.75 * eta, lift: (1.25 / 2) * 3.8 * 9.80665 * share, drag: 0 };
});

/** Launch on a line. */
const lineChecks: readonly Check[] = [
  row({
    id: 'aeroelastic-bungee-speed',
    quantity: 'airspeed after a bungee of 8 m g that slackens evenly over 5 m',
    expected: 19.8,
    unit: 'm/s',
    tolerance: 0.02,
    why: 'value given to three digits',
    source: 'kinetic energy v = sqrt(2 s F / m) (independent computation)',
    calls: 'bungeeSpeed',
    compute: () => bungeeSpeed((8 * 9.80665) / 2, 5, 1),
  }),
  row({
    id: 'aeroelastic-line-load-factor',
    quantity: 'lift over weight with a line that pulls straight down with three times the weight',
    expected: 4,
    unit: '-',
    tolerance: 1e-12,
    why: 'rounding',
    source: 'statics: 1 + pull / weight',
    calls: 'lineLoadFactor',
    compute: () => lineLoadFactor(30, 10),
  }),
];

/** Bending fore and aft in flight. */
const flightChecks: readonly Check[] = (
  [
    ['no relief', 7.414, 0],
    ['0.45 kg of wing, evenly spread', 4.269, 0.225 * 0.375],
  ] as const
).map(([name, expected, massMoment]) =>
  row({
    id: `aeroelastic-fore-aft-root-${massMoment === 0 ? 'free' : 'relieved'}`,
    quantity: `root moment of 1.25 kg at 3.8 g with all lift along the chord: ${name}`,
    expected,
    unit: 'N m',
    tolerance: 2e-3,
    why: 'value given to four digits, strips of 0.2 mm',
    source: 'closed form 4 W L / (3 pi) less inertia of an even wing (independent computation)',
    calls: 'forwardMoment',
    compute: () => forwardMoment(pulled, 0, Math.PI / 2, { massMoment, acceleration: 3.8 * 9.80665 }),
  }),
);

/** Bending fore and aft in flight, and launch on a line. */
export const foreAftChecks: readonly Check[] = [...flightChecks, ...lineChecks];
