import type { ArrayLosses } from '@noonwing/verdict/array-losses';
import type { CellSheet } from '@noonwing/verdict/cell-sheets';
import type { CellsNow } from '@noonwing/verdict/cells-now';
import type { ShadeCourse } from '@noonwing/verdict/shade-course';
import type { CasterNow } from '@noonwing/verdict/shade-now';
import type { wiringPicture } from '@noonwing/verdict/wiring-words';

/** A cell where it lies, and its first day. */
export interface ArrayCellView {
  readonly row: string;
  readonly side: 'right' | 'left';
  readonly surface: string;
  readonly face: 'upper' | 'lower';
  /** In its row on its side, from 0 at the root. */
  readonly place: number;
  /** Of a whole cell. */
  readonly share: number;
  /** [m2] */
  readonly area: number;
  /** Sharpest bend [m]; absent on a flat surface. */
  readonly bendRadius?: number;
  /** Middle [m]. */
  readonly centre: readonly [x: number, y: number, z: number];
  /** Index of its string, and its place in the wiring from 0. */
  readonly string?: number;
  readonly position?: number;
  /** Over the day: light that gets in, light that shade takes, electricity at its own maximum [J]. */
  readonly light: number;
  readonly shade: number;
  readonly electricity: number;
}

export interface ArrayStringView {
  readonly name: string;
  readonly converter: string;
  /** Of one of the strings that lie side by side, and how many do. */
  readonly cells: number;
  readonly parallel: number;
  /** Bypass diodes, each over the cells [from, to) of one string, from 0. */
  readonly diodes: readonly { readonly from: number; readonly to: number }[];
}

/** Everything about the array: its first day under a sky, and an instant of it. */
export interface ArrayView {
  readonly aircraft: string;
  readonly sky: string;
  readonly hour: number;
  readonly heading: number;
  readonly cells: readonly ArrayCellView[];
  readonly sheets: readonly CellSheet[];
  readonly strings: readonly ArrayStringView[];
  readonly now?: CellsNow;
  readonly casters: readonly CasterNow[];
  readonly shade?: ShadeCourse;
  readonly losses?: ArrayLosses;
  readonly wiring?: {
    readonly picture: ReturnType<typeof wiringPicture>;
    /** What each compass feels, in words. */
    readonly compass: readonly string[];
    readonly warnings: readonly string[];
  };
}
