import { type Outcome, success } from '@noonwing/engine';
import type { SectionGeometry } from '@noonwing/engine/section';
import {
  isComputable,
  POLAR_SETTINGS,
  type PolarSettings,
  polarKey,
  trippedSettings,
} from '@noonwing/engine/section/polars';
import type { CompleteAircraft } from '../complete/index.js';
import { assembleGeometry, type SectionFiles } from './section.js';
import { coverageOf } from './shape.js';

/** A set of polars that an aircraft flies with; under cells also that of the section tripped at their front edge. */
export interface NeededPolars {
  readonly key: string;
  readonly name: string;
  readonly geometry: SectionGeometry;
  readonly settings: PolarSettings;
  readonly computable: boolean;
}

/** Polars of every section of an aircraft, each once. files - texts of coordinate files by name */
export function neededPolars(
  aircraft: Pick<CompleteAircraft, 'surfaces' | 'array'>,
  files: SectionFiles,
): Outcome<readonly NeededPolars[]> {
  const coverage = coverageOf(aircraft);
  const needed = new Map<string, NeededPolars>();
  for (const surface of aircraft.surfaces) {
    const cells = coverage[surface.name];
    for (const { section, chord } of surface.stations) {
      const made = assembleGeometry(section, chord.value, files);
      if (!made.ok) return made;
      const geometry = made.value;
      for (const settings of cells === undefined ? [POLAR_SETTINGS] : [POLAR_SETTINGS, trippedSettings(cells)]) {
        const key = polarKey(geometry, settings);
        const [trip] = settings.trips ?? [];
        const name = trip === undefined ? geometry.name : `${geometry.name}, tripped at ${Math.round(100 * trip)} %`;
        needed.set(key, { key, name, geometry, settings, computable: isComputable(geometry) });
      }
    }
  }
  return success([...needed.values()]);
}
