import { assembleGeometry, type Section, type SectionSources } from '@noonwing/design';
import { libraryName, type SectionGeometry, TURBULENCE, type Turbulence } from '@noonwing/engine/section';
import type { Covering } from '@noonwing/engine/section/viscous';
import { nearest, parseQuantity, type QuantityKind } from '@noonwing/quantities';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { loadDesign } from './design.js';
import { readText } from './file.js';
import { type Options, typed } from './plan-options.js';

/** What `noonwing polar` is asked for. */
export interface PolarRequest {
  readonly geometry: SectionGeometry;
  readonly reynolds: number;
  readonly lift: number;
  readonly air: Turbulence;
  /** Lengths / chord. */
  readonly covering?: Covering;
}

const wrong = (...lines: readonly string[]) => refuse(exitCode.wrongUsage, ...lines);

/** Number of an option, of a kind, within bounds. */
export function numberOf(
  options: Options,
  name: string,
  kind: QuantityKind,
  bounds: readonly [number, number],
  expected: string,
): Attempt<number> {
  const text = typed(options, name) ?? '';
  const read = kind === 'ratio' || kind === 'count' ? Number(text) : undefined;
  const parsed = read === undefined || Number.isNaN(read) ? parseQuantity(text, kind) : undefined;
  const value = parsed === undefined ? read! : parsed.ok ? parsed.value : Number.NaN;
  if (value >= bounds[0] && value <= bounds[1]) return ready(value);
  return wrong(`--${name}: found "${text}"; expected ${expected}`);
}

/** Section by its formula, from a coordinate file, or from the first station of a design's first surface. */
export function geometryOf(name: string): Attempt<SectionGeometry> {
  const digits = /^(?:naca[\s-]*)?(\d{4,5})$/i.exec(name.trim())?.[1];
  if (digits !== undefined) return built({ type: 'naca', digits }, 1, {}, name);
  if (libraryName(name) !== undefined) return built({ type: 'library', name }, 1, {}, name);
  if (/\.ya?ml$/i.test(name)) {
    const design = loadDesign(name);
    if (!design.ok) return design;
    const station = design.value.aircraft.surfaces[0]?.stations[0];
    if (station === undefined) return refuse(exitCode.unusableInput, `${name}: the design has no wing`);
    return built(station.section, station.chord.value, design.value.files, name);
  }
  const text = readText(name);
  if (!text.ok)
    return /[./\\]/.test(name)
      ? text
      : refuse(
          exitCode.unusableInput,
          `${name}: no section by a formula or of the library, and no file; 'NACA 3410' or 'flat cells 3' are such, 'noonwing section --help' says more`,
        );
  return built({ type: 'file', path: name }, 1, { texts: { [name]: text.value } }, name);
}

function built(section: Section, chord: number, files: SectionSources, name: string): Attempt<SectionGeometry> {
  const made = assembleGeometry(section, chord, files);
  return made.ok ? ready(made.value) : refuse(exitCode.unusableInput, `${name}: ${made.reason}; ${made.remedy}`);
}

/** What says how cells lie, as it is where nothing is typed. */
export const usualCovering = { chord: '250mm', edge: '0.3mm', cell: '0mm' } as const;

function coveringOf(options: Options): Attempt<Covering | undefined> {
  const stretch = typed(options, 'cells');
  if (stretch === undefined) {
    const idle = Object.entries(usualCovering).find(([name, usual]) => typed(options, name) !== usual)?.[0];
    return idle === undefined
      ? ready(undefined)
      : wrong(
          `--${idle}: without --cells no cells lie on the section; add a stretch of the chord such as --cells 10%..80%`,
        );
  }
  const found = /^\s*([\d.]+)\s*%?\s*(?:\.\.|to|-)\s*([\d.]+)\s*%?\s*$/.exec(stretch);
  const from = Number(found?.[1]) / 100;
  const to = Number(found?.[2]) / 100;
  if (!(from >= 0.01 && to <= 0.99 && to > from + 0.02))
    return wrong(`--cells: found "${stretch}"; expected a stretch of the chord such as 10%..80%`);
  const chord = numberOf(options, 'chord', 'length', [0.02, 5], 'a length such as 250mm');
  if (!chord.ok) return chord;
  const edge = numberOf(options, 'edge', 'length', [0, 0.02], 'a height such as 0.3mm');
  if (!edge.ok) return edge;
  const cell = numberOf(options, 'cell', 'length', [0, 1], 'a width such as 125mm, or 0mm');
  if (!cell.ok) return cell;
  return ready({ from, to, edge: edge.value / chord.value, cell: cell.value / chord.value });
}

export function airOf(options: Options): Attempt<Turbulence> {
  const text = typed(options, 'air') ?? 'outdoors';
  const words = Object.keys(TURBULENCE) as Turbulence[];
  const found = words.find((word) => word === text.trim().toLowerCase());
  if (found !== undefined) return ready(found);
  const near = nearest(text, words);
  return wrong(
    `--air: found "${text}"; ${near === undefined ? `expected ${words.join(', ')}` : `did you mean "${near}"?`}`,
  );
}

/** Everything `noonwing polar` needs, or what is wrong with what was typed. */
export function polarRequest(name: string, options: Options): Attempt<PolarRequest> {
  const geometry = geometryOf(name);
  if (!geometry.ok) return geometry;
  const reynolds = numberOf(options, 'reynolds', 'count', [3e4, 1e7], 'a number from 30000 to 10000000');
  if (!reynolds.ok) return reynolds;
  const lift = numberOf(options, 'lift', 'ratio', [-2, 3], 'a lift coefficient such as 0.6');
  if (!lift.ok) return lift;
  const air = airOf(options);
  if (!air.ok) return air;
  const covering = coveringOf(options);
  if (!covering.ok) return covering;
  return ready({
    geometry: geometry.value,
    reynolds: reynolds.value,
    lift: lift.value,
    air: air.value,
    ...(covering.value === undefined ? {} : { covering: covering.value }),
  });
}
