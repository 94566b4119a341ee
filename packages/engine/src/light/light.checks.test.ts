import { expect, it } from 'vitest';
import { agrees } from '../check.js';
import { lightChecks } from './light.checks.js';

it.each(lightChecks.map((check) => [check.id, check] as const))('%s', (_, check) => {
  const computed = check.compute();
  expect(agrees(check, computed), `${check.quantity}: ${JSON.stringify(computed)} for ${check.expected}`).toBe(
    check.miss === undefined,
  );
});
