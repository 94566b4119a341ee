import { type Outcome, success } from '../../result.js';
import { cornersOn, outlineWithFlats } from '../facets.js';
import { TRIP_REYNOLDS } from './covered.js';
import type { SurfaceStep } from './layer.js';
import { sectionMesh } from './mesh.js';
import type { SectionFlow } from './result.js';
import { STEP_DRAG } from './ridge.js';
import {
  type PreparedSection,
  prepareSection,
  solveViscous,
  surfaceLength,
  type ViscousInput,
  type ViscousSolution,
} from './solve.js';

/** Solar cells on the upper surface. Lengths / chord. */
export interface Covering {
  /** Chord stations of front and rear edge. */
  readonly from: number;
  readonly to: number;
  /** Height of cells and film over the skin at both edges; 0 where they lie in a recess. */
  readonly edge: number;
  /** Width of one flat cell along the chord; 0 where the cells follow the surface. */
  readonly cell: number;
}

/**
 * Outline whose upper surface is made of flats as wide as a cell between two stations; the corners stay on the curve.
 * x, y - outline from the trailing edge over the upper surface [-]
 */
export function facetedOutline(
  x: readonly number[],
  y: readonly number[],
  covering: Pick<Covering, 'from' | 'to' | 'cell'>,
): { readonly x: readonly number[]; readonly y: readonly number[] } {
  if (!(covering.cell > 0) || !(covering.to > covering.from)) return { x, y };
  return outlineWithFlats(x, y, cornersOn(x, y, covering));
}

/**
 * Rise of the logarithm of amplitude by a step lower than a trip, for each unit of height / displacement thickness.
 * Source: J. Crouch, V. Kosorygin, L. Ng, Modeling the effects of steps on boundary-layer transition, IUTAM Symposium on
 * Laminar-Turbulent Transition, 2006 (from memory).
 */
const STEP_GROWTH = { up: 1.6, down: 4.4 } as const;

/** A step in a laminar layer. */
export interface EdgeEffect {
  readonly station: number;
  /** Rise / chord, and whether the flow climbs it. */
  readonly height: number;
  readonly kind: 'up' | 'down';
  /** Height times speed at that height / viscosity. */
  readonly stepReynolds: number;
  readonly trips: boolean;
  /** Rise of the logarithm of amplitude where it does not trip. */
  readonly growth: number;
}

/**
 * What a step of a given height does at a station of the upper surface.
 * flow - about the bare section; station, height - / chord; kind - 'up' where the flow climbs it
 * The profile is a sine quarter wave over 2.85 displacement thicknesses, within 2 % of Blasius'.
 */
export function edgeEffect(flow: SectionFlow, station: number, height: number, kind: 'up' | 'down'): EdgeEffect {
  const { upper } = flow;
  let i = 0;
  while (i < upper.station.length - 2 && upper.station[i + 1] < station) i++;
  const displacement = upper.displacement[i];
  const speed = upper.speed[i] * Math.sin(0.5 * Math.PI * Math.min(1, height / (2.85 * displacement)));
  const stepReynolds = flow.reynolds * speed * height;
  const laminar = station < upper.transition;
  return {
    station,
    height,
    kind,
    stepReynolds,
    trips: laminar && stepReynolds > TRIP_REYNOLDS.value,
    growth: laminar ? (STEP_GROWTH[kind] * height) / displacement : 0,
  };
}

/** Length / chord over which a step's growth comes about. */
const GROWTH_LENGTH = 0.02;

/** Flow at a lift coefficient: incidence by secant. Returns the flow, or why there is none. */
export function solveAtLift(
  section: PreparedSection,
  lift: number,
  input: Omit<ViscousInput, 'alpha'>,
): Outcome<SectionFlow> {
  const solved = solutionAtLift(section, lift, input);
  return solved.ok ? success(solved.value.flow) : solved;
}

/**
 * `solveAtLift` with the layers, from which a neighbour can start.
 * start - solution of a neighbouring lift or shape with as many nodes
 */
