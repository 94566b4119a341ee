import { type Outcome, success, type Warning } from '../result.js';
import type { LiftingSurface } from '../shape/index.js';
import { type HalfModel, halfModel, type StructuralModel } from '../structure/index.js';
import type { Lattice } from '../wing/lattice.js';
import type { WingOptions, WingReference } from '../wing/types.js';
import { bentFlight } from './bentFlight.js';
import { type Borne, borneLoads } from './borneLoads.js';
import { diveTo } from './dive.js';
import { type ElasticHalf, elasticHalf, type SteadyHalf, steadyHalves } from './elasticHalf.js';
import { type FlutterPoint, flutterPoints } from './flutter.js';
import { growthCurves } from './growthCurves.js';
import { gustLimitSpeed, manoeuvringSpeed } from './gust.js';
import { heatEffect, heatedHalf } from './heat.js';
import { hingeLimit, slopEffect } from './hingeLoad.js';
import { bandedLimit, bandWidth } from './limitBands.js';
import type {
  AeroelasticWing,
  AllowedLoad,
  DiveToLimit,
  Limit,
  LimitCondition,
  LimitKind,
  LimitSpread,
  LimitsReport,
  SteadyWing,
} from './limitTypes.js';
import { looseControls } from './looseControls.js';
import { keptModes, type ModalModel, modalModel, wingInfluence } from './modalModel.js';
import { heldPanels } from './panelRows.js';
import { type StaticLimit, type StaticStudy, staticLimits } from './staticLimits.js';

const staticWords: Record<StaticLimit['kind'], string> = {
  divergence: 'lift bends and twists the wing further than it can hold: it diverges',
  'antisymmetric divergence': 'one side twists up, the other down, without end',
  'roll reversal': 'the wing twists against its roll controls: they lose their effect and then reverse',
  'pitch reversal': 'the structure gives way to the pitch control: it loses its effect and then reverses',
  tuck: 'bent by its own speed it is pitched down, not up, as it gets faster with the control held (tuck)',
  'pitch stability': 'bent by its loads the aircraft is no longer stable in pitch',
  'pitch trim': 'the pitch control cannot hold the nose any more',
};

/** Panels of the lattice on which limits are computed: enough along the chord for the oscillating flow. */
const latticeUnknowns = 110;

/**
 * The part of the steady limits that depends on geometry and sections alone. To be remembered; a change of stiffness or mass does not need it
 * again.
 * options - camber and lift of sections as in `solveWing`; momentsOf - moment coefficients of the strips
 */
export function steadyWing(
  surfaces: readonly LiftingSurface[],
  options: WingOptions,
  reference: WingReference,
  momentsOf?: (lattice: Lattice) => Float64Array,
): SteadyWing {
  const halves = steadyHalves(surfaces, { unknowns: latticeUnknowns, ...options }, reference, momentsOf);
  return { ...halves, chord: reference.chord };
}

/** The same lattice in oscillating flow too, which flutter needs: takes about four times as long as the steady one. */
export const aeroelasticWing = (steady: SteadyWing): AeroelasticWing => ({
  ...steady,
  oscillating: wingInfluence(steady.symmetric, steady.chord),
});

interface Half {
  readonly steady: SteadyHalf;
  readonly half: HalfModel;
}

function halvesOf(wing: SteadyWing, model: StructuralModel): { symmetric: Half; antisymmetric: Half } {
  return {
    symmetric: { steady: wing.symmetric, half: halfModel(model, 'symmetric') },
    antisymmetric: { steady: wing.antisymmetric, half: halfModel(model, 'antisymmetric') },
  };
}

/** What vibrates at a flutter point: the motions that hold most of its kinetic energy. */
export function flutterWords(model: ModalModel, { shape }: FlutterPoint): string {
  const count = model.forces.count;
  const energies = model.words.map((words, i) => ({
    words,
    energy: (shape.re[i] ** 2 + shape.im[i] ** 2) * model.mass[i * (count + 1)],
  }));
  const total = energies.reduce((sum, { energy }) => sum + energy, 0);
  const most = energies.sort((a, b) => b.energy - a.energy).filter(({ energy }, i) => i < 2 && energy > 0.08 * total);
  return most.map(({ words }) => words).join(' with ');
}

