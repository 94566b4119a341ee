import { type Outcome, success, type Warning } from '@noonwing/engine';
import type { Converter, Tracker, Tracking } from '@noonwing/engine/array';
import { type ArrayFacet, type ArrayGroup, type ArrayPlan, coolingOf } from '@noonwing/engine/day';
import { upperSurfaceAt } from '@noonwing/engine/section';
import { cutAt, facet, type LiftingSurface, spanPosition } from '@noonwing/engine/shape';
import { filmCover } from '@noonwing/engine/sun';
import type { CompleteArray, CompleteCell, CompleteConverter, CompleteRow } from '../complete/index.js';
import { type AssembledCells, assembleCells, cellsOnFaces, cellsOnSide, type Face, pieceOf, rowKey } from './cells.js';
import type { AssembledShape } from './shape.js';
import { combined, relativeSigma } from './sigma.js';
import { assembleStrings } from './strings.js';

/** A row of cells on one side and face of a surface. */
export interface PlacedRow {
  readonly row: string;
  readonly surface: string;
  readonly side: 'right' | 'left';
  readonly face: Face;
  readonly cells: number;
  /** Middle in the frame of geometry [m]. */
  readonly centre: readonly [number, number, number];
}

/** A solar array ready for the engine, with the relative standard uncertainties that its samples need. */
export interface AssembledArray {
  readonly plan: ArrayPlan;
  readonly placed: readonly PlacedRow[];
  /** For each of `placed` the facet of the plan that holds its cells. */
  readonly facetOf: readonly number[];
  readonly cellCount: number;
  /** Area of all cells [m2]. */
  readonly cellArea: number;
  readonly cellPowerSigma: number;
  readonly filmSigma: number;
  readonly dustSigma: number;
  readonly converterSigma: number;
  readonly trackingSigma: number;
}

/**
 * Array of a completed design on its shape.
 *
 * @param shape - undefined where the file describes no airframe: the cells then lie level
 * @param batteryVoltage - about which converters work [V]
 * @param cells - cells on the shape, where they are known already
 */
export function assembleArray(
  design: CompleteArray,
  shape: AssembledShape | undefined,
  batteryVoltage: number,
  cells: AssembledCells | undefined = shape === undefined ? undefined : assembleCells(design, shape),
): Outcome<AssembledArray> {
  const sheet = design.cell;
  const facets: ArrayFacet[] = [];
  const placed: PlacedRow[] = [];
  const warnings: Warning[] = [];
  const groupsOfRow = new Map<string, readonly ArrayGroup[]>();
  for (const row of design.rows) {
    const { name } = row;
    const made = placeRow(row, sheet, shape, cells);
    if (!made.ok) return made;
    warnings.push(...made.warnings);
    groupsOfRow.set(
      name,
      made.value.map(({ facet: next, placed: place }) => {
        placed.push(place);
        facets.push(next);
        return { facet: facets.length - 1, count: place.cells };
      }),
    );
  }
  const merged = mergedFacets(facets);
  const strings = assembleStrings(design, groupsOfRow, merged.indexOf, cells);
  if (!strings.ok) return strings;
  const cellCount = placed.reduce((sum, row) => sum + row.cells, 0);
  const cellArea = design.rows.reduce((sum, { cells: count, pieces }) => sum + (count / pieces) * sheet.area.value, 0);
  return success(
    {
      plan: {
        facets: merged.facets,
        ...(cells === undefined ? {} : { cells: cells.cells, shade: cells.shade }),
        strings: strings.value,
        converters: design.converters.map((converter) => engineConverter(converter, batteryVoltage)),
        ...trackersOf(design),
        incidence: filmCover,
        lightFactor: design.transmittance.value * (1 - design.dust.value),
      },
      placed,
      facetOf: merged.indexOf,
      cellCount,
      cellArea,
      cellPowerSigma: combined(relativeSigma(sheet.maximumPowerCurrent), relativeSigma(sheet.maximumPowerVoltage)),
      filmSigma: relativeSigma(design.transmittance),
      dustSigma: design.dust.sigma ?? 0,
      converterSigma: Math.max(0, ...design.converters.map((converter) => relativeSigma(converter.efficiency))),
      trackingSigma: Math.max(0, ...design.converters.map((converter) => relativeSigma(converter.trackingEfficiency))),
    },
    [...warnings, ...unsaid(cells?.warnings ?? [], warnings), ...strings.warnings],
  );
}

/** Findings about cells whose kind was not yet said of the same row; of the two sides of a row, one. */
function unsaid(found: readonly Warning[], said: readonly Warning[]): readonly Warning[] {
  const known = new Set(said.map(({ code, where }) => `${code} ${where}`));
  return found.filter(({ code, where }) => {
    const key = `${code} ${where}`;
    if (known.has(key)) return false;
    known.add(key);
    return true;
  });
}

