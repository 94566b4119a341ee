/** Words at places of the picture. All of them stand in the text beside it too, so that they are hidden from screen readers. */

export interface Label {
  readonly id: string;
  readonly text: string;
  /** Drawn at the place itself: balance point a half-filled disc, neutral point a diamond. */
  readonly glyph?: 'balance' | 'neutral' | 'battery';
  /** Of several that would cover each other the first in the list stays; a kept one always does. */
  readonly kept?: boolean;
  /** Sides of the place to try, best first. */
  readonly sides: readonly Side[];
  readonly tone?: 'soft';
  /** From the place to the words [px]; default 5. With a glyph a line leads over it. */
  readonly gap?: number;
}

export type Side = 'above' | 'below' | 'left' | 'right' | 'on';

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Where a label of a size lies at a point [px]. */
export function boxAt(
  side: Side,
  [x, y]: readonly [number, number],
  [w, h]: readonly [number, number],
  gap: number,
): Box {
  const left = side === 'left' ? x - gap - w : side === 'right' ? x + gap : x - w / 2;
  const top = side === 'above' ? y - gap - h : side === 'below' ? y + gap : y - h / 2;
  return { left, top, width: w, height: h };
}

export const covers = (a: Box, b: Box): boolean =>
  a.left < b.left + b.width && b.left < a.left + a.width && a.top < b.top + b.height && b.top < a.top + a.height;

export interface Placed {
  readonly id: string;
  readonly box: Box;
}

/**
 * Boxes of labels so that none covers another: each takes the first free of its sides; one without a free side is left out,
 * unless it is kept.
 * wanted - in order of weight, with place and size [px]
 */
export function placeLabels(
  wanted: readonly {
    readonly label: Label;
    readonly at: readonly [number, number];
    readonly size: readonly [number, number];
  }[],
  frame: Box,
): readonly Placed[] {
  const taken: Box[] = wanted.flatMap(({ label, at: [x, y] }) =>
    label.glyph === undefined ? [] : [{ left: x - 6, top: y - 6, width: 12, height: 12 }],
  );
  const placed: Placed[] = [];
  const inside = (box: Box) =>
    box.left >= frame.left &&
    box.top >= frame.top &&
    box.left + box.width <= frame.left + frame.width &&
    box.top + box.height <= frame.top + frame.height;
  for (const { label, at, size } of wanted) {
    const boxes = label.sides.map((side) =>
      boxAt(side, at, size, Math.min(label.gap ?? 5, Math.max(12, frame.height * 0.14))),
    );
    const free = boxes.find((box) => inside(box) && !taken.some((other) => covers(box, other)));
    const box = free ?? (label.kept ? boxes[0] : undefined);
    if (box === undefined) continue;
    taken.push(box);
    placed.push({ id: label.id, box });
  }
  return placed;
}

const svgName = 'http://www.w3.org/2000/svg';

