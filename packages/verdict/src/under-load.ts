import { type CompleteRow, chordCovered, pieceOf, spotsOf } from '@noonwing/design';
import { type Outcome, type Problem, problem, success } from '@noonwing/engine';
import {
  type ChordPlaces,
  curvatureAlong,
  type ElasticHalf,
  elasticHalf,
  elasticTrim,
  risesFrom,
  trimDisplacement,
} from '@noonwing/engine/aeroelastic';
import {
  type CellField,
  type CellStrain,
  cellStrain,
  crackChance,
  halfModel,
  type SurfaceStructure,
  usualCellStrength,
} from '@noonwing/engine/structure';
import type { Verdict } from './central.js';
import { aeroelasticWingOf, type LimitsAnswer, limitCondition } from './limits.js';
import type { Stages } from './stages.js';
import { chordAt } from './stiffness-records.js';

/** A state of flight under which the structure is looked at. */
export interface LoadCase {
  /** [m/s] */
  readonly airspeed: number;
  /** Lift over weight, up positive. */
  readonly loadFactor: number;
}

/** A chord of the right half at rest and bent. */
export interface BentChord {
  /** Along the surface, and as a share of it from root to tip [m]. */
  readonly y: number;
  readonly share: number;
  /** From the leading to the trailing edge, at equal shares of the chord: aft of the datum, and how far it has risen [m]. */
  readonly x: readonly number[];
  readonly rise: readonly number[];
}

