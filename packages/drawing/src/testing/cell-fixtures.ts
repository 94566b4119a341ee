import type { CellPictureData, Point, ShadeCourseData, StringCurveData } from '../index.js';

const square = (aft: number, across: number): readonly Point[] => [
  [aft, across],
  [aft, across + 125],
  [aft + 125, across + 125],
  [aft + 125, across],
];

/** Invented. */
export const picture: CellPictureData = {
  aircraft: 'Alondra',
  when: 'over 21 June under a clear sky',
  value: { label: 'energy', unit: 'Wh', decimals: 1 },
  sheets: [
    {
      label: 'wing, from above',
      outlines: [
        [
          [0, -900],
          [0, 900],
          [260, 900],
          [260, -900],
        ],
      ],
      cells: Array.from({ length: 12 }, (_, i) => ({
        id: `${i}`,
        label: `cell ${i + 1} of top`,
        corners: square(60, -800 + 132 * i),
        value: [19.4, 19.2, 18.9, 18.1, 16, 12][Math.min(i, 11 - i)]!,
        string: i < 6 ? 1 : 2,
        position: i % 6,
        ...(i === 8 ? { bypassed: true } : {}),
      })),
      walls: [
        {
          name: 'fin',
          line: [
            [120, 0],
            [260, 0],
          ],
        },
      ],
    },
  ],
  selected: '3',
  marked: ['0', '1'],
  strings: [
    { name: 'left', cells: 6, diodes: [] },
    { name: 'right', cells: 6, diodes: [0, 2, 4].map((from) => ({ from, to: from + 2 })) },
  ],
};

const volts = Array.from({ length: 60 }, (_, k) => k * 0.16);
const amps = (voltage: number) => Math.max(0, (voltage < 6 ? 5.6 : 2.9) * (1 - ((voltage - 0.2) / 9.3) ** 14));

/** Invented. */
export const curve: StringCurveData = {
  name: 'all',
  when: 'at 11:30, heading east',
  points: volts.map((voltage) => ({ voltage, current: amps(voltage), power: voltage * amps(voltage) })),
  maxima: [
    { voltage: 5.9, power: 33 },
    { voltage: 8.2, power: 20 },
  ],
  held: { voltage: 5.9, power: 32.6, because: 'the light on the cells' },
  cells: 49,
  conducting: [2],
};

const hours = Array.from({ length: 29 }, (_, k) => 6 + k / 2);

/** Invented. */
export const shade: ShadeCourseData = {
  when: 'on 21 June',
  curves: [
    { id: 'all', label: 'all cells', points: hours.map((hour): Point => [hour, 0.1 * (hour - 13) ** 2 * 0.5]) },
    { id: 'one', label: 'cell 3', points: hours.map((hour): Point => [hour, 0.4 * Math.abs(hour - 13)]) },
  ],
  cursor: 11.5,
};
