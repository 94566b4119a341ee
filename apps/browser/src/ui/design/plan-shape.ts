import type { CompleteAircraft, CompleteRow, CompleteSurface } from '@noonwing/design';
import type { AircraftShape, CellShape, HitRegion, MassShape, Place } from '@noonwing/drawing';
import { massWords, type Said } from '../../core/said.js';
import type { BalanceView } from '../../core/view.js';
import { type Grip, stationAt } from './grips.js';

const mm = (metres: number): number => metres * 1000;

/** The wing's outline follows the completed design, so that a drag is seen before anything is computed. */
const surfaceShape = (surface: CompleteSurface): AircraftShape['surfaces'][number] => ({
  id: `surface ${surface.name}`,
  label: surface.name,
  mirrored: surface.mirrored,
  stations: surface.stations.map(({ y, z, leadingEdge, chord, twist }) => ({
    at: [mm(surface.x.value + leadingEdge), mm(surface.y.value + y), mm(surface.z.value + z)],
    chord: mm(chord.value),
    twist: (twist.value * 180) / Math.PI,
  })),
  controls: surface.controls.map(({ name, from, to, hinge }) => ({
    id: `control ${surface.name} ${name}`,
    label: `${surface.name}, ${name}`,
    span: [from, to],
    hinge: hinge.value,
  })),
});

/** Cells of a row, spread evenly between its ends, on the halves that carry it. */
function rowCells(row: CompleteRow, surface: CompleteSurface, cell: { length: number; width: number }): CellShape[] {
  const sides = row.side === 'both' && surface.mirrored ? [1, -1] : [row.side === 'left' ? -1 : 1];
  // Of cells on both faces the upper ones are seen.
  const faces = row.face === 'both' ? 2 : 1;
  const count = Math.max(0, Math.ceil(row.cells / sides.length / faces));
  const place = (row.to - row.from) / Math.max(1, count);
  const reach = surface.stations
    .slice(1)
    .reduce((sum, { y, z }, i) => sum + Math.hypot(y - surface.stations[i]!.y, z - surface.stations[i]!.z), 0);
  const half = reach > 0 ? Math.min(cell.length / reach, place * 0.97) / 2 : 0;
  return sides.flatMap((side) =>
    Array.from({ length: Math.min(count, 400) }, (_, k): CellShape => {
      const middle = row.from + (k + 0.5) * place;
      const [inner, outer] = [stationAt(surface, middle - half), stationAt(surface, middle + half)];
      const corner = (at: typeof inner, aft: number): Place => [
        mm(at.x + row.chordStation.value * at.chord + aft),
        mm(side * at.y),
        mm(at.z),
      ];
      return {
        id: `row ${row.name}`,
        label: `row ${row.name}, cell ${k + 1}`,
        corners: [
          corner(inner, -cell.width / 2),
          corner(outer, -cell.width / 2),
          corner(outer, cell.width / 2),
          corner(inner, cell.width / 2),
        ],
      };
    }),
  );
}

function massShapes(
  aircraft: CompleteAircraft,
  isNamed: (name: string) => boolean,
  says: (mass: number) => string,
): readonly MassShape[] {
  const { battery, drive, masses } = aircraft;
  // Of a pair the right one is drawn: it is the one that is moved.
  const points = masses.flatMap(({ name, mass, place, weighed }): readonly MassShape[] => {
    if (!('x' in place) || !isNamed(name)) return [];
    const at: Place = [mm(place.x.value), mm(place.y.value), mm(place.z.value)];
    return [{ id: `mass ${name}`, label: name, at, mass: says(mass.value), assumed: !weighed }];
  });
  return [
    ...points,
    ...(drive === undefined
      ? []
      : [
          {
            id: 'motor',
            label: 'motor',
            at: [mm(drive.motor.x.value), mm(drive.motor.y.value), mm(drive.motor.z.value)] as Place,
            mass: says(drive.motor.mass.value),
            assumed: drive.motor.mass.source !== 'measured',
          },
        ]),
    ...(battery === undefined
      ? []
      : [
          {
            id: 'battery',
            label: 'battery',
            at: [mm(battery.x.value), mm(battery.y.value), mm(battery.z.value)] as Place,
            mass: says(battery.mass.value),
            assumed: battery.mass.source !== 'measured',
            size: [70, 40, 22] as Place,
          },
        ]),
  ];
}