export function solutionAtLift(
  section: PreparedSection,
  lift: number,
  input: Omit<ViscousInput, 'alpha'>,
  start?: ViscousSolution,
): Outcome<ViscousSolution> {
  let alpha = start?.flow.alpha ?? 0.035;
  let slope = 6;
  let solved = solveViscous(section, { ...input, alpha }, start?.state);
  for (const start of [0.02, 0.05, 0])
    if (!solved.ok) solved = solveViscous(section, { ...input, alpha: start }, undefined);
  if (solved.ok) alpha = solved.value.flow.alpha;
  for (let pass = 0; pass < 12 && solved.ok; pass++) {
    const { flow, state } = solved.value;
    const lack = lift - flow.lift;
    if (Math.abs(lack) < 2e-4) return solved;
    const step = Math.max(-0.035, Math.min(0.035, lack / slope));
    let next = solveViscous(section, { ...input, alpha: alpha + step }, state);
    // A hole of convergence is narrow: a neighbour just beside it will do.
    for (const aside of [0.004, -0.004, 0.008]) {
      if (next.ok) break;
      next = solveViscous(section, { ...input, alpha: alpha + step + aside }, state);
      if (next.ok && Math.abs(next.value.flow.lift - lift) < 0.03) return next;
    }
    if (next.ok) slope = Math.max(2, (next.value.flow.lift - flow.lift) / (next.value.flow.alpha - flow.alpha));
    if (next.ok) alpha = next.value.flow.alpha;
    solved = next;
  }
  if (!solved.ok) return solved;
  return {
    ok: false,
    code: 'section.lift',
    reason: `the section does not reach a lift coefficient of ${lift.toFixed(2)}`,
    where: 'section',
    remedy: 'ask for less lift',
  };
}

/** What edges do to a layer. */
export type EdgeInput = Required<Pick<ViscousInput, 'steps' | 'trips' | 'tripHeights' | 'tripDrags'>>;

/**
 * What edges do to the upper layer of a section made ready: growth at steps, and the foremost trip with its own drag. That of an edge which
 * does not trip lies so deep in the layer that it is left out: 1 % of the section's or less.
 */
export function edgesOn({ mesh }: PreparedSection, edges: readonly EdgeEffect[]): EdgeInput {
  const steps: SurfaceStep[] = edges
    .filter(({ growth }) => growth > 0)
    .map(({ station, growth }) => ({ side: 0, s: surfaceLength(mesh, 0, station), growth, length: GROWTH_LENGTH }));
  const [trip] = edges.filter(({ trips }) => trips).sort((a, b) => a.station - b.station);
  return {
    steps,
    trips: [trip?.station ?? Number.NaN, Number.NaN],
    tripHeights: [trip?.height ?? 0, 0],
    tripDrags: [STEP_DRAG[trip?.kind ?? 'up'], 0],
  };
}

/** A section under cells, ready to be solved. */
export interface CoveredSection {
  readonly section: PreparedSection;
  /** What its edges do to the layer: part of the input of a solution or sweep. */
  readonly surface: EdgeInput;
}

/**
 * A section under cells: its flats, and what both edges do to the layer.
 * x, y - outline of the bare section; edges - effects at a flow that is typical of what will be asked
 */
export function coveredSection(
  x: readonly number[],
  y: readonly number[],
  covering: Covering,
  { front, rear }: { readonly front: EdgeEffect; readonly rear: EdgeEffect },
  nodes = 140,
): Outcome<CoveredSection> {
  const flats = facetedOutline(x, y, covering);
  const prepared = preparedOutline(flats.x, flats.y, nodes);
  if (!prepared.ok) return prepared;
  return success({ section: prepared.value, surface: edgesOn(prepared.value, [front, rear]) });
}

/** Bare and covered section at the same lift. */
export interface CoveringCost {
  readonly bare: SectionFlow;
  readonly covered: SectionFlow;
  /** Covered / bare drag. */
  readonly ratio: number;
  readonly front: EdgeEffect;
  readonly rear: EdgeEffect;
}

/**
 * What covering a section with cells costs at a lift coefficient.
 * x, y - outline of the bare section; covering - cells; lift, reynolds, critical - design point; nodes - of the mesh
 */
export function coveringCost(
  x: readonly number[],
  y: readonly number[],
  covering: Covering,
  point: { readonly lift: number; readonly reynolds: number; readonly critical: number },
  nodes = 140,
): Outcome<CoveringCost> {
  const made = preparedOutline(x, y, nodes);
  if (!made.ok) return made;
  const bare = solveAtLift(made.value, point.lift, point);
  if (!bare.ok) return bare;
  const front = edgeEffect(bare.value, covering.from, covering.edge, 'up');
  const rear = edgeEffect(bare.value, covering.to, covering.edge, 'down');
  const laid = coveredSection(x, y, covering, { front, rear }, nodes);
  if (!laid.ok) return laid;
  const covered = solveAtLift(laid.value.section, point.lift, { ...point, ...laid.value.surface });
  if (!covered.ok) return covered;
  return success({
    bare: bare.value,
    covered: covered.value,
    ratio: covered.value.drag / bare.value.drag,
    front,
    rear,
  });
}

/** Section made ready from an outline. */
export function preparedOutline(x: readonly number[], y: readonly number[], nodes = 140): Outcome<PreparedSection> {
  const mesh = sectionMesh(x, y, nodes);
  return mesh.ok ? prepareSection(mesh.value) : mesh;
}
