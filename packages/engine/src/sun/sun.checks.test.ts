import { expect, it } from 'vitest';
import { agrees } from '../check.js';
import { sunChecks } from './sun.checks.js';

it.each(sunChecks.map((check) => [check.id, check] as const))('%s', (_, check) => {
  const computed = check.compute();
  const verdict = agrees(check, computed);
  expect(verdict, `${check.quantity}: ${JSON.stringify(computed)} for ${check.expected}`).toBe(
    check.miss === undefined,
  );
});

it('has unique names', () => {
  const ids = sunChecks.map((check) => check.id);
  expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
});
