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
/** Width below which converters stand below their strings. */
const roomy = 560;
const line = 16;

/** Wiring of an array: strings with their polarity and diodes, isolators, fuses, converters, battery, order of connection. */
export function wiringPlan(data: WiringData, options: DrawOptions = {}): Drawing {
  const pen = penOf('wiring', options);
  const words = { title: sentence(`wiring plan: ${data.aircraft}`), text: sentence(data.finding) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const plan = width < roomy ? below(pen, data, width, head.height + 8) : beside(pen, data, width, head.height + 8);
  const foot = Math.max(plan.bottom, head.height + 8 + rowHeight);
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
      body: [head.body, ...plan.drawn, order.body, cautions.body],
    },
    width,
  );
}

interface Plan {
  readonly drawn: readonly Child[];
  readonly bottom: number;
}

/** Strings on the left, their converters beside them, one battery for all on the right. */
function beside(pen: Pen, data: WiringData, width: number, from: number): Plan {
  const at = { left: 12, boxes: width - 208, battery: width - 74 };
  let y = from;
  const drawn: Child[] = [];
  const middles: number[] = [];
  for (const [index, converter] of data.converters.entries()) {
    const strings = data.strings.filter((string) => string.converter === index);
    const top = y;
    for (const string of strings) {
      const { title, under } = wordsOf(string);
      drawn.push(
        stringRow(pen, string, {
          left: at.left,
          right: at.boxes,
          top: y,
          title: [fitText(title, 13, at.boxes - at.left - 16, true)],
          under: [fitText(under, 12, at.boxes - at.left - 110)],
        }),
      );
      y += rowHeight;
    }
    y = Math.max(y, top + rowHeight);
    middles.push((top + y) / 2 - 18);
    drawn.push(converterBox(pen, converter, { left: at.boxes, middle: middles.at(-1)! }));
    drawn.push(bus(pen, strings.length, { x: at.boxes - 12, top, middle: middles.at(-1)! }));
  }
  if (data.battery !== undefined && middles.length > 0) drawn.push(batteryBox(pen, data.battery, middles, at.battery));
  return { drawn, bottom: y };
}

/** For narrow paper: each converter below its strings, the battery named behind its fuse. */
function below(pen: Pen, data: WiringData, width: number, from: number): Plan {
  const [left, right] = [12, width - 12];
  const boxes = Math.max(24, width - 214);
  let y = from;
  const drawn: Child[] = [];
  for (const [index, converter] of data.converters.entries()) {
    const strings = data.strings.filter((string) => string.converter === index);
    const lines: number[] = [];
    for (const string of strings) {
      const words = wordsOf(string);
      const title = wrapText(words.title, 13, right - left, 3, true);
      const under = wrapText(words.under, 12, right - left - 30, 4);
      lines.push(y + 26 + title.length * line);
      drawn.push(stringRow(pen, string, { left, right, top: y, title, under }));
      y += 64 + (title.length + under.length) * line;
    }
    const middle = y + 36;
    drawn.push(converterBox(pen, converter, { left: boxes, middle }));
    if (lines.length > 0) drawn.push(downTo(pen, { x: right - 12, from: lines[0]!, gap: y, to: [boxes, middle] }));
    if (data.battery !== undefined)
      drawn.push(batteryBox(pen, index === 0 ? data.battery : 'the same battery', [middle], boxes + 134));
    y = middle + 92;
  }
  return { drawn, bottom: y };
}

/** From the strings at x down to the gap above a converter, and round to its left side. */
const downTo = (
  pen: Pen,
  at: { x: number; from: number; gap: number; to: readonly [x: number, y: number] },
): Markup => {
  const [x, y] = at.to;
  return pen.shape(
    'path',
    { d: `M${at.x} ${at.from}V${at.gap - 4}H${x - 12}V${y}H${x}` },
    { stroke: 'caution', width: 2 },
  );
};

const wordsOf = (string: WiringStringData) => {
  const times = string.parallel > 1 ? `, ${string.parallel} such side by side` : '';
  return {
    title: `${string.name}: ${string.cells} cells (${string.rows})${times}, ${string.electric}`,
    under: `${string.wire}; ${string.connector}${string.fuse === undefined ? '' : `; fuse ${string.fuse}`}`,
  };
};

/** Cells in a row with their ends marked, diodes over them, then isolator and wire to the converter. */
function stringRow(
  pen: Pen,
  string: WiringStringData,
  at: { left: number; right: number; top: number; title: readonly string[]; under: readonly string[] },
): Markup {
  const shown = Math.min(string.cells, mostCells);
  const room = at.right - at.left - 150;
  const step = Math.min(22, room / shown);
  const [y, box] = [at.top + 26 + at.title.length * line, Math.max(step - (step < 10 ? 2 : 4), 2)];
  const end = at.left + 16 + shown * step;
  const cells = Array.from({ length: shown }, (_, k) => {
    const x = at.left + 16 + k * step;
    return bar(pen, { left: x, right: x + box, top: y - 9, bottom: y + 9 }, { fill: 'part0', stroke: 'edge' });
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
            pen.shape('path', { d: `M${x1} ${y + 9}V${y + 19}H${x2}V${y + 9}` }, { stroke: 'edge' }),
            pen.shape('path', { d: `M${middle - 4} ${y + 15}V${y + 23}L${middle + 4} ${y + 19}Z` }, { fill: 'ink' }),
          ]);
        });
  return joined([
    ...at.title.map((text, k) => pen.text(at.left, at.top + 18 + k * line, text, { bold: true })),
    pen.text(at.left, y + 5, '−', { size: 15 }),
    ...cells,
    ...diodes,
    pen.text(end - 2, y + 5, '+', { size: 15 }),
    straight(pen, [end + 10, y], [at.right - 74, y], { stroke: 'caution', width: 2 }),
    isolator(pen, at.right - 74, y),
    straight(pen, [at.right - 44, y], [at.right - 12, y], { stroke: 'caution', width: 2 }),
    ...at.under.map((text, k) => pen.text(at.left, y + 36 + k * line, text, { size: 12, role: 'soft' })),
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
  const wrapped = lines.flatMap((line) => wrapText(line, 13, width - 24, 6));
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
