import {
  type ArraySource,
  type BypassSpan,
  type CellCondition,
  type CellParameters,
  type Converter,
  type ConverterOutput,
  cellAt,
  cellBatchAt,
  converterOutput,
  maximumPowerPoints,
  openCircuitVoltage,
} from '../array/index.js';
import type { PlacedCell, ShadeTable } from '../light/index.js';
import type { Vec3 } from '../math/index.js';
import type { IncidenceModel } from '../sun/index.js';
import { leadDrop } from './shared-converter.js';
import type { TrackerSetup } from './tracker-turn.js';
import type { UnequalLight } from './unequal-light.js';

/** Cells that lie in one direction on the aircraft. */
export interface ArrayFacet {
  /** Outward unit normal, body axes: forward, right, down. */
  readonly normal: Vec3;
  /** Of the cells on it [m2]. */
  readonly area: number;
  /** From the leading edge to the front edge of the cells, along the flow [m]; with the two that follow it sets their cooling. */
  readonly from: number;
  /** From the leading edge to the end of the cells, along the flow [m]. */
  readonly length: number;
  /** Part of that length with a laminar boundary layer. */
  readonly laminarFraction: number;
  /** Convection from behind as a fraction of that from the front: 0 on foam or a closed wing. */
  readonly rearFraction: number;
  /** Its cells, where they are placed one by one: indices in the cells of the array. */
  readonly cells?: readonly number[];
}

/** Cells of one facet in a string. */
export interface ArrayGroup {
  readonly facet: number;
  readonly count: number;
}

/** Cells in series, or several such strings side by side under the same light. */
export interface ArrayString {
  readonly name: string;
  readonly cell: CellParameters;
  readonly groups: readonly ArrayGroup[];
  readonly parallel: number;
  /** Tabs, wires and connectors of one string [ohm]. */
  readonly seriesResistance: number;
  /** Index of its converter. */
  readonly converter: number;
  /** Most cells that share a bypass diode; 0: none has one. */
  readonly cellsPerDiode: number;
  /** Cells one by one in the order of the wiring, for each of the parallel strings; absent where they are not placed. */
  readonly members?: readonly (readonly number[])[];
  /** Bypass diodes along one string. */
  readonly diodes?: readonly BypassSpan[];
  /** Forward voltage of a diode in series with each string [V]. */
  readonly blockingVoltage?: number;
  /** Damage by number of the cell along the wiring through all parallel strings, from 0. */
  readonly conditions?: ReadonlyMap<number, CellCondition>;
}

/** The solar array as the day needs it. */
export interface ArrayPlan {
  readonly facets: readonly ArrayFacet[];
  /** Cells one by one, and what shades them, where the shape is known. */
  readonly cells?: readonly PlacedCell[];
  readonly shade?: ShadeTable;
  readonly strings: readonly ArrayString[];
  readonly converters: readonly Converter[];
  /** How converters look for the best voltage, by converter, where it is known. */
  readonly trackers?: readonly (TrackerSetup | undefined)[];
  readonly incidence: IncidenceModel;
  /** Film, soiling and spectrum: current under them per current of the bare cell. */
  readonly lightFactor: number;
}

/** What the strings of an array can give, string by string and instant by instant: index string x instants + instant. */
export interface ArrayMaxima {
  readonly instants: number;
  /** Power at maximum [W], mean over the headings flown; of strings on one converter at their common maximum. */
  readonly power: Float64Array;
  readonly voltage: Float64Array;
  readonly openCircuitVoltage: Float64Array;
  /** Of each string at its own maximum, whatever hangs beside it on its converter [W]. */
  readonly ownPower: Float64Array;
  /** Of every cell at its own maximum in the mean light of its facet [W]. */
  readonly equalLightPower: Float64Array;
}

/**
 * Maximum power of every string at every instant from the mean light of its facets.
 *
 * @param light - effective light before film and soiling, index instant x facets + facet [W/m2]
 * @param temperature - of the cells, same index [K]
 * @param unequal - what unequal light leaves; everything where absent
 */
export function arrayMaxima(
  plan: ArrayPlan,
  light: Float64Array,
  temperature: Float64Array,
  unequal?: UnequalLight,
): ArrayMaxima {
  const facets = plan.facets.length;
  const instants = facets === 0 ? 0 : light.length / facets;
  const size = plan.strings.length * instants;
  const maxima = {
    instants,
    power: new Float64Array(size),
    voltage: new Float64Array(size),
    openCircuitVoltage: new Float64Array(size),
    ownPower: new Float64Array(size),
    equalLightPower: new Float64Array(size),
  };
  for (const [s, string] of plan.strings.entries()) {
    for (const { facet, count } of string.groups) {
      const column = facetColumn(facet, facets, instants, light, plan.lightFactor);
      const batch = cellBatchAt(string.cell, {
        irradiance: column,
        temperature: facetColumn(facet, facets, instants, temperature, 1),
      });
      const points = maximumPowerPoints(batch);
      for (let i = 0; i < instants; i++) {
        const at = s * instants + i;
        maxima.equalLightPower[at]! += count * string.parallel * points.power[i]!;
        maxima.voltage[at]! += count * points.voltage[i]!;
        if (points.power[i]! > 0) maxima.openCircuitVoltage[at]! += count * openVoltage(batch, i);
      }
    }
    finishString(maxima, s, string, unequal);
  }
  return maxima;
}

