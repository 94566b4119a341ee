import { Body, Equator, Horizon, Observer } from 'astronomy-engine';
import { sunTrack } from '../packages/engine/dist/sun/index.js';
import { forInformation, measure } from './measure.mjs';

const degree = Math.PI / 180;
const count = 1440;

/** Sun positions of a day by the minute, against an independent library. */
export default function sun() {
  const midnight = Date.UTC(2026, 5, 21) / 1000;
  const times = Float64Array.from({ length: count }, (_, minute) => midnight + 60 * minute);
  const observer = new Observer(40.7, 0.9, 0);
  const independent = () => {
    let zenith = 0;
    for (const time of times) {
      const date = new Date(time * 1000);
      const equator = Equator(Body.Sun, date, observer, true, true);
      zenith = 90 - Horizon(date, observer, equator.ra, equator.dec).altitude;
    }
    return zenith;
  };
  const ours = () => sunTrack({ latitude: 40.7 * degree, longitude: 0.9 * degree, times });
  const difference = Math.abs((ours().trueZenith.at(-1) ?? 0) / degree - independent());
  if (!(difference < 0.002)) throw new Error(`The two zeniths differ by ${difference} degrees.`);
  const own = measure(ours).median;
  const reference = measure(independent).median;
  return [
    forInformation({
      name: 'sun positions',
      value: count / own / 1e6,
      unit: 'million/s',
      reference: {
        name: 'astronomy-engine',
        value: count / reference / 1e6,
        unit: 'million/s',
        ratio: reference / own,
      },
    }),
  ];
}
