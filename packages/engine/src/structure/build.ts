import { type Outcome, problem, success } from '../result.js';
import { addBeamLine, beamLineMass } from './beamLine.js';
import { addBodies } from './bodies.js';
import { triangleMass, triangleStiffness } from './element.js';
import type { HalfAircraft, MassPoint, MeshOptions, SurfacePart, WirePart } from './input-types.js';
import { type DofCounter, meshSurface, type RawMesh } from './mesh.js';
import type { BodyLine, ControlHinge, PointRow, StructuralModel, SurfaceMesh, WireLine } from './model-types.js';
import { fieldsOf, locate, locatedRow, offsetRow, triangleDofs } from './rows.js';

/** Growing system: entries by unknown, made dense at the end. */
export interface System {
  readonly size: number;
  readonly stiffness: Float64Array;
  readonly mass: Float64Array;
}

/** Adds a small matrix at its unknowns. */
export function scatter(
  into: Float64Array,
  size: number,
  dofs: ArrayLike<number>,
  part: Float64Array,
  factor = 1,
): void {
  const n = dofs.length;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) into[dofs[i] * size + dofs[j]] += factor * part[i * n + j];
  }
}

/** Adds factor * row' row. */
export function scatterRow(
  into: Float64Array,
  size: number,
  row: { readonly dofs: ArrayLike<number>; readonly weights: Float64Array },
  factor: number,
): void {
  for (let i = 0; i < row.dofs.length; i++) {
    for (let j = 0; j < row.dofs.length; j++) {
      into[row.dofs[i] * size + row.dofs[j]] += factor * row.weights[i] * row.weights[j];
    }
  }
}

function surfaceMesh(surface: SurfacePart, raw: RawMesh): SurfaceMesh {
  const bounds = new Float64Array((raw.triangles.length / 3) * 4);
  for (let t = 0; t < raw.triangles.length / 3; t++) {
    const nodes = [0, 1, 2].map((k) => raw.nodes[raw.triangles[3 * t + k]]);
    const [xs, ys] = [nodes.map(({ x }) => x), nodes.map(({ y }) => y)];
    bounds.set([Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)], 4 * t);
  }
  return {
    name: surface.name,
    nodes: raw.nodes,
    triangles: Int32Array.from(raw.triangles),
    controlOf: raw.controlOf,
    bounds,
    plates: raw.plates,
  };
}

/** Mass of plates and beams as they are described [kg]. */
function describedMass(surface: SurfacePart, mesh: SurfaceMesh): number {
  let mass = 0;
  mesh.plates.forEach(({ plate }, t) => {
    mass += (fieldsOf(mesh, t).area * (plate[0].arealMass + plate[1].arealMass + plate[2].arealMass)) / 3;
  });
  return mass + surface.beams.reduce((sum, beam) => sum + beamLineMass(beam), 0);
}

function addSurface(system: System, surface: SurfacePart, mesh: SurfaceMesh, raw: RawMesh): void {
  const { size } = system;
  const described = describedMass(surface, mesh);
  const scale = surface.mass === undefined || !(described > 0) ? 1 : surface.mass / described;
  mesh.plates.forEach(({ plate }, t) => {
    const fields = fieldsOf(mesh, t);
    const dofs = triangleDofs(mesh, t);
    scatter(system.stiffness, size, dofs, triangleStiffness(fields, plate));
    const areal = plate.map(({ arealMass }) => scale * arealMass);
    scatter(system.mass, size, dofs, triangleMass(fields, areal));
  });
  for (const beam of surface.beams) addBeamLine(system, mesh, beam, raw.grid.y, scale);
}

/** Springs of a hinge along its nodes, and the linkage at the horn. */
function addHinge(system: System, hinge: ControlHinge, hingeStiffness: number): void {
  const { y, surfaceSlope, controlSlope } = hinge;
  const turn = (i: number) => ({ dofs: [surfaceSlope[i], controlSlope[i]], weights: Float64Array.of(-1, 1) });
  for (let i = 0; i < y.length; i++) {
    const length = ((y[i + 1] ?? y[i]) - (y[i - 1] ?? y[i])) / 2;
    scatterRow(system.stiffness, system.size, turn(i), hingeStiffness * length);
  }
  let k = 0;
  while (k < y.length - 2 && y[k + 1] < hinge.hornY) k++;
  const share = Math.min(1, Math.max(0, (hinge.hornY - y[k]) / (y[k + 1] - y[k])));
  const horn = {
    dofs: [surfaceSlope[k], controlSlope[k], surfaceSlope[k + 1], controlSlope[k + 1]],
    weights: Float64Array.of(share - 1, 1 - share, -share, share),
  };
  scatterRow(system.stiffness, system.size, horn, hinge.linkageStiffness);
}

