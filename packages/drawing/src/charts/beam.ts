import { type Block, bar, emptyNote, finish, heading, marker, moved, straight, tickSize, widthOf } from '../frame.js';
import { flagLanes } from '../labels.js';
import type { Drawing, DrawOptions, Table } from '../model.js';
import { drawable, known, numberText, withUnit } from '../number.js';
import type { Role } from '../palette.js';
import { domainOf, type Scale, scaleOf } from '../scale.js';
import { type Child, joined, type Markup, type Pen, penOf, px } from '../svg.js';
import { fitText, textWidth } from '../text.js';
import type { BeamData, BeamItem } from './inputs.js';

const laneHeight = 15;
const beamThickness = 8;

/** The aircraft as a loaded beam: what lies where, where it balances, between which points it may, and the neutral point. */
export function balanceBeam(data: BeamData, options: DrawOptions = {}): Drawing {
  const pen = penOf('beam', options);
  const words = { title: 'Balance: the aircraft as a loaded beam', text: beamText(data) };
  const head = heading(pen, options, words);
  const beam = beamBlock(pen, data, widthOf(options));
  return finish(pen, options, {
    kind: 'beam',
    ...words,
    table: beamTable(data),
    height: head.height + beam.height,
    body: [head.body, moved(0, head.height, beam.body)],
    scales: [beam.scale],
    hits: beam.hits(head.height),
  });
}

interface Pole {
  readonly x: number;
  readonly text: string;
}

interface BeamMark extends Pole {
  readonly kind: 'balance' | 'neutral' | 'front' | 'rear';
  readonly role: Role;
  readonly sigma?: number | undefined;
}

const itemText = (data: BeamData, { label, mass, assumed }: BeamItem): string =>
  `${label} ${withUnit(mass, data.mass)}${assumed ? ', assumed' : ''}`;

/** "104 mm, 31 %". */
function placeText(data: BeamData, x: number): string {
  const chord = data.meanChord;
  const share = chord && chord.chord > 0 ? (x - chord.leadingEdge) / chord.chord : Number.NaN;
  const percent = drawable(share) ? `, ${numberText(share * 100, 1)} %` : '';
  return `${withUnit(x, data.position)}${percent}`;
}

function marksOf(data: BeamData): readonly BeamMark[] {
  const { balance, neutral, allowed } = data;
  const list: readonly (readonly [BeamMark['kind'], string, number | undefined, Role, number | undefined])[] = [
    ['front', 'front end', known(allowed?.[0]), 'sky1', undefined],
    ['balance', 'balances at', known(balance?.x), 'ink', known(balance?.sigma)],
    ['rear', 'rear end', known(allowed?.[1]), 'sky1', undefined],
    ['neutral', 'neutral point', known(neutral?.x), 'sky2', known(neutral?.sigma)],
  ];
  return list.flatMap(([kind, name, x, role, sigma]) => {
    if (x === undefined) return [];
    const spread = sigma === undefined || sigma === 0 ? '' : ` ± ${withUnit(sigma, data.position)}`;
    return [{ kind, x, role, sigma, text: `${name} ${placeText(data, x)}${spread}` }];
  });
}

/** A scale such that every label on its pole ends before the right edge, as far as the beam keeps 45 % of the width. */
function scaleFor(data: BeamData, poles: readonly Pole[], width: number): Scale {
  const chord = data.meanChord;
  const ends = chord === undefined ? [] : [chord.leadingEdge, chord.leadingEdge + chord.chord];
  const spans = marksOf(data).flatMap(({ x, sigma = 0 }) => [x - sigma, x + sigma]);
  const [low, high] = domainOf([...poles.map(({ x }) => x), ...spans, ...ends]);
  const left = 22;
  let right = width - 22;
  for (const { x, text } of poles) {
    const share = (x - low) / (high - low);
    const free = width - 4 - textWidth(text, tickSize) - 6 - left;
    if (share > 0) right = Math.min(right, left + free / share);
  }
  const range = [left, Math.max(right, width * 0.45)] as const;
  return scaleOf({ id: 'x', ...data.position, domain: [low, high], range, room: 44 });
}

