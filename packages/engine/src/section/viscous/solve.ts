import { type Outcome, problem, success } from '../../result.js';
import { influenceWithWake, type SurfaceInfluence, surfaceInfluence } from './influence.js';
import { type InviscidFlow, inviscidFlow, inviscidSpeeds } from './inviscid.js';
import { iterate } from './iterate.js';
import { type LocalSystem, localSystem } from './jacobian.js';
import { copyLayer, emptyLayer, type LayerState, type SurfaceStep, type ViscousCase } from './layer.js';
import { marchLayers } from './march.js';
import type { SectionMesh } from './mesh.js';
import { type NewtonWork, newtonWork } from './newton.js';
import { type SectionFlow, sectionFlow } from './result.js';
import { RIDGE_DRAG } from './ridge.js';
import { wakeLine } from './wake.js';

/** A section made ready: everything that does not depend on incidence and Reynolds number, and work space. */
export interface PreparedSection {
  readonly mesh: SectionMesh;
  readonly flow: InviscidFlow;
  readonly surface: SurfaceInfluence;
  readonly local: LocalSystem;
  readonly work: NewtonWork;
  readonly wakeNodes: number;
}

/**
 * Makes a section ready for any number of solutions.
 * mesh - surface nodes; wakeNodes - nodes of the wake [-]
 */
export function prepareSection(mesh: SectionMesh, wakeNodes = 20): Outcome<PreparedSection> {
  const flow = inviscidFlow(mesh);
  if (!flow.ok) return flow;
  const size = mesh.count + wakeNodes;
  return success({
    mesh,
    flow: flow.value,
    surface: surfaceInfluence(flow.value),
    local: localSystem(size),
    work: newtonWork(size),
    wakeNodes,
  });
}

export interface ViscousInput {
  /** Incidence [rad]. */
  readonly alpha: number;
  /** On chord and free stream. */
  readonly reynolds: number;
  /** Logarithm of amplitude at transition. */
  readonly critical: number;
  /** Chord stations of trips, upper and lower; NaN for none. */
  readonly trips?: readonly [number, number];
  /** How far the trips stand up / chord, upper and lower: their own drag; none where not given. */
  readonly tripHeights?: readonly [number, number];
  /** Their drag coefficients on the mean pressure over their height; those of ridges where not given. */
  readonly tripDrags?: readonly [number, number];
  readonly steps?: readonly SurfaceStep[];
}

/** Surface length of a chord station on a side. */
export function surfaceLength(mesh: SectionMesh, side: 0 | 1, station: number): number {
  if (Number.isNaN(station)) return NaN;
  const step = side === 0 ? -1 : 1;
  for (let i = mesh.nose; i + step >= 0 && i + step < mesh.count; i += step) {
    const a = mesh.x[i];
    const b = mesh.x[i + step];
    if (b >= station && b > a) return mesh.s[i] + ((mesh.s[i + step] - mesh.s[i]) * (station - a)) / (b - a);
  }
  return step < 0 ? 0 : mesh.s[mesh.count - 1];
}

/** Inviscid flow, wake and influence at an incidence. */
export function viscousCase(section: PreparedSection, input: ViscousInput): ViscousCase {
  const { mesh, flow } = section;
  const wake = wakeLine(flow, input.alpha, section.wakeNodes);
  const influence = influenceWithWake(flow, section.surface, wake);
  const inviscid = new Float64Array(influence.size);
  inviscidSpeeds(flow, input.alpha, inviscid);
  const c = Math.cos(input.alpha);
  const s = Math.sin(input.alpha);
  for (let k = 0; k < wake.count; k++)
    inviscid[mesh.count + k] = c * influence.wakeZero[k] + s * influence.wakeRight[k];
  const trips = input.trips ?? [NaN, NaN];
  return {
    mesh,
    wake,
    influence,
    inviscid,
    reynolds: input.reynolds,
    critical: input.critical,
    trips: [surfaceLength(mesh, 0, trips[0]), surfaceLength(mesh, 1, trips[1])],
    tripHeights: input.tripHeights ?? [0, 0],
    tripDrags: input.tripDrags ?? [RIDGE_DRAG, RIDGE_DRAG],
    steps: input.steps ?? [],
  };
}