interface RowOnSide {
  readonly facet: ArrayFacet;
  readonly placed: PlacedRow;
}

function placeRow(
  row: CompleteRow,
  sheet: CompleteCell,
  shape: AssembledShape | undefined,
  cells: AssembledCells | undefined,
): Outcome<readonly RowOnSide[]> {
  const surface = shape?.shape.surfaces.find((candidate) => candidate.name === row.on);
  if (shape === undefined || surface === undefined) return success([levelRow(row, sheet)]);
  const placed: RowOnSide[] = [];
  const warnings: Warning[] = [];
  for (const side of ['right', 'left'] as const) {
    const share = cellsOnSide(row, surface.mirrored, side);
    for (const [face, count] of cellsOnFaces(row, share)) {
      const made = placeOnSide(row, sheet, shape, surface, { side, face, cells: count });
      if (!made.ok) return made;
      if (placed.length === 0) warnings.push(...made.warnings);
      placed.push(onCells(made.value, cells, cells?.byRow.get(rowKey(row.name, side, face))));
    }
  }
  return success(placed, warnings);
}

/** A row in the mean direction, place and cooling length of its cells. */
function onCells(row: RowOnSide, cells: AssembledCells | undefined, indices: readonly number[] | undefined): RowOnSide {
  if (cells === undefined || indices === undefined) return row;
  const mean = (pick: (cell: AssembledCells['cells'][number]) => number) =>
    indices.reduce((sum, index) => sum + pick(cells.cells[index]!), 0) / indices.length;
  const vector = (pick: (cell: AssembledCells['cells'][number]) => readonly [number, number, number]) =>
    [0, 1, 2].map((axis) => mean((cell) => pick(cell)[axis]!)) as [number, number, number];
  const [x, y, z] = vector(({ normal }) => normal);
  const length = Math.hypot(x, y, z);
  return {
    facet: {
      ...row.facet,
      normal: [x / length, y / length, z / length],
      from: mean(({ flowFrom }) => flowFrom),
      length: mean(({ flowTo }) => flowTo),
      laminarFraction: mean((cell) => coolingOf(cell).laminarFraction),
      cells: indices,
    },
    placed: { ...row.placed, centre: vector(({ centre }) => centre) },
  };
}

/** Where no airframe is described the cells lie level on a closed surface. */
function levelRow(row: CompleteRow, sheet: CompleteCell): RowOnSide {
  const { cells } = row;
  return {
    facet: {
      normal: [0, 0, -1],
      area: cells * pieceOf(row, sheet).area,
      from: 0.5 * pieceOf(row, sheet).width,
      length: 1.5 * pieceOf(row, sheet).width,
      laminarFraction: 0.5,
      rearFraction: 0,
    },
    placed: { row: row.name, surface: row.on, side: 'right', face: 'upper', cells, centre: [0, 0, 0] },
  };
}

function placeOnSide(
  row: CompleteRow,
  sheet: CompleteCell,
  shape: AssembledShape,
  surface: LiftingSurface,
  { side, face, cells }: { readonly side: 'right' | 'left'; readonly face: Face; readonly cells: number },
): Outcome<RowOnSide> {
  const root = spanPosition(surface, 0);
  const reach = spanPosition(surface, surface.stations.length - 1) - root;
  const fromY = root + row.from * reach;
  const toY = root + row.to * reach;
  const middle = cutAt(surface, (fromY + toY) / 2);
  const station = row.chordStation.value;
  const piece = pieceOf(row, sheet);
  const half = piece.width / (2 * middle.chord);
  const section = shape.sections.find((candidate) => candidate.name === middle.section);
  const slope = section === undefined ? 0 : upperSurfaceAt(section.geometry, station).slope;
  const made = facet(surface, {
    fromY,
    toY,
    fromChord: Math.max(0, station - half),
    toChord: Math.min(1, station + half),
    slope: face === 'lower' ? 0 : slope,
    side,
  });
  if (!made.ok) return { ...made, where: `array.rows.${row.name}` };
  const [x, y, z] = made.value.normal;
  return success(
    {
      facet: {
        normal: face === 'lower' ? [-x, -y, -z] : made.value.normal,
        area: cells * piece.area,
        from: Math.max(0, station - half) * middle.chord,
        length: Math.min(1, station + half) * middle.chord,
        laminarFraction: 0.5,
        rearFraction: 0,
      },
      placed: { row: row.name, surface: surface.name, side, face, cells, centre: made.value.centre },
    },
    row.places === undefined ? fitWarnings(row.name, piece.length, cells, toY - fromY, station, half) : [],
  );
}

