import type { BeamProperties } from './beam.js';
import { neutralHeight, reducedBending } from './laminate.js';
import { capsProfile, type Profile, stripProfile, tubeProfile } from './profiles.js';
import { type LocalSection, type Stack, sectionAt, stackAt } from './stack.js';
import type { SparPart, SparSize, SurfaceStructure } from './surface-types.js';
import { cellTorsion, type WallCell } from './thinWalled.js';

/** A spar where a section cuts it. */
export interface SparCut {
  readonly spar: SparPart;
  readonly size: SparSize;
  readonly profile: Profile;
  /** Chord fraction and height of its centre above the chord line [m]. */
  readonly chordFraction: number;
  readonly height: number;
}

/** Properties of the whole section at one distance out. */
export interface SurfaceSection {
  readonly section: LocalSection;
  /** Bending stiffness along the span, of everything together [N m2]. */
  readonly bending: number;
  /** Torsional stiffness [N m2]. */
  readonly torsion: number;
  /** Stretching stiffness [N]. */
  readonly stretch: number;
  /** Neutral axis above the chord line [m]. */
  readonly neutralAxis: number;
  /** Chord fraction of the line about which the plate model twists: the bending-stiffness-weighted mean. */
  readonly elasticAxis: number;
  /** [kg/m] and the chord fraction of its centre. */
  readonly linearMass: number;
  readonly massCentre: number;
  /** Part of the stretching stiffness of plates that takes part in bending about the common axis (shear lag). */
  readonly lag: number;
  readonly spars: readonly SparCut[];
  /** Extra torsional stiffness per unit of height squared by closed cells: 4 d66 = factor * height^2, by chord interval. */
  readonly closed: readonly {
    readonly from: number;
    readonly to: number;
    readonly factor: number;
    readonly flow: number;
  }[];
}

/** Chord fractions for integrals over a section: middles of equal parts. */
const PARTS = 48;
const middles = Array.from({ length: PARTS }, (_, i) => (i + 0.5) / PARTS);

function sizeAt({ sizes }: SparPart, y: number): SparSize | undefined {
  const last = sizes[sizes.length - 1];
  if (y < sizes[0].y - 1e-9 || y > last.y + 1e-9) return undefined;
  let i = 0;
  while (i < sizes.length - 2 && y > sizes[i + 1].y) i++;
  const [a, b] = [sizes[i], sizes[i + 1]];
  const share = Math.min(1, Math.max(0, (y - a.y) / (b.y - a.y)));
  const mix = (p: number, q: number) => p + (q - p) * share;
  return {
    y,
    chordFraction: mix(a.chordFraction, b.chordFraction),
    width: mix(a.width, b.width),
    depth: mix(a.depth, b.depth),
  };
}

function profileOf(spar: SparPart, size: SparSize, height: number): Profile {
  if (spar.kind === 'tube') return tubeProfile(size.width, size.depth);
  if (spar.kind === 'strip') return stripProfile(size.width, size.depth);
  return capsProfile(size.width, Math.min(size.depth, 0.45 * height), height);
}

/** A spar as cut at a section; undefined outside its span. */
export function sparCut(structure: SurfaceStructure, spar: SparPart, section: LocalSection): SparCut | undefined {
  const size = sizeAt(spar, section.y);
  if (size === undefined) return undefined;
  const stack = stackAt(structure, section, size.chordFraction);
  const [upper, lower] = faceThickness(stack);
  const inner = Math.max(2e-4, stack.height - upper - lower);
  const profile = profileOf(spar, size, inner);
  const middle = (stack.top - upper + stack.bottom + lower) / 2;
  const height =
    spar.kind === 'caps' || spar.place === 'middle'
      ? middle
      : spar.place === 'upper'
        ? stack.top - upper - profile.halfHeight
        : spar.place === 'lower'
          ? stack.bottom + lower + profile.halfHeight
          : stack.bottom - profile.halfHeight;
  return { spar, size, profile, chordFraction: size.chordFraction, height };
}

/** Thickness of the layers of each face [m]. */
function faceThickness({ layers, top, bottom }: Stack): [number, number] {
  const middle = (top + bottom) / 2;
  const sum = (wanted: (z: number) => boolean) =>
    layers
      .filter(
        (layer) =>
          layer.middle < top && layer.middle > bottom && layer.thickness < 0.6 * (top - bottom) && wanted(layer.middle),
      )
      .reduce((total, layer) => total + layer.thickness, 0);
  return [sum((z) => z > middle), sum((z) => z < middle)];
}

