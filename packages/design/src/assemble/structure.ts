import { type Outcome, problem, success } from '@noonwing/engine';
import { type CellSize, type CellSpot, chordAlong } from '@noonwing/engine/light';
import { type LiftingSurface, stationDistances } from '@noonwing/engine/shape';
import type {
  CellField,
  ControlPart,
  Layer,
  PanelJoint,
  SkinZone,
  SparPart,
  StructuralMaterial,
  StructureStation,
  SurfaceStructure,
} from '@noonwing/engine/structure';
import type { CompleteAircraft, CompleteRow, CompleteSurface, Construction } from '../complete/index.js';
import { loadStation } from '../complete/joiners.js';
import { MATERIALS, type Material, type MaterialName } from '../library/materials.js';
import type { JointDesign, StructureDesign } from '../structure-fields.js';
import { cellsOnFaces, cellsOnSide, chordCovered, type Face, pieceOf, spotsOf } from './cells.js';
import type { AssembledSection } from './section.js';
import { relativeSigma } from './sigma.js';

type LayerDesign = NonNullable<StructureDesign['skins']>[number];
type SparDesign = NonNullable<StructureDesign['spars']>[string];

/** What fills and covers a surface where its structure leaves that open (common practice, no source). */
const usualCore: Readonly<Record<Construction, MaterialName | undefined>> = {
  'foam sheet': 'depron foam',
  foam: 'expanded polystyrene foam',
  'built-up': undefined,
  moulded: undefined,
};
const usualSkin: Readonly<Record<Construction, MaterialName | undefined>> = {
  'foam sheet': undefined,
  foam: undefined,
  'built-up': 'light covering film',
  moulded: 'glass fabric 49 g/m2 with epoxy',
};

/** Silicon in the mean of its directions. Source: Hopcroft, Nix, Kenny, JMEMS 19, 2010: 130 GPa in [100], 169 in [110]. */
const silicon: StructuralMaterial = {
  name: 'silicon',
  modulus: 150e9,
  modulusAcross: 150e9,
  shearModulus: 62e9,
  throughShear: 62e9,
  poisson: 0.2,
  density: 2329,
  tension: 1.5e8,
  compression: 1e9,
  shearStrength: 1e8,
  expansion: 2.6e-6,
};
/** Thickness of a usual cell [m], gap between cells [m], and soft glue: 0.3 mm of silicone of 0.4 MPa (from memory). */
const usualCell = { thickness: 165e-6, gap: 2e-3, glueThickness: 3e-4, glueShear: 4e5 };
/** Bent foam or tape as a hinge [N m/rad per m], and a small servo with its wire [N m/rad] (judgement). */
const usualHinge = { hinge: 0.05, linkage: 6 };

/** A material of the library as the engine takes it. */
export function structuralMaterial(name: MaterialName): StructuralMaterial {
  const { mechanics, density, arealDensity } = MATERIALS[name] as Material;
  if (mechanics === undefined) throw new RangeError(`${name} carries no load`);
  const { source: _, spread: __, thickness, ...moduli } = mechanics;
  return {
    name,
    ...moduli,
    throughShear: mechanics.shearModulus,
    density: density?.value ?? (arealDensity?.value ?? 0) / (thickness ?? 1),
  };
}

function layerOf(where: string, { material, thickness, angle }: LayerDesign): Outcome<Layer> {
  const known = (MATERIALS[material] as Material).mechanics?.thickness;
  const size = thickness?.value ?? known;
  if (size === undefined) {
    return problem({
      code: 'layer-thickness',
      reason: `a layer of ${material} has no thickness`,
      where,
      remedy: `write {material: ${material}, thickness: 1.5 mm}`,
    });
  }
  return success({ material: structuralMaterial(material), thickness: size, angle: angle?.value ?? 0 });
}

function layersOf(where: string, given: readonly LayerDesign[]): Outcome<readonly Layer[]> {
  const layers: Layer[] = [];
  for (const each of given) {
    const layer = layerOf(where, each);
    if (!layer.ok) return layer;
    layers.push(layer.value);
  }
  return success(layers);
}

