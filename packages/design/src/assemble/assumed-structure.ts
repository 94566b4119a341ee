import { type Outcome, success } from '@noonwing/engine';
import { isSteep, type LiftingSurface, planform, stationDistances } from '@noonwing/engine/shape';
import {
  type BeamPart,
  type BodyPart,
  surfacePart as describedPart,
  type FaceTemperatures,
  type HalfAircraft,
  type MassPoint,
  type PlateProperties,
  type SpanStrength,
  type SurfacePart,
  type SurfaceStructure,
  strengthAlong,
  type WarmMaterial,
} from '@noonwing/engine/structure';
import type { CompleteAircraft, CompleteSurface, Construction } from '../complete/index.js';
import { laidWires } from '../complete/wires.js';
import { cellsAcrossJoints } from './joint-cells.js';
import type { AssembledMasses } from './masses.js';
import { type MaterialFactor, materialFactors, withMaterial } from './material-factor.js';
import type { AssembledShape } from './shape.js';
import { assumedOfJoint, describedStructure, stiffnessSpread } from './structure.js';
import { warmSpread, warmSurface } from './warm-structure.js';
import { isTaut, slackWords, wireParts } from './wire-parts.js';

/** The structure of an aircraft as its limits need it. */
export interface AssembledStructure {
  /** Of the largest surface, where the design describes it. */
  readonly strength?: SpanStrength;
  /** Surfaces that the design describes, by name. */
  readonly described: Readonly<Record<string, SurfaceStructure>>;
  readonly half: HalfAircraft;
  /** Relative standard uncertainty of its stiffness. */
  readonly stiffnessSigma: number;
  /** Whether the largest surface is of foam, which takes a face of glass. */
  readonly foam: boolean;
  /** What was assumed, in words. */
  readonly assumed: readonly string[];
  /** What joints of wing panels leave open, in words. */
  readonly assumedJoints: readonly string[];
  /** Cells that lie across joints, in words. */
  readonly acrossJoints: readonly string[];
  /** Bracing wires that no lift tightens, in words: they are not counted. */
  readonly slackWires: readonly string[];
  /** Materials whose stiffness was measured on a strip. */
  readonly strips: readonly MaterialFactor[];
}

/** Model foam across its sheet, and Poisson's ratio. Source: three-point bends of XPS sheets, 8 to 20 MPa (M. Drela, P. Barnes, 2003, converted); expansion of polystyrene 60 to 70 millionths per kelvin (from memory). */
const foam = { modulus: 12e6, poisson: 0.3, expansion: 65e-6 };
/** Pultruded carbon along its fibres [Pa], and the share of torsion in bending stiffness of a tube of it. Source: maker's data of tubes, 127 and 4 GPa. */
const carbon = { modulus: 127e9, torsionShare: 0.063 };

/** A spar is taken to bend this share of the half span under so many g (common practice, no source), and to have torsion as a share of it. */
const sparRules: Readonly<
  Record<Exclude<Construction, 'foam sheet'>, { sag: number; loadFactor: number; torsion: number; axis: number }>
> = {
  foam: { sag: 0.1, loadFactor: 4, torsion: carbon.torsionShare, axis: 0.3 },
  'built-up': { sag: 0.08, loadFactor: 4, torsion: 0.5, axis: 0.28 },
  moulded: { sag: 0.06, loadFactor: 6, torsion: 0.8, axis: 0.33 },
};

/** Carbon strips on edge in a foam sheet: 1 mm wide, two thirds of the sheet high, at these chord stations. */
const strips = { width: 1e-3, share: 2 / 3, at: [0.15, 0.45] };

const words: Readonly<Record<Construction, string>> = {
  'foam sheet': 'bare foam of 12 MPa with two carbon strips on edge at 15 and 45 % of the chord',
  foam: 'a foam core of 12 MPa on a carbon tube that sags 10 % of the half span at 4 g',
  'built-up': 'a spar with D-box that sags 8 % of the half span at 4 g, torsion half of bending',
  moulded: 'shells that sag 6 % of the half span at 6 g, torsion 0.8 of bending',
};

const orthotropic = (
  along: number,
  out: number,
  twist: number,
  arealMass: number,
  heatCurvature = 0,
): PlateProperties => ({
  d11: along,
  d22: out,
  d12: 0.3 * Math.min(along, out),
  d16: 0,
  d26: 0,
  d66: twist,
  arealMass,
  heatCurvature,
});

interface Measure {
  readonly surface: LiftingSurface;
  readonly complete: CompleteSurface;
  /** y along the surface from the root's y. */
  readonly stations: readonly { readonly y: number; readonly xLeadingEdge: number; readonly chord: number }[];
  readonly length: number;
  /** Thickness / chord at a chord fraction, from the root section. */
  readonly thickness: (chordFraction: number) => number;
}

