import { type SkyTerms, type SunPosition, skyTermsAt, sunPosition } from '@noonwing/engine/sun';
import type { Verdict } from './central.js';

/** Light by origin at a step of a sky. */
export function skyTermsAtStep({ courses, grid, prepared }: Verdict, sky: number, step: number): SkyTerms | undefined {
  const track = courses[sky]?.sky;
  if (track === undefined) return undefined;
  return skyTermsAt(
    {
      globalHorizontal: track.globalHorizontal[step]!,
      directNormal: track.directNormal[step]!,
      diffuseHorizontal: track.diffuseHorizontal[step]!,
      extraterrestrial: track.extraterrestrial[step]!,
      airMass: track.airMass[step]!,
      cosZenith: grid.sun.up[step]!,
    },
    { model: 'perez', albedo: prepared.run.albedo },
  );
}

/** The sun over the place of a verdict at an hour after the first local midnight [h]. */
export function sunAt({ prepared: { plan } }: Pick<Verdict, 'prepared'>, hour: number): SunPosition {
  const { latitude, longitude, altitude } = plan;
  return sunPosition({ latitude, longitude, altitude: altitude.value, time: plan.midnight + hour * 3600 });
}

/** Step of the grid in which an hour after the first local midnight lies. */
export function stepAt({ grid: { times }, prepared }: Pick<Verdict, 'grid' | 'prepared'>, hour: number): number {
  const instant = prepared.plan.midnight + hour * 3600;
  return Math.min(times.length - 2, Math.max(0, Math.floor((instant - times[0]!) / (times[1]! - times[0]!))));
}
