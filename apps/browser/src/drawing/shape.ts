/** A piece of a drawing as plain data: an SVG element that is not yet in any page. */
export interface Shape {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children: readonly (Shape | string)[];
}

/** A drawing with its words: title, description, and what it shows as a table. */
export interface Chart {
  readonly shape: Shape;
  readonly title: string;
  readonly description: string;
  /** How to read it, where that is not plain; else empty. */
  readonly note: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** An element; children that are undefined are left out. */
export function shape(
  tag: string,
  attributes: Readonly<Record<string, string | number>> = {},
  children: readonly (Shape | string | undefined)[] = [],
): Shape {
  return { tag, attributes, children: children.filter((child) => child !== undefined) };
}

export const group = (name: string, children: readonly (Shape | undefined)[]): Shape =>
  shape('g', { class: name }, children);

/** Text at a point. anchor - 'start', 'middle' or 'end' */
export const label = (text: string, x: number, y: number, anchor = 'start', name = ''): Shape =>
  shape('text', { x: rounded(x), y: rounded(y), 'text-anchor': anchor, ...(name === '' ? {} : { class: name }) }, [
    text,
  ]);

export const line = (x1: number, y1: number, x2: number, y2: number, name: string): Shape =>
  shape('line', { x1: rounded(x1), y1: rounded(y1), x2: rounded(x2), y2: rounded(y2), class: name });

/** A rectangle; a negative width or height counts as none. */
export const box = (x: number, y: number, width: number, height: number, name: string, more = {}): Shape =>
  shape('rect', {
    x: rounded(x),
    y: rounded(y),
    width: rounded(Math.max(0, width)),
    height: rounded(Math.max(0, height)),
    class: name,
    ...more,
  });

/** A line through points, without those that say the same as their neighbours. */
export function polyline(points: readonly (readonly [x: number, y: number])[], name: string, more = {}): Shape {
  const d = points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${rounded(x)} ${rounded(y)}`).join('');
  return shape('path', { d, class: name, fill: 'none', ...more });
}

/** A tenth of a pixel is finer than any screen shows. */
export const rounded = (value: number): number => Math.round(value * 10) / 10;

/** The whole drawing, with title and description for those who do not see it. */
export function drawing(
  id: string,
  size: { readonly width: number; readonly height: number },
  words: { readonly title: string; readonly description: string },
  children: readonly (Shape | undefined)[],
): Shape {
  return shape(
    'svg',
    {
      viewBox: `0 0 ${size.width} ${size.height}`,
      width: size.width,
      height: size.height,
      role: 'img',
      'aria-labelledby': `${id}-title ${id}-description`,
      class: 'chart',
    },
    [
      shape('title', { id: `${id}-title` }, [words.title]),
      shape('desc', { id: `${id}-description` }, [words.description]),
      ...children,
    ],
  );
}
