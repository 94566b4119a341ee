import type { CompleteRow } from '@noonwing/design';
import { upperSurfaceAt } from '@noonwing/engine/section';
import { cutAt, facet, type LiftingSurface, planform, spanPosition } from '@noonwing/engine/shape';
import type { Verdict } from '@noonwing/verdict';
import type { FacetShape, ShapeView, SurfaceShape } from './view.js';

type Model = Verdict['prepared']['model'];
type Direction = readonly [number, number, number];

type Sections = NonNullable<Model['airframe']>['assembled']['sections'];

/** Thickness and camber that pictures give a whole surface: mean of the sections at its stations. */
function profileOf(surface: LiftingSurface, sections: Sections): SurfaceShape['profile'] {
  const found = surface.stations.flatMap(
    ({ section }) => sections.find(({ name }) => name === section)?.geometry ?? [],
  );
  if (found.length === 0) return undefined;
  const mean = (key: 'maximumThickness' | 'maximumCamber') =>
    found.reduce((sum, geometry) => sum + geometry[key], 0) / found.length;
  return { thickness: mean('maximumThickness'), camber: mean('maximumCamber') };
}

const surfaceShape = (surface: LiftingSurface, role: string, sections: Sections): SurfaceShape => {
  const root = spanPosition(surface, 0);
  const reach = spanPosition(surface, surface.stations.length - 1) - root;
  const shareOf = (position: number) => (reach > 0 ? (position - root) / reach : 0);
  const profile = profileOf(surface, sections);
  return {
    name: surface.name,
    role,
    mirrored: surface.mirrored,
    stations: surface.stations.map(({ xLeadingEdge, y, z, chord, twist }) => ({ x: xLeadingEdge, y, z, chord, twist })),
    controls: surface.controls.map(({ name, kind, fromY, toY, chordFraction }) => ({
      name,
      kind,
      from: shareOf(fromY),
      to: shareOf(toY),
      hinge: 1 - chordFraction,
    })),
    ...(profile === undefined ? {} : { profile }),
  };
};

/** Outward normal of a row of cells on one side, body axes; level where no airframe is described. */
function normalOf(model: Model, row: CompleteRow, surfaceName: string, side: 'right' | 'left'): Direction {
  const assembled = model.airframe?.assembled;
  const surface = assembled?.shape.surfaces.find(({ name }) => name === surfaceName);
  const cell = model.complete.array?.cell;
  if (assembled === undefined || surface === undefined || cell === undefined) return [0, 0, -1];
  const root = spanPosition(surface, 0);
  const reach = spanPosition(surface, surface.stations.length - 1) - root;
  const [fromY, toY] = [root + row.from * reach, root + row.to * reach];
  const middle = cutAt(surface, (fromY + toY) / 2);
  const section = assembled.sections.find(({ name }) => name === middle.section);
  const station = row.chordStation.value;
  const half = cell.width.value / (2 * middle.chord);
  const slope = section === undefined || row.face === 'lower' ? 0 : upperSurfaceAt(section.geometry, station).slope;
  const [fromChord, toChord] = [Math.max(0, station - half), Math.min(1, station + half)];
  const made = facet(surface, { fromY, toY, fromChord, toChord, slope, side });
  if (!made.ok) return [0, 0, -1];
  const [x, y, z] = made.value.normal;
  return row.face === 'lower' ? [-x, -y, -z] : [x, y, z];
}

/** Patches of cells in the order in which they were placed. */
export function facetShapes(model: Model): readonly FacetShape[] {
  const { array, complete } = model;
  if (array === undefined || complete.array === undefined) return [];
  const { rows, cell } = complete.array;
  return array.placed.map(({ row, surface, side, cells, centre }) => {
    const written = rows.find(({ name }) => name === row)!;
    return {
      row,
      surface,
      side,
      cells,
      centre,
      normal: normalOf(model, written, surface, side),
      area: cells * cell.area.value,
    };
  });
}

/**
 * For each patch of cells the direction of the array in which it is computed: patches that face alike share one.
 * facets - as the array has them
 */
export function facetIndices(
  shapes: readonly FacetShape[],
  facets: readonly { readonly normal: Direction }[],
): number[] {
  return shapes.map(({ normal }) => {
    let best = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (const [i, { normal: candidate }] of facets.entries()) {
      const along = candidate[0] * normal[0] + candidate[1] * normal[1] + candidate[2] * normal[2];
      if (along > most + 1e-12) {
        most = along;
        best = i;
      }
    }
    return best;
  });
}

function wingSize(surfaces: readonly LiftingSurface[]): { readonly wingArea: number; readonly span: number } {
  const wings = surfaces.filter(({ kind }) => kind === 'wing').map(planform);
  return {
    wingArea: wings.reduce((sum, wing) => sum + wing.area, 0),
    span: wings.reduce((most, wing) => Math.max(most, wing.span), 0),
  };
}

/** Everything that pictures of the aircraft need. */
export function shapeView(model: Model): ShapeView {
  const { complete, airframe, masses } = model;
  const surfaces = airframe?.assembled.shape.surfaces ?? [];
  const { battery, drive, array } = complete;
  const roleOf = (name: string, kind: string) =>
    complete.surfaces.find((surface) => surface.name === name)?.role ?? kind;
  return {
    surfaces: surfaces.map((surface) =>
      surfaceShape(surface, roleOf(surface.name, surface.kind), airframe?.assembled.sections ?? []),
    ),
    bodies: complete.bodies.map(({ name, x, y, z, length, width, height, pair }) => ({
      name,
      x: x.value,
      y: y.value,
      z: z.value,
      length: length.value,
      width: width.value,
      height: height.value,
      pair,
    })),
    rows: (array?.rows ?? []).map((row) => ({ ...row, chordStation: row.chordStation.value })),
    ...(array === undefined ? {} : { cell: { length: array.cell.length.value, width: array.cell.width.value } }),
    facets: facetShapes(model),
    masses: masses.items.map(({ name, mass, x, y, z, provenance }) => ({
      name,
      mass: mass * (provenance === 'weighed' ? 1 : masses.growth.factor),
      x,
      y,
      z,
      weighed: provenance === 'weighed',
    })),
    ...(battery === undefined
      ? {}
      : {
          battery: {
            x: battery.x.value,
            y: battery.y.value,
            z: battery.z.value,
            ...(battery.movesFrom === undefined ? {} : { movesFrom: battery.movesFrom.value }),
            ...(battery.movesTo === undefined ? {} : { movesTo: battery.movesTo.value }),
          },
        }),
    ...(drive === undefined
      ? {}
      : {
          motor: {
            x: drive.motor.x.value,
            y: drive.motor.y.value,
            z: drive.motor.z.value,
            propellerDiameter: drive.propeller.diameter,
            count: drive.motor.count,
          },
        }),
    ...wingSize(surfaces),
  };
}
