import { cutAlong, type LiftingSurface, planform, stationDistances } from '../shape/index.js';
import { chooseCounts, distanceAt, divideSpan } from './division.js';
import { type ThinCamber, type ThinLattice, thinCamber, thinLattice } from './thin.js';
import type { CamberLine, PanelCounts, Strips, WingOptions } from './types.js';

/** Horseshoe vortices and control points of the right half and of the surfaces in the plane of symmetry. */
export interface Lattice {
  readonly panelCount: number;
  /** Panels of mirrored surfaces come first. */
  readonly mirroredPanels: number;
  readonly strips: Strips;
  /** First panel of each strip, and one more entry at the end. */
  readonly firstPanel: Int32Array;
  readonly stripOfPanel: Int32Array;
  /** Ends of the bound vortex: x, y, z of the inner, then of the outer end (six per panel). */
  readonly ends: Float64Array;
  /** Control point (three per panel). */
  readonly points: Float64Array;
  /** Plane limits by number of chordwise panels. */
  readonly thin: ReadonlyMap<number, ThinLattice>;
  /** Incidence of each panel that its camber makes. */
  readonly camberIncidence: Float64Array;
}

interface Edge {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly chord: number;
}

interface StripDraft {
  readonly surfaceIndex: number;
  readonly inner: Edge;
  readonly outer: Edge;
  readonly chordwise: number;
  readonly twist: number;
  readonly section: string;
  readonly outerSection: string;
  readonly blend: number;
  readonly station: number;
}

function draftStrips(surfaces: readonly LiftingSurface[], surfaceIndex: number, counts: PanelCounts): StripDraft[] {
  const surface = surfaces[surfaceIndex];
  const length = stationDistances(surface).at(-1)!;
  const edges = divideSpan(surface, surfaces, counts);
  const edge = (distance: number): Edge => {
    const cut = cutAlong(surface, distance);
    return { x: cut.xLeadingEdge, y: cut.y, z: cut.z, chord: cut.chord };
  };
  return edges.slice(1).map((to, i) => {
    const middle = (edges[i] + to) / 2;
    const cut = cutAlong(surface, middle);
    return {
      surfaceIndex,
      inner: edge(edges[i]),
      outer: edge(to),
      chordwise: counts.chordwise,
      twist: cut.twist,
      section: cut.section,
      outerSection: cut.outerSection,
      blend: cut.blend,
      station: middle / length,
    };
  });
}

function emptyStrips(count: number, mirroredCount: number): Strips {
  const numbers = () => new Float64Array(count);
  return {
    count,
    mirroredCount,
    surface: new Int32Array(count),
    x: numbers(),
    y: numbers(),
    z: numbers(),
    chord: numbers(),
    width: numbers(),
    area: numbers(),
    ny: numbers(),
    nz: numbers(),
    twist: numbers(),
    cosSweep: numbers(),
    cosLeadingEdge: numbers(),
    sections: [],
    outerSections: [],
    blend: numbers(),
    station: numbers(),
    suctionFactor: numbers(),
    thinMoment: numbers(),
    latticeMoment: numbers(),
  };
}

function fillStrip(strips: Strips, i: number, draft: StripDraft): void {
  const { inner, outer } = draft;
  const dy = outer.y - inner.y;
  const dz = outer.z - inner.z;
  const width = Math.hypot(dy, dz);
  const chord = (inner.chord + outer.chord) / 2;
  strips.surface[i] = draft.surfaceIndex;
  strips.x[i] = (inner.x + outer.x) / 2 + chord / 4;
  strips.y[i] = (inner.y + outer.y) / 2;
  strips.z[i] = (inner.z + outer.z) / 2;
  strips.chord[i] = chord;
  strips.width[i] = width;
  strips.area[i] = chord * width;
  strips.ny[i] = -dz / width;
  strips.nz[i] = dy / width;
  strips.twist[i] = draft.twist;
  const quarter = outer.x + outer.chord / 4 - inner.x - inner.chord / 4;
  strips.cosSweep[i] = width / Math.hypot(width, quarter);
  strips.cosLeadingEdge[i] = width / Math.hypot(width, outer.x - inner.x);
  (strips.sections as string[])[i] = draft.section;
  (strips.outerSections as string[])[i] = draft.outerSection;
  strips.blend[i] = draft.blend;
  strips.station[i] = draft.station;
  // Thin-airfoil leading-edge suction of a flat plate: pi rho V^2 alpha^2 c per span, the edge's share growing with its sweep.
  strips.suctionFactor[i] = (2 * Math.PI * chord) / strips.cosLeadingEdge[i];
}

