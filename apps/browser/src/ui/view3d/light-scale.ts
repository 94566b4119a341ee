/**
 * Colours of light on cells: from night violet over copper to pale straw. Lightness rises all the way, so that the order is
 * seen in grey and with any colour vision; the legend and the table name the values.
 */
const stops = ['#1b2140', '#3f3568', '#7b3f6b', '#b55440', '#dc8420', '#f3c044', '#fff2b3'] as const;

/** Light at the bright end [W/m2]: about what clear noon sun leaves behind a film. */
export const brightest = 1000;

const channels = (hex: string): readonly number[] => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));

/**
 * Colour for a light.
 * light - that gets into a cell [W/m2]; held to the ends of the scale
 * Returns "#rrggbb".
 */
export function lightColour(light: number): string {
  const share = Number.isFinite(light) ? Math.min(1, Math.max(0, light / brightest)) : 0;
  const along = share * (stops.length - 1);
  const i = Math.min(stops.length - 2, Math.floor(along));
  const [a, b] = [channels(stops[i]!), channels(stops[i + 1]!)];
  const mixed = a.map((value, k) => Math.round(value + (b[k]! - value) * (along - i)));
  return `#${mixed.map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}

/** Lights to name at the legend [W/m2]. */
export const lightTicks: readonly number[] = [0, 250, 500, 750, 1000];
