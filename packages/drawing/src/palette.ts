/** Colours by what they mean. A colour is never the only sign: dash, pattern, marker or word stands with it. */
export const roles = [
  'paper',
  'ink',
  'soft',
  'rule',
  'edge',
  'night',
  'daylight',
  'sun',
  'sunlit',
  'need',
  'accent',
  'caution',
  'sky0',
  'sky1',
  'sky2',
  'sky3',
  'part0',
  'part1',
  'part2',
  'part3',
  'part4',
  'below0',
  'below1',
  'below2',
  'below3',
  'above0',
  'above1',
  'above2',
  'above3',
] as const;

export type Role = (typeof roles)[number];
export type ThemeName = 'light' | 'dark' | 'sunlight';
export type Theme = Readonly<Record<Role, string>>;

/** Roles in which words are written: at least 4.5 to 1 against the paper (WCAG 2.2, 1.4.3). */
export const textRoles: readonly Role[] = ['ink', 'soft', 'need', 'accent', 'caution', 'sky0', 'sky1', 'sky2', 'sky3'];

/** Roles of lines and marks that carry meaning: at least 3 to 1 against the paper (WCAG 2.2, 1.4.11). */
export const graphicRoles: readonly Role[] = [...textRoles, 'edge', 'sun'];

const light: Theme = {
  paper: '#fffcf5',
  ink: '#1c2430',
  soft: '#545b66',
  rule: '#e2d9c6',
  edge: '#7d7667',
  night: '#e7e4ea',
  daylight: '#fdf4dc',
  sun: '#b07200',
  sunlit: '#f7dc94',
  need: '#1c2430',
  accent: '#24506b',
  caution: '#a11b1b',
  sky0: '#a35200',
  sky1: '#0a6470',
  sky2: '#6a3d9a',
  sky3: '#4d5560',
  part0: '#c9dbe6',
  part1: '#f3d9a8',
  part2: '#d9cbe6',
  part3: '#cfe0cf',
  part4: '#e6cfc6',
  below0: '#6f83a3',
  below1: '#94a5bf',
  below2: '#b9c5d8',
  below3: '#dbe2ec',
  above0: '#fcebc0',
  above1: '#f8d47e',
  above2: '#efb445',
  above3: '#dd931c',
};

const dark: Theme = {
  paper: '#1a202a',
  ink: '#ece7db',
  soft: '#b0b3b8',
  rule: '#38404d',
  edge: '#8690a0',
  night: '#10141b',
  daylight: '#252b33',
  sun: '#f2b632',
  sunlit: '#6b5216',
  need: '#ece7db',
  accent: '#8fc3e4',
  caution: '#ff9c94',
  sky0: '#ffb057',
  sky1: '#62d0dc',
  sky2: '#c9a5f2',
  sky3: '#b9c0ca',
  part0: '#2c4a5e',
  part1: '#5f4a1c',
  part2: '#4a3a63',
  part3: '#2f4d38',
  part4: '#5c3a30',
  below0: '#141b28',
  below1: '#1e2a3d',
  below2: '#2b3b55',
  below3: '#3b4f6e',
  above0: '#5a4a1f',
  above1: '#75591a',
  above2: '#916a15',
  above3: '#ab7a12',
};

/** Black on white for a field in full sun. */
const sunlight: Theme = {
  ...light,
  paper: '#ffffff',
  ink: '#000000',
  soft: '#262626',
  rule: '#b5b5b5',
  edge: '#3d3d3d',
  night: '#d9d9d9',
  daylight: '#ffffff',
  sun: '#8a5200',
  sunlit: '#ffd95c',
  need: '#000000',
  accent: '#00334d',
  caution: '#8a0000',
  sky0: '#7a3300',
  sky1: '#00464f',
  sky2: '#47187a',
  sky3: '#2b2f36',
};

export const themes: Readonly<Record<ThemeName, Theme>> = { light, dark, sunlight };

const channel = (hex: string, at: number): number => Number.parseInt(hex.slice(at, at + 2), 16) / 255;

/** Linear red, green, blue of a colour like "#1c2430". Source: IEC 61966-2-1. */
export function linearRgb(hex: string): readonly [number, number, number] {
  const linear = (c: number) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  return [linear(channel(hex, 1)), linear(channel(hex, 3)), linear(channel(hex, 5))];
}

/** Contrast of two colours, 1 to 21. Source: W3C, WCAG 2.2, "contrast ratio" and "relative luminance". */
export function contrastRatio(first: string, second: string): number {
  const luminance = (hex: string) => {
    const [r, g, b] = linearRgb(hex);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [low, high] = [luminance(first), luminance(second)].sort((a, b) => a - b) as [number, number];
  return (high + 0.05) / (low + 0.05);
}
