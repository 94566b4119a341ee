import { type ComputedSections, computedSections, readStoredText } from '@noonwing/design';

/** Stores remembered with the tables made of them: of the open design, of one beside it, and of both before an edit. */
const capacity = 4;

const known = new Map<string, ComputedSections | undefined>();

/** Computed sections from the text of a store; undefined where it is none. */
export function computedFrom(text: string): ComputedSections | undefined {
  const found = known.has(text) ? known.get(text) : madeFrom(text);
  known.delete(text);
  known.set(text, found);
  if (known.size > capacity) known.delete(known.keys().next().value!);
  return found;
}

function madeFrom(text: string): ComputedSections | undefined {
  const stored = readStoredText(text);
  return stored && computedSections(stored, 'polars kept in this browser');
}
