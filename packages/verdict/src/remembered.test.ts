import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages, type Stages, shareUnchanged, verdict } from './index.js';

/** Names of the stages that ran, and of those reused, for one verdict. */
function traced(stages: Stages, run: () => unknown) {
  stages.clearTrace();
  run();
  const names = (reused: boolean) =>
    [
      ...new Set(
        stages
          .trace()
          .filter((event) => event.reused === reused)
          .map(({ stage }) => stage),
      ),
    ].sort();
  return { ran: names(false), reused: names(true) };
}

const plan = test.planOf(test.planText('alondra'));
const options = { samples: 4, step: 1200, sampleStep: 1200 };

/** Runs a design, then an edited version of it that shares what did not change. */
function afterEdit(design: string, changes: Record<string, string>) {
  const stages = createStages();
  const before = test.aircraftOf(design);
  verdict(before, plan, {}, stages, options);
  const next = shareUnchanged(before, test.aircraftOf(test.edited(design, changes)));
  return traced(stages, () => verdict(next, plan, {}, stages, options));
}

describe('remembered stages', () => {
  const design = test.designText('alondra');

  it('nothing runs again when nothing changed', () => {
    const stages = createStages();
    const aircraft = test.aircraftOf(design);
    verdict(aircraft, plan, {}, stages, options);
    const again = traced(stages, () =>
      verdict(shareUnchanged(aircraft, test.aircraftOf(design)), plan, {}, stages, options),
    );
    expect(again.ran).toEqual([]);
    expect(again.reused).toContain('wing');
  });

  it('a battery move runs no lattice, no propeller and no light geometry of the same attitude', () => {
    const { ran, reused } = afterEdit(design, { 'battery.x': '-31 mm' });
    expect(reused).toEqual(expect.arrayContaining(['wing', 'shape', 'propeller', 'drive', 'array', 'profile spread']));
    expect(ran).toEqual(expect.arrayContaining(['masses', 'balance', 'flight', 'balance report']));
    for (const stage of ['wing', 'shape', 'propeller', 'drive', 'array', 'profile spread', 'sun at 1200 s'])
      expect(ran).not.toContain(stage);
  });

  it('another load runs neither wing nor propeller nor masses nor light, only what looks at the whole aircraft', () => {
    const stated = test.edited(design, { 'flight.airspeed': '9 m/s' });
    const { ran } = afterEdit(stated, { 'loads.servos': '0.8 W' });
    expect(ran).toEqual(['aircraft', 'balance report', 'flight']);
  });

  it('another wing runs the lattice again and no propeller', () => {
    const { ran, reused } = afterEdit(design, { 'surfaces.wing.stations[1].chord': '240 mm' });
    expect(ran).toEqual(expect.arrayContaining(['shape', 'wing', 'array', 'flight']));
    expect(reused).toEqual(expect.arrayContaining(['propeller', 'drive', 'battery']));
  });

  it.each([
    ['a launch time', { launch: '10:00' }],
    ['a charge at launch', { 'charge at launch': '80 %' }],
  ])('%s re-solves neither flight nor light', (_, changes) => {
    const stages = createStages();
    const aircraft = test.aircraftOf(design);
    verdict(aircraft, plan, {}, stages, options);
    const other = test.planOf(test.edited(test.planText('alondra'), changes));
    const { ran } = traced(stages, () => verdict(aircraft, other, {}, stages, options));
    expect(ran).toEqual([]);
  });

  it('another sky runs only its light and what the strings make of it', () => {
    const stages = createStages();
    const aircraft = test.aircraftOf(design);
    verdict(aircraft, plan, {}, stages, options);
    const other = test.planOf(test.edited(test.planText('alondra'), { sky: 'overcast' }));
    const { ran } = traced(stages, () => verdict(aircraft, other, {}, stages, options));
    expect(ran).toEqual(['light at 1200 s', 'strings at 1200 s']);
  });

  it('another haze solves no flight', () => {
    const stages = createStages();
    const aircraft = test.aircraftOf(design);
    verdict(aircraft, plan, {}, stages, options);
    const other = test.planOf(test.edited(test.planText('alondra'), { turbidity: '5' }));
    const { ran } = traced(stages, () => verdict(aircraft, other, {}, stages, options));
    expect(ran).toEqual(['light at 1200 s', 'strings at 1200 s']);
  });

  it('what is remembered is what a fresh run gives', () => {
    const stages = createStages();
    const before = test.aircraftOf(design);
    verdict(before, plan, {}, stages, options);
    const text = test.edited(design, { 'battery.x': '-60 mm', 'loads.camera.power': '3 W' });
    const reused = verdict(shareUnchanged(before, test.aircraftOf(text)), plan, {}, stages, options);
    const fresh = verdict(test.aircraftOf(text), plan, {}, createStages(), options);
    expect(reused.levelPower).toEqual(fresh.levelPower);
    expect(reused.skies.map(({ run }) => run.figures)).toEqual(fresh.skies.map(({ run }) => run.figures));
  });
});
