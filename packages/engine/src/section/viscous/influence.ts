import { solveLu } from '../../math/linear.js';
import { type InviscidFlow, panelAcross, panelAlong } from './inviscid.js';
import { sourceVelocity, surfaceSourceStream, vortexVelocity, wakeSourceStream } from './kernels.js';
import { tailVelocity, type WakeLine } from './wake.js';

/**
 * What displacement does to the speed at every node. The mass that a boundary layer displaces, speed times displacement thickness, acts
 * on the outer flow as a source of strength d(mass)/ds on surface and wake.
 * Source: M. J. Lighthill, On displacement thickness, J. Fluid Mech. 4, 1958 (equivalent sources); M. Drela, M. Giles,
 * Viscous-inviscid analysis of transonic and low Reynolds number airfoils, AIAA J. 25(10), 1987.
 */
export interface SurfaceInfluence {
  /** d(vorticity at node i) / d(source on panel p), [i * panels + p]. */
  readonly vorticityOfSource: Float64Array;
  readonly panels: number;
}

/** Stream function of the panels at the surface nodes, as right-hand sides [node * columns + panel]. */
function streamOfSources(
  flow: InviscidFlow,
  px: Float64Array,
  py: Float64Array,
  stream: (along: number, across: number, length: number) => number,
): Float64Array {
  const { mesh } = flow;
  const columns = px.length - 1;
  const right = new Float64Array((mesh.count + 1) * columns);
  const rows = mesh.tailGap === 0 ? mesh.count - 1 : mesh.count;
  for (let p = 0; p < columns; p++) {
    const length = Math.hypot(px[p + 1] - px[p], py[p + 1] - py[p]);
    const tx = (px[p + 1] - px[p]) / length;
    const ty = (py[p + 1] - py[p]) / length;
    for (let i = 0; i < rows; i++) {
      const along = panelAlong(mesh.x[i], mesh.y[i], px[p], py[p], tx, ty);
      const across = panelAcross(mesh.x[i], mesh.y[i], px[p], py[p], tx, ty);
      right[i * columns + p] = -stream(along, across, length);
    }
  }
  return right;
}

/** Part that depends on the section alone. */
export function surfaceInfluence(flow: InviscidFlow): SurfaceInfluence {
  const { mesh } = flow;
  const right = streamOfSources(flow, mesh.x, mesh.y, surfaceSourceStream);
  return { vorticityOfSource: solveLu(flow.lu, right, mesh.count - 1), panels: mesh.count - 1 };
}

/** Adds panel columns of one row, times a factor, to node columns: source on panel p = (M[p + 1] - M[p]) / length. */
function panelsToNodes(
  values: Float64Array,
  from: number,
  lengths: { readonly s: Float64Array; readonly panels: number },
  out: Float64Array,
  at: number,
  factor: number,
): void {
  for (let p = 0; p < lengths.panels; p++) {
    const value = (factor * values[from + p]) / (lengths.s[p + 1] - lengths.s[p]);
    out[at + p] -= value;
    out[at + p + 1] += value;
  }
}

/** Speed along the wake at a wake node caused by the vorticity at each surface node. row - length nodes, overwritten */
function wakeSpeedOfVorticity(flow: InviscidFlow, wake: WakeLine, k: number, row: Float64Array): void {
  const { mesh } = flow;
  const { x, y, s, count } = mesh;
  const tx = wake.tangentX[k];
  const ty = wake.tangentY[k];
  const four = new Float64Array(4);
  const two = new Float64Array(2);
  row.fill(0);
  for (let j = 0; j < count - 1; j++) {
    const length = s[j + 1] - s[j];
    const ux = (x[j + 1] - x[j]) / length;
    const uy = (y[j + 1] - y[j]) / length;
    const along = panelAlong(wake.x[k], wake.y[k], x[j], y[j], ux, uy);
    vortexVelocity(along, panelAcross(wake.x[k], wake.y[k], x[j], y[j], ux, uy), length, four);
    const cosine = ux * tx + uy * ty;
    const sine = ux * ty - uy * tx;
    row[j] += four[0] * cosine + four[1] * sine;
    row[j + 1] += four[2] * cosine + four[3] * sine;
  }
  if (mesh.tailGap > 0) {
    tailVelocity(flow, 1, wake.x[k], wake.y[k], two, four);
    const value = two[0] * tx + two[1] * ty;
    row[0] += value;
    row[count - 1] -= value;
  }
}

