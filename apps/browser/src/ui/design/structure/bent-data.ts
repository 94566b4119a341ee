import type { CellStrainData, Point, UnderLoadData } from '@noonwing/drawing';
import { fixed } from '../../../core/decimal.js';
import { type Said, speedWords } from '../../../core/said.js';
import type { ShapeView, SurfaceShape } from '../../../core/view.js';
import type { UnderLoadView } from '../../../core/view-limits-types.js';

const mm = { label: 'length', unit: 'mm' };
const millimetres = (metres: number): number => 1000 * metres;

/** 'at 8.4 m/s and 2 g' */
export const caseWords = (
  { airspeed, loadFactor }: Pick<UnderLoadView, 'airspeed' | 'loadFactor'>,
  said: Said,
): string => `at ${speedWords(airspeed, said)} and ${fixed(loadFactor, 1)} g`;

interface Edge {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly chord: number;
  readonly twist: number;
}

/** Leading edge and chord at a share of the span, straight between stations. */
export function edgeAt({ stations }: Pick<SurfaceShape, 'stations'>, share: number): Edge {
  const steps = stations.slice(1).map((outer, i) => Math.hypot(outer.y - stations[i]!.y, outer.z - stations[i]!.z));
  let rest = Math.min(1, Math.max(0, share)) * steps.reduce((sum, step) => sum + step, 0);
  let i = 0;
  while (i < steps.length - 1 && rest > steps[i]!) rest -= steps[i++]!;
  const [a, b] = [stations[i]!, stations[i + 1] ?? stations[i]!];
  const f = steps[i]! > 0 ? rest / steps[i]! : 0;
  const of = (key: keyof Edge) => a[key] + (b[key] - a[key]) * f;
  return { x: of('x'), y: of('y'), z: of('z'), chord: of('chord'), twist: of('twist') };
}

/** The aircraft with its surfaces bent, rises enlarged so many times, for the picture in three dimensions. */
export const bentShape = (shape: ShapeView, view: UnderLoadView, times: number): ShapeView => ({
  ...shape,
  surfaces: shape.surfaces.map((surface) => {
    const found = view.surfaces.find(({ name }) => name === surface.name);
    if (found === undefined) return surface;
    const bend = {
      shares: found.chords.map(({ share }) => share),
      rises: found.chords.map(({ rise }) => rise.map((each) => times * each)),
    };
    return { ...surface, bend };
  }),
});

/** Shape at rest and under load for its drawing. */
export function underLoadData(
  shape: ShapeView,
  view: UnderLoadView,
  options: { readonly aircraft: string; readonly times: number; readonly said: Said },
): UnderLoadData {
  const surfaces = view.surfaces.flatMap(({ name, chords }) => {
    const surface = shape.surfaces.find((one) => one.name === name);
    if (surface === undefined || surface.stations.length < 2) return [];
    const strips = chords.map(({ share, rise }) => {
      const { x, y, z, chord, twist } = edgeAt(surface, share);
      const rest = rise.map((_, k): Point => {
        const aft = (k / Math.max(1, rise.length - 1)) * chord;
        return [millimetres(x + aft * Math.cos(twist)), millimetres(z - aft * Math.sin(twist))];
      });
      const bent = rest.map(([px, pz], k): Point => [px, pz + millimetres(rise[k]!)]);
      return { y: millimetres(y), rest, bent };
    });
    return [{ id: name, label: name, mirrored: surface.mirrored, strips }];
  });
  return {
    aircraft: options.aircraft,
    when: caseWords(view, options.said),
    length: mm,
    exaggeration: options.times,
    surfaces,
  };
}

/** Outline of a surface from above, on both sides where mirrored. */
function outlines(surface: SurfaceShape): readonly (readonly Point[])[] {
  const { stations, mirrored } = surface;
  const right = [
    ...stations.map(({ x, y }): Point => [millimetres(x), millimetres(y)]),
    ...stations.toReversed().map(({ x, y, chord }): Point => [millimetres(x + chord), millimetres(y)]),
  ];
  return mirrored ? [right, right.map(([x, y]): Point => [x, -y])] : [right];
}

/** Cells from above by how much they bear. */
export function cellStrainData(shape: ShapeView, view: UnderLoadView, aircraft: string, said: Said): CellStrainData {
  const carrying = new Set(view.cells.map(({ surface }) => surface));
  const surfaces = shape.surfaces.filter(({ name, stations }) => carrying.has(name) && stations.length > 1);
  return {
    aircraft,
    when: caseWords(view, said),
    outlines: surfaces.flatMap(outlines),
    cells: view.cells.flatMap((cell) => {
      const surface = surfaces.find(({ name }) => name === cell.surface);
      if (surface === undefined) return [];
      const sign = cell.side === 'left' ? -1 : 1;
      const corner = (span: number, along: number): Point => {
        const { x, y, chord } = edgeAt(surface, span);
        return [millimetres(x + along * chord), sign * millimetres(y)];
      };
      const [inner, outer] = cell.span;
      const [front, back] = cell.chord;
      const { value, low, high } = cell.chance;
      return [
        {
          id: `${cell.row} ${cell.side} ${cell.number}`,
          label: `cell ${cell.number} of ${cell.row}, ${cell.side} side`,
          corners: [corner(inner, front), corner(outer, front), corner(outer, back), corner(inner, back)],
          share: cell.share,
          chance: [value, low, high] as const,
        },
      ];
    }),
  };
}
