import { type Entry, type Typical, typical } from './provenance.js';

/** Open-circuit voltage curve that a battery cell follows; the curves themselves are the engine's. */
export type BatteryChemistry = 'lithium-ion' | 'lithium polymer';

/** One battery cell. */
export interface BatteryCellSheet extends Entry {
  readonly chemistry: BatteryChemistry;
  /** [C] */
  readonly capacity: Typical;
  /** Direct-current resistance over about 10 s at 25 degC and half charge [ohm] */
  readonly resistance: Typical;
  /** [kg] */
  readonly mass: Typical;
  /** Charged to [V] */
  readonly fullVoltage: number;
  /** Not discharged below, under load [V] */
  readonly emptyVoltage: number;
  /** Greatest charge current as a multiple of the capacity per hour [1/h] */
  readonly chargeRate: number;
  /** Greatest discharge current as a multiple of the capacity per hour [1/h] */
  readonly dischargeRate: number;
}

const AMPERE_HOUR = 3600;

const lithiumIon = (
  capacity: Typical,
  resistance: Typical,
  mass: Typical,
  rates: { charge: number; discharge: number },
  entry: Entry,
): BatteryCellSheet => ({
  chemistry: 'lithium-ion',
  capacity: typical(capacity.value * AMPERE_HOUR, capacity.sigma * AMPERE_HOUR),
  resistance,
  mass,
  fullVoltage: 4.2,
  emptyVoltage: 2.8,
  chargeRate: rates.charge,
  dischargeRate: rates.discharge,
  ...entry,
});

/** Mass follows capacity: a pack with leads stores 130 to 180 Wh/kg (from memory), its bare cells about 175. */
const polymer = (ampereHours: number): BatteryCellSheet => ({
  chemistry: 'lithium polymer',
  capacity: typical(ampereHours * AMPERE_HOUR, 0.04 * ampereHours * AMPERE_HOUR),
  resistance: typical(0.025 / ampereHours, 0.01 / ampereHours),
  mass: typical((ampereHours * 3.7) / 165, (ampereHours * 3.7) / 165 / 10),
  fullVoltage: 4.2,
  emptyVoltage: 3.3,
  chargeRate: 1,
  dischargeRate: 20,
  provenance: 'from memory',
  source:
    'polymer cells 3 to 10 mohm per 5 Ah, packs 130 to 180 Wh/kg, from memory; not below 3.3 V under load, common practice',
  help: `lithium polymer pouch cell of ${ampereHours} Ah`,
});

/** Battery cells by the name that a design file uses. */
export const BATTERY_CELLS = {
  'lithium-ion 18650 3.0 Ah': lithiumIon(
    typical(3.0, 0.06),
    typical(0.018, 0.004),
    typical(0.0465, 0.0008),
    { charge: 1, discharge: 6 },
    {
      provenance: 'published',
      source:
        'published open-circuit table of a 3 Ah power cell (256 points); resistance of high-power 18650 cells 12 to 20 mohm from memory',
      help: 'round cell 18 mm x 65 mm, power type',
    },
  ),
  'lithium-ion 18650 3.4 Ah': lithiumIon(
    typical(3.3, 0.07),
    typical(0.045, 0.01),
    typical(0.0465, 0.001),
    { charge: 0.5, discharge: 2 },
    {
      provenance: 'published',
      source: 'measured C/10 capacity 3.28 Ah and 45.6 g of such a cell; resistance 30 to 60 mohm from memory',
      help: 'round cell 18 mm x 65 mm, energy type, sold as 3.4 Ah',
    },
  ),
  'lithium-ion 21700 5.0 Ah': lithiumIon(
    typical(4.9, 0.1),
    typical(0.03, 0.005),
    typical(0.07, 0.0015),
    { charge: 0.5, discharge: 3 },
    {
      provenance: 'published',
      source:
        'specification 5.0 Ah, 72 g at most; open-circuit curve Chen et al., J. Electrochem. Soc. 167, 080534 (2020); resistance 25 to 35 mohm from memory',
      help: 'round cell 21 mm x 70 mm, energy type',
    },
  ),
  'lithium polymer 0.45 Ah': polymer(0.45),
  'lithium polymer 0.85 Ah': polymer(0.85),
  'lithium polymer 1.3 Ah': polymer(1.3),
  'lithium polymer 2.2 Ah': polymer(2.2),
  'lithium polymer 3.3 Ah': polymer(3.3),
  'lithium polymer 5 Ah': polymer(5),
} as const satisfies Readonly<Record<string, BatteryCellSheet>>;

export type BatteryCellName = keyof typeof BATTERY_CELLS;
