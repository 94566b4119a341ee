import type { Check } from '@noonwing/engine';
import { type BatteryPack, energyPack } from '@noonwing/engine/battery';
import { type DayFigures, dayFigures, runCharge } from '@noonwing/engine/day';
import { clearSkyTrack, sunTrack } from '@noonwing/engine/sun';

const degree = Math.PI / 180;
const hour = 3600;
const day = 24 * hour;
const step = 300;

/** A flight through the night of which only the flat efficiency chain, the battery and the level power are known. */
interface KnownFlight {
  readonly latitude: number;
  readonly longitude: number;
  readonly altitude: number;
  readonly turbidity: number;
  /** Midnight by the local sun, about, before the first day [s, Unix]. */
  readonly midnight: number;
  /** Cell area times every efficiency between the light and the battery bus [m2]. */
  readonly effectiveArea: number;
  readonly power: number;
}

/** Power that level cells offer, step by step over three days, and the ends of the steps. */
function offeredPower(flight: KnownFlight): { times: Float64Array; offered: Float64Array } {
  const steps = (3 * day) / step;
  const times = Float64Array.from({ length: steps + 1 }, (_, i) => flight.midnight + i * step);
  const middles = Float64Array.from({ length: steps }, (_, i) => flight.midnight + (i + 0.5) * step);
  const sun = sunTrack({
    times: middles,
    latitude: flight.latitude * degree,
    longitude: flight.longitude * degree,
    altitude: flight.altitude,
  });
  const sky = clearSkyTrack(sun, { turbidity: flight.turbidity, altitude: flight.altitude });
  return { times, offered: sky.globalHorizontal.map((light) => light * flight.effectiveArea) };
}

/** What a night and the day after it look like. */
interface Overnight {
  /** Lowest charge, 0 to 1. */
  readonly lowestCharge: number;
  /** [h] */
  readonly leftAtDawn: number;
  readonly fullBeforeDusk: number;
  /** Greatest power offered [W]. */
  readonly peak: number;
  /** When the power offered falls below the need in the evening [h after midnight]. */
  readonly dusk: number;
}

/**
 * Figures of a night entered with a full battery at noon, and of the day that follows, which begins with the charge that
 * the night left.
 */
function overnight(flight: KnownFlight, pack: BatteryPack): Overnight {
  const { times, offered } = offeredPower(flight);
  const steps = offered.length;
  const need = new Float64Array(steps).fill(flight.power);
  const temperature = 298;
  const run = (from: number, stateOfCharge: number) => {
    const plan = { times, need, income: (i: number) => offered[i]!, from, to: steps };
    const course = runCharge(pack, { stateOfCharge, temperature }, plan);
    const dates = { times, offered, need, launch: times[from]!, dayEnd: flight.midnight + day };
    const figures: DayFigures = dayFigures(pack, temperature, course, dates);
    return { course, figures };
  };
  const night = run(Math.round((12 * hour) / step), 1);
  const next = run(0, night.course.stateOfCharge[Math.round(day / step)]!);
  return {
    lowestCharge: night.figures.lowestCharge,
    leftAtDawn: (night.figures.leftAtDawn ?? 0) / hour,
    fullBeforeDusk: next.figures.fullBeforeDusk / hour,
    peak: offered.reduce((a, b) => Math.max(a, b), 0),
    dusk: ((next.figures.longest?.end ?? flight.midnight) - flight.midnight) / hour,
  };
}

const lossless = (wattHours: number): BatteryPack =>
  energyPack({ energy: wattHours * hour, chargeEfficiency: 1, dischargeEfficiency: 1 });

/** 14 July 2015, 5.69 m: cells of 1.346 m2 and 23.7 %, 0.875 for incidence, temperature and dust, 0.97 in the converter. */
const flight81h: KnownFlight = {
  ...{ latitude: 47.6, longitude: 8.5, altitude: 600, turbidity: 3 },
  midnight: Date.UTC(2015, 6, 13, 23) / 1000,
  effectiveArea: 1.346 * 0.237 * 0.875 * 0.97,
  power: 41,
};

/** 20 June 2008, 3.2 m: cells of 0.512 m2 and 0.1475 net. Midnight by the clock of the place, two hours ahead of UTC. */
const flight27h: KnownFlight = {
  ...{ latitude: 47.4, longitude: 8.5, altitude: 450, turbidity: 3 },
  midnight: Date.UTC(2008, 5, 19, 22) / 1000,
  effectiveArea: 0.512 * 0.1475,
  power: 16,
};

