import { beamBlock } from '../charts/beam.js';
import { bar, finish, moved, straight } from '../frame.js';
import type { Drawing, DrawOptions } from '../model.js';
import type { Role } from '../palette.js';
import { type Child, joined, type Markup, type Pen, penOf } from '../svg.js';
import { sentence, textWidth, wrapText } from '../text.js';
import type { FirstFlightData, PageFigure } from './inputs.js';

/** A4 at 96 px per inch. */
const page = { width: 794, height: 1123, margin: 52 } as const;
const column = page.width - 2 * page.margin;

interface Cursor {
  readonly body: readonly Child[];
  readonly y: number;
}

/** One A4 page for the first flight: balance, speeds, throttle, wind, sun, endurance, what is only assumed, cautions. */
export function firstFlightPage(data: FirstFlightData, options: DrawOptions = {}): Drawing {
  // Black on white: paper is looked at in the sun.
  const pen = penOf('first-flight', { standalone: true, theme: 'sunlight', ...options });
  const title = `First flight: ${data.aircraft}`;
  const room = bottom - lastSections(pen, data, { body: [], y: 0 }).y;
  const full = firstSections(pen, data, title, true);
  // A long list of items would push what follows off the page; then the words about the balance have to do.
  const at = lastSections(pen, data, full.y <= room ? full : firstSections(pen, data, title, false));
  const [footer = ''] = wrapText(data.footer ?? '', 11, column, 1);
  const made = {
    kind: 'first-flight',
    title,
    text: pageText(data),
    table: pageTable(data),
    height: page.height,
    body: [...at.body, footer !== '' && pen.text(page.margin, page.height - 26, footer, { size: 11, role: 'soft' })],
  };
  return finish(pen, options, made, page.width);
}

function firstSections(pen: Pen, data: FirstFlightData, title: string, withBeam: boolean): Cursor {
  let at: Cursor = { body: titleBlock(pen, data, title), y: 112 };
  at = balanceSection(pen, data, at, withBeam);
  at = figureSection(pen, 'Airspeeds', data.speeds, at);
  const limits = [data.throttle, data.wind, data.endurance].filter((each) => each !== undefined);
  at = figureSection(pen, 'Throttle, wind, endurance', limits, at);
  return figureSection(pen, 'Sun', data.sun, at);
}

/** What is assumed and the cautions side by side; alone where the other is empty. */
function lastSections(pen: Pen, data: FirstFlightData, from: Cursor): Cursor {
  const both = data.assumed.length > 0 && data.cautions.length > 0;
  const width = both ? column / 2 - 10 : column;
  const assumed = {
    name: 'Only assumed, nothing measured',
    lines: data.assumed,
    role: 'edge' as const,
    left: page.margin,
    width,
  };
  const cautions = {
    name: 'Cautions',
    lines: data.cautions,
    role: 'caution' as const,
    left: both ? page.margin + column / 2 + 10 : page.margin,
    width,
  };
  const first = listSection(pen, assumed, from);
  const second = listSection(pen, cautions, { body: first.body, y: from.y });
  return { body: second.body, y: Math.max(first.y, second.y) };
}

const bottom = page.height - 44;

function titleBlock(pen: Pen, { place, date, configuration }: FirstFlightData, title: string): readonly Child[] {
  const where = [place, date, configuration].filter((each) => each !== undefined && each !== '').join(', ');
  const [line = ''] = wrapText(title, 24, column, 1, true);
  const [second = ''] = wrapText(where, 14, column, 1);
  return [
    pen.text(page.margin, 72, line, { size: 24, bold: true }),
    pen.text(page.margin, 96, second, { size: 14, role: 'soft' }),
    straight(pen, [page.margin, 106], [page.width - page.margin, 106], { stroke: 'ink', width: 2 }),
  ];
}

const sectionHead = (pen: Pen, name: string, y: number, left: number = page.margin): Markup =>
  pen.text(left, y + 18, name, { size: 15, bold: true });

function balanceSection(pen: Pen, data: FirstFlightData, { body, y }: Cursor, withBeam: boolean): Cursor {
  const words = wrapText(data.balanceWords, 14, column, 4);
  const lines = words.map((line, i) => pen.text(page.margin, y + 40 + i * 18, line, { size: 14 }));
  const top = y + 30 + words.length * 18;
  if (!withBeam) return { body: [...body, sectionHead(pen, 'Balance', y), ...lines], y: top + 8 };
  const beam = beamBlock(pen, data.balance, column);
  const drawn = moved(page.margin, top, beam.body);
  return { body: [...body, sectionHead(pen, 'Balance', y), ...lines, drawn], y: top + beam.height + 4 };
}

