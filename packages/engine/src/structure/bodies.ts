import type { BeamProperties } from './beam.js';
import { addBeamBetween, type BeamEnd } from './beamLine.js';
import type { System } from './build.js';
import type { BodyPart, HalfAircraft } from './input-types.js';
import type { DofCounter } from './mesh.js';
import type { BodyLine, MeshNode, SurfaceMesh } from './model-types.js';
import { nodeRow } from './rows.js';

/** Bodies as beams along x; what they add to the system is added later, when the number of unknowns is known. */
export interface Chains {
  readonly lines: readonly BodyLine[];
  readonly elements: readonly ((system: System) => void)[];
  /** Own nodes in the plane of symmetry. */
  readonly middleDofs: readonly (readonly [number, number, number])[];
}

const LEAST_ELEMENT = 0.004;

/** Nodes of a surface that lie on a line along x: its fixed part, at the mesh line nearest to y. */
function nodesAlong(mesh: SurfaceMesh, y: number): MeshNode[] {
  const fixed = new Set<number>();
  mesh.triangles.forEach((node, i) => {
    if (mesh.controlOf[Math.floor(i / 3)] === '') fixed.add(node);
  });
  const usable = mesh.nodes.filter((_, i) => fixed.has(i));
  const nearest = usable.reduce(
    (best, node) => (Math.abs(node.y - y) < Math.abs(best - y) ? node.y : best),
    Number.POSITIVE_INFINITY,
  );
  return usable.filter((node) => Math.abs(node.y - nearest) < 1e-9).sort((a, b) => a.x - b.x);
}

/** Sum of the beams that cover a place; between bodies that do not touch, the stiffness of the nearest. */
function coverAt(bodies: readonly BodyPart[], x: number): BeamProperties {
  const covering = bodies.filter(({ fromX, toX }) => x >= fromX && x <= toX);
  if (covering.length === 0) {
    const gap = ({ fromX, toX }: BodyPart) => Math.max(fromX - x, x - toX);
    const nearest = bodies.reduce((a, b) => (gap(b) < gap(a) ? b : a));
    return { ...nearest.at, linearMass: 0 };
  }
  const sum = (of: (at: BeamProperties) => number) => covering.reduce((total, { at }) => total + of(at), 0);
  return {
    bending: sum(({ bending }) => bending),
    torsion: sum(({ torsion }) => torsion),
    linearMass: sum(({ linearMass }) => linearMass),
    ...(covering.every(({ at }) => at.shear !== undefined) ? { shear: sum(({ shear }) => shear ?? 0) } : {}),
  };
}

const halved = (at: BeamProperties): BeamProperties => ({
  bending: at.bending / 2,
  torsion: at.torsion / 2,
  linearMass: at.linearMass / 2,
  ...(at.shear === undefined ? {} : { shear: at.shear / 2 }),
});

interface Mount {
  readonly mesh: SurfaceMesh;
  readonly nodes: readonly MeshNode[];
}

/** Surfaces that a line of bodies crosses, and those in its plane that it must reach. */
function mountsOf(aircraft: HalfAircraft, surfaces: readonly SurfaceMesh[], y: number): Mount[] {
  return aircraft.surfaces.flatMap((surface, i) => {
    const [root, tip] = [surface.stations[0].y, surface.stations[surface.stations.length - 1].y];
    if (y < root - 1e-6 || y > tip + 1e-6) return [];
    return [{ mesh: surfaces[i], nodes: nodesAlong(surfaces[i], y) }];
  });
}

/** Mount nodes within the bodies; where they do not reach a surface, its nearest node. */
function attachments(mounts: readonly Mount[], bodies: readonly BodyPart[]): MeshNode[] {
  const [from, to] = [Math.min(...bodies.map(({ fromX }) => fromX)), Math.max(...bodies.map(({ toX }) => toX))];
  return mounts.flatMap(({ nodes }) => {
    const within = nodes.filter(({ x }) => x >= from - 1e-9 && x <= to + 1e-9);
    if (within.length > 0) return within;
    return [nodes[0].x > to ? nodes[0] : nodes[nodes.length - 1]];
  });
}

