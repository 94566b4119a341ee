import { type SkyTerms, skyTermsAt } from '@noonwing/engine/sun';
import type { Verdict } from './verdict.js';

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

/** Step of the grid in which an instant lies. */
export const stepAt = (times: Float64Array, instant: number): number =>
  Math.min(times.length - 2, Math.max(0, Math.floor((instant - times[0]!) / (times[1]! - times[0]!))));