/** The beam without words above it, for a chart of its own and for printed pages. */
export function beamBlock(pen: Pen, data: BeamData, width: number) {
  const items = data.items.filter(({ x, mass }) => drawable(x) && drawable(mass));
  const poles = items.map((item) => ({ x: item.x, text: itemText(data, item) }));
  const marks = marksOf(data);
  const x = scaleFor(data, [...poles, ...marks], width);
  const heaviest = items.reduce((most, { mass }) => Math.max(most, Math.abs(mass)), 0);
  /** A block's area stands for its mass. */
  const side = (mass: number) => (heaviest > 0 ? Math.max(3, 30 * Math.sqrt(Math.abs(mass) / heaviest)) : 3);
  const loads = loadFlags(
    pen,
    poles,
    x,
    width,
    items.map(({ mass }) => side(mass)),
  );
  const top = loads.height + 4;
  const below = markFlags(pen, data, marks, x, top + beamThickness, width);
  const axis = axes(pen, data, x, top + beamThickness + below.height);
  const box = { left: x.plain.range[0], right: x.plain.range[1], top, bottom: top + beamThickness };
  const body: Child[] = [
    below.body,
    loads.body,
    ...items.map(({ x: at, mass, assumed }) => block(pen, x.at(at), top, side(mass), assumed === true)),
    bar(pen, box, { fill: 'edge' }),
    axis.body,
    items.length === 0 &&
      emptyNote(pen, { left: 0, right: width, top: 0, bottom: top }, 'No items: nothing to balance.'),
  ];
  const hits = (offset: number) =>
    items.map(({ id, label, x: at, mass }) => {
      const half = Math.max(12, side(mass) / 2 + 2);
      const [left, right, high, low] = [x.at(at) - half, x.at(at) + half, top + offset - 2 * half, top + offset];
      return {
        id,
        kind: 'mass',
        label,
        polygon: [
          [left, high],
          [right, high],
          [right, low],
          [left, low],
        ] as const,
      };
    });
  return { height: top + beamThickness + below.height + axis.height, body: joined(body), scale: x.plain, hits };
}

function loadFlags(pen: Pen, poles: readonly Pole[], x: Scale, width: number, sides: readonly number[]): Block {
  const shown = poles.map(({ x: at, text }) => ({ x: x.at(at), width: textWidth(text, tickSize) + 6 }));
  const flags = flagLanes(shown, width - 2);
  const lanes = flags.reduce((most, { lane }) => Math.max(most, lane + 1), 2);
  const tallest = sides.reduce((most, each) => Math.max(most, each), 0);
  const height = 10 + lanes * laneHeight + tallest + 6;
  const body = poles.map(({ text }, i) => {
    const { lane, anchor } = flags[i]!;
    const y = height - tallest - 10 - lane * laneHeight;
    const pole = shown[i]!.x;
    const room = (anchor === 'start' ? width - 2 - pole : pole) - 5;
    return joined([
      straight(pen, [pole, y - 9], [pole, height], { stroke: 'edge' }),
      pen.text(pole + (anchor === 'start' ? 4 : -4), y, fitText(text, tickSize, room), { size: tickSize, anchor }),
    ]);
  });
  return { height, body: joined(body) };
}

/** Hatched and dashed where the mass is only assumed. */
function block(pen: Pen, at: number, floor: number, side: number, assumed: boolean): Markup {
  const box = { left: at - side / 2, right: at + side / 2, top: floor - side, bottom: floor };
  if (!assumed) return bar(pen, box, { fill: 'part1', stroke: 'ink' });
  return joined([
    bar(pen, box, { fill: 'paper', pattern: ['hatch', 'edge'] }),
    bar(pen, box, { stroke: 'ink', dash: '3 2' }),
  ]);
}

function markFlags(pen: Pen, data: BeamData, marks: readonly BeamMark[], x: Scale, top: number, width: number): Block {
  const poles = marks.map(({ x: at, text }) => ({ x: x.at(at), width: textWidth(text, tickSize, true) + 8 }));
  const flags = flagLanes(poles, width - 2);
  const lanes = flags.reduce((most, { lane }) => Math.max(most, lane + 1), 0);
  const first = top + 30;
  const [low, high] = [known(data.allowed?.[0]), known(data.allowed?.[1])];
  const range = { left: x.at(low ?? 0), right: x.at(high ?? 0), top: top + 2, bottom: top + 14 };
  const body: Child[] = [
    low !== undefined && high !== undefined && bar(pen, range, { fill: 'part3', pattern: ['back', 'sky1'] }),
    low !== undefined && high !== undefined && bar(pen, range, { stroke: 'sky1' }),
    ...marks.map((mark, i) => {
      const { lane, anchor } = flags[i]!;
      const y = first + lane * laneHeight;
      const pole = poles[i]!.x;
      const text = fitText(
        mark.text,
        tickSize,
        (anchor === 'start' ? width - 2 - pole : pole) - 5,
        mark.kind === 'balance',
      );
      return joined([
        straight(pen, [pole, top], [pole, y + 3], { stroke: mark.role }),
        pen.text(pole + (anchor === 'start' ? 5 : -5), y, text, {
          size: tickSize,
          anchor,
          role: mark.role,
          bold: mark.kind === 'balance',
        }),
      ]);
    }),
    ...marks.map((mark) => sign(pen, mark, x, top)),
  ];
  return { height: 30 + lanes * laneHeight, body: joined(body) };
}

