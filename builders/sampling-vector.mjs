/**
 * Generating vector of the lattice in packages/engine/src/math/sampling.ts, by component-by-component search: each new
 * component is the candidate whose worst pair with an earlier one has the smallest squared worst-case integration error
 * (periodic functions with square-integrable mixed first derivatives), over the first 128, 256 and 1024 points.
 * Method: R. Cools, F. Kuo, D. Nuyens, Constructing embedded lattice rules, SIAM J. Sci. Comput. 28, 2006.
 * Run: node builders/sampling-vector.mjs
 */
const components = 32;
const modulus = 2 ** 20;
const sizes = [128, 256, 1024];
const candidates = 1500;

/** Kernel 2 pi^2 B_2(x), whose Fourier coefficients are all positive. */
const kernel = (/** @type {number} */ x) => 2 * Math.PI ** 2 * (x * x - x + 1 / 6);

const kernels = sizes.map((size) => Float64Array.from({ length: size }, (_, i) => kernel(i / size)));

/** @param {number} generator */
const columns = (generator) =>
  sizes.map((size, s) => Float64Array.from({ length: size }, (_, i) => kernels[s][(i * generator) % size]));

/**
 * @param {Float64Array[]} a
 * @param {Float64Array[]} b
 */
function pairError(a, b) {
  let worst = 0;
  for (const [s, size] of sizes.entries()) {
    let sum = 0;
    for (let i = 0; i < size; i += 1) sum += a[s][i] * b[s][i];
    // The error of a good lattice falls nearly with the square of its size: scaled so that sizes weigh alike.
    worst = Math.max(worst, (sum / size) * size ** 1.8);
  }
  return worst;
}

let state = 20_260_621;
const next = () => {
  state = (state * 48_271) % 2_147_483_647;
  return (state % modulus) | 1;
};

const vector = [1];
const chosen = [columns(1)];
while (vector.length < components) {
  let best = { error: Number.POSITIVE_INFINITY, generator: 1, column: chosen[0] };
  for (let c = 0; c < candidates; c += 1) {
    const generator = next();
    const column = columns(generator);
    let error = 0;
    for (const known of chosen) {
      error = Math.max(error, pairError(column, known));
      if (error >= best.error) break;
    }
    if (error < best.error) best = { error, generator, column };
  }
  vector.push(best.generator);
  chosen.push(best.column);
}
console.log(vector.join(', '));