/** Skins of both faces over the whole chord, and the sheeting of the nose under them. */
function zonesOf(where: string, design: StructureDesign, construction: Construction): Outcome<readonly SkinZone[]> {
  const usual = usualSkin[construction];
  const both = design.skins ?? (usual === undefined ? [] : [{ material: usual }]);
  const zones: SkinZone[] = [];
  for (const face of ['upper', 'lower'] as const) {
    const skin = layersOf(`${where}.skins`, (face === 'upper' ? design.upperSkin : design.lowerSkin) ?? both);
    if (!skin.ok) return skin;
    zones.push({ name: `${face} skin`, face, from: 0, to: 1, layers: skin.value });
    if (design.dBox === undefined) continue;
    const box = layersOf(`${where}.d box`, design.dBox.layers);
    if (!box.ok) return box;
    zones.push({ name: `${face} D-box`, face, from: 0, to: design.dBox.to.value, layers: box.value });
  }
  return success(zones);
}

interface Span {
  readonly root: number;
  readonly length: number;
}

function sparOf(where: string, name: string, spar: SparDesign, { root, length }: Span): Outcome<SparPart> {
  const kind = spar.kind === 'rod' ? 'tube' : spar.kind;
  const height = spar.height?.value ?? 0;
  const bad =
    kind === 'tube'
      ? height >= spar.width.value && 'its inner diameter is not less than the outer one'
      : !(height > 0) && 'it has no height';
  if (bad !== false) {
    return problem({
      code: 'spar-size',
      reason: bad,
      where: `${where}.spars.${name}`,
      remedy: 'give width and height of the spar',
    });
  }
  const station = spar.chordStation?.value ?? 0.3;
  const [from, to] = [spar.from?.value ?? 0, spar.to?.value ?? 1];
  const web =
    spar.web === undefined
      ? {}
      : { web: { material: structuralMaterial(spar.web), thickness: spar.webThickness?.value ?? 1.5e-3 } };
  return success({
    name,
    kind,
    material: structuralMaterial(spar.material),
    place: spar.place ?? 'middle',
    ...web,
    sizes: [
      { y: root + from * length, chordFraction: station, width: spar.width.value, depth: height },
      {
        y: root + to * length,
        chordFraction: spar.tipChordStation?.value ?? station,
        width: spar.tipWidth?.value ?? spar.width.value,
        depth: spar.tipHeight?.value ?? height,
      },
    ],
  });
}

function sparsOf(where: string, design: StructureDesign, span: Span): Outcome<readonly SparPart[]> {
  const spars: SparPart[] = [];
  for (const [name, spar] of Object.entries(design.spars ?? {})) {
    const made = sparOf(where, name, spar, span);
    if (!made.ok) return made;
    spars.push(made.value);
  }
  return success(spars);
}

/** Of a joint: no play, a socket of wood or glass, and pins and ribs that keep most of the torsion (judgement). */
const usualJoint = { play: 0, bearing: 10e6, torsionKept: 0.7 };

/** What a joint leaves open, in words. */
export const assumedOfJoint = (surface: string, name: string, joint: JointDesign): readonly string[] => {
  const open = [
    ...(joint.torsionKept === undefined ? ['pins and ribs keep 70 % of the torsional stiffness'] : []),
    ...(joint.socketStrength === undefined ? ['its socket bears 10 MPa'] : []),
    ...(joint.play === undefined ? ['it has no play'] : []),
  ];
  return open.length === 0 ? [] : [`${surface}, joint ${name}: ${open.join(', ')}`];
};

/** Why the size of a joiner cannot be; undefined where it can. */
function badJoint({ kind, width, height, wall }: JointDesign): string | undefined {
  const high = height?.value ?? 0;
  if (kind === 'tube') return high >= width.value ? 'its inner diameter is not less than the outer one' : undefined;
  if (!(high > 0)) return 'it has no height';
  if (kind === 'blade') return undefined;
  const thick = wall?.value ?? 0;
  return thick > 0 && 2 * thick < Math.min(high, width.value) ? undefined : 'its walls have no thickness or fill it';
}

