import { emptyNote, finish, heading, straight, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, HitRegion, Point, Table } from '../model.js';
import { drawable, numberText, shareText, withUnit } from '../number.js';
import { drawablePoints } from '../scale.js';
import { type Child, type Paint, type Pen, penOf } from '../svg.js';
import { fitText, sentence } from '../text.js';
import type { CellPictureData, PictureCell } from './inputs.js';
import { cellLabel, closedPath, type MapStep, mapPlace, stepLegend } from './map.js';
import { edgeOf, stringLegend, stringWords, wiresOn } from './wires.js';

/** Classes by how far a cell falls behind the best. */
const steps: readonly (MapStep & { readonly behind: number })[] = [
  { behind: 0.02, words: 'within 2 % of the best', paint: { fill: 'sunlit' } },
  { behind: 0.05, words: '2 to 5 % behind', paint: { fill: 'above0', pattern: ['dots', 'edge'] } },
  { behind: 0.1, words: '5 to 10 %', paint: { fill: 'part1', pattern: ['hatch', 'edge'] } },
  { behind: 0.25, words: '10 to 25 %', paint: { fill: 'below2', pattern: ['cross', 'edge'] } },
  { behind: Number.POSITIVE_INFINITY, words: 'more', paint: { fill: 'below0', pattern: ['bars', 'paper'] } },
];

const paintOf = (value: number, best: number): Paint => {
  const behind = best > 0 ? 1 - value / best : 0;
  return steps.find((step) => behind < step.behind)!.paint;
};

type Sheet = CellPictureData['sheets'][number];

