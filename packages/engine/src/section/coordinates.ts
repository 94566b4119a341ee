import { type Outcome, problem, success, type Warning } from '../result.js';
import { type Row, readRows } from './coordinateRows.js';
import { sectionGeometry, signedArea } from './geometry.js';
import type { SectionGeometry } from './types.js';

/** Points read from a coordinate text, joined to one outline from trailing edge to trailing edge; scale as published, or brought to 1. */
export interface SectionCoordinates {
  readonly name: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** How the text listed them. */
  readonly order: 'round the outline' | 'surface by surface';
}

const MOST_POINTS = 5000;
const FEWEST_POINTS = 10;

const refuse = (code: string, reason: string, where: string, remedy: string) =>
  problem({ code: `section.coordinates.${code}`, reason, where, remedy });

/** Whether the first numeric pair is not a point but the numbers of points of the two surfaces (or a title made of numbers). */
function isHeader(first: Row, rest: readonly Row[]): boolean {
  if (!(first.x > 1 && first.y > 1)) return false;
  const reach = rest.reduce((most, row) => Math.max(most, row.x), 0);
  return first.y > 0.5 * first.x || Math.abs(first.x - reach) > 0.05 * reach;
}

/** Points of two surfaces listed one after the other, joined to an outline; undefined where the points go round already. */
function joinSurfaces(rows: readonly Row[], chord: number): readonly Row[] | undefined {
  let at = -1;
  let jump = 0.5 * chord;
  for (let i = 1; i < rows.length; i++) {
    const size = Math.abs(rows[i].x - rows[i - 1].x);
    if (size > jump) {
      jump = size;
      at = i;
    }
  }
  // A plate may be listed by its corners: a long edge is no jump unless both sides start at the same end.
  if (at < 2 || at > rows.length - 2) return undefined;
  if (Math.abs(rows[at].x - rows[0].x) > 0.1 * chord) return undefined;
  const first = rows.slice(0, at);
  const second = rows.slice(at);
  const noseFirst = first[0].x < first[first.length - 1].x;
  return noseFirst ? [...[...first].reverse(), ...second] : [...first, ...[...second].reverse()];
}

/** Power of ten by which the published chord differs from 1 (1, 100 or 1000). */
function publishedScale(reach: number): number {
  for (const scale of [100, 1000]) if (Math.abs(reach / scale - 1) < 0.02) return scale;
  return 1;
}

/** Points that repeat their neighbour (nose listed twice, closed trailing edge listed twice in a row) are dropped. */
function withoutRepeats(rows: readonly Row[], chord: number): readonly Row[] {
  return rows.filter((row, i) => i === 0 || Math.hypot(row.x - rows[i - 1].x, row.y - rows[i - 1].y) > 1e-7 * chord);
}

function headerWarning(header: Row | undefined, rows: readonly Row[]): readonly Warning[] {
  if (!header || Math.abs(header.x + header.y - rows.length) <= 1) return [];
  return [
    {
      code: 'section.coordinates.counts',
      message: `the text announces ${header.x} and ${header.y} points but holds ${rows.length}; all were read`,
      where: `line ${header.line}`,
    },
  ];
}

/**
 * Section coordinates from text, in either common order: round the outline from the trailing edge, or upper and lower surface each
 * from the leading edge after a line of counts. Reads commas, semicolons, tabs, decimal commas, any line ends, 0 to 100 scaling,
 * clockwise order, repeated points and titles made of digits.
 *
 * text - content of the file
 * Returns points joined to one outline, with warnings; or why the text is no section.
 */
export function parseSectionCoordinates(text: string): Outcome<SectionCoordinates> {
  const read = readRows(text);
  if (!read.ok) return read;
  const { title } = read.value;
  const header = read.value.rows.length > 1 && isHeader(read.value.rows[0], read.value.rows.slice(1));
  const counts = header ? read.value.rows[0] : undefined;
  const rows = header ? read.value.rows.slice(1) : read.value.rows;
  if (rows.length < FEWEST_POINTS) {
    return refuse('few', `${rows.length} points found`, 'text', `a section needs at least ${FEWEST_POINTS} points`);
  }
  if (rows.length > MOST_POINTS) return refuse('many', `${rows.length} points found`, 'text', `at most ${MOST_POINTS}`);
  const xs = rows.map((row) => row.x);
  const reach = Math.max(...xs);
  const chord = reach - Math.min(...xs);
  const height = Math.max(...rows.map((row) => row.y)) - Math.min(...rows.map((row) => row.y));
  if (!(chord > 0) || !(height > 0) || height > 0.6 * chord) {
    return refuse(
      'shape',
      'the points do not outline a wing section',
      'text',
      'give chordwise station first, then ordinate',
    );
  }
  const joined = joinSurfaces(rows, chord);
  const outline = withoutRepeats(joined ?? rows, chord);
  const scale = publishedScale(reach);
  const x = outline.map((row) => row.x / scale);
  const y = outline.map((row) => row.y / scale);
  if (Math.abs(signedArea(x, y)) < 1e-3 * (chord / scale) ** 2) {
    return refuse('area', 'the points enclose no area', 'text', 'give both surfaces, from nose to tail');
  }
  const order = joined ? 'surface by surface' : 'round the outline';
  return success({ name: title, x, y, order }, [...read.warnings, ...headerWarning(counts, rows)]);
}

/**
 * Section geometry straight from a coordinate text, normalised to chord 1.
 * text - content of the file; name - shown instead of the title in the text
 */
export function sectionFromCoordinates(text: string, name?: string): Outcome<SectionGeometry> {
  const parsed = parseSectionCoordinates(text);
  if (!parsed.ok) return parsed;
  const { x, y } = parsed.value;
  const geometry = sectionGeometry({ name: name ?? (parsed.value.name || 'unnamed section'), x, y });
  const warnings = [...parsed.warnings];
  const least = Math.min(...geometry.thickness);
  if (least < -0.01) {
    const at = geometry.stations[geometry.thickness.indexOf(least)];
    return refuse(
      'crossed',
      `the surfaces cross at ${(100 * at).toFixed(0)} % of chord`,
      'text',
      'correct the points there',
    );
  }
  if (geometry.trailingEdgeThickness < -1e-4) {
    warnings.push({
      code: 'section.coordinates.trailing-edge',
      message: 'the surfaces cross at the trailing edge by less than 1 % of chord; taken as closed',
    });
  }
  return success(geometry, warnings);
}

/**
 * Coordinate text of a section, round the outline from the trailing edge, seven decimals.
 * geometry - section
 */
export function writeSectionCoordinates(geometry: SectionGeometry): string {
  const number = (value: number) => value.toFixed(7).padStart(11);
  const lines = geometry.outlineX.map((x, i) => `${number(x)} ${number(geometry.outlineY[i])}`);
  return `${[geometry.name, ...lines].join('\n')}\n`;
}