/** Wire losses of one string and what unequal light and its converter leave, once the sum of its cells is there. */
function finishString(maxima: ArrayMaxima, s: number, string: ArrayString, unequal: UnequalLight | undefined): void {
  for (let at = s * maxima.instants; at < (s + 1) * maxima.instants; at++) {
    const voltage = maxima.voltage[at]!;
    if (!(voltage > 0)) continue;
    const drop = leadDrop(string, { power: maxima.equalLightPower[at]!, voltage });
    maxima.voltage[at] = (voltage - drop) * (unequal?.voltage[at] ?? 1);
    maxima.ownPower[at] = maxima.equalLightPower[at]! * (1 - drop / voltage) * (unequal?.power[at] ?? 1);
    maxima.power[at] = maxima.ownPower[at]! * (unequal?.shared[at] ?? 1);
    maxima.openCircuitVoltage[at]! *= unequal?.open[at] ?? 1;
  }
}

/** Open-circuit voltage of entry i of a batch [V], shunt neglected: below 0.1 % of it in light. */
const openVoltage = (
  batch: { photocurrent: Float64Array; saturationCurrent: Float64Array; modifiedIdeality: Float64Array },
  i: number,
): number => batch.modifiedIdeality[i]! * Math.log1p(batch.photocurrent[i]! / batch.saturationCurrent[i]!);

function facetColumn(facet: number, facets: number, instants: number, values: Float64Array, factor: number) {
  const column = new Float64Array(instants);
  for (let i = 0; i < instants; i++) column[i] = factor * values[i * facets + facet]!;
  return column;
}

/** What all converters deliver at an instant, and where the rest of the strings' power went [W]. */
export interface ArrayIncome {
  readonly power: number;
  readonly available: number;
  readonly tracking: number;
  readonly conversion: number;
  readonly unused: number;
  readonly reasons: readonly ConverterOutput['limitedBy'][];
}

/**
 * Income at an instant at a bus voltage, with its losses.
 * @param busVoltage - at the battery terminals, > 0 [V]
 */
export function incomeAt(plan: ArrayPlan, maxima: ArrayMaxima, instant: number, busVoltage: number): ArrayIncome {
  const sum = { power: 0, available: 0, tracking: 0, conversion: 0, unused: 0 };
  const reasons: ConverterOutput['limitedBy'][] = [];
  for (let c = 0; c < plan.converters.length; c++) {
    const output = outputOf(plan, maxima, instant, busVoltage, c);
    sum.power += output.power;
    sum.available += availableTo(plan, maxima, instant, c);
    sum.tracking += output.losses.tracking;
    sum.conversion += output.losses.conversion;
    sum.unused += output.losses.unused;
    reasons.push(output.limitedBy);
  }
  return { ...sum, reasons };
}

/** Income at an instant [W], the number alone. */
export function incomePowerAt(plan: ArrayPlan, maxima: ArrayMaxima, instant: number, busVoltage: number): number {
  let power = 0;
  for (let c = 0; c < plan.converters.length; c++) power += outputOf(plan, maxima, instant, busVoltage, c).power;
  return power;
}

function availableTo(plan: ArrayPlan, maxima: ArrayMaxima, instant: number, converter: number): number {
  let power = 0;
  for (let s = 0; s < plan.strings.length; s++) {
    if (plan.strings[s]!.converter === converter) power += maxima.power[s * maxima.instants + instant]!;
  }
  return power;
}

/** Strings on one converter add; what the course of unequal light left has them at one voltage, so that their mean is that. */
function outputOf(plan: ArrayPlan, maxima: ArrayMaxima, instant: number, busVoltage: number, converter: number) {
  let power = 0;
  let weighted = 0;
  let open = 0;
  for (let s = 0; s < plan.strings.length; s++) {
    if (plan.strings[s]!.converter !== converter) continue;
    const at = s * maxima.instants + instant;
    power += maxima.power[at]!;
    weighted += maxima.power[at]! * maxima.voltage[at]!;
    open = Math.max(open, maxima.openCircuitVoltage[at]!);
  }
  const voltage = power > 0 ? weighted / power : 0;
  const current = voltage > 0 ? power / voltage : 0;
  const source: ArraySource = {
    maximum: { power, voltage, current },
    openCircuitVoltage: Math.max(open, voltage),
    // At maximum power a silicon cell carries about 95 % of its short-circuit current; used away from the maximum only.
    shortCircuitCurrent: current / 0.945,
  };
  return converterOutput({ converter: plan.converters[converter]!, source, batteryVoltage: busVoltage });
}

/** Open-circuit voltage of a string in full sun on cold cells [V]: what converters and battery must stand. */
export function coldOpenCircuitVoltage(string: ArrayString, temperature: number): number {
  const curve = cellAt(string.cell, { irradiance: 1000, temperature });
  return string.groups.reduce((sum, group) => sum + group.count, 0) * openCircuitVoltage(curve);
}
