import type { AssembledSection, SectionBasis } from './section.js';

type Named = Pick<AssembledSection, 'name' | 'basis'>;

/** Names without what is said twice: 'wing: NACA 3410', 'fin, tailplane: NACA 0007'. */
function namesOf(sections: readonly Named[]): string {
  const bySection = new Map<string, string[]>();
  for (const { name } of sections) {
    const [surface, section] = name.split(': ') as [string, string | undefined];
    const key = section ?? '';
    bySection.set(key, [...(bySection.get(key) ?? []), surface]);
  }
  return [...bySection].map(([section, surfaces]) => `${surfaces.join(', ')}: ${section}`).join('; ');
}

const ofKind = (sections: readonly Named[], kind: SectionBasis['kind']): readonly Named[] =>
  sections.filter(({ basis }) => basis.kind === kind);

const fromOf = (basis: SectionBasis): string => (basis.kind === 'computed' ? basis.from : '');

const thousands = (reynolds: readonly number[]): string => reynolds.map((one) => `${one / 1000}`).join(', ');

/** Measured points laid over computed polars, and Reynolds numbers at which the estimate stands, of each section. */
function detailsOf(sections: readonly Named[]): readonly string[] {
  return sections.flatMap(({ name, basis }) => {
    if (basis.kind !== 'computed') return [];
    const { measured, rows } = basis;
    const estimated = rows.filter(({ lift }) => lift === undefined).map(({ reynolds }) => reynolds);
    return [
      ...(measured === undefined
        ? []
        : [
            `${name} with the measured points of ${measured.source} at Reynolds numbers ${thousands(measured.reynolds)} thousand`,
          ]),
      ...(estimated.length === 0
        ? []
        : [
            `${name} by the first estimate at Reynolds numbers ${thousands(estimated)} thousand, where nothing converged`,
          ]),
    ];
  });
}

/**
 * What lift and drag of the sections of an aircraft rest on, in one sentence without its full stop.
 * sections - as assembled; remedy - how missing polars come about, in words
 */
export function sectionsSentence(sections: readonly Named[], remedy?: string): string {
  const computed = ofKind(sections, 'computed');
  const missing = [...ofKind(sections, 'first estimate'), ...ofKind(sections, 'not computed')];
  const beyond = ofKind(sections, 'beyond the solver');
  const measured = sections.flatMap(({ name, basis }) =>
    basis.kind === 'measured'
      ? [
          `${name}: the measured points of ${basis.source} at Reynolds numbers ${thousands(basis.reynolds)} thousand over the first estimate`,
        ]
      : [],
  );
  const how = remedy === undefined || missing.length === 0 ? '' : `; ${remedy}`;
  if (computed.length === 0 && measured.length > 0) {
    const rest = [...missing, ...beyond];
    const parts = rest.length === 0 ? measured : [...measured, `first estimate for ${namesOf(rest)}`];
    return `Sections: ${parts.join('; ')}${how}`;
  }
  if (computed.length === 0) {
    return missing.length === 0 && beyond.length > 0
      ? `Sections: first estimate, because plates and very thin sections are beyond the computation`
      : `Sections: first estimate${how}`;
  }
  const sources = [...new Set(computed.map(({ basis }) => fromOf(basis)))].map((from) => {
    const there = computed.filter(({ basis }) => fromOf(basis) === from);
    return `from ${from} (${namesOf(there)})`;
  });
  const estimate = [
    ...(missing.length === 0 ? [] : [namesOf(missing)]),
    ...(beyond.length === 0 ? [] : [`${namesOf(beyond)} (beyond the computation)`]),
  ];
  const parts = [
    `Sections: computed, ${sources.join(' and ')}`,
    ...detailsOf(computed),
    ...measured,
    ...(estimate.length === 0 ? [] : [`first estimate for ${estimate.join('; ')}`]),
  ];
  return `${parts.join('; ')}${how}`;
}
