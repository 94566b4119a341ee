import { type Grid, surfaceGrid } from './grid.js';
import type { SurfacePart } from './input-types.js';
import type { MeshNode, PlateElement, PlateProperties } from './model-types.js';

/** Hands out unknowns one after another. */
export interface DofCounter {
  next: number;
}

/** Nodes, triangles and hinges of one surface. */
export interface RawMesh {
  readonly grid: Grid;
  readonly nodes: MeshNode[];
  readonly triangles: number[];
  readonly controlOf: string[];
  readonly plates: PlateElement[];
  readonly hinges: readonly {
    readonly name: string;
    readonly y: number[];
    readonly surfaceSlope: number[];
    readonly controlSlope: number[];
  }[];
}

/** Which control each cell of the grid belongs to. */
function cellControls(surface: SurfacePart, grid: Grid): string[][] {
  return grid.y.slice(1).map((outer, i) => {
    const middle = (outer + grid.y[i]) / 2;
    const control = surface.controls.find(({ fromY, toY }) => middle > fromY && middle < toY);
    return grid.fractions[i].slice(1).map((_, j) => {
      if (control === undefined) return '';
      return j >= (grid.hingeLine.get(control.name) ?? Number.POSITIVE_INFINITY) ? control.name : '';
    });
  });
}

interface CornerNodes {
  readonly nodes: MeshNode[];
  /** Index of the node at a corner of the grid, as part of a control or ('') of the surface. */
  readonly at: (i: number, j: number, control: string) => number;
}

/** Node of each corner of the grid for each region that meets there: a control has its own nodes aft of its hinge. */
function cornerNodes(grid: Grid, counter: DofCounter): CornerNodes {
  const nodes: MeshNode[] = [];
  const found = new Map<string, number>();
  const at = (i: number, j: number, control: string): number => {
    const key = `${i} ${j} ${control}`;
    const known = found.get(key);
    if (known !== undefined) return known;
    const onHinge = control !== '' && grid.hingeLine.get(control) === j;
    const shared = onHinge ? nodes[at(i, j, '')].dofs : undefined;
    const fresh = () => counter.next++;
    // On the hinge the control follows the surface, but turns by itself.
    const dofs: [number, number, number] =
      shared === undefined ? [fresh(), fresh(), fresh()] : [shared[0], fresh(), shared[2]];
    nodes.push({ x: grid.leadingEdge[i] + grid.fractions[i][j] * grid.chord[i], y: grid.y[i], dofs });
    found.set(key, nodes.length - 1);
    return nodes.length - 1;
  };
  return { nodes, at };
}

/**
 * Triangles of a surface. Each cell of the grid is cut along a diagonal, alternately, so that no direction is preferred.
 * @param reverse - number nodes from the tip inwards, which keeps the wing's unknowns near those of the body
 */
export function meshSurface(surface: SurfacePart, corners: number, counter: DofCounter, reverse: boolean): RawMesh {
  const grid = surfaceGrid(surface, corners);
  const controls = cellControls(surface, grid);
  const made = cornerNodes(grid, counter);
  const triangles: number[] = [];
  const controlOf: string[] = [];
  const strips = grid.y.slice(1).map((_, i) => i);
  for (const i of reverse ? strips.reverse() : strips) {
    // Corners of the outer edge first, so that unknowns are numbered strip by strip.
    const order = reverse ? [i + 1, i] : [i, i + 1];
    for (const row of order)
      controls[i].forEach((control, j) => void [made.at(row, j, control), made.at(row, j + 1, control)]);
    controls[i].forEach((control, j) => {
      const [a, b] = [made.at(i, j, control), made.at(i, j + 1, control)];
      const [c, d] = [made.at(i + 1, j + 1, control), made.at(i + 1, j, control)];
      triangles.push(...((i + j) % 2 === 0 ? [a, b, c, a, c, d] : [a, b, d, b, c, d]));
      controlOf.push(control, control);
    });
  }
  return {
    grid,
    nodes: made.nodes,
    triangles,
    controlOf,
    plates: platesOf(surface, grid, made.nodes, triangles),
    hinges: surface.controls.map(({ name }) => hingeOf(name, grid, controls, made)),
  };
}

/** Three places in the third of a triangle beside its side pq. */
const thirdOf = (p: MeshNode, q: MeshNode, r: MeshNode) =>
  [
    [0.72, 0.22, 0.06],
    [0.22, 0.72, 0.06],
    [0.36, 0.36, 0.28],
  ].map(([i, j, k]) => ({ x: i * p.x + j * q.x + k * r.x, y: i * p.y + j * q.y + k * r.y }));

/** Mean of plates: steps of skins and cells inside an element enter with the part of it that they cover. */
function meanPlate(plates: readonly PlateProperties[]): PlateProperties {
  const mean = (of: (plate: PlateProperties) => number) =>
    plates.reduce((sum, plate) => sum + of(plate), 0) / plates.length;
  const shear = plates.every((plate) => plate.shear !== undefined)
    ? { shear: { aft: mean((plate) => plate.shear?.aft ?? 0), out: mean((plate) => plate.shear?.out ?? 0) } }
    : {};
  return {
    d11: mean(({ d11 }) => d11),
    d12: mean(({ d12 }) => d12),
    d22: mean(({ d22 }) => d22),
    d16: mean(({ d16 }) => d16),
    d26: mean(({ d26 }) => d26),
    d66: mean(({ d66 }) => d66),
    arealMass: mean(({ arealMass }) => arealMass),
    heatCurvature: mean(({ heatCurvature }) => heatCurvature),
    ...shear,
  };
}

/** Plate beside the middles of the sides of each triangle. */
function platesOf(
  surface: SurfacePart,
  grid: Grid,
  nodes: readonly MeshNode[],
  triangles: readonly number[],
): PlateElement[] {
  const plates: PlateElement[] = [];
  const at = (x: number, y: number): PlateProperties => {
    const i = grid.y.findIndex((line, index) => index + 1 < grid.y.length && y <= grid.y[index + 1] && y >= line);
    const share = (y - grid.y[i]) / (grid.y[i + 1] - grid.y[i]);
    const edge = grid.leadingEdge[i] + share * (grid.leadingEdge[i + 1] - grid.leadingEdge[i]);
    const chord = grid.chord[i] + share * (grid.chord[i + 1] - grid.chord[i]);
    return surface.plateAt(y, Math.min(1, Math.max(0, (x - edge) / chord)));
  };
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [nodes[triangles[t]], nodes[triangles[t + 1]], nodes[triangles[t + 2]]];
    const inside = (p: MeshNode, q: MeshNode, r: MeshNode) => meanPlate(thirdOf(p, q, r).map(({ x, y }) => at(x, y)));
    plates.push({ plate: [inside(a, b, c), inside(b, c, a), inside(c, a, b)] });
  }
  return plates;
}

function hingeOf(name: string, grid: Grid, controls: readonly (readonly string[])[], made: CornerNodes) {
  const line = grid.hingeLine.get(name) ?? 0;
  const y: number[] = [];
  const surfaceSlope: number[] = [];
  const controlSlope: number[] = [];
  grid.y.forEach((at, i) => {
    if (controls[i]?.[line] !== name && controls[i - 1]?.[line] !== name) return;
    y.push(at);
    surfaceSlope.push(made.nodes[made.at(i, line, '')].dofs[1]);
    controlSlope.push(made.nodes[made.at(i, line, name)].dofs[1]);
  });
  return { name, y, surfaceSlope, controlSlope };
}