function jointsOf(where: string, design: StructureDesign, { root, length }: Span): Outcome<readonly PanelJoint[]> {
  const joints: PanelJoint[] = [];
  for (const [name, joint] of Object.entries(design.joints ?? {})) {
    const bad = badJoint(joint);
    if (bad !== undefined) {
      return problem({
        code: 'joint-size',
        reason: bad,
        where: `${where}.joints.${name}`,
        remedy: 'give width and height of the joiner, and the wall of a box',
      });
    }
    joints.push({
      name,
      chordFraction: loadStation(design, joint),
      y: root + joint.at.value * length,
      kind: joint.kind,
      material: structuralMaterial(joint.material),
      width: joint.width.value,
      height: joint.height?.value ?? 0,
      wall: joint.wall?.value ?? 0,
      depth: joint.length.value,
      play: joint.play?.value ?? usualJoint.play,
      bearing: joint.socketStrength?.value ?? usualJoint.bearing,
      // What is left is never nothing: a hinge has no place in the model.
      torsionKept: Math.max(0.01, joint.torsionKept?.value ?? usualJoint.torsionKept),
      ...(joint.bendingKept === undefined ? {} : { bendingKept: Math.max(0.01, joint.bendingKept.value) }),
    });
  }
  return success(joints);
}

/** Cells of a face that lie at one chord station, with where they begin and end along the surface [m]. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly spot: CellSpot;
}

/**
 * Where the cells of a row lie on the right half: one stretch from the first to the last, or one for each cell where they are placed one by one.
 */
function stretchesOf(row: CompleteRow, count: number, { length }: Span, size: CellSize): readonly Stretch[] {
  const spots = spotsOf(row, count, length, size.length);
  const [first, last] = [spots[0], spots.at(-1)];
  if (first === undefined || last === undefined) return [];
  const each = (from: CellSpot, to: CellSpot): Stretch => ({
    from: Math.max(0, from.along - size.length / 2),
    to: Math.min(length, to.along + size.length / 2),
    spot: from,
  });
  if (row.places !== undefined) return spots.map((spot) => each(spot, spot));
  // Without a gap the room is shared out: the row is taken as a whole.
  return [row.gap === undefined ? { from: row.from * length, to: row.to * length, spot: first } : each(first, last)];
}

/** Rows of cells of the right half as fields on the surface. */
function cellFields(
  complete: CompleteSurface,
  design: StructureDesign,
  array: CompleteAircraft['array'],
  span: Span,
  chordAt: (along: number) => number,
): readonly CellField[] {
  if (array === undefined) return [];
  const { cell, rows } = array;
  const soft = design.cells === 'floating' || design.glueThickness !== undefined;
  const glue = { thickness: design.glueThickness?.value ?? usualCell.glueThickness, shearModulus: usualCell.glueShear };
  const field = (row: CompleteRow, face: Face, size: CellSize, { from, to, spot }: Stretch): CellField => {
    const [front, rear] = chordCovered(spot, size, chordAt((from + to) / 2));
    return {
      name: row.name,
      fromY: span.root + from,
      toY: span.root + to,
      from: front,
      to: rear,
      face,
      material: silicon,
      thickness: usualCell.thickness,
      length: size.length,
      width: size.width,
      gap: row.gap ?? usualCell.gap,
      ...(soft ? { glue } : {}),
    };
  };
  return rows
    .filter(({ on, side }) => on === complete.name && side !== 'left')
    .flatMap((row) => {
      const size = pieceOf(row, cell);
      const faces = cellsOnFaces(row, cellsOnSide(row, complete.mirrored, 'right'));
      return faces.flatMap(([face, share]) =>
        stretchesOf(row, share, span, size).map((stretch) => field(row, face, size, stretch)),
      );
    });
}