/** The balance point is the edge the beam rests on; the neutral point a diamond. Bars show their uncertainty. */
function sign(pen: Pen, { kind, x: at, sigma, role }: BeamMark, x: Scale, top: number): Markup {
  if (kind === 'front' || kind === 'rear') return { markup: '' };
  const middle = x.at(at);
  const spread = sigma ?? 0;
  const y = top + 8;
  const whisker = `M${px(x.at(at - spread))} ${px(y - 4)}v8M${px(x.at(at - spread))} ${px(y)}H${px(x.at(at + spread))}m0 -4v8`;
  const wedge = `M${px(middle)} ${px(top)}l8 15h-16Z`;
  return joined([
    spread > 0 && pen.shape('path', { d: whisker }, { stroke: 'paper', width: 4 }),
    spread > 0 && pen.shape('path', { d: whisker }, { stroke: role, width: 1.5 }),
    kind === 'balance' && pen.shape('path', { d: wedge }, { fill: role, stroke: 'paper', width: 1.5 }),
    kind === 'neutral' && marker(pen, 'diamond', [middle, y], role, 6),
  ]);
}

/** Two rulers: along the aircraft, and in per cent of the mean chord where it lies. */
function axes(pen: Pen, data: BeamData, x: Scale, top: number): Block {
  const [left, right] = x.plain.range;
  const ruler = (y: number, from: number, to: number, ticks: readonly { at: number; text: string }[]) =>
    joined([
      straight(pen, [from, y], [to, y], { stroke: 'edge' }),
      ...ticks.map(({ at, text }) =>
        joined([
          straight(pen, [at, y], [at, y + 5], { stroke: 'edge' }),
          pen.text(at, y + 17, text, { size: tickSize, role: 'soft', anchor: 'middle' }),
        ]),
      ),
    ]);
  const datum = `${data.position.label} [${data.position.unit}]${data.datum ? `, from ${data.datum}` : ''}`;
  const main = ruler(
    top + 6,
    left,
    right,
    x.ticks.map(({ value, text }) => ({ at: x.at(value), text })),
  );
  const name = pen.text(8, top + 38, fitText(datum, tickSize, right + 60), { size: tickSize, role: 'soft' });
  const chord = data.meanChord;
  if (chord === undefined || !drawable(chord.leadingEdge) || !drawable(chord.chord) || chord.chord <= 0)
    return { height: 46, body: joined([main, name]) };
  const at = (share: number) => x.at(chord.leadingEdge + share * chord.chord);
  const long = at(1) - at(0);
  const steps = long > 150 ? [0, 0.25, 0.5, 0.75, 1] : long > 70 ? [0, 0.5, 1] : long > 34 ? [0, 1] : [0];
  const percent = ruler(
    top + 50,
    at(0),
    at(1),
    steps.map((share) => ({ at: at(share), text: String(share * 100) })),
  );
  const title = pen.text(8, top + 82, 'per cent of the mean chord', { size: tickSize, role: 'soft' });
  return { height: 90, body: joined([main, name, percent, title]) };
}

function beamText(data: BeamData): string {
  const balance = known(data.balance?.x);
  if (balance === undefined) return 'The balance point is not known: there is nothing to weigh.';
  const sigma = known(data.balance?.sigma);
  const at = `Balances ${placeText(data, balance)}${data.meanChord ? ' of the mean chord' : ''} aft of the datum${sigma ? `, ± ${withUnit(sigma, data.position)}` : ''}.`;
  const [low, high] = [known(data.allowed?.[0]), known(data.allowed?.[1])];
  if (low === undefined || high === undefined) return at;
  const off = balance < low ? low - balance : balance > high ? balance - high : 0;
  const range = `${withUnit(low, data.position)} to ${withUnit(high, data.position)}`;
  const where =
    off === 0
      ? `inside the range ${range}`
      : `${withUnit(off, data.position)} too far ${balance < low ? 'forward' : 'aft'} of the range ${range}`;
  const neutral = known(data.neutral?.x);
  return `${at} It lies ${where}.${neutral === undefined ? '' : ` Neutral point ${placeText(data, neutral)}.`}`;
}

const beamTable = (data: BeamData): Table => ({
  columns: [
    { key: 'item', label: 'item', unit: '' },
    { key: 'position', label: data.position.label, unit: data.position.unit },
    { key: 'mass', label: data.mass.label, unit: data.mass.unit },
    { key: 'known', label: 'known how', unit: '' },
  ],
  rows: data.items.map(({ label, x, mass, assumed }) => ({
    item: label,
    position: known(x),
    mass: known(mass),
    known: assumed ? 'assumed' : 'stated or measured',
  })),
});
