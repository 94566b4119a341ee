import type { CompleteAircraft, CompleteSurface } from '@noonwing/design';
import type { ValueEdit } from '../../core/commands.js';
import { type FieldValue, fieldValue } from '../../core/fields.js';
import { readingOfDesign } from '../../core/reading.js';
import { movedText } from './units.js';

/** A part of the aircraft that can be moved in the plan view. */
export type Grip =
  | { readonly kind: 'station'; readonly surface: string; readonly index: number; readonly edge: Edge }
  | { readonly kind: 'surface'; readonly name: string }
  | { readonly kind: 'body'; readonly name: string }
  | { readonly kind: 'mass'; readonly name: string }
  | { readonly kind: 'battery' }
  | { readonly kind: 'motor' }
  | { readonly kind: 'row'; readonly name: string; readonly end: 'whole' | 'inner end' | 'outer end' };

export type Edge = 'leading edge' | 'trailing edge';

/** Aft and to the right [m]. */
export interface Move {
  readonly aft: number;
  readonly right: number;
}

export const gripId = (grip: Grip): string => {
  switch (grip.kind) {
    case 'station':
      return `surface ${grip.surface}:${grip.index}:${grip.edge}`;
    case 'surface':
    case 'body':
    case 'mass':
      return `${grip.kind} ${grip.name}`;
    case 'row':
      return `row ${grip.name}:${grip.end}`;
    default:
      return grip.kind;
  }
};

/** As the list of parts says it. */
export const gripWords = (grip: Grip): string => {
  switch (grip.kind) {
    case 'station':
      return `${grip.surface}, station ${grip.index + 1}, ${grip.edge}`;
    case 'surface':
      return `${grip.name}, whole`;
    case 'row':
      return grip.end === 'whole' ? `row ${grip.name}` : `row ${grip.name}, ${grip.end}`;
    case 'body':
    case 'mass':
      return grip.name;
    default:
      return grip.kind;
  }
};

/** Keys that moving a part changes, along the aircraft and across it. */
export interface GripPaths {
  readonly along: readonly string[];
  readonly across: readonly string[];
}

const surfaceOf = (aircraft: CompleteAircraft, name: string): CompleteSurface | undefined =>
  aircraft.surfaces.find((surface) => surface.name === name);

/** A surface whose stations lie side by side; those of an upright fin lie above each other. */
const isFlat = ({ stations }: CompleteSurface): boolean =>
  Math.abs((stations.at(-1)?.y ?? 0) - (stations[0]?.y ?? 0)) > 1e-6;

/** Length of a surface along its stations [m]. */
export const reachOf = ({ stations }: CompleteSurface): number =>
  stations.slice(1).reduce((sum, { y, z }, i) => sum + Math.hypot(y - stations[i]!.y, z - stations[i]!.z), 0);

/** How much of its text moving a part needs: fields by path. */
export type FieldAt = (path: string) => FieldValue | undefined;

export const fieldsOf =
  (text: string): FieldAt =>
  (path) =>
    fieldValue('design', text, path);

export function gripPaths(grip: Grip, aircraft: CompleteAircraft, at: FieldAt): GripPaths {
  const beside = (path: string) => (at(path)?.written ? [path] : []);
  switch (grip.kind) {
    case 'station': {
      const surface = surfaceOf(aircraft, grip.surface);
      const path = `surfaces.${grip.surface}.stations[${grip.index + 1}]`;
      const isRoot = grip.index === 0;
      const share = `${path}.span share`;
      const across =
        isRoot || surface === undefined || !isFlat(surface) ? [] : [at(share)?.written ? share : `${path}.y`];
      if (grip.edge === 'trailing edge') return { along: [`${path}.chord`], across };
      return { along: [isRoot ? `surfaces.${grip.surface}.x` : `${path}.leading edge`, `${path}.chord`], across };
    }
    case 'surface':
      return { along: [`surfaces.${grip.name}.x`], across: beside(`surfaces.${grip.name}.y`) };
    case 'body':
      return { along: [`bodies.${grip.name}.x`], across: beside(`bodies.${grip.name}.y`) };
    case 'mass':
      return { along: [`masses.${grip.name}.x`], across: beside(`masses.${grip.name}.y`) };
    case 'battery':
      return { along: ['battery.x'], across: beside('battery.y') };
    case 'motor':
      return { along: ['drive.motor.x'], across: beside('drive.motor.y') };
    case 'row': {
      const path = `array.rows.${grip.name}`;
      if (grip.end === 'whole') return { along: [`${path}.chord station`], across: [`${path}.from`, `${path}.to`] };
      return { along: [], across: [`${path}.${grip.end === 'inner end' ? 'from' : 'to'}`] };
    }
  }
}

