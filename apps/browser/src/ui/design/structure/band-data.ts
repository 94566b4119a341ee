import type { LimitBandsData } from '@noonwing/drawing';
import type { Preferences } from '../../../core/state.js';
import type { PowerView } from '../../../core/view.js';
import type { LimitsView, LimitView } from '../../../core/view-limits-types.js';
import { shownIn } from '../chart-data.js';

/** Limits for their chart, with the airspeeds flown that are known. power - level power against airspeed, once it is there */
export function bandData(
  view: LimitsView,
  aircraft: string,
  power: PowerView | undefined,
  units: Pick<Preferences, 'units'>,
): LimitBandsData {
  const speed = shownIn('speed', 'airspeed', 10, units);
  const row = (limit: LimitView, id: string) => ({
    id,
    label: limit.kind,
    words: limit.words,
    low: speed.of(limit.low),
    value: speed.of(limit.airspeed),
    high: speed.of(limit.high),
  });
  const dive = view.dives[0]?.steady;
  return {
    aircraft,
    speed: { ...speed.measure, decimals: 1 },
    limits: [
      ...view.limits.map((limit, i) => row(limit, `limit ${i + 1}`)),
      ...(view.loose === undefined ? [] : [{ ...row(view.loose, 'loose'), label: 'loose linkage', aside: true }]),
    ],
    flown: [
      { label: view.undriven ? 'looked for at' : 'level, flown', value: speed.of(view.airspeed) },
      ...(power?.bestRange === undefined ? [] : [{ label: 'best range', value: speed.of(power.bestRange.airspeed) }]),
      ...(dive === undefined ? [] : [{ label: 'steady dive of 10°', value: speed.of(dive) }]),
    ],
    searchedTo: speed.of(view.searchedTo),
  };
}
