import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dragged,
  following,
  type MapView,
  movedPoint,
  pointAt,
  projectionOf,
  wrapped,
  zoomed,
  zoomLimits,
} from './map-view.js';

const size = { width: 600, height: 330 };
const europe: MapView = { middle: { latitude: 45, longitude: 5 }, zoom: 8 };

describe('pointing at the map', () => {
  it('finds the middle of the picture', () => {
    expect(pointAt(europe, size, 300, 165)).toEqual({ latitude: 45, longitude: 5 });
  });

  it('finds the point that a place is drawn at, anywhere and at any zoom', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -78, max: 78, noNaN: true }),
        fc.double({ min: -179.9, max: 179.9, noNaN: true }),
        fc.double({ min: 1, max: 200, noNaN: true }),
        (latitude, longitude, zoom) => {
          const view = { middle: { latitude, longitude }, zoom };
          const at = projectionOf(view, size).clipExtent(null)([longitude, latitude])!;
          const found = pointAt(view, size, at[0], at[1])!;
          // A picture point near the equator, where it is widest [deg].
          const tolerance = 360 / (size.width * zoom) + 5e-4;
          expect(Math.abs(found.latitude - latitude)).toBeLessThan(tolerance);
          expect(Math.abs(wrapped(found.longitude - longitude))).toBeLessThan(tolerance);
        },
      ),
    );
  });

  it('has no point beyond the poles', () => {
    expect(pointAt({ middle: { latitude: 80, longitude: 0 }, zoom: 1 }, size, 300, -4000)).toBeUndefined();
  });

  it('crosses the date line', () => {
    const view = { middle: { latitude: 0, longitude: 179 }, zoom: 8 };
    expect(pointAt(view, size, 400, 165)!.longitude).toBeLessThan(-170);
  });
});

describe('moving by keys', () => {
  it('moves in the direction of the arrow, faster with shift, finer when close', () => {
    const from = { latitude: 40, longitude: 0 };
    const east = movedPoint(from, 'ArrowRight', europe, false)!;
    expect(east.longitude).toBeGreaterThan(0);
    expect(east.latitude).toBe(40);
    expect(movedPoint(from, 'ArrowUp', europe, false)!.latitude).toBeGreaterThan(40);
    expect(movedPoint(from, 'ArrowRight', europe, true)!.longitude).toBeCloseTo(10 * east.longitude, 6);
    expect(movedPoint(from, 'ArrowRight', { ...europe, zoom: 80 }, false)!.longitude).toBeLessThan(east.longitude / 5);
    expect(movedPoint(from, 'a', europe, false)).toBeUndefined();
  });

  it('stays on the map and off the poles', () => {
    expect(movedPoint({ latitude: 80, longitude: 0 }, 'ArrowUp', europe, true)!.latitude).toBeLessThanOrEqual(80);
    expect(movedPoint({ latitude: 0, longitude: 179.9 }, 'ArrowRight', europe, true)!.longitude).toBeLessThan(0);
  });

  it('keeps the view where the point stays inside it and follows where it leaves', () => {
    expect(following(europe, size, { latitude: 45, longitude: 6 })).toBe(europe);
    expect(following(europe, size, { latitude: 45, longitude: 60 }).middle.longitude).toBe(60);
  });

  it('comes closer only so far', () => {
    expect(zoomed(europe, europe.middle, 1000).zoom).toBe(zoomLimits.most);
    expect(zoomed(europe, europe.middle, 1e-3).zoom).toBe(zoomLimits.least);
  });

  it('drags the ground with the pointer', () => {
    expect(dragged(europe, size, 100, 0).middle.longitude).toBeLessThan(europe.middle.longitude);
    expect(dragged(europe, size, 0, 100).middle.latitude).toBeGreaterThan(europe.middle.latitude);
  });
});
