import { type Outcome, success, type Warning } from '@noonwing/engine';
import { FLAP_EFFICIENCY, flapGapLoss, LAYER_AHEAD, type SectionOptions } from '@noonwing/engine/section';
import {
  type Body,
  type ControlKind,
  type ControlSurface,
  type ControlTurning,
  checkShape,
  type LiftingSurface,
  type Shape,
  type Station,
  type SurfaceKind,
  stationDistances,
} from '@noonwing/engine/shape';
import type {
  CompleteAircraft,
  CompleteBody,
  CompleteControl,
  CompleteSurface,
  Role,
  Section,
} from '../complete/index.js';
import { chordCovered, pieceOf } from './cells.js';
import { type AssembledSection, assembleSection, type SectionSources, stationOfControl } from './section.js';

/** The outer shape with the sections that its stations name. */
export interface AssembledShape {
  readonly shape: Shape;
  readonly sections: readonly AssembledSection[];
  /** Travel of the pitch control [rad], trailing edge down positive; undefined where there is no pitch control. */
  readonly controlRange: { readonly lower: number; readonly upper: number } | undefined;
  readonly pitchControls: readonly string[];
  /** Control on each section's surface, by section name; absent where it has none. */
  readonly flaps: Readonly<Record<string, SectionFlap>>;
}

/** A control as the section under it has it. */
export interface SectionFlap {
  /** Hinged chord / chord. */
  readonly fraction: number;
  /** Real / ideal turning by hinge and gap; boundary layers not counted. */
  readonly efficiency: number;
}

/** Chord stations that cells cover and their height over the skin [m], by surface. */
export type Coverage = Readonly<
  Record<
    string,
    {
      readonly from: number;
      readonly to: number;
      readonly edge: number;
      /** Width of a stiff cell along the chord [m]; absent where cells follow the surface. */
      readonly flat?: number;
    }
  >
>;

const surfaceKinds: Readonly<Record<Role, SurfaceKind>> = {
  wing: 'wing',
  tailplane: 'horizontal tail',
  foreplane: 'canard',
  fin: 'fin',
};

const pitchKinds: readonly ControlKind[] = ['elevator', 'elevon', 'ruddervator'];

/** Chord stations covered by cells on each surface, from its rows as they are cut, turned and laid: what changes the flow over it. */
export function coverageOf(aircraft: Pick<CompleteAircraft, 'surfaces' | 'array'>): Coverage {
  const { surfaces, array } = aircraft;
  const coverage: Record<string, Coverage[string]> = {};
  const edge = array?.edge.value ?? 0;
  for (const row of array?.rows ?? []) {
    const surface = surfaces.find((candidate) => candidate.name === row.on);
    if (array === undefined || surface === undefined || row.face === 'lower') continue;
    const size = pieceOf(row, array.cell);
    const stations = row.places?.map(({ station }) => station) ?? [row.chordStation.value];
    for (const station of stations) {
      const [from, to] = chordCovered({ station }, size, surface.stations[0]!.chord.value);
      const known = coverage[row.on];
      coverage[row.on] = {
        from: Math.min(from, known?.from ?? 1),
        to: Math.max(to, known?.to ?? 0),
        edge,
        ...(array.laid === 'flat' ? { flat: Math.max(size.width, known?.flat ?? 0) } : {}),
      };
    }
  }
  return coverage;
}

/**
 * Shape of a completed design: stations in the frame of the datum, bodies, extra drag, and the sections by name.
 * @param coverage - cells on the surfaces, from `coverageOf`
 * @returns problems of sections and of the geometry with their place in the file
 */
export function assembleShape(
  surfaces: readonly CompleteSurface[],
  bodies: readonly CompleteBody[],
  extraDrag: CompleteAircraft['extraDrag'],
  coverage: Coverage,
  files: SectionSources,
): Outcome<AssembledShape> {
  const sections = new Map<string, AssembledSection>();
  const flaps: Record<string, SectionFlap> = {};
  const lifting: LiftingSurface[] = [];
  const warnings: Warning[] = [];
  for (const surface of surfaces) {
    const made = liftingSurface(surface, files, coverage[surface.name], sections, flaps);
    if (!made.ok) return made;
    lifting.push(made.value);
    warnings.push(...made.warnings);
  }
  const shape: Shape = {
    surfaces: lifting,
    bodies: bodies.flatMap(bodiesOf),
    parasites: extraDrag.map(({ name, area }) => ({
      name,
      dragArea: area.value,
      spread: area.sigma !== undefined && area.value > 0 ? area.sigma / area.value : 0.3,
    })),
  };
  const checked = checkShape(shape);
  if (!checked.ok) return checked;
  return success({ shape, sections: [...sections.values()], flaps, ...pitchControl(surfaces) }, [
    ...warnings,
    ...checked.warnings,
  ]);
}

