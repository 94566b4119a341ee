import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages, type Stages, shareUnchanged, type Verdict, verdict } from './index.js';

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

  it('another load runs neither wing nor masses nor flight nor light: it only counts in the day', () => {
    const stated = test.edited(design, { 'flight.airspeed': '9 m/s' });
    const { ran } = afterEdit(stated, { 'loads.servos': '0.8 W' });
    expect(ran).toEqual(['aircraft']);
  });

  it('another wing runs the lattice again and no propeller', () => {
    const { ran, reused } = afterEdit(design, { 'surfaces.wing.stations[1].chord': '240 mm' });
    expect(ran).toEqual(expect.arrayContaining(['shape', 'wing', 'array', 'flight']));
    expect(reused).toEqual(expect.arrayContaining(['propeller', 'drive', 'battery']));
  });

  /** Runs a day, then an edited version of it, with the same aircraft. */
  function afterDayEdit(changes: Record<string, string>) {
    const stages = createStages();
    const aircraft = test.aircraftOf(design);
    verdict(aircraft, plan, {}, stages, options);
    const other = test.planOf(test.edited(test.planText('alondra'), changes));
    let found: Verdict | undefined;
    const trace = traced(stages, () => {
      found = verdict(aircraft, other, {}, stages, options);
    });
    return { ...trace, found: found!, fresh: () => verdict(aircraft, other, {}, createStages(), options) };
  }

  it.each([
    ['a launch time', { launch: '10:00' }],
    ['a charge at launch', { 'charge at launch': '80 %' }],
    ['a wind', { 'wind.speed': '5 m/s' }],
  ])('%s re-solves neither flight nor light', (_, changes) => {
    expect(afterDayEdit(changes).ran).toEqual([]);
  });

  const stages = ['cell temperature', 'light', 'sky', 'strings', 'unequal light'];
  const fromLight = stages.map((stage) => `${stage} at 1200 s`);

  it('another sky runs only its light and what the cells make of it', () => {
    expect(afterDayEdit({ sky: 'overcast' }).ran).toEqual(fromLight);
  });

  it('another haze solves no flight and no light geometry, and the answer is that of a fresh run', () => {
    const { ran, found, fresh } = afterDayEdit({ turbidity: '5' });
    expect(ran).toEqual(['clear sky at 1200 s', ...fromLight].sort());
    expect(found.skies.map(({ run }) => run.figures)).toEqual(fresh().skies.map(({ run }) => run.figures));
  });

  it('another temperature keeps sun, sky and light: flight, cells and strings run', () => {
    const { ran, found, fresh } = afterDayEdit({ temperature: '26.1 degC' });
    const cells = ['cell temperature at 1200 s', 'cells in the air', 'strings at 1200 s'];
    expect(ran).toEqual(['balance report', 'flight', ...cells].sort());
    expect(found.skies.map(({ run }) => run.figures)).toEqual(fresh().skies.map(({ run }) => run.figures));
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
