import { assembleGeometry, type CompleteSurface, coverageOf, pieceOf } from '@noonwing/design';
import type { Outcome } from '@noonwing/engine';
import type { SectionGeometry } from '@noonwing/engine/section';
import { TURBULENCE } from '@noonwing/engine/section';
import {
  type Covering,
  type CoveringCost,
  computedDragSpread,
  coveredSection,
  coveringCost,
  facetedOutline,
  isComputable,
  type MeasuredPoint,
  measuredRuns,
  type PreparedSection,
  preparedOutline,
  type SectionFlow,
  type SweepInput,
  solveAtLift,
  sweepPolar,
  tripLikelihood,
} from '@noonwing/engine/section/viscous';
import type { Slices, Verdict } from '@noonwing/verdict';
import { type JobTools, type LaterJob, refused, refusedAs } from './job.js';
import type { Ready, Refusal } from './messages.js';
import { besides, measuredRunView, polarView, sectionHead, shownRange } from './polar-view.js';
import { plateView } from './view-plate.js';
import type { FlowView, LayerView, MeasuredRunView, PolarView, SectionView } from './view-section-types.js';

const air = 'outdoors';
const { critical, spread } = TURBULENCE[air];
/** Logarithm of amplitude at transition of the air that sections are shown in. */
export const usualCritical = critical;
const sweepOptions = { critical, ...shownRange } as const;

const layerView = ({ transition, separation, reattachment, openAtTail }: SectionFlow['upper']): LayerView => ({
  transition,
  ...(separation === undefined ? {} : { separation }),
  ...(reattachment === undefined ? {} : { reattachment }),
  openAtTail,
});

export const flowView = (flow: SectionFlow): FlowView => ({
  alpha: flow.alpha,
  drag: flow.drag,
  friction: flow.frictionDrag / flow.drag,
  moment: flow.moment,
  upper: layerView(flow.upper),
  lower: layerView(flow.lower),
  station: [...flow.station],
  pressure: [...flow.pressure],
});

/**
 * Cells on the upper side of a surface, at the chord of its root, following the surface as those of the verdict do; `width` of one
 * along the chord. Undefined where it carries none.
 */
export function coveringOf(
  { aircraft }: Pick<Ready, 'aircraft'>,
  surface: CompleteSurface,
  edge: number,
): (Covering & { readonly width: number }) | undefined {
  const covered = coverageOf(aircraft)[surface.name];
  const { array } = aircraft;
  if (array === undefined || covered === undefined) return undefined;
  const chord = surface.stations[0]!.chord.value;
  const rows = array.rows.filter((row) => row.on === surface.name && row.face !== 'lower');
  return {
    from: Math.max(0.02, covered.from),
    to: Math.min(0.98, covered.to),
    edge: edge / chord,
    cell: 0,
    width: Math.max(...rows.map((row) => pieceOf(row, array.cell).width)) / chord,
  };
}

/** Design point of a section. */
export interface Point {
  readonly lift: number;
  readonly reynolds: number;
}

/** Lift coefficient and Reynolds number of level flight, on the root chord. */
function designPoint(of: Verdict, chord: number): Point | undefined {
  const chosen = of.flight?.chosen;
  if (chosen === undefined) return undefined;
  const { density, dynamicViscosity } = of.prepared.conditions.air;
  const { airspeed, forces } = chosen.flight.trim;
  return { lift: forces.liftCoefficient, reynolds: (density * airspeed * chord) / dynamicViscosity };
}

/** Each polar that is drawn: bare at several Reynolds numbers, and covered at that of the design point. */
function sweeps(
  bare: PreparedSection,
  point: Point,
  geometry: SectionGeometry,
  covering?: Covering,
  cost?: CoveringCost,
) {
  const under =
    covering === undefined || cost === undefined
      ? undefined
      : coveredSection(geometry.outlineX, geometry.outlineY, covering, cost);
  const of = (section: PreparedSection, input: Omit<SweepInput, 'critical'>, covered: boolean) => () =>
    polarView(sweepPolar(section, { ...sweepOptions, ...input }), covered);
  return [
    of(bare, { reynolds: point.reynolds }, false),
    ...(under?.ok ? [of(under.value.section, { reynolds: point.reynolds, ...under.value.surface }, true)] : []),
    ...besides.map((share) => of(bare, { reynolds: share * point.reynolds }, false)),
  ];
}

/** Trips of upper and lower side where the front edge of cells makes the layer turbulent, behind the nose as in the verdict. */
const tripAt = ({ from }: Covering): readonly [number, number] => [Math.max(0.02, from), Number.NaN];

const whyNot = (one: Outcome<unknown> | undefined): readonly string[] =>
  one === undefined || one.ok ? [] : [`${one.reason}; ${one.remedy}`];

