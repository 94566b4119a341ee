import { cellAt, cellBalance, flightCellTemperature, maximumPowerPoint } from '@noonwing/engine/array';
import { coolingOf } from '@noonwing/engine/day';
import { cellLightAt } from '@noonwing/engine/light';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { kindsOfCells } from './cell-sheets.js';

const verdict = test.verdictOf(test.designText('bandeja'), test.planText('bandeja'));
const array = verdict.prepared.run.array!;
const kinds = kindsOfCells(array);
const terms = { direct: 780, circumsolar: 60, isotropic: 70, horizon: 12, ground: 110 };
const absorptance = 0.92;

/** Sun anywhere above the horizon, on any cell, in any attitude flown. */
const scene = fc.record({
  elevation: fc.double({ min: 0.02, max: 1.57, noNaN: true }),
  azimuth: fc.double({ min: 0, max: 6.28, noNaN: true }),
  bank: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
  cell: fc.nat({ max: array.cells!.length - 1 }),
});

describe('the light that comes to a cell', () => {
  it('is shaded, reflected, or leaves as current and heat, and nothing is lost or won on the way', () => {
    fc.assert(
      fc.property(scene, ({ elevation, azimuth, bank, cell }) => {
        const up = Math.cos(elevation);
        const sun = [up * Math.sin(azimuth), up * Math.cos(azimuth), Math.sin(elevation)] as const;
        const at = { sun, terms, attitude: { heading: 0.7, pitch: 0.05, bank } };
        const { incidence, lightFactor } = array;
        const of = (shade: typeof array.shade) => cellLightAt({ cells: array.cells!, shade, incidence }, at)[cell]!;
        const [here, open] = [of(array.shade), of(undefined)];
        const sum = ({ direct, circumsolar, sky, ground }: typeof here) => direct + circumsolar + sky + ground;
        // On the open plane = past the shade + shade; past the shade = inside + turned away by the angle.
        expect(sum(here) + here.shadeLoss).toBeCloseTo(sum(open), 6);
        expect(here.effective + here.incidenceLoss).toBeCloseTo(sum(here), 6);
        expect(here.shadeLoss).toBeGreaterThan(-1e-6);
        // Inside film and dust: current at the greatest power, heat to air and sky, reflection.
        const placed = array.cells![cell]!;
        const irradiance = here.effective * lightFactor;
        if (!(irradiance > 5)) return;
        const { air } = verdict.prepared.run;
        const power = (temperature: number) => maximumPowerPoint(cellAt(kinds[cell]!, { irradiance, temperature }));
        const efficiency = power(air.temperature + 20).power / (irradiance * placed.area);
        const state = flightCellTemperature({
          ...coolingOf(placed),
          air,
          airspeed: 9,
          irradiance,
          absorptance,
          efficiency,
          efficiencyCoefficient: 0,
        });
        const curve = cellAt(kinds[cell]!, { irradiance, temperature: state.temperature });
        const face = { irradiance, area: placed.area, absorptance };
        const balance = cellBalance(curve, maximumPowerPoint(curve).current, face);
        const { light, reflected, electric, heat } = balance;
        expect(light).toBeCloseTo(reflected + electric + heat, 9);
        // The air and the sky take what the balance of the cell calls heat; its efficiency was set 20 K above the air.
        const taken = (state.convection + state.radiation) * placed.area;
        const warmer = electric - power(air.temperature + 20).power;
        expect(Math.abs(taken - heat - warmer)).toBeLessThan(1e-4 * light + 1e-6);
      }),
      { numRuns: 80 },
    );
  });
});
