import { describe, expect, it } from 'vitest';
import {
  describeDayPlanKey,
  describeDesignKey,
  readDesign,
  wordsOfDayPlanKey,
  wordsOfDesignKey,
} from '../read-files.js';

describe('description of a key', () => {
  it('says kinds, step and limits', () => {
    expect(describeDesignKey('battery.usable')).toMatchObject({
      kinds: ['ratio'],
      bounds: { from: 0, to: 1 },
      limits: 'from 0 to 1',
    });
    expect(describeDesignKey('battery.x')).toMatchObject({ kinds: ['length'], step: '5 mm' });
    expect(describeDesignKey('battery.x')).not.toHaveProperty('bounds');
  });

  it('says limits in few digits', () => {
    expect(describeDesignKey('flight.bank')!.limits).toBe('from 0 to 74.48 deg');
    expect(describeDayPlanKey('pressure')!.limits).toBe('from 300 hPa to 1100 hPa');
  });

  it('sees through the short form of a value', () => {
    expect(describeDayPlanKey('wind')).toMatchObject({ kinds: ['speed'], bounds: { from: 0, to: 60 } });
    expect(describeDesignKey('no such key')).toBeUndefined();
  });
});

describe('names of keys for people', () => {
  it.each([
    ['array.rows.top.cells', 'row of cells "top": number of cells'],
    ['array.rows.top', 'row of cells "top"'],
    ['surfaces.wing.stations[2].chord', 'surface "wing", station 2: chord'],
    ['surfaces.wing.structure.spars.main.width', 'surface "wing", spar "main": width'],
    ['surfaces.fin.controls.rudder.up', 'surface "fin", control "rudder": travel up'],
    ['battery.x', 'battery: aft of the datum (x)'],
    ['battery', 'battery'],
    ['masses.servo', 'part "servo"'],
    ['masses.servo.mass', 'part "servo": mass'],
    ['measured[1].power', 'measurement 1: power'],
    ['flight.airspeed', 'flight: airspeed'],
    ['glue wire and paint', 'glue wire and paint'],
    ['surfaces', 'surfaces'],
  ])('%s', (path, words) => {
    expect(wordsOfDesignKey(path)).toBe(words);
  });

  it('knows those of the day plan, and no others', () => {
    expect(wordsOfDayPlanKey('place.at')).toBe('place: coordinates');
    expect(wordsOfDayPlanKey('loads.camera.from')).toBe('load "camera": on from');
    expect(wordsOfDayPlanKey('battery')).toBeUndefined();
    expect(wordsOfDesignKey('battery.xx')).toBeUndefined();
  });
});

describe('what a value usually is', () => {
  const wing = (chord: string) =>
    readDesign(`noonwing: design 1
name: Broad
surfaces:
  wing:
    stations:
      - {y: 0 mm, chord: 220 mm}
      - {y: 600 mm, chord: ${chord}}
`);

  it('says an absurd chord at its key and keeps it', () => {
    const { ok, design, messages } = wing('900 m');
    expect(ok).toBe(true);
    expect(design!.surfaces!.wing!.stations[1]!.chord.value).toBe(900);
    expect(messages).toMatchObject([
      {
        severity: 'warning',
        path: 'surfaces.wing.stations[2].chord',
        found: '"900 m"',
        expected: 'usually a value from 10 mm to 3 m',
      },
    ]);
  });

  it('says nothing of usual ones', () => {
    expect(wing('160 mm').messages).toEqual([]);
    expect(describeDesignKey('surfaces.wing.stations[2].chord')!.usual).toBe('from 10 mm to 3 m');
    expect(describeDesignKey('battery.usable')).not.toHaveProperty('usual');
  });
});
