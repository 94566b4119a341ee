import { factorLu, solveLu } from '../../math/linear.js';
import { BY_DISTANCE, DOWNSTREAM, LOCAL, type LocalSystem, UPSTREAM } from './jacobian.js';
import { flowSign, type LayerState, sideNodes, type ViscousCase } from './layer.js';

/**
 * One Newton step of all layers and the outer flow together. At each station two of the three equations give the changes of momentum
 * thickness and third quantity in terms of the changes of mass at all nodes; the third is a row of a dense system for those.
 * Source of the simultaneous coupling: M. Drela, M. Giles, AIAA J. 25(10), 1987.
 */
export interface NewtonWork {
  readonly size: number;
  /** Influence on speeds away from the stagnation point, signs included. */
  readonly signed: Float64Array;
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  /** Rows of the change of third quantity and theta at the station before, at the upper and the lower trailing edge: size + 1 numbers, the last constant. */
  readonly before: Float64Array;
  readonly tails: Float64Array;
  readonly equations: Float64Array;
  readonly stagnation: Float64Array;
  /** Speed that the present masses give, less the present speed. */
  readonly lack: Float64Array;
  readonly changeMass: Float64Array;
  readonly changeSpeed: Float64Array;
  readonly changeTheta: Float64Array;
  readonly changeThird: Float64Array;
}

export function newtonWork(size: number): NewtonWork {
  const width = size + 1;
  return {
    size,
    signed: new Float64Array(size * size),
    matrix: new Float64Array(size * size),
    right: new Float64Array(size),
    before: new Float64Array(2 * width),
    tails: new Float64Array(4 * width),
    equations: new Float64Array(3 * (width + 2)),
    stagnation: new Float64Array(width),
    lack: new Float64Array(size),
    changeMass: new Float64Array(size),
    changeSpeed: new Float64Array(size),
    changeTheta: new Float64Array(size),
    changeThird: new Float64Array(size),
  };
}

/** Influence with the signs of the present stagnation point, and how far the speeds are from what the masses give. */
function setSigns(c: ViscousCase, state: LayerState, work: NewtonWork): void {
  const { size, signed, lack } = work;
  const { matrix } = c.influence;
  for (let i = 0; i < size; i++) {
    const sign = flowSign(state, i);
    const row = i * size;
    let speed = sign * c.inviscid[i];
    for (let j = 0; j < size; j++) {
      const value = j <= state.stagnation ? -sign * matrix[row + j] : sign * matrix[row + j];
      signed[row + j] = value;
      speed += value * state.speed[j] * state.displacement[j];
    }
    lack[i] = speed - state.speed[i];
  }
}

/** out += factor * row of the change of speed at a node. */
function addSpeed(work: NewtonWork, factor: number, node: number, out: Float64Array, at: number): void {
  if (factor === 0) return;
  const { size, signed, lack } = work;
  const from = node * size;
  for (let j = 0; j < size; j++) out[at + j] += factor * signed[from + j];
  out[at + size] += factor * lack[node];
}

function addRow(
  work: NewtonWork,
  factor: number,
  source: Float64Array,
  from: number,
  out: Float64Array,
  at: number,
): void {
  if (factor === 0) return;
  for (let j = 0; j <= work.size; j++) out[at + j] += factor * source[from + j];
}

/** Row of the change of the stagnation point's surface length. */
function stagnationRow(c: ViscousCase, state: LayerState, work: NewtonWork): void {
  const k = state.stagnation;
  const a = state.speed[k];
  const b = state.speed[k + 1];
  const scale = (c.mesh.s[k + 1] - c.mesh.s[k]) / ((a + b) * (a + b));
  work.stagnation.fill(0);
  addSpeed(work, scale * b, k, work.stagnation, 0);
  addSpeed(work, -scale * a, k + 1, work.stagnation, 0);
}

/** Derivative columns of one node, [third, theta, displacement, speed] by equation, turned from (displacement, speed) to (mass, speed). */
interface Columns {
  readonly rows: Float64Array;
  readonly at: number;
}

/** Adds what mass and speed of a node do to equation r. */
function addNode(state: LayerState, work: NewtonWork, columns: Columns, r: number, node: number): void {
  const { rows, at } = columns;
  const byDisplacement = rows[at + 4 * r + 2];
  const u = state.speed[node];
  const e = work.equations;
  const to = r * (work.size + 3);
  e[to + node] += byDisplacement / u;
  addSpeed(work, rows[at + 4 * r + 3] - (byDisplacement * state.displacement[node]) / u, node, e, to);
}