function hingesOf(surface: SurfacePart, raw: RawMesh): { hinge: ControlHinge; stiffness: number }[] {
  return surface.controls.map((control, index) => ({
    hinge: {
      surface: surface.name,
      name: control.name,
      y: Float64Array.from(raw.hinges[index].y),
      surfaceSlope: Int32Array.from(raw.hinges[index].surfaceSlope),
      controlSlope: Int32Array.from(raw.hinges[index].controlSlope),
      linkageStiffness: control.linkageStiffness,
      hornY: control.hornY,
    },
    stiffness: control.hingeStiffness,
  }));
}

/** Row of the place that carries a mass: its surface, the body in the middle, or whatever lies nearest. */
export function carrierRow(
  surfaces: readonly SurfaceMesh[],
  bodies: readonly BodyLine[],
  mass: Pick<MassPoint, 'x' | 'y' | 'on'>,
): PointRow {
  const named = surfaces.find(({ name }) => name === mass.on);
  if (named !== undefined) return locatedRow(named, locate(named, mass.x, mass.y));
  let best: { row: () => PointRow; distance: number } | undefined;
  for (const body of bodies) {
    const k = body.x.reduce((near, x, i) => (Math.abs(x - mass.x) < Math.abs(body.x[near] - mass.x) ? i : near), 0);
    const [dx, dy] = [mass.x - body.x[k], mass.y - body.y];
    // Bodies first where equally near: they are what heavy parts sit in.
    const distance = Math.hypot(dx, dy) - 1e-3;
    if (best === undefined || distance < best.distance) best = { row: () => offsetRow(body.rows[k], dx, dy), distance };
  }
  for (const mesh of surfaces) {
    const place = locate(mesh, mass.x, mass.y);
    const distance = Math.hypot(place.dx, place.dy);
    if (best === undefined || distance < best.distance) best = { row: () => locatedRow(mesh, place), distance };
  }
  if (best === undefined) throw new RangeError('a mass needs a surface or body that carries it');
  return best.row();
}

function inputProblem(aircraft: HalfAircraft): Outcome<never> | undefined {
  const bad = (where: string, reason: string) =>
    problem({
      code: 'structure-input',
      reason,
      where,
      remedy: 'give the surface its chords, span and a plate with stiffness',
    });
  if (aircraft.surfaces.length === 0) return bad('structure', 'there is no lifting surface to bend');
  for (const surface of aircraft.surfaces) {
    const { stations } = surface;
    const grows = stations.length >= 2 && stations.every((s, i) => i === 0 || s.y > stations[i - 1].y);
    if (!grows) return bad(surface.name, 'its stations do not run from root to tip');
    if (!stations.every(({ chord }) => chord > 0)) return bad(surface.name, 'a chord is not positive');
    const { d11, d22, d66 } = surface.plateAt((stations[0].y + stations[1].y) / 2, 0.5);
    if (!(d11 > 0 && d22 > 0 && d66 > 0)) return bad(surface.name, 'its plate has no bending stiffness');
  }
  return undefined;
}

/** Corners of each surface: the largest as asked, smaller ones by the root of their area. */
function cornerCounts(surfaces: readonly SurfacePart[], corners: number): number[] {
  const areas = surfaces.map(({ stations }) =>
    stations.slice(1).reduce((sum, s, i) => sum + ((s.y - stations[i].y) * (s.chord + stations[i].chord)) / 2, 0),
  );
  const largest = Math.max(...areas);
  return areas.map((area) => Math.max(20, corners * Math.sqrt(area / largest) * (area < 0.5 * largest ? 0.6 : 1)));
}

/**
 * Plate-and-beam model of the right half of an aircraft: plates of the surfaces, beams along spars and ribs, hinged controls,
 * bodies and booms, bracing wires, and every mass at its place.
 *
 * @returns stiffness and mass matrices without any support; a problem where the input cannot be a structure
 * Valid for small displacements of nearly flat surfaces (dihedral below some 15 degrees: laid flat, moves as if level); stretch
 * in the plane and bending fore and aft are left out; fins are masses.
 */