function fillPanels(lattice: Lattice, i: number, draft: StripDraft): void {
  const { inner, outer, chordwise } = draft;
  for (let k = 0; k < chordwise; k++) {
    const panel = lattice.firstPanel[i] + k;
    const bound = (k + 0.25) / chordwise;
    const control = (k + 0.75) / chordwise;
    lattice.stripOfPanel[panel] = i;
    lattice.ends.set(
      [inner.x + bound * inner.chord, inner.y, inner.z, outer.x + bound * outer.chord, outer.y, outer.z],
      6 * panel,
    );
    lattice.points.set(
      [
        (inner.x + outer.x + control * (inner.chord + outer.chord)) / 2,
        (inner.y + outer.y) / 2,
        (inner.z + outer.z) / 2,
      ],
      3 * panel,
    );
  }
}

function fillCamber(
  lattice: Lattice,
  drafts: readonly StripDraft[],
  camber: Readonly<Record<string, CamberLine>> | undefined,
): void {
  const known = new Map<string, ThinCamber>();
  const of = (section: string, count: number): ThinCamber => {
    const key = `${count} ${section}`;
    const found = known.get(key) ?? thinCamber(camber?.[section], lattice.thin.get(count)!);
    known.set(key, found);
    return found;
  };
  drafts.forEach((draft, i) => {
    const a = of(draft.section, draft.chordwise);
    const b = of(draft.outerSection, draft.chordwise);
    const mix = (p: number, q: number) => p + (q - p) * draft.blend;
    for (let k = 0; k < draft.chordwise; k++)
      lattice.camberIncidence[lattice.firstPanel[i] + k] = mix(a.incidence[k], b.incidence[k]);
    lattice.strips.thinMoment[i] = mix(a.thinMoment, b.thinMoment);
    lattice.strips.latticeMoment[i] = mix(a.latticeMoment, b.latticeMoment);
  });
}

/** Cuts all surfaces into strips and panels; mirrored surfaces first. */
export function buildLattice(surfaces: readonly LiftingSurface[], options: WingOptions): Lattice {
  const areas = surfaces.map((surface) => planform(surface).area / (surface.mirrored ? 2 : 1));
  const counts = options.panels
    ? surfaces.map(() => options.panels!)
    : chooseCounts(surfaces, areas, options.unknowns ?? 150);
  const order = surfaces.map((_, i) => i).sort((a, b) => Number(surfaces[b].mirrored) - Number(surfaces[a].mirrored));
  const drafts = order.flatMap((index) => draftStrips(surfaces, index, counts[index]));
  const mirrored = drafts.filter((draft) => surfaces[draft.surfaceIndex].mirrored);
  const sum = (list: readonly StripDraft[]) => list.reduce((total, draft) => total + draft.chordwise, 0);
  const panelCount = sum(drafts);
  const firstPanel = new Int32Array(drafts.length + 1);
  drafts.forEach((draft, i) => {
    firstPanel[i + 1] = firstPanel[i] + draft.chordwise;
  });
  const lattice: Lattice = {
    panelCount,
    mirroredPanels: sum(mirrored),
    strips: emptyStrips(drafts.length, mirrored.length),
    firstPanel,
    stripOfPanel: new Int32Array(panelCount),
    ends: new Float64Array(6 * panelCount),
    points: new Float64Array(3 * panelCount),
    thin: new Map([...new Set(drafts.map(({ chordwise }) => chordwise))].map((count) => [count, thinLattice(count)])),
    camberIncidence: new Float64Array(panelCount),
  };
  drafts.forEach((draft, i) => {
    fillStrip(lattice.strips, i, draft);
    fillPanels(lattice, i, draft);
  });
  fillCamber(lattice, drafts, options.camber);
  return lattice;
}

/** Part of each strip that a control covers, 0 to 1. */
export function controlCoverage(
  lattice: Lattice,
  surface: LiftingSurface,
  surfaceIndex: number,
  range: { readonly fromY: number; readonly toY: number },
): Float64Array {
  const { strips } = lattice;
  const from = distanceAt(surface, range.fromY);
  const to = distanceAt(surface, range.toY);
  const length = stationDistances(surface).at(-1)!;
  const coverage = new Float64Array(strips.count);
  for (let i = 0; i < strips.count; i++) {
    if (strips.surface[i] !== surfaceIndex) continue;
    const middle = strips.station[i] * length;
    const half = strips.width[i] / 2;
    // A control that ends at the tip also covers the quarter strip that the lattice leaves out there.
    const end = to > length - 0.6 * strips.width[i] ? middle + 2 * half : to;
    const overlap = Math.min(middle + half, end) - Math.max(middle - half, from);
    coverage[i] = Math.min(1, Math.max(0, overlap / strips.width[i]));
  }
  return coverage;
}