/** Every face that bears cells, laid flat, each cell by its energy or light beside the best one. */
export function cellPicture(data: CellPictureData, options: DrawOptions = {}): Drawing {
  const pen = penOf('cell-picture', options);
  const sheets = data.sheets.map(usable);
  const cells = sheets.flatMap((sheet) => sheet.cells);
  const best = cells.reduce((most, { value }) => Math.max(most, value), 0);
  const words = { title: `Cells of ${data.aircraft}`, text: pictureText(data, cells) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const made = { kind: 'cell-picture', ...words, table: pictureTable(data) };
  if (cells.length === 0) {
    const room = { left: 0, right: width, top: head.height, bottom: head.height + 60 };
    return finish(pen, options, { ...made, height: room.bottom, body: [head.body, emptyNote(pen, room, words.text)] });
  }
  const strings = new Set(cells.map(({ string }) => string)).size;
  const note =
    strings > 1
      ? 'Where two numbers fit on a cell, the first is that of its string.'
      : 'Fins stand on the thick lines.';
  const key = stepLegend(pen, steps, note, { top: head.height + 4, width });
  const wiring = stringLegend(pen, data, { top: head.height + 4 + key.height, width });
  const body: Child[] = [head.body, key.body, wiring.body];
  const hits: HitRegion[] = [];
  let top = head.height + key.height + wiring.height + 8;
  for (const sheet of width < narrow ? sheets.flatMap(halvesOf) : sheets) {
    body.push(pen.text(8, top + 12, fitText(sheet.label, 13, width - 16, true), { bold: true }));
    const drawn = drawSheet(pen, sheet, { top: top + 22, width, best, strings, data });
    body.push(...drawn.body);
    hits.push(...drawn.hits);
    top += 22 + drawn.height + 16;
  }
  return finish(pen, options, { ...made, height: top, body, hits });
}

function usable(sheet: Sheet): Sheet {
  const outlines = sheet.outlines.map(drawablePoints).filter((points) => points.length > 2);
  const cells = sheet.cells
    .filter(({ value }) => drawable(value) && value >= 0)
    .map((cell) => ({ ...cell, corners: drawablePoints(cell.corners) }))
    .filter(({ corners }) => corners.length > 2);
  const walls = sheet.walls.filter(({ line }) => drawablePoints(line).length === 2);
  return { ...sheet, outlines, cells, walls };
}

/** Below this width the halves of a surface stand one below the other [px]. */
const narrow = 560;

/** Left and right half of a face as faces of their own; a face of one piece stays. */
function halvesOf(sheet: Sheet): readonly Sheet[] {
  if (sheet.outlines.length < 2) return [sheet];
  return ([-1, 1] as const).flatMap((sign) => {
    const here = (points: readonly Point[]) => sign * points.reduce((sum, [, across]) => sum + across, 0) >= 0;
    const cells = sheet.cells.filter(({ corners }) => here(corners));
    if (cells.length === 0) return [];
    return [
      {
        label: `${sheet.label}, ${sign < 0 ? 'left' : 'right'} half`,
        outlines: sheet.outlines.filter(here),
        cells,
        walls: sheet.walls.filter(({ line }) => here(line)),
      },
    ];
  });
}

function drawSheet(
  pen: Pen,
  { outlines, cells, walls }: Sheet,
  at: { top: number; width: number; best: number; strings: number; data: CellPictureData },
): { readonly body: readonly Child[]; readonly hits: readonly HitRegion[]; readonly height: number } {
  const all = [...outlines.flat(), ...cells.flatMap(({ corners }) => corners), ...walls.flatMap(({ line }) => line)];
  const place = mapPlace(all, at);
  const placed = (points: readonly Point[]) => points.map(place.at);
  const chosen = cells.find(({ id }) => id === at.data.selected);
  return {
    height: place.height,
    body: [
      ...outlines.map((points) => pen.shape('path', closedPath(placed(points)), { fill: 'paper', stroke: 'edge' })),
      ...cells.map(({ corners, value }) => pen.shape('path', closedPath(placed(corners)), paintOf(value, at.best))),
      ...cells.map((cell) => pen.shape('path', closedPath(placed(cell.corners)), edgeOf(cell, at.strings))),
      ...wiresOn(pen, cells, at.data, placed),
      ...cells
        .filter(({ id }) => at.data.marked?.includes(id))
        .map(({ corners }) => pen.shape('path', closedPath(placed(corners)), { stroke: 'caution', width: 3 })),
      chosen && pen.shape('path', closedPath(placed(chosen.corners)), { stroke: 'ink', width: 4 }),
      ...walls.map(({ line }) => straight(pen, place.at(line[0]), place.at(line[1]), { stroke: 'ink', width: 4 })),
      ...cells.map((cell) => cellLabel(pen, placed(cell.corners), shortLabel(cell, at.strings, at.data))),
    ],
    hits: cells.map((cell) => ({
      id: cell.id,
      kind: 'cell',
      label: `${cell.label}, ${withUnit(cell.value, at.data.value)}${stringWords(cell, at.data)}`,
      polygon: placed(cell.corners),
    })),
  };
}

const shortLabel = ({ value, string }: PictureCell, strings: number, { value: measure }: CellPictureData): string =>
  `${strings > 1 && string !== undefined ? `${string}: ` : ''}${numberText(value, measure.decimals)}`;

function pictureText(data: CellPictureData, cells: readonly PictureCell[]): string {
  if (cells.length === 0) return `${data.aircraft} has no cells that are placed one by one.`;
  const sorted = [...cells].sort((a, b) => b.value - a.value);
  const [best, least] = [sorted[0]!, sorted.at(-1)!];
  if (!(best.value > 0)) return `${sentence(data.when)} the cells are dark.`;
  const mean = cells.reduce((sum, { value }) => sum + value, 0) / cells.length;
  const behind = 1 - least.value / best.value;
  const worst =
    behind < 0.005
      ? 'all alike'
      : `least ${least.label}, ${withUnit(least.value, data.value)}, ${shareText(behind)} behind the best`;
  return `${sentence(data.when)} a cell has ${withUnit(mean, data.value)} of ${data.value.label} in the mean of ${cells.length}; ${worst}.`;
}

const pictureTable = ({ sheets, value }: CellPictureData): Table => ({
  columns: [
    { key: 'face', label: 'face', unit: '' },
    { key: 'cell', label: 'cell', unit: '' },
    { key: 'string', label: 'string', unit: '' },
    { key: 'value', label: value.label, unit: value.unit },
  ],
  rows: sheets.flatMap((sheet) =>
    sheet.cells.map((cell) => ({
      face: sheet.label,
      cell: cell.label,
      string: cell.string,
      value: drawable(cell.value) ? Number(cell.value.toPrecision(4)) : undefined,
    })),
  ),
});