function liftingSurface(
  surface: CompleteSurface,
  files: SectionSources,
  cells: Coverage[string] | undefined,
  sections: Map<string, AssembledSection>,
  flaps: Record<string, SectionFlap>,
): Outcome<LiftingSurface> {
  const stations: Station[] = [];
  const warnings: Warning[] = [];
  const [control] = surface.controls;
  for (const station of surface.stations) {
    const label = sectionLabel(surface.name, station.section, station.chord.value);
    if (!sections.has(label)) {
      const options = cells === undefined ? {} : coveringOptions(cells, station.chord.value);
      const made = assembleSection(label, station.section, station.chord.value, files, options);
      if (!made.ok) return { ...made, where: `surfaces.${surface.name}: ${made.where}` };
      sections.set(label, made.value);
      if (control !== undefined)
        flaps[label] = {
          fraction: 1 - control.hinge.value,
          efficiency: hingeEfficiency(control, station.chord.value),
        };
      warnings.push(...made.warnings);
    }
    stations.push({
      y: surface.y.value + station.y,
      z: surface.z.value + station.z,
      xLeadingEdge: surface.x.value + station.leadingEdge,
      chord: station.chord.value,
      twist: station.twist.value,
      section: label,
    });
  }
  return success(
    {
      name: surface.name,
      kind: surfaceKinds[surface.role],
      stations,
      mirrored: surface.mirrored,
      controls: surface.controls.map((control) => {
        const at = stationOfControl(control, surface.stations);
        const geometry = sections.get(stations[at]!.section)!.geometry;
        const turning = files.computed?.turningOf?.(geometry, control.hinge.value, surface.role);
        return controlSurface(control, stations, turning);
      }),
    },
    warnings,
  );
}

/** Cells as a section of a chord [m] has them. */
const coveringOptions = ({ from, to, edge, flat }: Coverage[string], chord: number): SectionOptions => ({
  cells: { from, to, edge: edge / chord },
  ...(flat === undefined ? {} : { flats: { from, to, width: flat / chord } }),
});

/** Name of a section on its surface: the same sheet at another chord, or under cells on another surface, is another section. */
function sectionLabel(surface: string, section: Section, chord: number): string {
  if (section.type === 'naca') return `${surface}: NACA ${section.digits}${scaled(section.thickness?.value)}`;
  if (section.type === 'library') return `${surface}: ${section.name}${scaled(section.thickness?.value)}`;
  if (section.type === 'file') return `${surface}: ${section.path}${scaled(section.thickness?.value)}`;
  if (section.type === 'coordinates') return `${surface}: own points${scaled(section.thickness?.value)}`;
  return `${surface}: plate ${(1000 * section.thickness.value).toFixed(1)} mm at ${(1000 * chord).toFixed(1)} mm`;
}

const scaled = (thickness: number | undefined): string =>
  thickness === undefined ? '' : ` at ${(100 * thickness).toFixed(1)} %`;

/** A control from shares of the half span to the positions that the engine counts by. */
function controlSurface(
  control: CompleteControl,
  stations: readonly Station[],
  turning: ControlTurning | undefined,
): ControlSurface {
  const root = stations[0]!;
  const tip = stations.at(-1)!;
  const rise = Math.abs(tip.z - root.z);
  const steep = rise > (tip.y - root.y) * Math.tan(Math.PI / 3);
  const [start, reach] = steep ? [0, rise] : [root.y, tip.y - root.y];
  return {
    name: control.name,
    kind: control.kind,
    fromY: start + control.from * reach,
    toY: start + control.to * reach,
    chordFraction: 1 - control.hinge.value,
    effectiveness: hingeEfficiency(control, chordAt(control, stations)),
    layerAhead: LAYER_AHEAD.unknown,
    ...(turning === undefined ? {} : { turning }),
  };
}

/** What hinge and open gap of a control leave of the turning in theory. chord - of the section [m] */
const hingeEfficiency = ({ gap }: CompleteControl, chord: number): number =>
  FLAP_EFFICIENCY * (1 - flapGapLoss(gap.value / chord).loss);

/** Chord in the middle of a control [m]. */
function chordAt({ from, to }: Pick<CompleteControl, 'from' | 'to'>, stations: readonly Station[]): number {
  const along = stationDistances({ stations });
  const at = ((from + to) / 2) * along.at(-1)!;
  const i = Math.max(
    1,
    along.findIndex((distance) => distance >= at),
  );
  const share = (at - along[i - 1]!) / (along[i]! - along[i - 1]!);
  return stations[i - 1]!.chord + share * (stations[i]!.chord - stations[i - 1]!.chord);
}

function bodiesOf(body: CompleteBody): Body[] {
  const one: Body = {
    name: body.name,
    length: body.length.value,
    width: body.width.value,
    height: body.height.value,
    x: body.x.value,
    y: body.y.value,
    z: body.z.value,
  };
  // The engine counts a body beside the middle twice by itself.
  return body.pair && body.y.value === 0 ? [one, { ...one, name: `${body.name}, second` }] : [one];
}

/** Controls that pitch the aircraft, and how far the least of them goes. */
function pitchControl(surfaces: readonly CompleteSurface[]): Pick<AssembledShape, 'controlRange' | 'pitchControls'> {
  const pitching = surfaces.flatMap((surface) => surface.controls).filter(({ kind }) => pitchKinds.includes(kind));
  if (pitching.length === 0) return { controlRange: undefined, pitchControls: [] };
  return {
    pitchControls: pitching.map(({ name }) => name),
    controlRange: {
      lower: -Math.min(...pitching.map(({ up }) => up.value)),
      upper: Math.min(...pitching.map(({ down }) => down.value)),
    },
  };
}
