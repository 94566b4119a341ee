import {
  type Box,
  bar,
  bottomAxis,
  curve,
  dashAt,
  emptyNote,
  endLabelRoom,
  endLabels,
  endLabelWidth,
  finish,
  heading,
  heightOf,
  leftAxis,
  placed,
  skyRoleAt,
  straight,
  tickRoom,
  widthOf,
} from '../frame.js';
import type { Drawing, DrawOptions, PlotSeries, Point } from '../model.js';
import { drawable, hourText, known, withUnit } from '../number.js';
import { areaPath } from '../path.js';
import { byX, domainOf, type Scale, scaleOf } from '../scale.js';
import { type Child, joined, type Markup, type Pen, penOf } from '../svg.js';
import { sentence } from '../text.js';
import type { ChargeData, ChargeSky } from './inputs.js';

/** Charge of the battery through the day under each sky, against the reserve; where income is turned away is hatched. */
export function chargeCourse(data: ChargeData, options: DrawOptions = {}): Drawing {
  const pen = penOf('charge', options);
  const words = { title: `Charge of the battery, ${data.when}`, text: chargeText(data) };
  const head = heading(pen, options, words);
  const at = placeCharge(data, options, head.height + 30);
  const { x, y, box } = at;
  const body: Child[] = [
    head.body,
    nights(pen, data, x, box),
    leftAxis(pen, y, box),
    bottomAxis(pen, x, box, `hour of the day (${data.zone})`),
    reserveBand(pen, data, at),
    ...data.skies.map((sky) => curtailedArea(pen, data, sky, x, y)),
    ...data.skies.map(({ charge }, i) =>
      curve(pen, placed(data.hours, charge, x, y), { stroke: skyRoleAt(i), dash: dashAt(i), width: 2.5 }),
    ),
    chargeLabels(pen, data, at),
    data.skies.length === 0 &&
      emptyNote(pen, box, 'No course of charge: no battery, or the day has not been computed.'),
    cursorOf(pen, data, x, box),
  ];
  return finish(pen, options, {
    kind: 'charge',
    ...words,
    table: chargeTable(data),
    height: box.bottom + 42,
    body,
    scales: [x.plain, y.plain],
    series: chargeSeries(data),
  });
}

interface ChargePlace {
  readonly box: Box;
  readonly x: Scale;
  readonly y: Scale;
  readonly labelWidth: number;
}

function placeCharge(data: ChargeData, options: DrawOptions, top: number): ChargePlace {
  const width = widthOf(options);
  const reserve = known(data.reserve);
  const texts = [...data.skies.map((sky) => endText(data, sky)), ...(reserve === undefined ? [] : ['reserve'])];
  const labelWidth = endLabelWidth(texts, width);
  const asked = options.height === undefined ? undefined : options.height - top - 44;
  const plot = Math.max(heightOf(asked, 220, 100), endLabelRoom(texts, labelWidth));
  const values = [...data.skies.flatMap(({ charge }) => charge), reserve, known(data.full)];
  const range = [top + plot, top] as const;
  const y = scaleOf({ id: 'y', ...data.charge, domain: domainOf(values, true), range, nice: true, room: 44 });
  const left = tickRoom(y);
  const right = Math.max(left + 60, width - labelWidth);
  const domain = domainOf(data.hours);
  const x = scaleOf({ id: 'x', kind: 'hour', label: 'hour', unit: '', domain, range: [left, right], room: 44 });
  return { x, y, labelWidth, box: { left, right, top, bottom: top + plot } };
}

/** What shall stay in the battery. */
function reserveBand(pen: Pen, data: ChargeData, { box, y }: ChargePlace): Markup {
  const reserve = known(data.reserve);
  if (reserve === undefined) return { markup: '' };
  const top = y.at(reserve);
  return joined([
    bar(pen, { ...box, top }, { pattern: ['back', 'caution'], opacity: 0.6 }),
    straight(pen, [box.left, top], [box.right, top], { stroke: 'caution', dash: '6 3', width: 1.5 }),
  ]);
}