function measureOf(surface: LiftingSurface, complete: CompleteSurface, shape: AssembledShape): Measure {
  const distances = stationDistances(surface);
  const root = surface.stations[0]!;
  const section = shape.sections.find(({ name }) => name === root.section)!.geometry;
  return {
    surface,
    complete,
    length: distances.at(-1)!,
    stations: surface.stations.map(({ xLeadingEdge, chord }, i) => ({
      y: root.y + distances[i]!,
      xLeadingEdge,
      chord,
    })),
    thickness: (u) => {
      const i = section.stations.findIndex((station) => station >= u);
      return section.thickness[Math.max(0, i)] ?? 0;
    },
  };
}

/** Plate of a surface: foam as thick as the section, or ribs and skins that hold the section's shape. */
function plateOf({ complete, stations, thickness }: Measure, u: number): PlateProperties {
  const chord = stations[0]!.chord;
  const { construction } = complete;
  if (construction === 'foam sheet' || construction === 'foam') {
    // Edges are bevelled; the very edge is not thinner than 1 mm.
    const height = Math.max(1e-3, thickness(u) * chord);
    const d = (foam.modulus * height ** 3) / (12 * (1 - foam.poisson ** 2));
    return orthotropic(d, d, ((1 - foam.poisson) / 2) * d, 1e-3 + 30 * height, foam.expansion / height);
  }
  // Ribs and shells of a chord of 0.2 m hold it with some 20 N m per metre; by the square of the chord (judgement).
  const along = 20 * (chord / 0.2) ** 2;
  return orthotropic(along, 0.02 * along, 0.02 * along, 1);
}

function beamsOf(measure: Measure, weight: number): BeamPart[] {
  const { complete, stations, length, thickness } = measure;
  const line = (name: string, u: number, bending: (y: number) => number, torsionShare: number, linearMass: number) => ({
    name,
    points: stations.map(({ y, xLeadingEdge, chord }) => ({
      x: xLeadingEdge + u * chord,
      y,
      at: { bending: bending(y), torsion: torsionShare * bending(y), linearMass },
    })),
  });
  if (complete.construction === 'foam sheet') {
    const height = strips.share * thickness(0.3) * stations[0]!.chord;
    const bending = (carbon.modulus * strips.width * height ** 3) / 12;
    return strips.at.map((u) => line(`strip at ${u}`, u, () => bending, 0.05, 1500 * strips.width * height));
  }
  const rule = sparRules[complete.construction];
  const root = (rule.loadFactor * weight * length ** 2) / (16 * rule.sag);
  // Spars taper: a third of the root's stiffness at the tip.
  const bending = (y: number) => root * (1 - (0.67 * (y - stations[0]!.y)) / length);
  return [line('spar', rule.axis, bending, rule.torsion, 0.05)];
}

function surfacePart(measure: Measure, weight: number, mass: number | undefined): SurfacePart {
  const { surface, stations } = measure;
  const root = stations[0]!.y;
  return {
    name: surface.name,
    stations,
    plateAt: (_, u) => plateOf(measure, u),
    beams: beamsOf(measure, weight),
    controls: surface.controls.map((control) => ({
      name: control.name,
      fromY: Math.max(root, control.fromY),
      toY: Math.min(root + measure.length, control.toY),
      hinge: 1 - control.chordFraction,
      // Bent foam or tape, and a small servo with a wire of 1.5 mm (judgement).
      hingeStiffness: 0.05,
      linkageStiffness: 6,
      hornY: control.fromY + 0.4 * (control.toY - control.fromY),
    })),
    ...(mass === undefined ? {} : { mass }),
  };
}

/** Bodies as tubes of carbon or thin shells by their width (judgement). */
const bodyParts = (shape: AssembledShape): BodyPart[] =>
  shape.shape.bodies
    .filter(({ y = 0 }) => Math.abs(y) < 1e-6)
    .map(({ name, x, length, width }) => {
      const bending = 60 * (width / 0.015) ** 2;
      return { name, y: 0, fromX: x, toX: x + length, at: { bending, torsion: 0.3 * bending, linearMass: 0.02 } };
    });

/** Masses beside those of the modelled surfaces, on the right half; rows of cells along their row. */
function massPoints(aircraft: CompleteAircraft, masses: AssembledMasses, held: ReadonlySet<string>): MassPoint[] {
  const inSurface = new Set(
    aircraft.masses.filter(({ place }) => 'on' in place && held.has(place.on)).map(({ name }) => name),
  );
  const rowOf = new Map(
    aircraft.masses.flatMap(({ name, place }) => ('row' in place ? [[name, place.row] as const] : [])),
  );
  return masses.items.flatMap((item): MassPoint[] => {
    if (inSurface.has(item.name) || !(item.mass > 0)) return [];
    const grown = item.mass * (item.provenance === 'weighed' ? 1 : masses.growth.factor);
    const row = aircraft.array?.rows.find(({ name }) => name === rowOf.get(item.name));
    if (row !== undefined && held.has(row.on)) return row.side === 'left' ? [] : alongRow(aircraft, row, item.x, grown);
    if (item.y < -1e-6) return [];
    return [{ name: item.name, x: item.x, y: item.y, mass: item.y > 1e-6 ? grown : grown / 2 }];
  });
}

