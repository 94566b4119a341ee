import type { Stages } from '@noonwing/verdict';

/** Stages in the order in which they first ran, with how often they ran and how often their result was used again. */
export function traceLines(stages: Stages): readonly string[] {
  const counts = new Map<string, { ran: number; reused: number }>();
  for (const { stage, reused } of stages.trace()) {
    const count = counts.get(stage) ?? { ran: 0, reused: 0 };
    if (reused) count.reused++;
    else count.ran++;
    counts.set(stage, count);
  }
  return [...counts].map(([stage, { ran, reused }]) => {
    const again = reused > 0 ? `${ran > 0 ? ', ' : ''}used again${reused > 1 ? ` ${reused} times` : ''}` : '';
    return `trace: ${stage}: ${ran > 0 ? `ran${ran > 1 ? ` ${ran} times` : ''}` : ''}${again}`;
  });
}
