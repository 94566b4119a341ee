import type { ShapeView } from '../../core/view.js';
import type { Profile } from './geometry.js';

/** Thickness and camber by surface, where its section is known. */
export const profilesOf = ({ surfaces }: ShapeView): Readonly<Record<string, Profile>> =>
  Object.fromEntries(surfaces.flatMap(({ name, profile }) => (profile === undefined ? [] : [[name, profile]])));