/** Share of a vibration's kinetic energy that is deformation. */
function elasticShare({ mass, forces, rigidCount }: ModalModel, { shape }: FlutterPoint): number {
  let [elastic, total] = [0, 0];
  for (let i = 0; i < forces.count; i++) {
    const energy = (shape.re[i] ** 2 + shape.im[i] ** 2) * mass[i * (forces.count + 1)];
    total += energy;
    if (i >= rigidCount) elastic += energy;
  }
  return total > 0 ? elastic / total : 0;
}

/** Below it a motion is that of a rigid aircraft: a matter of balance, not of stiffness. */
const leastElasticShare = 0.02;

interface FlutterSearch {
  readonly modal: ModalModel;
  readonly onset: FlutterPoint | undefined;
}

/** Lowest onset of flutter of one half, no structural damping. */
function searchFlutter(
  { steady, half }: Half,
  wing: AeroelasticWing,
  model: StructuralModel,
  condition: LimitCondition,
  { highest, kept }: { readonly highest: number; readonly kept: number },
): Outcome<FlutterSearch> {
  const influence = half.symmetry === 'symmetric' ? wing.oscillating.symmetric : wing.oscillating.antisymmetric!;
  const modal = modalModel(steady, influence, { model, half }, { density: condition.density, kept });
  if (!modal.ok) return modal;
  const range = { lowest: 0.01 / wing.chord, highest: 4.4 / wing.chord };
  const onset = flutterPoints(modal.value, range, highest).find(
    (point) => point.onset && elasticShare(modal.value, point) > leastElasticShare,
  );
  return success({ modal: modal.value, onset });
}

const diveAngles = [10, 30, 60].map((degrees) => (degrees * Math.PI) / 180);

function divesTo(condition: LimitCondition, limit: number | undefined): DiveToLimit[] {
  return diveAngles.map((angle) => ({
    angle,
    dive:
      limit === undefined || limit <= condition.airspeed
        ? undefined
        : diveTo(condition.dive, condition.airspeed, limit, angle),
  }));
}

/** Drag that bends the wing back, where that comes within twice the first limit. */
function dragLimit({ drag }: Borne, first: Limit | undefined, searchedTo: number, spread: LimitSpread): Limit[] {
  const found = drag(first === undefined ? searchedTo : Math.min(searchedTo, 2 * first.airspeed));
  if (found === undefined) return [];
  return [
    bandedLimit('drag', `drag bends the wing back further than it bears: ${found.reason}`, found.airspeed, spread),
  ];
}

/** Gust of the rule at dive speed, of a day on which small aircraft fly [m/s]. Source: CS-VLA 333 (from memory). */
const ruleGust = 7.62;

function loadLimits(condition: LimitCondition, allowed: AllowedLoad | undefined, spread: LimitSpread): Limit[] {
  const { trim, area, density, liftSlope, maximumLift, stallSpeed } = condition;
  if (allowed === undefined) return [];
  const aircraft = { wingLoading: trim.weight / area, meanChord: trim.chord, liftSlope, density, maximumLift };
  const found: Limit[] = [];
  const manoeuvre = manoeuvringSpeed(stallSpeed, allowed.up);
  found.push(
    bandedLimit('manoeuvre', `a full pull-up reaches ${allowed.up.toFixed(1)} g: ${allowed.reason}`, manoeuvre, spread),
  );
  const gust = gustLimitSpeed(aircraft, ruleGust, allowed.up);
  if (gust !== undefined)
    found.push(
      bandedLimit(
        'gust',
        `a gust of ${ruleGust.toFixed(1)} m/s reaches ${allowed.up.toFixed(1)} g: ${allowed.reason}`,
        gust,
        spread,
      ),
    );
  return found;
}

/**
 * Every limit of an aircraft as it flies faster, from its structure and its lattice.
 *
 * wing - remembered by geometry, from `aeroelasticWing`; from `steadyWing` flutter is not looked for
 * model - structure, masses at their places; kept - elastic modes of each half
 * brief - the first limit is all that is wanted: without those that certainly come after it, loose controls, curves, bent and heated flight
 */
