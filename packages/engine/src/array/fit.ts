import { brentRoot } from '../math/index.js';
import { type Outcome, problem, success, type Warning } from '../result.js';
import { openCircuitVoltage } from './cell.js';
import { boltzmannOverCharge, standardIrradiance, standardTemperature } from './constants.js';
import {
  type CellParameters,
  cellAt,
  idealityFactor,
  impliedTemperatureCoefficients,
  siliconBandGap,
} from './translate.js';

/** What a data sheet says at 1000 W/m2 and 25 C. */
export interface CellDataSheet {
  /** [A] */
  readonly shortCircuitCurrent: number;
  /** [V] */
  readonly openCircuitVoltage: number;
  /** At maximum power [A]. */
  readonly maximumPowerCurrent: number;
  /** At maximum power [V]. */
  readonly maximumPowerVoltage: number;
  /** Of the short-circuit current [A/K], default 0.0005 of the current. */
  readonly currentTemperatureCoefficient?: number;
  /** Of the open-circuit voltage [V/K], negative. Required by the five-parameter fit. */
  readonly voltageTemperatureCoefficient?: number;
  /** Cells in series: 1 for a cell [count]. */
  readonly cellsInSeries: number;
  /** Area that collects light [m2], 0 where unknown. */
  readonly area?: number;
}

/** Ideality factors among which a fit is sought; below and above, the diode equation has lost its meaning. */
const idealityRange = { lowest: 0.5, highest: 2.2 } as const;

/** Curve through short circuit, open circuit and the maximum power point, for an assumed ideality and series resistance. */
interface Trial {
  readonly photocurrent: number;
  readonly saturationCurrent: number;
  readonly shunt: number;
  /** Imp (1 + Rs s) - Vmp s, with s the slope of diode and shunt current: zero where the point is the maximum [A]. */
  readonly slopeResidual: number;
}

/**
 * For given a and Rs the photocurrent, saturation current and shunt conductance follow linearly from the three points.
 * The saturation current is carried as the diode current at open circuit, which stays near the photocurrent.
 */
function trialCurve(sheet: CellDataSheet, a: number, rs: number): Trial {
  const { shortCircuitCurrent: isc, openCircuitVoltage: voc } = sheet;
  const { maximumPowerCurrent: imp, maximumPowerVoltage: vmp } = sheet;
  const shortDiode = isc * rs;
  const powerDiode = vmp + imp * rs;
  const eShort = Math.exp((shortDiode - voc) / a);
  const ePower = Math.exp((powerDiode - voc) / a);
  const determinant = (1 - eShort) * (voc - powerDiode) - (1 - ePower) * (voc - shortDiode);
  const openDiode = (isc * (voc - powerDiode) - imp * (voc - shortDiode)) / determinant;
  const shunt = ((1 - eShort) * imp - (1 - ePower) * isc) / determinant;
  const saturationCurrent = openDiode * Math.exp(-voc / a);
  const slope = (openDiode * ePower) / a + shunt;
  return {
    photocurrent: openDiode - saturationCurrent + shunt * voc,
    saturationCurrent,
    shunt,
    slopeResidual: imp * (1 + rs * slope) - vmp * slope,
  };
}

/** Cell through the three points with the power point a true maximum, for one modified ideality; undefined where none exists. */
function cellForIdeality(sheet: CellDataSheet, a: number): CellParameters | undefined {
  const limit = (sheet.openCircuitVoltage - sheet.maximumPowerVoltage) / sheet.maximumPowerCurrent;
  const residual = (rs: number): number => trialCurve(sheet, a, rs).slopeResidual;
  const steps = 60;
  let before = residual(0);
  for (let k = 1; k < steps; k++) {
    const now = residual((limit * k) / steps);
    if (before * now <= 0) {
      const rs = brentRoot(residual, (limit * (k - 1)) / steps, (limit * k) / steps, { tolerance: 1e-16 * limit });
      const trial = rs === undefined ? undefined : trialCurve(sheet, a, rs);
      if (trial !== undefined && trial.shunt > 0 && trial.saturationCurrent > 0 && trial.photocurrent > 0) {
        return fittedCell(sheet, a, rs!, trial);
      }
    }
    before = now;
  }
  return undefined;
}