export function buildModel(aircraft: HalfAircraft, options: MeshOptions = {}): Outcome<StructuralModel> {
  const bad = inputProblem(aircraft);
  if (bad !== undefined) return bad;
  const counter: DofCounter = { next: 0 };
  const counts = cornerCounts(aircraft.surfaces, options.corners ?? 100);
  const raws = aircraft.surfaces.map((surface, i) => meshSurface(surface, counts[i], counter, i === 0));
  const surfaces = aircraft.surfaces.map((surface, i) => surfaceMesh(surface, raws[i]));
  const chains = addBodies(aircraft, surfaces, counter);
  const size = counter.next;
  const system: System = { size, stiffness: new Float64Array(size * size), mass: new Float64Array(size * size) };
  aircraft.surfaces.forEach((surface, i) => void addSurface(system, surface, surfaces[i], raws[i]));
  for (const add of chains.elements) add(system);
  const hinges = aircraft.surfaces.flatMap((surface, i) => hingesOf(surface, raws[i]));
  for (const { hinge, stiffness } of hinges) addHinge(system, hinge, stiffness);
  const wires = addWires(system, surfaces, chains.lines, aircraft.wires ?? []);
  for (const mass of aircraft.masses) {
    const row = carrierRow(surfaces, chains.lines, mass);
    scatterRow(system.mass, size, { dofs: row.dofs, weights: row.w }, mass.mass);
  }
  const plane = planeOfSymmetry(surfaces, chains.middleDofs);
  const weights = massMoments(system, surfaces, chains.lines);
  if (!(weights.mass > 0)) {
    return problem({
      code: 'structure-mass',
      reason: 'the half aircraft has no mass',
      where: 'structure',
      remedy: 'give surfaces and parts their masses',
    });
  }
  return success({
    surfaces,
    bodies: chains.lines,
    controls: hinges.map(({ hinge }) => hinge),
    wires,
    dofCount: size,
    planeOfSymmetry: plane,
    stiffness: system.stiffness,
    mass: system.mass,
    totalMass: weights.mass,
    balancePoint: weights.moment / weights.mass,
  });
}

/** Adds wires and returns what reads their tension. */
function addWires(
  { stiffness, size }: System,
  surfaces: readonly SurfaceMesh[],
  bodies: readonly BodyLine[],
  wires: readonly WirePart[],
): readonly WireLine[] {
  return wires.map(({ name, surface, at, bodyX, breaks, stiffness: { pull, upward } }) => {
    const wing = carrierRow(surfaces, bodies, { x: at.x, y: at.y, on: surface });
    const body = carrierRow(surfaces, bodies, { x: bodyX, y: 0 });
    const row = {
      dofs: Int32Array.from([...wing.dofs, ...body.dofs]),
      weights: Float64Array.from([...wing.w, ...body.w.map((weight) => -weight)]),
    };
    scatterRow(stiffness, size, row, upward);
    return { name, surface, ...row, pull, breaks };
  });
}

/** Unknowns of nodes at y = 0. */
function planeOfSymmetry(surfaces: readonly SurfaceMesh[], body: readonly (readonly [number, number, number])[]) {
  const middle = surfaces.flatMap(({ nodes }) => nodes.filter(({ y }) => Math.abs(y) < 1e-9)).map(({ dofs }) => dofs);
  const all = [...middle, ...body];
  const column = (k: 0 | 1 | 2) => Int32Array.from([...new Set(all.map((dofs) => dofs[k]))].sort((a, b) => a - b));
  return { w: column(0), slopeX: column(1), slopeY: column(2) };
}

/** Displacements of all unknowns in a rigid motion w = a + b x + c y. */
export function rigidMotion(
  size: number,
  surfaces: readonly SurfaceMesh[],
  bodies: readonly BodyLine[],
  [a, b, c]: readonly [number, number, number],
): Float64Array {
  const motion = new Float64Array(size);
  const set = (x: number, y: number, dofs: ArrayLike<number>) => {
    motion[dofs[0]] = a + b * x + c * y;
    motion[dofs[1]] = b;
    motion[dofs[2]] = c;
  };
  for (const { nodes } of surfaces) for (const { x, y, dofs } of nodes) set(x, y, dofs);
  for (const body of bodies) {
    body.rows.forEach((row, i) => {
      // Nodes of their own have three unknowns; the others are rows of a surface, already set.
      if (row.dofs.length === 3) set(body.x[i], body.y, row.dofs);
    });
  }
  return motion;
}

function massMoments(system: System, surfaces: readonly SurfaceMesh[], bodies: readonly BodyLine[]) {
  const heave = rigidMotion(system.size, surfaces, bodies, [1, 0, 0]);
  const lever = rigidMotion(system.size, surfaces, bodies, [0, 1, 0]);
  let mass = 0;
  let moment = 0;
  for (let i = 0; i < system.size; i++) {
    if (heave[i] === 0) continue;
    for (let j = 0; j < system.size; j++) {
      const value = system.mass[i * system.size + j];
      mass += heave[i] * value * heave[j];
      moment += heave[i] * value * lever[j];
    }
  }
  return { mass, moment };
}