/** The same marks as in the three views. */
function glyphElement(kind: NonNullable<Label['glyph']>): SVGSVGElement {
  const svg = document.createElementNS(svgName, 'svg');
  svg.setAttribute('viewBox', '-8 -8 16 16');
  svg.dataset.glyph = kind;
  const add = (name: string, attributes: Readonly<Record<string, string>>) => {
    const element = document.createElementNS(svgName, name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
    svg.append(element);
  };
  if (kind === 'balance') {
    add('circle', { r: '6', class: 'nw-f-paper nw-s-ink', 'stroke-width': '1.5' });
    add('path', { d: 'M0 -6a6 6 0 0 1 0 12Z', class: 'nw-f-ink' });
  } else if (kind === 'neutral') {
    add('path', { d: 'M0 -7L7 0L0 7L-7 0Z', class: 'nw-f-sky2 nw-s-paper', 'stroke-width': '1.5' });
  } else {
    add('rect', { x: '-6', y: '-4', width: '12', height: '8', class: 'nw-f-part1 nw-s-ink', 'stroke-width': '1.5' });
  }
  return svg;
}

interface Shown {
  readonly text: HTMLElement;
  readonly glyph: SVGSVGElement | undefined;
  /** From the glyph up or down to the words. */
  readonly leader: HTMLElement | undefined;
  label: Label;
  size: readonly [number, number];
}

export interface Overlay {
  readonly setLabels: (labels: readonly Label[]) => void;
  /** place - of a label in the picture [px]; undefined where it is behind the eye */
  readonly update: (
    place: (id: string) => readonly [number, number] | undefined,
    width: number,
    height: number,
  ) => void;
  readonly release: () => void;
}

/** Labels in an element that lies over the picture. */
export function overlay(host: HTMLElement): Overlay {
  const shown = new Map<string, Shown>();
  const drop = (id: string) => {
    shown.get(id)?.text.remove();
    shown.get(id)?.glyph?.remove();
    shown.get(id)?.leader?.remove();
    shown.delete(id);
  };
  const make = (label: Label): Shown => {
    const text = document.createElement('span');
    const glyph = label.glyph === undefined ? undefined : glyphElement(label.glyph);
    const leader = glyph === undefined ? undefined : document.createElement('i');
    const parts = [leader, glyph, text].filter((element) => element !== undefined);
    // Nothing has a place before the first picture.
    for (const part of parts) part.style.visibility = 'hidden';
    host.append(...parts);
    const made: Shown = { text, glyph, leader, label, size: [0, 0] };
    shown.set(label.id, made);
    return made;
  };
  const move = (element: HTMLElement | SVGSVGElement, x: number, y: number) => {
    element.style.transform = `translate(${Math.round(x)}px, ${Math.round(y)}px)`;
  };
  const lead = (leader: HTMLElement, at: readonly [number, number] | undefined, box: Box | undefined) => {
    const upright = at !== undefined && box !== undefined && box.left <= at[0] && at[0] <= box.left + box.width;
    leader.style.visibility = upright ? 'visible' : 'hidden';
    if (!upright) return;
    const bottom = box.top + box.height;
    const [from, to] = box.top > at[1] ? [at[1], box.top] : [bottom, at[1]];
    leader.style.height = `${Math.max(0, Math.round(to - from))}px`;
    move(leader, at[0], from);
  };
  return {
    setLabels: (labels) => {
      const wanted = new Set(labels.map(({ id }) => id));
      for (const id of [...shown.keys()]) if (!wanted.has(id)) drop(id);
      for (const label of labels) {
        const each = shown.get(label.id) ?? make(label);
        if (each.text.textContent !== label.text) {
          each.text.textContent = label.text;
          each.size = [0, 0];
        }
        each.label = label;
        each.text.dataset.tone = label.tone ?? 'ink';
        each.text.dataset.mark = label.glyph ?? '';
      }
      // The order of the list is that of their weight.
      const order = labels.map(({ id }) => [id, shown.get(id)!] as const);
      shown.clear();
      for (const [id, each] of order) shown.set(id, each);
    },
    update: (place, width, height) => {
      const wanted = [...shown.values()].flatMap((each) => {
        const at = place(each.label.id);
        if (at === undefined) return [];
        if (each.size[0] === 0) each.size = [each.text.offsetWidth, each.text.offsetHeight];
        return [{ label: each.label, at, size: each.size }];
      });
      const placed = new Map(
        placeLabels(wanted, { left: 0, top: 0, width, height }).map(({ id, box }) => [id, box] as const),
      );
      const places = new Map(wanted.map(({ label, at }) => [label.id, at] as const));
      for (const [id, { text, glyph, leader }] of shown) {
        const [box, at] = [placed.get(id), places.get(id)];
        text.style.visibility = box === undefined ? 'hidden' : 'visible';
        if (box !== undefined) move(text, box.left, box.top);
        if (glyph === undefined) continue;
        glyph.style.visibility = at === undefined ? 'hidden' : 'visible';
        if (at !== undefined) move(glyph, at[0] - 8, at[1] - 8);
        if (leader !== undefined) lead(leader, at, box);
      }
    },
    release: () => {
      for (const id of [...shown.keys()]) drop(id);
    },
  };
}
