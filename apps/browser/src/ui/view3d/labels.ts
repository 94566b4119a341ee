import { hourText } from '@noonwing/drawing';
import type { BalanceView, ShapeView } from '../../core/view.js';
import { type Attitude, skyToScene, turnedToScene, type Vector } from './frames.js';
import type { Label } from './overlay.js';
import type { SunPath } from './sun-path.js';
import { sunAngles } from './words.js';

/** A label with its place in the scene; the aircraft's middle is at the origin. */
export interface PlacedLabel {
  readonly label: Label;
  readonly at: Vector;
}

export interface Marked {
  readonly shape: ShapeView;
  readonly balance: BalanceView | undefined;
  readonly path: SunPath;
  readonly sun: Vector | undefined;
  readonly attitude: Attitude;
  /** Middle of the aircraft in the frame of geometry [m]. */
  readonly middle: Vector;
  /** Of the sky; height of the ground below the origin [m]. */
  readonly radius: number;
  readonly drop: number;
}

const finite = (point: Vector): boolean => point.every(Number.isFinite);

/** Balance point, neutral point and battery. */
function aircraftLabels({ shape, balance, attitude, middle }: Marked): readonly PlacedLabel[] {
  const place = ([x, y, z]: Vector) => turnedToScene([x - middle[0], y - middle[1], z - middle[2]], attitude);
  const found: PlacedLabel[] = [];
  if (balance !== undefined) {
    const { x, y, z } = balance.balancePoint;
    found.push({
      label: {
        id: 'balance',
        gap: 64,
        text: 'balance point (CG)',
        glyph: 'balance',
        kept: true,
        sides: ['above', 'left', 'below'],
      },
      at: place([x, y, z]),
    });
    // It is a station: drawn at the height of the balance point, so that the distance between them is the static margin.
    found.push({
      label: {
        id: 'neutral',
        gap: 64,
        text: 'neutral point',
        glyph: 'neutral',
        kept: true,
        sides: ['below', 'right', 'above'],
      },
      at: place([balance.neutralPoint, 0, z]),
    });
  }
  if (shape.battery !== undefined) {
    const { x, y, z } = shape.battery;
    found.push({
      label: { id: 'battery', gap: 24, text: 'battery', glyph: 'battery', sides: ['left', 'below', 'above', 'right'] },
      at: place([x, y, z]),
    });
  }
  return found.filter(({ at }) => finite(at));
}

/** The sun itself, full hours along its way, rise and set. */
function sunLabels({ path, sun, radius }: Marked): readonly PlacedLabel[] {
  const at = (direction: Vector, scale: number): Vector => {
    const [x, y, z] = skyToScene(direction);
    return [x * scale * radius, y * scale * radius, z * scale * radius];
  };
  const found: PlacedLabel[] = [];
  if (sun !== undefined && sun[2] > 0) {
    const height = Math.round((sunAngles(sun).elevation * 180) / Math.PI);
    found.push({
      label: {
        id: 'sun',
        text: `sun, ${height}° high`,
        gap: 16,
        kept: true,
        sides: ['right', 'left', 'above', 'below'],
      },
      at: at(sun, 1),
    });
  }
  const end = (id: string, spot: SunPath['spots'][number] | undefined, word: string) => {
    if (spot === undefined) return;
    const label: Label = {
      id,
      text: `${word} ${hourText(spot.hour % 24)}`,
      sides: ['on', 'below', 'left', 'right'],
      tone: 'soft',
    };
    found.push({ label, at: at(spot.direction, 1.14) });
  };
  if (path.rises) end('rise', path.spots[0], 'sunrise');
  if (path.sets) end('set', path.spots.at(-1), 'sunset');
  for (const { hour, direction } of path.hours) {
    if (hour % 3 !== 0) continue;
    const label: Label = {
      id: `hour ${hour}`,
      text: hourText(hour % 24),
      sides: ['on', 'above', 'right', 'left'],
      tone: 'soft',
    };
    found.push({ label, at: at(direction, 1.09) });
  }
  return found;
}

/** Points of the compass and the heading, on the ground. */
function groundLabels({ radius, drop, attitude }: Marked): readonly PlacedLabel[] {
  const at = (bearing: number, scale: number): Vector => [
    Math.sin(bearing) * radius * scale,
    -drop,
    -Math.cos(bearing) * radius * scale,
  ];
  const degrees = ((Math.round((attitude.heading * 180) / Math.PI) % 360) + 360) % 360;
  const points = (['N', 'E', 'S', 'W'] as const).map((text, i): PlacedLabel => {
    const label: Label = { id: text, text, kept: text === 'N', sides: ['on'] };
    return { label, at: at((i * Math.PI) / 2, 1.07) };
  });
  const label: Label = {
    id: 'heading',
    text: `heading ${degrees}°`,
    sides: ['on', 'above', 'below'],
    tone: 'soft',
  };
  return [...points.slice(0, 1), { label, at: at(attitude.heading, 1.12) }, ...points.slice(1)];
}

/** All words of the picture in order of weight. */
export const labelsOf = (marked: Marked): readonly PlacedLabel[] => [
  ...aircraftLabels(marked),
  ...sunLabels(marked),
  ...groundLabels(marked),
];
