import type { CutLayer, CutShape, LayUpPart, LayUpPlanData, PlanLine, Point, SectionCutData } from '@noonwing/drawing';
import { fixed } from '../../../core/decimal.js';
import type { LayerView, LayUpView, MaterialView, SparView } from '../../../core/view-limits-types.js';

/** Lengths in drawings of the lay-up are in mm: parts are bought and cut by it. */
const mm = { label: 'length', unit: 'mm' };
const millimetres = (metres: number): number => 1000 * metres;

/** '1.5 mm', '0.16 mm' */
const sizeText = (metres: number): string => {
  const value = millimetres(metres);
  return `${Number(value.toFixed(value < 0.995 ? 3 : value < 9.95 ? 1 : 0))} mm`;
};

const percent = (share: number): string => `${Number((100 * share).toFixed(1))} %`;

export interface LocalCut {
  readonly xLeadingEdge: number;
  readonly chord: number;
  /** Heights at a chord fraction [m]. */
  readonly upper: (share: number) => number;
  readonly lower: (share: number) => number;
  readonly shares: readonly number[];
}

/** Inner and outer end of a surface [m]. */
export const spanOf = ({ stations }: LayUpView): readonly [number, number] => [stations[0]!.y, stations.at(-1)!.y];

function valueAt(xs: readonly number[], ys: readonly number[], x: number): number {
  const last = xs.length - 1;
  if (x <= xs[0]!) return ys[0]!;
  if (x >= xs[last]!) return ys[last]!;
  const i = xs.findIndex((each) => each >= x);
  const [a, b] = [xs[i - 1]!, xs[i]!];
  return b > a ? ys[i - 1]! + ((ys[i]! - ys[i - 1]!) * (x - a)) / (b - a) : ys[i]!;
}

/** Section between stations, straight from one to the next, as the structure takes it. */
export function cutAt({ stations }: Pick<LayUpView, 'stations'>, y: number): LocalCut {
  let i = 0;
  while (i < stations.length - 2 && y > stations[i + 1]!.y) i++;
  const [a, b] = [stations[i]!, stations[i + 1]!];
  const f = Math.min(1, Math.max(0, (y - a.y) / (b.y - a.y)));
  const mix = (p: number, q: number) => p + (q - p) * f;
  const face = (of: 'upper' | 'lower') => (share: number) =>
    mix(a.chord * valueAt(a.at, a[of], share), b.chord * valueAt(b.at, b[of], share));
  return {
    xLeadingEdge: mix(a.xLeadingEdge, b.xLeadingEdge),
    chord: mix(a.chord, b.chord),
    upper: face('upper'),
    lower: face('lower'),
    shares: a.at,
  };
}

/** Size and place of a spar at a distance out; undefined beyond its ends. */
export function sparAt({ sizes }: SparView, y: number) {
  const [first, last] = [sizes[0], sizes.at(-1)];
  if (first === undefined || last === undefined || y < first.y - 1e-9 || y > last.y + 1e-9) return undefined;
  const ys = sizes.map((size) => size.y);
  const at = (of: 'chordFraction' | 'width' | 'depth') =>
    valueAt(
      ys,
      sizes.map((size) => size[of]),
      y,
    );
  return { chordFraction: at('chordFraction'), width: at('width'), depth: at('depth') };
}

const layerText = ({ material, thickness, angle }: LayerView): string => {
  const turn = Math.round((180 * angle) / Math.PI);
  return `${material}, ${sizeText(thickness)}${turn === 0 ? '' : ` at ${turn}°`}`;
};

const layersText = (layers: readonly LayerView[]): string => layers.map(layerText).join(' on ');

