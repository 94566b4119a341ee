import type { CompleteStation } from '@noonwing/design';

const mm = (metres: number): string => `${Number((metres * 1000).toFixed(1)) + 0} mm`;

/** A station half way between two, as the file has it: the outline stays as it is. */
export function betweenStations(inner: CompleteStation, outer: CompleteStation): Readonly<Record<string, string>> {
  const middle = (of: (station: CompleteStation) => number) => (of(inner) + of(outer)) / 2;
  const isUpright = Math.abs(outer.y - inner.y) < 1e-6;
  return {
    ...(isUpright ? { z: mm(middle(({ z }) => z)) } : { y: mm(middle(({ y }) => y)) }),
    chord: mm(middle(({ chord }) => chord.value)),
    'leading edge': mm(middle(({ leadingEdge }) => leadingEdge)),
  };
}