/** Finest step of a drag as a share of the natural step of the field. */
const dragFineness = 0.1;

/** Smallest chord, and smallest distance of stations, that a drag leaves [m]. */
const least = 0.01;

const between = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);

interface Target {
  readonly path: string;
  readonly value: number;
}

interface Context {
  readonly aircraft: CompleteAircraft;
  readonly at: FieldAt;
}

const valueOr = (context: Context, path: string, otherwise: number): number => context.at(path)?.value ?? otherwise;

function stationTargets(grip: Extract<Grip, { kind: 'station' }>, move: Move, context: Context): readonly Target[] {
  const surface = surfaceOf(context.aircraft, grip.surface);
  const station = surface?.stations[grip.index];
  if (surface === undefined || station === undefined) return [];
  const { along, across } = gripPaths(grip, context.aircraft, context.at);
  const chord = station.chord.value;
  const [inner, outer] = [surface.stations[grip.index - 1], surface.stations[grip.index + 1]];
  const y = between(
    station.y + move.right,
    (inner?.y ?? Number.NEGATIVE_INFINITY) + least,
    (outer?.y ?? Number.POSITIVE_INFINITY) - least,
  );
  const half = context.at(`surfaces.${grip.surface}.span`)?.value ?? 0;
  const sides = across.map((path) => ({
    path,
    value: path.endsWith('span share') ? (half > 0 ? y / (half / (surface.mirrored ? 2 : 1)) : 0) : y,
  }));
  if (move.aft === 0) return sides;
  if (grip.edge === 'trailing edge') {
    const edge = `surfaces.${grip.surface}.stations[${grip.index + 1}].leading edge`;
    // An edge that follows from the chord would follow the drag: it is written, so that it stays.
    const kept = grip.index === 0 || context.at(edge)?.written ? [] : [{ path: edge, value: station.leadingEdge }];
    const tail = [{ path: along[0]!, value: Math.max(least, chord + move.aft) }, ...kept];
    return move.right === 0 ? tail : [...tail, ...sides];
  }
  // The trailing edge stays where it is.
  const aft = Math.min(move.aft, chord - least);
  const nose = grip.index === 0 ? surface.x.value + aft : station.leadingEdge + aft;
  const edge = [
    { path: along[0]!, value: nose },
    { path: along[1]!, value: chord - aft },
  ];
  return move.right === 0 ? edge : [...edge, ...sides];
}

/** Moving the root's leading edge moves the root: stations outboard stay where they are. */
function keptOutboard(
  grip: Extract<Grip, { kind: 'station' }>,
  targets: readonly Target[],
  { aircraft }: Context,
): readonly Target[] {
  if (grip.index !== 0 || grip.edge !== 'leading edge') return [];
  const surface = surfaceOf(aircraft, grip.surface);
  const root = targets.find(({ path }) => path === `surfaces.${grip.surface}.x`);
  if (surface === undefined || root === undefined) return [];
  const shift = root.value - surface.x.value;
  return surface.stations.slice(1).map(({ leadingEdge }, i) => ({
    path: `surfaces.${grip.surface}.stations[${i + 2}].leading edge`,
    value: leadingEdge - shift,
  }));
}

