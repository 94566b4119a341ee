import { describe, expect, it } from 'vitest';
import { nearestPath } from './focus-fallback.js';

const paths = ['battery.cell', 'battery.x', 'surfaces.wing.x', 'surfaces.wing.stations[1].chord', 'drive.propeller'];

describe('the field nearest to a wanted one', () => {
  it.each([
    ['battery', 'battery.cell'],
    ['surfaces.wing.stations[1]', 'surfaces.wing.stations[1].chord'],
    ['drive.propeller.diameter', 'drive.propeller'],
    ['surfaces.wing.controls.aileron.up', 'surfaces.wing.x'],
    ['surfaces.wing.stations[4].chord', 'surfaces.wing.stations[1].chord'],
    ['battery.layout', 'battery.cell'],
  ])('for %s is %s', (wanted, found) => {
    expect(nearestPath(paths, wanted)).toBe(found);
  });
  it('is none where nothing of its group is shown, and a like beginning is no group', () => {
    expect(nearestPath(paths, 'loads')).toBeUndefined();
    expect(nearestPath(['battery box'], 'battery')).toBeUndefined();
  });
});