const controlParts = (
  surface: LiftingSurface,
  design: StructureDesign,
  { root, length }: Span,
): readonly ControlPart[] =>
  surface.controls.map(({ name, fromY, toY, chordFraction }) => ({
    name,
    fromY: Math.max(root, fromY),
    toY: Math.min(root + length, toY),
    hinge: 1 - chordFraction,
    hingeStiffness: design.hingeStiffness?.value ?? usualHinge.hinge,
    linkageStiffness: design.linkageStiffness?.value ?? usualHinge.linkage,
    hornY: fromY + 0.4 * (toY - fromY),
  }));

/**
 * Structure of a surface that the design describes, for `surfacePart` of the engine.
 *
 * @param mass - of the right half of the bare surface where known [kg]
 * @returns undefined where the design says nothing of its structure; a problem where a layer or spar has no size
 */
export function describedStructure(
  surface: LiftingSurface,
  complete: CompleteSurface,
  sections: readonly AssembledSection[],
  { array, mass }: { readonly array?: CompleteAircraft['array']; readonly mass?: number },
): Outcome<SurfaceStructure | undefined> {
  const design = complete.structure;
  if (design === undefined) return success(undefined);
  const where = `surfaces.${complete.name}.structure`;
  const distances = stationDistances(surface);
  const root = surface.stations[0]!.y;
  const span = { root, length: distances.at(-1)! };
  const zones = zonesOf(where, design, complete.construction);
  if (!zones.ok) return zones;
  const spars = sparsOf(where, design, span);
  if (!spars.ok) return spars;
  const joints = jointsOf(where, design, span);
  if (!joints.ok) return joints;
  const core = design.core === 'hollow' ? undefined : (design.core ?? usualCore[complete.construction]);
  const { ribs } = design;
  const stations: StructureStation[] = surface.stations.map(({ xLeadingEdge, chord, section }, i) => {
    const { stations: at, upper, lower } = sections.find(({ name }) => name === section)!.geometry;
    return { y: root + distances[i]!, xLeadingEdge, chord, shape: { stations: at, upper, lower } };
  });
  return success({
    name: surface.name,
    stations,
    ...(core === undefined ? {} : { core: structuralMaterial(core) }),
    zones: zones.value,
    ...(ribs === undefined
      ? {}
      : {
          ribs: {
            material: structuralMaterial(ribs.material),
            thickness: ribs.thickness.value,
            spacing: ribs.spacing.value,
            share: 0.6,
          },
        }),
    spars: spars.value,
    cells: cellFields(complete, design, array, span, (along) => chordAlong(surface, along)),
    controls: controlParts(surface, design, span),
    ...(joints.value.length === 0 ? {} : { joints: joints.value }),
    ...(mass === undefined ? {} : { mass }),
    bendingFactor: design.bendingFactor?.value ?? 1,
    torsionFactor: design.torsionFactor?.value ?? 1,
  });
}

/** Relative standard uncertainty that load tests of bending and twist leave; undefined until both were made. */
function testedSpread({ bendingFactor, torsionFactor }: StructureDesign): number | undefined {
  if (bendingFactor === undefined || torsionFactor === undefined) return undefined;
  return Math.max(relativeSigma(bendingFactor), relativeSigma(torsionFactor), 0.05);
}

/**
 * Relative standard uncertainty of a structure's stiffness: the greatest spread of the moduli it rests on, or what load tests leave.
 *
 * @param measured - spread of materials that were measured, by name
 */
export function stiffnessSpread(
  design: StructureDesign,
  construction: Construction,
  measured: Readonly<Record<string, number>> = {},
): number {
  const tested = testedSpread(design);
  if (tested !== undefined) return tested;
  const names = [
    ...(design.core === undefined || design.core === 'hollow' ? [usualCore[construction]] : [design.core]),
    ...Object.values(design.spars ?? {}).map(({ material }) => material),
    ...[...(design.skins ?? []), ...(design.upperSkin ?? []), ...(design.lowerSkin ?? [])].map(
      ({ material }) => material,
    ),
  ];
  const spreads = names.flatMap((name) =>
    name === undefined ? [] : (measured[name] ?? (MATERIALS[name] as Material).mechanics?.spread ?? []),
  );
  // Joints, glue and what the model leaves out add a fifth (judgement).
  return Math.hypot(Math.max(0.1, ...spreads), 0.2);
}
