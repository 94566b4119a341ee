import type { Point } from '../model.js';
import type {
  CellStrainData,
  LayUpPart,
  LayUpPlanData,
  LimitBandsData,
  SectionCutData,
  UnderLoadData,
} from '../structure/inputs.js';

/** An invented wing of foam with a spar, sheeting and cells, for tests of the drawings. */

export const limits: LimitBandsData = {
  aircraft: 'Alondra',
  speed: { label: 'airspeed', unit: 'm/s', decimals: 1 },
  limits: [
    {
      id: 'tuck',
      label: 'tuck',
      words: 'bent by its own speed it is pitched down',
      low: 11.2,
      value: 14.1,
      high: 17.8,
    },
    { id: 'flutter', label: 'flutter', words: 'first bend with turn of the elevon', low: 13, value: 18.5, high: 26 },
    {
      id: 'gust',
      label: 'gust',
      words: 'a gust of 7.6 m/s reaches 5.2 g: upper cap wrinkles',
      low: 20,
      value: 24,
      high: 28,
    },
    {
      id: 'loose',
      label: 'loose linkage',
      words: 'flutter of controls in their slop',
      low: 9,
      value: 12,
      high: 16,
      aside: true,
    },
  ],
  flown: [
    { label: 'flown', value: 8.4 },
    { label: 'least power', value: 7.6 },
    { label: 'best range', value: 10.1 },
  ],
  searchedTo: 50,
};

export const parts: readonly LayUpPart[] = [
  { number: 1, kind: 'core', label: 'core', detail: 'extruded polystyrene foam', known: 'typical, ± 40 %' },
  { number: 2, kind: 'skin', label: 'upper skin', detail: 'glass fabric with epoxy, 0.1 mm' },
  { number: 3, kind: 'sheet', label: 'D-box', detail: 'balsa, 1.5 mm, to 30 %' },
  { number: 4, kind: 'spar', label: 'main <spar>', detail: 'carbon tube 8/6 mm' },
  { number: 5, kind: 'web', label: 'web of the rear spar', detail: 'balsa, 3 mm' },
  { number: 6, kind: 'cell', label: 'cells of the front row', detail: 'floating on 0.3 mm of silicone' },
  { number: 7, kind: 'control', label: 'elevon', detail: 'hinge at 84 %' },
  { number: 8, kind: 'rib', label: 'ribs', detail: 'balsa, 2 mm, every 60 mm' },
  { number: 9, kind: 'joint', label: 'joint outer panel', detail: 'carbon tube, 10/8 mm, 80 mm in each half' },
];

const chord = 240;
const face = (side: 1 | -1): readonly Point[] =>
  Array.from({ length: 21 }, (_, i): Point => {
    const u = i / 20;
    return [u * chord, side * chord * 0.055 * Math.sqrt(Math.max(0, 4 * u * (1 - u) * (1.2 - u)))];
  });

export const cut: SectionCutData = {
  where: 'wing, 300 mm from the middle',
  length: { label: 'length', unit: 'mm' },
  upper: face(1),
  lower: face(-1),
  core: 1,
  layers: [
    { number: 2, face: 'upper', from: 0, to: chord, thickness: 0.1 },
    { number: 3, face: 'upper', from: 0, to: 72, thickness: 1.5 },
    { number: 3, face: 'lower', from: 0, to: 72, thickness: 1.5 },
  ],
  shapes: [
    { form: 'tube', number: 4, x: 72, z: 0, outer: 8, inner: 6 },
    { form: 'box', number: 5, x: 150, z: 0, width: 3, height: 12 },
    { form: 'box', number: 4, x: 150, z: 6, width: 10, height: 1 },
  ],
  cells: [{ number: 6, face: 'upper', from: 90, to: 190, thickness: 0.165 }],
  hinges: [{ number: 7, x: 202 }],
  ribs: 8,
  parts,
};

export const plan: LayUpPlanData = {
  surface: 'wing',
  length: { label: 'length', unit: 'mm' },
  outline: [
    [0, 0],
    [20, 700],
    [200, 700],
    [240, 0],
  ],
  zones: [
    {
      number: 3,
      points: [
        [0, 0],
        [20, 700],
        [74, 700],
        [72, 0],
      ],
    },
  ],
  cells: [
    {
      number: 6,
      points: [
        [90, 40],
        [90, 160],
        [190, 160],
        [190, 40],
      ],
    },
  ],
  controls: [
    {
      number: 7,
      points: [
        [202, 350],
        [188, 660],
        [205, 660],
        [232, 350],
      ],
    },
  ],
  ribs: [
    {
      number: 8,
      points: [
        [0, 60],
        [238, 60],
      ],
    },
    {
      number: 8,
      points: [
        [2, 120],
        [234, 120],
      ],
    },
  ],
  joints: [
    {
      number: 9,
      split: [
        [11, 400],
        [217, 400],
      ],
      joiner: [
        [69, 320],
        [69, 480],
        [79, 480],
        [79, 320],
      ],
    },
  ],
  spars: [
    {
      number: 4,
      points: [
        [72, 0],
        [74, 700],
      ],
    },
  ],
  parts,
  cut: [
    [8, 300],
    [224, 300],
  ],
};

const strip = (y: number) => {
  const f = y / 700;
  const rest = [0, 60, 120, 180, 240].map((x): Point => [x, 0.03 * y]);
  return { y, rest, bent: rest.map(([x, z]): Point => [x, z + 34 * f * f - (x / 240) * 6 * f]) };
};

export const load: UnderLoadData = {
  aircraft: 'Alondra',
  when: 'at 8.4 m/s and 2 g',
  length: { label: 'length', unit: 'mm' },
  exaggeration: 3,
  surfaces: [
    { id: 'wing', label: 'wing', mirrored: true, strips: [0, 100, 200, 300, 400, 500, 600, 700].map(strip) },
    { id: 'tail', label: 'tailplane', mirrored: true, strips: [0, 150, 250].map(strip) },
  ],
};

export const strain: CellStrainData = {
  aircraft: 'Alondra',
  when: 'at 8.4 m/s and 2 g',
  outlines: [
    [
      [0, -700],
      [0, 700],
      [240, 700],
      [240, -700],
    ],
  ],
  cells: Array.from({ length: 10 }, (_, i) => {
    const y = -650 + i * 130;
    return {
      id: `cell ${i}`,
      label: `cell ${i + 1} of the front row`,
      corners: [
        [60, y],
        [60, y + 125],
        [185, y + 125],
        [185, y],
      ] as readonly Point[],
      share: 0.12 + 0.23 * Math.min(i, 9 - i),
      chance: [0.02 * Math.min(i, 9 - i), 0.001, 0.3] as const,
    };
  }),
};
