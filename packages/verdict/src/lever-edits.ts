import type { AircraftDesign, CompleteAircraft } from '@noonwing/design';
import { PROPELLERS } from '@noonwing/design';
import { rowLike, stringLevers } from './lever-strings.js';

/** One change of the text of a design file: a path as in messages, and the value as a person would write it. */
export interface Edit {
  readonly path: string;
  /** Absent: remove what is there. */
  readonly text?: string;
  readonly why: string;
}

/** A change that a builder can make, by its natural step. */
export interface LeverCandidate {
  readonly key: string;
  /** In words of the trade, with its step. */
  readonly label: string;
  readonly edits: readonly Edit[];
}

const mm = (metres: number): string => `${Math.round(metres * 1e4) / 10} mm`;
const grams = (kilograms: number): string => `${Math.round(kilograms * 1e4) / 10} g`;
const percent = (share: number): string => `${Math.round(share * 1000) / 10} %`;

/** Levers of a design, each as edits of its file. */
export function leverCandidates(design: AircraftDesign, complete: CompleteAircraft): readonly LeverCandidate[] {
  return [
    ...cellLevers(design, complete),
    ...wingLevers(design, complete),
    ...massLevers(design, complete),
    ...driveLevers(design, complete),
    ...converterLevers(complete),
    ...stringLevers(complete, hasStrings(design)),
    ...finLevers(design, complete),
    ...batteryLevers(design, complete),
    ...dragAndLoadLevers(design, complete),
    ...flightLevers(complete),
  ];
}

const hasStrings = ({ array }: AircraftDesign): boolean =>
  array !== undefined && array !== 'none' && array.strings !== undefined;

/** One cell more on each side of a row, with the room for it; a second row beside a single one. */
function cellLevers(design: AircraftDesign, complete: CompleteAircraft): LeverCandidate[] {
  const { array } = complete;
  if (array === undefined || design.array === undefined || design.array === 'none') return [];
  const levers: LeverCandidate[] = array.rows.map((row) => {
    const added = (row.side === 'both' ? 2 : 1) * (row.face === 'both' ? 2 : 1);
    const half = halfSpan(complete, row.on);
    const to = half > 0 ? row.to + (array.cell.length.value + 0.001) / half : row.to;
    const edits: Edit[] = [
      { path: `array.rows.${row.name}.cells`, text: String(row.cells + added), why: 'the change' },
    ];
    if (half > 0 && to <= 1)
      edits.push({ path: `array.rows.${row.name}.to`, text: percent(to), why: 'room for the cells' });
    return {
      key: `cells in ${row.name}`,
      label: `${added} more ${added === 1 ? 'cell' : 'cells'} in the row "${row.name}"`,
      edits,
    };
  });
  const second = secondRow(complete);
  return second === undefined ? levers : [...levers, second];
}

function halfSpan(complete: CompleteAircraft, name: string): number {
  const surface = complete.surfaces.find((candidate) => candidate.name === name);
  return surface === undefined ? 0 : surface.stations.at(-1)!.y - surface.stations[0]!.y;
}

/** A further row of the same cells behind or ahead of the only one on a wing, on its own string and converter. */
function secondRow(complete: CompleteAircraft): LeverCandidate | undefined {
  const array = complete.array!;
  const row = array.rows[0];
  if (row === undefined || array.rows.length !== 1) return undefined;
  const surface = complete.surfaces.find((candidate) => candidate.name === row.on);
  const chord = surface?.stations[0]?.chord.value;
  if (chord === undefined) return undefined;
  const width = (array.cell.width.value + 0.002) / chord;
  const station =
    row.chordStation.value + width <= 1 - width / 2 ? row.chordStation.value + width : row.chordStation.value - width;
  if (station < width / 2 || station > 1 - width / 2) return undefined;
  const name = 'second row';
  const why = 'the change';
  const string = array.strings.find(({ rows }) => rows.includes(row.name));
  const converter = array.converters.find((candidate) => candidate.name === string?.converter);
  const edits: Edit[] = [
    ...rowLike(name, { ...row, chordStation: { ...row.chordStation, value: station } }),
    { path: `array.rows.${name}.side`, text: row.side, why },
    { path: `array.rows.${name}.from`, text: percent(row.from), why },
    { path: `array.rows.${name}.to`, text: percent(row.to), why },
    { path: `array.rows.${name}.cells`, text: String(row.cells), why },
    { path: `array.strings.${name}.rows[0]`, text: name, why: 'a string of its own' },
    { path: `array.strings.${name}.converter`, text: name, why: 'a converter of its own' },
    { path: `array.converters.${name}.topology`, text: converter?.topology ?? 'boost', why: 'a converter of its own' },
    {
      path: `array.converters.${name}.rated power`,
      text: `${Math.round(converter?.ratedPower.value ?? 80)} W`,
      why: 'a converter of its own',
    },
  ];
  return { key: 'second row', label: `a second row of ${row.cells} cells on "${row.on}"`, edits };
}

