import { factorLu, solveLu } from '../math/linear.js';

/** A strip of skin between two points of a face: stiffness along the span times its width, and in shear times its thickness. */
export interface SkinStrip {
  /** Front and rear end [m]. */
  readonly x1: number;
  readonly z1: number;
  readonly x2: number;
  readonly z2: number;
  /** Modulus times thickness [N/m] and shear modulus times thickness [N/m]. */
  readonly stretch: number;
  readonly shear: number;
}

/** A cell between two webs, or between the nose or tail and a web; strips from front to rear. */
export interface SkinCell {
  readonly upper: readonly SkinStrip[];
  readonly lower: readonly SkinStrip[];
}

/** A web between a cell and what lies behind it. */
export interface SectionWeb {
  readonly x: number;
  /** Heights of its ends, and of the caps there [m]. */
  readonly top: number;
  readonly bottom: number;
  readonly capTop: number;
  readonly capBottom: number;
  /** Modulus times area of each cap [N]. */
  readonly capStretch: number;
  /** Shear modulus times thickness [N/m]. */
  readonly shear: number;
}

/** Cells from front to rear, a web behind each but the last, or behind all of them where the tail is open. */
export interface ClosedSection {
  readonly cells: readonly SkinCell[];
  readonly webs: readonly SectionWeb[];
}

/** Shear flows of a section under an upward force of 1 N [1/m]: those of skins rearwards positive, of webs downwards. */
export interface SectionShear {
  readonly webs: readonly number[];
  /** In each strip of each cell. */
  readonly skins: readonly { readonly upper: readonly number[]; readonly lower: readonly number[] }[];
}

interface Flows {
  readonly upper: number[][];
  readonly lower: number[][];
  readonly webs: number[];
}

const widthOf = ({ x1, z1, x2, z2 }: SkinStrip): number => Math.hypot(x2 - x1, z2 - z1);

/** Stretching stiffness gathered at a point between strips, with its height. */
interface Boom {
  readonly stretch: number;
  readonly z: number;
}

const halves = (strips: readonly (SkinStrip | undefined)[], z: number): Boom => ({
  stretch: strips.reduce((sum, strip) => sum + (strip === undefined ? 0 : (strip.stretch * widthOf(strip)) / 2), 0),
  z,
});

/** Booms of a section: nose, inner points of each face, ends of webs, tail. */
function boomsOf({ cells, webs }: ClosedSection) {
  const inner = (strips: readonly SkinStrip[]) =>
    strips.slice(1).map((strip, i) => halves([strips[i], strip], strip.z1));
  const web = ({ capTop, capBottom, capStretch, top, bottom }: SectionWeb, i: number) => {
    const [ahead, behind] = [cells[i], cells[i + 1]];
    const end = (face: 'upper' | 'lower', z: number, cap: number): readonly Boom[] => [
      halves([ahead?.[face].at(-1), behind?.[face][0]], z),
      { stretch: capStretch, z: cap },
    ];
    return { top: end('upper', top, capTop), bottom: end('lower', bottom, capBottom) };
  };
  const [first, last] = [cells[0], cells[cells.length - 1]];
  const tail = [last.upper.at(-1), last.lower.at(-1)];
  return {
    nose: halves([first.upper[0], first.lower[0]], (first.upper[0].z1 + first.lower[0].z1) / 2),
    faces: cells.map(({ upper, lower }) => ({ upper: inner(upper), lower: inner(lower) })),
    webs: webs.map(web),
    tail: webs.length < cells.length ? halves(tail, ((tail[0]?.z2 ?? 0) + (tail[1]?.z2 ?? 0)) / 2) : undefined,
  };
}

type Booms = ReturnType<typeof boomsOf>;

const allBooms = ({ nose, faces, webs, tail }: Booms): readonly Boom[] => [
  nose,
  ...faces.flatMap(({ upper, lower }) => [...upper, ...lower]),
  ...webs.flatMap(({ top, bottom }) => [...top, ...bottom]),
  ...(tail === undefined ? [] : [tail]),
];

/**
 * Flows that equilibrium leaves, with the flow at the front of the upper skin of each cell given: upper and lower rearwards positive, webs downwards.
 * jump - of the flow at a boom
 */
