import { type AssembledSection, neededControls, neededPolars, sectionsSentence } from '@noonwing/design';
import type { SectionGeometry } from '@noonwing/engine/section';
import type { Verdict } from '@noonwing/verdict';
import type { LoadedDesign } from '../input/design.js';
import { wrapped } from '../output/table.js';

/** Computing one set of polars takes about this long on one core of a small machine [s]; measured. */
const secondsForOne = 4;
/** The same for the deflected sections of a control [s]; measured. */
const secondsForControl = 3;

type Sections = readonly Pick<AssembledSection, 'name' | 'basis'>[];

/**
 * What the sections rest on, and how computed polars would come about where they are missing; no line where no airframe is described.
 * indent - before each line
 */
export function sectionsLines(design: LoadedDesign, sections: Sections, indent?: string): readonly string[] {
  return sections.length === 0 ? [] : wrapped(sectionsWords(design, sections), 100, indent);
}

function sectionsWords(design: LoadedDesign, sections: Sections): string {
  const { computed } = design.files;
  if (computed === undefined) return 'Sections: first estimate, as --no-polars asks.';
  const missing = sections.some(({ basis }) => basis.kind === 'not computed');
  const needed = missing ? neededPolars(design.aircraft, design.files) : undefined;
  const isKnown = (geometry: SectionGeometry) => computed.of(geometry, {}).basis.kind === 'computed';
  const sets = needed?.ok ? needed.value.filter((one) => one.computable && !isKnown(one.geometry)).length : 0;
  const remedy = `'noonwing polar ${design.path} --store' computes them, about ${secondsForOne * sets} s`;
  return `${sectionsSentence(sections, sets === 0 ? undefined : remedy)}.`;
}

/** How the deflected sections of controls come about where they are not computed; undefined where all are, or none can be. */
export function controlsRemedy({ aircraft, files, path }: LoadedDesign): string | undefined {
  const { computed } = files;
  if (computed === undefined) return undefined;
  const needed = neededControls(aircraft, files);
  const missing = needed.ok
    ? needed.value.filter(({ key, computable }) => computable && !computed.hasControl?.(key)).length
    : 0;
  if (missing === 0) return undefined;
  return `'noonwing polar ${path} --store' computes controls with their sections deflected, about ${secondsForControl * missing} s.`;
}

export const sectionsOf = ({ prepared }: Verdict): Sections => prepared.model.airframe?.assembled.sections ?? [];

/** The same for programs: name of each section and what it rests on. */
export const sectionsData = (sections: Sections) =>
  sections.map(({ name, basis }) => ({
    name,
    basis: basis.kind,
    ...(basis.kind === 'computed' ? { from: basis.from } : {}),
  }));
