import { INITIAL_SHEAR } from './closure.js';
import { type LocalSystem, linearise } from './jacobian.js';
import {
  copyLayer,
  emptyLayer,
  type LayerState,
  ruleOf,
  sideNodes,
  stagnationLength,
  type ViscousCase,
  wakeGap,
} from './layer.js';
import { equilibriumRoot, loadInterval } from './march.js';
import { type NewtonWork, newtonStep } from './newton.js';
import { DRIVE, fillStation, LAMINAR, TURBULENT } from './station.js';
import { growthBetween, transitionFraction } from './transition.js';

/** Greatest relative change of a quantity that one step may make, up and down. */
const MOST_UP = 1.0;
const MOST_DOWN = -0.4;
const MOST_SPEED = 0.2;
/** Iterations after which steps are shortened. */
const LONG_SEARCH = 12;
/** Nodes by which transition may move in one step at first; halved each time it turns round, to none in the end. */
const MOST_NODES = 8;

/** How far transition may move on each side, and which way it went last. */
interface Moves {
  readonly most: [number, number];
  readonly last: [number, number];
}

function noteMove(moves: Moves, side: 0 | 1, move: number): void {
  if (move === 0) return;
  // Where it goes to and fro between two nodes, neither is quite its place: between them lies the node itself, and there it is held.
  if (move * moves.last[side] < 0) moves.most[side] = Math.floor(moves.most[side] / 2);
  moves.last[side] = move;
}

/** Largest relative change of any layer, and the share of the step that keeps all within bounds. */
function measureStep(state: LayerState, work: NewtonWork): { readonly change: number; readonly share: number } {
  let change = 0;
  let share = 1;
  const bound = (ratio: number): void => {
    if (ratio * share > MOST_UP) share = MOST_UP / ratio;
    else if (ratio * share < MOST_DOWN) share = MOST_DOWN / ratio;
  };
  for (let i = 0; i < work.size; i++) {
    const du = work.changeSpeed[i];
    const theta = work.changeTheta[i] / state.theta[i];
    const displacement = (work.changeMass[i] / state.displacement[i] - du) / state.speed[i];
    bound(theta);
    bound(displacement);
    if (state.kind[i] !== LAMINAR) bound(work.changeThird[i] / state.third[i]);
    if (Math.abs(du) * share > MOST_SPEED) share = MOST_SPEED / Math.abs(du);
    // A speed of nearly zero beside the stagnation point says nothing about convergence.
    const weight = Math.min(1, state.speed[i] * 20);
    change = Math.max(change, Math.abs(theta) * weight, Math.abs(displacement) * weight, Math.abs(du));
  }
  return { change, share };
}

function applyStep(c: ViscousCase, state: LayerState, work: NewtonWork, share: number): void {
  for (let i = 0; i < work.size; i++) {
    const du = work.changeSpeed[i];
    const displacement = (work.changeMass[i] - state.displacement[i] * du) / state.speed[i];
    state.theta[i] = Math.max(1e-7, state.theta[i] + share * work.changeTheta[i]);
    const least = 1.02 * state.theta[i] * (state.kind[i] === 2 ? 0.982 : 1) + wakeGap(c, i);
    state.displacement[i] = Math.max(least, state.displacement[i] + share * displacement);
    if (state.kind[i] !== LAMINAR) state.third[i] = Math.max(1e-5, state.third[i] + share * work.changeThird[i]);
    state.speed[i] += share * du;
  }
  moveStagnation(c, state);
  for (let i = 0; i < work.size; i++) state.speed[i] = Math.max(2e-4, state.speed[i]);
}

/** Lets nodes whose speed has changed sign beside the stagnation point change sides. */
function moveStagnation(c: ViscousCase, state: LayerState): void {
  const flip = (i: number, like: number): void => {
    state.speed[i] = Math.max(1e-4, -state.speed[i]);
    state.theta[i] = state.theta[like];
    state.displacement[i] = state.displacement[like];
    state.third[i] = 0;
    state.kind[i] = LAMINAR;
  };
  for (let moves = 0; moves < 20; moves++) {
    const k = state.stagnation;
    const upper = state.speed[k];
    const lower = state.speed[k + 1];
    if (upper < 0 && upper <= lower && k > 3) {
      flip(k, k + 2);
      state.stagnation--;
    } else if (lower < 0 && k < c.mesh.count - 5) {
      flip(k + 1, k - 1);
      state.stagnation++;
    } else return;
  }
}