/** Speeds of a known layer in a new case: inviscid plus what the old masses do. */
function takeOver(c: ViscousCase, from: LayerState, to: LayerState): void {
  copyLayer(from, to);
  const n = c.influence.size;
  const signedMass = new Float64Array(n);
  for (let j = 0; j < n; j++) {
    signedMass[j] = (j <= from.stagnation ? -1 : 1) * from.speed[j] * from.displacement[j];
  }
  const q = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let sum = c.inviscid[i];
    for (let j = 0; j < n; j++) sum += c.influence.matrix[i * n + j] * signedMass[j];
    q[i] = sum;
  }
  let k = from.stagnation;
  while (k > 3 && q[k] > 0) k--;
  while (k < c.mesh.count - 5 && q[k + 1] <= 0) k++;
  to.stagnation = k;
  for (let i = 0; i < n; i++) to.speed[i] = Math.max(1e-3, (i <= k ? -1 : 1) * q[i]);
  for (let i = Math.min(k, from.stagnation) - 1; i <= Math.max(k, from.stagnation) + 2; i++) {
    if (i <= from.stagnation === i <= k) continue;
    to.third[i] = 0;
    to.kind[i] = 0;
  }
}

/** A solved flow with the layers from which a neighbour starts. */
export interface ViscousSolution {
  readonly flow: SectionFlow;
  readonly state: LayerState;
}

const TOLERANCE = 1e-4;
const MOST_ITERATIONS = 40;

/** No number is made up where the equations were not solved. */
const notConverged = (input: ViscousInput) =>
  problem({
    code: 'section.not-converged',
    reason: `the boundary layer has not converged at ${((input.alpha * 180) / Math.PI).toFixed(1)} degrees and Reynolds number ${input.reynolds.toFixed(0)}`,
    where: 'section',
    remedy: 'ask for a neighbouring incidence, a higher Reynolds number, or use the polar, which bridges such holes',
  });

/**
 * Viscous flow about a section.
 *
 * section - from `prepareSection`; its work space is used, so one call at a time
 * input - incidence, Reynolds number, transition
 * start - layers of a neighbouring solution; where that does not lead to a solution, the layers are marched anew
 * Returns coefficients and layers, or that it has not converged here. Valid for attached and separated flow up to a few degrees past
 * maximum lift, incompressible, Reynolds numbers of some 3e4 to 1e7.
 */
export function solveViscous(
  section: PreparedSection,
  input: ViscousInput,
  start?: LayerState,
): Outcome<ViscousSolution> {
  const c = viscousCase(section, input);
  const state = emptyLayer(c.influence.size);
  const { local, work } = section;
  let iterations = 0;
  const attempt = (critical = input.critical): boolean => {
    const result = iterate({ ...c, critical }, state, local, work, { tolerance: TOLERANCE, most: MOST_ITERATIONS });
    iterations += result.iterations;
    return result.converged;
  };
  const solved = () => success({ flow: sectionFlow(c, state, local, input.alpha, iterations), state });
  if (start && start.theta.length === state.theta.length) {
    takeOver(c, start, state);
    if (attempt()) return solved();
  }
  // Early transition leaves hardly a bubble and is solved easily; from there the bubble is let grow. Marched straight, a layer can come to
  // rest on a second solution, separated where the flow is in truth attached.
  const parts = [0.4, 0.7];
  marchLayers({ ...c, critical: parts[0] * input.critical }, state, local);
  if (parts.every((part) => attempt(part * input.critical)) && attempt()) return solved();
  marchLayers(c, state, local);
  return attempt() ? solved() : notConverged(input);
}
