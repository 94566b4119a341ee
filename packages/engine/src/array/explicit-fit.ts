import { type Outcome, problem, success } from '../result.js';
import { standardIrradiance, standardTemperature } from './constants.js';
import type { CellDataSheet } from './fit.js';
import { lambertWOfExp } from './lambert.js';
import { type CellParameters, siliconBandGap } from './translate.js';

/**
 * Five parameters of a module by closed formulas, without iteration: close to, not exactly through, the data sheet's
 * points. A second opinion on `fitFiveParameters`.
 *
 * @param sheet - data sheet at 1000 W/m2, 25 C with both temperature coefficients
 * @returns the cell, or a problem where the formulas leave the range of a diode
 * Source: Batzelis, Simple PV performance equations theoretically well founded on the single-diode model, IEEE J.
 * Photovoltaics 7, 2017 (formulas from memory, confirmed by a published vector).
 */
export function explicitFiveParameters(sheet: CellDataSheet): Outcome<CellParameters> {
  const { shortCircuitCurrent: isc, openCircuitVoltage: voc } = sheet;
  const { maximumPowerCurrent: imp, maximumPowerVoltage: vmp } = sheet;
  const alpha = sheet.currentTemperatureCoefficient ?? 0.0005 * isc;
  const beta = sheet.voltageTemperatureCoefficient ?? Number.NaN;
  const relative = (1 - (beta / voc) * standardTemperature) / (50.1 - (alpha / isc) * standardTemperature);
  const w = relative > 0 ? lambertWOfExp(1 / relative + 1) : Number.NaN;
  const a = relative * voc;
  const seriesResistance = (a * (w - 1) - vmp) / imp;
  const shuntResistance = (a * (w - 1)) / (isc * (1 - 1 / w) - imp);
  if (!(seriesResistance >= 0 && shuntResistance > 0 && a > 0)) {
    return problem({
      code: 'cell-fit-failed',
      reason: 'the closed formulas give a negative resistance for this data sheet',
      where: 'cell data sheet',
      remedy:
        'use the four-parameter fit with an ideality of 1.05, or check the four values and the voltage coefficient',
    });
  }
  const photocurrent = (1 + seriesResistance / shuntResistance) * isc;
  return success({
    photocurrent,
    saturationCurrent: photocurrent * Math.exp(-1 / relative),
    seriesResistance,
    shuntResistance,
    modifiedIdeality: a,
    currentTemperatureCoefficient: alpha,
    ...siliconBandGap,
    referenceIrradiance: standardIrradiance,
    referenceTemperature: standardTemperature,
    area: sheet.area ?? 0,
    cellsInSeries: sheet.cellsInSeries,
  });
}
