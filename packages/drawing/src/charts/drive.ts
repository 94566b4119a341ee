import { type Block, bar, finish, heading, tickSize, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Point, Table } from '../model.js';
import { drawable, known, shareText, withUnit } from '../number.js';
import { byX, interpolated } from '../scale.js';
import { joined, type Pen, penOf } from '../svg.js';
import { wrapText } from '../text.js';
import type { ChainLink, DriveData } from './inputs.js';
import { drawPanel } from './plot.js';

/** Whether motor, propeller and aircraft match: thrust there is and thrust it takes, motor speed, and the chain of efficiencies. */
export function driveMatch(data: DriveData, options: DrawOptions = {}): Drawing {
  const pen = penOf('drive', options);
  const available = byX(data.available);
  const needed = byX(data.needed);
  const top = crossing(available, needed);
  const words = { title: 'Motor and propeller against the need', text: driveText(data, available, needed, top) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const beside = width >= 640 && data.motorSpeed !== undefined;
  const each = beside ? (width - 24) / 2 : width;
  const plot = 190;
  const thrust = drawPanel(pen, thrustPanel(data, top), { left: 0, width: each, top: head.height, plot });
  const at = beside ? { left: each + 24, top: head.height } : { left: 0, top: thrust.bottom + 8 };
  const speed =
    data.motorSpeed &&
    drawPanel(pen, speedPanel(data, data.motorSpeed), { ...at, width: each, plot: beside ? plot : 130 });
  const chainTop = Math.max(thrust.bottom, speed?.bottom ?? 0) + 10;
  const chain = chainBlock(pen, data.chain, width, chainTop);
  return finish(pen, options, {
    kind: 'drive',
    ...words,
    table: driveTable(data),
    height: chainTop + chain.height + 4,
    body: [head.body, thrust.body, speed?.body, chain.body],
    scales: [...thrust.scales, ...(speed?.scales ?? [])],
    series: [...thrust.series, ...(speed?.series ?? [])],
  });
}

const thrustPanel = (data: DriveData, top: number | undefined) => ({
  prefix: '',
  x: data.airspeed,
  y: { ...data.thrust, zero: true },
  curves: [
    { id: 'available', label: 'full throttle', points: data.available, role: 'sky0' as const },
    { id: 'needed', label: 'needed', points: data.needed, role: 'need' as const, dash: '7 4' },
  ],
  marks: [
    ...(drawable(data.flown)
      ? [{ x: data.flown, text: `flown ${withUnit(data.flown, data.airspeed)}`, role: 'ink' as const }]
      : []),
    ...(top === undefined ? [] : [{ x: top, text: `top ${withUnit(top, data.airspeed)}`, role: 'sky0' as const }]),
  ],
  empty: 'No thrust has been computed.',
});

const speedPanel = (data: DriveData, { measure, points, limit }: NonNullable<DriveData['motorSpeed']>) => ({
  prefix: 'speed ',
  x: data.airspeed,
  y: { ...measure, zero: true },
  curves: [
    { id: 'motor speed', label: 'motor', points, role: 'sky2' as const },
    ...(drawable(limit) && byX(points).length > 0
      ? [
          {
            id: 'limit',
            label: 'limit',
            points: [byX(points)[0]!, byX(points).at(-1)!].map(([x]): Point => [x, limit]),
            role: 'caution' as const,
            dash: '3 4',
          },
        ]
      : []),
  ],
  marks: drawable(data.flown) ? [{ x: data.flown, text: 'flown', role: 'ink' as const }] : [],
  empty: 'No motor speed has been computed.',
});

/** The airspeed at which the thrust needed has grown to what there is. */
function crossing(available: readonly Point[], needed: readonly Point[]): number | undefined {
  let above: Point | undefined;
  for (const [x, thrust] of available) {
    const need = interpolated(needed, x);
    if (need === undefined) continue;
    const spare = thrust - need;
    if (spare < 0 && above !== undefined) return above[0] + ((x - above[0]) * above[1]) / (above[1] - spare);
    if (spare >= 0) above = [x, spare];
  }
  return undefined;
}

function driveText(
  data: DriveData,
  available: readonly Point[],
  needed: readonly Point[],
  top: number | undefined,
): string {
  if (available.length === 0) return 'No thrust has been computed.';
  const flown = known(data.flown);
  const have = flown === undefined ? undefined : interpolated(available, flown);
  const need = flown === undefined ? undefined : interpolated(needed, flown);
  const share = have !== undefined && need !== undefined && have > 0 ? need / have : undefined;
  const match =
    share === undefined
      ? ''
      : `At ${withUnit(flown!, data.airspeed)} level flight takes ${shareText(share)} of the thrust there is${share > 1 ? ': it cannot hold height' : ''}. `;
  const most = top === undefined ? '' : `Top airspeed ${withUnit(top, data.airspeed)}. `;
  const links = data.chain.filter(({ efficiency }) => drawable(efficiency));
  const product = links.reduce((value, link) => value * link.efficiency, 1);
  const weakest = links.reduce<ChainLink | undefined>(
    (worst, link) => (worst === undefined || link.efficiency < worst.efficiency ? link : worst),
    undefined,
  );
  const chain =
    weakest === undefined
      ? ''
      : `Of the battery's power ${shareText(product)} moves the aircraft; the weakest link is the ${weakest.label} at ${shareText(weakest.efficiency)}.`;
  return `${match}${most}${chain}`.trim() || 'Thrust at full throttle and thrust needed against airspeed.';
}

/** What is left of the battery's power behind each link. */
function chainBlock(pen: Pen, chain: readonly ChainLink[], width: number, top: number): Block {
  if (chain.length === 0) return { height: 0, body: { markup: '' } };
  let left = 1;
  const heads = wrapText("what is left of the battery's power behind each link", tickSize, width - 10, 3);
  let y = top + heads.length * 15 + 1;
  const title = heads.map((line, i) => pen.text(8, top + 12 + i * 15, line, { size: tickSize, role: 'soft' }));
  const rows = chain.map(({ label, efficiency, note }, i) => {
    const share = drawable(efficiency) ? Math.min(1, Math.max(0, efficiency)) : 0;
    const before = left;
    left *= share;
    const words = `${label} ${shareText(efficiency)}, leaves ${shareText(left)}${note ? ` (${note})` : ''}`;
    const lines = wrapText(words, 13, width - 12, 3);
    const row = {
      left: 8,
      right: 8 + (width - 16) * left,
      top: y + 5 + lines.length * 16,
      bottom: y + 17 + lines.length * 16,
    };
    const lost = { ...row, left: row.right, right: 8 + (width - 16) * before };
    const first = y;
    y = row.bottom;
    return joined([
      ...lines.map((line, n) => pen.text(8, first + 16 + n * 16, line)),
      bar(pen, { ...row, right: width - 8 }, { stroke: 'rule' }),
      bar(pen, row, { fill: `part${(i % 5) as 0 | 1 | 2 | 3 | 4}`, stroke: 'edge' }),
      bar(pen, lost, { fill: 'paper', pattern: ['hatch', 'edge'], stroke: 'edge' }),
    ]);
  });
  return { height: y - top + 4, body: joined([...title, ...rows]) };
}

function driveTable(data: DriveData): Table {
  const needed = byX(data.needed);
  const speeds = byX(data.motorSpeed?.points ?? []);
  return {
    columns: [
      { key: 'airspeed', label: data.airspeed.label, unit: data.airspeed.unit },
      { key: 'available', label: `${data.thrust.label} at full throttle`, unit: data.thrust.unit },
      { key: 'needed', label: `${data.thrust.label} needed`, unit: data.thrust.unit },
      ...(data.motorSpeed
        ? [{ key: 'speed', label: data.motorSpeed.measure.label, unit: data.motorSpeed.measure.unit }]
        : []),
    ],
    rows: byX(data.available).map(([airspeed, available]) => ({
      airspeed,
      available,
      needed: interpolated(needed, airspeed),
      ...(data.motorSpeed ? { speed: interpolated(speeds, airspeed) } : {}),
    })),
  };
}