/** Amplification along the laminar part of a side and where it ends; nodes that change their kind get a fitting third quantity. */
function locateTransition(
  c: ViscousCase,
  state: LayerState,
  local: LocalSystem,
  side: 0 | 1,
  at: number,
  moves: Moves,
): void {
  const [first, last, step] = sideNodes(c, state, side);
  const rule = ruleOf(c, at, side);
  const old = state.turbulentFrom[side];
  const r = local.scratch.records;
  const rate = (i: number): number => {
    fillStation(LAMINAR, state.theta[i], state.displacement[i], state.speed[i], 0, 0, c.reynolds, r, 0);
    return r[DRIVE];
  };
  const wasTurbulent = (i: number): boolean => old >= 0 && step * (i - old) >= 0;
  const tooFar = (i: number): boolean =>
    step * ((old < 0 ? last + step : old) - i) >
    Math.max(old < 0 && moves.most[side] > 0 ? Infinity : 0, moves.most[side]);
  const roots = state.third[old >= 0 ? old : last];
  state.third[first] = 0;
  let from = -1;
  let before = rate(first);
  for (let i = first + step; ; i += step) {
    const v = loadInterval(c, state, local, at, i - step, i);
    if (old >= 0 && step * (i - old) >= moves.most[side]) {
      from = i;
      break;
    }
    if (!tooFar(i) && transitionFraction(v, c.reynolds, rule, local.scratch) <= 1) {
      from = i;
      break;
    }
    const here = rate(i);
    state.third[i] = state.third[i - step] + 0.5 * (before + here) * (v[9] - v[8]) + growthBetween(rule, v[8], v[9]);
    state.kind[i] = LAMINAR;
    before = here;
    if (i === last) break;
  }
  state.turbulentFrom[side] = from;
  noteMove(moves, side, step * ((from < 0 ? last + step : from) - (old < 0 ? last + step : old)));
  if (from < 0) return;
  for (let i = from; ; i += step) {
    if (wasTurbulent(i)) break;
    state.kind[i] = TURBULENT;
    state.third[i] = old >= 0 ? roots : INITIAL_SHEAR * equilibriumRoot(c, state, local, i);
    if (i === last) break;
  }
}

/** What came of an iteration. */
export interface IterationResult {
  readonly converged: boolean;
  readonly iterations: number;
  readonly change: number;
}

/** Places transition on both sides for the present layers. */
function placeTransition(c: ViscousCase, state: LayerState, local: LocalSystem, moves: Moves): void {
  const at = stagnationLength(c, state);
  locateTransition(c, state, local, 0, at, moves);
  locateTransition(c, state, local, 1, at, moves);
}

const freeMoves = (): Moves => ({ most: [MOST_NODES, MOST_NODES], last: [0, 0] });

/** Whether transition, where it was held, is at most one node from where it wants to be. */
function heldWhereItBelongs(c: ViscousCase, state: LayerState, local: LocalSystem, moves: Moves): boolean {
  if (moves.most[0] > 0 && moves.most[1] > 0) return true;
  const free = emptyLayer(c.influence.size);
  copyLayer(state, free);
  placeTransition(c, free, local, freeMoves());
  return [0, 1].every((side) => Math.abs(free.turbulentFrom[side] - state.turbulentFrom[side]) <= 1);
}

/**
 * Newton iteration of a case from a state near its solution.
 * tolerance - largest relative change of any layer at which it counts as solved [-]; most - iterations [-]
 */
export function iterate(
  c: ViscousCase,
  state: LayerState,
  local: LocalSystem,
  work: NewtonWork,
  options: { readonly tolerance: number; readonly most: number },
): IterationResult {
  let change = Infinity;
  let moves = freeMoves();
  for (let k = 1; k <= options.most; k++) {
    placeTransition(c, state, local, moves);
    linearise(c, state, local);
    if (!newtonStep(c, state, local, work)) return { converged: false, iterations: k, change };
    const step = measureStep(state, work);
    if (!(step.share > 0) || !Number.isFinite(step.change)) return { converged: false, iterations: k, change };
    change = step.change;
    // A long search bounces between two branches, as where a laminar layer is about to separate at the trailing edge: shorter steps end it.
    const share = k > LONG_SEARCH && change > 0.02 ? Math.min(0.6, step.share) : step.share;
    applyStep(c, state, work, share);
    if (step.share === 1 && change < options.tolerance) {
      if (!heldWhereItBelongs(c, state, local, moves)) {
        moves = freeMoves();
        continue;
      }
      return { converged: true, iterations: k, change };
    }
  }
  return { converged: false, iterations: options.most, change };
}
