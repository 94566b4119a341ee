/** Corner of the upper surface between two flats. / chord */
export interface Corner {
  readonly x: number;
  readonly y: number;
}

/** Index of the foremost point of an outline. */
function noseOf(x: readonly number[]): number {
  let nose = 0;
  for (let i = 1; i < x.length; i++) if (x[i] < x[nose]) nose = i;
  return nose;
}

/**
 * Outline whose upper surface is straight from corner to corner; ahead of the first and behind the last it stays as it is.
 * x, y - outline from the trailing edge over the upper surface [-]; corners - two at least, from front to rear
 */
export function outlineWithFlats(
  x: readonly number[],
  y: readonly number[],
  corners: readonly Corner[],
): { readonly x: readonly number[]; readonly y: readonly number[] } {
  const nose = noseOf(x);
  const [from, to] = [corners[0].x, corners[corners.length - 1].x];
  const flatX: number[] = [];
  const flatY: number[] = [];
  for (let k = corners.length - 2; k >= 0; k--) {
    const [a, b] = [corners[k], corners[k + 1]];
    // Points stay off the corners, which a film or a tape rounds.
    for (const t of [0.95, 0.75, 0.5, 0.25, 0.05]) {
      flatX.push(a.x + t * (b.x - a.x));
      flatY.push(a.y + t * (b.y - a.y));
    }
  }
  const keep = (i: number): boolean => i > nose || x[i] > to + 0.002 || x[i] < from - 0.002;
  const before = x.map((_, i) => i).filter((i) => keep(i) && i <= nose && x[i] > to);
  const after = x.map((_, i) => i).filter((i) => keep(i) && (i > nose || x[i] < from));
  return {
    x: [...before.map((i) => x[i]), ...flatX, ...after.map((i) => x[i])],
    y: [...before.map((i) => y[i]), ...flatY, ...after.map((i) => y[i])],
  };
}

/** Corners on the upper surface of an outline, evenly as wide as a cell between two stations. */
export function cornersOn(
  x: readonly number[],
  y: readonly number[],
  { from, to, cell }: { readonly from: number; readonly to: number; readonly cell: number },
): readonly Corner[] {
  const nose = noseOf(x);
  const ordinate = (at: number): number => {
    let i = 0;
    while (i < nose - 1 && x[i + 1] > at) i++;
    const t = (at - x[i]) / (x[i + 1] - x[i]);
    return y[i] + t * (y[i + 1] - y[i]);
  };
  const flats = Math.max(1, Math.round((to - from) / cell));
  const width = (to - from) / flats;
  return Array.from({ length: flats + 1 }, (_, k) => ({ x: from + k * width, y: ordinate(from + k * width) }));
}
