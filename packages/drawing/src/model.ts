import type { ThemeName } from './palette.js';

/** How one quantity is named and written. Values come converted already: a drawing never chooses a unit. */
export interface Measure {
  /** In words, for instance "level power". */
  readonly label: string;
  /** As written behind the number, for instance "W"; empty for a plain number. */
  readonly unit: string;
  /** Decimals of readings; by size where absent. */
  readonly decimals?: number;
}

/** Two ends, low first. */
export type Span = readonly [low: number, high: number];

/** A point of a series, in the units of its axes. */
export type Point = readonly [x: number, y: number];

/** How a drawing is made; every field has a default. */
export interface DrawOptions {
  /** [px of CSS], default 640; drawings arrange themselves for 280 and more. */
  readonly width?: number;
  /** [px of CSS]; by the content where absent. Drawings whose content decides the height take no other. */
  readonly height?: number;
  /** Prefix of ids inside the SVG; give each drawing of a page its own. */
  readonly id?: string;
  /** Colours written into the SVG, for files, pictures and paper; without it only classes, coloured by the style sheet. */
  readonly standalone?: boolean;
  /** Theme of the colours of a standalone drawing; default "light". */
  readonly theme?: ThemeName;
  /** Title and finding drawn above the chart; by default only where standalone. */
  readonly heading?: boolean;
}

export interface TableColumn {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
}

/** The drawing's data; numbers as plotted, absent where not defined. */
export interface Table {
  readonly columns: readonly TableColumn[];
  readonly rows: readonly Readonly<Record<string, number | string | undefined>>[];
}

export type ScaleKind = 'linear' | 'hour' | 'day of year' | 'latitude';

/** An axis as plain data: position [px] = range interpolated linearly over domain. */
export interface PlainScale {
  readonly id: string;
  readonly kind: ScaleKind;
  readonly label: string;
  readonly unit: string;
  readonly domain: Span;
  /** [px]; the first belongs to the low end of the domain, so that y ranges run downwards. */
  readonly range: readonly [number, number];
}

/** A curve as drawn, for reading values. */
export interface PlotSeries {
  readonly id: string;
  readonly label: string;
  readonly unit: string;
  readonly decimals?: number;
  /** Ids of the scales it is drawn over. */
  readonly xScale: string;
  readonly yScale: string;
  /** By increasing x where it can be read at an x. */
  readonly points: readonly Point[];
  /** Read as steps: the value holds until the next point. */
  readonly stepped?: boolean;
}

/** Something in a drawing that can be pointed at. */
export interface HitRegion {
  readonly id: string;
  readonly kind: string;
  readonly label: string;
  /** Corners [px]. */
  readonly polygon: readonly Point[];
}

/** What every function of this package returns: plain data, nothing that holds on to a page. */
export interface Drawing {
  readonly kind: string;
  readonly svg: string;
  readonly title: string;
  /** The finding in words, and the text alternative. */
  readonly text: string;
  readonly table: Table;
  readonly size: { readonly width: number; readonly height: number };
  readonly scales: readonly PlainScale[];
  readonly series: readonly PlotSeries[];
  readonly hits: readonly HitRegion[];
}

/** A value read at the cursor. */
export interface Reading {
  readonly id: string;
  readonly label: string;
  readonly value: number;
  readonly unit: string;
  /** Label, value and unit as words. */
  readonly text: string;
  /** Where the value stands in the drawing [px]. */
  readonly at: Point;
}