/** Speed along the wake at a wake node caused by unit sources on the panels of a line. row - overwritten from 0 */
function wakeSpeedOfSources(wake: WakeLine, k: number, x: Float64Array, y: Float64Array, row: Float64Array): void {
  const tx = wake.tangentX[k];
  const ty = wake.tangentY[k];
  const two = new Float64Array(2);
  for (let p = 0; p < x.length - 1; p++) {
    const length = Math.hypot(x[p + 1] - x[p], y[p + 1] - y[p]);
    const ux = (x[p + 1] - x[p]) / length;
    const uy = (y[p + 1] - y[p]) / length;
    const along = panelAlong(wake.x[k], wake.y[k], x[p], y[p], ux, uy);
    sourceVelocity(along, panelAcross(wake.x[k], wake.y[k], x[p], y[p], ux, uy), length, two);
    row[p] = two[0] * (ux * tx + uy * ty) + two[1] * (ux * ty - uy * tx);
  }
}

/**
 * Own two panels of a wake node: a source that is constant on each panel makes an infinite speed where it jumps. The speed is that of a
 * source that runs straight from the middle of one panel to the middle of the next.
 */
function ownWakePanels(wake: WakeLine, k: number, row: Float64Array): void {
  const a = wake.s[k] - wake.s[k - 1];
  const inverse = 1 / (2 * Math.PI);
  if (k === wake.count - 1) {
    row[k - 1] = inverse * (Math.LN2 + 1);
    return;
  }
  const b = wake.s[k + 1] - wake.s[k];
  const stretch = Math.log(b / a);
  row[k - 1] = inverse * (Math.LN2 + 1 - (stretch * b) / (a + b));
  row[k] = inverse * (-Math.LN2 - 1 - (stretch * a) / (a + b));
}

/** Influence of the mass at all nodes, surface then wake, on the speed along the way at all nodes; and the inviscid speed in the wake. */
export interface Influence {
  /** Surface and wake nodes together. */
  readonly size: number;
  /** d(q_i) / d(M_j), [i * size + j]; M = q times displacement thickness on the surface, mass in the wake. */
  readonly matrix: Float64Array;
  /** Inviscid speed in the wake at incidence 0 and at 90 degrees. */
  readonly wakeZero: Float64Array;
  readonly wakeRight: Float64Array;
}

/** Surface rows of the influence matrix. */
function surfaceRows(flow: InviscidFlow, surface: SurfaceInfluence, wake: WakeLine, size: number): Float64Array {
  const { mesh } = flow;
  const matrix = new Float64Array(size * size);
  const ofWake = solveLu(flow.lu, streamOfSources(flow, wake.x, wake.y, wakeSourceStream), wake.count - 1);
  for (let i = 0; i < mesh.count; i++) {
    // The speed along the way is minus the clockwise vorticity.
    panelsToNodes(
      surface.vorticityOfSource,
      i * surface.panels,
      { s: mesh.s, panels: surface.panels },
      matrix,
      i * size,
      -1,
    );
    const panels = wake.count - 1;
    panelsToNodes(ofWake, i * panels, { s: wake.s, panels }, matrix, i * size + mesh.count, -1);
  }
  return matrix;
}

/**
 * Influence matrix of a section with its wake.
 * flow, surface - section; wake - at about the incidence in question
 */
export function influenceWithWake(flow: InviscidFlow, surface: SurfaceInfluence, wake: WakeLine): Influence {
  const { mesh } = flow;
  const n = mesh.count;
  const size = n + wake.count;
  const matrix = surfaceRows(flow, surface, wake, size);
  const wakeZero = new Float64Array(wake.count);
  const wakeRight = new Float64Array(wake.count);
  const vorticity = new Float64Array(n);
  const sources = new Float64Array(Math.max(n, wake.count));
  // At the trailing edge the wake starts with the speed of the surface.
  matrix.copyWithin(n * size, (n - 1) * size, n * size);
  wakeZero[0] = -flow.gammaZero[n - 1];
  wakeRight[0] = -flow.gammaRight[n - 1];
  for (let k = 1; k < wake.count; k++) {
    const row = (n + k) * size;
    wakeSpeedOfVorticity(flow, wake, k, vorticity);
    wakeZero[k] = wake.tangentX[k];
    wakeRight[k] = wake.tangentY[k];
    for (let j = 0; j < n; j++) {
      wakeZero[k] += vorticity[j] * flow.gammaZero[j];
      wakeRight[k] += vorticity[j] * flow.gammaRight[j];
      const weight = -vorticity[j];
      const from = j * size;
      for (let c = 0; c < size; c++) matrix[row + c] += weight * matrix[from + c];
    }
    wakeSpeedOfSources(wake, k, mesh.x, mesh.y, sources);
    panelsToNodes(sources, 0, { s: mesh.s, panels: n - 1 }, matrix, row, 1);
    wakeSpeedOfSources(wake, k, wake.x, wake.y, sources);
    ownWakePanels(wake, k, sources);
    panelsToNodes(sources, 0, { s: wake.s, panels: wake.count - 1 }, matrix, row + n, 1);
  }
  return { size, matrix, wakeZero, wakeRight };
}