export function limitsReport(
  wing: SteadyWing | AeroelasticWing,
  model: StructuralModel,
  condition: LimitCondition,
  spread: LimitSpread,
  { brief = false, kept = keptModes }: { readonly brief?: boolean; readonly kept?: number } = {},
): Outcome<LimitsReport> {
  const { symmetric, antisymmetric } = halvesOf(wing, model);
  const held = heldPanels(wing.symmetric.lattice, wing.symmetric.surfaces, model);
  const cool = elasticHalf(symmetric.steady, model, symmetric.half, held);
  if (!cool.ok) return cool;
  const { topWarmer } = condition;
  const elastic = topWarmer === undefined ? cool.value : heatedHalf(cool.value, model, topWarmer);
  const opposed = elasticHalf(antisymmetric.steady, model, antisymmetric.half, held);
  if (!opposed.ok) return opposed;
  const searchedTo = Math.max(5 * condition.airspeed, 50);
  const borne = borneLoads(elastic, model, condition, brief);
  const { allowed, wires, foreAft, landing, line } = borne;
  const byLoads = loadLimits(condition, allowed, spread);
  const within = brief ? Math.min(searchedTo, ...byLoads.map(({ low }) => low)) : Infinity;
  const study = staticStudy(elastic, opposed.value, condition, { spread, searchedTo, within });
  const fast =
    'oscillating' in wing ? flutterStudy(wing, model, condition, spread, { searchedTo, brief, kept }) : still;
  if (!fast.ok) return fast;
  const found = [...steadyLimits(elastic, study, condition, spread), ...fast.value.limits, ...byLoads].sort(
    (a, b) => a.low - b.low,
  );
  const limits = [...found, ...dragLimit(borne, found[0], searchedTo, spread)].sort((a, b) => a.low - b.low);
  const { loose, curves, warnings } = fast.value;
  return success({
    limits,
    loose,
    allowed,
    wires,
    foreAft,
    landing,
    line,
    bent: brief ? undefined : bentOf(elastic, condition),
    heat: brief ? undefined : heatEffect(elastic, model, condition),
    slop: slopEffect(elastic, condition),
    dives: divesTo(condition, limits[0]?.low),
    trims: study.trims,
    curves,
    searchedTo,
    warnings,
  });
}

function bentOf(elastic: ElasticHalf, { trim, density, airspeed, stallSpeed }: LimitCondition) {
  const pressure = (at: number) => (density / 2) * at * at;
  return bentFlight(elastic, trim, { flown: pressure(airspeed), stall: pressure(stallSpeed) });
}

type FlutterStudy = Pick<LimitsReport, 'limits' | 'loose' | 'curves' | 'warnings'>;

/** Where flutter is not looked for. */
const still = success<FlutterStudy>({
  limits: [],
  loose: undefined,
  curves: { symmetric: [], antisymmetric: [] },
  warnings: [],
});

/** Flutter of both halves; with loose controls and curves where it is not brief. */
function flutterStudy(
  wing: AeroelasticWing,
  model: StructuralModel,
  condition: LimitCondition,
  spread: LimitSpread,
  { searchedTo, brief, kept }: { readonly searchedTo: number; readonly brief: boolean; readonly kept: number },
): Outcome<FlutterStudy> {
  const { symmetric, antisymmetric } = halvesOf(wing, model);
  const range = { highest: searchedTo, kept };
  const alike = searchFlutter(symmetric, wing, model, condition, range);
  if (!alike.ok) return alike;
  const rolling = searchFlutter(antisymmetric, wing, model, condition, range);
  if (!rolling.ok) return rolling;
  const curve = ({ modal }: FlutterSearch) => (brief ? [] : growthCurves(modal, curveSpeeds(condition, searchedTo)));
  return success({
    limits: [
      ...flutterLimit('flutter', 'flutter, both sides alike', alike.value, spread),
      ...flutterLimit('antisymmetric flutter', 'flutter, sides opposed', rolling.value, spread),
    ],
    loose: brief ? undefined : looseFlutter(wing, model, condition, spread, searchedTo),
    curves: { symmetric: curve(alike.value), antisymmetric: curve(rolling.value) },
    warnings: [alike.value, rolling.value].flatMap(fastWarnings),
  });
}

