import { textWidth } from '../text.js';

export interface SvgElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly text: string;
  /** Sum of the translations around it [px]. */
  readonly shift: readonly [number, number];
}

const entities: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };
const plain = (text: string): string =>
  text.replace(/&([^;\s&]*);?/g, (whole, name: string) => {
    const letter = entities[name];
    if (letter === undefined || !whole.endsWith(';')) throw new Error(`a bare "&" or unknown entity: ${whole}`);
    return letter;
  });

const tag = /<(\/?)([A-Za-z]+)((?:\s+[A-Za-z][A-Za-z0-9:-]*="[^"<]*")*)\s*(\/?)>|<|>/g;

/** Elements of the strict subset of XML that the drawings use; throws on anything else. */
export function elementsOf(svg: string): readonly SvgElement[] {
  const found: SvgElement[] = [];
  const open: { at: number; from: number; shift: readonly [number, number] }[] = [];
  for (const match of svg.matchAll(tag)) {
    const [whole, closing, name = '', written = '', empty] = match;
    if (name === '') throw new Error(`stray "${whole}" at ${match.index}`);
    if (closing) {
      const last = open.pop();
      if (last === undefined || found[last.at]!.name !== name) throw new Error(`</${name}> closes nothing`);
      const text = svg.slice(last.from, match.index);
      if (!text.includes('<')) found[last.at] = { ...found[last.at]!, text: plain(text) };
      continue;
    }
    const attributes = Object.fromEntries(
      [...written.matchAll(/([A-Za-z][A-Za-z0-9:-]*)="([^"]*)"/g)].map(([, key, value]) => [key!, plain(value!)]),
    );
    const [x, y] = open.at(-1)?.shift ?? [0, 0];
    const [, dx = '0', dy = '0'] =
      /^translate\((\S+) (\S+)\)$/.exec(name === 'g' ? (attributes.transform ?? '') : '') ?? [];
    const shift = [x + Number(dx), y + Number(dy)] as const;
    found.push({ name, attributes, text: '', shift });
    if (!empty) open.push({ at: found.length - 1, from: match.index + whole.length, shift });
  }
  if (open.length > 0) throw new Error(`<${found[open[0]!.at]!.name}> is not closed`);
  return found;
}

interface TextBox {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Boxes of all words, by the same widths that laid them out; letters without their ascent's air. */
export function textBoxes(svg: string): readonly TextBox[] {
  return elementsOf(svg)
    .filter(({ name }) => name === 'text')
    .map(({ attributes, text, shift }) => {
      const size = Number(attributes['font-size']);
      const width = textWidth(text, size, attributes['font-weight'] === 'bold');
      const anchor = attributes['text-anchor'] ?? 'start';
      const left = Number(attributes.x) + shift[0] - (anchor === 'end' ? width : anchor === 'middle' ? width / 2 : 0);
      const y = Number(attributes.y) + shift[1];
      return { text, left, right: left + width, top: y - size * 0.72, bottom: y + size * 0.18 };
    });
}

export const allTexts = (svg: string): readonly string[] => textBoxes(svg).map(({ text }) => text);

/** Pairs of words that cover each other by more than a px. */
export function overlaps(svg: string): readonly string[] {
  const boxes = textBoxes(svg).filter(({ text }) => text !== '');
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter((b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1)
      .map((b) => `"${a.text}" and "${b.text}"`),
  );
}

/** Words that leave the drawing. */
export function outside(svg: string, size: { width: number; height: number }): readonly string[] {
  return textBoxes(svg)
    .filter(
      ({ left, right, top, bottom }) => left < -1 || top < -1 || right > size.width + 1 || bottom > size.height + 1,
    )
    .map(({ text }) => text);
}
