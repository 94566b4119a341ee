import { bodyToSky } from '@noonwing/engine/sun';
import fc from 'fast-check';
import { Euler, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import type { SunView } from '../../core/view.js';
import { attitudeTurns, geometryToScene, sceneToSky, skyToScene, turnedToScene, type Vector } from './frames.js';
import { brightest, lightColour } from './light-scale.js';
import { eyeDirection, orbitBetween, orbitOf, turned } from './orbit.js';
import { sunDirection, sunPath } from './sun-path.js';

const close = (found: Vector, expected: Vector) => {
  for (let k = 0; k < 3; k++) expect(found[k]).toBeCloseTo(expected[k]!, 9);
};
const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });
const length = fc.double({ min: -2, max: 2, noNaN: true });

describe('frames', () => {
  it('agree with the engine and with three, at any attitude', () => {
    fc.assert(
      fc.property(angle, angle, angle, length, length, length, (heading, pitch, bank, x, y, z) => {
        const attitude = { heading, pitch, bank };
        const expected = bodyToSky([-x, y, -z], attitude);
        close(sceneToSky(turnedToScene([x, y, z], attitude)), expected);
        const byThree = new Vector3(...geometryToScene([x, y, z])).applyEuler(
          new Euler(...attitudeTurns(attitude), 'YXZ'),
        );
        close(byThree.toArray(), skyToScene(expected));
      }),
    );
  });

  it('put the right wing east and the nose north in an aircraft that heads north', () => {
    const level = { heading: 0, pitch: 0, bank: 0 };
    close(sceneToSky(turnedToScene([0, 1, 0], level)), [1, 0, 0]);
    close(sceneToSky(turnedToScene([-1, 0, 0], level)), [0, 1, 0]);
  });

  it('lower the right wing in a right bank and raise the nose with pitch', () => {
    expect(turnedToScene([0, 1, 0], { heading: 1, pitch: 0, bank: 0.3 })[1]).toBeCloseTo(-Math.sin(0.3), 9);
    expect(turnedToScene([-1, 0, 0], { heading: 1, pitch: 0.2, bank: 0 })[1]).toBeCloseTo(Math.sin(0.2), 9);
  });
});

/** A sun that rises in the east at 6, is south and 60 degrees high at 12, sets in the west at 18; a day's steps of half an hour. */
const middles = Float64Array.from({ length: 96 }, (_, i) => i / 2 + 0.25);
const spot = (hour: number): Vector => {
  const turn = ((hour - 12) * Math.PI) / 12;
  const tilt = Math.PI / 3;
  return [-Math.sin(turn), -Math.cos(turn) * Math.cos(tilt), Math.cos(turn) * Math.sin(tilt)];
};
const sun: SunView = {
  direction: Float64Array.from([...middles].flatMap((hour) => [...spot(hour)])),
  elevation: middles.map((hour) => Math.asin(spot(hour)[2])),
  azimuth: middles.map((hour) => Math.atan2(spot(hour)[0], spot(hour)[1])),
  daylight: [
    { start: 6, end: 18 },
    { start: 30, end: 42 },
  ],
};

describe('sun path', () => {
  it('runs from the horizon over its height back to the horizon, in unit vectors', () => {
    const path = sunPath(sun, middles, 10);
    close(path.spots[0]!.direction, [1, 0, 0]);
    close(path.spots.at(-1)!.direction, [-1, 0, 0]);
    for (const { direction } of path.spots) expect(Math.hypot(...direction)).toBeCloseTo(1, 12);
    const highest = Math.max(...path.spots.map(({ direction }) => direction[2]));
    expect(highest).toBeGreaterThan(Math.sin(Math.PI / 3) - 1e-3);
    expect(highest).toBeLessThanOrEqual(Math.sin(Math.PI / 3) + 1e-9);
    expect(path.rises && path.sets).toBe(true);
  });

  it('has a mark at each full hour with the sun up', () => {
    expect(sunPath(sun, middles, 10).hours.map(({ hour }) => hour)).toEqual([
      6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18,
    ]);
  });

  it('is that of the day of the hour', () => {
    expect(sunPath(sun, middles, 31).spots[0]!.hour).toBe(30);
    expect(sunPath(sun, middles, 20).spots[0]!.hour).toBe(6);
    expect(sunPath(sun, middles, 28).spots[0]!.hour).toBe(30);
  });

  it('is a whole turn where the sun does not set, and nothing where it does not rise', () => {
    const always = sunPath({ ...sun, daylight: [{ start: 0, end: 48 }] }, middles, 30);
    expect(always.spots[0]!.hour).toBe(24);
    expect(always.spots.at(-1)!.hour).toBe(48);
    expect(always.rises || always.sets).toBe(false);
    expect(sunPath({ ...sun, daylight: [] }, middles, 12).spots).toEqual([]);
  });

  it('goes between the steps, and holds at the ends of the day', () => {
    close(sunDirection(sun, middles, 11.25)!, spot(11.25));
    expect(sunDirection(sun, middles, 12)![2]).toBeCloseTo(spot(12)[2], 2);
    close(sunDirection(sun, middles, -5)!, spot(0.25));
    expect(sunDirection(sun, middles, Number.NaN)).toBeUndefined();
    expect(sunDirection({ ...sun, direction: new Float64Array(0) }, new Float64Array(0), 12)).toBeUndefined();
    expect(sunDirection({ ...sun, direction: new Float64Array(288) }, middles, 12)).toBeUndefined();
  });
});

