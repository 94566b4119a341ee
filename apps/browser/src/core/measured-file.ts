import type { Project } from './project.js';

/** File beside a design in which its measured points are kept, with the computed polars where it comes from the command line. */
export const pointsFile = (design: string): string => `${design.slice(0, design.lastIndexOf('/') + 1)}polars.json`;

let last: { readonly text: string; readonly measured: string | undefined } | undefined;

/** The part of a store that holds measured points, as a store of its own; undefined where it holds none. */
function measuredPart(text: string): string | undefined {
  try {
    const { format, solver, measured } = JSON.parse(text);
    return measured === undefined ? undefined : JSON.stringify({ format, solver, sections: {}, measured });
  } catch {
    return undefined;
  }
}

/** Measured points that a project keeps for the sections of a design, as part of what its verdict is computed from. */
export function measuredOf({ files }: Project, design: string | undefined): { readonly measured?: string } {
  const text = design === undefined ? undefined : files[pointsFile(design)];
  if (text === undefined) return {};
  if (last?.text !== text) last = { text, measured: measuredPart(text) };
  return last.measured === undefined ? {} : { measured: last.measured };
}
