import type { AssembledStructure, MeasuredRecord } from '@noonwing/design';
import { standardGravity } from '@noonwing/engine/flight';
import {
  benchLoad,
  type FactorBelief,
  lowestTone,
  type StructuralModel,
  surfacePart,
  updateFactor,
} from '@noonwing/engine/structure';
import { recordOf } from './aircraft.js';

/** What a reading of stiffness said: a factor on what the design describes, or why it says nothing. */
export interface StiffnessReading {
  readonly record: 'load test' | 'strip bend' | 'tap frequency';
  /** What it is a factor on; a material's name for a strip. */
  readonly of: string;
  /** In words: what was read and what the model had expected. */
  readonly source: string;
  /** After what was believed before, with its relative standard uncertainty; absent where there is a problem. */
  readonly factor?: number;
  readonly spread?: number;
  /** How many standard deviations the reading lay from what was expected. */
  readonly surprise?: number;
  readonly problem?: string;
}

export interface TestedStructure {
  readonly structure: AssembledStructure;
  readonly readings: readonly StiffnessReading[];
}

/** What the set-up of a bench and the model leave out (relative, judgement): the grip gives, the weight slips, joints creep. */
const benchSpread = 0.06;

type LoadTest = Extract<MeasuredRecord, { what: 'load test' }>;

const share = ({ value, sigma = 0 }: { readonly value: number; readonly sigma?: number | undefined }): number =>
  Math.abs(sigma / value);

const millimetres = (length: number): string => `${(1000 * length).toFixed(Math.abs(length) < 0.00995 ? 1 : 0)} mm`;
const degrees = (angle: number): string => `${((180 * angle) / Math.PI).toFixed(1)} deg`;
const hertz = (frequency: number): string => `${(frequency / (2 * Math.PI)).toFixed(1)} Hz`;

/** Beliefs about the factors of one surface, updated reading by reading. */
interface Beliefs {
  bending: FactorBelief;
  torsion: FactorBelief;
}

/** Whether a reading is compared with a model of the structure. */
export const needsModel = (records: readonly MeasuredRecord[]): boolean =>
  recordOf(records, 'load test') !== undefined || recordOf(records, 'tap frequency') !== undefined;

/**
 * The structure with its stiffness as load test, tap and strips found it.
 *
 * @param structure - as described and assumed, strips counted already
 * @param model - of that structure
 * @param records - in use; of each kind the last counts
 */
export function byStiffnessRecords(
  structure: AssembledStructure,
  model: StructuralModel,
  records: readonly MeasuredRecord[],
): TestedStructure {
  const strips = structure.strips.map(
    ({ material, read, expected, factor, spread, surprise }): StiffnessReading => ({
      record: 'strip bend',
      of: material,
      source: `${(read / 1e6).toPrecision(3)} MPa by a bent strip, expected ${(expected / 1e6).toPrecision(3)} MPa`,
      factor,
      spread,
      surprise,
    }),
  );
  const load = recordOf(records, 'load test');
  const tap = recordOf(records, 'tap frequency');
  if (load === undefined && tap === undefined) return { structure, readings: strips };
  const main = structure.half.surfaces[0]?.name ?? '';
  const name = load?.surface ?? main;
  const described = structure.described[name];
  if (described === undefined) {
    const problem = `the structure of ${name === '' ? 'the wing' : name} is not described: describe it, then the reading can correct it`;
    const asked = [load && ('load test' as const), tap && ('tap frequency' as const)].filter(
      (one) => one !== undefined,
    );
    return { structure, readings: [...strips, ...asked.map((record) => ({ record, of: name, source: '', problem }))] };
  }
  const prior: FactorBelief = { factor: 1, spread: structure.stiffnessSigma };
  const beliefs: Beliefs = { bending: prior, torsion: prior };
  const readings = [
    ...(load === undefined ? [] : loadReadings(load, name, structure, model, beliefs)),
    ...(tap === undefined || name !== main ? [] : [tapReading(tap, model, beliefs)]),
  ];
  const tested = {
    ...described,
    bendingFactor: described.bendingFactor * beliefs.bending.factor,
    torsionFactor: described.torsionFactor * beliefs.torsion.factor,
  };
  const both = beliefs.bending !== prior && beliefs.torsion !== prior && name === main;
  const sigma = Math.max(beliefs.bending.spread, beliefs.torsion.spread, 0.05);
  return {
    readings: [...strips, ...readings],
    structure: {
      ...structure,
      described: { ...structure.described, [name]: tested },
      half: {
        ...structure.half,
        surfaces: structure.half.surfaces.map((part) => (part.name === name ? surfacePart(tested) : part)),
      },
      // Limits take one uncertainty for all of the stiffness: it falls only when bending and twist were both read.
      stiffnessSigma: both ? sigma : structure.stiffnessSigma,
    },
  };
}

