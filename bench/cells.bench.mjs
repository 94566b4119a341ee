import {
  backContactCell,
  cellBatchAt,
  maximumPowerPoints,
  powerPointBatch,
} from '../packages/engine/dist/array/index.js';
import { atLeast, kept, measure, repeatable } from './measure.mjs';

const count = 20_000;

/**
 * The plain way to a cell's greatest power: golden-section search on the diode voltage, for which current and voltage are explicit.
 * @param {import('../packages/engine/dist/array/index.js').DiodeCurveBatch} batch
 * @param {Float64Array} power
 */
function searchMaxima(batch, power) {
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let at = 0; at < count; at += 1) {
    const light = batch.photocurrent[at] ?? 0;
    const saturation = batch.saturationCurrent[at] ?? 0;
    const series = batch.seriesResistance[at] ?? 0;
    const shunt = batch.shuntResistance[at] ?? 1;
    const scale = batch.modifiedIdeality[at] ?? 1;
    const powerAt = (/** @type {number} */ diode) => {
      const current = light - saturation * (Math.exp(diode / scale) - 1) - diode / shunt;
      return current * (diode - current * series);
    };
    let low = 0;
    let high = scale * Math.log1p(light / saturation);
    while (high - low > 1e-8 * scale) {
      const reach = golden * (high - low);
      if (powerAt(high - reach) > powerAt(low + reach)) high = low + reach;
      else low = high - reach;
    }
    power[at] = powerAt((low + high) / 2);
  }
}

/** Single-diode maximum power points on one core, over the light and temperatures of a day. */
export default function cells() {
  const random = repeatable(17);
  const irradiance = Float64Array.from({ length: count }, () => 20 + 1080 * random());
  const temperature = Float64Array.from({ length: count }, () => 275 + 60 * random());
  const batch = cellBatchAt(backContactCell, { irradiance, temperature });
  const points = powerPointBatch(count);
  const searched = new Float64Array(count);
  maximumPowerPoints(batch, points);
  searchMaxima(batch, searched);
  const worst = searched.reduce((most, value, at) => Math.max(most, Math.abs(value / (points.power[at] ?? 0) - 1)), 0);
  if (!(worst < 1e-9)) throw new Error(`The two maxima differ by ${worst} of the power.`);
  const ours = measure(() => maximumPowerPoints(batch, points)).median;
  const reference = measure(() => {
    searchMaxima(batch, searched);
    kept.sink = searched[0];
  }).median;
  return [
    atLeast({
      name: 'single-diode maximum power points on one core',
      value: count / ours / 1e6,
      unit: 'million/s',
      reference: {
        name: 'a golden-section search on the diode voltage',
        value: count / reference / 1e6,
        unit: 'million/s',
        ratio: reference / ours,
      },
      budget: 2,
    }),
  ];
}