/** Cell parameters from a solved trial. */
function fittedCell(sheet: CellDataSheet, a: number, rs: number, trial: Trial): CellParameters {
  return {
    photocurrent: trial.photocurrent,
    saturationCurrent: trial.saturationCurrent,
    seriesResistance: rs,
    shuntResistance: 1 / trial.shunt,
    modifiedIdeality: a,
    currentTemperatureCoefficient: sheet.currentTemperatureCoefficient ?? 0.0005 * sheet.shortCircuitCurrent,
    ...siliconBandGap,
    referenceIrradiance: standardIrradiance,
    referenceTemperature: standardTemperature,
    area: sheet.area ?? 0,
    cellsInSeries: sheet.cellsInSeries,
  };
}

/** Problem of a data sheet that cannot be a solar cell, if it is one. */
function sheetProblem(sheet: CellDataSheet): ReturnType<typeof problem> | undefined {
  const { shortCircuitCurrent: isc, openCircuitVoltage: voc } = sheet;
  const { maximumPowerCurrent: imp, maximumPowerVoltage: vmp } = sheet;
  const ordered = imp > 0 && imp < isc && vmp > 0 && vmp < voc && sheet.cellsInSeries >= 1;
  const plausible = isc > 1e-6 && isc < 1e4 && voc > 1e-3 && voc < 1e4;
  const alpha = sheet.currentTemperatureCoefficient ?? 0;
  if (ordered && plausible && Math.abs(alpha) <= 0.01 * isc) return undefined;
  if (ordered && plausible) {
    return problem({
      code: 'cell-data-out-of-order',
      reason: `a current coefficient of ${alpha} A/K is more than 1 % of the short-circuit current per kelvin`,
      where: 'cell data sheet',
      remedy: 'give it in A/K: 0.05 %/K of 6.27 A is 0.0031 A/K',
    });
  }
  return problem({
    code: 'cell-data-out-of-order',
    reason: `current at maximum power (${imp} A) must lie between 0 and the short-circuit current (${isc} A), voltage at maximum power (${vmp} V) between 0 and the open-circuit voltage (${voc} V)`,
    where: 'cell data sheet',
    remedy: 'compare the four numbers with the data sheet; currents and voltages may have been exchanged',
  });
}

const scaleOf = (sheet: CellDataSheet): number => sheet.cellsInSeries * boltzmannOverCharge * standardTemperature;

/**
 * Four-parameter fit: the single-diode curve with a chosen ideality that meets short circuit, open circuit and the
 * maximum power point of a data sheet.
 *
 * The three points leave one unknown, the series resistance, which is bracketed and solved from dP/dV = 0, so that no
 * start value can lead astray.
 *
 * @param sheet - data sheet at 1000 W/m2, 25 C. With a voltage coefficient the effective band gap is set so that the
 *   open-circuit voltage follows it; without one silicon's band gap is kept and the model's own coefficient accepted
 * @param ideality - ideality factor n, 1 to 1.3 for crystalline silicon, default 1.05
 * @returns the cell, or a problem where no such curve exists
 * Source: single-diode equation with the conditions of De Soto, Klein and Beckman, Solar Energy 80, 2006, eqs. 2 to 6.
 */
export function fitFourParameters(sheet: CellDataSheet, ideality = 1.05): Outcome<CellParameters> {
  const wrong = sheetProblem(sheet);
  if (wrong !== undefined) return wrong;
  const cell = cellForIdeality(sheet, ideality * scaleOf(sheet));
  if (cell === undefined) {
    return problem({
      code: 'cell-fit-failed',
      reason: `no single-diode curve with ideality ${ideality} and ${sheet.cellsInSeries} cells in series passes through the three points of the data sheet`,
      where: 'cell data sheet',
      remedy: nearestIdeality(sheet, ideality),
    });
  }
  const beta = sheet.voltageTemperatureCoefficient;
  return beta === undefined ? success(cell) : matchVoltageCoefficient(cell, beta);
}

/** Remedy for a failed fit: the nearest ideality that has a curve, if there is one. */
function nearestIdeality(sheet: CellDataSheet, wanted: number): string {
  const { lowest, highest } = idealityRange;
  let nearest: number | undefined;
  for (let n = lowest; n <= highest; n += 0.02) {
    if (cellForIdeality(sheet, n * scaleOf(sheet)) === undefined) continue;
    if (nearest === undefined || Math.abs(n - wanted) < Math.abs(nearest - wanted)) nearest = n;
  }
  return nearest === undefined
    ? 'check the number of cells in series and the four data sheet values: no ideality between 0.5 and 2.2 fits them'
    : `an ideality of ${nearest.toFixed(2)} fits; or check the number of cells in series and the four values`;
}