/** Fins further out, further aft, or canted outwards: less shade on the cells, at the cost of balance and a little drag. */
function finLevers(design: AircraftDesign, complete: CompleteAircraft): LeverCandidate[] {
  if (complete.array === undefined) return [];
  const why = 'the change';
  return complete.surfaces.flatMap((fin): LeverCandidate[] => {
    const written = design.surfaces?.[fin.name];
    if (fin.role !== 'fin' || written === undefined) return [];
    const path = `surfaces.${fin.name}`;
    const moved = (key: 'x' | 'y', by: number, words: string): LeverCandidate => ({
      key: `${fin.name} ${words}`,
      label: `"${fin.name}" 50 mm further ${words}`,
      edits: [{ path: `${path}.${key}`, text: mm(fin[key].value + by), why }],
    });
    const upright = written.stations.every(({ y, z }) => (y?.value ?? 0) === 0 && z !== undefined);
    const canted: LeverCandidate = {
      key: `${fin.name} canted`,
      label: `"${fin.name}" canted 15 deg outwards`,
      edits: written.stations.flatMap(({ z }, i): Edit[] =>
        z === undefined || z.value === 0
          ? []
          : [
              { path: `${path}.stations[${i + 1}].y`, text: mm(z.value * Math.sin(cant)), why },
              { path: `${path}.stations[${i + 1}].z`, text: mm(z.value * Math.cos(cant)), why },
            ],
      ),
    };
    return [
      moved('x', 0.05, 'aft'),
      ...(fin.mirrored && fin.y.value > 0 ? [moved('y', 0.05, 'out')] : []),
      ...(fin.mirrored && upright ? [canted] : []),
    ];
  });
}

const cant = (15 * Math.PI) / 180;

/** Wing ten per cent longer or broader, its mass growing with its area. */
function wingLevers(design: AircraftDesign, complete: CompleteAircraft): LeverCandidate[] {
  const wing = complete.surfaces.find(({ role }) => role === 'wing');
  const written = wing === undefined ? undefined : design.surfaces?.[wing.name];
  if (wing === undefined || written === undefined) return [];
  const factor = 1.1;
  const mass = massEdits(design, complete, wing.name, factor, 'mass grows with the area');
  const longer: Edit[] = [];
  const broader: Edit[] = [];
  for (const [i, station] of written.stations.entries()) {
    const path = `surfaces.${wing.name}.stations[${i + 1}]`;
    if (station.y !== undefined && station.y.value > 0) {
      longer.push({ path: `${path}.y`, text: mm(station.y.value * factor), why: 'the change' });
    }
    broader.push({ path: `${path}.chord`, text: mm(station.chord.value * factor), why: 'the change' });
  }
  if (written.span !== undefined) {
    longer.push({ path: `surfaces.${wing.name}.span`, text: mm(written.span.value * factor), why: 'the change' });
  }
  const levers: LeverCandidate[] = [];
  if (longer.length > 0)
    levers.push({ key: 'longer wing', label: 'wing 10 % longer, same chord', edits: [...longer, ...mass] });
  levers.push({ key: 'broader wing', label: 'wing 10 % broader, same span', edits: [...broader, ...mass] });
  return levers;
}

/** Stated masses spread over a surface, times a factor. */
function massEdits(
  design: AircraftDesign,
  complete: CompleteAircraft,
  on: string,
  factor: number,
  why: string,
): Edit[] {
  const edits: Edit[] = [];
  for (const mass of complete.masses) {
    if (!('on' in mass.place) || mass.place.on !== on) continue;
    const written = design.masses?.[mass.name];
    if (written === undefined) continue;
    edits.push({ path: massPath(design, mass.name), text: weighedText(mass.mass.value * factor, mass.weighed), why });
  }
  return edits;
}

