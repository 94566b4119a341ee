import { assembleGeometry, type CompleteSurface } from '@noonwing/design';
import type { Outcome } from '@noonwing/engine';
import type { SectionGeometry } from '@noonwing/engine/section';
import {
  type Covering,
  type CoveringCost,
  computedDragSpread,
  coveredSection,
  coveringCost,
  facetedOutline,
  type PreparedSection,
  preparedOutline,
  risingBranch,
  type SectionFlow,
  type SectionPolar,
  type SweepInput,
  solveAtLift,
  sweepPolar,
  TURBULENCE,
} from '@noonwing/engine/section/viscous';
import type { Slices, Verdict } from '@noonwing/verdict';
import { type LaterJob, refused, refusedAs } from './job.js';
import type { Ready } from './messages.js';
import type { FlowView, LayerView, PolarView, SectionView } from './view-section-types.js';

const air = 'outdoors';
const { critical, spread } = TURBULENCE[air];
const degree = Math.PI / 180;
/** Reynolds numbers beside that of the design point, as shares of it. */
const besides = [0.5, 2];
const sweepOptions = { critical, step: degree, lowest: -5 * degree, highest: 15 * degree } as const;

const layerView = ({ transition, separation, reattachment, openAtTail }: SectionFlow['upper']): LayerView => ({
  transition,
  ...(separation === undefined ? {} : { separation }),
  ...(reattachment === undefined ? {} : { reattachment }),
  openAtTail,
});

const flowView = (flow: SectionFlow): FlowView => ({
  alpha: flow.alpha,
  drag: flow.drag,
  friction: flow.frictionDrag / flow.drag,
  moment: flow.moment,
  upper: layerView(flow.upper),
  lower: layerView(flow.lower),
  station: [...flow.station],
  pressure: [...flow.pressure],
});

function polarView(polar: SectionPolar, covered: boolean): PolarView {
  const rising = new Set(risingBranch(polar));
  return {
    reynolds: polar.reynolds,
    covered,
    points: polar.points.map((point) => ({
      alpha: point.alpha,
      lift: point.lift,
      drag: point.drag,
      moment: point.moment,
      upperTransition: point.upperTransition,
      rising: rising.has(point),
    })),
    holes: polar.holes,
  };
}

/** Cells on the upper side of a surface, at the chord of its root; undefined where it carries none. */
export function coveringOf({ aircraft }: Pick<Ready, 'aircraft'>, surface: CompleteSurface, edge: number) {
  const { array } = aircraft;
  const rows = array?.rows.filter((row) => row.on === surface.name && row.face !== 'lower') ?? [];
  if (array === undefined || rows.length === 0) return undefined;
  const chord = surface.stations[0]!.chord.value;
  const ends = rows.map((row) => {
    const across = row.turned ? array.cell.length.value : array.cell.width.value / row.pieces;
    return {
      from: row.chordStation.value - across / 2 / chord,
      to: row.chordStation.value + across / 2 / chord,
      across,
    };
  });
  const covering: Covering = {
    from: Math.max(0.02, Math.min(...ends.map(({ from }) => from))),
    to: Math.min(0.98, Math.max(...ends.map(({ to }) => to))),
    edge: edge / chord,
    cell: Math.max(...ends.map(({ across }) => across)) / chord,
  };
  return covering;
}

interface Point {
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

const whyNot = (one: Outcome<unknown> | undefined): readonly string[] =>
  one === undefined || one.ok ? [] : [`${one.reason}; ${one.remedy}`];

function* sectionSlices(
  surface: CompleteSurface,
  geometry: SectionGeometry,
  point: Point,
  covering?: Covering,
): Slices<Outcome<SectionView>> {
  const { outlineX: x, outlineY: y } = geometry;
  const prepared = preparedOutline(x, y);
  if (!prepared.ok) return prepared;
  const asked = { ...point, critical };
  const bare = solveAtLift(prepared.value, point.lift, asked);
  yield 0.1;
  const cost = covering && coveringCost(x, y, covering, asked);
  yield 0.2;
  const runs = sweeps(prepared.value, point, geometry, covering, cost?.ok ? cost.value : undefined);
  const polars: PolarView[] = [];
  for (const run of runs) {
    polars.push(run());
    yield 0.2 + (0.8 * polars.length) / runs.length;
  }
  return {
    ok: true,
    warnings: [],
    value: {
      surface: surface.name,
      name: geometry.name,
      chord: surface.stations[0]!.chord.value,
      thickness: geometry.maximumThickness,
      camber: geometry.maximumCamber,
      ...point,
      dragSpread: computedDragSpread(point.reynolds),
      air: { words: air, critical, spread },
      x,
      y,
      ...(bare.ok ? { bare: flowView(bare.value) } : {}),
      ...(covering === undefined ? {} : { cells: covering }),
      ...(covering !== undefined && cost?.ok ? { cost: costView(cost.value, geometry, covering) } : {}),
      polars,
      notes: [...new Set([...whyNot(bare), ...whyNot(cost)])],
    },
  };
}

function costView(
  cost: CoveringCost,
  { outlineX, outlineY }: SectionGeometry,
  covering: Covering,
): NonNullable<SectionView['cost']> {
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

export const answer: LaterJob<'section'>['answer'] = async (request, ready, { central, inSlices }) => {
  const surface = ready.aircraft.surfaces.find(({ role }) => role === 'wing') ?? ready.aircraft.surfaces[0];
  const root = surface?.stations[0];
  if (surface === undefined || root === undefined)
    return refused('no wing is described', 'surfaces', 'describe a wing');
  const geometry = assembleGeometry(root.section, root.chord.value, ready.sections);
  if (!geometry.ok) return refusedAs(geometry);
  const point = designPoint(central(ready), root.chord.value);
  if (point === undefined)
    return refused(
      'level flight is not known',
      'surfaces',
      'describe airframe and drive so that level flight is computed',
    );
  const found = await inSlices(sectionSlices(surface, geometry.value, point, coveringOf(ready, surface, request.edge)));
  if (found === undefined) return undefined;
  return found.ok ? { kind: 'section', view: found.value } : refusedAs(found);
};
