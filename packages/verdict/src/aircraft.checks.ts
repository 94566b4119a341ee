import type { Check } from '@noonwing/engine';
import { blindChecks } from './aircraft-blind.checks.js';
import { overnightChecks } from './aircraft-overnight.checks.js';
import { sanityChecks } from './aircraft-sanity.checks.js';

/** Comparisons of whole aircraft with what was published about them. */
export const aircraftChecks: readonly Check[] = [...overnightChecks, ...blindChecks, ...sanityChecks];