/** A value with the ends of a band that should hold it nine times in ten. */
export interface ChanceBand {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A single cell under load. */
export interface LoadedCell {
  readonly row: string;
  readonly surface: string;
  readonly side: 'right' | 'left';
  /** From the root, beginning with 1. */
  readonly number: number;
  /** Ends as shares of the half span, and of the chord. */
  readonly span: readonly [number, number];
  readonly chord: readonly [number, number];
  readonly strain: CellStrain;
  /** Its stress over that at which 63 of 100 usual cells crack. */
  readonly share: number;
  /** Chance that it cracks. */
  readonly chance: ChanceBand;
}

export interface UnderLoad extends LoadCase {
  /** Angle of attack and pitch control that trim it, trailing edge down positive [rad]. */
  readonly alpha: number;
  readonly control: number;
  /** Surfaces of the model, the largest first; rises are seen from the root of the first. */
  readonly surfaces: readonly { readonly name: string; readonly chords: readonly BentChord[] }[];
  /** Cells on surfaces whose structure is described. */
  readonly cells: readonly LoadedCell[];
  /** Chance that any of them cracks; absent without cells. */
  readonly chance?: ChanceBand;
  /** What the state asks for that the aircraft cannot give, in words. */
  readonly warnings: readonly string[];
}

/** Chords along a surface and places along a chord that are looked at. */
const places = { along: 13, across: 9 };

const beyond = (reason: string, remedy: string): Problem =>
  problem({ code: 'under-load', reason, where: 'structure', remedy });

/**
 * Shape and strain of cells at an airspeed and load factor, the aircraft trimmed and free in flight; lattice, model and their joint solution
 * are remembered, so that another speed or load factor is a matter of milliseconds.
 */
export function underLoad(
  of: Verdict,
  answer: LimitsAnswer,
  { airspeed, loadFactor }: LoadCase,
  stages: Stages,
): Outcome<UnderLoad> {
  const condition = limitCondition(of);
  const { airframe } = of.prepared.model;
  if (condition === undefined || airframe === undefined)
    return beyond('an aircraft that does not fly level has no load to bear', 'bring it into balance first');
  const { model, report } = answer;
  const diverges = report.limits.find(({ kind }) => kind === 'divergence')?.airspeed;
  if (diverges !== undefined && airspeed >= diverges)
    return beyond(`at ${airspeed.toFixed(1)} m/s the wing has diverged`, `stay below ${diverges.toFixed(1)} m/s`);
  const wing = aeroelasticWingOf(airframe, stages);
  const elastic = stages.run('elastic half', [wing, model], () =>
    elasticHalf(wing.symmetric, model, halfModel(model, 'symmetric')),
  );
  if (!elastic.ok) return elastic;
  const pressure = (condition.density / 2) * airspeed ** 2;
  const trimmed = { ...condition.trim, weight: loadFactor * condition.trim.weight };
  const trim = elasticTrim(elastic.value, pressure, trimmed);
  if (trim === undefined) return beyond('the control has no effect at this airspeed', 'choose another airspeed');
  const bent = trimDisplacement(elastic.value, trim, trimmed.pitchControls);
  const chords = chordsOf(answer);
  const rises = risesFrom(
    elastic.value,
    model,
    bent,
    chords.flatMap(({ list }) => list),
  );
  let next = 0;
  const surfaces = chords.map(({ name, list, span }) => ({
    name,
    chords: list.map(({ y, x }) => ({ y, share: (y - span[0]) / (span[1] - span[0]), x, rise: rises[next++]! })),
  }));
  const cells = cellsOf(of, answer, elastic.value, bent);
  return success({
    airspeed,
    loadFactor,
    alpha: trim.alpha,
    control: trim.control,
    surfaces,
    cells,
    ...(cells.length === 0 ? {} : { chance: anyOf(cells.map(({ chance }) => chance)) }),
    warnings: warningsOf({ airspeed, loadFactor }, trim.control, condition),
  });
}

function warningsOf(
  { airspeed, loadFactor }: LoadCase,
  control: number,
  { stallSpeed, controlRange }: NonNullable<ReturnType<typeof limitCondition>>,
): readonly string[] {
  const warnings: string[] = [];
  const most = (airspeed / stallSpeed) ** 2;
  if (loadFactor > most)
    warnings.push(`the wing stalls first: at ${airspeed.toFixed(1)} m/s it lifts ${most.toFixed(1)} g at most`);
  if (controlRange !== undefined && (control < controlRange.lower || control > controlRange.upper))
    warnings.push('the pitch control does not turn far enough to hold this');
  return warnings;
}

/** Chords of every surface of the model, the largest surface first. */
function chordsOf({ structure }: LimitsAnswer) {
  return structure.half.surfaces.map(({ name, stations }) => {
    const span = [stations[0]!.y, stations.at(-1)!.y] as const;
    const list = Array.from({ length: places.along }, (_, i): ChordPlaces => {
      const y = span[0] + (i / (places.along - 1)) * (span[1] - span[0]);
      const { x, chord } = chordAt(stations, y);
      return {
        surface: name,
        y,
        x: Array.from({ length: places.across }, (_, k) => x + (k / (places.across - 1)) * chord),
      };
    });
    return { name, span, list };
  });
}

/** Every cell on a described surface; those of the left side bear what their mirror images would. */
function cellsOf(
  { prepared }: Verdict,
  { structure, model }: LimitsAnswer,
  elastic: ElasticHalf,
  bent: Float64Array,
): readonly LoadedCell[] {
  const { complete, array } = prepared.model;
  if (complete.array === undefined || array === undefined) return [];
  const { cell, rows } = complete.array;
  return array.placed.flatMap(({ row: name, surface, side, face, cells }) => {
    const described = structure.described[surface];
    const row = rows.find((one) => one.name === name);
    const like = described?.cells[0];
    if (described === undefined || row === undefined || like === undefined) return [];
    const size = pieceOf(row, cell);
    const fields = singleCells(described, { ...row, face }, cells, { ...like, length: size.length, width: size.width });
    const y = fields.map(({ field }) => (field.fromY + field.toY) / 2);
    const curvatures = curvatureAlong(elastic, model, bent, { surface, y });
    return fields.map(({ field, span }, i): LoadedCell => {
      const strain = cellStrain(described, field, curvatures[i]!);
      return {
        row: name,
        surface,
        side,
        number: i + 1,
        span,
        chord: [field.from, field.to],
        strain,
        share: strain.stress / usualCellStrength.characteristic,
        chance: crackChance(strain.stress, size.length * size.width),
      };
    });
  });
}

/** The cells of a face of a row one by one, where they lie. */
function singleCells(
  structure: SurfaceStructure,
  row: CompleteRow & { readonly face: 'upper' | 'lower' },
  count: number,
  like: CellField,
): readonly { readonly field: CellField; readonly span: readonly [number, number] }[] {
  const { stations } = structure;
  const [root, length] = [stations[0]!.y, stations.at(-1)!.y - stations[0]!.y];
  return spotsOf(row, count, length, like.length).map((spot) => {
    const [from, to] = [spot.along - like.length / 2, spot.along + like.length / 2].map((at) =>
      Math.min(1, Math.max(0, at / length)),
    );
    const span = [from!, to!] as const;
    const [front, rear] = chordCovered(spot, like, chordAt(stations, root + spot.along).chord);
    const field = {
      ...like,
      fromY: root + span[0] * length,
      toY: root + span[1] * length,
      from: front,
      to: rear,
      face: row.face,
    };
    return { field, span };
  });
}

/** Chance that at least one of several cracks; what is not known of their strength is common to all of them. */
const anyOf = (chances: readonly ChanceBand[]): ChanceBand => {
  const none = (key: keyof ChanceBand) => chances.reduce((left, chance) => left * (1 - chance[key]), 1);
  return { value: 1 - none('value'), low: 1 - none('low'), high: 1 - none('high') };
};