/** Bending properties of a spar as a beam, about the neutral axis of the whole section. */
export function sparBeam(
  cut: SparCut,
  neutralAxis: number,
  factors: Pick<SurfaceStructure, 'bendingFactor' | 'torsionFactor'>,
): BeamProperties {
  const { spar, profile, height } = cut;
  const { material, web } = spar;
  const arm = height - neutralAxis;
  const webMass = web === undefined ? 0 : web.material.density * web.thickness * 2 * profile.halfHeight;
  return {
    bending: factors.bendingFactor * material.modulus * (profile.inertia + profile.area * arm * arm),
    torsion: factors.torsionFactor * material.shearModulus * profile.torsion,
    linearMass: material.density * profile.area + webMass,
    ...(web === undefined ? {} : { shear: web.material.shearModulus * web.thickness * 2 * profile.halfHeight }),
  };
}

interface Local {
  readonly u: number;
  readonly stack: Stack;
  readonly own: ReturnType<typeof reducedBending>;
  readonly neutral: number;
}

/** Quarter-wave shear lag of a plate between stiffeners: tanh(k b) / (k b). Source: Reissner's least-work result in its usual short form (from memory). */
function lagOf(locals: readonly Local[], structure: SurfaceStructure, chord: number, count: number): number {
  const { stations } = structure;
  const span = stations[stations.length - 1].y - stations[0].y;
  const stretch = locals.reduce((sum, { stack }) => sum + stack.stiffness.a[2], 0);
  const shear = locals.reduce((sum, { stack }) => sum + stack.stiffness.a[5], 0);
  if (!(shear > 0)) return 1;
  const kb = (Math.PI / (2 * span)) * Math.sqrt(stretch / shear) * (chord / (2 * Math.max(1, count)));
  return Math.tanh(kb) / kb;
}

const webCompliance = ({ spar: { web }, profile }: SparCut): number =>
  web === undefined ? Number.POSITIVE_INFINITY : (2 * profile.halfHeight) / (web.thickness * web.material.shearModulus);

/** Closed cells of a hollow section between its webs, each with what its torsion adds by height squared. */
function closedCells(locals: readonly Local[], spars: readonly SparCut[], chord: number): SurfaceSection['closed'] {
  const webs = spars
    .filter(({ spar }) => spar.web !== undefined)
    .map((cut) => ({ at: cut.chordFraction, compliance: webCompliance(cut) }))
    .sort((a, b) => a.at - b.at);
  const stops = [0, ...webs.map(({ at }) => at), 1];
  const bounds = stops.slice(1).map((to, i) => ({ from: stops[i], to }));
  const step = chord / PARTS;
  const cells: (WallCell & { from: number; to: number; squares: number })[] = bounds.map(({ from, to }, i) => {
    const inside = locals.filter(({ u }) => u >= from && u < to);
    const area = inside.reduce((sum, { stack }) => sum + stack.height * step, 0);
    const squares = inside.reduce((sum, { stack }) => sum + stack.height ** 2 * step, 0);
    const skin = inside.reduce((sum, { stack }) => sum + step / stack.upperShear + step / stack.lowerShear, 0);
    return { from, to, area, squares, compliance: skin + (webs[i - 1]?.compliance ?? 0) + (webs[i]?.compliance ?? 0) };
  });
  if (cells.some(({ compliance, area }) => !Number.isFinite(compliance) || !(area > 0))) return closedParts(cells);
  const torsion = cellTorsion(
    cells,
    webs.map(({ compliance }) => compliance),
  );
  return cells.map(({ from, to, squares }, i) => ({
    from,
    to,
    factor: (torsion.stiffness * torsion.share[i]) / squares,
    flow: torsion.flow[i] / torsion.stiffness,
  }));
}

/** Where part of the outline is open, each cell that is closed by itself counts alone. */
function closedParts(
  cells: readonly (WallCell & { from: number; to: number; squares: number })[],
): SurfaceSection['closed'] {
  return cells
    .filter(({ compliance, area }) => Number.isFinite(compliance) && area > 0)
    .map((cell) => {
      const torsion = cellTorsion([cell], []);
      return {
        from: cell.from,
        to: cell.to,
        factor: torsion.stiffness / cell.squares,
        flow: torsion.flow[0] / torsion.stiffness,
      };
    });
}

