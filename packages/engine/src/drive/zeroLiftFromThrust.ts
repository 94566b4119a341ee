import { brentRoot } from '../math/index.js';
import { type Outcome, problem, success } from '../result.js';
import { bladeElementLoads } from './bladeElement.js';
import type { SimpleBladeSection } from './bladeSection.js';
import type { PropellerGeometry } from './propellerGeometry.js';

/**
 * Zero-lift angle of the blade sections with which the computed thrust of a known blade shape equals a measured one.
 * Tables of blade angle refer to the nose-tail chord of sections whose camber is not given: this one number supplies it.
 *
 * @param run.geometry - shape with a simple section; its zero-lift angle is replaced
 * @param run.thrust - measured [N]
 * @param run.airspeed - [m/s]
 * @param run.rotationRate - [rad/s]
 * @param run.density - [kg/m3]
 * @param run.dynamicViscosity - [Pa s]
 * @returns the geometry with the section that fits, or why none between 0 and -12 degrees does
 */
export function zeroLiftFromThrust(run: {
  readonly geometry: PropellerGeometry & { readonly section: SimpleBladeSection };
  readonly thrust: number;
  readonly airspeed: number;
  readonly rotationRate: number;
  readonly density: number;
  readonly dynamicViscosity: number;
}): Outcome<PropellerGeometry & { readonly section: SimpleBladeSection }> {
  const { geometry } = run;
  const withAngle = (zeroLiftAngle: number) => ({ ...geometry, section: { ...geometry.section, zeroLiftAngle } });
  const excess = (angle: number) => bladeElementLoads({ ...run, geometry: withAngle(angle) }).thrust - run.thrust;
  // Walks from no camber upwards: in stall more camber gives less thrust, and the first crossing is the sensible one.
  const step = Math.PI / 360;
  for (let angle = 0; angle > -12 * 2 * step; angle -= step) {
    const found = brentRoot(excess, angle - step, angle, { tolerance: 1e-9 });
    if (found !== undefined) return success(withAngle(found));
  }
  return problem({
    code: 'zero-lift-angle',
    reason: 'No zero-lift angle between 0 and -12 degrees gives that thrust.',
    where: 'propeller',
    remedy: 'Check thrust, speed and blade angles of the measured run.',
  });
}