const weighedText = (mass: number, weighed: boolean): string => `${grams(mass)}${weighed ? ' weighed' : ''}`;

/** A mass written as one number, or as a group with its place: the path of the number. */
function massPath(design: AircraftDesign, name: string): string {
  const written = design.masses?.[name];
  const group = written !== undefined && Object.keys(written).length > 1;
  return group ? `masses.${name}.mass` : `masses.${name}`;
}

/** No ballast; the heaviest built part a tenth lighter. */
function massLevers(design: AircraftDesign, complete: CompleteAircraft): LeverCandidate[] {
  const levers: LeverCandidate[] = complete.masses
    .filter(({ group, name }) => group === 'ballast' && design.masses?.[name] !== undefined)
    .map(({ name, mass }) => ({
      key: `without ${name}`,
      label: `without the ballast "${name}" (${grams(mass.value)})`,
      edits: [{ path: massPath(design, name), text: '0 g', why: 'the change' }],
    }));
  const built = complete.masses.filter(({ name, place }) => 'on' in place && design.masses?.[name] !== undefined);
  const heaviest = built.reduce<(typeof built)[number] | undefined>(
    (most, part) => (most === undefined || part.mass.value > most.mass.value ? part : most),
    undefined,
  );
  if (heaviest === undefined) return [...levers, ...wholeMassLever(design)];
  const { name, mass, weighed } = heaviest;
  levers.push({
    key: `lighter ${name}`,
    label: `"${name}" 10 % lighter (${grams(0.1 * mass.value)})`,
    edits: [{ path: massPath(design, name), text: weighedText(0.9 * mass.value, weighed), why: 'the change' }],
  });
  return levers;
}

/** All of it a tenth lighter, where only the mass of the whole is stated. */
function wholeMassLever({ allUpMass }: AircraftDesign): LeverCandidate[] {
  if (allUpMass === undefined) return [];
  const { value, sigma } = allUpMass;
  const spread = sigma === undefined ? '' : ` ± ${grams(sigma)}`;
  return [
    {
      key: 'lighter',
      label: `the aircraft 10 % lighter (${grams(0.1 * value)})`,
      edits: [{ path: 'all up mass', text: `${grams(0.9 * value)}${spread}`, why: 'the change' }],
    },
  ];
}

/** Edits that put a propeller of another size in the place of the one that is written, or assumed, folding as it was. */
function propellerEdits(size: string, folding: boolean, written: 'group' | 'short' | 'nothing'): readonly Edit[] {
  const why = 'the change';
  const named = `folding ${size}`;
  if (written === 'group') return [{ path: 'drive.propeller.size', text: size, why }];
  if (!folding) return [{ path: 'drive.propeller', text: size, why }];
  if (named in PROPELLERS) return [{ path: 'drive.propeller', text: named, why }];
  return [
    ...(written === 'short' ? [{ path: 'drive.propeller', why }] : []),
    { path: 'drive.propeller.size', text: size, why },
    { path: 'drive.propeller.folding', text: 'yes', why: 'it folds as before' },
  ];
}

