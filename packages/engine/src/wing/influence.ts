import type { Lattice } from './lattice.js';

/** Of a trailing leg as another surface sees it, in strip widths: enough that a leg beside a control point does no harm. */
const coreRadius = 0.3;

const quarterOverPi = 1 / (4 * Math.PI);

/**
 * Adds the velocity of a unit horseshoe vortex to out[0] (y component) and out[1] (z component): bound vortex from the inner to the outer
 * end, trailing legs straight aft from both. Circulation along +y makes lift.
 *
 * ends - six numbers per panel; offset of this panel's first
 * core2 - square of a core radius that smooths the trailing legs where they pass close to another surface [m2]
 * Source: Katz and Plotkin, Low-Speed Aerodynamics, 2nd ed. 2001, section 10.4, numbering from memory (law of Biot and Savart for straight segments).
 */
function horseshoe(
  ends: Float64Array,
  offset: number,
  x: number,
  y: number,
  z: number,
  core2: number,
  out: Float64Array,
): void {
  const ax = x - ends[offset];
  const ay = y - ends[offset + 1];
  const az = z - ends[offset + 2];
  const bx = x - ends[offset + 3];
  const by = y - ends[offset + 4];
  const bz = z - ends[offset + 5];
  const a = Math.sqrt(ax * ax + ay * ay + az * az);
  const b = Math.sqrt(bx * bx + by * by + bz * bz);
  const ab = a * b;
  const bound = (a + b) / (ab * (ab + ax * bx + ay * by + az * bz) + 1e-30);
  const legA = (a + ax) / (a * (ay * ay + az * az + core2) + 1e-30);
  const legB = (b + bx) / (b * (by * by + bz * bz + core2) + 1e-30);
  out[0] = quarterOverPi * ((az * bx - ax * bz) * bound + az * legA - bz * legB);
  out[1] = quarterOverPi * ((ax * by - ay * bx) * bound - ay * legA + by * legB);
}

/** Square of the core radius of panel j's legs as seen from strip i: none within a surface. */
function coreSquared(lattice: Lattice, ofStrip: number, seenFrom: number): number {
  const { surface, width } = lattice.strips;
  return surface[ofStrip] === surface[seenFrom] ? 0 : (coreRadius * width[ofStrip]) ** 2;
}

/**
 * Matrices of minus the normal velocity at control points for unit circulation of each panel, row-major, n x n.
 * Symmetric: n = panels of mirrored surfaces; antisymmetric: all panels (undefined unless wanted).
 */
export function influenceMatrices(
  lattice: Lattice,
  lateral: boolean,
): { symmetric: Float64Array; antisymmetric: Float64Array | undefined } {
  const { panelCount: all, mirroredPanels: half, ends, points, strips, stripOfPanel } = lattice;
  const symmetric = new Float64Array(half * half);
  const antisymmetric = lateral ? new Float64Array(all * all) : undefined;
  const rows = lateral ? all : half;
  const out = new Float64Array(2);
  for (let i = 0; i < rows; i++) {
    const strip = stripOfPanel[i];
    const ny = strips.ny[strip];
    const nz = strips.nz[strip];
    const [x, y, z] = [points[3 * i], points[3 * i + 1], points[3 * i + 2]];
    for (let j = 0; j < rows; j++) {
      const core2 = coreSquared(lattice, stripOfPanel[j], strip);
      horseshoe(ends, 6 * j, x, y, z, core2, out);
      const direct = -(out[0] * ny + out[1] * nz);
      let image = 0;
      if (j < half) {
        // The image vortex at this point is this vortex at the mirrored point, with the y component reversed.
        horseshoe(ends, 6 * j, x, -y, z, core2, out);
        image = out[0] * ny - out[1] * nz;
      }
      if (i < half && j < half) symmetric[i * half + j] = direct + image;
      if (antisymmetric) antisymmetric[i * all + j] = direct - image;
    }
  }
  return { symmetric, antisymmetric };
}

/**
 * Far behind the aircraft: minus the normal velocity at the middle of strip i for unit circulation of strip j and its mirror image,
 * mirrored strips only, row-major.
 * Source: M. M. Munk, The Minimum Induced Drag of Aerofoils, NACA TR 121, 1921 (drag from the wake far behind).
 */
export function farFieldMatrix(lattice: Lattice): Float64Array {
  const { strips, firstPanel, ends } = lattice;
  const n = strips.mirroredCount;
  const matrix = new Float64Array(n * n);
  const twoPi = 2 * Math.PI;
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const e = 6 * firstPanel[j];
      const core2 = coreSquared(lattice, j, i);
      const wash = (side: number) => {
        const ay = side * strips.y[i] - ends[e + 1];
        const az = strips.z[i] - ends[e + 2];
        const by = side * strips.y[i] - ends[e + 4];
        const bz = strips.z[i] - ends[e + 5];
        const a2 = ay * ay + az * az + core2;
        const b2 = by * by + bz * bz + core2;
        const v = (az / a2 - bz / b2) / twoPi;
        const w = (by / b2 - ay / a2) / twoPi;
        return -(side * v * strips.ny[i] + w * strips.nz[i]);
      };
      matrix[i * n + j] = wash(1) + wash(-1);
    }
  return matrix;
}

/**
 * Upward velocity that a symmetric solution makes at points of the plane of symmetry, per unit airspeed.
 *
 * circulation - of the panels of mirrored surfaces
 * points - x, z pairs
 */
export function upwashOnCentreLine(
  lattice: Lattice,
  circulation: Float64Array,
  points: readonly { x: number; z: number }[],
): number[] {
  const out = new Float64Array(2);
  return points.map(({ x, z }) => {
    let sum = 0;
    for (let j = 0; j < lattice.mirroredPanels; j++) {
      const width = lattice.strips.width[lattice.stripOfPanel[j]];
      horseshoe(lattice.ends, 6 * j, x, 0, z, (coreRadius * width) ** 2, out);
      sum += 2 * out[1] * circulation[j];
    }
    return sum;
  });
}
