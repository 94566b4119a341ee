import { type Outcome, success } from '@noonwing/engine';
import { type SectionGeometry, TURBULENCE } from '@noonwing/engine/section';
import { isComputable, TURNING_SETTINGS, type TurningSettings, turningKey } from '@noonwing/engine/section/polars';
import type { CompleteAircraft, CompleteSurface } from '../complete/index.js';
import { assembleGeometry, type SectionSources, stationOfControl } from './section.js';

/** Deflected sections that a control wants computed. */
export interface NeededControl {
  readonly key: string;
  readonly name: string;
  readonly geometry: SectionGeometry;
  readonly settings: TurningSettings;
  readonly computable: boolean;
}

/** Lift at which controls of a surface are computed: a tail trims about none, a wing flies at about half. */
const usualLift = (role: CompleteSurface['role']): number => (role === 'wing' || role === 'foreplane' ? 0.5 : 0);

/** Settings for a control, its hinge to a hundredth of the chord, over which its loss hardly changes: one computation serves many edits. */
export const turningSettings = (
  hinge: number,
  role: CompleteSurface['role'],
  critical: number = TURNING_SETTINGS.critical,
): TurningSettings => ({
  ...TURNING_SETTINGS,
  critical,
  hinge: Math.round(100 * hinge) / 100,
  lift: usualLift(role),
});

/** Deflected sections of every control of an aircraft, each once. files - texts of coordinate files by name */
export function neededControls(
  aircraft: Pick<CompleteAircraft, 'surfaces' | 'flight'>,
  files: SectionSources,
): Outcome<readonly NeededControl[]> {
  const { critical } = TURBULENCE[aircraft.flight.turbulence];
  const needed = new Map<string, NeededControl>();
  for (const { controls, stations, role } of aircraft.surfaces)
    for (const control of controls) {
      const { section, chord } = stations[stationOfControl(control, stations)]!;
      const made = assembleGeometry(section, chord.value, files);
      if (!made.ok) return made;
      const geometry = made.value;
      const settings = turningSettings(control.hinge.value, role, critical);
      const key = turningKey(geometry, settings);
      const name = `${geometry.name} with its ${control.kind}`;
      needed.set(key, { key, name, geometry, settings, computable: isComputable(geometry) });
    }
  return success([...needed.values()]);
}
