import { type CholeskyFactors, factorCholesky, solveCholesky } from '../math/cholesky.js';
import { lowestEigenpairs, multiplyBlock } from '../math/eigen.js';
import { type Outcome, success } from '../result.js';
import { rigidMotion } from './build.js';
import { triangleHeat } from './element.js';
import type { HalfModel, NaturalModes, StaticSolution, StructuralModel, Symmetry } from './model-types.js';
import { addWeighted, fieldsOf, triangleDofs } from './rows.js';

/** Unknowns that are zero in each kind of motion. */
function heldDofs(model: StructuralModel, symmetry: Symmetry): Set<number> {
  const { w, slopeX, slopeY } = model.planeOfSymmetry;
  if (symmetry === 'symmetric') return new Set(slopeY);
  if (symmetry === 'antisymmetric') return new Set([...w, ...slopeX]);
  return new Set([...w, ...slopeX, ...slopeY]);
}

function submatrix(matrix: Float64Array, full: number, dofs: Int32Array): Float64Array {
  const n = dofs.length;
  const part = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) part[i * n + j] = matrix[dofs[i] * full + dofs[j]];
  return part;
}

/** Rigid motions of a symmetry, as w = a + b x + c y. */
function rigidCoefficients(model: StructuralModel, symmetry: Symmetry): (readonly [number, number, number])[] {
  if (symmetry === 'clamped') return [];
  // Nose up lifts what is ahead of the balance point; right wing down lowers what is to the right.
  if (symmetry === 'antisymmetric') return [[0, 0, -1]];
  return [
    [1, 0, 0],
    [model.balancePoint, -1, 0],
  ];
}

/** A node in the middle whose unknowns hold the rigid motions, determinately. */
function supportsOf(model: StructuralModel, symmetry: Symmetry, indexOf: Int32Array): Int32Array {
  if (symmetry === 'clamped') return new Int32Array(0);
  const { w, slopeX, slopeY } = model.planeOfSymmetry;
  const held = symmetry === 'symmetric' ? [w[0], slopeX[0]] : [slopeY[0]];
  return Int32Array.from(held, (dof) => indexOf[dof]);
}

/**
 * One symmetry of the half aircraft: its own unknowns, stiffness, mass and rigid motions.
 * @param symmetry - 'clamped' holds every node in the plane of symmetry: a wing on a bench
 */
export function halfModel(model: StructuralModel, symmetry: Symmetry): HalfModel {
  return heldModel(model, symmetry, heldDofs(model, symmetry));
}

/**
 * The half aircraft with any unknowns held: a test rig.
 * @param symmetry - whose rigid motions are still free; 'clamped' where none is
 * @param held - unknowns of the whole model that are zero
 */
export function heldModel(model: StructuralModel, symmetry: Symmetry, held: ReadonlySet<number>): HalfModel {
  const dofs = Int32Array.from(Array.from({ length: model.dofCount }, (_, i) => i).filter((i) => !held.has(i)));
  const indexOf = new Int32Array(model.dofCount).fill(-1);
  dofs.forEach((dof, i) => {
    indexOf[dof] = i;
  });
  const coefficients = rigidCoefficients(model, symmetry);
  const rigid = new Float64Array(coefficients.length * dofs.length);
  coefficients.forEach((motion, r) => {
    const all = rigidMotion(model.dofCount, model.surfaces, model.bodies, motion);
    dofs.forEach((dof, i) => {
      rigid[r * dofs.length + i] = all[dof];
    });
  });
  return {
    symmetry,
    size: dofs.length,
    dofs,
    indexOf,
    stiffness: submatrix(model.stiffness, model.dofCount, dofs),
    mass: submatrix(model.mass, model.dofCount, dofs),
    rigid,
    rigidCount: coefficients.length,
    supports: supportsOf(model, symmetry, indexOf),
  };
}

/** A half model with its factors: what is solved again and again. */
export interface StaticSystem {
  readonly half: HalfModel;
  readonly factors: CholeskyFactors;
  /** The rigid motions, and M times them, row-major size x rigidCount. */
  readonly rigidShapes: Float64Array;
  readonly rigidMomentum: Float64Array;
  /** Inverse of the rigid mass matrix, rigidCount x rigidCount. */
  readonly inverseRigidMass: Float64Array;
}

/** Inverse of a symmetric 1 x 1 or 2 x 2 matrix. */
function smallInverse(a: Float64Array, n: number): Float64Array {
  if (n === 0) return new Float64Array(0);
  if (n === 1) return Float64Array.of(1 / a[0]);
  const determinant = a[0] * a[3] - a[1] * a[2];
  return Float64Array.of(a[3], -a[1], -a[2], a[0]).map((value) => value / determinant);
}

/** Factors the stiffness of a half model, held determinately where it is free. */
export function prepareStatic(half: HalfModel): Outcome<StaticSystem> {
  const { size: n, rigidCount: r } = half;
  const held = half.stiffness.slice();
  for (const index of half.supports) {
    for (let j = 0; j < n; j++) held[index * n + j] = held[j * n + index] = 0;
    held[index * n + index] = half.stiffness[index * n + index];
  }
  const factors = factorCholesky(held, n);
  if (!factors.ok) return factors;
  const rigidShapes = new Float64Array(n * r);
  for (let i = 0; i < n; i++) for (let a = 0; a < r; a++) rigidShapes[i * r + a] = half.rigid[a * n + i];
  const rigidMomentum = multiplyBlock(half.mass, n, rigidShapes, r);
  const rigidMass = new Float64Array(r * r);
  for (let i = 0; i < n; i++)
    for (let a = 0; a < r; a++)
      for (let b = 0; b < r; b++) rigidMass[a * r + b] += rigidShapes[i * r + a] * rigidMomentum[i * r + b];
  const inverseRigidMass = smallInverse(rigidMass, r);
  return success({ half, factors: factors.value, rigidShapes, rigidMomentum, inverseRigidMass });
}

