import { describe, expect, it } from 'vitest';
import { sameInstallation } from './prepare.mjs';

const lock = {
  packages: {
    '': { version: '0.1.0' },
    'node_modules/a': { version: '1.0.0', integrity: 'sha512-a' },
    'node_modules/for-windows': { version: '1.0.0', integrity: 'sha512-w', optional: true },
  },
};
const a = { version: '1.0.0', integrity: 'sha512-a' };

describe('whether the lock file is what is installed', () => {
  it('accepts absent packages for other systems', () => {
    expect(sameInstallation(lock, { packages: { 'node_modules/a': a } })).toBe(true);
  });

  it('refuses another version, another content, a missing and a surplus package', () => {
    expect(sameInstallation(lock, { packages: { 'node_modules/a': { ...a, version: '1.0.1' } } })).toBe(false);
    expect(sameInstallation(lock, { packages: { 'node_modules/a': { ...a, integrity: 'sha512-b' } } })).toBe(false);
    expect(sameInstallation(lock, { packages: {} })).toBe(false);
    expect(sameInstallation(lock, {})).toBe(false);
    expect(sameInstallation(lock, { packages: { 'node_modules/a': a, 'node_modules/b': a } })).toBe(false);
  });
});