function rowTargets(grip: Extract<Grip, { kind: 'row' }>, move: Move, context: Context): readonly Target[] {
  const row = context.aircraft.array?.rows.find(({ name }) => name === grip.name);
  const surface = row === undefined ? undefined : surfaceOf(context.aircraft, row.on);
  if (row === undefined || surface === undefined) return [];
  const reach = reachOf(surface);
  if (!(reach > 0)) return [];
  const path = `array.rows.${grip.name}`;
  const share = move.right / reach;
  const asWritten = (key: string, value: number): Target => ({
    path: `${path}.${key}`,
    value: context.at(`${path}.${key}`)?.kind === 'length' ? value * reach : value,
  });
  if (grip.end === 'inner end') return [asWritten('from', between(row.from + share, 0, row.to - 0.01))];
  if (grip.end === 'outer end') return [asWritten('to', between(row.to + share, row.from + 0.01, 1))];
  const shift = between(share, -row.from, 1 - row.to);
  const chord = chordAtShare(surface, (row.from + row.to) / 2);
  const along =
    move.aft === 0 || !(chord > 0)
      ? []
      : [
          {
            path: `${path}.chord station`,
            value: between(valueOr(context, `${path}.chord station`, row.chordStation.value) + move.aft / chord, 0, 1),
          },
        ];
  const across = move.right === 0 ? [] : [asWritten('from', row.from + shift), asWritten('to', row.to + shift)];
  return [...along, ...across];
}

/** Chord at a share of the length of a surface [m]. */
export function chordAtShare(surface: CompleteSurface, share: number): number {
  const cut = stationAt(surface, share);
  return cut.chord;
}

/** Leading edge, y, z and chord at a share of the length of a surface, absolute [m]. */
export function stationAt(surface: CompleteSurface, share: number) {
  const { stations } = surface;
  const reach = reachOf(surface);
  let left = between(share, 0, 1) * reach;
  for (let i = 1; i < stations.length; i++) {
    const [a, b] = [stations[i - 1]!, stations[i]!];
    const length = Math.hypot(b.y - a.y, b.z - a.z);
    if (left <= length || i === stations.length - 1) {
      const f = length > 0 ? Math.min(1, left / length) : 0;
      const mix = (from: number, to: number) => from + (to - from) * f;
      return {
        x: surface.x.value + mix(a.leadingEdge, b.leadingEdge),
        y: surface.y.value + mix(a.y, b.y),
        z: surface.z.value + mix(a.z, b.z),
        chord: mix(a.chord.value, b.chord.value),
      };
    }
    left -= length;
  }
  const only = stations[0];
  return {
    x: surface.x.value + (only?.leadingEdge ?? 0),
    y: surface.y.value,
    z: surface.z.value,
    chord: only?.chord.value ?? 0,
  };
}

function placeTargets(grip: Grip, move: Move, context: Context): readonly Target[] {
  const { along, across } = gripPaths(grip, context.aircraft, context.at);
  const steps: readonly (readonly [readonly string[], number])[] = [
    [along, move.aft],
    [across, move.right],
  ];
  return steps.flatMap(([paths, by]) =>
    by === 0 ? [] : paths.map((path) => ({ path, value: startOf(grip, path, context) + by })),
  );
}

/** Where a part is before it is moved [m]; as completed where nothing is written. */
function startOf(grip: Grip, path: string, context: Context): number {
  const written = context.at(path)?.value;
  if (written !== undefined) return written;
  const axis = path.endsWith('.y') ? 'y' : 'x';
  const { battery, drive, bodies, surfaces, masses } = context.aircraft;
  switch (grip.kind) {
    case 'battery':
      return battery?.[axis].value ?? 0;
    case 'motor':
      return drive?.motor[axis].value ?? 0;
    case 'body':
      return bodies.find(({ name }) => name === grip.name)?.[axis].value ?? 0;
    case 'surface':
      return surfaces.find(({ name }) => name === grip.name)?.[axis].value ?? 0;
    case 'mass': {
      const place = masses.find(({ name }) => name === grip.name)?.place;
      return place !== undefined && 'x' in place ? place[axis].value : 0;
    }
    default:
      return 0;
  }
}

function targetsOf(grip: Grip, move: Move, context: Context): readonly Target[] {
  if (grip.kind === 'station') {
    const targets = stationTargets(grip, move, context);
    return [...targets, ...keptOutboard(grip, targets, context)];
  }
  return grip.kind === 'row' ? rowTargets(grip, move, context) : placeTargets(grip, move, context);
}

