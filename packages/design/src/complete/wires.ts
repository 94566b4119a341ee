import type { AircraftDesign } from '../aircraft.js';
import { MATERIALS, type Material } from '../library/materials.js';
import type { WireDesign } from '../structure-fields.js';
import { loadStation, stationAt } from './joiners.js';
import type { CompleteAircraft, CompleteMass, CompleteSurface } from './types.js';

/** A bracing wire of the right half between its ends, x aft, y right, z up [m]. */
export interface LaidWire {
  readonly surface: CompleteSurface;
  readonly name: string;
  readonly wire: WireDesign;
  readonly wing: readonly [number, number, number];
  readonly end: readonly [number, number, number];
  readonly length: number;
  /** Distance of its wing end along the surface, as the structure counts y [m]. */
  readonly along: number;
}

/** Bracing wires of the right half, where they run. */
export function laidWires(surfaces: readonly CompleteSurface[]): readonly LaidWire[] {
  return surfaces.flatMap((surface) =>
    Object.entries(surface.structure?.wires ?? {}).map(([name, wire]): LaidWire => {
      const { along, y, z, leadingEdge, chord } = stationAt(surface.stations, wire.at.value);
      const station = loadStation(surface.structure!, wire);
      const wing = [surface.x.value + leadingEdge + station * chord, surface.y.value + y, surface.z.value + z] as const;
      const end = [wire.x.value, 0, wire.z.value] as const;
      return { surface, name, wire, wing, end, along, length: Math.hypot(wing[0] - end[0], wing[1], wing[2] - end[2]) };
    }),
  );
}

const sides = ({ mirrored }: CompleteSurface): 1 | 2 => (mirrored ? 2 : 1);

/** Masses of bracing wires by size and material, with a tenth for their fittings (judgement). */
export function wireMasses(surfaces: readonly CompleteSurface[]): readonly CompleteMass[] {
  return laidWires(surfaces).flatMap(({ surface, name, wire, wing, end, length }): CompleteMass[] => {
    const { density } = MATERIALS[wire.material] as Material;
    const value = 1.1 * (density?.value ?? 0) * (Math.PI / 4) * wire.diameter.value ** 2 * length;
    if (!(value > 0)) return [];
    const middle = (k: 0 | 1 | 2) => ({ value: (wing[k] + end[k]) / 2, source: 'stated' as const });
    return [
      {
        name: `wire ${name} of ${surface.name}`,
        group: 'joiner',
        mass: { value, sigma: 0.15 * value, source: 'library' },
        count: sides(surface),
        place: { x: middle(0), y: middle(1), z: middle(2) },
        weighed: true,
      },
    ];
  });
}

/** Drag coefficient of a round wire across the flow on its diameter times length, at Reynolds numbers of 100 to 1000 (S. Hoerner, Fluid-Dynamic Drag, 1965, from memory). */
const ACROSS = 1.1;

/** Drag areas of bracing wires of both halves: the cube of the sine of the angle to the flow counts (Hoerner, from memory). */
export const wireDrags = (
  design: AircraftDesign,
  surfaces: readonly CompleteSurface[],
): CompleteAircraft['extraDrag'] =>
  laidWires(surfaces).map(({ surface, name, wire, wing, end, length }) => {
    const across = Math.hypot(wing[1] - end[1], wing[2] - end[2]) / (length || 1);
    const value = sides(surface) * ACROSS * wire.diameter.value * length * across ** 3;
    return {
      name: freeName(`wire ${name} of ${surface.name}`, design),
      area: { value, sigma: 0.2 * value, source: 'library' },
      x: { value: (wing[0] + end[0]) / 2, source: 'stated' },
      y: { value: 0, source: 'stated' },
      z: { value: (wing[2] + end[2]) / 2, source: 'stated' },
    };
  });

/** A name that no drag of the file has. */
const freeName = (name: string, { extraDrag }: AircraftDesign): string =>
  extraDrag?.[name] === undefined ? name : `${name} (braced)`;