const source81h =
  'P. Oettershagen et al., J. Field Robotics 34(7), 1352-1377, 2017 (abstract): 81-hour flight; battery, cells and chain from memory';
const source27h =
  'recomputed for this project from 0.512 m2, 0.1475 net, 16 W, 200 Wh of the 27-hour flight of June 2008 (A. Noth, ETH Zurich Diss. 18010)';

type Row = Pick<Check, 'id' | 'quantity' | 'expected' | 'unit' | 'tolerance' | 'why'> & {
  readonly of: (night: Overnight) => number;
  readonly miss?: string;
  readonly provenance?: Check['provenance'];
  readonly source?: string;
};

const long = ({ of, id, quantity, ...row }: Row): Check => ({
  ...{ provenance: 'published', source: source81h },
  ...row,
  id: `aircraft-81h-${id}`,
  topic: 'aircraft',
  quantity: `${quantity}, 5.69 m, mid July, 705 Wh, 41 W`,
  calls: 'runCharge',
  compute: () => of(overnight(flight81h, lossless(705))),
});

const short = ({ of, id, quantity, ...row }: Row): Check => ({
  ...row,
  id: `aircraft-27h-${id}`,
  topic: 'aircraft',
  quantity: `${quantity}, 3.2 m, 20 June, 200 Wh, 16 W`,
  ...{ provenance: 'recomputed from the published formula', source: source27h, calls: 'runCharge' },
  compute: () => of(overnight(flight27h, lossless(200))),
});

/** Flights through the night with the engine's sun, sky and battery. */
export const overnightChecks: readonly Check[] = [
  long({
    ...{ id: 'lowest', quantity: 'lowest charge', expected: 0.39, unit: '-', tolerance: 0.04 },
    why: 'follows from the stated level power: 2.5 W of it',
    of: ({ lowestCharge }) => lowestCharge,
  }),
  long({
    ...{ id: 'dawn', quantity: 'hours left at dawn', expected: 6.8, unit: 'h', tolerance: 1 },
    why: 'follows from the stated level power: 5 % of it are 0.9 h',
    of: ({ leftAtDawn }) => leftAtDawn,
  }),
  long({
    ...{ id: 'full', quantity: 'hours full before dusk', expected: 6.2, unit: 'h', tolerance: 1 },
    why: 'as for the hours left at dawn',
    miss: 'incidence loss, more haze, midday convection and charge taper together leave 7.5 h; a third of the income would have to be missing, so the published figure holds daytime needs or losses (climbs, cloud on one of three days, a charge limit) that were not published with it (docs/whole-aircraft.md)',
    of: ({ fullBeforeDusk }) => fullBeforeDusk,
  }),
  long({
    ...{ id: 'full-naive', quantity: 'hours full before dusk of the same simple model with two other clear skies' },
    ...{ expected: 8.35, unit: 'h', tolerance: 0.35, why: 'the two skies give 8.1 and 8.6 h' },
    provenance: 'recomputed from the published formula',
    source: 'recomputed for this project with Haurwitz and with an air-mass model of the beam',
    of: ({ fullBeforeDusk }) => fullBeforeDusk,
  }),
  long({
    ...{ id: 'peak', quantity: 'greatest income', expected: 256, unit: 'W', tolerance: 10 },
    why: '249 to 263 W recomputed for factors of 0.85 to 0.90 at the end of June, about 1 % more sun',
    provenance: 'recomputed from the published formula',
    of: ({ peak }) => peak,
  }),
  short({
    ...{ id: 'peak', quantity: 'greatest income', expected: 72, unit: 'W', tolerance: 2.2 },
    why: '3 %: clear skies of two models differ by 1 to 5 % in a day',
    of: ({ peak }) => peak,
  }),
  short({
    ...{ id: 'morning', quantity: 'charge at the morning balance, from full at noon', expected: 0.16, unit: '-' },
    ...{ tolerance: 0.05, why: '10 min of need at both ends of the night are 0.03' },
    of: ({ lowestCharge }) => lowestCharge,
  }),
  short({
    ...{ id: 'dusk', quantity: 'clock at which income falls below need', expected: 19.73, unit: 'h', tolerance: 0.2 },
    why: 'clear skies differ most at low sun: 10 min',
    of: ({ dusk }) => dusk,
  }),
];