function loadReadings(
  test: LoadTest,
  surface: string,
  structure: AssembledStructure,
  model: StructuralModel,
  beliefs: Beliefs,
): readonly StiffnessReading[] {
  const { stations } = structure.half.surfaces.find(({ name }) => name === surface)!;
  const [root, tip] = [stations[0]!.y, stations.at(-1)!.y];
  const [y, at] = [test.station.value, (test.at ?? test.station).value];
  const wrong = (problem: string): readonly StiffnessReading[] => [
    { record: 'load test', of: 'bending', source: '', problem },
  ];
  if (Math.max(y, at) > tip + 1e-6 || Math.min(y, at) <= root)
    return wrong(`the stations must lie between ${millimetres(root)} and ${millimetres(tip)} from the middle`);
  const [under, read] = [chordAt(stations, y), chordAt(stations, at)];
  const found = benchLoad(
    model,
    {
      surface,
      y,
      x: under.x + (test.chordStation?.value ?? 0.3) * under.chord,
      force: standardGravity * test.mass.value,
    },
    { y: at, leadingEdge: read.x, trailingEdge: read.x + read.chord },
  );
  if (!found.ok) return wrong(found.reason);
  const { deflection, twist } = found.value;
  if (!(deflection > 0)) return wrong('the model does not bend down under this weight: check the stations');
  const common = Math.hypot(share(test.mass), 2 * share(test.station), benchSpread);
  const bent = updateFactor(beliefs.bending, {
    ratio: test.deflection.value / deflection,
    spread: Math.hypot(share(test.deflection), common),
    power: -1,
  });
  beliefs.bending = bent.belief;
  const where = `under ${test.mass.value.toFixed(2)} kg at ${millimetres(y)}`;
  const bending: StiffnessReading = {
    record: 'load test',
    of: 'bending',
    source: `${millimetres(test.deflection.value)} down ${where}, expected ${millimetres(deflection)}`,
    factor: bent.belief.factor,
    spread: bent.belief.spread,
    surprise: bent.surprise,
  };
  if (test.twist === undefined) return [bending];
  const source = `${degrees(test.twist.value)} of twist, nose up, ${where}, expected ${degrees(twist)}`;
  const ratio = test.twist.value / twist;
  if (!(ratio > 0))
    return [bending, { record: 'load test', of: 'torsion', source, problem: 'it twists the other way than the model' }];
  const turned = updateFactor(beliefs.torsion, {
    ratio,
    // Where along the chord the weight lies decides over its arm.
    spread: Math.hypot(share(test.twist), common, 0.1),
    power: -1,
  });
  beliefs.torsion = turned.belief;
  return [
    bending,
    {
      record: 'load test',
      of: 'torsion',
      source,
      factor: turned.belief.factor,
      spread: turned.belief.spread,
      surprise: turned.surprise,
    },
  ];
}

function tapReading(
  tap: Extract<MeasuredRecord, { what: 'tap frequency' }>,
  model: StructuralModel,
  beliefs: Beliefs,
): StiffnessReading {
  const expected = lowestTone(model, tap.held ?? 'middle');
  if (!expected.ok) return { record: 'tap frequency', of: 'bending', source: '', problem: expected.reason };
  const { belief, surprise } = updateFactor(beliefs.bending, {
    ratio: tap.frequency.value / expected.value,
    // Masses of the model and the air that swings along count half as much as stiffness does.
    spread: Math.hypot(share(tap.frequency), 0.05),
    power: 0.5,
  });
  beliefs.bending = belief;
  return {
    record: 'tap frequency',
    of: 'bending',
    source: `lowest tone ${hertz(tap.frequency.value)}, expected ${hertz(expected.value)}`,
    factor: belief.factor,
    spread: belief.spread,
    surprise,
  };
}

type Stations = readonly { readonly y: number; readonly xLeadingEdge: number; readonly chord: number }[];

/** Leading edge and chord at a distance along a surface, straight between stations. */
export function chordAt(stations: Stations, y: number): { readonly x: number; readonly chord: number } {
  let i = 0;
  while (i < stations.length - 2 && y > stations[i + 1]!.y) i++;
  const [a, b] = [stations[i]!, stations[i + 1]!];
  const f = b.y > a.y ? Math.min(1, Math.max(0, (y - a.y) / (b.y - a.y))) : 0;
  return { x: a.xLeadingEdge + f * (b.xLeadingEdge - a.xLeadingEdge), chord: a.chord + f * (b.chord - a.chord) };
}
