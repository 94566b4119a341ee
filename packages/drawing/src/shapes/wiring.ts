import { bar, finish, heading, moved, straight, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Table } from '../model.js';
import { type Child, joined, type Markup, type Pen, penOf } from '../svg.js';
import { fitText, sentence, wrapText } from '../text.js';

/** One string of a wiring plan; words come finished. */
export interface WiringStringData {
  readonly name: string;
  readonly cells: number;
  readonly parallel: number;
  /** Cells between one diode and the next; 0 for none. */
  readonly cellsPerDiode: number;
  /** Rows that it takes, "top". */
  readonly rows: string;
  /** "5.9 A, up to 11.8 V". */
  readonly electric: string;
  /** "AWG 20, 0.8 m, 0.6 W lost". */
  readonly wire: string;
  /** "two-pole 3.5 mm plug, 30 A". */
  readonly connector: string;
  /** "10 A"; absent where there is none. */
  readonly fuse?: string;
  /** Index of its converter. */
  readonly converter: number;
}

export interface WiringConverterData {
  readonly name: string;
  /** "boost". */
  readonly kind: string;
  readonly electric: string;
  readonly wire: string;
  readonly fuse: string;
}

/** A wiring plan as plain words and counts. */
export interface WiringData {
  readonly aircraft: string;
  readonly strings: readonly WiringStringData[];
  readonly converters: readonly WiringConverterData[];
  /** "15 V battery"; absent without one. */
  readonly battery?: string;
  /** Finding in words: loss, mass, compass. */
  readonly finding: string;
  /** Steps in order, and cautions. */
  readonly order: readonly string[];
  readonly cautions: readonly string[];
}

const rowHeight = 104;
const mostCells = 24;

/** Wiring of an array: strings with their polarity and diodes, isolators, fuses, converters, battery, order of connection. */
export function wiringPlan(data: WiringData, options: DrawOptions = {}): Drawing {
  const pen = penOf('wiring', options);
  const words = { title: sentence(`wiring plan: ${data.aircraft}`), text: data.finding };
  const head = heading(pen, options, words);
  const width = Math.max(560, widthOf(options));
  const at = { left: 12, boxes: width - 208, battery: width - 74 };
  let y = head.height + 8;
  const drawn: Child[] = [];
  const middles: number[] = [];
  for (const [index, converter] of data.converters.entries()) {
    const strings = data.strings.filter((string) => string.converter === index);
    const top = y;
    for (const string of strings) {
      drawn.push(stringRow(pen, string, { left: at.left, right: at.boxes, top: y }));
      y += rowHeight;
    }
    y = Math.max(y, top + rowHeight);
    middles.push((top + y) / 2 - 18);
    drawn.push(converterBox(pen, converter, { left: at.boxes, middle: middles.at(-1)! }));
    drawn.push(bus(pen, strings.length, { x: at.boxes - 12, top, middle: middles.at(-1)! }));
  }
  const foot = Math.max(y, head.height + 8 + rowHeight);
  if (data.battery !== undefined && middles.length > 0) drawn.push(batteryBox(pen, data.battery, middles, at.battery));
  const order = list(
    pen,
    'In this order',
    data.order.map((step, k) => `${k + 1}. ${step}`),
    width,
    foot,
  );
  const cautions = list(pen, 'Take care', data.cautions, width, foot + order.height);
  return finish(
    pen,
    options,
    {
      kind: 'wiring',
      ...words,
      table: wiringTable(data),
      height: foot + order.height + cautions.height + 8,
      body: [head.body, ...drawn, order.body, cautions.body],
    },
    width,
  );
}

/** Cells in a row with their ends marked, diodes over them, then isolator and wire to the converter. */
function stringRow(pen: Pen, string: WiringStringData, at: { left: number; right: number; top: number }): Markup {
  const shown = Math.min(string.cells, mostCells);
  const room = at.right - at.left - 150;
  const step = Math.min(22, room / shown);
  const [line, box] = [at.top + 42, Math.max(step - 4, 2)];
  const end = at.left + 16 + shown * step;
  const cells = Array.from({ length: shown }, (_, k) => {
    const x = at.left + 16 + k * step;
    return bar(pen, { left: x, right: x + box, top: line - 9, bottom: line + 9 }, { fill: 'part0', stroke: 'edge' });
  });
  const span = string.cellsPerDiode;
  const diodes =
    span <= 0
      ? []
      : Array.from({ length: Math.ceil(shown / span) }, (_, k) => {
          const [from, to] = [k * span, Math.min((k + 1) * span, shown)];
          const [x1, x2] = [at.left + 16 + from * step, at.left + 16 + to * step - 4];
          const middle = (x1 + x2) / 2;
          return joined([
            pen.shape('path', { d: `M${x1} ${line + 9}V${line + 19}H${x2}V${line + 9}` }, { stroke: 'edge' }),
            pen.shape(
              'path',
              { d: `M${middle - 4} ${line + 15}V${line + 23}L${middle + 4} ${line + 19}Z` },
              { fill: 'ink' },
            ),
          ]);
        });
  const times = string.parallel > 1 ? `, ${string.parallel} such side by side` : '';
  const title = `${string.name}: ${string.cells} cells (${string.rows})${times}, ${string.electric}`;
  const under = `${string.wire}; ${string.connector}${string.fuse === undefined ? '' : `; fuse ${string.fuse}`}`;
  return joined([
    pen.text(at.left, at.top + 18, fitText(title, 13, at.right - at.left - 16, true), { bold: true }),
    pen.text(at.left, line + 5, '−', { size: 15 }),
    ...cells,
    ...diodes,
    pen.text(end - 2, line + 5, '+', { size: 15 }),
    straight(pen, [end + 10, line], [at.right - 74, line], { stroke: 'caution', width: 2 }),
    isolator(pen, at.right - 74, line),
    straight(pen, [at.right - 44, line], [at.right - 12, line], { stroke: 'caution', width: 2 }),
    pen.text(at.left, at.top + 78, fitText(under, 12, at.right - at.left - 110), { size: 12, role: 'soft' }),
  ]);
}