/**
 * Solves the three equations of a station for the changes of third quantity and theta, with the best two as pivots; the equation that
 * is left goes into the dense system.
 * Each equation is [masses..., constant, third, theta] and is zero.
 */
function eliminate(work: NewtonWork, node: number): void {
  const { size, equations: e, before } = work;
  const width = size + 3;
  const third = size + 1;
  const theta = size + 2;
  const order = [0, 1, 2];
  const largest = (from: number, column: number): void => {
    for (let r = from + 1; r < 3; r++) {
      if (Math.abs(e[order[r] * width + column]) > Math.abs(e[order[from] * width + column])) {
        const kept = order[from];
        order[from] = order[r];
        order[r] = kept;
      }
    }
  };
  const subtract = (target: number, source: number, column: number): void => {
    const factor = e[target * width + column] / e[source * width + column];
    if (factor === 0) return;
    for (let j = 0; j < width; j++) e[target * width + j] -= factor * e[source * width + j];
  };
  largest(0, third);
  subtract(order[1], order[0], third);
  subtract(order[2], order[0], third);
  largest(1, theta);
  subtract(order[2], order[1], theta);
  subtract(order[0], order[1], theta);
  const a = order[0] * width;
  const b = order[1] * width;
  const left = order[2] * width;
  const scaleA = -1 / e[a + third];
  const scaleB = -1 / e[b + theta];
  const row = node * size;
  for (let j = 0; j < size; j++) {
    before[j] = scaleA * e[a + j];
    before[size + 1 + j] = scaleB * e[b + j];
    work.matrix[row + j] = e[left + j];
  }
  before[size] = scaleA * e[a + size];
  before[2 * size + 1] = scaleB * e[b + size];
  work.right[node] = -e[left + size];
}

/** Sets up equation rows of a station from its own unknowns. */
function ownPart(state: LayerState, work: NewtonWork, local: LocalSystem, node: number): void {
  const { size, equations: e } = work;
  const width = size + 3;
  const base = node * LOCAL;
  e.fill(0);
  for (let r = 0; r < 3; r++) {
    const at = r * width;
    e[at + size] = local.rows[base + r];
    e[at + size + 1] = local.rows[base + DOWNSTREAM + 4 * r];
    e[at + size + 2] = local.rows[base + DOWNSTREAM + 4 * r + 1];
    addNode(state, work, { rows: local.rows, at: base + DOWNSTREAM }, r, node);
  }
}

/** Adds the dependence on the node before, whose rows are given. */
function upstreamPart(
  state: LayerState,
  work: NewtonWork,
  columns: Columns,
  node: number,
  source: Float64Array,
  from: number,
): void {
  const width = work.size + 3;
  for (let r = 0; r < 3; r++) {
    addRow(work, columns.rows[columns.at + 4 * r], source, from, work.equations, r * width);
    addRow(work, columns.rows[columns.at + 4 * r + 1], source, from + work.size + 1, work.equations, r * width);
    addNode(state, work, columns, r, node);
  }
}

function eliminateSide(c: ViscousCase, state: LayerState, local: LocalSystem, work: NewtonWork, side: 0 | 1): void {
  const [first, last, step] = sideNodes(c, state, side);
  const sign = side === 0 ? 1 : -1;
  const width = work.size + 3;
  for (let i = first; ; i += step) {
    const base = i * LOCAL;
    ownPart(state, work, local, i);
    if (i !== first) upstreamPart(state, work, { rows: local.rows, at: base + UPSTREAM }, i - step, work.before, 0);
    for (let r = 0; r < 3; r++) {
      addRow(work, sign * local.rows[base + BY_DISTANCE + r], work.stagnation, 0, work.equations, r * width);
    }
    eliminate(work, i);
    if (i === last) break;
  }
  work.tails.set(work.before, side * 2 * (work.size + 1));
}