function flowsWith(starts: readonly number[], { nose, faces, webs }: Booms, jump: (boom: Boom) => number): Flows {
  const along = (start: number, booms: readonly Boom[]): number[] => {
    const flows = [start];
    for (const boom of booms) flows.push(flows[flows.length - 1] + jump(boom));
    return flows;
  };
  const sum = (booms: readonly Boom[]) => booms.reduce((all, boom) => all + jump(boom), 0);
  const flows: Flows = { upper: [], lower: [], webs: [] };
  let below = jump(nose) - starts[0];
  for (const [i, { upper, lower }] of faces.entries()) {
    flows.upper.push(along(starts[i], upper));
    flows.lower.push(along(below, lower));
    const web = webs[i];
    if (web === undefined) continue;
    const down = flows.upper[i][upper.length] + sum(web.top) - (starts[i + 1] ?? 0);
    flows.webs.push(down);
    below = flows.lower[i][lower.length] + sum(web.bottom) + down;
  }
  return flows;
}

/** Integrals of flow over shear stiffness around each cell, and force up and moment of all flows about the origin. */
function resultants({ cells, webs }: ClosedSection, flows: Flows) {
  let [force, moment] = [0, 0];
  const add = (flow: number, [x1, z1, x2, z2]: readonly [number, number, number, number]) => {
    force += flow * (z2 - z1);
    moment += flow * (x1 * z2 - x2 * z1);
  };
  const turns = cells.map((cell, i) => {
    let turn = 0;
    for (const face of ['upper', 'lower'] as const)
      cell[face].forEach((strip, k) => {
        const flow = flows[face][i][k];
        add(flow, [strip.x1, strip.z1, strip.x2, strip.z2]);
        turn += ((face === 'upper' ? 1 : -1) * flow * widthOf(strip)) / strip.shear;
      });
    return turn;
  });
  webs.forEach(({ x, top, bottom, shear }, i) => {
    const down = flows.webs[i];
    add(down, [x, top, x, bottom]);
    const part = (down * (top - bottom)) / shear;
    turns[i] += part;
    if (i + 1 < turns.length) turns[i + 1] -= part;
  });
  return { turns, force, moment };
}

const areaOf = ({ upper, lower }: SkinCell): number => {
  const under = (strips: readonly SkinStrip[]) =>
    strips.reduce((sum, { x1, z1, x2, z2 }) => sum + ((x2 - x1) * (z1 + z2)) / 2, 0);
  return under(upper) - under(lower);
};

/**
 * Shear flow of a section of closed cells in a row under a vertical force: flow of the section cut open at the front of each upper skin, and closing
 * flows that give all cells one twist and the force its place.
 *
 * at - place of the force [m]
 * Bends about a horizontal neutral axis (product of inertia neglected), plane sections; webs carry no strain along the span of their own.
 * Returns undefined where the section cannot carry it. Source: shear of multi-cell sections, Megson, Aircraft Structures (from memory).
 */
export function sectionShear(section: ClosedSection, at: number): SectionShear | undefined {
  const { cells } = section;
  const booms = boomsOf(section);
  const all = allBooms(booms);
  const stretch = all.reduce((sum, boom) => sum + boom.stretch, 0);
  const middle = all.reduce((sum, boom) => sum + boom.stretch * boom.z, 0) / stretch;
  const bending = all.reduce((sum, boom) => sum + boom.stretch * (boom.z - middle) ** 2, 0);
  if (!(bending > 0)) return undefined;
  const n = cells.length;
  const none = new Array<number>(n).fill(0);
  const open = flowsWith(none, booms, (boom) => (-boom.stretch * (boom.z - middle)) / bending);
  const unit = none.map((_, i) =>
    flowsWith(
      none.map((_, k) => (k === i ? 1 : 0)),
      booms,
      () => 0,
    ),
  );
  const [own, each] = [resultants(section, open), unit.map((flows) => resultants(section, flows))];
  if (!(Math.abs(own.force) > 0.2)) return undefined;
  // Unknown: the flow at the front of each upper skin and the twist, which all cells share.
  const matrix = new Float64Array((n + 1) ** 2);
  const right = new Float64Array(n + 1);
  const size = Math.max(...each.map(({ moment }) => Math.abs(moment)));
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < n; k++) matrix[i * (n + 1) + k] = each[k].turns[i];
    matrix[i * (n + 1) + n] = (-2 * areaOf(cells[i]) * each[0].turns[0]) / size;
    right[i] = -own.turns[i];
    matrix[n * (n + 1) + i] = each[i].moment;
  }
  right[n] = at * own.force - own.moment;
  const lu = factorLu(matrix, n + 1);
  if (!lu.ok) return undefined;
  const found = solveLu(lu.value, right);
  const flows = flowsWith([...found.subarray(0, n)], booms, (boom) => (-boom.stretch * (boom.z - middle)) / bending);
  const perForce = (values: readonly number[]) => values.map((flow) => flow / own.force);
  return {
    webs: perForce(flows.webs),
    skins: cells.map((_, i) => ({ upper: perForce(flows.upper[i]), lower: perForce(flows.lower[i]) })),
  };
}
