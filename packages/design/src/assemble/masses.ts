import type { Growth, MassItem } from '@noonwing/engine/balance';
import { cutAt, type LiftingSurface, planform, type Shape, spanPosition } from '@noonwing/engine/shape';
import type { CompleteAircraft, CompleteMass } from '../complete/index.js';
import type { Source } from '../schema/field.js';
import type { PlacedRow } from './array.js';

/** Mass items of an aircraft; battery and ballast are named so that they can be moved. */
export interface AssembledMasses {
  readonly items: readonly MassItem[];
  readonly growth: Growth;
  readonly batteryName: string | undefined;
  readonly ballast: readonly string[];
}

/**
 * Mass items of a completed design in the frame of the datum.
 * @param placed - rows of cells on the shape, from the array; empty without
 */
export function assembleMasses(
  masses: readonly CompleteMass[],
  growthAllowance: CompleteAircraft['growthAllowance'],
  shape: Shape | undefined,
  placed: readonly PlacedRow[],
): AssembledMasses {
  const items: MassItem[] = [];
  const fixed: MassItem[] = [];
  const everywhere: CompleteMass[] = [];
  for (const mass of masses) {
    if ('everywhere' in mass.place) {
      everywhere.push(mass);
      continue;
    }
    const placedItems = itemsOf(mass, shape, placed);
    items.push(...placedItems);
    if (mass.group !== 'battery' && mass.group !== 'ballast') fixed.push(...placedItems);
  }
  // What is spread over the whole aircraft lies where the rest of it does, and stays when battery or ballast is moved.
  const centre = centroid(fixed.length > 0 ? fixed : items);
  for (const mass of everywhere) {
    items.push({ ...massFields(mass), ...centre, positionUncertainty: { x: 0.02, y: 0, z: 0.01 } });
  }
  return {
    items,
    growth: { factor: 1 + growthAllowance.value, standardUncertainty: growthAllowance.sigma ?? 0 },
    batteryName: masses.find(({ group }) => group === 'battery')?.name,
    ballast: masses.filter(({ group }) => group === 'ballast').map(({ name }) => name),
  };
}

/** Where a mass comes from, in the words of a beam. */
const ORIGIN: Readonly<Record<Source, string>> = {
  measured: 'weighed',
  stated: 'stated',
  library: 'data sheet',
  assumed: 'assumed',
};

const massFields = (mass: CompleteMass) => ({
  name: mass.name,
  mass: mass.mass.value,
  massUncertainty: mass.mass.sigma ?? 0,
  provenance: mass.weighed ? ('weighed' as const) : ('assumed' as const),
  source: ORIGIN[mass.mass.source],
});

function centroid(items: readonly MassItem[]): { x: number; y: number; z: number } {
  const mass = items.reduce((sum, item) => sum + item.mass, 0);
  if (!(mass > 0)) return { x: 0, y: 0, z: 0 };
  const mean = (of: (item: MassItem) => number) => items.reduce((sum, item) => sum + item.mass * of(item), 0) / mass;
  return { x: mean((item) => item.x), y: mean((item) => item.y), z: mean((item) => item.z) };
}

function itemsOf(mass: CompleteMass, shape: Shape | undefined, placed: readonly PlacedRow[]): MassItem[] {
  const base = massFields(mass);
  const { place } = mass;
  if ('row' in place)
    return overRow(
      base,
      placed.filter(({ row }) => row === place.row),
    );
  if ('on' in place) return [{ ...base, ...(spreadOver(place.on, shape) ?? { x: 0, y: 0, z: 0 }) }];
  if (!('x' in place)) return [];
  const at = { x: place.x.value, y: place.y.value, z: place.z.value };
  const positionUncertainty = { x: place.x.sigma ?? 0, y: place.y.sigma ?? 0, z: place.z.sigma ?? 0 };
  const one: MassItem = { ...base, ...at, positionUncertainty };
  return mass.count === 2 ? [one, { ...one, name: `${mass.name}, left`, y: -at.y }] : [one];
}

/** A mass shared by the cells of a row, half and half where the row lies on both sides. */
function overRow(base: ReturnType<typeof massFields>, rows: readonly PlacedRow[]): MassItem[] {
  const cells = rows.reduce((sum, row) => sum + row.cells, 0);
  if (cells === 0) return [{ ...base, x: 0, y: 0, z: 0 }];
  const centre = [0, 1, 2].map((k) => rows.reduce((sum, row) => sum + (row.cells / cells) * row.centre[k]!, 0));
  return [{ ...base, x: centre[0]!, y: centre[1]!, z: centre[2]!, positionUncertainty: { x: 0.002, y: 0, z: 0.002 } }];
}

/** Centre and spread of a mass over a surface or body, by its name. */
function spreadOver(on: string, shape: Shape | undefined) {
  const surface = shape?.surfaces.find((candidate) => candidate.name === on);
  if (surface !== undefined) return spreadOverSurface(surface);
  const body = shape?.bodies.find((candidate) => candidate.name === on);
  if (body === undefined) return undefined;
  return {
    x: body.x + 0.45 * body.length,
    y: 0,
    z: body.z,
    shape: { kind: 'rod' as const, axis: 'x' as const, length: body.length },
    positionUncertainty: { x: 0.05 * body.length, y: 0, z: 0 },
  };
}

/** A built surface carries its mass at about 40 % of its chord (common practice: spar and leading edge are the heavy part). */
function spreadOverSurface(surface: LiftingSurface) {
  const slices = 20;
  const root = spanPosition(surface, 0);
  const reach = spanPosition(surface, surface.stations.length - 1) - root;
  let area = 0;
  let x = 0;
  let z = 0;
  for (let i = 0; i < slices; i++) {
    const cut = cutAt(surface, root + ((i + 0.5) / slices) * reach);
    area += cut.chord;
    x += cut.chord * (cut.xLeadingEdge + 0.4 * cut.chord);
    z += cut.chord * cut.z;
  }
  const { span, meanGeometricChord } = planform(surface);
  return {
    x: x / area,
    y: surface.mirrored ? 0 : surface.stations[0]!.y,
    z: z / area,
    shape: { kind: 'box' as const, length: 0.7 * meanGeometricChord, width: Math.max(span, 0.01), height: 0.02 },
    positionUncertainty: { x: 0.05 * meanGeometricChord, y: 0, z: 0.005 },
  };
}