/** Builds and solves the dense system. Returns false where it is singular or not finite. */
function solveMasses(c: ViscousCase, state: LayerState, local: LocalSystem, work: NewtonWork): boolean {
  const n = c.mesh.count;
  eliminateSide(c, state, local, work, 0);
  eliminateSide(c, state, local, work, 1);
  const tail = 2 * (work.size + 1);
  for (let i = n; i < work.size; i++) {
    const columns = { rows: local.rows, at: i * LOCAL + UPSTREAM };
    ownPart(state, work, local, i);
    if (i === n) {
      upstreamPart(state, work, columns, 0, work.tails, 0);
      upstreamPart(state, work, { rows: local.fromLower, at: 0 }, n - 1, work.tails, tail);
    } else upstreamPart(state, work, columns, i - 1, work.before, 0);
    eliminate(work, i);
  }
  const lu = factorLu(work.matrix, work.size);
  if (!lu.ok) return false;
  work.changeMass.set(solveLu(lu.value, work.right));
  return true;
}

/** Constant part of a station's equations once all masses and speeds are known. */
function knownPart(state: LayerState, work: NewtonWork, columns: Columns, r: number, node: number): number {
  const { rows, at } = columns;
  const u = state.speed[node];
  const change = (work.changeMass[node] - state.displacement[node] * work.changeSpeed[node]) / u;
  return rows[at + 4 * r + 2] * change + rows[at + 4 * r + 3] * work.changeSpeed[node];
}

/** Changes of third quantity and theta at a station by least squares of its three equations, of which any two suffice. */
function solveStation(work: NewtonWork, rows: Float64Array, at: number, constants: Float64Array, node: number): void {
  let best = 0;
  for (let p = 0; p < 3; p++) {
    const q = (p + 1) % 3;
    const [ap, bp] = [rows[at + 4 * p], rows[at + 4 * p + 1]];
    const [aq, bq] = [rows[at + 4 * q], rows[at + 4 * q + 1]];
    const determinant = ap * bq - aq * bp;
    const quality = Math.abs(determinant) / (Math.hypot(ap, bp) * Math.hypot(aq, bq) + 1e-300);
    if (quality <= best) continue;
    best = quality;
    work.changeThird[node] = (-constants[p] * bq + constants[q] * bp) / determinant;
    work.changeTheta[node] = (-constants[q] * ap + constants[p] * aq) / determinant;
  }
}

/** Back-substitution along the layers. */
function backSubstitute(c: ViscousCase, state: LayerState, local: LocalSystem, work: NewtonWork): void {
  const { size, signed, changeMass, changeSpeed, changeTheta, changeThird, lack } = work;
  for (let i = 0; i < size; i++) {
    let sum = lack[i];
    const row = i * size;
    for (let j = 0; j < size; j++) sum += signed[row + j] * changeMass[j];
    changeSpeed[i] = sum;
  }
  let moved = work.stagnation[size];
  for (let j = 0; j < size; j++) moved += work.stagnation[j] * changeMass[j];
  const constants = new Float64Array(3);
  const upstream = (columns: Columns, r: number, node: number): number =>
    columns.rows[columns.at + 4 * r] * changeThird[node] +
    columns.rows[columns.at + 4 * r + 1] * changeTheta[node] +
    knownPart(state, work, columns, r, node);
  const station = (i: number, before: number, lower: number, sign: number): void => {
    const base = i * LOCAL;
    for (let r = 0; r < 3; r++) {
      let sum = local.rows[base + r] + sign * local.rows[base + BY_DISTANCE + r] * moved;
      sum += knownPart(state, work, { rows: local.rows, at: base + DOWNSTREAM }, r, i);
      if (before >= 0) sum += upstream({ rows: local.rows, at: base + UPSTREAM }, r, before);
      if (lower >= 0) sum += upstream({ rows: local.fromLower, at: 0 }, r, lower);
      constants[r] = sum;
    }
    solveStation(work, local.rows, base + DOWNSTREAM, constants, i);
  };
  for (const side of [0, 1] as const) {
    const [first, last, step] = sideNodes(c, state, side);
    for (let i = first; ; i += step) {
      station(i, i === first ? -1 : i - step, -1, side === 0 ? 1 : -1);
      if (i === last) break;
    }
  }
  const n = c.mesh.count;
  station(n, 0, n - 1, 0);
  for (let i = n + 1; i < size; i++) station(i, i - 1, -1, 0);
}

/**
 * Changes of all quantities that would make the linearised equations zero.
 * c - case; state - layers; local - linearised there; work - results in its `change...` arrays
 * Returns false where the equations have no solution.
 */
export function newtonStep(c: ViscousCase, state: LayerState, local: LocalSystem, work: NewtonWork): boolean {
  setSigns(c, state, work);
  stagnationRow(c, state, work);
  if (!solveMasses(c, state, local, work)) return false;
  backSubstitute(c, state, local, work);
  return true;
}
