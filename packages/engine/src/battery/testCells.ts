import type { PackCell } from './cells.js';
import {
  lithiumIon18650Curve,
  lithiumIon21700Curve,
  lithiumIon21700PowerCurve,
  lithiumPolymerCurve,
} from './curves.js';

const ampereHour = 3600;

/** One cell of each curve, for checks and tests only: round numbers, not products. */
export const cell18650: PackCell = { curve: lithiumIon18650Curve, capacity: 3 * ampereHour, resistance: 0.045 };
export const cell21700: PackCell = { curve: lithiumIon21700Curve, capacity: 5 * ampereHour, resistance: 0.03 };
export const powerCell: PackCell = {
  curve: lithiumIon21700PowerCurve,
  capacity: 4.2 * ampereHour,
  resistance: 0.018,
  dischargeCurrentLimit: 30,
};
export const polymerCell: PackCell = {
  curve: lithiumPolymerCurve,
  capacity: 2.2 * ampereHour,
  resistance: 0.015,
  minimumVoltage: 3.2,
  chargeRate: 1,
  dischargeCurrentLimit: 44,
};
