import { describe, expect, it } from 'vitest';
import {
  contrastRatio,
  graphicRoles,
  linearRgb,
  type Role,
  roles,
  type ThemeName,
  textRoles,
  themes,
} from './palette.js';

const names = Object.keys(themes) as ThemeName[];

it('contrast of known pairs (WCAG 2.2: black on white 21, equal colours 1)', () => {
  expect(contrastRatio('#000000', '#ffffff')).toBeCloseTo(21, 10);
  expect(contrastRatio('#123456', '#123456')).toBe(1);
  // From memory: #777777 on white is the usual example that just misses 4.5.
  expect(contrastRatio('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
});

describe.each(names)('theme %s', (name) => {
  const theme = themes[name];
  const grounds: readonly Role[] = ['paper', 'daylight'];

  it.each(textRoles)('words in %s have 4.5 to 1 on their grounds', (role) => {
    for (const ground of grounds) expect(contrastRatio(theme[role], theme[ground])).toBeGreaterThanOrEqual(4.5);
  });

  it.each(graphicRoles)('lines in %s have 3 to 1 on their grounds', (role) => {
    for (const ground of [...grounds, 'night'] as const)
      expect(contrastRatio(theme[role], theme[ground])).toBeGreaterThanOrEqual(3);
  });

  it('lines of fills, by which their edges are seen, have 3 to 1 against the fills', () => {
    const fills = roles.filter((role) => /^(part|below|above)\d$/.test(role));
    for (const fill of fills) expect(contrastRatio(theme.ink, theme[fill])).toBeGreaterThanOrEqual(3);
    // Words over the steps have a rim of paper, so that they need no contrast with the fill.
  });

  it('steps of a figure grow lighter towards the line that decides, in theme order', () => {
    const light = (role: Role) => contrastRatio(theme[role], '#000000');
    const below = (['below0', 'below1', 'below2', 'below3'] as const).map(light);
    expect([...below].sort((a, b) => a - b)).toEqual(below);
    const above = (['above0', 'above1', 'above2', 'above3'] as const).map(light);
    const sorted = [...above].sort((a, b) => (name === 'dark' ? a - b : b - a));
    expect(sorted).toEqual(above);
  });

  it.each(Object.keys(deficiencies) as Deficiency[])(
    'curves of the first three skies and the need differ for %s',
    (kind) => {
      const list = (['sky0', 'sky1', 'sky2', 'need'] as const).map((role) => labOf(seenBy(kind, theme[role])));
      for (const [i, a] of list.entries()) {
        for (const b of list.slice(i + 1))
          expect(Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])).toBeGreaterThan(10);
      }
    },
  );
});

type Vector = readonly [number, number, number];
type Deficiency = 'protanopia' | 'deuteranopia' | 'tritanopia';

/** Source: Machado, Oliveira, Fernandes, A physiologically-based model for simulation of color vision deficiency, IEEE TVCG 15 (6), 2009, severity 1 (from memory). */
const deficiencies: Readonly<Record<Deficiency, readonly Vector[]>> = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

const times = (matrix: readonly Vector[], [x, y, z]: Vector): Vector =>
  matrix.map(([a, b, c]) => a * x + b * y + c * z) as unknown as Vector;

const seenBy = (kind: Deficiency, hex: string): Vector => times(deficiencies[kind], linearRgb(hex));

/** CIE 1976 L*a*b*, white D65, from linear sRGB (IEC 61966-2-1). */
function labOf(rgb: Vector): Vector {
  const held = rgb.map((c) => Math.min(1, Math.max(0, c))) as unknown as Vector;
  const [x, y, z] = times(
    [
      [0.4124, 0.3576, 0.1805],
      [0.2126, 0.7152, 0.0722],
      [0.0193, 0.1192, 0.9505],
    ],
    held,
  );
  const f = (t: number) => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const [fx, fy, fz] = [f(x / 0.9505), f(y), f(z / 1.089)];
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}
