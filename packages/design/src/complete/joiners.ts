import { joinerArea } from '@noonwing/engine/structure';
import type { AircraftDesign } from '../aircraft.js';
import { MATERIALS, type Material } from '../library/materials.js';
import type { Valued } from '../schema/field.js';
import type { JointDesign, StructureDesign } from '../structure-fields.js';
import { type Log, withSpread } from './assumptions.js';
import type { CompleteMass, CompleteStation, CompleteSurface, MassPlace } from './types.js';

/** Where a spar runs if nothing is said [chord]. */
const usualStation = 0.3;

/** Where a joiner or a wire lies along the chord: as stated, else where the first spar runs at this share of the half span. */
export function loadStation({ spars }: StructureDesign, joint: Pick<JointDesign, 'at' | 'chordStation'>): number {
  if (joint.chordStation !== undefined) return joint.chordStation.value;
  const [spar] = Object.values(spars ?? {});
  const root = spar?.chordStation?.value ?? usualStation;
  const tip = spar?.tipChordStation?.value ?? root;
  const [from, to] = [spar?.from?.value ?? 0, spar?.to?.value ?? 1];
  const share = to > from ? Math.min(1, Math.max(0, (joint.at.value - from) / (to - from))) : 0;
  return root + share * (tip - root);
}

/** A place between stations at a share of the way along them. */
export function stationAt(stations: readonly CompleteStation[], share: number) {
  const along = [0];
  for (let i = 1; i < stations.length; i++) {
    const [a, b] = [stations[i - 1]!, stations[i]!];
    along.push(along[i - 1]! + Math.hypot(b.y - a.y, b.z - a.z));
  }
  const wanted = share * along.at(-1)!;
  const i = Math.max(
    1,
    along.findIndex((distance) => distance >= wanted - 1e-12),
  );
  const [a, b] = [stations[i - 1]!, stations[i] ?? stations.at(-1)!];
  const part = along[i]! > along[i - 1]! ? (wanted - along[i - 1]!) / (along[i]! - along[i - 1]!) : 0;
  const mix = (of: (station: CompleteStation) => number) => of(a) + part * (of(b) - of(a));
  return {
    along: wanted,
    y: mix(({ y }) => y),
    z: mix(({ z }) => z),
    leadingEdge: mix(({ leadingEdge }) => leadingEdge),
    chord: mix(({ chord }) => chord.value),
  };
}

const stated = (value: number): Valued => ({ value, source: 'stated' });

function placeOf(surface: CompleteSurface, structure: StructureDesign, joint: JointDesign): MassPlace {
  const { y, z, leadingEdge, chord } = stationAt(surface.stations, joint.at.value);
  return {
    x: stated(surface.x.value + leadingEdge + loadStation(structure, joint) * chord),
    y: stated(surface.y.value + y),
    z: stated(surface.z.value + z),
  };
}

/** Mass of one joiner by its size [kg]; nothing where the size cannot be, which is told with the structure. */
function massBySize(joint: JointDesign): number {
  const { density } = MATERIALS[joint.material] as Material;
  const [width, height, wall] = [joint.width.value, joint.height?.value ?? 0, joint.wall?.value ?? 0];
  const area = joinerArea({ kind: joint.kind, width, height, wall });
  return Math.max(0, area) * 2 * joint.length.value * (density?.value ?? 0);
}

/**
 * Joiners of wing panels: as stated, else from size and material. A surface that was weighed holds its joiners already, unless their mass is stated
 * apart. One in the plane of symmetry joins both halves.
 */
export function joinerMasses(
  log: Log,
  design: AircraftDesign,
  surfaces: readonly CompleteSurface[],
): readonly CompleteMass[] {
  const isWeighed = (name: string) =>
    Object.entries(design.masses ?? {}).some(
      ([key, { mass, on }]) => (on === name || key === name) && mass.source === 'measured',
    );
  return surfaces.flatMap((surface) =>
    Object.entries(surface.structure?.joints ?? {}).flatMap(([name, joint]): CompleteMass[] => {
      const path = `surfaces.${surface.name}.structure.joints.${name}.mass`;
      const common = {
        name: `joiner ${name} of ${surface.name}`,
        group: 'joiner' as const,
        count: surface.mirrored && joint.at.value > 1e-6 ? (2 as const) : (1 as const),
        place: placeOf(surface, surface.structure!, joint),
      };
      if (joint.mass !== undefined) {
        const mass = withSpread(log, path, 'mass', joint.mass, { share: 0.02, fixed: 0.0005 }, 'stated');
        return [{ ...common, mass, weighed: true }];
      }
      const value = massBySize(joint);
      if (isWeighed(surface.name) || !(value > 0)) return [];
      const sigma = 0.05 * value;
      log.push({ path, what: 'value', kind: 'mass', value, uncertainty: sigma, why: 'from its size and material' });
      return [{ ...common, mass: { value, sigma, source: 'assumed' }, weighed: true }];
    }),
  );
}
