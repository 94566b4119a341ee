import { libraryName } from '@noonwing/engine/section';
import { nearest } from '@noonwing/quantities';
import type { AircraftDesign, ArrayDesign, StationDesign, SurfaceDesign } from './aircraft.js';
import type { RowDesign, StringDesign } from './array-fields.js';
import type { DayPlan } from './day-plan.js';
import { nodeAt } from './document/document.js';
import type { Path } from './document/message.js';
import { quoted, type Reading, report } from './schema/report.js';

interface Finding {
  readonly found: string;
  readonly expected: string;
  readonly hint?: string;
  readonly severity?: 'error' | 'warning' | 'note';
}

/** Reports at a path; where it is not written, at the nearest part above it that is. */
function at(reading: Reading, path: Path, finding: Finding): void {
  let length = path.length;
  while (length > 0 && nodeAt(reading.document, path.slice(0, length)) === undefined) length--;
  report(reading, nodeAt(reading.document, path.slice(0, length)), path, finding);
}

const mm = (metres: number): string => `${+(metres * 1000).toFixed(1)} mm`;

/** A name that must be one of those given elsewhere in the file. */
function known(reading: Reading, path: Path, name: string, names: readonly string[], what: string): void {
  if (names.includes(name)) return;
  const near = nearest(name, names);
  at(reading, path, {
    found: quoted(name),
    expected:
      names.length === 0 ? `the name of a ${what}, and there is none` : `the name of a ${what}: ${names.join(', ')}`,
    hint: near === undefined ? '' : `did you mean "${near}"?`,
  });
}

/** Distance of a station from the root along the surface, as far as it is written [m or share], or undefined. */
function along(station: StationDesign): number | undefined {
  if (station.spanShare !== undefined) return station.spanShare.value;
  if (station.y === undefined && station.z === undefined) return undefined;
  return Math.hypot(station.y?.value ?? 0, station.z?.value ?? 0);
}

const written = (place: number, shares: boolean): string => (shares ? `${+(place * 100).toFixed(2)} %` : mm(place));

/** Where a station stands, or undefined after reporting why that is not clear. */
function stationPlace(
  station: StationDesign,
  index: number,
  here: Path,
  shares: boolean,
  reading: Reading,
): number | undefined {
  const refuse = (path: Path, found: string, expected: string, hint: string): undefined => {
    at(reading, path, { found, expected, hint });
    return undefined;
  };
  if (station.spanShare !== undefined && station.y !== undefined) {
    return refuse([...here, 'y'], 'y and span share', 'one of them', 'remove one');
  }
  const place = along(station) ?? (index === 0 ? 0 : undefined);
  if (place === undefined) {
    const hint = 'write how far it is from the root, as in "y: 600 mm"';
    return refuse(here, 'a station without a place', 'y, z or span share', hint);
  }
  if (shares && station.spanShare === undefined && place !== 0) {
    const hint = 'use y for all stations or span share for all';
    return refuse([...here, placeKey(station)], mm(place), 'a span share, as for the other stations', hint);
  }
  return place;
}

const placeKey = (station: StationDesign): string =>
  station.spanShare !== undefined ? 'span share' : station.y === undefined ? 'z' : 'y';

/** Stations go from root to tip, all by the same measure. */
function checkStations(surface: SurfaceDesign, path: Path, reading: Reading): void {
  const shares = surface.stations.some((station) => station.spanShare !== undefined && station.y === undefined);
  let before = Number.NEGATIVE_INFINITY;
  for (const [index, station] of surface.stations.entries()) {
    const here: Path = [...path, 'stations', index];
    const place = stationPlace(station, index, here, shares, reading);
    if (place === undefined) continue;
    if (place <= before) {
      at(reading, [...here, placeKey(station)], {
        found: written(place, shares),
        expected: `more than the station before it, ${written(before, shares)}`,
        hint: 'stations go from root to tip and must not cross',
      });
    }
    before = Math.max(before, place);
    checkSection(station.section, [...here, 'section'], reading);
  }
  if (shares && surface.span === undefined) {
    at(reading, path, {
      found: 'stations by span share',
      expected: 'the span of the surface',
      hint: 'add "span: 2.4 m"',
    });
  }
}