export interface PlanParts {
  readonly masses: boolean;
  readonly cells: boolean;
  /** How masses are said. */
  readonly units?: Said;
}

const usualSaid: Said = { units: {}, language: 'en' };

/** The aircraft for drawings [mm], from the completed file; balance from what was computed. */
export function planShape(
  aircraft: CompleteAircraft,
  named: readonly string[],
  balance: BalanceView | undefined,
  parts: PlanParts,
): AircraftShape {
  const { surfaces, bodies, drive, array } = aircraft;
  const says = (mass: number) => massWords(mass, parts.units ?? usualSaid);
  const cell = array === undefined ? undefined : { length: array.cell.length.value, width: array.cell.width.value };
  const cells = (array?.rows ?? []).flatMap((row) => {
    const surface = surfaces.find(({ name }) => name === row.on);
    return surface === undefined || cell === undefined ? [] : rowCells(row, surface, cell);
  });
  return {
    name: aircraft.name,
    length: { label: 'length', unit: 'mm', decimals: 0 },
    surfaces: surfaces.map(surfaceShape),
    bodies: bodies.map(({ name, x, y, z, length, width, height, pair }) => ({
      id: `body ${name}`,
      label: name,
      mirrored: pair,
      stations: [0, 0.12, 0.5, 1].map((share, i) => ({
        at: [mm(x.value + share * length.value), mm(y.value), mm(z.value)] as Place,
        width: mm(width.value) * [0.3, 0.85, 1, 0.45][i]!,
        height: mm(height.value) * [0.3, 0.85, 1, 0.45][i]!,
      })),
    })),
    ...(parts.cells ? { cells } : {}),
    ...(parts.masses ? { masses: massShapes(aircraft, (name) => named.includes(name), says) } : {}),
    ...(drive === undefined
      ? {}
      : {
          propellers: [
            {
              id: 'propeller',
              label: 'propeller',
              at: [mm(drive.motor.x.value), mm(drive.motor.y.value), mm(drive.motor.z.value)] as Place,
              diameter: mm(drive.propeller.diameter),
            },
          ],
        }),
    ...(balance === undefined
      ? {}
      : {
          balance: [mm(balance.balancePoint.x), mm(balance.balancePoint.y), mm(balance.balancePoint.z)] as Place,
          neutral: [mm(balance.neutralPoint), 0, mm(balance.balancePoint.z)] as Place,
          allowed: [mm(balance.range.forward), mm(balance.range.aft)] as const,
        }),
  };
}

/** Part of a row of cells within which its end is taken. */
const endShare = 0.2;

/**
 * The grip that a hit region stands for.
 * along - where on a row of cells it was taken: 0 inner end, 1 outer end
 */
export function gripOfHit({ id, kind }: Pick<HitRegion, 'id' | 'kind'>, along?: number): Grip | undefined {
  const station = /^surface (.+):(\d+):(leading edge|trailing edge)$/.exec(id);
  if (station !== null) {
    return {
      kind: 'station',
      surface: station[1]!,
      index: Number(station[2]),
      edge: station[3] as 'leading edge' | 'trailing edge',
    };
  }
  if (id === 'battery' || id === 'motor') return { kind: id };
  const named = /^(surface|body|mass|row) (.+)$/.exec(id);
  if (named === null || kind === 'point' || kind === 'control') return undefined;
  const name = named[2]!;
  if (named[1] === 'row') {
    const end =
      along === undefined || (along > endShare && along < 1 - endShare)
        ? 'whole'
        : along <= endShare
          ? 'inner end'
          : 'outer end';
    return { kind: 'row', name, end };
  }
  return { kind: named[1] as 'surface' | 'body' | 'mass', name };
}

/** Id of what a drawing marks for a grip. */
export const markOfGrip = (grip: Grip): string => {
  switch (grip.kind) {
    case 'station':
      return `surface ${grip.surface}:${grip.index}:${grip.edge}`;
    case 'row':
      return `row ${grip.name}`;
    case 'battery':
    case 'motor':
      return grip.kind;
    default:
      return `${grip.kind} ${grip.name}`;
  }
};
