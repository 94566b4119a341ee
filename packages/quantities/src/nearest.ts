/**
 * Edit distance with neighbouring swaps (optimal string alignment), for 'did you mean'.
 * Source: Damerau, A technique for computer detection and correction of spelling errors, Comm. ACM 7(3), 1964.
 */
export function editDistance(a: string, b: string): number {
  let twoBack: number[] = [];
  let back = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1];
      let best = Math.min(back[column]! + 1, current[column - 1]! + 1, back[column - 1]! + (same ? 0 : 1));
      const swapped = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      if (swapped) best = Math.min(best, twoBack[column - 2]! + 1);
      current.push(best);
    }
    twoBack = back;
    back = current;
  }
  return back[b.length]!;
}

/**
 * The candidate that a misspelt word most likely meant, or undefined when nothing is near.
 * Case and a different length count for less than a letter; more than about a third of the letters wrong is not near.
 */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const wanted = word.slice(0, 80);
  let best: string | undefined;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const lower = editDistance(wanted.toLowerCase(), candidate.toLowerCase());
    const distance = lower + (wanted === candidate ? 0 : 0.1) + (wanted.length === candidate.length ? 0 : 0.05);
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  const limit = Math.max(1.15, Math.max(wanted.length, best?.length ?? 0) * 0.4);
  return bestDistance <= limit ? best : undefined;
}
