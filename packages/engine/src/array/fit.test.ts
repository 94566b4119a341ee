import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { currentAtVoltage, openCircuitVoltage, shortCircuitCurrent } from './cell.js';
import { explicitFiveParameters } from './explicit-fit.js';
import { type CellDataSheet, fitFiveParameters, fitFourParameters, matchVoltageCoefficient } from './fit.js';
import { maximumPowerPoint } from './maximum.js';
import { backContactCell } from './reference.js';
import { type CellParameters, idealityFactor, impliedTemperatureCoefficients } from './translate.js';

const sheet: CellDataSheet = {
  shortCircuitCurrent: 6.27,
  openCircuitVoltage: 0.686,
  maximumPowerCurrent: 5.9,
  maximumPowerVoltage: 0.58,
  currentTemperatureCoefficient: 0.003135,
  cellsInSeries: 1,
  area: 0.0153,
};

const module: CellDataSheet = {
  shortCircuitCurrent: 9.43,
  openCircuitVoltage: 38.3,
  maximumPowerCurrent: 8.71,
  maximumPowerVoltage: 31,
  currentTemperatureCoefficient: 0.005658,
  voltageTemperatureCoefficient: -0.13788,
  cellsInSeries: 60,
};

/** Data sheet of a known cell. */
function sheetOf(cell: CellParameters): CellDataSheet {
  const point = maximumPowerPoint(cell);
  return {
    shortCircuitCurrent: shortCircuitCurrent(cell),
    openCircuitVoltage: openCircuitVoltage(cell),
    maximumPowerCurrent: point.current,
    maximumPowerVoltage: point.voltage,
    cellsInSeries: cell.cellsInSeries,
  };
}

describe('fitFourParameters', () => {
  it('gives back the data sheet that it was given', () => {
    const fit = fitFourParameters(sheet);
    expect(fit.ok).toBe(true);
    if (!fit.ok) return;
    const point = maximumPowerPoint(fit.value);
    expect(shortCircuitCurrent(fit.value)).toBeCloseTo(6.27, 10);
    expect(openCircuitVoltage(fit.value)).toBeCloseTo(0.686, 11);
    expect(currentAtVoltage(fit.value, 0.58)).toBeCloseTo(5.9, 10);
    expect(point.voltage).toBeCloseTo(0.58, 7);
    expect(point.power).toBeCloseTo(3.422, 10);
    expect(fit.value.area).toBe(0.0153);
  });

  it('finds any cell again from its own data sheet and ideality', () => {
    const cells = fc.record({
      ideality: fc.double({ min: 0.9, max: 1.6, noNaN: true }),
      series: fc.double({ min: 0.001, max: 0.01, noNaN: true }),
      shunt: fc.double({ min: 2, max: 200, noNaN: true }),
      saturation: fc.double({ min: -26, max: -18, noNaN: true }).map(Math.exp),
    });
    fc.assert(
      fc.property(cells, ({ ideality, series, shunt, saturation }) => {
        const truth: CellParameters = {
          ...backContactCell,
          saturationCurrent: saturation,
          seriesResistance: series,
          shuntResistance: shunt,
          modifiedIdeality: (backContactCell.modifiedIdeality * ideality) / idealityFactor(backContactCell),
        };
        const fit = fitFourParameters(sheetOf(truth), ideality);
        expect(fit.ok).toBe(true);
        if (!fit.ok) return;
        expect(fit.value.seriesResistance / series).toBeCloseTo(1, 4);
        expect(fit.value.shuntResistance / shunt).toBeCloseTo(1, 3);
        expect(fit.value.saturationCurrent / saturation).toBeCloseTo(1, 4);
      }),
      { numRuns: 100 },
    );
  });

  it('follows a stated voltage coefficient without changing the reference curve', () => {
    const fit = fitFourParameters({ ...sheet, voltageTemperatureCoefficient: -0.0018 });
    expect(fit.ok).toBe(true);
    if (!fit.ok) return;
    expect(impliedTemperatureCoefficients(fit.value).voltage).toBeCloseTo(-0.0018, 8);
    expect(maximumPowerPoint(fit.value).power).toBeCloseTo(3.422, 9);
  });

  it('names an ideality that works where the wanted one does not', () => {
    const fit = fitFourParameters(sheet, 1.8);
    expect(fit).toMatchObject({ ok: false, code: 'cell-fit-failed' });
    expect(!fit.ok && fit.remedy).toMatch(/an ideality of 1\.\d\d fits/);
  });

  it.each([
    ['currents exchanged', { maximumPowerCurrent: 6.3 }],
    ['voltages exchanged', { maximumPowerVoltage: 0.7 }],
    ['not a number', { shortCircuitCurrent: Number.NaN }],
    ['no cells', { cellsInSeries: 0 }],
    ['negative', { openCircuitVoltage: -0.6 }],
    ['a current coefficient in per cent', { currentTemperatureCoefficient: 0.5 }],
  ])('refuses a sheet with %s', (_, wrong) => {
    expect(fitFourParameters({ ...sheet, ...wrong })).toMatchObject({ ok: false, code: 'cell-data-out-of-order' });
    expect(fitFiveParameters({ ...sheet, ...wrong })).toMatchObject({ ok: false, code: 'cell-data-out-of-order' });
  });

  it('refuses a voltage coefficient that no diode has', () => {
    expect(matchVoltageCoefficient(backContactCell, 0.3)).toMatchObject({
      ok: false,
      code: 'cell-voltage-coefficient',
    });
  });
});

describe('fitFiveParameters', () => {
  it('meets all five conditions', () => {
    const fit = fitFiveParameters(module);
    expect(fit.ok).toBe(true);
    if (!fit.ok) return;
    expect(maximumPowerPoint(fit.value).power).toBeCloseTo(8.71 * 31, 7);
    expect(shortCircuitCurrent(fit.value)).toBeCloseTo(9.43, 9);
    expect(openCircuitVoltage(fit.value)).toBeCloseTo(38.3, 9);
    // Forward over 2 K is the fit's own condition; the central difference differs by curvature only.
    expect(impliedTemperatureCoefficients(fit.value).voltage).toBeCloseTo(-0.13788, 4);
  });

  it('reports failure with 10 cells in series instead of 60 (a wrong data sheet)', () => {
    expect(fitFiveParameters({ ...module, cellsInSeries: 10 })).toMatchObject({ ok: false, code: 'cell-fit-failed' });
  });

  it('warns of an ideality below 1', () => {
    const fit = fitFiveParameters({ ...sheet, voltageTemperatureCoefficient: -0.0018 });
    expect(fit.ok && fit.warnings.map((warning) => warning.code)).toEqual(['cell-ideality-below-one']);
    const usual = fitFiveParameters({ ...sheet, voltageTemperatureCoefficient: -0.0022 });
    expect(usual.ok && usual.warnings).toEqual([]);
  });

  it('asks for the voltage coefficient', () => {
    expect(fitFiveParameters(sheet)).toMatchObject({ ok: false, code: 'cell-fit-failed' });
  });
});

describe('explicitFiveParameters', () => {
  it('comes within 2 % of the power of the iterated fit', () => {
    const fit = explicitFiveParameters(module);
    expect(fit.ok).toBe(true);
    if (!fit.ok) return;
    expect(maximumPowerPoint(fit.value).power / (8.71 * 31)).toBeCloseTo(1, 1);
    expect(Math.abs(maximumPowerPoint(fit.value).power / (8.71 * 31) - 1)).toBeLessThan(0.02);
  });

  it('refuses a sheet without voltage coefficient', () => {
    expect(explicitFiveParameters(sheet)).toMatchObject({ ok: false });
  });
});