/** An open switch. */
const isolator = (pen: Pen, x: number, y: number): Markup =>
  joined([
    pen.shape('circle', { cx: x + 3, cy: y, r: 3 }, { fill: 'paper', stroke: 'ink' }),
    pen.shape('circle', { cx: x + 27, cy: y, r: 3 }, { fill: 'paper', stroke: 'ink' }),
    straight(pen, [x + 5, y - 2], [x + 25, y - 12], { stroke: 'ink', width: 2 }),
    pen.text(x + 15, y + 20, 'isolator', { size: 11, role: 'soft', anchor: 'middle' }),
  ]);

/** Strings of one converter meet on one pair. */
const bus = (pen: Pen, count: number, at: { x: number; top: number; middle: number }): Markup => {
  if (count === 0) return { markup: '' };
  const [first, last] = [at.top + 42, at.top + (count - 1) * rowHeight + 42];
  return joined([
    straight(pen, [at.x, Math.min(first, at.middle)], [at.x, Math.max(last, at.middle)], {
      stroke: 'caution',
      width: 2,
    }),
    straight(pen, [at.x, at.middle], [at.x + 12, at.middle], { stroke: 'caution', width: 2 }),
  ]);
};

function converterBox(pen: Pen, converter: WiringConverterData, at: { left: number; middle: number }): Markup {
  const box = { left: at.left, right: at.left + 92, top: at.middle - 28, bottom: at.middle + 28 };
  const lines = [converter.name, converter.kind, converter.electric];
  return joined([
    bar(pen, box, { fill: 'part1', stroke: 'ink' }),
    ...lines.map((text, k) =>
      pen.text(at.left + 46, at.middle - 12 + k * 16, fitText(text, 12, 86, k === 0), {
        size: 12,
        anchor: 'middle',
        bold: k === 0,
      }),
    ),
    ...wrapText(converter.wire, 11, 104, 3).map((text, k) =>
      pen.text(at.left + 46, at.middle + 42 + k * 13, text, { size: 11, role: 'soft', anchor: 'middle' }),
    ),
    fuse(pen, at.left + 92, at.middle, converter.fuse),
  ]);
}

/** A fuse in the wire to the battery. */
const fuse = (pen: Pen, x: number, y: number, words: string): Markup =>
  joined([
    straight(pen, [x, y], [x + 42, y], { stroke: 'caution', width: 2 }),
    bar(pen, { left: x + 8, right: x + 32, top: y - 5, bottom: y + 5 }, { fill: 'paper', stroke: 'ink' }),
    pen.text(x + 20, y - 9, words, { size: 11, anchor: 'middle' }),
  ]);

function batteryBox(pen: Pen, words: string, middles: readonly number[], left: number): Markup {
  const [top, bottom] = [Math.min(...middles) - 28, Math.max(...middles) + 28];
  return joined([
    bar(pen, { left, right: left + 66, top, bottom }, { fill: 'part3', stroke: 'ink' }),
    ...wrapText(words, 12, 60, 3).map((text, k) =>
      pen.text(left + 33, (top + bottom) / 2 - 6 + k * 15, text, { size: 12, anchor: 'middle' }),
    ),
  ]);
}

function list(pen: Pen, name: string, lines: readonly string[], width: number, top: number) {
  if (lines.length === 0) return { height: 0, body: { markup: '' } };
  const wrapped = lines.flatMap((line) => wrapText(line, 13, width - 24, 3));
  return {
    height: 28 + wrapped.length * 17 + 6,
    body: moved(
      12,
      top,
      pen.text(0, 20, name, { size: 14, bold: true }),
      ...wrapped.map((line, k) => pen.text(0, 40 + k * 17, line, { size: 13 })),
    ),
  };
}

function wiringTable({ strings, converters }: WiringData): Table {
  const column = (key: string, label: string) => ({ key, label, unit: '' });
  return {
    columns: [
      column('part', 'part'),
      column('cells', 'cells'),
      column('electric', 'current and voltage'),
      column('wire', 'wire'),
      column('connector', 'connector'),
      column('fuse', 'fuse'),
    ],
    rows: [
      ...strings.map(({ name, cells, electric, wire, connector, fuse: rating }) => ({
        part: name,
        cells,
        electric,
        wire,
        connector,
        fuse: rating ?? 'none',
      })),
      ...converters.map(({ name, electric, wire, fuse: rating }) => ({ part: name, electric, wire, fuse: rating })),
    ],
  };
}
