import { type Entry, type Typical, typical } from './provenance.js';

export type Topology = 'boost' | 'buck' | 'buck-boost' | 'direct';

/** A converter that holds an array at its maximum power (MPPT). */
export interface ConverterSheet extends Entry {
  readonly topology: Topology;
  /** Best conversion efficiency, near half of the rated power */
  readonly efficiency: Typical;
  /** Share of the available power that the tracker finds in steady light */
  readonly trackingEfficiency: Typical;
  /** Drawn at all times [W] */
  readonly standbyPower: Typical;
  /** Rated input power [W] */
  readonly ratedPower: number;
  /** Greatest output current [A] */
  readonly outputCurrentLimit: number;
  /** Least and greatest input voltage [V] */
  readonly inputVoltageLow: number;
  readonly inputVoltageHigh: number;
  /** [kg] */
  readonly mass: Typical;
}

interface Sizes {
  readonly topology: Topology;
  readonly best: number;
  readonly spread: number;
  readonly standby: number;
  readonly rated: number;
  readonly amps: number;
  readonly low: number;
  readonly high: number;
}

/** Mass 0.4 to 1 g/W for light units (from memory). */
const converter = (sizes: Sizes, help: string): ConverterSheet => ({
  topology: sizes.topology,
  efficiency: typical(sizes.best, sizes.spread),
  trackingEfficiency: typical(0.98, 0.012),
  standbyPower: typical(sizes.standby, sizes.standby * 0.4),
  ratedPower: sizes.rated,
  outputCurrentLimit: sizes.amps,
  inputVoltageLow: sizes.low,
  inputVoltageHigh: sizes.high,
  mass: typical(0.0007 * sizes.rated + 0.006, 0.0002 * sizes.rated + 0.002),
  provenance: 'from memory',
  source:
    'small trackers: good synchronous units 95 to 98 %, simple boost modules 85 to 92 %, 5 to 80 mA stand-by, from memory',
  help,
});

const direct: ConverterSheet = {
  topology: 'direct',
  efficiency: typical(0.99, 0.005),
  trackingEfficiency: typical(1, 0),
  standbyPower: typical(0, 0),
  ratedPower: 1000,
  outputCurrentLimit: 50,
  inputVoltageLow: 0,
  inputVoltageHigh: 100,
  mass: typical(0.003, 0.002),
  provenance: 'common practice',
  source: 'blocking diode of low drop, no converter: the array works at the battery voltage',
  help: 'array straight to the battery through a blocking diode',
};

/** Converters by the name that a design file uses. */
export const CONVERTERS = {
  'boost 30 W': converter(
    { topology: 'boost', best: 0.95, spread: 0.02, standby: 0.06, rated: 30, amps: 4, low: 3, high: 15 },
    'synchronous boost, string below the battery voltage',
  ),
  'boost 80 W': converter(
    { topology: 'boost', best: 0.96, spread: 0.015, standby: 0.15, rated: 80, amps: 8, low: 4, high: 24 },
    'synchronous boost, string below the battery voltage',
  ),
  'boost 150 W': converter(
    { topology: 'boost', best: 0.965, spread: 0.015, standby: 0.25, rated: 150, amps: 10, low: 6, high: 40 },
    'synchronous boost for packs of 5 or more in series',
  ),
  'boost module 25 W': converter(
    { topology: 'boost', best: 0.89, spread: 0.03, standby: 0.1, rated: 25, amps: 3, low: 3, high: 15 },
    'simple diode-rectified boost module',
  ),
  'buck 80 W': converter(
    { topology: 'buck', best: 0.95, spread: 0.02, standby: 0.15, rated: 80, amps: 8, low: 6, high: 30 },
    'synchronous buck, string well above the battery voltage',
  ),
  'buck 250 W': converter(
    { topology: 'buck', best: 0.96, spread: 0.015, standby: 0.4, rated: 250, amps: 15, low: 10, high: 60 },
    'synchronous buck, string well above the battery voltage',
  ),
  'buck-boost 80 W': converter(
    { topology: 'buck-boost', best: 0.93, spread: 0.02, standby: 0.25, rated: 80, amps: 7, low: 4, high: 30 },
    'four-switch converter, string near the battery voltage',
  ),
  direct,
} as const satisfies Readonly<Record<string, ConverterSheet>>;

export type ConverterName = keyof typeof CONVERTERS;