function chargeLabels(pen: Pen, data: ChargeData, { box, x, y, labelWidth }: ChargePlace): Markup {
  const ends = data.skies.map((sky, i) => ({
    y: placed(data.hours, sky.charge, x, y).findLast((point) => Number.isFinite(point[1]))?.[1] ?? box.bottom,
    text: endText(data, sky),
    role: skyRoleAt(i),
  }));
  const reserve = known(data.reserve);
  const labels = [
    ...ends,
    ...(reserve === undefined ? [] : [{ y: y.at(reserve), text: 'reserve', role: 'caution' as const }]),
  ];
  const place = { x: box.right + 2, width: labelWidth, top: box.top - 8, bottom: box.bottom + 8 };
  return endLabels(pen, labels, place).body;
}

const chargeSeries = (data: ChargeData): readonly PlotSeries[] =>
  data.skies.map(({ id, name, charge }) => ({
    id,
    label: `charge, ${name}`,
    unit: data.charge.unit,
    ...(data.charge.decimals === undefined ? {} : { decimals: data.charge.decimals }),
    xScale: 'x',
    yScale: 'y',
    points: byX(data.hours.map((hour, i): Point => [hour, charge[i] ?? Number.NaN])),
  }));

function cursorOf(pen: Pen, data: ChargeData, x: Scale, box: { top: number; bottom: number }): Markup {
  const hour = known(data.cursor);
  if (hour === undefined) return { markup: '' };
  return straight(pen, [x.at(hour), box.top], [x.at(hour), box.bottom], { stroke: 'ink', width: 1.5 });
}

function nights(
  pen: Pen,
  data: ChargeData,
  x: Scale,
  box: { left: number; right: number; top: number; bottom: number },
): Markup {
  const rise = known(data.sunrise);
  const set = known(data.sunset);
  return joined([
    rise !== undefined && x.at(rise) > box.left && bar(pen, { ...box, right: x.at(rise) }, { fill: 'night' }),
    set !== undefined && x.at(set) < box.right && bar(pen, { ...box, left: x.at(set) }, { fill: 'night' }),
  ]);
}

/** A strip under the curve where the battery is full and income is turned away. */
function curtailedArea(pen: Pen, data: ChargeData, sky: ChargeSky, x: Scale, y: Scale): Markup {
  const flags = sky.curtailed;
  if (flags === undefined) return { markup: '' };
  const points = placed(data.hours, sky.charge, x, y);
  const floor = y.plain.range[0];
  const strip = 16;
  const d = areaPath(points.map(([at, y], i) => (flags[i] === true ? [at, Math.min(floor, y + strip), y] : undefined)));
  return d === ''
    ? { markup: '' }
    : pen.shape('path', { d }, { fill: 'sunlit', pattern: ['hatch', 'sun'], opacity: 0.7 });
}

function lowest(data: ChargeData, { charge }: ChargeSky): { value: number; hour: number } | undefined {
  let found: { value: number; hour: number } | undefined;
  for (const [i, value] of charge.entries()) {
    const hour = data.hours[i];
    if (drawable(value) && drawable(hour) && (found === undefined || value < found.value)) found = { value, hour };
  }
  return found;
}

function endText(data: ChargeData, sky: ChargeSky): string {
  const low = lowest(data, sky);
  return low === undefined ? `${sky.name}: not known` : `${sky.name}, least ${withUnit(low.value, data.charge)}`;
}

function chargeText(data: ChargeData): string {
  const sentences = data.skies.map((sky) => {
    const low = lowest(data, sky);
    if (low === undefined) return `${sentence(sky.name)}: not known.`;
    const reserve = known(data.reserve);
    const margin = reserve === undefined ? '' : low.value < reserve ? ', below the reserve' : ', above the reserve';
    const full = data.hours.filter((_, i) => sky.curtailed?.[i] === true);
    const wasted = full.length === 0 ? '' : `; full and turning income away from ${hourText(full[0]!)}`;
    return `${sentence(sky.name)}: lowest ${withUnit(low.value, data.charge)} at ${hourText(low.hour)}${margin}${wasted}.`;
  });
  return sentences.length === 0 ? 'No course of charge is known.' : sentences.join(' ');
}

function chargeTable(data: ChargeData) {
  return {
    columns: [
      { key: 'hour', label: `hour (${data.zone})`, unit: 'h' },
      ...data.skies.map(({ name }, i) => ({ key: `sky ${i}`, label: `charge, ${name}`, unit: data.charge.unit })),
    ],
    rows: data.hours.map((hour, i) => ({
      hour: known(hour),
      ...Object.fromEntries(data.skies.map(({ charge }, n) => [`sky ${n}`, known(charge[i])])),
    })),
  };
}
