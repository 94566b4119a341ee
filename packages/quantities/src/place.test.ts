import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatPlace, parsePlace } from './place.js';

const degrees = (text: string) => {
  const place = parsePlace(text);
  return place.ok ? [(place.latitude * 180) / Math.PI, (place.longitude * 180) / Math.PI] : undefined;
};

describe('a place', () => {
  it.each([
    ['40.7,0.9', 40.7, 0.9],
    ['40.7, 0.9', 40.7, 0.9],
    ['40.7 0.9', 40.7, 0.9],
    ['40,7 N 0,9 E', 40.7, 0.9],
    ['40.7 N, 0.9 E', 40.7, 0.9],
    ['40,7 0,9', 40.7, 0.9],
    ['40,7; 0,9', 40.7, 0.9],
    ['40,7, 0,9', 40.7, 0.9],
    ["40°42'N 0°54'E", 40.7, 0.9],
    ['40°42\'30"N 0°54′E', 40.708333333, 0.9],
    ['N 40.7 E 0.9', 40.7, 0.9],
    ['0.9 E 40.7 N', 40.7, 0.9],
    ['40.7n0.9w', 40.7, -0.9],
    ['−33.87, 151.21', -33.87, 151.21],
    ['33.87 S 70.6 W', -33.87, -70.6],
    ['90 N 0 E', 90, 0],
    ['40.7 deg N 0.9 deg E', 40.7, 0.9],
  ])('%s', (text, latitude, longitude) => {
    const found = degrees(text);
    expect(found?.[0]).toBeCloseTo(latitude, 8);
    expect(found?.[1]).toBeCloseTo(longitude, 8);
  });

  it.each([
    '',
    '40.7',
    '40,7',
    '40,7,0,9',
    '91, 0',
    '0, 181',
    '40.7 N 0.9 N',
    '-40.7 N 0.9 E',
    '40 N',
    'here',
    '1,2,3',
    "40°75'N 0 E",
  ])('refuses "%s" with a hint', (text) => {
    const found = parsePlace(text);
    expect(found.ok).toBe(false);
    if (!found.ok) expect(found.hint).not.toBe('');
  });

  it('reads back what it writes, anywhere on the earth', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        (latitude, longitude) => {
          const written = formatPlace(
            { latitude: (latitude * Math.PI) / 180, longitude: (longitude * Math.PI) / 180 },
            6,
          );
          const found = degrees(written);
          expect(found?.[0]).toBeCloseTo(latitude, 5);
          expect(found?.[1]).toBeCloseTo(longitude, 5);
        },
      ),
    );
  });

  it('never throws, and what it reads is on the earth', () => {
    const scraps = fc
      .array(fc.constantFrom('4', '0', '.', ',', ' ', 'N', 'E', 'W', '°', "'", '"', '-', ';'), { maxLength: 14 })
      .map((parts) => parts.join(''));
    fc.assert(
      fc.property(fc.oneof(fc.string(), scraps), (text) => {
        const found = parsePlace(text);
        if (found.ok) {
          expect(Math.abs(found.latitude)).toBeLessThanOrEqual(Math.PI / 2);
          expect(Math.abs(found.longitude)).toBeLessThanOrEqual(Math.PI);
        }
      }),
      { numRuns: 2000 },
    );
  });
});
