import { textWidth } from './text.js';

/**
 * Positions along a line that are as near as can be to the wanted ones without overlap. sizes - room each needs;
 * span - between which they must lie. Where the room is too small they follow each other and leave the span at its end.
 */
export function spread(
  wanted: readonly number[],
  sizes: readonly number[],
  span: readonly [number, number],
): readonly number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  /** Blocks of touching labels, each at the mean of what its members want. */
  const blocks: { members: number[]; size: number; start: number }[] = [];
  const held = (start: number, size: number) => Math.max(span[0], Math.min(span[1] - size, start));
  for (const i of order) {
    let block = { members: [i], size: sizes[i]!, start: held(wanted[i]! - sizes[i]! / 2, sizes[i]!) };
    for (let last = blocks.at(-1); last !== undefined && last.start + last.size > block.start; last = blocks.at(-1)) {
      blocks.pop();
      const members = [...last.members, ...block.members];
      const size = last.size + block.size;
      block = { members, size, start: held(blockStart(members, wanted, sizes), size) };
    }
    blocks.push(block);
  }
  const placed = new Array<number>(wanted.length).fill(0);
  for (const { members, start } of blocks) {
    let at = start;
    for (const i of members) {
      placed[i] = at + sizes[i]! / 2;
      at += sizes[i]!;
    }
  }
  return placed;
}

function blockStart(members: readonly number[], wanted: readonly number[], sizes: readonly number[]): number {
  let before = 0;
  let sum = 0;
  for (const i of members) {
    sum += wanted[i]! - sizes[i]! / 2 - before;
    before += sizes[i]!;
  }
  return sum / members.length;
}

/** A label on a pole: the pole stands at x, the label flies beside it in a lane. Lane 0 is next to the foot of the poles. */
export interface Flag {
  readonly lane: number;
  readonly anchor: 'start' | 'end';
}

/**
 * Lanes for labels on poles such that no label covers another and no pole runs through a label, as far as the right edge
 * allows flags to fly to the right.
 * @param poles - x [px] of the pole and width [px] of its label
 */
export function flagLanes(
  poles: readonly { readonly x: number; readonly width: number }[],
  rightEdge: number,
): readonly Flag[] {
  const anchors = poles.map<'start' | 'end'>(({ x, width }) =>
    x + width > rightEdge && x - width > 0 ? 'end' : 'start',
  );
  // A label covers the poles on its own side, so it is placed after them: from the outside in, on both sides.
  const rank = (i: number): number => (anchors[i] === 'end' ? poles[i]!.x - 1e7 : -poles[i]!.x);
  const order = poles.map((_, i) => i).sort((a, b) => rank(a) - rank(b) || b - a);
  const flags = new Array<Flag>(poles.length);
  const done: number[] = [];
  const spanOf = (i: number, anchor: 'start' | 'end'): readonly [number, number] => {
    const { x, width } = poles[i]!;
    return anchor === 'start' ? [x, x + width + 6] : [x - width - 6, x];
  };
  for (const i of order) {
    const anchor = anchors[i]!;
    const [from, to] = spanOf(i, anchor);
    let lane = 0;
    for (const j of done) {
      const other = spanOf(j, flags[j]!.anchor);
      const covers = poles[j]!.x >= from && poles[j]!.x <= to;
      if (covers || (other[0] < to && from < other[1])) lane = Math.max(lane, flags[j]!.lane + 1);
    }
    flags[i] = { lane, anchor };
    done.push(i);
  }
  return flags;
}

/** Widest of the lines [px]. */
export const widest = (lines: readonly string[], size: number, bold = false): number =>
  lines.reduce((most, line) => Math.max(most, textWidth(line, size, bold)), 0);
