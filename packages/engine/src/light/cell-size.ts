/** A cell, or a piece of a cut cell, as it is laid. */
export interface CellSize {
  /** Along the span and along the chord [m]. */
  readonly length: number;
  readonly width: number;
  /** Lit area [m2]. */
  readonly area: number;
  /** Of a whole cell: the share of its current. */
  readonly share: number;
  /** Number of cut corners: 4 on a pseudo-square cell, 2 on a half of it, 0 on strips. */
  readonly cutCorners: 0 | 2 | 4;
  /** Least radius that it is bent to without risk [m]. */
  readonly bendRadius: number;
}

/** How a whole cell is cut and laid. */
export interface CellCut {
  /** Into how many equal strips; 1 leaves it whole. */
  readonly parts: number;
  /** Whether the piece is turned so that its long side lies along the chord. */
  readonly turned?: boolean;
}

/**
 * Piece of a cell that is cut into equal strips across its width.
 * @param whole - length, width, area, bend radius of the whole cell [m, m, m2, m]
 * @param cut - parts, and how the piece is laid
 * @returns size of a piece as laid; the lit area in equal parts
 */
export function cutCell(
  whole: { readonly length: number; readonly width: number; readonly area: number; readonly bendRadius: number },
  cut: CellCut,
): CellSize {
  const { parts, turned = false } = cut;
  if (!(parts >= 1)) throw new RangeError('a cell is cut into one part or more');
  const [length, width] = [whole.length, whole.width / parts];
  const square = whole.length * whole.width > whole.area * 1.001;
  return {
    length: turned ? width : length,
    width: turned ? length : width,
    area: whole.area / parts,
    share: 1 / parts,
    cutCorners: !square ? 0 : parts === 1 ? 4 : parts === 2 ? 2 : 0,
    bendRadius: whole.bendRadius,
  };
}

/**
 * Outline of a cell about its middle, counter-clockwise, in axes along the span and along the chord (aft).
 * Corners are cut at 45 degrees so that the lit area is left.
 * @returns pairs [span, chord] [m]
 */
export function cellOutline(size: CellSize): readonly (readonly [number, number])[] {
  const [a, b] = [size.length / 2, size.width / 2];
  const missing = Math.max(0, size.length * size.width - size.area);
  if (size.cutCorners === 0 || missing < 1e-7) {
    return [
      [a, b],
      [-a, b],
      [-a, -b],
      [a, -b],
    ];
  }
  const cut = Math.min(Math.sqrt((2 * missing) / size.cutCorners), a, b);
  const rear: [number, number][] = [
    [a, b - cut],
    [a - cut, b],
    [cut - a, b],
    [-a, b - cut],
  ];
  return size.cutCorners === 2
    ? [...rear, [-a, -b], [a, -b]]
    : [...rear, [-a, cut - b], [cut - a, -b], [a - cut, -b], [a, cut - b]];
}