function sparText(spar: SparView): string {
  const [root, tip] = [spar.sizes[0]!, spar.sizes.at(-1)!];
  const size = ({ width, depth }: { readonly width: number; readonly depth: number }) =>
    spar.kind === 'tube'
      ? depth > 0
        ? `${sizeText(width).replace(' mm', '')}/${sizeText(depth)}`
        : sizeText(width)
      : `${sizeText(width).replace(' mm', '')} × ${sizeText(depth)}`;
  const kind = { tube: root.depth > 0 ? 'tube' : 'rod', strip: 'strip', caps: 'two caps' }[spar.kind];
  const what = spar.material.endsWith(kind) ? spar.material : `${kind} of ${spar.material}`;
  const ends = size(root) === size(tip) ? size(root) : `${size(root)} to ${size(tip)}`;
  const where =
    spar.kind === 'caps' || spar.place === 'middle'
      ? ''
      : `, ${spar.place === 'below' ? 'below the surface' : spar.place}`;
  return `${what}, ${ends}, at ${percent(root.chordFraction)} of the chord${where}`;
}

type JointView = LayUpView['joints'][number];

function jointText({ kind, material, width, height, depth, y }: JointView): string {
  const size =
    kind === 'tube' && height === 0
      ? sizeText(width)
      : `${sizeText(width).replace(' mm', '')}${kind === 'tube' ? '/' : ' × '}${sizeText(height)}`;
  const name = kind === 'tube' && height === 0 ? 'rod' : kind;
  const what = material.endsWith(name) ? material : `${name} of ${material}`;
  return `panels part ${Math.round(millimetres(y))} mm out, joined by a ${what}, ${size}, ${sizeText(depth)} in the socket of each`;
}

interface Numbered {
  readonly parts: readonly LayUpPart[];
  readonly numberOf: (key: string) => number;
}

/** Zones of both faces that are alike are one part. */
const zoneKey = ({ name, layers, from, to }: LayUpView['zones'][number]): string =>
  `zone ${name.replace(/^(upper|lower) /, '')} ${from} ${to} ${layersText(layers)}`;

/** What is known of a material's stiffness, in a word or two. */
function knownText(names: readonly string[], materials: readonly MaterialView[], tested: boolean): string {
  if (tested) return 'stiffness by load test';
  const found = names.flatMap((name) => materials.find((one) => one.name === name) ?? []);
  if (found.length === 0) return '';
  const [only] = found;
  if (found.length === 1 && only?.measured !== undefined)
    return `measured: ${percent(Math.round(100 * only.measured) / 100)} of the typical stiffness, ± ${percent(Math.round(100 * only.spread) / 100)}`;
  return `assumed: typical stiffness, ± ${percent(Math.round(100 * Math.max(...found.map(({ spread }) => spread))) / 100)}`;
}

