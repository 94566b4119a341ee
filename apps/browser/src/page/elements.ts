import type { Shape } from '../drawing/shape.js';

type Child = Node | string | undefined;

/** An element of the page. Text never becomes markup, and no attribute carries script or style. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Readonly<Record<string, string>> = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children.filter((child) => child !== undefined));
  return made;
}

const svgNamespace = 'http://www.w3.org/2000/svg';

/** A drawing as elements of the page. */
export function drawn(shape: Shape): SVGElement {
  const made = document.createElementNS(svgNamespace, shape.tag);
  for (const [name, value] of Object.entries(shape.attributes)) made.setAttribute(name, String(value));
  made.append(...shape.children.map((child) => (typeof child === 'string' ? child : drawn(child))));
  return made;
}

/** A table that scrolls sideways by itself, by keyboard too, where the page is narrow. */
export function table(
  caption: string,
  columns: readonly string[],
  rows: readonly (readonly string[])[],
  options: { readonly numeric?: readonly number[]; readonly parts?: readonly boolean[] } = {},
): HTMLElement {
  const { numeric = [], parts = [] } = options;
  const kind = (i: number): Record<string, string> => (numeric.includes(i) ? { class: 'number' } : {});
  const head = element('tr', {}, ...columns.map((name, i) => element('th', { scope: 'col', ...kind(i) }, name)));
  const body = rows.map((cells, row) =>
    element(
      'tr',
      parts[row] === true ? { class: 'part' } : {},
      ...cells.map((text, i) =>
        i === 0 ? element('th', { scope: 'row', ...kind(i) }, text) : element('td', kind(i), text),
      ),
    ),
  );
  return element(
    'div',
    { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': caption },
    element('table', {}, element('caption', {}, caption), element('thead', {}, head), element('tbody', {}, ...body)),
  );
}

/** Something that opens: a summary and what it hides. What a user opened stays open when the answer changes. */
export function opening(key: string, summary: string, ...content: readonly Child[]): HTMLDetailsElement {
  const made = element('details', { 'data-key': key }, element('summary', {}, summary), ...content);
  made.open = opened.has(key);
  made.addEventListener('toggle', () => {
    if (made.open) opened.add(key);
    else opened.delete(key);
  });
  return made;
}

const opened = new Set<string>();
