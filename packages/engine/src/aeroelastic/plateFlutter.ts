import { complexZeros } from '../math/complexLinear.js';
import { gaussLegendre } from '../math/index.js';
import { type BeamShape, cantileverMode } from './beamModes.js';
import { type FlutterModel, flutterPoints } from './flutter.js';
import { theodorsenFunction } from './theodorsen.js';

/** Flutter of a plate held at its leading edge: U c sqrt(m / D) and omega c^2 sqrt(m / D). */
export interface PlateFlutter {
  readonly speed: number;
  readonly frequency: number;
}

/** Midpoints of theta, x = (1 + cos theta) / 2 from the leading edge at theta = pi to the trailing edge at 0. */
const anglePoints = 160;
/** Terms of the pressure series. */
const terms = 24;

/** Generalised forces on chordwise shapes at k = omega c / 2U, chord and dynamic pressure 1: [row * count + column]. */
export function chordwiseForces(
  shapes: readonly { readonly value: (x: number) => number; readonly slope: (x: number) => number }[],
  k: number,
) {
  const count = shapes.length;
  const result = complexZeros(count * count);
  const lag = theodorsenFunction(k);
  const values = shapes.map((shape) => {
    const list = new Float64Array(anglePoints);
    for (let g = 0; g < anglePoints; g++)
      list[g] = shape.value((1 + Math.cos(((g + 0.5) * Math.PI) / anglePoints)) / 2);
    return list;
  });
  shapes.forEach((shape, j) => {
    // Local incidence -(slope + i omega c / U x displacement) = P0 + 2 sum Pn cos n theta.
    const p = complexZeros(terms + 2);
    for (let g = 0; g < anglePoints; g++) {
      const theta = ((g + 0.5) * Math.PI) / anglePoints;
      const x = (1 + Math.cos(theta)) / 2;
      const [slope, height] = [shape.slope(x) / anglePoints, (2 * k * values[j][g]) / anglePoints];
      for (let n = 0; n < terms + 2; n++) {
        const cosine = Math.cos(n * theta);
        p.re[n] -= slope * cosine;
        p.im[n] -= height * cosine;
      }
    }
    const a = complexZeros(terms + 1);
    const [sumRe, sumIm] = [p.re[0] + p.re[1], p.im[0] + p.im[1]];
    a.re[0] = lag.re * sumRe - lag.im * sumIm - p.re[1];
    a.im[0] = lag.re * sumIm + lag.im * sumRe - p.im[1];
    for (let n = 1; n <= terms; n++) {
      const factor = k / (2 * n);
      a.re[n] = p.re[n] - factor * (p.im[n - 1] - p.im[n + 1]);
      a.im[n] = p.im[n] + factor * (p.re[n - 1] - p.re[n + 1]);
    }
    for (let g = 0; g < anglePoints; g++) {
      const theta = ((g + 0.5) * Math.PI) / anglePoints;
      let [re, im] = [a.re[0] * Math.tan(theta / 2), a.im[0] * Math.tan(theta / 2)];
      for (let n = 1; n <= terms; n++) {
        const sine = 2 * Math.sin(n * theta);
        re += a.re[n] * sine;
        im += a.im[n] * sine;
      }
      const weight = (4 * Math.sin(theta) * Math.PI) / (2 * anglePoints);
      for (let i = 0; i < count; i++) {
        result.re[i * count + j] += weight * values[i][g] * re;
        result.im[i * count + j] += weight * values[i][g] * im;
      }
    }
  });
  return result;
}

function plateMatrices(shapes: readonly BeamShape[], arealMass: number) {
  const count = shapes.length;
  const mass = new Float64Array(count * count);
  const stiffness = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    // Cantilever modes with tip displacement 2 have a mean square of 1.
    mass[i * count + i] = arealMass;
    stiffness[i * count + i] = shapes[i].wave ** 4;
  }
  return { mass, stiffness };
}

function firstOnset(model: FlutterModel, arealMass: number, range: { lowest: number; highest: number }) {
  const onset = flutterPoints(model, range, 100 / Math.sqrt(arealMass)).find((point) => point.onset);
  if (onset === undefined) return undefined;
  return { speed: onset.airspeed * Math.sqrt(arealMass), frequency: onset.frequency * Math.sqrt(arealMass) };
}

/**
 * Trailing-edge buzz: flutter of a wide thin plate held at its leading edge in flow along both faces, plane flow, no damping.
 * A plate of finite span, and one with damping, is more stable.
 * massRatio - density x chord / areal mass
 * Source: C. Eloy, C. Souilliez, L. Schouveiler, Journal of Fluids and Structures 23, 2007 (problem); H. G. Kuessner, L. Schwarz 1940 (pressure,
 * from memory).
 */
export function widePlateFlutter(massRatio: number, modes = 6): PlateFlutter | undefined {
  const shapes = Array.from({ length: modes }, (_, i) => cantileverMode(i + 1));
  const arealMass = 1 / massRatio;
  const known = new Map<number, ReturnType<typeof chordwiseForces>>();
  const at = (kappa: number) => {
    const found = known.get(kappa) ?? chordwiseForces(shapes, kappa / 2);
    known.set(kappa, found);
    return { re: found.re.slice(), im: found.im.slice() };
  };
  return firstOnset(
    { ...plateMatrices(shapes, arealMass), forces: { count: modes, highestWaveNumber: 100, at }, density: 1 },
    arealMass,
    { lowest: 0.2, highest: 12 },
  );
}

/**
 * Flutter of a plate much narrower than long, held at its leading edge: the air moves as in a pipe that conveys fluid.
 * airShare - apparent mass of the air / (apparent mass + mass of the plate), per area; apparent mass = pi density width / 4
 * Returns speed U c sqrt(apparent mass / D), frequency omega c^2 sqrt((apparent mass + mass) / D).
 * Source: R. W. Gregory, M. P. Paidoussis, Proc. Royal Society A 293, 1966 (from memory); C. Eloy et al., Journal of Fluid Mechanics 611, 2008.
 */
export function slenderPlateFlutter(airShare: number, modes = 8): PlateFlutter | undefined {
  const shapes = Array.from({ length: modes }, (_, i) => cantileverMode(i + 1));
  const rule = gaussLegendre(48);
  const integral = (i: number, j: number, part: 'value' | 'slope' | 'curvature') => {
    let sum = 0;
    for (let g = 0; g < 48; g++) {
      const x = (rule.nodes[g] + 1) / 2;
      sum += (rule.weights[g] / 2) * shapes[i].value(x) * shapes[j][part](x);
    }
    return sum;
  };
  const table = (part: 'value' | 'slope' | 'curvature') =>
    Float64Array.from({ length: modes * modes }, (_, at) => integral(Math.floor(at / modes), at % modes, part));
  const [values, slopes, curvatures] = [table('value'), table('slope'), table('curvature')];
  const at = (kappa: number) => ({
    re: values.map((value, i) => 2 * airShare * (kappa * kappa * value - curvatures[i])),
    im: slopes.map((value) => -4 * airShare * kappa * value),
  });
  const arealMass = 1 - airShare;
  const model = {
    ...plateMatrices(shapes, arealMass),
    forces: { count: modes, highestWaveNumber: 1e4, at },
    density: 1,
  };
  const onset = flutterPoints(
    model,
    { lowest: 0.1, highest: 20 / Math.sqrt(airShare) },
    100 / Math.sqrt(airShare),
  ).find((point) => point.onset);
  if (onset === undefined) return undefined;
  return { speed: onset.airspeed * Math.sqrt(airShare), frequency: onset.frequency };
}