/** Each measured run beside the bare section at its Reynolds number. */
function* measuredSlices(bare: PreparedSection, points: readonly MeasuredPoint[]): Slices<readonly MeasuredRunView[]> {
  const runs = measuredRuns(points);
  const views: MeasuredRunView[] = [];
  for (const run of runs) {
    views.push(measuredRunView(run, sweepPolar(bare, { ...sweepOptions, reynolds: run.reynolds })));
    yield views.length / runs.length;
  }
  return views;
}

function* sectionSlices(
  surface: CompleteSurface,
  geometry: SectionGeometry,
  point: Point,
  points: readonly MeasuredPoint[],
  covering?: Covering & { readonly width: number },
): Slices<Outcome<SectionView>> {
  const { outlineX: x, outlineY: y } = geometry;
  const prepared = preparedOutline(x, y);
  if (!prepared.ok) return prepared;
  const asked = { ...point, critical };
  const bare = solveAtLift(prepared.value, point.lift, asked);
  yield 0.1;
  const cost = covering && coveringCost(x, y, covering, asked);
  const tripped = covering && solveAtLift(prepared.value, point.lift, { ...asked, trips: tripAt(covering) });
  const trip = covering && {
    likelihood: tripLikelihood(covering, point.reynolds),
    ...(tripped?.ok && bare.ok ? { ratio: tripped.value.drag / bare.value.drag } : {}),
  };
  yield 0.2;
  const runs = sweeps(prepared.value, point, geometry, covering, cost?.ok ? cost.value : undefined);
  const polars: PolarView[] = [];
  for (const run of runs) {
    polars.push(run());
    yield 0.2 + (0.6 * polars.length) / runs.length;
  }
  const measured = yield* measuredSlices(prepared.value, points);
  return {
    ok: true,
    warnings: [],
    value: {
      ...sectionHead(surface, geometry, point),
      dragSpread: computedDragSpread(point.reynolds),
      air: { words: air, critical, spread },
      ...(bare.ok ? { bare: flowView(bare.value) } : {}),
      ...(covering === undefined ? {} : { cells: covering }),
      ...(covering !== undefined && trip !== undefined && cost?.ok
        ? { cost: { ...costView(cost.value, geometry, covering), trip } }
        : {}),
      polars,
      measured,
      notes: [...new Set([...whyNot(bare), ...whyNot(cost)])],
    },
  };
}

function costView(
  cost: CoveringCost,
  { outlineX, outlineY }: SectionGeometry,
  covering: Covering,
): Omit<NonNullable<SectionView['cost']>, 'trip'> {
  const flats = facetedOutline(outlineX, outlineY, covering);
  return {
    ratio: cost.ratio,
    covered: flowView(cost.covered),
    front: cost.front,
    rear: cost.rear,
    x: flats.x,
    y: flats.y,
  };
}

/** The section at the root of the wing with its design point. */
export interface RootSection {
  readonly surface: CompleteSurface;
  readonly geometry: SectionGeometry;
  readonly chord: number;
  readonly point: Point;
}

/** The section that the place shows, or why there is none. */
export function rootSection(ready: Ready, central: JobTools['central']): RootSection | Refusal {
  const surface = ready.aircraft.surfaces.find(({ role }) => role === 'wing') ?? ready.aircraft.surfaces[0];
  const root = surface?.stations[0];
  if (surface === undefined || root === undefined)
    return refused('no wing is described', 'surfaces', 'describe a wing');
  const chord = root.chord.value;
  const geometry = assembleGeometry(root.section, chord, ready.sections);
  if (!geometry.ok) return refusedAs(geometry);
  const point = designPoint(central(ready), chord);
  if (point === undefined) {
    const remedy = 'describe airframe and drive so that level flight is computed';
    return refused('level flight is not known', 'surfaces', remedy);
  }
  return { surface, geometry: geometry.value, chord, point };
}

export const answer: LaterJob<'section'>['answer'] = async (
  { edge, rigid, measured },
  ready,
  { central, inSlices },
) => {
  const root = rootSection(ready, central);
  if ('kind' in root) return root;
  const { surface, geometry, point } = root;
  const cells = coveringOf(ready, surface, edge);
  const covering = cells && { ...cells, cell: rigid ? cells.width : 0 };
  if (!isComputable(geometry))
    return { kind: 'section', view: plateView(surface, geometry, point, measured ?? [], covering) };
  const found = await inSlices(sectionSlices(surface, geometry, point, measured ?? [], covering));
  if (found === undefined) return undefined;
  return found.ok ? { kind: 'section', view: found.value } : refusedAs(found);
};
