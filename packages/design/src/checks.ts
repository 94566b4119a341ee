import { nearest } from '@noonwing/quantities';
import type { AircraftDesign, ArrayDesign, StationDesign, SurfaceDesign } from './aircraft.js';
import type { DayPlan } from './day-plan.js';
import { nodeAt } from './document/document.js';
import type { Path } from './document/message.js';
import { quoted, type Reading, report } from './schema/read.js';

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

function checkStations(surface: SurfaceDesign, path: Path, reading: Reading): void {
  let before = Number.NEGATIVE_INFINITY;
  const shares = surface.stations.some((station) => station.spanShare !== undefined && station.y === undefined);
  surface.stations.forEach((station, index) => {
    const here: Path = [...path, 'stations', index];
    if (station.spanShare !== undefined && station.y !== undefined) {
      at(reading, [...here, 'y'], { found: 'y and span share', expected: 'one of them', hint: 'remove one' });
      return;
    }
    const place = along(station) ?? (index === 0 ? 0 : undefined);
    const key = station.spanShare !== undefined ? 'span share' : station.y === undefined ? 'z' : 'y';
    if (place === undefined) {
      at(reading, here, {
        found: 'a station without a place',
        expected: 'y, z or span share',
        hint: 'write how far it is from the root, as in "y: 600 mm"',
      });
      return;
    }
    if (shares && station.spanShare === undefined && place !== 0) {
      at(reading, [...here, key], {
        found: mm(place),
        expected: 'a span share, as for the other stations',
        hint: 'use y for all stations or span share for all',
      });
      return;
    }
    if (place <= before) {
      at(reading, [...here, key], {
        found: shares ? `${+(place * 100).toFixed(2)} %` : mm(place),
        expected: `more than the station before it, ${shares ? `${+(before * 100).toFixed(2)} %` : mm(before)}`,
        hint: 'stations go from root to tip and must not cross',
      });
    }
    before = Math.max(before, place);
    checkSection(station.section, [...here, 'section'], reading);
  });
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
  const forms = [section.naca, section.file, section.plate, section.coordinates].filter((form) => form !== undefined);
  if (forms.length !== 1) {
    at(reading, path, { found: `${forms.length} descriptions`, expected: 'one of: naca, file, plate, coordinates' });
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

function checkArray(array: ArrayDesign, design: AircraftDesign, reading: Reading): void {
  const rows = Object.keys(array.rows);
  const surfaces = Object.keys(design.surfaces ?? {});
  if (rows.length === 0) at(reading, ['array', 'rows'], { found: 'no rows', expected: 'at least one row of cells' });
  for (const [name, row] of Object.entries(array.rows)) {
    const path: Path = ['array', 'rows', name];
    // Without an airframe a row lies flat, whatever its surface is called.
    if (surfaces.length > 0) known(reading, [...path, 'on'], row.on, surfaces, 'surface');
    if (
      row.from !== undefined &&
      row.to !== undefined &&
      row.from.kind === row.to.kind &&
      row.to.value <= row.from.value
    ) {
      at(reading, [...path, 'to'], { found: 'an outer end inside the inner end', expected: 'more than "from"' });
    }
  }
  const used = new Map<string, string>();
  for (const [name, string] of Object.entries(array.strings ?? {})) {
    const path: Path = ['array', 'strings', name];
    string.rows.forEach((row, index) => {
      known(reading, [...path, 'rows', index], row, rows, 'row');
      const other = used.get(row);
      if (other !== undefined)
        at(reading, [...path, 'rows', index], {
          found: `${quoted(row)} again`,
          expected: `a row that is not yet in string "${other}"`,
        });
      used.set(row, name);
    });
    const cells = string.rows.reduce((sum, row) => sum + (array.rows[row]?.cells.value ?? 0), 0);
    const parallel = string.parallel?.value ?? 1;
    if (cells % parallel !== 0) {
      at(reading, [...path, 'parallel'], {
        found: `${cells} cells in ${parallel} parallel strings`,
        expected: 'equal strings',
        hint: `leave out ${cells % parallel} or add ${parallel - (cells % parallel)} cells`,
      });
    }
    const converters = Object.keys(array.converters ?? {});
    if (string.converter !== undefined)
      known(reading, [...path, 'converter'], string.converter, converters, 'converter');
  }
  if (array.strings === undefined) return;
  for (const row of rows.filter((name) => !used.has(name))) {
    at(reading, ['array', 'rows', row], {
      severity: 'warning',
      found: 'a row in no string',
      expected: 'each row in a string',
      hint: 'its cells give nothing',
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
  if (design.array !== undefined && design.array !== 'none') checkArray(design.array, design, reading);
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