/** Coefficients of rigid motions: inverse rigid mass times weights' X, rigidCount x columns. @param weights - row-major size x rigidCount */
function rigidParts(
  { half, inverseRigidMass }: Pick<StaticSystem, 'half' | 'inverseRigidMass'>,
  block: Float64Array,
  weights: Float64Array,
  columns: number,
): Float64Array {
  const { size: n, rigidCount: r } = half;
  const raw = new Float64Array(r * columns);
  for (let i = 0; i < n; i++)
    for (let a = 0; a < r; a++) {
      const weight = weights[i * r + a];
      if (weight === 0) continue;
      for (let c = 0, from = i * columns, to = a * columns; c < columns; c++) raw[to + c] += weight * block[from + c];
    }
  return multiplyBlock(inverseRigidMass, r, raw, columns);
}

/** Takes row-major shapes (size x rigidCount) times amounts (rigidCount x columns) off a block. */
function takeOff(block: Float64Array, shapes: Float64Array, amounts: Float64Array, columns: number): void {
  const r = amounts.length / columns;
  for (let i = 0; i < block.length / columns; i++)
    for (let a = 0; a < r; a++) {
      const shape = shapes[i * r + a];
      if (shape === 0) continue;
      for (let c = 0, to = i * columns, from = a * columns; c < columns; c++)
        block[to + c] -= shape * amounts[from + c];
    }
}

/**
 * Elastic displacement under loads on the free aircraft: the loads accelerate it as a whole, and inertia balances them
 * (inertia relief). Nothing is clamped; the displacement is counted from the mean position of the masses.
 *
 * @param loads - row-major size x columns [N, N m]; weight may be added or left out, it accelerates without bending only what
 *   is as heavy as it is carried
 * Clamped models take the loads as they are.
 */
export function solveStatic(system: StaticSystem, loads: Float64Array, columns = 1): StaticSolution {
  const { half, rigidShapes, rigidMomentum, factors } = system;
  const acceleration = rigidParts(system, loads, rigidShapes, columns);
  const balanced = loads.slice();
  takeOff(balanced, rigidMomentum, acceleration, columns);
  for (const index of half.supports) balanced.fill(0, index * columns, (index + 1) * columns);
  const displacement = solveCholesky(factors, balanced, columns);
  takeOff(displacement, rigidShapes, rigidParts(system, displacement, rigidMomentum, columns), columns);
  return { displacement, acceleration };
}

/**
 * Square of a frequency near the lowest elastic one [1/s2]: Rayleigh's quotient of the shape that smooth inertia loads bend.
 * Free motions then grow only a little faster than elastic ones while the vibrations are sought.
 */
function shiftOf(half: HalfModel): number {
  const system = prepareStatic(half);
  if (!system.ok) return stiffestShift(half);
  const { size: n } = half;
  const pattern = Float64Array.from({ length: n }, (_, i) => half.mass[i * n + i] * (1 + i / n) ** 2);
  const { displacement: u } = solveStatic(system.value, pattern);
  const [inertia, force] = [multiplyBlock(half.mass, n, u, 1), multiplyBlock(half.stiffness, n, u, 1)];
  let [kinetic, elastic] = [0, 0];
  for (let i = 0; i < n; i++) {
    kinetic += u[i] * inertia[i];
    elastic += u[i] * force[i];
  }
  const quotient = elastic / kinetic;
  return quotient > 0 && Number.isFinite(quotient) ? quotient : stiffestShift(half);
}

function stiffestShift({ stiffness, mass, size }: HalfModel): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < size; i++) {
    least = Math.min(least, stiffness[i * size + i] / Math.max(mass[i * size + i], 1e-300));
  }
  return least * 1e-3;
}

/**
 * Lowest elastic vibrations of a half model in vacuum, free unless clamped.
 * @param count - how many; rigid motions are left out
 */
export function naturalModes(half: HalfModel, count: number): Outcome<NaturalModes> {
  const wanted = Math.min(half.size, count + half.rigidCount);
  const pairs = lowestEigenpairs(half.stiffness, half.mass, half.size, wanted, shiftOf(half));
  if (!pairs.ok) return pairs;
  const kept = wanted - half.rigidCount;
  const { values, vectors } = pairs.value;
  return success({
    frequencies: Float64Array.from({ length: kept }, (_, i) => Math.sqrt(Math.max(0, values[i + half.rigidCount]))),
    shapes: vectors.slice(half.rigidCount * half.size),
    count: kept,
    size: half.size,
  });
}

/** Loads that bend the plates as a top warmer than the bottom by so many kelvin would. @param difference - top less bottom [K] */
export function heatLoad(model: StructuralModel, half: HalfModel, difference: number): Float64Array {
  const loads = new Float64Array(half.size);
  for (const mesh of model.surfaces) {
    mesh.plates.forEach(({ plate }, t) => {
      const heat = plate.map(({ heatCurvature }) => heatCurvature * difference);
      if (heat.every((value) => value === 0)) return;
      addWeighted(half, loads, triangleDofs(mesh, t), triangleHeat(fieldsOf(mesh, t), plate, heat), 1);
    });
  }
  return loads;
}
