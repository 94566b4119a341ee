import type { ComplexMatrix } from './complexLinear.js';
import type { ComplexNumber } from './special.js';

/** Reduces to upper Hessenberg form by stabilised elimination; same eigenvalues. */
function toHessenberg({ re, im }: ComplexMatrix, n: number): void {
  for (let m = 1; m < n - 1; m++) {
    let row = m;
    for (let i = m + 1; i < n; i++)
      if (Math.hypot(re[i * n + m - 1], im[i * n + m - 1]) > Math.hypot(re[row * n + m - 1], im[row * n + m - 1]))
        row = i;
    if (row !== m)
      for (const part of [re, im]) {
        for (let j = 0; j < n; j++) [part[row * n + j], part[m * n + j]] = [part[m * n + j], part[row * n + j]];
        for (let j = 0; j < n; j++) [part[j * n + row], part[j * n + m]] = [part[j * n + m], part[j * n + row]];
      }
    const pivot = m * n + m - 1;
    const square = re[pivot] ** 2 + im[pivot] ** 2;
    if (square === 0) continue;
    for (let i = m + 1; i < n; i++) {
      const at = i * n + m - 1;
      const yRe = (re[at] * re[pivot] + im[at] * im[pivot]) / square;
      const yIm = (im[at] * re[pivot] - re[at] * im[pivot]) / square;
      if (yRe === 0 && yIm === 0) continue;
      for (let j = 0; j < n; j++) {
        const s = m * n + j;
        const t = i * n + j;
        re[t] -= yRe * re[s] - yIm * im[s];
        im[t] -= yRe * im[s] + yIm * re[s];
      }
      for (let j = 0; j < n; j++) {
        const s = j * n + i;
        const t = j * n + m;
        re[t] += yRe * re[s] - yIm * im[s];
        im[t] += yRe * im[s] + yIm * re[s];
      }
      re[at] = 0;
      im[at] = 0;
    }
  }
}

function squareRoot(re: number, im: number): ComplexNumber {
  const size = Math.hypot(re, im);
  const root = Math.sqrt((size + Math.abs(re)) / 2);
  if (root === 0) return { re: 0, im: 0 };
  return re >= 0 ? { re: root, im: im / (2 * root) } : { re: Math.abs(im) / (2 * root), im: im >= 0 ? root : -root };
}

/** Eigenvalue of the trailing 2 x 2 block that lies closer to its last entry. */
function wilkinsonShift({ re, im }: ComplexMatrix, n: number, last: number): ComplexNumber {
  const [a, b, c, d] = [(last - 1) * n + last - 1, (last - 1) * n + last, last * n + last - 1, last * n + last];
  const [hRe, hIm] = [(re[a] - re[d]) / 2, (im[a] - im[d]) / 2];
  const bcRe = re[b] * re[c] - im[b] * im[c];
  const bcIm = re[b] * im[c] + im[b] * re[c];
  const root = squareRoot(hRe * hRe - hIm * hIm + bcRe, 2 * hRe * hIm + bcIm);
  const sign = hRe * root.re + hIm * root.im >= 0 ? 1 : -1;
  const [qRe, qIm] = [hRe + sign * root.re, hIm + sign * root.im];
  const square = qRe * qRe + qIm * qIm;
  if (square === 0) return { re: re[d], im: im[d] };
  return { re: re[d] - (bcRe * qRe + bcIm * qIm) / square, im: im[d] - (bcIm * qRe - bcRe * qIm) / square };
}