/** Figures in rows of three: name, value in large, note; what is assumed says so. */
function figureSection(pen: Pen, name: string, figures: readonly PageFigure[], { body, y }: Cursor): Cursor {
  if (figures.length === 0) return { body, y };
  const each = column / 3;
  const drawn: Child[] = [sectionHead(pen, name, y)];
  let top = y + 28;
  for (let i = 0; i < figures.length && top < bottom - 40; i += 3) {
    const pair = figures
      .slice(i, i + 3)
      .map((figure, n) => figureCell(pen, figure, page.margin + n * each, top, each - 16));
    drawn.push(...pair.map((cell) => cell.body));
    top += Math.max(...pair.map((cell) => cell.height));
  }
  return { body: [...body, ...drawn], y: top + 2 };
}

function figureCell(pen: Pen, { label, value, note, assumed }: PageFigure, left: number, top: number, width: number) {
  const words = `${label}${assumed ? ' (assumed)' : ''}`;
  const beside = textWidth(words, 13) + textWidth(value, 15, true) + 14 <= width;
  const labelLines = beside ? [words] : wrapText(words, 13, width, 2);
  const valueLines = beside ? [value] : wrapText(value, 15, width, 2, true);
  const valueTop = beside ? top + 14 : top + 14 + labelLines.length * 17;
  const below = valueTop + (valueLines.length - 1) * 18 + 16;
  const notes = note ? wrapText(note, 12, width, 4) : [];
  const end = below + notes.length * 15;
  const parts = [
    ...labelLines.map((line, i) => pen.text(left, top + 14 + i * 17, line)),
    ...valueLines.map((line, i) =>
      pen.text(beside ? left + width : left, valueTop + i * 18, line, {
        size: 15,
        bold: true,
        ...(beside ? { anchor: 'end' } : {}),
      }),
    ),
    ...notes.map((line, i) => pen.text(left, below + i * 15, line, { size: 12, role: 'soft' })),
    straight(pen, [left, end - 8], [left + width, end - 8], { stroke: 'rule' }),
  ];
  return { body: joined(parts), height: end - top + 2 };
}

interface List {
  readonly name: string;
  readonly lines: readonly string[];
  readonly role: Role;
  readonly left: number;
  readonly width: number;
}

/** A list that stays above the bottom of the page; what does not fit is counted. */
function listSection(pen: Pen, { name, lines, role, left, width }: List, { body, y }: Cursor): Cursor {
  if (lines.length === 0) return { body, y };
  const drawn: Child[] = [sectionHead(pen, name, y, left)];
  let top = y + 26;
  for (const [i, line] of lines.entries()) {
    const wrapped = wrapText(sentence(line), 13, width - 16, 3);
    const last = i === lines.length - 1;
    if (top + wrapped.length * 17 + (last ? 0 : 17) > bottom) {
      drawn.push(pen.text(left + 14, top + 13, `and ${lines.length - i} more, in the program`, { role: 'soft' }));
      top += 17;
      break;
    }
    drawn.push(bar(pen, { left, right: left + 7, top: top + 4, bottom: top + 11 }, { fill: role }));
    drawn.push(...wrapped.map((each, n) => pen.text(left + 14, top + 12 + n * 17, each)));
    top += wrapped.length * 17;
  }
  return { body: [...body, ...drawn], y: top + 6 };
}

const figuresOf = (data: FirstFlightData): readonly PageFigure[] => [
  ...data.speeds,
  ...[data.throttle, data.wind, data.endurance].filter((each) => each !== undefined),
  ...data.sun,
];

function pageText(data: FirstFlightData): string {
  const told = (list: readonly PageFigure[]) => list.map(({ label, value }) => `${label} ${value}`).join('; ');
  const assumed = data.assumed.length === 0 ? '' : ` Only assumed: ${data.assumed.join('; ')}.`;
  const cautions = data.cautions.length === 0 ? '' : ` Cautions: ${data.cautions.join('; ')}.`;
  return `${data.balanceWords} ${sentence(told(figuresOf(data)))}.${assumed}${cautions}`;
}

const pageTable = (data: FirstFlightData) => ({
  columns: [
    { key: 'label', label: 'what', unit: '' },
    { key: 'value', label: 'value', unit: '' },
    { key: 'note', label: 'note', unit: '' },
    { key: 'known', label: 'known how', unit: '' },
  ],
  rows: [
    { label: 'balance', value: data.balanceWords, note: '', known: '' },
    ...figuresOf(data).map(({ label, value, note, assumed }) => ({
      label,
      value,
      note: note ?? '',
      known: assumed ? 'assumed' : 'stated, measured or computed',
    })),
    ...data.assumed.map((line) => ({ label: 'only assumed', value: line, note: '', known: 'assumed' })),
    ...data.cautions.map((line) => ({ label: 'caution', value: line, note: '', known: '' })),
  ],
});
