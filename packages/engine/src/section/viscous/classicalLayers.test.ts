import { describe, expect, it } from 'vitest';
import { entrainmentShape, headPlate, ludwiegTillmann, THWAITES_PLATE, thwaitesSeparation } from './classicalLayers.js';
import { howarthSeparation, turbulentPlate } from './plateLayer.js';

describe('Thwaites', () => {
  it('separates in a linearly falling speed where its closed form does, a little behind the two-equation layer', () => {
    const found = thwaitesSeparation(
      (x) => 1 - x,
      () => -1,
      { to: 0.3 },
    )!;
    expect(found).toBeCloseTo(1 - 2.2 ** (-1 / 6), 4);
    expect(Math.abs(found / howarthSeparation() - 1)).toBeLessThan(0.06);
  });

  it('never separates in a rising or constant speed', () => {
    expect(
      thwaitesSeparation(
        (x) => 1 + x,
        () => 1,
        { to: 0.5 },
      ),
    ).toBeUndefined();
    expect(
      thwaitesSeparation(
        () => 1,
        () => 0,
        { to: 0.5 },
      ),
    ).toBeUndefined();
  });

  it('is one per cent thick on a plate beside Blasius', () => {
    expect(THWAITES_PLATE / 0.664115).toBeCloseTo(1.01, 3);
  });
});

describe('Head', () => {
  it('has a shape factor that falls as the layer fills up, without a jump at 1.6', () => {
    expect(entrainmentShape(1.6)).toBeCloseTo(entrainmentShape(1.6000001), 1);
    for (let h = 1.25; h < 2.5; h += 0.05) expect(entrainmentShape(h + 0.05)).toBeLessThan(entrainmentShape(h));
  });

  it('agrees with the two-equation plate within 4 % in friction and thickness', () => {
    for (const reynolds of [1e6, 3e6, 1e7]) {
      const [head, own] = [headPlate(reynolds), turbulentPlate(reynolds)];
      expect(Math.abs(head.thetaReynolds / own.thetaReynolds - 1)).toBeLessThan(0.04);
      // At 1e7 the closures of 1958 and 1987 are 5.6 % apart in friction.
      expect(Math.abs(head.friction / own.friction - 1)).toBeLessThan(0.06);
    }
    expect(ludwiegTillmann(2e3, 1.4)).toBeLessThan(ludwiegTillmann(1e3, 1.4));
  });
});
