import type { CompleteAircraft } from '@noonwing/design';

/** How many edits are imagined; the compiler of the browser has seen the hot loops by then (measured: later edits take as long). */
const lightEdits = 16;
const wingEdits = 2;

/** How many edits a rehearsal has. */
export const rehearsals = lightEdits + wingEdits;

const shifted = <T extends { readonly value: number }>(stated: T, by: number): T => ({
  ...stated,
  value: stated.value + by,
});

/**
 * An aircraft a little unlike this one, as an edit would make it: what the builder is likely to touch first is computed once
 * before, so that the compiler of the browser knows the way and the first edits are answered as quickly as later ones.
 * step - from 0 to `rehearsals` - 1
 */
export function imagined(aircraft: CompleteAircraft, step: number): CompleteAircraft {
  const by = 1e-3 * (step + 1);
  if (step >= lightEdits) {
    const surfaces = aircraft.surfaces.map((surface) => ({
      ...surface,
      stations: surface.stations.map((station) => ({ ...station, chord: shifted(station.chord, by) })),
    }));
    return { ...aircraft, surfaces };
  }
  if (aircraft.battery !== undefined) {
    return { ...aircraft, battery: { ...aircraft.battery, x: shifted(aircraft.battery.x, by) } };
  }
  return { ...aircraft, growthAllowance: shifted(aircraft.growthAllowance, by) };
}