/** All parts of a surface with a number each: core, skins, sheets, spars, webs, ribs, cells, controls, joints. */
export function numbered(view: LayUpView, materials: readonly MaterialView[]): Numbered {
  const parts: LayUpPart[] = [];
  const keys: string[] = [];
  const tested = Math.abs(view.bendingFactor - 1) > 1e-9 && Math.abs(view.torsionFactor - 1) > 1e-9;
  const add = (key: string, part: Omit<LayUpPart, 'number' | 'known'>, names: readonly string[] = []) => {
    if (keys.includes(key)) return;
    keys.push(key);
    const known = knownText(names, materials, tested);
    parts.push({ number: parts.length + 1, ...part, ...(known === '' ? {} : { known }) });
  };
  if (view.core !== undefined) add('core', { kind: 'core', label: 'core', detail: view.core }, [view.core]);
  for (const zone of view.zones) {
    if (zone.layers.length === 0) continue;
    const key = zoneKey(zone);
    const faces = view.zones.filter((other) => zoneKey(other) === key).length;
    const name = zone.name.replace(/^(upper|lower) /, '');
    const isSheet = zone.to < 0.999;
    const detail = `${layersText(zone.layers)}${isSheet ? `, to ${percent(zone.to)} of the chord` : ''}`;
    const label = faces > 1 ? `${name} of both faces` : zone.name;
    add(
      key,
      { kind: isSheet ? 'sheet' : 'skin', label, detail },
      zone.layers.map(({ material }) => material),
    );
  }
  for (const spar of view.spars) {
    add(`spar ${spar.name}`, { kind: 'spar', label: spar.name, detail: sparText(spar) }, [spar.material]);
    if (spar.web !== undefined)
      add(
        `web ${spar.name}`,
        { kind: 'web', label: `web of ${spar.name}`, detail: `${spar.web.material}, ${sizeText(spar.web.thickness)}` },
        [spar.web.material],
      );
  }
  const { ribs } = view;
  if (ribs !== undefined)
    add(
      'ribs',
      {
        kind: 'rib',
        label: 'ribs',
        detail: `${ribs.material}, ${sizeText(ribs.thickness)}, one every ${sizeText(ribs.spacing)}`,
      },
      [ribs.material],
    );
  for (const cell of view.cells) {
    const how = cell.glue === undefined ? 'bonded hard' : `floating on ${sizeText(cell.glue)} of soft glue`;
    add(`cells ${cell.name}`, {
      kind: 'cell',
      label: `cells, row ${cell.name}`,
      detail: `${sizeText(cell.thickness)} of silicon, ${how}`,
    });
  }
  for (const control of view.controls)
    add(`control ${control.name}`, {
      kind: 'control',
      label: control.name,
      detail: `hinge at ${percent(control.hinge)} of the chord`,
    });
  for (const joint of view.joints)
    add(`joint ${joint.name}`, { kind: 'joint', label: `joint ${joint.name}`, detail: jointText(joint) }, [
      joint.material,
    ]);
  for (const { name, y, breaks } of view.wires)
    add(`wire ${name}`, {
      kind: 'wire',
      label: `wire ${name}`,
      detail: `tied ${Math.round(millimetres(y))} mm out, to the middle below the wing, parts at ${breaks.toFixed(0)} N`,
    });
  return { parts, numberOf: (key) => keys.indexOf(key) + 1 };
}

const between = (y: number, { fromY, toY }: { readonly fromY: number; readonly toY: number }): boolean =>
  y >= fromY - 1e-9 && y <= toY + 1e-9;

/** Thickness of all layers of a face at a chord fraction [m]. */
const faceDepth = (view: LayUpView, face: 'upper' | 'lower', share: number): number =>
  view.zones
    .filter((zone) => zone.face === face && share >= zone.from && share <= zone.to)
    .reduce((sum, { layers }) => sum + layers.reduce((all, { thickness }) => all + thickness, 0), 0);

/** Joiners that a cut goes through, in the middle of the section. */
const joinersAt = ({ joints }: LayUpView, y: number): readonly JointView[] =>
  joints.filter((joint) => Math.abs(y - joint.y) <= joint.depth + 1e-9);

function joinerShape({ kind, width, height, chordFraction }: JointView, cut: LocalCut, number: number): CutShape {
  const at = {
    number,
    x: millimetres(chordFraction * cut.chord),
    z: millimetres((cut.upper(chordFraction) + cut.lower(chordFraction)) / 2),
  };
  return kind === 'tube'
    ? { form: 'tube', ...at, outer: millimetres(width), inner: millimetres(height) }
    : { form: 'box', ...at, width: millimetres(width), height: millimetres(height) };
}