function checkSection(section: StationDesign['section'], path: Path, reading: Reading): void {
  if (section === undefined) return;
  const { naca, library, file, plate, coordinates } = section;
  const forms = [naca, library, file, plate, coordinates].filter((form) => form !== undefined);
  if (forms.length !== 1) {
    at(reading, path, {
      found: `${forms.length} descriptions`,
      expected: 'one of: naca, library, file, plate, coordinates',
    });
  }
  if (library !== undefined && libraryName(library) === undefined) {
    const expected = 'a name from noonwing section --list, such as flat cells 3';
    at(reading, [...path, 'library'], { found: quoted(library), expected });
  }
  if (section.naca !== undefined && !/^\d{4,5}$/.test(section.naca.trim())) {
    at(reading, [...path, 'naca'], { found: quoted(section.naca), expected: '4 or 5 digits, such as 2412' });
  }
}

function checkSurfaces(design: AircraftDesign, reading: Reading): void {
  for (const [name, surface] of Object.entries(design.surfaces ?? {})) {
    const path: Path = ['surfaces', name];
    checkStations(surface, path, reading);
    checkSection(surface.section, [...path, 'section'], reading);
    for (const [control, part] of Object.entries(surface.controls ?? {})) {
      const from = part.from?.value ?? 0;
      const to = part.to?.value ?? 1;
      if (to <= from) {
        at(reading, [...path, 'controls', control, 'to'], {
          found: `${+(to * 100).toFixed(1)} %`,
          expected: `more than its inner end, ${+(from * 100).toFixed(1)} %`,
        });
      }
    }
  }
}

function checkRows(array: ArrayDesign, surfaces: readonly string[], reading: Reading): void {
  if (Object.keys(array.rows).length === 0) {
    at(reading, ['array', 'rows'], { found: 'no rows', expected: 'at least one row of cells' });
  }
  for (const [name, { on, from, to }] of Object.entries(array.rows)) {
    const path: Path = ['array', 'rows', name];
    // Without an airframe a row lies flat, whatever its surface is called.
    if (surfaces.length > 0) known(reading, [...path, 'on'], on, surfaces, 'surface');
    if (from !== undefined && to !== undefined && from.kind === to.kind && to.value <= from.value) {
      at(reading, [...path, 'to'], { found: 'an outer end inside the inner end', expected: 'more than "from"' });
    }
    checkPlaces(array.rows[name]!, path, reading);
  }
}

/** Places one by one stand for the cells of one side. */
function checkPlaces({ places, cells, side = 'both' }: RowDesign, path: Path, reading: Reading): void {
  if (places === undefined) return;
  const each = side === 'both' ? [places.length, 2 * places.length, 2 * places.length - 1] : [places.length];
  if (each.includes(cells.value)) return;
  at(reading, [...path, 'places'], {
    found: `${places.length} places for ${cells.value} cells`,
    expected: side === 'both' ? 'a place for each cell of one half; the other half mirrors them' : 'one for each cell',
  });
}

/** Diodes and cracked cells name cells that are there. */
function checkWiring(string: StringDesign, all: number, path: Path, reading: Reading): void {
  const inSeries = all / (string.parallel?.value ?? 1);
  if (string.diodes !== undefined && string.cellsPerDiode !== undefined) {
    const hint = 'remove one';
    at(reading, [...path, 'diodes'], { found: 'diodes and cells per diode', expected: 'one of them', hint });
  }
  let last = 0;
  for (const [index, { from, to }] of (string.diodes ?? []).entries()) {
    if (from.value <= last || to.value < from.value || to.value > inSeries) {
      at(reading, [...path, 'diodes', index], {
        found: `a diode over the cells ${from.value} to ${to.value}`,
        expected: `cells ${last + 1} to ${inSeries}, in order and each under one diode at most`,
      });
    }
    last = Math.max(last, to.value);
  }
  for (const [index, { cell }] of (string.cracked ?? []).entries()) {
    if (cell.value <= all) continue;
    at(reading, [...path, 'cracked', index, 'cell'], { found: `cell ${cell.value}`, expected: `one of ${all} cells` });
  }
}

function checkString(array: ArrayDesign, name: string, string: StringDesign, reading: Reading): void {
  const path: Path = ['array', 'strings', name];
  const cells = string.rows.reduce((sum, row) => sum + (array.rows[row]?.cells.value ?? 0), 0);
  const parallel = string.parallel?.value ?? 1;
  if (cells % parallel !== 0) {
    at(reading, [...path, 'parallel'], {
      found: `${cells} cells in ${parallel} parallel strings`,
      expected: 'equal strings',
      hint: `leave out ${cells % parallel} or add ${parallel - (cells % parallel)} cells`,
    });
  }
  checkWiring(string, cells, path, reading);
  const converters = Object.keys(array.converters ?? {});
  if (string.converter !== undefined) known(reading, [...path, 'converter'], string.converter, converters, 'converter');
}

