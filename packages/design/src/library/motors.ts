import { type Entry, type Typical, typical } from './provenance.js';

/** Three-constant motor of a size class. */
export interface MotorSheet extends Entry {
  /** [rad/s per V] */
  readonly speedConstant: Typical;
  /** Winding and leads, phase to phase, warm hand [ohm] */
  readonly resistance: Typical;
  /** [A] at `noLoadVoltage` */
  readonly noLoadCurrent: Typical;
  /** [V] */
  readonly noLoadVoltage: number;
  /** Continuous [A] */
  readonly currentLimit: Typical;
  /** [kg] */
  readonly mass: Typical;
  readonly gearRatio: number;
  readonly gearEfficiency: Typical;
}

const RPM_PER_VOLT = (2 * Math.PI) / 60;

interface Sizes {
  readonly speed: number;
  readonly milliohms: number;
  readonly noLoad: number;
  readonly volts: number;
  readonly limit: number;
  readonly grams: number;
  readonly gear?: number;
}

/** Seller data of small motors scatter widely: speed constant ± 5 %, resistance ± 20 %, no-load current ± 25 %. */
const motor = (sizes: Sizes, help: string): MotorSheet => ({
  speedConstant: typical(sizes.speed * RPM_PER_VOLT, 0.05 * sizes.speed * RPM_PER_VOLT),
  resistance: typical(sizes.milliohms * 1e-3, 0.2 * sizes.milliohms * 1e-3),
  noLoadCurrent: typical(sizes.noLoad, 0.25 * sizes.noLoad),
  noLoadVoltage: sizes.volts,
  currentLimit: typical(sizes.limit, 0.1 * sizes.limit),
  mass: typical(sizes.grams * 1e-3, 0.08 * sizes.grams * 1e-3),
  gearRatio: sizes.gear ?? 1,
  gearEfficiency: sizes.gear === undefined ? typical(1, 0) : typical(0.95, 0.02),
  provenance: 'common practice',
  source: 'size class as sold for models, common practice, no source',
  help,
});

/** Motors by the name that a design file uses. */
export const MOTORS = {
  'outrunner 12 g 2000 rpm/V': motor(
    { speed: 2000, milliohms: 250, noLoad: 0.35, volts: 7.4, limit: 5, grams: 13 },
    'aircraft of 0.1 to 0.3 kg',
  ),
  'outrunner 30 g 1300 rpm/V': motor(
    { speed: 1300, milliohms: 160, noLoad: 0.5, volts: 8, limit: 9, grams: 30 },
    'aircraft of 0.3 to 0.7 kg',
  ),
  'outrunner 55 g 1000 rpm/V': motor(
    { speed: 1000, milliohms: 110, noLoad: 0.6, volts: 10, limit: 14, grams: 55 },
    'aircraft of 0.6 to 1.5 kg',
  ),
  'outrunner 75 g 750 rpm/V': motor(
    { speed: 750, milliohms: 125, noLoad: 0.6, volts: 11, limit: 18, grams: 78 },
    'aircraft of 1 to 2.5 kg',
  ),
  'outrunner 110 g 500 rpm/V': motor(
    { speed: 500, milliohms: 165, noLoad: 0.6, volts: 15, limit: 22, grams: 112 },
    'aircraft of 2 to 4 kg',
  ),
  'outrunner 180 g 380 rpm/V': motor(
    { speed: 380, milliohms: 140, noLoad: 0.8, volts: 20, limit: 32, grams: 182 },
    'aircraft of 3 to 7 kg',
  ),
  'geared inrunner 85 g 3600 rpm/V 5:1': motor(
    { speed: 3600, milliohms: 22, noLoad: 1.6, volts: 11, limit: 25, grams: 88, gear: 5 },
    'slow large propeller, aircraft of 1.5 to 4 kg',
  ),
} as const satisfies Readonly<Record<string, MotorSheet>>;

export type MotorName = keyof typeof MOTORS;