function shapesOf(view: LayUpView, cut: LocalCut, y: number, numberOf: Numbered['numberOf']): readonly CutShape[] {
  return view.spars.flatMap((spar): readonly CutShape[] => {
    const size = sparAt(spar, y);
    if (size === undefined) return [];
    const u = size.chordFraction;
    const [top, bottom] = [cut.upper(u) - faceDepth(view, 'upper', u), cut.lower(u) + faceDepth(view, 'lower', u)];
    const x = millimetres(u * cut.chord);
    const number = numberOf(`spar ${spar.name}`);
    const box = (z: number, width: number, height: number, of = number): CutShape => ({
      form: 'box',
      number: of,
      x,
      z: millimetres(z),
      width: millimetres(width),
      height: millimetres(height),
    });
    if (spar.kind === 'caps') {
      const depth = Math.min(size.depth, 0.45 * Math.max(0, top - bottom));
      const web = spar.web;
      return [
        ...(web === undefined
          ? []
          : [
              box(
                (top + bottom) / 2,
                web.thickness,
                Math.max(0, top - bottom - 2 * depth),
                numberOf(`web ${spar.name}`),
              ),
            ]),
        box(top - depth / 2, size.width, depth),
        box(bottom + depth / 2, size.width, depth),
      ];
    }
    const height = spar.kind === 'tube' ? size.width : size.depth;
    const z = {
      middle: (top + bottom) / 2,
      upper: top - height / 2,
      lower: bottom + height / 2,
      below: cut.lower(u) - height / 2,
    }[spar.place];
    if (spar.kind === 'strip') return [box(z, size.width, size.depth)];
    return [
      { form: 'tube', number, x, z: millimetres(z), outer: millimetres(size.width), inner: millimetres(size.depth) },
    ];
  });
}

/** A cut through a surface at a distance from the middle [m]. */
export function sectionData(view: LayUpView, y: number, materials: readonly MaterialView[]): SectionCutData {
  const section = cutAt(view, y);
  const { parts, numberOf } = numbered(view, materials);
  const cut = cutHere(view, y, numberOf);
  const line = (of: (share: number) => number): readonly Point[] =>
    section.shares.map((share): Point => [millimetres(share * section.chord), millimetres(of(share))]);
  const along = (share: number) => millimetres(share * section.chord);
  const layers = view.zones.flatMap((zone): readonly CutLayer[] =>
    zone.layers.map(({ material, thickness }) => ({
      number: numberOf(zoneKey(zone)),
      face: zone.face,
      from: along(zone.from),
      to: along(zone.to),
      thickness: millimetres(thickness),
      ...(/foam/.test(material) ? { soft: true } : {}),
    })),
  );
  return {
    where: `${view.name}, ${Math.round(millimetres(y))} mm from the middle`,
    length: mm,
    upper: line(section.upper),
    lower: line(section.lower),
    ...(view.core === undefined ? {} : { core: numberOf('core') }),
    layers,
    shapes: [
      ...shapesOf(view, section, y, numberOf),
      ...joinersAt(view, y).map((joint) => joinerShape(joint, section, numberOf(`joint ${joint.name}`))),
    ],
    cells: view.cells
      .filter((cell) => between(y, cell))
      .map((cell) => ({
        number: numberOf(`cells ${cell.name}`),
        face: cell.face,
        from: along(cell.from),
        to: along(cell.to),
        thickness: millimetres(cell.thickness),
      })),
    hinges: view.controls
      .filter((control) => between(y, control))
      .map(({ name, hinge }) => ({ number: numberOf(`control ${name}`), x: along(hinge) })),
    // All of them, as the plan has the same numbers.
    parts: parts.map((part) => (cut.has(part.number) ? part : { ...part, detail: `${part.detail}; not cut here` })),
  };
}

/** Numbers of the parts that a cut shows. */
function cutHere(view: LayUpView, y: number, numberOf: Numbered['numberOf']): ReadonlySet<number> {
  const spars = view.spars.filter((spar) => sparAt(spar, y) !== undefined);
  return new Set([
    numberOf('core'),
    ...view.zones.map((zone) => numberOf(zoneKey(zone))),
    ...spars.flatMap(({ name }) => [numberOf(`spar ${name}`), numberOf(`web ${name}`)]),
    ...view.cells.filter((cell) => between(y, cell)).map(({ name }) => numberOf(`cells ${name}`)),
    ...view.controls.filter((control) => between(y, control)).map(({ name }) => numberOf(`control ${name}`)),
    ...joinersAt(view, y).map(({ name }) => numberOf(`joint ${name}`)),
  ]);
}

