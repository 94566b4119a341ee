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

interface BeamMark {
  readonly x: number;
  /** The text and shorter ones for narrow drawings, where ruler and bar tell the rest. */
  readonly texts: readonly [string, string, string];
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
    const bare = `${name} ${withUnit(x, data.position)}`;
    return [{ kind, x, role, sigma, texts: [`${name} ${placeText(data, x)}${spread}`, `${bare}${spread}`, bare] }];
  });
}

/** A scale such that every label on its pole ends before the right edge, as far as the beam keeps 45 % of the width. */
function scaleFor(data: BeamData, poles: readonly Pole[], width: number): Scale {
  const ends = closeSpan(data) ?? [];
  const [low, high] = domainOf([...poles.map(({ x }) => x), ...ends]);
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

const goodChord = ({ meanChord: chord }: BeamData) =>
  chord !== undefined && drawable(chord.leadingEdge) && drawable(chord.chord) && chord.chord > 0 ? chord : undefined;

/** What is drawn larger below: mean chord, balance and neutral point with their uncertainty, allowed range. */
function closeSpan(data: BeamData): readonly [number, number] | undefined {
  const chord = goodChord(data);
  const values = marksOf(data).flatMap(({ x, sigma = 0 }) => [x - sigma, x + sigma]);
  if (chord !== undefined) values.push(chord.leadingEdge, chord.leadingEdge + chord.chord);
  return values.length === 0 ? undefined : domainOf(values);
}

/** The beam without words above it, for a chart of its own and for printed pages. */
export function beamBlock(pen: Pen, data: BeamData, width: number) {
  const items = data.items.filter(({ x, mass }) => drawable(x) && drawable(mass));
  const poles = items.map((item) => ({ x: item.x, text: itemText(data, item) }));
  const x = scaleFor(data, poles, width);
  const heaviest = items.reduce((most, { mass }) => Math.max(most, Math.abs(mass)), 0);
  /** A block's area stands for its mass. */
  const side = (mass: number) => (heaviest > 0 ? Math.max(3, 30 * Math.sqrt(Math.abs(mass) / heaviest)) : 3);
  const sides = items.map(({ mass }) => side(mass));
  const loads = loadFlags(pen, poles, x, width, sides);
  const top = loads.height + 4;
  const box = { left: x.plain.range[0], right: x.plain.range[1], top, bottom: top + beamThickness };
  const ruled = ruler(
    pen,
    x.ticks.map(({ value, text }) => ({ at: x.at(value), text })),
    [box.left, box.right],
    box.bottom + 16,
  );
  const close = closeBlock(pen, data, x, box.bottom + 42, width);
  const balance = known(data.balance?.x);
  const body: Child[] = [
    loads.body,
    ...items.map(({ x: at, mass, assumed }) => block(pen, x.at(at), top, side(mass), assumed === true)),
    bar(pen, box, { fill: 'edge' }),
    ruled,
    balance !== undefined && wedge(pen, x.at(balance), box.bottom),
    close.body,
    items.length === 0 &&
      emptyNote(pen, { left: 0, right: width, top: 0, bottom: top }, 'No items: nothing to balance.'),
  ];
  const hits = (offset: number) =>
    items.map(({ id, label, x: at }, i) => {
      const half = Math.max(12, sides[i]! / 2 + 2);
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
  return { height: box.bottom + 42 + close.height, body: joined(body), scale: x.plain, hits };
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

const ruler = (
  pen: Pen,
  ticks: readonly { at: number; text: string }[],
  [from, to]: readonly [number, number],
  y: number,
): Markup =>
  joined([
    straight(pen, [from, y], [to, y], { stroke: 'edge' }),
    ...ticks.map(({ at, text }) =>
      joined([
        straight(pen, [at, y], [at, y + 5], { stroke: 'edge' }),
        pen.text(at, y + 17, text, { size: tickSize, role: 'soft', anchor: 'middle' }),
      ]),
    ),
  ]);

/** The edge that the beam rests on. */
const wedge = (pen: Pen, at: number, top: number): Markup =>
  pen.shape('path', { d: `M${px(at)} ${px(top)}l8 15h-16Z` }, { fill: 'ink', stroke: 'paper', width: 1.5 });

/** The stretch around the mean chord, as large as fits: range, points with their uncertainty, rulers in both measures. */
function closeBlock(pen: Pen, data: BeamData, whole: Scale, top: number, width: number): Block {
  const span = closeSpan(data);
  const chord = goodChord(data);
  const name = `${data.position.label} [${data.position.unit}]${data.datum ? `, from ${data.datum}` : ''}`;
  const title = pen.text(8, top + 8, fitText(name, tickSize, width - 16), { size: tickSize, role: 'soft' });
  if (span === undefined) return { height: 14, body: title };
  const range = [26, width - 26] as const;
  const x = scaleOf({ id: 'close', ...data.position, domain: span, range, room: 44 });
  const y = top + 34;
  const funnel = `M${px(whole.at(span[0]))} ${px(top + 14)}H${px(whole.at(span[1]))}L${px(range[1])} ${px(y)}H${px(range[0])}Z`;
  const marks = marksOf(data);
  const flags = markFlags(pen, data, marks, x, y + beamThickness, width);
  const first = y + beamThickness + flags.height;
  const shown = chord === undefined ? span : ([chord.leadingEdge, chord.leadingEdge + chord.chord] as const);
  const plate = { left: x.at(shown[0]), right: x.at(shown[1]), top: y, bottom: y + beamThickness };
  const percent = [0, 25, 50, 75, 100].map((share) => ({
    at: chord === undefined ? 0 : x.at(chord.leadingEdge + (share / 100) * chord.chord),
    text: String(share),
  }));
  const body: Child[] = [
    pen.shape('path', { d: funnel }, { fill: 'daylight', stroke: 'rule' }),
    title,
    flags.body,
    bar(pen, plate, { fill: 'edge' }),
    ruler(
      pen,
      x.ticks.map(({ value, text }) => ({ at: x.at(value), text })),
      range,
      first,
    ),
  ];
  if (chord === undefined) return { height: first + 24 - top, body: joined(body) };
  body.push(
    ruler(
      pen,
      plate.right - plate.left > 130 ? percent : [percent[0]!, percent[4]!],
      [plate.left, plate.right],
      first + 24,
    ),
    pen.text(8, first + 57, 'per cent of the mean chord', { size: tickSize, role: 'soft' }),
  );
  return { height: first + 64 - top, body: joined(body) };
}

function markFlags(pen: Pen, data: BeamData, marks: readonly BeamMark[], x: Scale, top: number, width: number): Block {
  const widthOfMark = (text: string, { kind }: BeamMark) => textWidth(text, tickSize, kind === 'balance') + 8;
  const texts = marks.map((mark) => {
    const fits = (text: string) => widthOfMark(text, mark) <= width - 2 - x.at(mark.x);
    return mark.texts.find(fits) ?? mark.texts[2];
  });
  const poles = marks.map((mark, i) => ({ x: x.at(mark.x), width: widthOfMark(texts[i]!, mark) }));
  const flags = flagLanes(poles, width - 2);
  const lanes = flags.reduce((most, { lane }) => Math.max(most, lane + 1), 0);
  const first = top + 32;
  const [low, high] = [known(data.allowed?.[0]), known(data.allowed?.[1])];
  const range = { left: x.at(low ?? 0), right: x.at(high ?? 0), top: top + 3, bottom: top + 15 };
  const body: Child[] = [
    low !== undefined && high !== undefined && bar(pen, range, { fill: 'part3' }),
    low !== undefined && high !== undefined && bar(pen, range, { stroke: 'sky1' }),
    ...marks.map(({ role }, i) => {
      const { x: pole } = poles[i]!;
      return straight(pen, [pole, top], [pole, first + flags[i]!.lane * laneHeight + 3], { stroke: role });
    }),
    ...marks.map((mark, i) => {
      const { lane, anchor } = flags[i]!;
      const y = first + lane * laneHeight;
      const pole = poles[i]!.x;
      const bold = mark.kind === 'balance';
      const text = fitText(texts[i]!, tickSize, (anchor === 'start' ? width - 2 - pole : pole) - 5, bold);
      return pen.text(pole + (anchor === 'start' ? 5 : -5), y, text, {
        size: tickSize,
        anchor,
        role: mark.role,
        bold,
        halo: true,
      });
    }),
    ...marks.map((mark) => sign(pen, mark, x, top)),
  ];
  return { height: 34 + lanes * laneHeight, body: joined(body) };
}

/** The balance point is the edge the beam rests on; the neutral point a diamond. Bars show their uncertainty. */
function sign(pen: Pen, { kind, x: at, sigma = 0, role }: BeamMark, x: Scale, top: number): Markup {
  if (kind === 'front' || kind === 'rear') return { markup: '' };
  const y = top + 9;
  const [from, to] = [x.at(at - sigma), x.at(at + sigma)];
  const whisker = `M${px(from)} ${px(y - 4)}v8M${px(from)} ${px(y)}H${px(to)}m0 -4v8`;
  return joined([
    sigma > 0 && pen.shape('path', { d: whisker }, { stroke: 'paper', width: 4 }),
    sigma > 0 && pen.shape('path', { d: whisker }, { stroke: role, width: 1.5 }),
    kind === 'balance' ? wedge(pen, x.at(at), top) : marker(pen, 'diamond', [x.at(at), y], role, 6),
  ]);
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
