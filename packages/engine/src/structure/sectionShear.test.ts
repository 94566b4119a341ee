import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ClosedSection, type SkinStrip, sectionShear } from './sectionShear.js';
import { loopShear } from './thinWalled.js';

/** Strips through points, all alike. */
const strips = (points: readonly (readonly [number, number])[], stretch: number, shear: number): SkinStrip[] =>
  points.slice(1).map(([x2, z2], i) => ({ x1: points[i]![0], z1: points[i]![1], x2, z2, stretch, shear }));

const radius = 0.05;
const round = (side: 1 | -1) =>
  Array.from({ length: 91 }, (_, i): readonly [number, number] => {
    const angle = (Math.PI * i) / 90;
    return [radius * (1 - Math.cos(angle)), side * radius * Math.sin(angle)];
  });
const tube: ClosedSection = {
  cells: [{ upper: strips(round(1), 1e6, 1e5), lower: strips(round(-1), 1e6, 1e5) }],
  webs: [],
};

/** Two equal cells with three webs; caps of one size at all six corners, skins between them that carry shear alone. */
function box([outer, middle, skin]: readonly [number, number, number], [b, h]: readonly [number, number]) {
  const cap = 1e6;
  const wall = (stretch: number, shear: number) => ({ stretch, shear });
  const flat = wall(0, skin);
  // Half of the stretch of an end wall lies at its corner, half in the middle of the height, where it has no arm.
  const end = wall((2 * cap) / (h / 2), outer);
  const face = (z: number): readonly [SkinStrip[], SkinStrip[]] => [
    [
      { x1: 0, z1: 0, x2: 0, z2: z, ...end },
      { x1: 0, z1: z, x2: b, z2: z, ...flat },
    ],
    [
      { x1: b, z1: z, x2: 2 * b, z2: z, ...flat },
      { x1: 2 * b, z1: z, x2: 2 * b, z2: 0, ...end },
    ],
  ];
  const [upper, lower] = [face(h / 2), face(-h / 2)];
  const web = { x: b, top: h / 2, bottom: -h / 2, capTop: h / 2, capBottom: -h / 2, capStretch: cap, shear: middle };
  return { cells: [0, 1].map((i) => ({ upper: upper[i]!, lower: lower[i]! })), webs: [web] } satisfies ClosedSection;
}

/** Force up and moment about the origin of all flows. */
function resultant({ cells, webs }: ClosedSection, flows: NonNullable<ReturnType<typeof sectionShear>>) {
  let [force, moment] = [0, 0];
  const add = (flow: number, x1: number, z1: number, x2: number, z2: number) => {
    force += flow * (z2 - z1);
    moment += flow * (x1 * z2 - x2 * z1);
  };
  cells.forEach((cell, i) => {
    for (const face of ['upper', 'lower'] as const)
      cell[face].forEach(({ x1, z1, x2, z2 }, k) => {
        add(flows.skins[i]![face][k]!, x1, z1, x2, z2);
      });
  });
  webs.forEach(({ x, top, bottom }, i) => {
    add(flows.webs[i]!, x, top, x, bottom);
  });
  return { force, moment };
}

describe('shear flow of closed cells', () => {
  it('of a thin round tube is S / (pi r) at half its height and nothing on top (textbook)', () => {
    const { upper } = sectionShear(tube, radius)!.skins[0]!;
    expect(Math.abs(upper[0]!) * Math.PI * radius).toBeCloseTo(1, 3);
    expect(Math.abs(upper.at(-1)!) * Math.PI * radius).toBeCloseTo(1, 3);
    expect(Math.abs(upper[45]!) * Math.PI * radius).toBeLessThan(0.02);
  });

  it('shares a force between three equal webs by thirds, and otherwise by twist alike in both cells (statics)', () => {
    const [b, h] = [0.1, 0.04];
    const thirds = sectionShear(box([1e5, 1e5, 2e5], [b, h]), b)!;
    expect(Math.abs(thirds.webs[0]!) * h).toBeCloseTo(1 / 3, 9);
    expect(Math.abs(thirds.skins[0]!.upper[0]!) * h).toBeCloseTo(1 / 3, 9);
    const [outer, middle, skin] = [1e5, 3e5, 2e5];
    const moved = ((1 / (3 * h)) * (h / outer - h / middle)) / (h / outer + (2 * h) / middle + (2 * b) / skin);
    const stiff = sectionShear(box([outer, middle, skin], [b, h]), b)!;
    expect(Math.abs(stiff.webs[0]!)).toBeCloseTo(1 / (3 * h) + 2 * moved, 6);
    expect(Math.abs(stiff.skins[0]!.upper[0]!)).toBeCloseTo(1 / (3 * h) - moved, 6);
  });

  it('of one cell is that of the loop which was solved apart, at its shear centre', () => {
    // A nose of half an ellipse with a straight rear wall, thicker below.
    const arc = (side: 1 | -1) =>
      Array.from({ length: 61 }, (_, i): readonly [number, number] => {
        const angle = (Math.PI / 2) * (i / 60);
        return [0.08 * (1 - Math.cos(angle)), side * 0.015 * Math.sin(angle)];
      });
    const [top, bottom] = [strips(arc(1), 2e6, 3e5), strips(arc(-1), 3e6, 5e5)];
    const rear = { stretch: 1e5, shear: 1e5 };
    const wall = { x1: 0.08, x2: 0.08 };
    const section: ClosedSection = {
      cells: [
        {
          upper: [...top, { ...wall, z1: 0.015, z2: 0, ...rear }],
          lower: [...bottom, { ...wall, z1: -0.015, z2: 0, ...rear }],
        },
      ],
      webs: [],
    };
    const backwards = bottom
      .map((strip) => ({ ...strip, x1: strip.x2, z1: strip.z2, x2: strip.x1, z2: strip.z1 }))
      .toReversed();
    const loop = loopShear([...top, { ...wall, z1: 0.015, z2: -0.015, ...rear }, ...backwards]);
    const { upper } = sectionShear(section, loop.shearCentre)!.skins[0]!;
    const most = Math.max(...loop.flow.map(Math.abs));
    upper.slice(0, 60).forEach((flow, k) => {
      // Strips hold their mean, the loop the ends: half a step apart.
      const mean = ((loop.flow[k - 1] ?? loop.flow.at(-1)!) + loop.flow[k]!) / 2;
      expect(Math.abs(flow - mean) / most).toBeLessThan(0.01);
    });
  });

  it('balances the force where it acts', () => {
    const place = fc.double({ min: -0.1, max: 0.3, noNaN: true });
    const shear = fc.double({ min: 1e4, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(place, shear, shear, shear, (at, outer, middle, skin) => {
        const section = box([outer, middle, skin], [0.1, 0.04]);
        const { force, moment } = resultant(section, sectionShear(section, at)!);
        expect(force).toBeCloseTo(1, 6);
        expect(moment).toBeCloseTo(at, 6);
      }),
      { numRuns: 40 },
    );
  });

  it('is not known where nothing carries bending', () => {
    const bare = tube.cells.map(({ upper, lower }) => ({
      upper: upper.map((strip) => ({ ...strip, stretch: 0 })),
      lower: lower.map((strip) => ({ ...strip, stretch: 0 })),
    }));
    expect(sectionShear({ cells: bare, webs: [] }, 0)).toBeUndefined();
  });
});