/** Properties of the section at a distance out. @param y - along the surface [m] */
export function surfaceSection(structure: SurfaceStructure, y: number): SurfaceSection {
  const section = sectionAt(structure, y);
  const { chord } = section;
  const step = chord / PARTS;
  const locals: Local[] = middles.map((u) => {
    const stack = stackAt(structure, section, u);
    const empty = !(stack.stiffness.a[2] > 0);
    return {
      u,
      stack,
      own: empty ? [0, 0, 0, 0, 0, 0] : reducedBending(stack.stiffness),
      neutral: empty ? 0 : neutralHeight(stack.stiffness),
    };
  });
  const spars = structure.spars.flatMap((spar) => sparCut(structure, spar, section) ?? []);
  const lag = lagOf(locals, structure, chord, spars.length);
  const closed = structure.core === undefined ? closedCells(locals, spars, chord) : [];
  const stretch =
    locals.reduce((sum, { stack }) => sum + lag * stack.stiffness.a[2] * step, 0) +
    spars.reduce((sum, { spar, profile }) => sum + spar.material.modulus * profile.area, 0);
  const moment =
    locals.reduce((sum, { stack, neutral }) => sum + lag * stack.stiffness.a[2] * neutral * step, 0) +
    spars.reduce((sum, { spar, profile, height }) => sum + spar.material.modulus * profile.area * height, 0);
  const neutralAxis = stretch > 0 ? moment / stretch : 0;
  return {
    section,
    lag,
    spars,
    closed,
    stretch,
    neutralAxis,
    ...sums(structure, { locals, spars, lag, closed, neutralAxis, step }),
  };
}

interface Sums {
  readonly locals: readonly Local[];
  readonly spars: readonly SparCut[];
  readonly lag: number;
  readonly closed: SurfaceSection['closed'];
  readonly neutralAxis: number;
  readonly step: number;
}

function sums(structure: SurfaceStructure, { locals, spars, lag, closed, neutralAxis, step }: Sums) {
  let [bending, bendingMoment, torsion, mass, massMoment] = [0, 0, 0, 0, 0];
  for (const { u, stack, own, neutral } of locals) {
    const part = (own[2] + lag * stack.stiffness.a[2] * (neutral - neutralAxis) ** 2) * step * structure.bendingFactor;
    bending += part;
    bendingMoment += part * u;
    const cell = closed.find(({ from, to }) => u >= from && u < to);
    const thin = structure.core === undefined ? skinTorsion(stack) : own[5];
    torsion += structure.torsionFactor * step * (4 * thin + (cell?.factor ?? 0) * stack.height ** 2);
    const areal = stack.arealMass + ribMass(structure, stack.height);
    mass += areal * step;
    massMoment += areal * step * u;
  }
  for (const cut of spars) {
    const beam = sparBeam(cut, neutralAxis, structure);
    bending += beam.bending;
    bendingMoment += beam.bending * cut.chordFraction;
    torsion += beam.torsion;
    mass += beam.linearMass;
    massMoment += beam.linearMass * cut.chordFraction;
  }
  return {
    bending,
    torsion,
    elasticAxis: bending > 0 ? bendingMoment / bending : 0.5,
    linearMass: mass,
    massCentre: mass > 0 ? massMoment / mass : 0.5,
  };
}

/** Torsional plate stiffness of the skins of a hollow section about their own middles [N m]. */
export const skinTorsion = ({ layers }: Stack): number =>
  layers.reduce((sum, { material, thickness }) => sum + (material.shearModulus * thickness ** 3) / 12, 0);

/** Mass of ribs per area [kg/m2]. */
export const ribMass = ({ ribs }: Pick<SurfaceStructure, 'ribs'>, height: number): number =>
  ribs === undefined ? 0 : (ribs.material.density * ribs.thickness * height * 0.7) / ribs.spacing;

/** Chordwise bending stiffness of ribs per width [N m]. */
export const ribBending = ({ ribs }: Pick<SurfaceStructure, 'ribs'>, height: number): number =>
  ribs === undefined ? 0 : (ribs.share * ribs.material.modulus * ribs.thickness * height ** 3) / (12 * ribs.spacing);