/** Natural step of what moves where the key has none [SI]. */
const usualStep = (field: FieldValue | undefined): number =>
  field?.step ?? (field?.kind === 'ratio' || field?.kinds[0] === 'ratio' ? 0.05 : 0.01);

/**
 * Edits that move a part from where the text has it.
 * text - of the design file before the move; move - [m]; empty where the part cannot go that way
 */
export function moveEdits(text: string, grip: Grip, move: Move): readonly ValueEdit[] {
  const { aircraft } = readingOfDesign(text);
  if (aircraft === undefined) return [];
  const at = fieldsOf(text);
  return targetsOf(grip, move, { aircraft, at }).flatMap(({ path, value }) => {
    const field = at(path);
    const kind = field?.kind ?? field?.kinds[0];
    if (field === undefined || kind === undefined || !Number.isFinite(value)) return [];
    const fineness = dragFineness * usualStep(field);
    return [{ path, text: movedText(value, { kind, like: field.text, fineness }) }];
  });
}

/** One press of an arrow key: by the natural step of the field that it changes [m]. times - aft or right positive */
export function stepMove(text: string, grip: Grip, direction: 'aft' | 'right', times: number): Move {
  const { aircraft } = readingOfDesign(text);
  if (aircraft === undefined) return { aft: 0, right: 0 };
  const at = fieldsOf(text);
  const paths = gripPaths(grip, aircraft, at);
  const [path] = direction === 'aft' ? paths.along : paths.across;
  if (path === undefined) return { aft: 0, right: 0 };
  const field = at(path);
  let step = usualStep(field);
  if (grip.kind === 'row' && (field?.kind ?? field?.kinds[0]) === 'ratio') {
    const row = aircraft.array?.rows.find(({ name }) => name === grip.name);
    const surface = row === undefined ? undefined : surfaceOf(aircraft, row.on);
    if (row === undefined || surface === undefined) return { aft: 0, right: 0 };
    // A step of the row is a share of what it lies on; along the span a hundredth.
    step = direction === 'aft' ? step * chordAtShare(surface, (row.from + row.to) / 2) : 0.01 * reachOf(surface);
  }
  if (path.endsWith('span share')) {
    const surface = grip.kind === 'station' ? surfaceOf(aircraft, grip.surface) : undefined;
    step = surface === undefined ? 0 : 0.01 * reachOf(surface);
  }
  return direction === 'aft' ? { aft: times * step, right: 0 } : { aft: 0, right: times * step };
}

/** Parts that can be moved: of all kinds, or of those that a part of the place is about. */
export function gripsOf(text: string, kinds: readonly Grip['kind'][]): readonly Grip[] {
  const { aircraft } = readingOfDesign(text);
  if (aircraft === undefined) return [];
  const at = fieldsOf(text);
  const surfaces = aircraft.surfaces.flatMap((surface): readonly Grip[] => [
    { kind: 'surface', name: surface.name },
    ...surface.stations.flatMap((_, index): readonly Grip[] => [
      { kind: 'station', surface: surface.name, index, edge: 'leading edge' },
      { kind: 'station', surface: surface.name, index, edge: 'trailing edge' },
    ]),
  ]);
  const masses = aircraft.masses
    .filter(({ name, place }) => 'x' in place && at(`masses.${name}.x`)?.written)
    .map(({ name }): Grip => ({ kind: 'mass', name }));
  const rows = (aircraft.array?.rows ?? []).flatMap(({ name }): readonly Grip[] =>
    (['whole', 'inner end', 'outer end'] as const).map((end) => ({ kind: 'row', name, end })),
  );
  const all: readonly Grip[] = [
    ...(aircraft.battery === undefined ? [] : [{ kind: 'battery' } as const]),
    ...(aircraft.drive === undefined ? [] : [{ kind: 'motor' } as const]),
    ...masses,
    ...surfaces,
    ...aircraft.bodies.map(({ name }): Grip => ({ kind: 'body', name })),
    ...rows,
  ];
  return all.filter(({ kind }) => kinds.includes(kind));
}
