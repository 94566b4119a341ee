/**
 * Mean friction coefficient of one side of a smooth plate in laminar flow.
 * reynolds - Reynolds number on the plate length [-], positive
 * Source: H. Blasius, Grenzschichten in Flüssigkeiten mit kleiner Reibung, 1908 (constant 1.328230).
 */
export const laminarPlateFriction = (reynolds: number): number => 1.32823 / Math.sqrt(Math.max(1, reynolds));

/**
 * Mean friction coefficient of one side of a smooth plate, turbulent from the leading edge.
 * reynolds - Reynolds number on the plate length [-], 1e4 to 1e9; held at 1e3 below that
 * Source: L. Prandtl and H. Schlichting, 0.455/(log10 Re)^2.58, in H. Schlichting, Boundary-Layer Theory, chapter XXI.
 */
export const turbulentPlateFriction = (reynolds: number): number =>
  0.455 * (Math.log(Math.max(1e3, reynolds)) * Math.LOG10E) ** -2.58;

/**
 * Mean friction coefficient of one side of a smooth plate, laminar to the transition Reynolds number and turbulent after it.
 * The loss of the laminar part is taken at the transition point: CF = CFt(Re) - (Ret/Re)(CFt(Ret) - CFl(Ret)), so it never goes negative,
 * as the fixed '-1700/Re' does at model size.
 * reynolds - Reynolds number on the plate length [-]
 * transitionReynolds - Reynolds number on the distance to transition [-]
 * Source: L. Prandtl, Ergebnisse der Aerodynamischen Versuchsanstalt III, 1927 (momentum argument).
 */
export function mixedPlateFriction(reynolds: number, transitionReynolds: number): number {
  if (transitionReynolds >= reynolds) return laminarPlateFriction(reynolds);
  if (transitionReynolds <= 0) return turbulentPlateFriction(reynolds);
  const saved = turbulentPlateFriction(transitionReynolds) - laminarPlateFriction(transitionReynolds);
  return turbulentPlateFriction(reynolds) - (transitionReynolds / reynolds) * Math.max(0, saved);
}
