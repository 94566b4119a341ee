import { interpolateLinear } from '../../math/interpolate.js';
import { glauertFlap } from '../flap.js';
import type { SectionGeometry } from '../types.js';
import { preparedOutline } from './covering.js';
import { deflectedOutline } from './deflected.js';
import { hingeMoment } from './result.js';
import { type PreparedSection, solveViscous, type ViscousInput, type ViscousSolution } from './solve.js';
import { type DeflectedState, type TurningRow, type TurningSettings, tripAhead } from './storedTurning.js';

/** Lift slope from which a search begins [1/rad], and the least one that is believed. */
const USUAL_SLOPE = 6;
const LEAST_SLOPE = 2;

/** Lack of lift that a straight step of incidence makes up well enough: 0.01 is a tenth of a degree. */
const SMALL_LACK = 0.01;
/** The same where nothing nearer converges: 0.06 is half a degree, by a slope that is a tenth off. */
const LARGEST_LACK = 0.06;

/** Flow close to a lift coefficient, and the incidence that has this lift by the slope between the last two solutions. */
interface NearLift {
  readonly solution: ViscousSolution;
  readonly alpha: number;
}

/** Solves close to a lift coefficient: two or three solutions where a search for the exact lift takes five. */
function nearLift(
  section: PreparedSection,
  lift: number,
  input: Omit<ViscousInput, 'alpha'>,
  from: { readonly alpha: number; readonly solution?: ViscousSolution },
): NearLift | undefined {
  let solved = solveViscous(section, { ...input, alpha: from.alpha }, from.solution?.state);
  if (!solved.ok) solved = solveViscous(section, { ...input, alpha: from.alpha + 0.008 }, from.solution?.state);
  let slope = USUAL_SLOPE;
  for (let pass = 0; pass < 4 && solved.ok; pass++) {
    const { flow, state } = solved.value;
    const lack = lift - flow.lift;
    if (Math.abs(lack) < SMALL_LACK) return { solution: solved.value, alpha: flow.alpha + lack / slope };
    const alpha = flow.alpha + Math.max(-0.05, Math.min(0.05, lack / slope));
    const next = solveViscous(section, { ...input, alpha }, state);
    // A hole of convergence is narrow: what lies just beside it will do.
    if (!next.ok && Math.abs(lack) < LARGEST_LACK) return { solution: solved.value, alpha: flow.alpha + lack / slope };
    if (next.ok)
      slope = Math.max(LEAST_SLOPE, (next.value.flow.lift - flow.lift) / (next.value.flow.alpha - flow.alpha));
    solved = next;
  }
  return undefined;
}

interface Deflected {
  readonly deflection: number;
  readonly section: PreparedSection;
}

interface Hinge {
  readonly x: number;
  readonly y: number;
}

function stateOf({ section, deflection }: Deflected, { solution, alpha }: NearLift, { x, y }: Hinge): DeflectedState {
  const { flow } = solution;
  const { drag, moment } = flow;
  return { deflection, alpha, drag, moment, hingeMoment: hingeMoment(flow, section.mesh.y, x, y) };
}

/** States of one layer at one Reynolds number, from the neutral one both ways; and the neutral one, from which another may begin. */
function statesOf(
  sections: readonly Deflected[],
  settings: TurningSettings,
  input: Omit<ViscousInput, 'alpha'>,
  hinge: Hinge,
  before: NearLift | undefined,
): { readonly states: readonly DeflectedState[]; readonly neutral: NearLift | undefined } {
  const { lift } = settings;
  const [plain, ...turned] = sections;
  const theory = 0.7 * glauertFlap(1 - settings.hinge).effectiveness;
  const begin = { alpha: before?.alpha ?? lift / USUAL_SLOPE, ...before };
  const first = nearLift(plain.section, lift, input, begin);
  const states = first === undefined ? [] : [stateOf(plain, first, hinge)];
  for (const side of [1, -1]) {
    let last: { deflection: number; alpha: number; solution?: ViscousSolution } = {
      deflection: 0,
      ...(first ?? begin),
    };
    for (const one of turned.filter(({ deflection }) => Math.sign(deflection) === side)) {
      const alpha = last.alpha - theory * (one.deflection - last.deflection);
      const found = nearLift(one.section, lift, input, { ...last, alpha });
      if (found === undefined) continue;
      states.push(stateOf(one, found, hinge));
      last = { deflection: one.deflection, ...found };
    }
  }
  return { states: states.sort((a, b) => a.deflection - b.deflection), neutral: first };
}

/** The same states deflected the other way: those of a symmetric section without lift. */
const mirrored = (states: readonly DeflectedState[]): readonly DeflectedState[] => [
  ...states
    .filter(({ deflection }) => deflection !== 0)
    .map(({ deflection, alpha, drag, moment, hingeMoment: about }) => ({
      deflection: -deflection,
      alpha: -alpha,
      drag,
      moment: -moment,
      hingeMoment: -about,
    }))
    .reverse(),
  ...states,
];

/**
 * Flow about a section with its control deflected, at one lift, at every Reynolds number of the settings; hinge on the mean line, sealed.
 * geometry - section that `isComputable`; settings - of the computation
 * Returns no row where the outline cannot be prepared.
 */
export function computeTurning(geometry: SectionGeometry, settings: TurningSettings): readonly TurningRow[] {
  const { deflections, nodes, critical, lift } = settings;
  const hinge = { x: settings.hinge, y: interpolateLinear(geometry.stations, geometry.camber, settings.hinge) };
  const symmetric = lift === 0 && geometry.camber.every((y) => Math.abs(y) < 1e-6);
  const wanted = deflections.filter((deflection) => !symmetric || deflection > 0);
  const sections: Deflected[] = [];
  for (const deflection of [0, ...wanted.toSorted((a, b) => Math.abs(a) - Math.abs(b))]) {
    const bent = deflectedOutline(geometry.outlineX, geometry.outlineY, {
      hingeX: hinge.x,
      hingeY: hinge.y,
      deflection,
    });
    const prepared = preparedOutline(bent.x, bent.y, nodes);
    if (!prepared.ok) return [];
    sections.push({ deflection, section: prepared.value });
  }
  const trip = tripAhead(settings.hinge);
  const whole = symmetric ? mirrored : (states: readonly DeflectedState[]) => states;
  const neutral: Record<'free' | 'tripped', NearLift | undefined> = { free: undefined, tripped: undefined };
  return settings.reynolds.map((reynolds) => {
    const at = (layer: 'free' | 'tripped', station: number) => {
      const input = { reynolds, critical, trips: [station, station] } as const;
      const found = statesOf(sections, settings, input, hinge, neutral[layer]);
      neutral[layer] = found.neutral ?? neutral[layer];
      return whole(found.states);
    };
    return { reynolds, free: at('free', Number.NaN), tripped: at('tripped', trip) };
  });
}
