/** A variable of a search: start, first step and bounds. */
export interface SearchVariable {
  readonly start: number;
  readonly step: number;
  readonly least: number;
  readonly most: number;
}

export interface SearchState {
  readonly values: readonly number[];
  readonly cost: number;
  /** Evaluations of the cost so far. */
  readonly evaluations: number;
}

/** A change must be better by this share to count: below it lies the grain of a mesh. */
const WORTH = 2e-4;

/** Steps are halved this often. */
const HALVINGS = 3;

/**
 * Least cost by pattern search (R. Hooke, T. A. Jeeves, J. ACM 8(2), 1961): each variable is tried both ways; a round that helped is
 * followed by a leap along its whole change; one that did not halves the steps. Deterministic, needs no derivative, and passes over
 * points at which the cost is infinite.
 *
 * variables - with bounds; cost - finite at the start; most - evaluations at most
 * Yields the best so far after every evaluation; returns the best.
 */
export function* patternSearch(
  variables: readonly SearchVariable[],
  cost: (values: readonly number[]) => number,
  most: number,
): Generator<SearchState, SearchState, void> {
  let evaluations = 0;
  const bounded = (values: readonly number[]) =>
    values.map((value, i) => Math.min(variables[i].most, Math.max(variables[i].least, value)));
  const of = (values: readonly number[]): SearchState => {
    evaluations++;
    return { values, cost: cost(values), evaluations };
  };
  let best = of(variables.map(({ start }) => start));
  yield best;
  let scale = 1;
  for (let halvings = 0; halvings <= HALVINGS && evaluations < most; ) {
    const base = best;
    for (let i = 0; i < variables.length && evaluations < most; i++) {
      for (const side of [1, -1]) {
        const values = bounded(best.values.map((v, k) => (k === i ? v + side * scale * variables[k].step : v)));
        if (values[i] === best.values[i]) continue;
        const found = of(values);
        const isBetter = found.cost < (1 - WORTH) * best.cost;
        if (isBetter) best = found;
        yield { ...best, evaluations };
        if (isBetter || evaluations >= most) break;
      }
    }
    if (best === base) {
      scale /= 2;
      halvings++;
      continue;
    }
    if (evaluations >= most) break;
    const leap = of(bounded(best.values.map((v, k) => 2 * v - base.values[k])));
    if (leap.cost < (1 - WORTH) * best.cost) best = leap;
    yield { ...best, evaluations };
  }
  return { ...best, evaluations };
}
