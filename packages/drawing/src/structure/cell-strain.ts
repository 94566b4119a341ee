import { cellLabel, closedPath, type MapStep, mapPlace, stepLegend } from '../cells/map.js';
import { emptyNote, finish, heading, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Point, Table } from '../model.js';
import { drawable, known, shareText } from '../number.js';
import { drawablePoints } from '../scale.js';
import { penOf } from '../svg.js';
import { sentence } from '../text.js';
import type { CellStrainData, StrainCell } from './inputs.js';

interface Step extends MapStep {
  readonly below: number;
}

/** Steps of the share; each has its own pattern, so that the colour says nothing alone. */
const steps: readonly Step[] = [
  { below: 0.25, words: 'under 25 %', paint: { fill: 'paper' } },
  { below: 0.5, words: '25 to 50 %', paint: { fill: 'above0', pattern: ['dots', 'edge'] } },
  { below: 0.75, words: '50 to 75 %', paint: { fill: 'above1', pattern: ['hatch', 'edge'] } },
  { below: 1, words: '75 to 100 %', paint: { fill: 'above2', pattern: ['cross', 'edge'] } },
  { below: Number.POSITIVE_INFINITY, words: 'above 100 %', paint: { fill: 'caution' } },
];

const stepOf = (share: number): Step => steps.find(({ below }) => share < below)!;

/** The aircraft from above, each cell by how much of the strain that cracks a usual one it bears. */
export function cellStrain(data: CellStrainData, options: DrawOptions = {}): Drawing {
  const pen = penOf('cell-strain', options);
  const cells = data.cells
    .filter(({ share }) => drawable(share) && share >= 0)
    .map((cell) => ({ ...cell, corners: drawablePoints(cell.corners) }))
    .filter(({ corners }) => corners.length > 2);
  const worst = worstOf(cells);
  const words = { title: `Strain of the cells of ${data.aircraft}`, text: strainText(data, cells, worst) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const made = { kind: 'cell-strain', ...words, table: cellTable(data) };
  if (worst === undefined) {
    const room = { left: 0, right: width, top: head.height, bottom: head.height + 60 };
    return finish(pen, options, { ...made, height: room.bottom, body: [head.body, emptyNote(pen, room, words.text)] });
  }
  const outlines = data.outlines.map(drawablePoints).filter((points) => points.length > 2);
  const all = [...outlines.flat(), ...cells.flatMap(({ corners }) => corners)];
  const key = stepLegend(pen, steps, 'Strain over the one at which a usual cell cracks; the worst is framed.', {
    top: head.height + 4,
    width,
  });
  const top = head.height + key.height + 12;
  const place = mapPlace(all, { top, width });
  const path = (points: readonly Point[]) => closedPath(points.map(place.at));
  return finish(pen, options, {
    ...made,
    height: top + place.height + 12,
    body: [
      head.body,
      key.body,
      ...outlines.map((points) => pen.shape('path', path(points), { fill: 'paper', stroke: 'edge' })),
      ...cells.map(({ corners, share }) =>
        pen.shape('path', path(corners), { ...stepOf(share).paint, stroke: 'edge', width: 0.75 }),
      ),
      pen.shape('path', path(worst.corners), { stroke: 'ink', width: 3 }),
      ...cells.map(({ corners, share }) => cellLabel(pen, corners.map(place.at), shareNumber(share), share >= 1)),
    ],
    hits: cells.map(({ id, label, share, corners }) => ({
      id,
      kind: 'cell',
      label: `${label}, ${shareText(share)}`,
      polygon: corners.map(place.at),
    })),
  });
}

const worstOf = (cells: readonly StrainCell[]): StrainCell | undefined =>
  cells.reduce<StrainCell | undefined>(
    (most, cell) => (most === undefined || cell.share > most.share ? cell : most),
    undefined,
  );

/** In per cent. */
const shareNumber = (share: number): string => String(Math.round(Math.min(999, 100 * share)));

const chanceText = ([value, low, high]: NonNullable<StrainCell['chance']>): string =>
  shareText(low) === shareText(high)
    ? shareText(value)
    : `${shareText(value)} (${shareText(low)} to ${shareText(high)})`;

function strainText(data: CellStrainData, cells: readonly StrainCell[], worst: StrainCell | undefined): string {
  if (worst === undefined) return `${data.aircraft} has no cells on a surface whose structure is described.`;
  const chance = worst.chance === undefined ? '' : `, chance that it cracks ${chanceText(worst.chance)}`;
  const over = cells.filter(({ share }) => share >= 1).length;
  const many = over === 0 ? 'None is above' : `${over} of ${cells.length} are above`;
  return `${sentence(data.when)} the worst cell is ${worst.label}: ${shareText(worst.share)} of the strain that cracks a usual cell${chance}. ${many} that strain.`;
}

const cellTable = ({ cells }: CellStrainData): Table => ({
  columns: [
    { key: 'label', label: 'cell', unit: '' },
    { key: 'share', label: 'strain over that of cracking', unit: '%' },
    { key: 'chance', label: 'chance that it cracks', unit: '%' },
    { key: 'low', label: 'at least', unit: '%' },
    { key: 'high', label: 'at most', unit: '%' },
  ],
  rows: cells.map(({ label, share, chance }) => ({
    label,
    share: percent(share),
    chance: percent(chance?.[0]),
    low: percent(chance?.[1]),
    high: percent(chance?.[2]),
  })),
});

const percent = (share: number | undefined): number | undefined => {
  const value = known(share);
  return value === undefined ? undefined : Number((100 * value).toPrecision(3));
};
