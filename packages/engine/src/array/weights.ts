/** One line of a weighting: efficiency at a fraction of rated power counts with a weight. */
export interface EfficiencyWeight {
  readonly load: number;
  readonly weight: number;
}

/** European weighting. Source: EN 50530 (from memory), weights as in common use. */
export const europeanWeights: readonly EfficiencyWeight[] = [
  { load: 0.05, weight: 0.03 },
  { load: 0.1, weight: 0.06 },
  { load: 0.2, weight: 0.13 },
  { load: 0.3, weight: 0.1 },
  { load: 0.5, weight: 0.48 },
  { load: 1, weight: 0.2 },
];

/** Weighting of the California Energy Commission. Source: CEC inverter test protocol, 2004 (from memory). */
export const californianWeights: readonly EfficiencyWeight[] = [
  { load: 0.1, weight: 0.04 },
  { load: 0.2, weight: 0.05 },
  { load: 0.3, weight: 0.12 },
  { load: 0.5, weight: 0.21 },
  { load: 0.75, weight: 0.53 },
  { load: 1, weight: 0.05 },
];

/**
 * Weighted efficiency of a converter.
 *
 * @param efficiencyAt - efficiency by fraction of rated power
 * @param weights - European or Californian weights
 * @returns weighted efficiency
 */
export function weightedEfficiency(
  efficiencyAt: (load: number) => number,
  weights: readonly EfficiencyWeight[],
): number {
  return weights.reduce((sum, { load, weight }) => sum + weight * efficiencyAt(load), 0);
}
