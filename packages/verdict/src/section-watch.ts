import type { AssembledSection, ComputedRow } from '@noonwing/design';
import type { Warning } from '@noonwing/engine';
import { wingForces } from '@noonwing/engine/wing';
import type { AirframeModel } from './aircraft.js';
import type { FlightNeed } from './need.js';
import type { Prepared } from './prepare.js';
import type { Stages } from './stages.js';

/** Share of a section's area outside of what was computed below which it is not worth a word. */
const worthAWord = 0.05;

interface Strip {
  readonly reynolds: number;
  readonly lift: number;
  readonly area: number;
}

/**
 * Sections whose polars are missing beside computed ones, and sections that fly at Reynolds numbers or lift that their polars do not
 * cover, where the first estimate takes over.
 */
export function sectionWarnings(
  { model, conditions }: Prepared,
  flight: FlightNeed | undefined,
  stages: Stages,
): readonly Warning[] {
  const { airframe } = model;
  const sections = airframe?.assembled.sections ?? [];
  if (airframe === undefined || !sections.some(({ basis }) => basis.kind === 'computed')) return [];
  const missing = sections.flatMap(({ name, basis }): readonly Warning[] =>
    basis.kind === 'not computed'
      ? [{ code: 'section.estimate', message: 'the first estimate is used, beside computed sections', where: name }]
      : [],
  );
  const trim = flight?.chosen?.flight.trim;
  if (trim === undefined) return missing;
  const { kinematicViscosity } = conditions.air;
  const outside = stages.run('section watch', [airframe, trim, kinematicViscosity], () => {
    const strips = stripsOf(airframe, trim, kinematicViscosity);
    return sections.flatMap((section) => outsideWarnings(section, strips.get(section.name) ?? []));
  });
  return [...missing, ...outside];
}

/** Strips of each section at the flight point, with its share of their area where they lie between two sections. */
function stripsOf(
  { aircraft, wing }: AirframeModel,
  { alpha, control, airspeed }: { readonly alpha: number; readonly control: number; readonly airspeed: number },
  kinematicViscosity: number,
): ReadonlyMap<string, readonly Strip[]> {
  const controls = Object.fromEntries(aircraft.pitchControls.map((name) => [name, control]));
  const momentReference = { x: 0, z: 0 };
  const state = { alpha, controls, airspeed, kinematicViscosity, momentReference };
  const { liftCoefficient, reynolds } = wingForces(wing, state, aircraft.sections).strips;
  const strips = new Map<string, Strip[]>();
  const { sections, outerSections, blend, area } = wing.strips;
  const add = (name: string, i: number, share: number) => {
    if (share === 0) return;
    const strip = { reynolds: reynolds[i]!, lift: liftCoefficient[i] ?? 0, area: share * area[i]! };
    strips.set(name, [...(strips.get(name) ?? []), strip]);
  };
  sections.forEach((name, i) => {
    add(name, i, 1 - blend[i]!);
    add(outerSections[i]!, i, blend[i]!);
  });
  return strips;
}

const thousand = (reynolds: number): string => (reynolds / 1000).toFixed(0);

function outsideWarnings({ name, basis }: AssembledSection, strips: readonly Strip[]): readonly Warning[] {
  if (basis.kind !== 'computed') return [];
  const rows = basis.rows.filter(({ lift }) => lift !== undefined);
  const [first, last] = [rows[0], rows.at(-1)];
  if (first === undefined || last === undefined) return [];
  const area = strips.reduce((sum, strip) => sum + strip.area, 0);
  if (!(area > 0)) return [];
  const share = (is: (strip: Strip) => boolean) =>
    strips.reduce((sum, strip) => sum + (is(strip) ? strip.area : 0), 0) / area;
  const warning = (code: string, part: number, what: string): readonly Warning[] =>
    part < worthAWord
      ? []
      : [
          {
            code,
            message: `${(100 * part).toFixed(0)} % of its area flies at ${what}: the first estimate takes over there`,
            where: name,
          },
        ];
  const range = `${thousand(first.reynolds)} to ${thousand(last.reynolds)} thousand`;
  return [
    ...warning(
      'section.reynolds',
      share(({ reynolds }) => reynolds < first.reynolds || reynolds > last.reynolds),
      `Reynolds numbers outside of those computed (${range})`,
    ),
    ...warning(
      'section.lift',
      share((strip) => isBeyond(strip, rows)),
      'lift outside of what was computed at its Reynolds number',
    ),
  ];
}

/** Whether the lift of a strip lies outside of the polars at both neighbouring Reynolds numbers. */
function isBeyond({ reynolds, lift }: Strip, rows: readonly ComputedRow[]): boolean {
  const above = rows.findIndex((row) => row.reynolds >= reynolds);
  const near = [rows[Math.max(0, above - 1)], rows.at(above)];
  return near.every((row) => row?.lift !== undefined && (lift < row.lift.least || lift > row.lift.most));
}
