import { bar, finish, heading, straight, tickSize, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Table } from '../model.js';
import { known, numberText, shareText, withUnit } from '../number.js';
import type { Role } from '../palette.js';
import { joined, type Markup, type PatternName, type Pen, penOf, px } from '../svg.js';
import { sentence, textWidth, wrapText } from '../text.js';
import type { LedgerChainRow, LedgerData } from './inputs.js';

type Group = LedgerChainRow['group'];

const looks: Readonly<Record<Group, { readonly fill: Role; readonly pattern?: PatternName; readonly words: string }>> =
  {
    light: { fill: 'above1', words: 'light' },
    cells: { fill: 'part1', pattern: 'hatch', words: 'cells' },
    converter: { fill: 'part0', pattern: 'dots', words: 'converter' },
    loads: { fill: 'part2', pattern: 'cross', words: 'loads' },
    drive: { fill: 'part4', pattern: 'back', words: 'drive' },
    air: { fill: 'part3', pattern: 'bars', words: 'air' },
    battery: { fill: 'part0', pattern: 'cross', words: 'battery' },
  };

/** Before the bus light is counted, behind it electricity: two stretches, each with a scale of its own. */
const beforeBus: readonly Group[] = ['light', 'cells', 'converter'];

interface Step {
  readonly row: LedgerChainRow;
  readonly value: number;
  readonly before: number;
  readonly after: number;
}

const barHeight = 14;

