import { type DesignPart, partOfPath } from '../../core/field-place.js';

/** Whether a part shows a field: balance repeats where the battery lies. */
export const showsPath = (part: DesignPart, path: string): boolean =>
  partOfPath(path) === part ||
  (part === 'section' && /^surfaces\.[^.]+\.section(\.|$)/.test(path)) ||
  (part === 'balance' && /^battery\.(x|y|z|moves from|moves to|mass)$/.test(path));

/** Keys of a group that stand first and open; the others come when wanted, or when they are written. */
export const USUAL: Readonly<Record<string, readonly string[]>> = {
  surface: ['role', 'x', 'z', 'incidence', 'construction', 'section', 'stations', 'controls'],
  structure: ['core', 'skins', 'd box', 'spars', 'ribs', 'cells'],
  spar: ['kind', 'material', 'width', 'height', 'chord station', 'to', 'place'],
  layer: ['material', 'thickness', 'angle'],
  station: ['chord', 'leading edge', 'dihedral', 'twist'],
  control: ['kind', 'from', 'to', 'hinge', 'up', 'down'],
  body: ['length', 'width', 'height', 'x', 'z'],
  mass: ['mass', 'x', 'z', 'on'],
  row: ['on', 'side', 'from', 'to', 'chord station', 'cells'],
  string: ['converter', 'rows'],
  load: ['power', 'from', 'to', 'share'],
  drag: ['area', 'x'],
  flight: ['airspeed', 'bank', 'circle radius', 'height', 'stall factor', 'turbulence'],
  battery: ['cell', 'layout', 'capacity', 'mass', 'x', 'z', 'moves from', 'moves to', 'empty voltage'],
  motor: ['like', 'speed constant', 'resistance', 'no load current', 'x', 'z'],
  propeller: ['like', 'size'],
  'speed controller': ['resistance', 'current limit', 'low voltage cut'],
  drive: ['motor', 'propeller', 'speed controller', 'wiring resistance', 'down thrust'],
  array: ['cell', 'laid', 'lamination', 'dust', 'wiring resistance'],
  section: ['naca', 'library', 'file', 'plate'],
  plate: ['thickness', 'nose length', 'tail length', 'reflex', 'reflex from'],
  lamination: ['transmittance', 'areal mass', 'edge'],
  cell: ['like', 'length', 'width', 'mass'],
  converter: ['like', 'topology', 'efficiency', 'rated power', 'mass'],
  'level power': ['power', 'airspeed'],
};

const GROUPS: readonly (readonly [path: RegExp, group: keyof typeof USUAL])[] = [
  [/^surfaces\.[^.]+$/, 'surface'],
  [/\.stations\[\d+\]$/, 'station'],
  [/\.spars\.[^.]+$/, 'spar'],
  [/(skins?|layers)\[\d+\]$/, 'layer'],
  [/\.controls\.[^.]+$/, 'control'],
  [/^bodies\.[^.]+$/, 'body'],
  [/^masses\.[^.]+$/, 'mass'],
  [/^extra drag\.[^.]+$/, 'drag'],
  [/^loads\.[^.]+$/, 'load'],
  [/^array\.rows\.[^.]+$/, 'row'],
  [/^array\.strings\.[^.]+$/, 'string'],
  [/^array\.converters\.[^.]+$/, 'converter'],
];

/** Which list of usual keys counts for a group. */
export function usualKeys(path: string): readonly string[] | undefined {
  const group = GROUPS.find(([shape]) => shape.test(path))?.[1];
  return USUAL[group ?? path.slice(path.lastIndexOf('.') + 1)];
}

/** Keys of a group that another part of the place shows. */
export const keysElsewhere = (path: string): readonly string[] => (/^surfaces\.[^.]+$/.test(path) ? ['structure'] : []);