function alongRow(
  aircraft: CompleteAircraft,
  row: NonNullable<CompleteAircraft['array']>['rows'][number],
  x: number,
  grown: number,
): MassPoint[] {
  const tip = aircraft.surfaces.find(({ name }) => name === row.on)!.stations.at(-1)!.y;
  const count = 8;
  const mass = (row.side === 'both' ? 0.5 : 1) * (grown / count);
  return Array.from({ length: count }, (_, i) => ({
    name: `${row.name} ${i}`,
    x,
    y: tip * (row.from + ((i + 0.5) / count) * (row.to - row.from)),
    mass,
    on: row.on,
  }));
}

/**
 * The structure of each surface: as the design describes it, else of usual stiffness for how it is built. What is assumed is widely
 * uncertain: limits from it say which kind of limit comes first rather than where.
 * weight - of the aircraft [N]; faces - temperatures of what carries cells, where it is described; absent: cool, as stiffness is stated
 * Returns undefined where there is no wing.
 */
export function assumedStructure(
  aircraft: CompleteAircraft,
  shape: AssembledShape,
  masses: AssembledMasses,
  weight: number,
  faces?: FaceTemperatures,
): Outcome<AssembledStructure | undefined> {
  const flat = shape.shape.surfaces.filter((surface) => surface.mirrored && !isSteep(surface));
  if (!flat.some(({ kind }) => kind === 'wing')) return success(undefined);
  const ordered = [...flat].sort((a, b) => planform(b).area - planform(a).area);
  const constructionOf = (name: string) => aircraft.surfaces.find((surface) => surface.name === name)!.construction;
  const held = new Set(ordered.map(({ name }) => name));
  const massOn = (name: string) => {
    const own = aircraft.masses.filter(({ place }) => 'on' in place && place.on === name);
    if (own.length === 0) return undefined;
    return own.reduce(
      (sum, { mass, count, weighed }) => sum + mass.value * count * (weighed ? 0.5 : 0.5 * masses.growth.factor),
      0,
    );
  };
  const strips = materialFactors(aircraft.measured);
  const described: Record<string, SurfaceStructure> = {};
  const surfaces: SurfacePart[] = [];
  const softer: WarmMaterial[] = [];
  for (const surface of ordered) {
    const complete = aircraft.surfaces.find(({ name }) => name === surface.name)!;
    const share = surface.kind === 'wing' ? 1 : 0.3;
    const mass = massOn(surface.name);
    const own = describedStructure(surface, complete, shape.sections, {
      array: aircraft.array,
      ...(mass === undefined ? {} : { mass }),
    });
    if (!own.ok) return own;
    const cool = own.value && strips.reduce(withMaterial, own.value);
    const warm = cool && faces && warmSurface(cool, faces);
    softer.push(...(warm?.softer ?? []));
    const measured = warm?.structure ?? cool;
    if (measured !== undefined) described[surface.name] = measured;
    surfaces.push(
      measured === undefined
        ? surfacePart(measureOf(surface, complete, shape), share * weight, mass)
        : describedPart(measured),
    );
  }
  const largest = aircraft.surfaces.find(({ name }) => name === ordered[0]!.name)!;
  const main = described[largest.name];
  const carried = massPoints(aircraft, masses, held);
  const spread =
    largest.structure === undefined
      ? 0.5
      : stiffnessSpread(
          largest.structure,
          largest.construction,
          Object.fromEntries(strips.map(({ material, spread }) => [material, spread])),
        );
  const wires = laidWires(aircraft.surfaces.filter(({ name }) => held.has(name)));
  return success({
    slackWires: wires.filter((wire) => !isTaut(wire)).map(slackWords),
    half: { surfaces, bodies: bodyParts(shape), masses: carried, wires: wireParts(wires.filter(isTaut)) },
    described,
    ...(main === undefined ? {} : { strength: strengthAlong(main, carried) }),
    stiffnessSigma: warmSpread(spread, softer),
    strips,
    foam: constructionOf(largest.name).startsWith('foam'),
    assumed: ordered
      .filter(({ name }) => described[name] === undefined)
      .map(({ name }) => `${name}: ${words[constructionOf(name)]}`),
    acrossJoints: ordered.flatMap((surface) =>
      cellsAcrossJoints(
        aircraft.surfaces.find(({ name }) => name === surface.name)!,
        aircraft.array,
        stationDistances(surface).at(-1)!,
      ),
    ),
    assumedJoints: aircraft.surfaces.flatMap(({ name, structure }) =>
      Object.entries(structure?.joints ?? {}).flatMap(([joint, of]) => assumedOfJoint(name, joint, of)),
    ),
  });
}
