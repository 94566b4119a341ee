import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { firstFlightData } from '../../core/first-flight.js';
import { laterJobs } from '../../core/later-jobs.js';
import type { ComputeResponse } from '../../core/messages.js';
import type { LimitsView } from '../../core/view-limits-types.js';
import { createHandler } from '../../core/worker.js';
import { cautions, fewLoads, pageData, reserve, reserveAt, speedFigures } from './page-data.js';

const example = (name: string) => readFileSync(new URL(`../../../../../examples/${name}`, import.meta.url), 'utf8');

async function verdictOf(name: string) {
  const input = { design: example(`${name}.yaml`), plan: example(`${name}.day.yaml`), sections: {} };
  const response = (await createHandler(() => 0, laterJobs).answer(
    { kind: 'verdict', input, samples: 0 },
    { report: () => {}, stillWanted: async () => true },
  )) as ComputeResponse;
  if (response.kind !== 'verdict') throw new Error(response.kind);
  return response.view;
}

const units = { units: {}, language: 'en' };

describe('the page of the first flight', () => {
  it('has every limit of the demo aircraft, in words with units, and no forbidden promise', async () => {
    const view = await verdictOf('alondra');
    const page = pageData(view, firstFlightData(view), 0, units, 'made today');
    expect(page.speeds.map(({ label }) => label)).toEqual(['Stall', 'Least power', 'Flown', 'Limit']);
    expect(page.speeds.at(-1)).toEqual({ label: 'Limit', value: 'not known', note: 'not computed yet' });
    for (const { value } of page.speeds.slice(0, -1)) expect(value).toMatch(/^\d+(\.\d+)? m\/s$/);
    expect(page.balanceWords).toMatch(/between -?\d+ mm and -?\d+ mm aft of the datum/);
    expect(page.wind?.value).toMatch(/m\/s$/);
    expect(page.sun).toHaveLength(3);
    expect(page.cautions[0]).toMatch(/^Not yet/);
    expect(page.assumed.at(-1)).toMatch(/^and \d+ more of \d+ values$/);
    expect(JSON.stringify([page, cautions])).not.toMatch(/\b(legal|safe)\b|NaN|Infinity|undefined/i);
  });

  it('prints the limit speed with its reason, and that flying above it speaks against a flight', async () => {
    const view = await verdictOf('bandeja');
    const limits: LimitsView = {
      ...{ airspeed: 9, undriven: false, searchedTo: 50, dives: [], joints: [], wires: [], stiffnessSigma: 0.5 },
      ...{ layUps: [], assumed: ['bare foam'], materials: [], readings: [], warnings: [] },
      limits: [{ kind: 'tuck', words: 'it is pitched down', airspeed: 10.7, low: 7.6, high: 15 }],
    };
    const data = firstFlightData(view, undefined, limits);
    expect(speedFigures(data, units).at(-1)).toEqual({
      label: 'Limit',
      value: '7.6 m/s',
      note: 'it is pitched down',
      assumed: true,
    });
    expect(data.against).toContain('it is flown above its limit speed');
    const none = firstFlightData(view, undefined, { ...limits, limits: [] });
    expect(speedFigures(none, units).at(-1)!.note).toContain('no promise');
    expect(none.against).not.toContain('it is flown above its limit speed');
    expect(firstFlightData(view, undefined, undefined, 'it cannot fly').limitUnknown).toBe('it cannot fly');
  });

  it('takes the units of the person', async () => {
    const view = await verdictOf('alondra');
    const page = pageData(
      view,
      firstFlightData(view),
      0,
      { units: { speed: 'km/h', length: 'in' }, language: 'en' },
      '',
    );
    expect(page.speeds[0]!.value).toMatch(/km\/h$/);
    expect(page.balance.position.unit).toBe('in');
  });
});

describe('loads of the beam', () => {
  const loads = Array.from({ length: 12 }, (_, i) => ({
    name: `load ${i}`,
    x: i / 10,
    mass: 0.01 * (i + 1),
    weighed: true,
  }));

  it('keep mass and balance point when the small ones are put together', () => {
    const few = fewLoads(loads);
    const sums = (of: typeof few) => [
      of.reduce((sum, { mass }) => sum + mass, 0),
      of.reduce((sum, { mass, x }) => sum + mass * x, 0),
    ];
    expect(few).toHaveLength(4);
    expect(few.at(-1)!.name).toBe('9 others');
    expect(sums(few)[0]).toBeCloseTo(sums(loads)[0]!, 12);
    expect(sums(few)[1]).toBeCloseTo(sums(loads)[1]!, 12);
  });

  it('stay as they are where there are few', () => {
    expect(fewLoads(loads.slice(0, 4))).toHaveLength(4);
    expect(fewLoads([])).toEqual([]);
  });
});

describe('the reserve', () => {
  it('is reached where the charge first falls to it after launch', () => {
    const times = Float64Array.of(6, 8, 10, 12, 14);
    const skies = (charge: readonly number[]) => [{ charge: Float64Array.from(charge) }] as never;
    expect(reserveAt({ times, launch: 8, skies: skies([0.1, 0.9, 0.5, reserve, 0]) }, 0)).toBe(12);
    expect(reserveAt({ times, launch: 8, skies: skies([0.1, 0.9, 0.8, 0.7, 0.6]) }, 0)).toBeUndefined();
    expect(reserveAt({ times, launch: 8, skies: [] }, 0)).toBeUndefined();
  });
});