/** The chain from light to air: each row a step down, with its watts and its share of the light on the cells. */
export function ledgerChain(data: LedgerData, options: DrawOptions = {}): Drawing {
  const pen = penOf('ledger', options);
  const counted = data.rows.filter(({ partOf, value }) => partOf === undefined && known(value) !== undefined);
  const light = counted.reduce((sum, { value }) => sum + value, 0);
  const first = counted.filter(({ group }) => beforeBus.includes(group));
  const second = counted.filter(({ group }) => !beforeBus.includes(group));
  const income = second.reduce((sum, { value }) => sum + value, 0);
  const words = { title: `From light to air, ${data.when}`, text: ledgerText(data, counted, light, income) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const share = (value: number) => (light > 0 ? value / light : 0);
  const upper = stretch(pen, data, first, {
    label: 'light on the cells',
    start: light,
    top: head.height + 4,
    width,
    share,
  });
  const zoom =
    income > 0 && light > 0 ? magnifier(pen, upper.scale(income), upper.bottom, width, light / income) : undefined;
  const lowerTop = upper.bottom + (zoom ? 26 : 8);
  const lower = stretch(pen, data, second, { label: 'income at the bus', start: income, top: lowerTop, width, share });
  const noted = parts(pen, data, lower.bottom + 6, width);
  return finish(pen, options, {
    kind: 'ledger',
    ...words,
    table: ledgerTable(data, light),
    height: noted.bottom + 4,
    body: [head.body, upper.body, zoom, lower.body, noted.body],
  });
}

interface Stretch {
  readonly label: string;
  readonly start: number;
  readonly top: number;
  readonly width: number;
  readonly share: (value: number) => number;
}

/** A falling chain: the bar of each row starts where the row above ended. */
function stretch(pen: Pen, data: LedgerData, rows: readonly LedgerChainRow[], at: Stretch) {
  let left = at.start;
  const steps = rows.map((row): Step => {
    const before = left;
    left -= row.value;
    return { row, value: row.value, before, after: left };
  });
  const most = steps.reduce((max, { before, after }) => Math.max(max, before, after), at.start);
  const least = steps.reduce((min, { before, after }) => Math.min(min, before, after), 0);
  const span = most - least > 0 ? most - least : 1;
  const scale = (value: number) => 8 + ((value - least) / span) * (at.width - 16);
  let y = at.top;
  const title = pen.text(8, y + 14, at.label, { bold: true });
  const amount = pen.text(at.width - 8, y + 14, amountText(data, at.start, at.share(at.start)), {
    bold: true,
    anchor: 'end',
  });
  y += 20;
  const whole = bar(
    pen,
    { left: scale(0), right: scale(Math.max(0, at.start)), top: y, bottom: y + barHeight },
    { fill: 'above1', stroke: 'edge' },
  );
  y += barHeight;
  const body = steps.map((step) => {
    const drawn = stepRow(pen, data, step, { ...at, top: y }, scale);
    y = drawn.bottom;
    return drawn.body;
  });
  return { body: joined([title, amount, whole, ...body]), bottom: y + 4, scale };
}

const amountText = (data: LedgerData, value: number, share: number): string =>
  `${withUnit(value, data.power)}, ${shareText(share)}`;

function stepRow(
  pen: Pen,
  data: LedgerData,
  { row, value, before, after }: Step,
  at: Stretch,
  scale: (value: number) => number,
) {
  const amount = amountText(data, value, at.share(value));
  const look = looks[row.group];
  const room = at.width - 24 - textWidth(amount, 13);
  const lines = wrapText(row.note ? `${row.label} (${row.note})` : row.label, 13, room, 4);
  const top = at.top + 6 + lines.length * 15;
  const edges = {
    left: scale(Math.min(before, after)),
    right: scale(Math.max(before, after)),
    top,
    bottom: top + barHeight,
  };
  const rest = { left: scale(0), right: scale(Math.max(0, Math.min(before, after))), top, bottom: top + barHeight };
  const thin = edges.right - edges.left < 1.5 ? { ...edges, right: edges.left + 1.5 } : edges;
  const body = joined([
    straight(pen, [scale(before), at.top], [scale(before), top + barHeight], { stroke: 'edge', dash: '1 3' }),
    ...lines.map((line, i) => pen.text(8, at.top + 15 + i * 15, line, { halo: true })),
    pen.text(at.width - 8, at.top + 15, amount, { anchor: 'end', halo: true, role: value < 0 ? 'accent' : 'ink' }),
    bar(pen, rest, { fill: 'daylight', stroke: 'rule' }),
    bar(pen, thin, { fill: look.fill, pattern: look.pattern && [look.pattern, 'ink'], stroke: 'edge' }),
  ]);
  return { body, bottom: top + barHeight };
}

/** Between the stretches: what is left of the light is drawn larger below. */
function magnifier(pen: Pen, from: number, top: number, width: number, factor: number): Markup {
  const d = `M8 ${px(top)}H${px(from)}L${px(width - 8)} ${px(top + 22)}H8Z`;
  const text = `drawn ${numberText(factor, factor < 10 ? 1 : 0)} times larger below`;
  return joined([
    pen.shape('path', { d }, { fill: 'daylight', stroke: 'rule' }),
    pen.text(14, top + 16, text, { size: tickSize, role: 'soft' }),
  ]);
}

/** Rows that are contained in others: words only. */
function parts(pen: Pen, data: LedgerData, top: number, width: number) {
  const lines = data.rows
    .filter(({ partOf }) => partOf !== undefined)
    .flatMap(({ label, value, note }) =>
      wrapText(
        `contained: ${label} ${withUnit(value, data.power)}${note ? ` (${note})` : ''}`,
        tickSize,
        width - 16,
        3,
      ),
    );
  const body = lines.map((line, i) => pen.text(8, top + 12 + i * 15, line, { size: tickSize, role: 'soft' }));
  return { body: joined(body), bottom: top + lines.length * 15 };
}

function ledgerText(data: LedgerData, rows: readonly LedgerChainRow[], light: number, income: number): string {
  if (rows.length === 0) return 'No ledger: no light falls on the cells, or there are none.';
  const losses = rows.filter(({ group, value }) => group !== 'light' && group !== 'battery' && value > 0);
  const worst = (list: readonly LedgerChainRow[]) =>
    list.reduce<LedgerChainRow | undefined>(
      (most, row) => (most === undefined || row.value > most.value ? row : most),
      undefined,
    );
  const onCells = `${withUnit(light, data.power)} of light on the cells give ${withUnit(income, data.power)} at the bus${light > 0 ? ` (${shareText(income / light)})` : ''}.`;
  const behind = worst(losses.filter(({ group }) => !beforeBus.includes(group)));
  const taker =
    behind === undefined
      ? ''
      : ` Behind the bus most goes into: ${behind.label}, ${withUnit(behind.value, data.power)}.`;
  const battery = rows.filter(({ group }) => group === 'battery').reduce((sum, { value }) => sum + value, 0);
  const rest =
    battery < 0
      ? ` The battery adds ${withUnit(-battery, data.power)}.`
      : battery > 0
        ? ` ${sentence(withUnit(battery, data.power))} are left for the battery.`
        : '';
  return onCells + taker + rest;
}

const ledgerTable = (data: LedgerData, light: number): Table => ({
  columns: [
    { key: 'label', label: 'row', unit: '' },
    { key: 'group', label: 'where', unit: '' },
    { key: 'value', label: data.power.label, unit: data.power.unit },
    { key: 'share', label: 'of the light on the cells', unit: '%' },
    { key: 'note', label: 'note', unit: '' },
  ],
  rows: data.rows.map(({ label, group, value, note, partOf }) => {
    const amount = known(value);
    return {
      label,
      group: looks[group].words,
      value: amount,
      share: amount === undefined || light <= 0 ? undefined : Number(((100 * amount) / light).toPrecision(4)),
      note: [partOf === undefined ? '' : `contained in ${partOf}`, note ?? ''].filter((each) => each !== '').join('; '),
    };
  }),
});
