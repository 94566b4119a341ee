import { type Outcome, type Problem, problem, success, type Warning } from '../result.js';
import { isSteep, spanPosition } from './planform.js';
import type { Body, ControlSurface, ControlTurning, LiftingSurface, Shape, Station } from './types.js';

const refuse = (code: string, where: string, reason: string, remedy: string): Problem =>
  problem({ code, reason, where, remedy });

function stationProblem(station: Station, where: string): Problem | undefined {
  const numbers = [station.y, station.xLeadingEdge, station.z, station.chord, station.twist];
  if (!numbers.every(Number.isFinite))
    return refuse('station-not-a-number', where, 'a coordinate is not a finite number', 'state every coordinate');
  if (!(station.chord > 0))
    return refuse('chord-not-positive', where, `the chord is ${station.chord} m`, 'state a chord greater than zero');
  if (Math.abs(station.twist) > Math.PI / 4)
    return refuse('twist-too-large', where, 'the incidence exceeds 45 degrees', 'check the unit of the twist');
  return undefined;
}

function spacingProblem(inner: Station, outer: Station, where: string): Problem | undefined {
  const dy = outer.y - inner.y;
  const dz = outer.z - inner.z;
  if (Math.hypot(dy, dz) < 1e-6)
    return refuse('stations-coincide', where, 'the station lies on the one before it', 'remove one of the two');
  if (dy < -1e-9)
    return refuse(
      'stations-crossed',
      where,
      `the station at y = ${outer.y} m follows the one at y = ${inner.y} m`,
      'list the stations from root to tip, y growing',
    );
  return undefined;
}

const rises = (list: readonly number[]): boolean =>
  list.length > 0 && list.every((value, i) => Number.isFinite(value) && (i === 0 || value > list[i - 1]));

const isTurning = ({ reynolds, deflections, ratio, spread }: ControlTurning): boolean =>
  rises(reynolds) &&
  reynolds[0] > 0 &&
  rises(deflections) &&
  [ratio, spread].every((list) => list.length === reynolds.length * deflections.length) &&
  ratio.every((value) => value > 0 && value < 2) &&
  spread.every((value) => value >= 0 && value < 2);

function controlProblem(surface: LiftingSurface, control: ControlSurface, where: string): Problem | undefined {
  const span = spanPosition(surface, surface.stations.length - 1);
  const root = spanPosition(surface, 0);
  if (!(control.toY > control.fromY))
    return refuse('control-without-span', where, 'it ends where it begins or before', 'state fromY less than toY');
  if (control.fromY < root - 1e-6 || control.toY > span + 1e-6)
    return refuse(
      'control-off-surface',
      where,
      `it spans ${control.fromY} to ${control.toY} m, the surface only ${root} to ${span} m`,
      'keep it between the first and the last station',
    );
  if (!(control.chordFraction > 0 && control.chordFraction <= 1))
    return refuse('control-chord', where, 'its chord fraction is not between 0 and 1', 'a common value is 0.25');
  if (!(control.effectiveness >= 0 && control.effectiveness <= 1.2))
    return refuse('control-effectiveness', where, 'its effectiveness is not between 0 and 1.2', 'use 0.8 if unknown');
  if (!((control.layerAhead ?? 0) >= 0 && (control.layerAhead ?? 0) <= 1))
    return refuse('control-layer', where, 'the loss by its layer is not between 0 and 1', 'use 0.6 if unknown');
  if (control.turning !== undefined && !isTurning(control.turning))
    return refuse('control-turning', where, 'its computed turning is not a table', 'leave it out, or compute it again');
  return undefined;
}

