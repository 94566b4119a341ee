import { amplificationRate } from './amplification.js';
import {
  equilibriumShear,
  laminarDissipation,
  laminarEnergyShape,
  laminarFriction,
  layerThickness,
  slipSpeed,
  turbulentEnergyShape,
  turbulentFriction,
} from './closure.js';

/** Kind of layer at a station. */
export const LAMINAR = 0;
export const TURBULENT = 1;
export const WAKE = 2;
export type LayerKind = 0 | 1 | 2;

/** Length of a station's record of closure values; what stands where. */
export const RECORD = 8;
/** Shape factor of the layer. */
export const SHAPE = 0;
/** Logarithm of the kinetic-energy shape factor. */
export const ENERGY = 1;
/** Half the friction coefficient / momentum thickness. */
export const FRICTION = 2;
/** 2 CD / H* / momentum thickness. */
export const DISSIPATION = 3;
/** Laminar: growth of the logarithm of amplitude. Turbulent: root of the shear stress in equilibrium. */
export const DRIVE = 4;
/** Thickness of the turbulent layer. */
export const THICKNESS = 5;
/** Displacement / momentum thickness, with the dead fluid behind an open trailing edge. */
export const DISPLACEMENT = 6;

/** Least shape factor of a layer and of a wake. */
const LEAST_SHAPE = 1.03;
const LEAST_WAKE_SHAPE = 1.0005;

/**
 * Closure values at a station.
 * kind - of layer; theta, displacement - momentum and displacement thickness / chord; speed - edge speed / free stream;
 * root - root of the shear-stress coefficient (turbulent); gap - dead fluid in the wake / chord; reynolds - on chord and free stream
 * out, at - record to write
 */
export function fillStation(
  kind: LayerKind,
  theta: number,
  displacement: number,
  speed: number,
  root: number,
  gap: number,
  reynolds: number,
  out: Float64Array,
  at: number,
): void {
  const thetaReynolds = Math.max(5, reynolds * theta * speed);
  const h = Math.max(kind === WAKE ? LEAST_WAKE_SHAPE : LEAST_SHAPE, (displacement - gap) / theta);
  out[at + SHAPE] = h;
  out[at + DISPLACEMENT] = displacement / theta;
  if (kind === LAMINAR) {
    const scale = 1 / (thetaReynolds * theta);
    out[at + ENERGY] = Math.log(laminarEnergyShape(h));
    out[at + FRICTION] = laminarFriction(h) * scale;
    out[at + DISSIPATION] = laminarDissipation(h) * scale;
    out[at + DRIVE] = amplificationRate(h, theta, Math.log(thetaReynolds));
    out[at + THICKNESS] = theta;
    return;
  }
  const energy = turbulentEnergyShape(h, thetaReynolds);
  const slip = Math.min(0.98, slipSpeed(h, energy));
  const friction = kind === WAKE ? 0 : 0.5 * turbulentFriction(h, thetaReynolds);
  const halves = kind === WAKE ? 2 : 1;
  const dissipation = friction * slip + halves * root * root * (1 - slip);
  out[at + ENERGY] = Math.log(energy);
  out[at + FRICTION] = friction / theta;
  out[at + DISSIPATION] = (2 * dissipation) / (energy * theta);
  out[at + DRIVE] = Math.sqrt(equilibriumShear(h, energy, slip));
  out[at + THICKNESS] = theta * Math.min(14, layerThickness(Math.max(h, 1.05)));
}
