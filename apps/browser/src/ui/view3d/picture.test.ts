import { describe, expect, it } from 'vitest';
import { fineness, isSoftware } from './picture.js';

describe('fineness of the picture', () => {
  it('is never more than two dots per px, and one while it moves', () => {
    expect(fineness(false, 3)).toEqual({ atRest: 2, moving: 1 });
    expect(fineness(false, 1)).toEqual({ atRest: 1, moving: 1 });
  });

  it('is coarse while it moves where the processor draws, and fine at rest', () => {
    const { atRest, moving } = fineness(true, 1);
    expect(moving).toBeLessThan(1);
    expect(atRest).toBeGreaterThanOrEqual(1.5);
  });
});

describe('what draws', () => {
  it.each([
    ['ANGLE (Google, Vulkan 1.3.0 (SwiftShader Device (Subzero) (0x0000C0DE)), SwiftShader driver)', true],
    ['llvmpipe (LLVM 15.0.7, 256 bits)', true],
    ['ANGLE (Intel, Mesa Intel(R) UHD Graphics 620 (KBL GT2), OpenGL 4.6)', false],
    ['WebKit WebGL', false],
  ])('%s', (renderer, software) => {
    expect(isSoftware(renderer)).toBe(software);
  });
});
