import type { DrawOptions } from './model.js';
import { type Role, themes } from './palette.js';

/** A finished piece of SVG. Only this file makes one, so that every word and attribute from data passes the escape. */
export interface Markup {
  readonly markup: string;
}

export type Child = Markup | string | undefined | false;
export type Attributes = Readonly<Record<string, string | number | undefined>>;

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

// XML knows no control characters and no halves of letter pairs.
const forbidden =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what has to go
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

export const escapeText = (text: string): string =>
  String(text)
    .replace(forbidden, '')
    .replace(/[&<>"']/g, (letter) => entities[letter]!);

/** A length for SVG: two decimals. Throws on what is no finite number, because a drawing would silently lose its shape. */
export function px(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a drawing needs finite lengths, got ${value}`);
  return String(Math.round(value * 100) / 100 + 0);
}

export const joined = (parts: readonly Child[]): Markup => ({
  markup: parts
    .map((part) =>
      part === undefined || part === false ? '' : typeof part === 'string' ? escapeText(part) : part.markup,
    )
    .join(''),
});

/** One element; strings among the children are text. */
export function element(name: string, attributes: Attributes, ...children: readonly Child[]): Markup {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? px(value) : escapeText(value!)}"`)
    .join('');
  const inside = joined(children).markup;
  return { markup: inside === '' ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>` };
}

export type PatternName = 'hatch' | 'back' | 'dots' | 'cross' | 'bars';

/** How a shape is painted; colours are roles, never values. */
export interface Paint {
  readonly fill?: Role | undefined;
  /** Drawn over the fill, in the colour given. */
  readonly pattern?: readonly [PatternName, Role] | undefined;
  readonly stroke?: Role | undefined;
  readonly width?: number | undefined;
  readonly dash?: string | undefined;
  readonly opacity?: number | undefined;
  readonly round?: boolean;
  /** A curve of data, drawn heavier in the theme for full sun. */
  readonly series?: boolean;
}

export interface TextStyle {
  readonly size?: number;
  readonly role?: Role;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
  /** Paper-coloured rim, for words over curves. */
  readonly halo?: boolean;
}

/** Draws in classes or in written colours, and collects the patterns used. */
export interface Pen {
  readonly id: string;
  readonly standalone: boolean;
  readonly shape: (name: string, attributes: Attributes, paint: Paint, ...children: readonly Child[]) => Markup;
  readonly text: (x: number, y: number, text: string, style?: TextStyle) => Markup;
  readonly group: (attributes: Attributes, ...children: readonly Child[]) => Markup;
  readonly definitions: () => Markup;
}

export const fontFamily = "system-ui, 'Segoe UI', Roboto, 'Noto Sans', 'Helvetica Neue', Arial, sans-serif";

const tiles: Readonly<Record<PatternName, { size: number; d: string; dot?: boolean }>> = {
  hatch: { size: 7, d: 'M-1 1L1 -1M0 7L7 0M6 8L8 6' },
  back: { size: 7, d: 'M-1 6L1 8M0 0L7 7M6 -1L8 1' },
  dots: { size: 6, d: 'M1.5 1.5h.01M4.5 4.5h.01', dot: true },
  cross: { size: 7, d: 'M0 0L7 7M0 7L7 0' },
  bars: { size: 5, d: 'M1 0V5' },
};

/** Only letters that an id may have. */
const safeId = (id: string): string => id.replace(/[^A-Za-z0-9_-]/g, '') || 'drawing';

export function penOf(kind: string, options: DrawOptions): Pen {
  const id = safeId(options.id ?? kind);
  const standalone = options.standalone ?? false;
  const theme = themes[options.theme ?? 'light'];
  const patterns = new Map<string, Markup>();
  /** Colour of a property as class or attribute. */
  const colours = (fill: Role | undefined, stroke: Role | undefined, more = ''): Attributes => {
    if (standalone) return { fill: fill ? theme[fill] : 'none', stroke: stroke ? theme[stroke] : undefined };
    const classes = [fill ? `nw-f-${fill}` : 'nw-f-none', stroke ? `nw-s-${stroke}` : '', more];
    return { class: classes.filter((name) => name !== '').join(' ') };
  };
  const patternFill = ([name, role]: readonly [PatternName, Role]): string => {
    const key = `${id}-${name}-${role}`;
    const tile = tiles[name];
    const line = { d: tile.d, 'stroke-width': tile.dot ? 1.6 : 1, ...(tile.dot ? { 'stroke-linecap': 'round' } : {}) };
    const box = { id: key, width: tile.size, height: tile.size, patternUnits: 'userSpaceOnUse' };
    patterns.set(key, element('pattern', box, element('path', { ...line, ...colours(undefined, role) })));
    return `url(#${key})`;
  };
  const shape: Pen['shape'] = (name, attributes, paint, ...children) => {
    const lines = {
      'stroke-width': paint.stroke ? (paint.width ?? 1) : undefined,
      'stroke-dasharray': paint.dash,
      ...(paint.round ? { 'stroke-linejoin': 'round', 'stroke-linecap': 'round' } : {}),
    };
    const opacity = paint.opacity === undefined ? {} : { opacity: paint.opacity };
    const coloured = colours(paint.fill, paint.stroke, paint.series ? 'nw-series' : '');
    const main = element(name, { ...attributes, ...coloured, ...lines, ...opacity }, ...children);
    if (paint.pattern === undefined) return main;
    return joined([main, element(name, { ...attributes, fill: patternFill(paint.pattern) })]);
  };
  return {
    id,
    standalone,
    shape,
    text: (x, y, text, style = {}) => textElement(x, y, text, style, colours),
    group: (attributes, ...children) => element('g', attributes, ...children),
    definitions: () => (patterns.size === 0 ? { markup: '' } : element('defs', {}, ...patterns.values())),
  };
}

function textElement(
  x: number,
  y: number,
  text: string,
  style: TextStyle,
  colours: (fill: Role | undefined, stroke: Role | undefined) => Attributes,
): Markup {
  const { size = 13, role = 'ink', anchor = 'start', bold, halo } = style;
  const rim = halo ? { 'paint-order': 'stroke', 'stroke-width': 4, 'stroke-linejoin': 'round' } : {};
  const attributes = {
    x,
    y,
    ...colours(role, halo ? 'paper' : undefined),
    'font-size': size,
    'text-anchor': anchor === 'start' ? undefined : anchor,
    'font-weight': bold ? 'bold' : undefined,
    ...rim,
  };
  return element('text', attributes, text);
}
