import type { ReactNode } from 'react';
import { brightest, lightColour, lightTicks } from './light-scale.js';
import styles from './view3d.module.css';
import { lightEnds, lightText } from './words.js';

const steps = 40;
const width = 320;
const left = 24;
const at = (light: number): number => left + (Math.min(brightest, Math.max(0, light)) / brightest) * width;

/** Colours of light on the cells, with marks at the most and the least lit ones. */
export function Legend({ light }: { readonly light: ArrayLike<number> | undefined }): ReactNode {
  const ends = light === undefined ? undefined : lightEnds(light);
  const marks = ends === undefined || light === undefined ? [] : [...new Set([light[ends.least]!, light[ends.most]!])];
  const range =
    marks.length === 0
      ? 'not computed yet'
      : `now ${[...new Set(marks.map((value) => lightText(value)))].join(' to ')}`;
  return (
    <figure className={styles.legend}>
      <figcaption>
        Light that gets into the cells [W/m²], {range}; {brightest} and more at the bright end
      </figcaption>
      <svg viewBox={`0 0 ${width + 2 * left} 40`} aria-hidden="true">
        {Array.from({ length: steps }, (_, i) => (
          <rect
            // biome-ignore lint/suspicious/noArrayIndexKey: a step is its place
            key={i}
            x={left + (i * width) / steps}
            y={10}
            width={width / steps + 0.5}
            height={12}
            fill={lightColour(((i + 0.5) * brightest) / steps)}
          />
        ))}
        <rect x={left} y={10} width={width} height={12} className="nw-f-none nw-s-edge" />
        {marks.map((value) => (
          <path key={value} d={`M${at(value)} 10l-5 -9h10Z`} className="nw-f-ink" />
        ))}
        {lightTicks.map((tick) => (
          <text key={tick} x={at(tick)} y={36} textAnchor="middle" className="nw-f-ink">
            {tick}
          </text>
        ))}
      </svg>
    </figure>
  );
}
