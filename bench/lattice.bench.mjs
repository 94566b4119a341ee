import { LuDecomposition, Matrix } from 'ml-matrix';
import { factorLu, solveLu } from '../packages/engine/dist/math/linear.js';
import { trapezoidalWing } from '../packages/engine/dist/shape/index.js';
import { influenceMatrices } from '../packages/engine/dist/wing/influence.js';
import { buildLattice } from '../packages/engine/dist/wing/lattice.js';
import { atLeast, atMost, measure } from './measure.mjs';

const unknowns = 400;

/** A wing of 20 x 20 panels on the half span: the lattice of a real design, not a random matrix. */
const options = { panels: { chordwise: 20, spanwise: 20 } };
const surfaces = [trapezoidalWing({ span: 2.4, aspectRatio: 10, taper: 0.6, dihedral: 0.05 })];

const matrix = () => influenceMatrices(buildLattice(surfaces, options), false).symmetric;

/** @param {Float64Array} a */
function solve(a) {
  const factors = factorLu(a.slice(), unknowns);
  if (!factors.ok) throw new Error(factors.reason);
  return solveLu(factors.value, rightHandSide());
}

const rightHandSide = () => new Float64Array(unknowns).fill(1);

/** Vortex lattice of 400 unknowns: building, and the solve against ml-matrix on the same matrix. */
export default function lattice() {
  const a = matrix();
  if (a.length !== unknowns ** 2) throw new Error(`The lattice has ${Math.sqrt(a.length)} unknowns, not ${unknowns}.`);
  const copy = Matrix.from1DArray(unknowns, unknowns, a);
  const column = Matrix.columnVector(rightHandSide());
  const ours = solve(a);
  const theirs = new LuDecomposition(copy).solve(column).to1DArray();
  const worst = theirs.reduce((most, value, at) => Math.max(most, Math.abs(value - (ours[at] ?? Number.NaN))), 0);
  if (!(worst < 1e-8)) throw new Error(`The two solutions differ by ${worst}.`);

  const reference = measure(() => new LuDecomposition(copy).solve(column)).median;
  const solved = measure(() => solve(a)).median;
  const whole = measure(() => solve(matrix())).median;
  const named = { name: 'the LU solve of ml-matrix', value: reference * 1000, unit: 'ms' };
  return [
    atLeast({
      name: `LU solve of ${unknowns} unknowns, against ml-matrix`,
      value: reference / solved,
      unit: 'x',
      reference: { ...named, ratio: reference / solved },
      budget: 3,
    }),
    atMost({
      name: `vortex lattice of ${unknowns} unknowns, matrix and solve`,
      value: whole * 1000,
      unit: 'ms',
      reference: { ...named, ratio: reference / whole },
      budget: 60,
    }),
  ];
}
