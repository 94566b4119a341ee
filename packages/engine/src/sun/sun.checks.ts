import type { Check } from '../check.js';
import { birdChecks } from './bird.checks.js';
import { planeChecks } from './plane.checks.js';
import { positionChecks } from './position.checks.js';
import { skyChecks } from './sky.checks.js';

/** External checks of the sun, the sky and the light on planes. */
export const sunChecks: readonly Check[] = [...positionChecks, ...skyChecks, ...birdChecks, ...planeChecks];
