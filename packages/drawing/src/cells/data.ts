import type { Measure, Point } from '../model.js';
import type { CellPictureData } from './inputs.js';

/** A face laid flat, as computed: cells by their index in the array. */
export interface FlatFace {
  readonly surface: string;
  readonly face: 'upper' | 'lower';
  readonly outlines: readonly (readonly Point[])[];
  readonly cells: readonly {
    readonly index: number;
    readonly row: string;
    /** In its row on its side, from 0 at the root. */
    readonly place: number;
    readonly side: 'right' | 'left';
    readonly corners: readonly Point[];
    /** From 0. */
    readonly string?: number;
    readonly position?: number;
  }[];
  readonly walls: CellPictureData['sheets'][number]['walls'];
}

/** Name of a cell in words. */
export const cellWords = ({ row, place, side }: FlatFace['cells'][number]): string =>
  `cell ${place + 1} of row "${row}", ${side} side`;

/**
 * Data of the picture of cells.
 * @param values - of every cell by its index
 */
export function cellPictureData(of: {
  readonly aircraft: string;
  readonly when: string;
  readonly value: Measure;
  readonly faces: readonly FlatFace[];
  readonly values: ArrayLike<number>;
  readonly selected?: number;
  readonly marked?: readonly number[];
  /** Cells that a diode takes out. */
  readonly bypassed?: readonly number[];
  readonly strings?: CellPictureData['strings'];
}): CellPictureData {
  const { aircraft, when, value, faces, values, selected, marked, strings } = of;
  const out = new Set(of.bypassed);
  return {
    aircraft,
    when,
    value,
    sheets: faces.map(({ surface, face, outlines, cells, walls }) => ({
      label: `${surface}, from ${face === 'upper' ? 'above' : 'below'}`,
      outlines,
      walls,
      cells: cells.map((cell) => ({
        id: String(cell.index),
        label: cellWords(cell),
        corners: cell.corners,
        value: values[cell.index] ?? Number.NaN,
        ...(cell.string === undefined ? {} : { string: cell.string + 1 }),
        ...(cell.position === undefined ? {} : { position: cell.position }),
        ...(out.has(cell.index) ? { bypassed: true } : {}),
      })),
    })),
    ...(selected === undefined ? {} : { selected: String(selected) }),
    ...(marked === undefined ? {} : { marked: marked.map(String) }),
    ...(strings === undefined ? {} : { strings }),
  };
}
