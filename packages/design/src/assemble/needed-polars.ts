import { type Outcome, success } from '@noonwing/engine';
import { type SectionGeometry, TURBULENCE } from '@noonwing/engine/section';
import {
  isComputable,
  POLAR_SETTINGS,
  type PolarSettings,
  polarKey,
  sectionKey,
  TRIP_STATIONS,
  trippedSettings,
} from '@noonwing/engine/section/polars';
import type { CompleteAircraft } from '../complete/index.js';
import { middleChord } from './drive.js';
import { assembleGeometry, type SectionSources } from './section.js';
import { coverageOf } from './shape.js';

/** A set of polars that an aircraft flies with: of a bare section, or of one tripped at a station above. */
export interface NeededPolars {
  readonly key: string;
  readonly name: string;
  readonly geometry: SectionGeometry;
  readonly settings: PolarSettings;
  readonly computable: boolean;
}

/**
 * Polars of every section of an aircraft and of stated blades of its propeller, each once. Sections of wings, and of what else carries cells, are wanted tripped too, so that
 * rows may be added and moved without any other polar.
 * files - texts of coordinate files by name
 */
export function neededPolars(
  aircraft: Pick<CompleteAircraft, 'surfaces' | 'array' | 'drive' | 'flight'>,
  files: SectionSources,
): Outcome<readonly NeededPolars[]> {
  const coverage = coverageOf(aircraft);
  const settings = { ...POLAR_SETTINGS, critical: TURBULENCE[aircraft.flight.turbulence].critical };
  const needed = new Map<string, NeededPolars>();
  for (const surface of aircraft.surfaces) {
    const tripped = surface.role === 'wing' || coverage[surface.name] !== undefined ? TRIP_STATIONS : [];
    for (const { section, chord } of surface.stations) {
      const made = assembleGeometry(section, chord.value, files);
      if (!made.ok) return made;
      for (const one of polarsOfSection(made.value, tripped, settings)) needed.set(one.key, one);
    }
  }
  const propeller = aircraft.drive?.propeller;
  if (propeller?.section !== undefined) {
    const made = assembleGeometry(propeller.section, middleChord(propeller), files);
    if (!made.ok) return made;
    for (const one of polarsOfSection(made.value, [], settings)) needed.set(one.key, one);
  }
  return success([...needed.values()]);
}

/** Polars of one section. tripped - chord stations at which it is wanted tripped too; settings - of the bare section */
export function polarsOfSection(
  geometry: SectionGeometry,
  tripped: readonly number[] = TRIP_STATIONS,
  settings: PolarSettings = POLAR_SETTINGS,
): readonly NeededPolars[] {
  const section = sectionKey(geometry);
  const computable = isComputable(geometry);
  const one = (name: string, by: PolarSettings): NeededPolars => ({
    key: polarKey(geometry, by, section),
    name,
    geometry,
    settings: by,
    computable,
  });
  return [
    one(geometry.name, settings),
    ...tripped.map((station) =>
      one(`${geometry.name}, tripped at ${Math.round(100 * station)} %`, trippedSettings(station, settings)),
    ),
  ];
}
