import { bodyToSky, planeLight } from '@noonwing/engine/sun';
import { dayLedger, skyTermsAtStep, stepAt, sunAt, type Verdict } from '@noonwing/verdict';
import type { HourView, LedgerView } from './view.js';
import { facetShapes } from './view-shape.js';

/** Ledger of a sky at an hour after the first midnight. */
function ledgerAt(found: Verdict, sky: number, at: number): LedgerView | undefined {
  const { midnight } = found.prepared.plan;
  const clock = (time: number) => (time - midnight) / 3600;
  const ledger = dayLedger(found, sky, midnight + at * 3600);
  return (
    ledger && {
      ...ledger,
      at: clock(ledger.at),
      from: clock(ledger.from),
      to: clock(ledger.to),
      rows: ledger.rows.map((row) => ({ ...row })),
    }
  );
}

/**
 * What belongs to one instant: the sun, the light on each patch of cells at a heading, and the ledger.
 * at - after the first local midnight [h]; heading - from north, clockwise [rad]
 */
export function hourView(found: Verdict, sky: number, at: number, heading: number): HourView {
  const { prepared, flight } = found;
  const { model } = prepared;
  const step = stepAt(found, at);
  const sun = sunAt(found, at);
  const shapes = facetShapes(model);
  const array = prepared.run.array;
  const count = array?.facets.length ?? 0;
  const index = model.array?.facetOf ?? [];
  const course = found.courses[sky];
  const terms = skyTermsAtStep(found, sky, step);
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
