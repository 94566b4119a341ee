import { bodyToSky, planeLight, type SkyTerms, skyTermsAt, sunPosition } from '@noonwing/engine/sun';
import type { Verdict } from '@noonwing/verdict';
import type { HourView } from './view.js';
import { facetShapes } from './view-shape.js';
import { ledgerAt } from './view-verdict.js';

const stepOf = (times: Float64Array, instant: number): number =>
  Math.min(times.length - 2, Math.max(0, Math.floor((instant - times[0]!) / (times[1]! - times[0]!))));

/** Light by origin at a step of a sky. */
function termsAt(found: Verdict, sky: number, step: number): SkyTerms | undefined {
  const track = found.courses[sky]?.sky;
  if (track === undefined) return undefined;
  return skyTermsAt(
    {
      globalHorizontal: track.globalHorizontal[step]!,
      directNormal: track.directNormal[step]!,
      diffuseHorizontal: track.diffuseHorizontal[step]!,
      extraterrestrial: track.extraterrestrial[step]!,
      airMass: track.airMass[step]!,
      cosZenith: found.grid.sun.up[step]!,
    },
    { model: 'perez', albedo: found.prepared.run.albedo },
  );
}

/**
 * What belongs to one instant: the sun, the light on each patch of cells at a heading, and the ledger.
 * at - after the first local midnight [h]; heading - from north, clockwise [rad]
 */
export function hourView(found: Verdict, sky: number, at: number, heading: number): HourView {
  const { prepared, grid, flight } = found;
  const { plan, model } = prepared;
  const time = plan.midnight + at * 3600;
  const step = stepOf(grid.times, time);
  const sun = sunPosition({
    latitude: plan.latitude,
    longitude: plan.longitude,
    altitude: plan.altitude.value,
    time,
  });
  const shapes = facetShapes(model);
  const array = prepared.run.array;
  const count = array?.facets.length ?? 0;
  const index = model.array?.facetOf ?? [];
  const course = found.courses[sky];
  const terms = termsAt(found, sky, step);
  const here = (values: Float64Array | undefined) =>
    Float64Array.from(index, (facet) => values?.[step * count + facet] ?? 0);
  const attitude = { heading, pitch: flight?.chosen?.flight.trim.alpha ?? 0, bank: flight?.bank ?? 0 };
  const [east, north, up] = sun.direction;
  const ledger = ledgerAt(found, sky, at);
  return {
    at,
    heading,
    sun: {
      direction: [east, north, up],
      elevation: Math.PI / 2 - sun.apparentZenith,
      azimuth: sun.azimuth,
      up: up > 0,
    },
    ...(ledger === undefined ? {} : { ledger }),
    facetLight: Float64Array.from(shapes, ({ normal }) =>
      terms === undefined || array === undefined
        ? 0
        : planeLight({
            normal: bodyToSky(normal, attitude),
            sun: [east, north, up],
            terms,
            incidence: array.incidence,
          }).effective,
    ),
    facetLightCircle: here(course?.ledger.effective),
    facetTemperature: here(course?.temperature),
  };
}
