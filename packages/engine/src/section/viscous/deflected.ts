/** Half the gap left out along the bisector of a bent hinge, where the outline would fold over itself [/ chord]. */
const CLEAR = 0.004;

/**
 * Outline with its rear turned about a sealed hinge.
 * x, y - outline from the trailing edge over the upper surface; hingeX, hingeY - hinge / chord
 * deflection - trailing edge down positive [rad]; at most about 0.5, beyond which the joint is no longer round
 * The joint is one panel on the open side; on the closed side the points that would lie inside are left out.
 */
export function deflectedOutline(
  x: readonly number[],
  y: readonly number[],
  { hingeX, hingeY, deflection }: { readonly hingeX: number; readonly hingeY: number; readonly deflection: number },
): { readonly x: readonly number[]; readonly y: readonly number[] } {
  if (deflection === 0) return { x, y };
  const [cosine, sine] = [Math.cos(deflection), Math.sin(deflection)];
  const [along, across] = [Math.cos(deflection / 2), Math.sin(deflection / 2)];
  const turnedX: number[] = [];
  const turnedY: number[] = [];
  for (let i = 0; i < x.length; i++) {
    const [dx, dy] = [x[i] - hingeX, y[i] - hingeY];
    const behind = dx > 0;
    const px = behind ? cosine * dx + sine * dy : dx;
    const py = behind ? cosine * dy - sine * dx : dy;
    const beyond = px * along - py * across;
    if (behind ? beyond < CLEAR : beyond > -CLEAR) continue;
    turnedX.push(hingeX + px);
    turnedY.push(hingeY + py);
  }
  return { x: turnedX, y: turnedY };
}