/** Stops along a line of bodies: attachments first, then ends of bodies and masses that are not already there. */
function stopsOf(attached: readonly MeshNode[], bodies: readonly BodyPart[], masses: readonly number[]): number[] {
  const stops = attached.map(({ x }) => x);
  const add = (x: number) => {
    if (stops.every((stop) => Math.abs(stop - x) > LEAST_ELEMENT)) stops.push(x);
  };
  for (const { fromX, toX } of bodies) for (const x of [fromX, toX]) add(x);
  for (const x of masses) add(x);
  return stops.sort((a, b) => a - b);
}

function chainAt(
  aircraft: HalfAircraft,
  surfaces: readonly SurfaceMesh[],
  counter: DofCounter,
  bodies: readonly BodyPart[],
): Chains {
  const y = bodies[0].y;
  const attached = attachments(mountsOf(aircraft, surfaces, y), bodies);
  const [from, to] = [Math.min(...bodies.map(({ fromX }) => fromX)), Math.max(...bodies.map(({ toX }) => toX))];
  const masses = aircraft.masses.filter((mass) => mass.on === undefined && Math.abs(mass.y - y) < 1e-3);
  const reached = masses.map(({ x }) => x).filter((x) => x > from && x < to);
  const middleDofs: [number, number, number][] = [];
  const ends: BeamEnd[] = stopsOf(attached, bodies, reached).map((x) => {
    const node = attached.find((candidate) => candidate.x === x);
    if (node !== undefined) return { x, y, row: nodeRow(node) };
    const dofs: [number, number, number] = [counter.next++, counter.next++, counter.next++];
    if (y === 0) middleDofs.push(dofs);
    return { x, y, row: nodeRow({ dofs }) };
  });
  const elements = ends.slice(1).map((end, i) => (system: System) => {
    const at = coverAt(bodies, (end.x + ends[i].x) / 2);
    addBeamBetween(system, ends[i], end, y === 0 ? halved(at) : at);
  });
  const name = bodies.map((body) => body.name).join(', ');
  const line: BodyLine = { name, y, x: Float64Array.from(ends, ({ x }) => x), rows: ends.map(({ row }) => row) };
  return { lines: [line], elements, middleDofs };
}

/** A stiff link through the roots of surfaces that nothing else joins: not a part, a stand-in where no body is described. */
function standIn(aircraft: HalfAircraft): readonly BodyPart[] {
  const atMiddle = aircraft.surfaces.filter(({ stations }) => stations[0].y < 1e-6);
  if (atMiddle.length < 2 || aircraft.bodies.some(({ y }) => y === 0)) return [];
  const roots = atMiddle.map(({ stations }) => stations[0]);
  const fromX = Math.min(...roots.map(({ xLeadingEdge, chord }) => xLeadingEdge + chord / 4));
  const toX = Math.max(...roots.map(({ xLeadingEdge, chord }) => xLeadingEdge + chord / 4));
  const surface = atMiddle[0];
  const { d22 } = surface.plateAt(surface.stations[0].y + 1e-6, 0.4);
  const bending = 20 * d22 * surface.stations[0].chord;
  return [{ name: 'link', y: 0, fromX, toX, at: { bending, torsion: bending, linearMass: 0 } }];
}

/** Beams of all bodies, joined to the surfaces that they cross; bodies on one line (pod and boom) become one beam. */
export function addBodies(aircraft: HalfAircraft, surfaces: readonly SurfaceMesh[], counter: DofCounter): Chains {
  const bodies = [...aircraft.bodies, ...standIn(aircraft)];
  const places = [...new Set(bodies.map(({ y }) => y))];
  const chains = places.map((y) =>
    chainAt(
      aircraft,
      surfaces,
      counter,
      bodies.filter((body) => body.y === y),
    ),
  );
  return {
    lines: chains.flatMap(({ lines }) => lines),
    elements: chains.flatMap(({ elements }) => elements),
    middleDofs: chains.flatMap(({ middleDofs }) => middleDofs),
  };
}
