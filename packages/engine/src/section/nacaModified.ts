import { type Outcome, problem, success } from '../result.js';
import { nacaFourDigitMeanLine, sectionFromLaws } from './naca.js';
import type { SectionGeometry } from './types.js';

/** Slope at the trailing edge of a section 20 % thick, by place of greatest thickness. Source: NACA Report 492, 1934 (from memory). */
const TAIL_SLOPE: Readonly<Record<string, number>> = { '2': 0.2, '3': 0.234, '4': 0.315, '5': 0.465, '6': 0.7 };

/**
 * Half thickness of the modified four-digit sections.
 * x - chord station [-]; thickness - greatest / chord [-]; nose - index of the nose radius, 0 (sharp) to 8, 6 as unmodified;
 * place - tenths of the chord at which thickness is greatest, 2 to 6
 * Source: J. Stack, A. E. von Doenhoff, NACA Report 492, 1934 (from memory; with nose 6 and place 3 it is the unmodified law within
 * 0.15 % of the chord for 12 % thickness).
 */
export function nacaModifiedHalfThickness(x: number, thickness: number, nose: number, place: number): number {
  const m = place / 10;
  const tail = TAIL_SLOPE[String(place)];
  const a0 = (0.296904 * nose) / 6;
  const scale = 5 * thickness;
  if (x >= m) {
    const [rest, room] = [1 - x, 1 - m];
    const d2 = (0.294 - 2 * room * tail) / room ** 2;
    const d3 = (-0.196 + room * tail) / room ** 3;
    return scale * (0.002 + rest * (tail + rest * (d2 + rest * d3)));
  }
  const radius = (0.2 * (1 - m) ** 2) / (0.588 - 2 * tail * (1 - m));
  const a1 = 0.3 / m - (15 * a0) / (8 * Math.sqrt(m)) - m / (10 * radius);
  const a2 = -0.3 / m ** 2 + (5 * a0) / (4 * m ** 1.5) + 1 / (5 * radius);
  const a3 = 0.1 / m ** 3 - (0.375 * a0) / m ** 2.5 - 1 / (10 * radius * m);
  return scale * (a0 * Math.sqrt(x) + x * (a1 + x * (a2 + x * a3)));
}

/**
 * Modified NACA four-digit section.
 * designation - '0012-64': four digits, then nose index and place of greatest thickness
 */
export function nacaModifiedSection(designation: string): Outcome<SectionGeometry> {
  const [, camber, place, thick, nose, at] =
    /^(?:naca)?\s*(\d)(\d)(\d\d)-([0-8])([2-6])$/i.exec(designation.trim()) ?? [];
  const thickness = Number(thick) / 100;
  if (at === undefined || !(thickness >= 0.01 && thickness <= 0.4) || (camber !== '0' && place === '0'))
    return problem({
      code: 'section.designation',
      reason: `'${designation}' is not a modified four-digit designation`,
      where: designation,
      remedy: 'write four digits, a hyphen, nose index 0 to 8 and place of thickness 2 to 6, such as 0010-34',
    });
  const half = (x: number) => nacaModifiedHalfThickness(x, thickness, Number(nose), Number(at));
  const line = nacaFourDigitMeanLine(Number(camber) / 100, Number(place) / 10);
  return success(sectionFromLaws(`NACA ${camber}${place}${thick}-${nose}${at}`, line, half));
}