/** Each row belongs to one string. */
function checkStrings(array: ArrayDesign, reading: Reading): void {
  const rows = Object.keys(array.rows);
  const used = new Map<string, string>();
  for (const [name, string] of Object.entries(array.strings ?? {})) {
    for (const [index, row] of string.rows.entries()) {
      const path: Path = ['array', 'strings', name, 'rows', index];
      const other = used.get(row);
      known(reading, path, row, rows, 'row');
      if (other !== undefined)
        at(reading, path, { found: `${quoted(row)} again`, expected: `a row that is not yet in string "${other}"` });
      used.set(row, name);
    }
    checkString(array, name, string, reading);
  }
  if (array.strings === undefined) return;
  for (const row of rows.filter((name) => !used.has(name))) {
    const hint = 'its cells give nothing';
    at(reading, ['array', 'rows', row], {
      severity: 'warning',
      found: 'a row in no string',
      expected: 'each row in a string',
      hint,
    });
  }
}

function checkMasses(design: AircraftDesign, reading: Reading): void {
  const parts = [...Object.keys(design.surfaces ?? {}), ...Object.keys(design.bodies ?? {})];
  for (const [name, mass] of Object.entries(design.masses ?? {})) {
    if (mass.on !== undefined) known(reading, ['masses', name, 'on'], mass.on, parts, 'surface or body');
  }
}

function checkBattery(design: AircraftDesign, reading: Reading): void {
  const battery = design.battery;
  if (battery === undefined || battery === 'none') return;
  const low = battery.emptyVoltage ?? battery.cell?.emptyVoltage;
  const high = battery.fullVoltage ?? battery.cell?.fullVoltage;
  if (low !== undefined && high !== undefined && low.value >= high.value) {
    at(reading, ['battery', 'empty voltage'], {
      found: `${low.value} V`,
      expected: `less than the full voltage, ${high.value} V`,
    });
  }
  const [from, to, x] = [battery.movesFrom?.value, battery.movesTo?.value, battery.x?.value];
  if (from !== undefined && to !== undefined && to < from) {
    at(reading, ['battery', 'moves to'], { found: mm(to), expected: `aft of "moves from", ${mm(from)}` });
  }
  if (x !== undefined && (x < (from ?? x) - 1e-9 || x > (to ?? x) + 1e-9)) {
    at(reading, ['battery', 'x'], {
      severity: 'warning',
      found: mm(x),
      expected: `between ${mm(from ?? x)} and ${mm(to ?? x)}, where it can move`,
    });
  }
}

/** Findings that concern more than one key: names, crossed stations, strings, what is needed for a verdict. */
export function checkDesign(design: AircraftDesign, reading: Reading): void {
  checkSurfaces(design, reading);
  checkMasses(design, reading);
  checkBattery(design, reading);
  if (design.array !== undefined && design.array !== 'none') {
    checkRows(design.array, Object.keys(design.surfaces ?? {}), reading);
    checkStrings(design.array, reading);
  }
  const power =
    design.levelPower !== undefined ||
    (design.measured ?? []).some((record) => record.what === 'level power' && record.use !== false);
  if (!power && Object.keys(design.surfaces ?? {}).length === 0) {
    at(reading, ['surfaces'], {
      found: 'neither surfaces nor a level power',
      expected: 'surfaces to compute the level power from, or the level power itself',
      hint: 'add "level power: 16 W ± 4 W" or the wing under "surfaces"',
    });
  }
}

/** Findings of a day plan that concern more than one key. */
export function checkPlan(plan: DayPlan, reading: Reading): void {
  const speed = plan.wind?.speed.value;
  const gusts = plan.wind?.gusts?.value;
  if (speed !== undefined && gusts !== undefined && gusts < speed) {
    at(reading, ['wind', 'gusts'], {
      severity: 'warning',
      found: `${+gusts.toFixed(1)} m/s`,
      expected: `more than the mean wind, ${+speed.toFixed(1)} m/s`,
    });
  }
  if (
    typeof plan.launch === 'number' &&
    plan.landing !== undefined &&
    plan.landing <= plan.launch &&
    (plan.days?.value ?? 1) === 1
  ) {
    at(reading, ['landing'], {
      found: 'a landing before the launch',
      expected: 'a later time',
      hint: 'or write "days: 2"',
    });
  }
  if (plan.turbidity !== undefined && plan.surroundings !== undefined) {
    at(reading, ['turbidity'], {
      severity: 'note',
      found: 'surroundings and turbidity',
      expected: 'one of them',
      hint: 'the stated turbidity is used',
    });
  }
}