/** What does not fit: more cells than the span holds, or a cell wider than the chord leaves. */
function fitWarnings(
  name: string,
  length: number,
  cells: number,
  room: number,
  station: number,
  half: number,
): readonly Warning[] {
  const warnings: Warning[] = [];
  const gap = 0.001;
  const needed = cells * (length + gap);
  if (needed > room + 1e-6) {
    warnings.push({
      code: 'cells-do-not-fit',
      message: `${cells} cells of the row need ${(1000 * needed).toFixed(0)} mm on each side, there are ${(1000 * room).toFixed(0)} mm`,
      where: `array.rows.${name}`,
    });
  }
  if (station - half < 0 || station + half > 1) {
    warnings.push({
      code: 'cells-do-not-fit',
      message: `the cells reach over the edge of the chord (from ${(100 * (station - half)).toFixed(0)} to ${(100 * (station + half)).toFixed(0)} %)`,
      where: `array.rows.${name}`,
    });
  }
  return warnings;
}

/** Facets that point the same way and cool the same way are one: fewer directions to compute. */
function mergedFacets(facets: readonly ArrayFacet[]) {
  const merged: ArrayFacet[] = [];
  const indexOf = facets.map((next) => {
    const found = merged.findIndex(
      (known) =>
        known.normal.every((component, i) => Math.abs(component - next.normal[i]!) < 1e-6) &&
        (['from', 'length', 'laminarFraction'] as const).every((key) => Math.abs(known[key] - next[key]) < 1e-6),
    );
    if (found >= 0) {
      const known = merged[found]!;
      const cells =
        known.cells === undefined || next.cells === undefined ? {} : { cells: [...known.cells, ...next.cells] };
      merged[found] = { ...known, area: known.area + next.area, ...cells };
      return found;
    }
    merged.push(next);
    return merged.length - 1;
  });
  return { facets: merged, indexOf };
}

/**
 * Converter from its best efficiency: a quarter of the loss at half the rated power fixed, half in proportion to the
 * current, a quarter with its square, so that the best lies there. Split by judgement.
 */
export function engineConverter(design: CompleteConverter, batteryVoltage: number): Converter {
  const voltage = batteryVoltage > 0 ? batteryVoltage : 10;
  const halfPower = design.ratedPower.value / 2;
  const loss = (1 / design.efficiency.value - 1) * halfPower;
  const current = halfPower / voltage;
  const direct = design.topology === 'direct';
  return {
    topology: design.topology,
    loss: direct
      ? { fixed: 0, perAmpere: 0, resistance: 0 }
      : { fixed: 0.25 * loss, perAmpere: (0.5 * loss) / current, resistance: (0.25 * loss) / current ** 2 },
    limits: {
      outputCurrent: design.outputCurrentLimit.value,
      inputPower: design.ratedPower.value,
      minimumInputVoltage: design.inputVoltageLow.value,
      maximumInputVoltage: design.inputVoltageHigh.value,
      ...(design.outputVoltage === undefined ? {} : { outputVoltage: design.outputVoltage.value }),
    },
    tracking: trackingOf(design),
    standbyPower: design.standbyPower.value,
  };
}

/** Of open circuit: step of a hill climber; of time: pause and sweep (common practice, no source; the pause from a charger sheet). */
const [climbingStep, lookingPause, sweepingTime] = [0.01, 0.3, 0.3];

/** Trackers by converter, where their method is stated. */
function trackersOf({ converters, strings, cell }: CompleteArray): Pick<ArrayPlan, 'trackers'> {
  if (converters.every(({ tracker }) => tracker === undefined)) return {};
  return {
    trackers: converters.map(({ name, tracker }) => {
      if (tracker === undefined) return undefined;
      const cells = Math.max(...strings.filter(({ converter }) => converter === name).map((s) => s.cellsInSeries));
      const { method, startVoltage, timeConstant } = tracker;
      const period = tracker.period.value;
      const kinds: Record<typeof method, Tracker> = {
        'perturb and observe': {
          method: 'perturb and observe',
          step: climbingStep * cells * cell.openCircuitVoltage.value,
          period,
        },
        'fraction of open circuit': {
          method: 'fraction of open circuit',
          fraction: tracker.openCircuitFraction.value,
          period,
          pause: lookingPause,
        },
        sweep: { method: 'sweep', period, duration: Math.min(sweepingTime, period / 2) },
      };
      return {
        tracker: kinds[method],
        timeConstant: timeConstant.value,
        ...(startVoltage === undefined ? {} : { startVoltage: startVoltage.value }),
      };
    }),
  };
}

function trackingOf(design: CompleteConverter): Tracking {
  if (design.fixedInputVoltage !== undefined) {
    return { method: 'fixed voltage', voltage: design.fixedInputVoltage.value };
  }
  return { method: 'maximum power', efficiency: design.trackingEfficiency.value };
}