/**
 * The same cell with its effective band gap set so that the open-circuit voltage follows a stated coefficient.
 * The reference curve is unchanged.
 *
 * @param cell - cell at reference
 * @param voltageCoefficient - of the open-circuit voltage [V/K], negative, for the whole curve (all cells in series)
 * @returns the cell, or a problem where the coefficient is far from that of a diode
 * Source: De Soto's saturation current (eq. 10) with the band gap as a fitted activation energy.
 */
export function matchVoltageCoefficient(cell: CellParameters, voltageCoefficient: number): Outcome<CellParameters> {
  const miss = (bandGap: number): number =>
    impliedTemperatureCoefficients({ ...cell, bandGap }).voltage - voltageCoefficient;
  const bandGap = brentRoot(miss, 0.2, 3, { tolerance: 1e-12 });
  if (bandGap === undefined) {
    return problem({
      code: 'cell-voltage-coefficient',
      reason: `an open-circuit voltage coefficient of ${voltageCoefficient} V/K is far from that of ${cell.cellsInSeries} silicon cells (about ${(-0.002 * cell.cellsInSeries).toPrecision(2)} V/K)`,
      where: 'cell data sheet',
      remedy: 'give it in V/K for the whole cell or module, negative; -0.3 %/K of 0.69 V is -0.0021 V/K',
    });
  }
  return success({ ...cell, bandGap });
}

/**
 * Five-parameter fit: ideality too, from the temperature coefficient of the open-circuit voltage over 2 K.
 *
 * For each ideality the other four parameters are solved by brackets as in `fitFourParameters`; the ideality is the
 * root of I(Voc + 2 beta) = 0 at 27 C.
 *
 * @param sheet - data sheet at 1000 W/m2, 25 C, with `voltageTemperatureCoefficient`
 * @returns the cell, with a warning where the ideality comes out below 1; a problem where no ideality between 0.5 and
 *   2.2 satisfies all five conditions
 * Source: De Soto, Klein and Beckman, Improvement and validation of a model for photovoltaic array performance, Solar
 * Energy 80, 2006, eqs. 2 to 7 (eq. 6 with its sign corrected).
 */
export function fitFiveParameters(sheet: CellDataSheet): Outcome<CellParameters> {
  const wrong = sheetProblem(sheet);
  if (wrong !== undefined) return wrong;
  const beta = sheet.voltageTemperatureCoefficient;
  const cell = beta === undefined ? undefined : solveIdeality(sheet, beta);
  if (cell === undefined) {
    return problem({
      code: 'cell-fit-failed',
      reason: `no single-diode curve of ${sheet.cellsInSeries} cells in series with an ideality between 0.5 and 2.2 meets the data sheet and its voltage coefficient`,
      where: 'cell data sheet',
      remedy:
        'check the number of cells in series and the voltage coefficient (V/K, negative), or fix the ideality at 1.05',
    });
  }
  const n = idealityFactor(cell);
  const warnings: Warning[] =
    n < 1
      ? [
          {
            code: 'cell-ideality-below-one',
            message: `the voltage coefficient leads to an ideality of ${n.toFixed(3)}, below 1, which no diode has: prefer the fit with fixed ideality`,
            where: 'cell data sheet',
          },
        ]
      : [];
  return success(cell, warnings);
}

/** Cell whose open-circuit voltage moves by 2 beta over 2 K; undefined where no ideality in range gives that. */
function solveIdeality(sheet: CellDataSheet, beta: number): CellParameters | undefined {
  const scale = scaleOf(sheet);
  const target = sheet.openCircuitVoltage + 2 * beta;
  const miss = (n: number): number => {
    const cell = cellForIdeality(sheet, n * scale);
    if (cell === undefined) return Number.NaN;
    const warm = cellAt(cell, { irradiance: standardIrradiance, temperature: standardTemperature + 2 });
    return openCircuitVoltage(warm) - target;
  };
  const step = 0.025;
  let before = Number.NaN;
  for (let n: number = idealityRange.lowest; n <= idealityRange.highest; n += step) {
    const now = miss(n);
    if (before * now <= 0) {
      const root = brentRoot(miss, n - step, n, { tolerance: 1e-13 });
      if (root !== undefined) return cellForIdeality(sheet, root * scale);
    }
    before = now;
  }
  return undefined;
}