/** Distances out at which a plan has corners: stations, and the ends of what is drawn. */
function cuts(view: LayUpView, from: number, to: number): readonly number[] {
  const inside = view.stations.map(({ y }) => y).filter((y) => y > from + 1e-9 && y < to - 1e-9);
  return [from, ...inside, to];
}

/** The half from above, x aft of the datum and y to the right [mm]. at - where it is cut [m] */
export function planData(view: LayUpView, at: number | undefined, materials: readonly MaterialView[]): LayUpPlanData {
  const { parts, numberOf } = numbered(view, materials);
  const [root, tip] = spanOf(view);
  const point = (y: number, share: number): Point => {
    const { xLeadingEdge, chord } = cutAt(view, y);
    return [millimetres(xLeadingEdge + share * chord), millimetres(y)];
  };
  const patch = (number: number, ends: readonly [number, number], shares: readonly [number, number]): PlanLine => {
    const ys = cuts(view, ...ends);
    return {
      number,
      points: [...ys.map((y) => point(y, shares[0])), ...ys.toReversed().map((y) => point(y, shares[1]))],
    };
  };
  const sheets = view.zones.filter(({ to, layers }) => to < 0.999 && layers.length > 0);
  const { ribs } = view;
  const ribCount = ribs === undefined ? 0 : Math.min(200, Math.floor((tip - root) / ribs.spacing));
  return {
    surface: view.name,
    length: mm,
    outline: patch(0, [root, tip], [0, 1]).points,
    zones: sheets.map((zone) => patch(numberOf(zoneKey(zone)), [root, tip], [zone.from, zone.to])),
    cells: view.cells.map(({ name, fromY, toY, from, to }) =>
      patch(numberOf(`cells ${name}`), [fromY, toY], [from, to]),
    ),
    controls: view.controls.map(({ name, fromY, toY, hinge }) =>
      patch(numberOf(`control ${name}`), [fromY, toY], [hinge, 1]),
    ),
    ribs: Array.from({ length: ribCount }, (_, i) => {
      const y = root + (i + 1) * (ribs?.spacing ?? 0);
      return { number: numberOf('ribs'), points: [point(y, 0), point(y, 1)] };
    }).filter(({ points }) => points[0]![1] <= millimetres(tip)),
    spars: view.spars.map((spar) => ({
      number: numberOf(`spar ${spar.name}`),
      points: spar.sizes.map(({ y, chordFraction }) => point(y, chordFraction)),
    })),
    joints: view.joints.map((joint) => {
      const { y, depth, width, chordFraction } = joint;
      const [near, far] = [Math.max(root, y - depth), Math.min(tip, y + depth)];
      const edge = (at: number, side: number): Point => {
        const [x, out] = point(at, chordFraction);
        return [x + (side * millimetres(width)) / 2, out];
      };
      return {
        number: numberOf(`joint ${joint.name}`),
        split: [point(y, 0), point(y, 1)] as const,
        joiner: [edge(near, -1), edge(far, -1), edge(far, 1), edge(near, 1)],
      };
    }),
    wires: view.wires.map(({ name, x, y, bodyX }) => ({
      number: numberOf(`wire ${name}`),
      points: [
        [millimetres(bodyX), millimetres(root)],
        [millimetres(x), millimetres(y)],
      ],
    })),
    parts: parts.filter(({ kind }) => kind !== 'core' && kind !== 'skin' && kind !== 'web'),
    ...(at === undefined ? {} : { cut: [point(at, 0), point(at, 1)] as const }),
  };
}

/** How sure the stiffness is, in a sentence. */
export const sureWords = (sigma: number): string =>
  `The stiffness behind all of this is known to ± ${fixed(100 * sigma, 0)} % (standard uncertainty).`;
