import type { LiftingSurface } from '../shape/index.js';
import { stationDistances } from '../shape/index.js';
import {
  type ControlHinge,
  type HalfModel,
  type PointRow,
  pointRow,
  type StructuralModel,
} from '../structure/index.js';
import type { Lattice } from '../wing/lattice.js';
import { thinFlap } from '../wing/thin.js';

/**
 * Normal displacement and slope of every panel as rows of the unknowns of a half structure, row-major panels x size. Surfaces that the
 * structure does not hold move with the aircraft as a whole: their rows are zero.
 */
export interface PanelRows {
  readonly panels: number;
  readonly size: number;
  /** Displacement at the middle of the bound vortex, where the force acts. */
  readonly force: Float64Array;
  /** Displacement and slope aft at the control point. */
  readonly control: Float64Array;
  readonly slope: Float64Array;
}

type Sparse = readonly [dofs: ArrayLike<number>, weights: Float64Array];

function addRow(half: HalfModel, into: Float64Array, panel: number, factor: number, [dofs, weights]: Sparse): void {
  for (let i = 0; i < dofs.length; i++) {
    const index = half.indexOf[dofs[i]];
    if (index >= 0) into[panel * half.size + index] += factor * weights[i];
  }
}

/** Turn of a control against its surface at a distance along the span: slope behind less slope ahead of the hinge. */
function hingeJump({ y, surfaceSlope, controlSlope }: ControlHinge, at: number): Sparse {
  let k = 0;
  while (k < y.length - 2 && y[k + 1] < at) k++;
  const share = Math.min(1, Math.max(0, (at - y[k]) / (y[k + 1] - y[k])));
  return [
    [surfaceSlope[k], controlSlope[k], surfaceSlope[k + 1], controlSlope[k + 1]],
    Float64Array.of(share - 1, 1 - share, -share, share),
  ];
}

/** What one panel needs to know of its strip. */
interface StripPlace {
  readonly name: string;
  /** Distance along the surface, as the structure counts y. */
  readonly along: number;
  readonly count: number;
  readonly hinge:
    | { readonly control: string; readonly jump: Sparse; readonly pattern: Float64Array; readonly x: number }
    | undefined;
}

/** Where the structure holds a strip; undefined where it does not. surfaces - of the shape that the lattice was built from, in its order */
export function placeOf(
  lattice: Lattice,
  surfaces: readonly LiftingSurface[],
  model: StructuralModel,
  strip: number,
): StripPlace | undefined {
  const { strips, firstPanel, thin } = lattice;
  const surface = surfaces[strips.surface[strip]];
  if (!model.surfaces.some(({ name }) => name === surface.name)) return undefined;
  const length = stationDistances(surface).at(-1)!;
  const along = surface.stations[0].y + strips.station[strip] * length;
  const count = firstPanel[strip + 1] - firstPanel[strip];
  const hinge = model.controls.find(
    (control) => control.surface === surface.name && along > control.y[0] && along < control.y[control.y.length - 1],
  );
  const definition = surface.controls.find(({ name }) => name === hinge?.name);
  if (hinge === undefined || definition === undefined) return { name: surface.name, along, count, hinge: undefined };
  const pattern = thinFlap(definition.chordFraction, thin.get(count)!).map((value) => value * definition.effectiveness);
  const leading = strips.x[strip] - strips.chord[strip] / 4;
  const x = leading + (1 - definition.chordFraction) * strips.chord[strip];
  return {
    name: surface.name,
    along,
    count,
    hinge: { control: hinge.name, jump: hingeJump(hinge, along), pattern, x },
  };
}

/** One row as sums of parts, each of unknowns of the whole structure with a factor. */
type Sum = readonly (readonly [factor: number, part: Sparse])[];

/** Where the structure holds a panel: its rows of the unknowns of the whole structure. */
export interface HeldPanel {
  readonly panel: number;
  readonly force: Sum;
  readonly control: Sum;
  readonly slope: Sum;
}

/**
 * Panels of a lattice that the structure holds, by its own unknowns: the same for both halves of the motion.
 * Behind a hinge the turn of the control enters as a deflection does in the wing's own model (Glauert's flap, and its effectiveness), so that
 * the place of the hinge between two panels does not matter.
 *
 * surfaces - of the shape that the lattice was built from, in its order
 */
export function heldPanels(
  lattice: Lattice,
  surfaces: readonly LiftingSurface[],
  model: StructuralModel,
): readonly HeldPanel[] {
  const { strips, firstPanel, ends, points } = lattice;
  const held: HeldPanel[] = [];
  for (let s = 0; s < strips.count; s++) {
    const place = placeOf(lattice, surfaces, model, s);
    if (place === undefined) continue;
    const up = strips.nz[s];
    for (let k = 0; k < place.count; k++) {
      const panel = firstPanel[s] + k;
      const at = (x: number): PointRow => pointRow(model, place.name, x, place.along);
      const force = at((ends[6 * panel] + ends[6 * panel + 3]) / 2);
      const control = at(points[3 * panel]);
      const own = [up, [control.dofs, control.slopeX]] as const;
      const behind = place.hinge !== undefined && points[3 * panel] > place.hinge.x ? 1 : 0;
      held.push({
        panel,
        force: [[up, [force.dofs, force.w]]],
        control: [[up, [control.dofs, control.w]]],
        slope: place.hinge === undefined ? [own] : [own, [up * (place.hinge.pattern[k] - behind), place.hinge.jump]],
      });
    }
  }
  return held;
}

/**
 * Rows of the panels of one half of a lattice.
 *
 * panels - how many of the lattice: mirrored ones in symmetric motion, all in antisymmetric
 */
export function panelRows(held: readonly HeldPanel[], half: HalfModel, panels: number): PanelRows {
  const zeros = () => new Float64Array(panels * half.size);
  const rows = { panels, size: half.size, force: zeros(), control: zeros(), slope: zeros() };
  for (const { panel, force, control, slope } of held) {
    if (panel >= panels) continue;
    for (const [factor, part] of force) addRow(half, rows.force, panel, factor, part);
    for (const [factor, part] of control) addRow(half, rows.control, panel, factor, part);
    for (const [factor, part] of slope) addRow(half, rows.slope, panel, factor, part);
  }
  return rows;
}