/** One shifted QR step by Givens rotations on rows and columns from..last. */
function qrStep({ re, im }: ComplexMatrix, n: number, from: number, last: number, shift: ComplexNumber): void {
  for (let i = from; i <= last; i++) {
    re[i * n + i] -= shift.re;
    im[i * n + i] -= shift.im;
  }
  const size = last - from;
  const cosine = new Float64Array(size);
  const [sineRe, sineIm] = [new Float64Array(size), new Float64Array(size)];
  for (let k = from; k < last; k++) {
    const [p, q] = [k * n + k, (k + 1) * n + k];
    const top = Math.hypot(re[p], im[p]);
    const length = Math.hypot(top, re[q], im[q]);
    const i = k - from;
    // Rotation [c, s; -conj(s), c] with c real takes (a, b) to (r, 0).
    if (length === 0) {
      cosine[i] = 1;
      continue;
    }
    if (top === 0) {
      cosine[i] = 0;
      sineRe[i] = re[q] / length;
      sineIm[i] = -im[q] / length;
    } else {
      cosine[i] = top / length;
      const [uRe, uIm] = [re[p] / top, im[p] / top];
      sineRe[i] = (uRe * re[q] + uIm * im[q]) / length;
      sineIm[i] = (uIm * re[q] - uRe * im[q]) / length;
    }
    const [c, s, t] = [cosine[i], sineRe[i], sineIm[i]];
    for (let j = k; j <= last; j++) {
      const a = k * n + j;
      const b = a + n;
      const aRe = re[a];
      const aIm = im[a];
      const bRe = re[b];
      const bIm = im[b];
      re[a] = c * aRe + s * bRe - t * bIm;
      im[a] = c * aIm + s * bIm + t * bRe;
      re[b] = c * bRe - s * aRe - t * aIm;
      im[b] = c * bIm - s * aIm + t * aRe;
    }
  }
  for (let k = from; k < last; k++) {
    const [c, s, t] = [cosine[k - from], sineRe[k - from], sineIm[k - from]];
    for (let j = from; j <= Math.min(last, k + 1); j++) {
      const a = j * n + k;
      const b = a + 1;
      const aRe = re[a];
      const aIm = im[a];
      const bRe = re[b];
      const bIm = im[b];
      re[a] = c * aRe + s * bRe + t * bIm;
      im[a] = c * aIm + s * bIm - t * bRe;
      re[b] = c * bRe - s * aRe + t * aIm;
      im[b] = c * bIm - s * aIm - t * aRe;
    }
  }
  for (let i = from; i <= last; i++) {
    re[i * n + i] += shift.re;
    im[i * n + i] += shift.im;
  }
}

/**
 * Eigenvalues of a dense complex matrix, in no particular order. The matrix is overwritten.
 * size - number of rows, up to about a hundred
 * Source: Golub and Van Loan, Matrix Computations, 4th ed. 2013, sections 7.4 and 7.5 (Hessenberg form, shifted QR).
 */
export function complexEigenvalues(matrix: ComplexMatrix, size: number): ComplexNumber[] {
  const { re, im } = matrix;
  const n = size;
  toHessenberg(matrix, n);
  const found: ComplexNumber[] = [];
  let last = n - 1;
  let steps = 0;
  while (last >= 0) {
    let from = last;
    for (; from > 0; from--) {
      const [below, a, b] = [from * n + from - 1, from * n + from, (from - 1) * n + from - 1];
      const neighbours = Math.abs(re[a]) + Math.abs(im[a]) + Math.abs(re[b]) + Math.abs(im[b]);
      if (Math.abs(re[below]) + Math.abs(im[below]) <= 1e-15 * neighbours) break;
    }
    if (from === last) {
      found.push({ re: re[last * n + last], im: im[last * n + last] });
      last--;
      steps = 0;
      continue;
    }
    steps++;
    if (steps > 200) throw new RangeError('complexEigenvalues: the matrix holds values that are not finite');
    const exceptional = steps % 11 === 10;
    const stuck = Math.hypot(re[last * n + last - 1], im[last * n + last - 1]);
    const shift = exceptional
      ? { re: re[last * n + last] + stuck, im: im[last * n + last] }
      : wilkinsonShift(matrix, n, last);
    qrStep(matrix, n, from, last, shift);
  }
  return found;
}
