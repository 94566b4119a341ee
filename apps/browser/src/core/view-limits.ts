import { MATERIALS, type Material } from '@noonwing/design';
import type { Limit } from '@noonwing/engine/aeroelastic';
import type { SurfaceStructure, WirePart } from '@noonwing/engine/structure';
import type { Verdict } from '@noonwing/verdict';
import {
  bentPower,
  jointReports,
  knownLimit,
  type LimitsAnswer,
  limitCondition,
  limitSlices,
  limitWarnings,
  toldDives,
} from '@noonwing/verdict/limits';
import type { WarmLimit } from '@noonwing/verdict/warm-limits';
import { type LaterJob, refusedAs } from './job.js';
import type { LayUpView, LimitsView, LimitView, MaterialView, WarmView } from './view-limits-types.js';

export const limitView = ({ kind, words, airspeed, low, high, frequency }: Limit): LimitView => ({
  kind,
  words,
  airspeed,
  low,
  high,
  ...(frequency === undefined ? {} : { frequency: frequency / (2 * Math.PI) }),
});

const warmView = ({ faces, softer, first }: WarmLimit): WarmView => ({
  top: faces.upper,
  bottom: faces.lower,
  softer: softer.map((material) => ({ ...material })),
  ...(first === undefined ? {} : { first: limitView(first) }),
});

/** The lay-up of a surface with its materials by name. */
export function layUpView(of: SurfaceStructure, wires: readonly WirePart[] = []): LayUpView {
  const { name, stations, core, zones, ribs, spars, cells, controls, joints = [], bendingFactor, torsionFactor } = of;
  return {
    name,
    stations: stations.map(({ y, xLeadingEdge, chord, shape }) => ({
      y,
      xLeadingEdge,
      chord,
      at: [...shape.stations],
      upper: [...shape.upper],
      lower: [...shape.lower],
    })),
    ...(core === undefined ? {} : { core: core.name }),
    zones: zones.map(({ name: zone, face, from, to, layers }) => ({
      name: zone,
      face,
      from,
      to,
      layers: layers.map(({ material, thickness, angle }) => ({ material: material.name, thickness, angle })),
    })),
    ...(ribs === undefined
      ? {}
      : { ribs: { material: ribs.material.name, thickness: ribs.thickness, spacing: ribs.spacing } }),
    spars: spars.map(({ name: spar, kind, material, place, web, sizes }) => ({
      name: spar,
      kind,
      material: material.name,
      place,
      ...(web === undefined ? {} : { web: { material: web.material.name, thickness: web.thickness } }),
      sizes: sizes.map((size) => ({ ...size })),
    })),
    cells: cells.map(({ name: row, fromY, toY, from, to, face, thickness, glue }) => ({
      name: row,
      fromY,
      toY,
      from,
      to,
      face,
      thickness,
      ...(glue === undefined ? {} : { glue: glue.thickness }),
    })),
    controls: controls.map(({ name: control, fromY, toY, hinge }) => ({ name: control, fromY, toY, hinge })),
    joints: joints.map(({ name: joint, y, kind, material, width, height, wall, depth, chordFraction = 0.3 }) => ({
      name: joint,
      y,
      kind,
      material: material.name,
      width,
      height,
      wall,
      depth,
      chordFraction,
    })),
    wires: wires
      .filter(({ surface }) => surface === name)
      .map(({ name: wire, at, bodyX, breaks }) => ({ name: wire, ...at, bodyX, breaks })),
    bendingFactor,
    torsionFactor,
  };
}

const namesOf = ({ core, zones, ribs, spars, joints }: LayUpView): readonly string[] => [
  ...(core === undefined ? [] : [core]),
  ...zones.flatMap(({ layers }) => layers.map(({ material }) => material)),
  ...(ribs === undefined ? [] : [ribs.material]),
  ...spars.flatMap(({ material, web }) => (web === undefined ? [material] : [material, web.material])),
  ...joints.map(({ material }) => material),
];

type Strips = LimitsAnswer['structure']['strips'];

function materialView(name: string, strips: Strips): readonly MaterialView[] {
  const strip = strips.find(({ material }) => material === name);
  if (strip !== undefined)
    return [{ name, spread: strip.spread, source: 'a bent strip of it', measured: strip.factor }];
  const found = (MATERIALS as Readonly<Record<string, Material>>)[name]?.mechanics;
  return found === undefined ? [] : [{ name, spread: found.spread, source: found.source }];
}

/** Limits, lay-ups and what stands behind them, as plain data. */
export function limitsView(of: Verdict, answer: LimitsAnswer): LimitsView {
  const { report, structure, airspeed, undriven, warm } = answer;
  const condition = limitCondition(of);
  const layUps = Object.values(structure.described).map((of) => layUpView(of, structure.half.wires));
  const { loose, allowed, foreAft, heat, bent, landing, slop } = report;
  const power = bentPower(answer);
  const known = Object.keys(structure.described).length > 0 ? knownLimit(answer) : undefined;
  return {
    airspeed,
    undriven,
    ...(known === undefined ? {} : { known }),
    limits: report.limits.map(limitView),
    ...(loose === undefined ? {} : { loose: limitView(loose) }),
    searchedTo: report.searchedTo,
    dives: toldDives(report, condition?.dive),
    ...(allowed === undefined ? {} : { allowed: { ...allowed } }),
    ...(foreAft === undefined ? {} : { foreAft: { ...foreAft } }),
    ...(heat === undefined ? {} : { heat: { difference: heat.difference, control: heat.control } }),
    ...(bent === undefined || power === undefined ? {} : { bent: { ...bent, levelPower: power } }),
    joints: jointReports(structure),
    ...(answer.launch === undefined ? {} : { launch: { ...answer.launch } }),
    wires: report.wires.map((wire) => ({ ...wire })),
    line: answer.line,
    ...(landing === undefined ? {} : { landing: { ...landing } }),
    ...(slop === undefined ? {} : { slop: { ...slop } }),
    ...(warm === undefined ? {} : { warm: { flight: warmView(warm.flight), parked: warmView(warm.parked) } }),
    stiffnessSigma: structure.stiffnessSigma,
    layUps,
    assumed: [...structure.assumed, ...structure.assumedJoints],
    materials: [...new Set(layUps.flatMap(namesOf))].flatMap((name) => materialView(name, structure.strips)),
    readings: answer.readings.map((reading) => ({ ...reading })),
    warnings: [...limitWarnings(answer), ...report.warnings].map(({ message }) => message),
  };
}

export const answer: LaterJob<'limits'>['answer'] = async (_, ready, { central, inSlices, stages }) => {
  const verdict = central(ready);
  const found = await inSlices(limitSlices(verdict, stages));
  if (found === undefined) return undefined;
  return found.ok ? { kind: 'limits', view: limitsView(verdict, found.value) } : refusedAs(found);
};