interface SpeedRange {
  readonly spread: LimitSpread;
  readonly searchedTo: number;
  /** Limits whose lower edge lies above it are not looked for [m/s]. */
  readonly within: number;
}

/** Static limits and trim from the stall to the end of the search. */
function staticStudy(
  symmetric: ElasticHalf,
  antisymmetric: ElasticHalf,
  { density, trim, rollControls, controlRange, marginOffset, stallSpeed, airspeed }: LimitCondition,
  { spread, searchedTo, within }: SpeedRange,
): StaticStudy {
  const pressure = (at: number) => (density / 2) * at * at;
  const reach = (...kinds: readonly LimitKind[]) =>
    pressure(Math.min(searchedTo, within * Math.max(...kinds.map((kind) => bandWidth(kind, spread)))));
  return staticLimits(symmetric, antisymmetric, {
    condition: trim,
    rollControls,
    controlRange,
    marginOffset,
    lowest: pressure(stallSpeed),
    flown: pressure(airspeed),
    highest: pressure(searchedTo),
    reach: {
      trim: reach('pitch reversal', 'pitch stability', 'pitch trim', 'tuck', 'elevon float'),
      roll: reach('roll reversal'),
    },
  });
}

function steadyLimits(
  elastic: ElasticHalf,
  study: StaticStudy,
  condition: LimitCondition,
  spread: LimitSpread,
): Limit[] {
  const speed = (pressure: number) => Math.sqrt((2 * pressure) / condition.density);
  const found = study.limits.map(({ kind, pressure, controlSpread: control = 0 }) =>
    bandedLimit(kind, staticWords[kind], speed(pressure), { ...spread, control }),
  );
  const float = hingeLimit(elastic, study.trims, condition);
  return float === undefined
    ? found
    : [...found, bandedLimit('elevon float', float.words, speed(float.pressure), spread)];
}

function flutterLimit(
  kind: 'flutter' | 'antisymmetric flutter',
  how: string,
  { modal, onset }: FlutterSearch,
  spread: LimitSpread,
): Limit[] {
  if (onset === undefined) return [];
  return [bandedLimit(kind, `${how}: ${flutterWords(modal, onset)}`, onset.airspeed, spread, onset.frequency)];
}

/** Forces at wave numbers beyond those computed are continued, not computed. */
function fastWarnings({ modal, onset }: FlutterSearch): Warning[] {
  if (onset === undefined || onset.waveNumber <= modal.forces.highestWaveNumber) return [];
  return [
    {
      code: 'fast-flutter',
      message: `flutter at ${(onset.frequency / (2 * Math.PI)).toFixed(0)} Hz is faster than the flow was computed for: its speed is rough`,
      where: 'structure',
    },
  ];
}

/** Airspeeds at which motions are followed for their curves. */
const curveSpeeds = ({ stallSpeed }: LimitCondition, searchedTo: number): number[] =>
  Array.from({ length: 40 }, (_, i) => stallSpeed + (i / 39) * (searchedTo - stallSpeed));

/** Flutter of controls within the slop of their linkages, the lower of both halves. */
function looseFlutter(
  wing: AeroelasticWing,
  model: StructuralModel,
  condition: LimitCondition,
  spread: LimitSpread,
  highest: number,
): Limit | undefined {
  const loose = looseControls(model);
  if (loose === undefined) return undefined;
  let lowest: Limit | undefined;
  for (const half of Object.values(halvesOf(wing, loose))) {
    const found = searchFlutter(half, wing, loose, condition, { highest, kept: keptModes });
    if (!found.ok || found.value.onset === undefined) continue;
    const { modal, onset } = found.value;
    if (lowest !== undefined && onset.airspeed >= lowest.airspeed) continue;
    const words = `flutter of controls that float in the slop of their linkage: ${flutterWords(modal, onset)}`;
    lowest = bandedLimit('flutter', words, onset.airspeed, spread, onset.frequency);
  }
  return lowest;
}