function surfaceProblem(surface: LiftingSurface): Problem | undefined {
  const { stations, name } = surface;
  if (stations.length < 2)
    return refuse('too-few-stations', name, 'a surface needs two stations', 'give the root and the tip');
  for (let i = 0; i < stations.length; i++) {
    const where = `${name}, station ${i + 1}`;
    const found =
      stationProblem(stations[i], where) ?? (i > 0 ? spacingProblem(stations[i - 1], stations[i], where) : undefined);
    if (found) return found;
  }
  for (let i = 1; i < stations.length; i++)
    if (isSteep(surface) && spanPosition(surface, i) <= spanPosition(surface, i - 1))
      return refuse(
        'stations-crossed',
        `${name}, station ${i + 1}`,
        'it lies nearer to the root than the one before it',
        'list the stations from root to tip, away from the root in one direction',
      );
  if (surface.kind === 'wing' && isSteep(surface))
    return refuse('wing-upright', name, 'a wing that stands upright carries no weight', 'call it a fin');
  if (surface.mirrored && stations[0].y < -1e-9)
    return refuse('station-left', name, 'a mirrored surface begins left of the centre', 'describe the right half');
  if (!surface.mirrored && stations.some((station) => Math.abs(station.y) > 1e-6))
    return refuse(
      'single-surface-off-centre',
      name,
      'a surface that is not mirrored must lie in the plane of symmetry',
      'mirror it, or set y to zero',
    );
  if (surface.mirrored && stations.some((station, i) => i > 0 && station.y < 1e-6))
    return refuse(
      'fin-on-itself',
      name,
      'a mirrored surface has a part in the plane of symmetry, where it would lie on its own image',
      'describe that part as a fin that is not mirrored',
    );
  for (const control of surface.controls) {
    const found = controlProblem(surface, control, `${name}, ${control.name}`);
    if (found) return found;
  }
  return undefined;
}

function bodyProblem(body: Body): Problem | undefined {
  const sizes = [body.length, body.width, body.height];
  if (sizes.every((size) => size > 0 && Number.isFinite(size)) && [body.x, body.z].every(Number.isFinite))
    return undefined;
  return refuse('body-size', body.name, 'a body needs a length, width and height above zero', 'state its size');
}

/** Two surfaces whose stations coincide, which is one surface described twice. */
function coincidence(shape: Shape): Problem | undefined {
  const near = (a: Station, b: Station) =>
    Math.hypot(a.y - b.y, a.z - b.z, a.xLeadingEdge - b.xLeadingEdge) < 0.1 * Math.min(a.chord, b.chord);
  const { surfaces } = shape;
  for (let i = 0; i < surfaces.length; i++)
    for (let j = 0; j < i; j++) {
      const [a, b] = [surfaces[i].stations, surfaces[j].stations];
      if (near(a[0], b[0]) && near(a[a.length - 1], b[b.length - 1]))
        return refuse(
          'surfaces-coincide',
          surfaces[i].name,
          `it lies where ${surfaces[j].name} lies`,
          'remove one of the two, or move it',
        );
    }
  return undefined;
}

function duplicateName(shape: Shape): string | undefined {
  const names = [
    ...shape.surfaces.map((surface) => surface.name),
    ...shape.surfaces.flatMap((surface) => surface.controls.map((control) => control.name)),
  ];
  return names.find((name, index) => names.indexOf(name) !== index);
}

function shapeWarnings(shape: Shape): Warning[] {
  return shape.surfaces
    .filter((surface) => surface.kind === 'wing' && surface.mirrored && surface.stations[0].y > 1e-3)
    .map((surface) => ({
      code: 'open-root',
      message: 'the wing begins beside the plane of symmetry; the gap carries no lift in the model',
      where: surface.name,
    }));
}

/**
 * Whether a shape can be computed: order of stations, positive chords, controls on their surface, names used once.
 *
 * shape - what to check
 * Returns the same shape with warnings, or the first problem with the part it is in and a remedy.
 */
export function checkShape(shape: Shape): Outcome<Shape> {
  for (const surface of shape.surfaces) {
    const found = surfaceProblem(surface);
    if (found) return found;
  }
  for (const body of shape.bodies) {
    const found = bodyProblem(body);
    if (found) return found;
  }
  if (!shape.surfaces.some((surface) => surface.kind === 'wing'))
    return refuse('no-wing', 'surfaces', 'no surface is of the kind wing', 'call the main surface a wing');
  const same = coincidence(shape);
  if (same) return same;
  const twice = duplicateName(shape);
  if (twice !== undefined)
    return refuse('name-used-twice', twice, `the name ${twice} is used twice`, 'give each surface and control its own');
  const bad = shape.parasites.find((item) => !(item.dragArea >= 0 && item.dragArea < Infinity));
  if (bad) return refuse('drag-area', bad.name, 'its drag area is not a positive number', 'state an area');
  return success(shape, shapeWarnings(shape));
}
