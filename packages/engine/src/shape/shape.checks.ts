import type { Check } from '../check.js';
import {
  bodyFormFactor,
  laminarFriction,
  meanFrictionCoefficient,
  sectionFormFactor,
  turbulentFriction,
} from './friction.js';
import { planform, trapezoidalWing } from './planform.js';

const hoerner = 'Hoerner, Fluid-Dynamic Drag, 1965, ch. 6 (formula from memory)';

const degree = Math.PI / 180;

const friction = (id: string, reynolds: number, transition: number, expected: number): Check => ({
  id,
  topic: 'shape',
  quantity: `mean friction of a plate, Re ${reynolds.toExponential(0)}, transition at ${transition.toExponential(0)}`,
  expected,
  unit: '1',
  tolerance: 5e-7,
  why: 'the same formula; the quoted values take the constant of Blasius as 1.328 instead of 1.32823, up to 4e-7',
  provenance: 'recomputed from the published formula',
  source: 'Schlichting, Boundary-Layer Theory, 1979, section 21.a.3',
  calls: 'meanFrictionCoefficient',
  compute: () => meanFrictionCoefficient(reynolds, transition),
});

const simple = (
  id: string,
  quantity: string,
  expected: number,
  tolerance: number,
  source: string,
  calls: string,
  compute: () => number,
): Check => ({
  id,
  topic: 'shape',
  quantity,
  expected,
  unit: '1',
  tolerance,
  why: 'last printed digit',
  provenance: source === hoerner ? 'from memory' : 'recomputed from the published formula',
  source,
  calls,
  compute,
});

/** External checks of shape: friction, form factors, planform. */
export const shapeChecks: readonly Check[] = [
  friction('friction-1e6', 1e6, 5e5, 0.0028569),
  friction('friction-5e5', 5e5, 2e5, 0.0038319),
  friction('friction-2e5', 2e5, 1e5, 0.0046758),
  simple('friction-laminar', 'laminar mean friction, Re 2e5', 0.00297, 5e-6, 'Blasius 1908', 'laminarFriction', () =>
    laminarFriction(2e5),
  ),
  simple(
    'friction-turbulent',
    'turbulent mean friction, Re 1e6',
    0.00447,
    5e-6,
    'Schlichting, Boundary-Layer Theory, 1979, eq. 21.16',
    'turbulentFriction',
    () => turbulentFriction(1e6),
  ),
  simple('form-body-4', 'form factor of a body, fineness 4', 1.2969, 5e-5, hoerner, 'bodyFormFactor', () =>
    bodyFormFactor(4),
  ),
  simple('form-body-6', 'form factor of a body, fineness 6', 1.1345, 5e-5, hoerner, 'bodyFormFactor', () =>
    bodyFormFactor(6),
  ),
  simple('form-section-12', 'form factor of a section, t/c 0.12', 1.2524, 5e-5, hoerner, 'sectionFormFactor', () =>
    sectionFormFactor(0.12),
  ),
  simple(
    'mean-chord',
    'mean aerodynamic chord / span, AR 6, taper 0.5, sweep 20 deg',
    0.1728,
    5e-5,
    'definition: 2/3 root chord (1 + t + t^2) / (1 + t)',
    'planform',
    () => planform(trapezoidalWing({ span: 1, aspectRatio: 6, taper: 0.5, sweep: 20 * degree })).meanAerodynamicChord,
  ),
];
