export type { Profile } from './geometry.js';
export { default, type View3dProps } from './view3d.js';
