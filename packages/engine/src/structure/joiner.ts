/** A joiner in the socket of one wing panel under the moment and the shear of the joint. */
export interface SocketBearing {
  /** Greatest pressure on the socket, at its mouth [Pa]. */
  readonly pressure: number;
  /** Kink of this panel by the play in its socket [rad]. */
  readonly kink: number;
}

/**
 * Pressure of a stiff joiner on its socket: it falls linearly from the mouth and turns round before the end.
 *
 * moment - at the joint [N m]; shear - across it [N]
 * depth - in the socket; width - of the face that bears, the diameter of a tube; play - between joiner and socket [m]
 * Source: statics of a rigid peg, q = 4 V / b + 6 M / b^2 at the mouth. Sockets that give spread it less far: on the low side for soft foam.
 */
export function socketBearing(
  { moment, shear }: { readonly moment: number; readonly shear: number },
  { depth, width, play }: { readonly depth: number; readonly width: number; readonly play: number },
): SocketBearing {
  return { pressure: ((4 * shear) / depth + (6 * moment) / depth ** 2) / width, kink: play / depth };
}

/**
 * Shear stress of a web between caps [Pa]: the flow V / h over its thickness.
 * shear - carried [N]; height - between the middles of the caps; thickness [m]
 */
export const webShearStress = (shear: number, height: number, thickness: number): number =>
  shear / (height * thickness);

/**
 * Shear stress at which a long web buckles between its caps [Pa], edges simply held.
 * Source: Timoshenko and Gere, Theory of Elastic Stability: k = 5.35 (from memory).
 */
export const webBucklingStress = (modulus: number, poisson: number, thickness: number, height: number): number =>
  (5.35 * Math.PI ** 2 * modulus * (thickness / height) ** 2) / (12 * (1 - poisson ** 2));

/** Size of what joins two panels, as `PanelJoint` has it. */
export interface JoinerSize {
  readonly kind: 'tube' | 'blade' | 'box';
  readonly width: number;
  readonly height: number;
  readonly wall: number;
}

/** Cut through a joiner [m2]: tube by its diameters, blade solid, box by its walls. */
export const joinerArea = ({ kind, width, height, wall }: JoinerSize): number =>
  kind === 'tube'
    ? (Math.PI * (width ** 2 - height ** 2)) / 4
    : width * height - (kind === 'box' ? (width - 2 * wall) * (height - 2 * wall) : 0);
