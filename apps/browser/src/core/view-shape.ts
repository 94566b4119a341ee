import { type LiftingSurface, planform, spanPosition } from '@noonwing/engine/shape';
import type { Verdict } from '@noonwing/verdict';
import type { FacetShape, ShapeView, SurfaceShape } from './view.js';

type Model = Verdict['prepared']['model'];

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

/** Patches of cells in the order in which they were placed, facing as their cells are computed. */
export function facetShapes({ array, complete }: Model): readonly FacetShape[] {
  if (array === undefined || complete.array === undefined) return [];
  const cellArea = complete.array.cell.area.value;
  return array.placed.map(({ row, surface, side, face, cells, centre }, i) => ({
    row,
    surface,
    side,
    face,
    cells,
    centre,
    normal: array.plan.facets[array.facetOf[i]!]!.normal,
    area: cells * cellArea,
  }));
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
