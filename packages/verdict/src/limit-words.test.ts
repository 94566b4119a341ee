import { describe, expect, it } from 'vitest';
import {
  bentTexts,
  diveTexts,
  findingText,
  landingText,
  marginText,
  type QuantityWords,
  slopText,
  type ToldLimits,
  warmTexts,
  warpText,
} from './limit-words.js';

const words: QuantityWords = {
  speed: (value) => `${value.toFixed(1)} m/s`,
  height: (value) => `${value.toFixed(0)} m`,
  angle: (value) => `${((180 * value) / Math.PI).toFixed(0)} deg`,
  turn: (value) => `${((180 * value) / Math.PI).toFixed(1)} deg`,
  temperature: (kelvin) => `${(kelvin - 273.15).toFixed(0)} C`,
};
const limit = (low: number, reason = 'it diverges') => ({
  kind: reason,
  words: reason,
  low,
  airspeed: 1.3 * low,
  high: 1.7 * low,
});
const told = (low: number, of: Partial<ToldLimits> = {}): ToldLimits => ({
  limits: [limit(low)],
  airspeed: 10,
  undriven: false,
  searchedTo: 50,
  ...of,
});

describe('the limit speed in words', () => {
  it('is the lower edge with its reason, its band and, for a vibration, its rate', () => {
    expect(findingText(told(20), words)).toBe(
      'Limit speed 20.0 m/s: it diverges. Best estimate 26.0 m/s, at most 34.0 m/s; the lower edge is what counts.',
    );
    const flutter = told(20, { limits: [{ ...limit(20), frequency: 6.25 }] });
    expect(findingText(flutter, words)).toContain('it diverges, 6.3 vibrations a second.');
    expect(findingText(told(20, { limits: [] }), words)).toBe('No limit was found up to 50.0 m/s.');
  });

  it('leaves room, too little of it, or none', () => {
    expect(marginText(told(20), words)).toBe('That is 2.0 times the 10.0 m/s flown, 10.0 m/s of room.');
    expect(marginText(told(11), words)).toContain('Too close for gusts and errors');
    expect(marginText(told(8), words)).toBe(
      'It is flown above its limit: the 10.0 m/s flown are 1.3 times the limit speed.',
    );
    expect(marginText(told(8, { limits: [] }), words)).toBe('');
  });

  it('never says that an aircraft which cannot fly level is flown', () => {
    for (const low of [8, 20]) {
      const text = marginText(told(low, { undriven: true }), words);
      expect(text).toContain('cannot fly level as it is');
      expect(text).not.toContain('m/s flown');
    }
  });

  it('says of dives when they get there, what holds them, or that there is no room', () => {
    const dives = [{ angle: Math.PI / 6, time: 3.5, height: 26 }, { angle: 0.1745, steady: 14.2 }, { angle: 0.1 }];
    expect(diveTexts(told(20), dives, words)).toEqual([
      '30 deg nose down: 3.5 s and 26 m of height',
      '10 deg nose down: never; drag holds it at 14.2 m/s',
      '6 deg nose down: it slows down',
    ]);
    expect(diveTexts(told(8), dives, words)).toHaveLength(1);
    expect(diveTexts(told(8, { limits: [] }), dives, words)).toEqual([]);
  });

  it('gives the warm limit with its own reason where that is another one', () => {
    const soft = { name: 'foam', kept: 0.7, low: 0.55, high: 0.85 };
    const warm = (reason: string) => ({ top: 343.15, bottom: 296.15, softer: [soft], first: limit(16, reason) });
    const [flight, parked] = warmTexts(told(20), { flight: warm('it diverges'), parked: warm('it tucks') }, words);
    expect(flight).toContain('air at 23 C, its top comes to 70 C, where foam keeps 70 % of its stiffness (55 to 85 %)');
    expect(flight).toContain('the limit speed is then 16.0 m/s instead of 20.0 m/s, for the same reason.');
    expect(parked).toContain('instead of 20.0 m/s, it tucks.');
    const hard = { ...warm('x'), softer: [{ ...soft, kept: 0.999 }] };
    expect(warmTexts(told(20), { flight: hard, parked: hard }, words)[0]).toContain(
      '70 C, where hardly anything softens; ',
    );
  });

  it('tells which way controls turn, and what bending, slop and a touchdown come to', () => {
    const up = { difference: 20, control: -0.0611 };
    expect(warpText(up, words)).toBe('A top 20 K warmer than the bottom moves the trimmed pitch control 3.5 deg up.');
    expect(warpText({ ...up, control: 0.0611 }, words)).toContain('3.5 deg down');
    const bent = { inducedDrag: 0.999, levelPower: 1.004, stallSpeed: 1, control: -0.007, staticMargin: 0.003 };
    expect(bentTexts(bent, words)[0]).toContain(
      'drag -0.1 %, which changes the level power by +0.4 %; stall speed +0.0 %',
    );
    expect(bentTexts(bent, words)[1]).toContain('0.4 deg up, the static margin by 0.3 % of the chord');
    expect(slopText({ angle: 0.007, airspeed: 0.8 }, words)).toContain(
      '0.4 deg to either side, the trimmed airspeed wanders by 0.8 m/s',
    );
    expect(landingText({ loadFactor: 4.2, sinkRate: 1.3, stoppedWithin: 0.02 }, words)).toContain(
      '4 g, which is 1.3 m/s',
    );
  });
});