/** An inch more diameter or pitch either way; a motor that turns a tenth slower per volt. */
function driveLevers(design: AircraftDesign, complete: CompleteAircraft): LeverCandidate[] {
  const { drive } = complete;
  if (drive === undefined) return [];
  const levers: LeverCandidate[] = [];
  const written = design.drive?.propeller;
  if (drive.propeller.geometry === undefined && drive.propeller.measured === undefined) {
    const inch = 0.0254;
    const { diameter, pitch, folding } = drive.propeller;
    const form = written === undefined ? 'nothing' : Object.keys(written).length > 1 ? 'group' : 'short';
    const steps = [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const;
    for (const [dd, dp] of steps) {
      const size = `${Math.round(diameter / inch + dd)}x${Math.round((pitch / inch + dp) * 2) / 2} in`;
      const label = `propeller ${folding ? 'folding ' : ''}${size}`;
      levers.push({ key: `propeller ${size}`, label, edits: propellerEdits(size, folding, form) });
    }
  }
  const slower = (drive.motor.speedConstant.value * 0.85 * 30) / Math.PI;
  levers.push({
    key: 'slower motor',
    label: `motor of ${Math.round(slower)} rpm/V instead of ${Math.round((drive.motor.speedConstant.value * 30) / Math.PI)} rpm/V`,
    edits: [{ path: 'drive.motor.speed constant', text: `${Math.round(slower)} rpm/V`, why: 'the change' }],
  });
  return levers;
}

/** A converter that loses a third less. */
function converterLevers(complete: CompleteAircraft): LeverCandidate[] {
  const converters = (complete.array?.converters ?? []).filter(({ topology }) => topology !== 'direct');
  if (converters.length === 0) return [];
  const edits = converters.map(({ name, efficiency }) => ({
    path: `array.converters.${name}.efficiency`,
    text: percent(1 - (2 / 3) * (1 - efficiency.value)),
    why: 'the change',
  }));
  return [{ key: 'better converter', label: 'converters that lose a third less', edits }];
}

/** One cell in parallel more or less. */
function batteryLevers(design: AircraftDesign, complete: CompleteAircraft): LeverCandidate[] {
  const { battery } = complete;
  const written = design.battery;
  if (battery === undefined || written === undefined || written === 'none') return [];
  return [1, -1].flatMap((change) => {
    const parallel = battery.parallel + change;
    if (parallel < 1) return [];
    const ratio = parallel / battery.parallel;
    const edits: Edit[] = [{ path: 'battery.layout', text: `${battery.series}S${parallel}P`, why: 'the change' }];
    if (written.mass !== undefined)
      edits.push({ path: 'battery.mass', text: grams(battery.mass.value * ratio), why: 'mass of the cells' });
    if (written.capacity !== undefined) {
      edits.push({
        path: 'battery.capacity',
        text: `${((battery.capacity.value * ratio) / 3600).toFixed(2)} Ah`,
        why: 'capacity of the cells',
      });
    }
    if (written.resistance !== undefined) {
      edits.push({
        path: 'battery.resistance',
        text: `${((1000 * battery.resistance.value) / ratio).toFixed(1)} mohm`,
        why: 'cells in parallel',
      });
    }
    const label = `battery ${battery.series}S${parallel}P instead of ${battery.series}S${battery.parallel}P`;
    return [{ key: `battery ${change > 0 ? 'larger' : 'smaller'}`, label, edits }];
  });
}

/** Half of the extra drag; each load that is not the receiver left at home. */
function dragAndLoadLevers(design: AircraftDesign, complete: CompleteAircraft): LeverCandidate[] {
  const levers: LeverCandidate[] = complete.extraDrag
    .filter(({ area }) => area.value > 0)
    .map(({ name, area }) => {
      const written = design.extraDrag?.[name];
      const path =
        written !== undefined && Object.keys(written).length > 1 ? `extra drag.${name}.area` : `extra drag.${name}`;
      const text = `${Math.round(area.value * 0.5 * 1e5) / 10} cm2`;
      return {
        key: `cleaner ${name}`,
        label: `half the drag of "${name}"`,
        edits: [{ path, text, why: 'the change' }],
      };
    });
  for (const [name, load] of Object.entries(design.loads ?? {})) {
    if (/receiver|servo|autopilot/i.test(name)) continue;
    const path = Object.keys(load).length > 1 ? `loads.${name}.power` : `loads.${name}`;
    levers.push({
      key: `without ${name}`,
      label: `without the load "${name}"`,
      edits: [{ path, text: '0 W', why: 'the change' }],
    });
  }
  return levers;
}

/** Wider circles. */
function flightLevers(complete: CompleteAircraft): LeverCandidate[] {
  const { circleRadius, bank } = complete.flight;
  if (circleRadius !== undefined) {
    const text = `${Math.round(circleRadius.value * 1.5)} m`;
    return [
      {
        key: 'wider circles',
        label: `circles of ${text} radius`,
        edits: [{ path: 'flight.circle radius', text, why: 'the change' }],
      },
    ];
  }
  if (bank === undefined || bank.value < 0.05) return [];
  const text = `${Math.round((bank.value * 180) / Math.PI / 1.5)} deg`;
  return [
    {
      key: 'wider circles',
      label: `circles at ${text} of bank`,
      edits: [{ path: 'flight.bank', text, why: 'the change' }],
    },
  ];
}
