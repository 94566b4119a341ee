import { type Outcome, problem, success } from '../result.js';
import { cosineStations, sectionGeometry } from './geometry.js';
import type { SectionGeometry } from './types.js';

/** Last coefficient of the thickness law: the published one leaves the trailing edge open by 0.21 % of chord per 10 % thickness. */
const OPEN = 0.1015;
const CLOSED = 0.1036;

export interface NacaOptions {
  readonly trailingEdge?: 'open' | 'closed';
  /** Points per surface. */
  readonly points?: number;
}

/**
 * Half thickness of the NACA four- and five-digit families.
 * x - chord station [-]; thickness - greatest thickness / chord [-]; trailingEdge - open as published, or closed
 * Source: Jacobs, Ward, Pinkerton, NACA Report 460, 1933, p. 4.
 */
export function nacaHalfThickness(x: number, thickness: number, trailingEdge: 'open' | 'closed' = 'open'): number {
  const last = trailingEdge === 'open' ? OPEN : CLOSED;
  return 5 * thickness * (0.2969 * Math.sqrt(x) + x * (-0.126 + x * (-0.3516 + x * (0.2843 - last * x))));
}

/** Mean line of a formula section: ordinate and slope at a chord station. */
export type MeanLine = (x: number) => { readonly ordinate: number; readonly slope: number };

/**
 * Mean line of a four-digit section: two parabolas that meet at the greatest camber.
 * camber - greatest camber / chord [-]; position - its chord station [-]
 * Source: NACA Report 460, 1933.
 */
export const nacaFourDigitMeanLine =
  (camber: number, position: number): MeanLine =>
  (x) => {
    if (camber === 0) return { ordinate: 0, slope: 0 };
    const scale = x < position ? camber / position ** 2 : camber / (1 - position) ** 2;
    const front = x < position ? 0 : 1 - 2 * position;
    return { ordinate: scale * (front + 2 * position * x - x * x), slope: 2 * scale * (position - x) };
  };

interface FiveDigit {
  readonly r: number;
  readonly k1: number;
  readonly ratio: number;
}

/** Constants for a design lift of 0.3 by second and third digit, as published. Source: Jacobs, Pinkerton, NACA Report 537, 1935, table I. */
const FIVE_DIGIT: Readonly<Record<string, FiveDigit>> = {
  '10': { r: 0.058, k1: 361.4, ratio: 0 },
  '20': { r: 0.126, k1: 51.64, ratio: 0 },
  '30': { r: 0.2025, k1: 15.957, ratio: 0 },
  '40': { r: 0.29, k1: 6.643, ratio: 0 },
  '50': { r: 0.391, k1: 3.23, ratio: 0 },
  '21': { r: 0.13, k1: 51.99, ratio: 0.000764 },
  '31': { r: 0.217, k1: 15.793, ratio: 0.00677 },
  '41': { r: 0.318, k1: 6.52, ratio: 0.0303 },
  '51': { r: 0.441, k1: 3.191, ratio: 0.1355 },
};

/**
 * Mean line of a five-digit section; with third digit 1 the rear is reflexed so that the quarter-chord moment nearly vanishes.
 * digits - second and third digit, '30' or '41'; lift - design lift coefficient [-], 0.15 times the first digit
 * Source: NACA Report 537, 1935, eq. (2) to (4).
 */
export function nacaFiveDigitMeanLine(digits: string, lift: number): MeanLine | undefined {
  const constants = FIVE_DIGIT[digits];
  if (!constants) return undefined;
  const { r, k1, ratio } = constants;
  const scale = ((k1 / 6) * lift) / 0.3;
  const tilt = digits[1] === '1' ? ratio * (1 - r) ** 3 + r ** 3 : 0;
  if (digits[1] === '1') {
    return (x) => {
      const factor = x < r ? 1 : ratio;
      return {
        ordinate: scale * (factor * (x - r) ** 3 - tilt * x + r ** 3),
        slope: scale * (3 * factor * (x - r) ** 2 - tilt),
      };
    };
  }
  return (x) =>
    x < r
      ? {
          ordinate: scale * (x ** 3 - 3 * r * x * x + r * r * (3 - r) * x),
          slope: scale * (3 * x * x - 6 * r * x + r * r * (3 - r)),
        }
      : { ordinate: scale * r ** 3 * (1 - x), slope: -scale * r ** 3 };
}

/** Upper and lower surface point of a section built on a mean line, thickness laid off square to it. */
export function surfacePoints(
  x: number,
  halfThickness: number,
  line: MeanLine,
): { readonly xu: number; readonly yu: number; readonly xl: number; readonly yl: number } {
  const { ordinate, slope } = line(x);
  const angle = Math.atan(slope);
  const dx = halfThickness * Math.sin(angle);
  const dy = halfThickness * Math.cos(angle);
  return { xu: x - dx, yu: ordinate + dy, xl: x + dx, yl: ordinate - dy };
}

/**
 * Section built from a mean line and a half-thickness law.
 * name - shown to the user; line - mean line; halfThickness - of the chord station; points - per surface
 */
export function sectionFromLaws(
  name: string,
  line: MeanLine,
  halfThickness: (x: number) => number,
  points = 120,
): SectionGeometry {
  const stations = cosineStations(points);
  const sides = stations.map((x) => surfacePoints(x, halfThickness(x), line));
  const upper = sides.slice(1).reverse();
  const fine = cosineStations(400);
  return sectionGeometry({
    name,
    x: [...upper.map((p) => p.xu), 0, ...sides.slice(1).map((p) => p.xl)],
    y: [...upper.map((p) => p.yu), line(0).ordinate, ...sides.slice(1).map((p) => p.yl)],
    noseIndex: upper.length,
    meanLine: { stations: fine, camber: fine.map((x) => line(x).ordinate) },
  });
}

/**
 * NACA four- or five-digit section.
 *
 * designation - '2412', '0009', '23012', '24112' (reflexed); spaces and a leading 'NACA' are allowed
 * options - trailing edge open (as published) or closed; points per surface
 * Returns the geometry, or why the designation does not exist.
 */
export function nacaSection(designation: string, options: NacaOptions = {}): Outcome<SectionGeometry> {
  const digits = designation.replace(/naca|[\s-]/gi, '');
  const refuse = (reason: string) =>
    problem({
      code: 'section.designation',
      reason,
      where: designation,
      remedy: 'write four digits such as 2412, or five such as 23012 or 24112',
    });
  if (!/^\d{4,5}$/.test(digits)) return refuse(`'${designation}' is not a four- or five-digit designation`);
  const thickness = Number(digits.slice(-2)) / 100;
  if (thickness < 0.01 || thickness > 0.4)
    return refuse(`the last two digits give a thickness of ${digits.slice(-2)} %`);
  const half = (x: number) => nacaHalfThickness(x, thickness, options.trailingEdge);
  const build = (line: MeanLine) => success(sectionFromLaws(`NACA ${digits}`, line, half, options.points));
  if (digits.length === 4) {
    const camber = Number(digits[0]) / 100;
    const position = Number(digits[1]) / 10;
    if (camber > 0 && position === 0) return refuse('camber needs a position: the second digit is 0');
    return build(nacaFourDigitMeanLine(camber, position));
  }
  const line = nacaFiveDigitMeanLine(digits.slice(1, 3), 0.15 * Number(digits[0]));
  if (!line) return refuse(`no mean line is published for the digits ${digits.slice(0, 3)}`);
  return build(line);
}
