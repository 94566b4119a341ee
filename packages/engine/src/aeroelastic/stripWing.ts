import { complexZeros } from '../math/complexLinear.js';
import { gaussLegendre } from '../math/index.js';
import { cantileverMode } from './beamModes.js';
import { type FlutterModel, type FlutterPoint, flutterPoints } from './flutter.js';
import { theodorsenFunction } from './theodorsen.js';
import { sectionForces } from './typicalSection.js';

/** A uniform straight cantilever wing for strip theory, SI. */
export interface UniformWing {
  readonly semispan: number;
  readonly chord: number;
  /** Elastic axis and balance point, aft of the leading edge / chord. */
  readonly axis: number;
  readonly balance: number;
  /** Per metre of span: mass [kg/m], moment of inertia about the elastic axis [kg m]. */
  readonly mass: number;
  readonly inertia: number;
  /** EI and GJ [N m2]. */
  readonly bendingStiffness: number;
  readonly torsionStiffness: number;
}

/** The uniform wing of Goland. Source: M. Goland, Journal of Applied Mechanics 12, 1945, A197 to A208. */
export const golandWing: UniformWing = {
  semispan: 6.096,
  chord: 1.8288,
  axis: 0.33,
  balance: 0.43,
  mass: 35.71,
  inertia: 8.64,
  bendingStiffness: 9.77e6,
  torsionStiffness: 0.987e6,
};

/** Mass, stiffness and strip forces of assumed modes: cantilever bending and sine torsion, `each` of both. */
export function stripWingModel(wing: UniformWing, density: number, each = 3): FlutterModel {
  const { semispan, chord, mass, inertia } = wing;
  const b = chord / 2;
  const axis = 2 * wing.axis - 1;
  const count = 2 * each;
  const bending = Array.from({ length: each }, (_, i) => cantileverMode(i + 1));
  const torsionWave = (i: number) => (i + 0.5) * Math.PI;
  const offset = (wing.balance - wing.axis) * chord;
  const matrices = { mass: new Float64Array(count * count), stiffness: new Float64Array(count * count) };
  const overlap = new Float64Array(count * count);
  const rule = gaussLegendre(40);
  for (let g = 0; g < 40; g++) {
    const y = (rule.nodes[g] + 1) / 2;
    const weight = (semispan * rule.weights[g]) / 2;
    const shape = (i: number) => (i < each ? bending[i].value(y) : Math.sin(torsionWave(i - each) * y));
    for (let i = 0; i < count; i++)
      for (let j = 0; j < count; j++) {
        const both = weight * shape(i) * shape(j);
        overlap[i * count + j] += both;
        const [p, q] = [i < each, j < each];
        matrices.mass[i * count + j] += both * (p && q ? mass : p !== q ? -mass * offset : inertia);
      }
  }
  for (let i = 0; i < each; i++) {
    const at = (k: number) => k * count + k;
    matrices.stiffness[at(i)] = (overlap[at(i)] * wing.bendingStiffness * bending[i].wave ** 4) / semispan ** 4;
    matrices.stiffness[at(each + i)] =
      (overlap[at(each + i)] * wing.torsionStiffness * torsionWave(i) ** 2) / semispan ** 2;
  }
  const at = (kappa: number) => {
    const section = sectionForces(axis, kappa * b, theodorsenFunction);
    const result = complexZeros(count * count);
    for (let i = 0; i < count; i++)
      for (let j = 0; j < count; j++) {
        const [p, q] = [i < each ? 0 : 1, j < each ? 0 : 1];
        // Plunge is in metres here, in semichords there.
        const scale = overlap[i * count + j] * b ** (p + q);
        result.re[i * count + j] = scale * section.re[2 * p + q];
        result.im[i * count + j] = scale * section.im[2 * p + q];
      }
    return result;
  };
  return { ...matrices, density, forces: { count, highestWaveNumber: 10 / b, at } };
}

/**
 * Flutter of a uniform cantilever wing by strip theory with Theodorsen's function: lowest onset, undefined where there is none.
 * each - bending and torsion modes
 * Source: Goland 1945; T. Theodorsen, NACA TR 496, 1935.
 */
export function stripWingFlutter(
  wing: UniformWing,
  density: number,
  { each = 3, highestAirspeed = 1000 }: { readonly each?: number; readonly highestAirspeed?: number } = {},
): FlutterPoint | undefined {
  const b = wing.chord / 2;
  return flutterPoints(stripWingModel(wing, density, each), { lowest: 0.01 / b, highest: 3 / b }, highestAirspeed).find(
    ({ onset }) => onset,
  );
}
