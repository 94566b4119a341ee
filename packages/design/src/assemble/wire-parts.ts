import { type WirePart, wireStiffness } from '@noonwing/engine/structure';
import type { LaidWire } from '../complete/wires.js';
import { MATERIALS, type Material } from '../library/materials.js';

/** Whether lift tightens a wire: its other end lies below the wing. */
export const isTaut = ({ wing, end }: LaidWire): boolean => wing[2] > end[2] + 1e-6;

export const slackWords = ({ name, surface }: LaidWire): string =>
  `wire "${name}" of ${surface.name} ends above the wing: lift slackens it, and it is not counted`;

/** Part of the wire's own strength that its knots and fittings bear (common practice, no source). */
const FITTINGS = 0.5;

/** Bracing wires for the model of the half aircraft. */
export const wireParts = (wires: readonly LaidWire[]): readonly WirePart[] =>
  wires.map(({ surface, name, wire, wing, end, along }) => {
    const { mechanics } = MATERIALS[wire.material] as Material;
    const diameter = wire.diameter.value;
    const own = (mechanics?.tension ?? 0) * (Math.PI / 4) * diameter ** 2;
    return {
      name,
      surface: surface.name,
      at: { x: wing[0], y: along },
      bodyX: end[0],
      stiffness: wireStiffness({ modulus: mechanics?.modulus ?? 0, diameter, wing, end }),
      breaks: wire.breaksAt?.value ?? FITTINGS * own,
    };
  });