describe('eye', () => {
  const place = { heading: 1, noon: Math.PI, distance: 1 };

  it('stands where the view says', () => {
    close(eyeDirection({ azimuth: 0, elevation: 0, distance: 1 }), skyToScene([0, 1, 0]));
    const ahead = eyeDirection(orbitOf('ahead', place));
    const nose = skyToScene([Math.sin(1), Math.cos(1), 0]);
    expect(ahead[0] * nose[0] + ahead[1] * nose[1] + ahead[2] * nose[2]).toBeGreaterThan(0.99);
    expect(eyeDirection(orbitOf('above', place))[1]).toBeGreaterThan(0.999);
    close(eyeDirection(orbitOf('sun', { ...place, sun: spot(9) })), skyToScene(spot(9)));
  });

  it('looks from the side at a nose to the left', () => {
    const eye = eyeDirection(orbitOf('side', place));
    const nose = skyToScene([Math.sin(1), Math.cos(1), 0]);
    // Right of the eye: what it looks along, crossed with up.
    const right = [eye[2], 0, -eye[0]];
    expect(right[0]! * nose[0] + right[2]! * nose[2]).toBeLessThan(-0.9);
  });

  it('stays off the poles and in reach', () => {
    let orbit = orbitOf('overview', place);
    for (let i = 0; i < 50; i++) orbit = turned(orbit, { elevation: 0.2, scale: 0.8 });
    expect(orbit.elevation).toBeLessThan(Math.PI / 2);
    expect(orbit.distance).toBe(0.25);
  });

  it('turns the short way', () => {
    const from = { azimuth: 3, elevation: 0, distance: 1 };
    const to = { azimuth: -3, elevation: 0.4, distance: 2 };
    const middle = orbitBetween(from, to, 0.5);
    expect(middle.azimuth).toBeCloseTo(Math.PI, 9);
    expect(middle.distance).toBeCloseTo(1.5, 9);
    expect(orbitBetween(from, to, 0)).toEqual(from);
    close(eyeDirection(orbitBetween(from, to, 1)), eyeDirection(to));
  });
});

describe('colours of light', () => {
  /** WCAG 2.2, relative luminance. */
  const luminance = (hex: string) => {
    const [r, g, b] = [1, 3, 5].map((at) => {
      const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
  };

  it('grow lighter all the way, so that their order is seen without hue', () => {
    const lights = Array.from({ length: 41 }, (_, i) => luminance(lightColour((brightest * i) / 40)));
    for (let i = 1; i < lights.length; i++) expect(lights[i]).toBeGreaterThan(lights[i - 1]!);
    // A quarter of the scale is seen as a step: contrast of at least 1.4.
    for (let i = 10; i < lights.length; i += 10)
      expect((lights[i]! + 0.05) / (lights[i - 10]! + 0.05)).toBeGreaterThan(1.4);
  });

  it('hold at the ends and for what is no number', () => {
    expect(lightColour(-5)).toBe(lightColour(0));
    expect(lightColour(5000)).toBe(lightColour(brightest));
    expect(lightColour(Number.NaN)).toBe(lightColour(0));
    expect(lightColour(333)).toMatch(/^#[0-9a-f]{6}$/);
  });
});
