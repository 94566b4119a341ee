import { genericBladeSection, type SimpleBladeSection } from './bladeSection.js';
import type { PropellerGeometry } from './propellerGeometry.js';

/**
 * A few measured propellers, as few values as the checks need.
 * Source: Propeller Data Site of the University of Illinois; J. B. Brandt, M. S. Selig, AIAA 2011-1255 (vol. 1); R. W. Deters,
 * G. K. Ananda, M. S. Selig, AIAA 2014-2151 (vol. 2). Transcribed from public copies, not compared with the original files.
 */
interface PublishedPropeller {
  readonly name: string;
  /** [m] */
  readonly diameter: number;
  /** Chord over tip radius and blade angle [degree] at r/R = 0.15, 0.20 ... 1.00. */
  readonly chords: readonly number[];
  readonly angles: readonly number[];
}

const inch = 0.0254;

export const slowFlight10x47: PublishedPropeller = {
  name: 'slow flight 10 x 4.7 in',
  diameter: 10 * inch,
  chords: [
    0.109, 0.132, 0.156, 0.176, 0.193, 0.206, 0.216, 0.223, 0.226, 0.225, 0.219, 0.21, 0.197, 0.179, 0.157, 0.13, 0.087,
    0.042,
  ],
  angles: [
    21.11, 23.9, 24.65, 24.11, 22.78, 21.01, 19.0, 17.06, 15.33, 13.82, 12.51, 11.36, 10.27, 9.32, 8.36, 7.27, 6.15,
    5.04,
  ],
};

export const thinElectric10x5: PublishedPropeller = {
  name: 'thin electric 10 x 5 in',
  diameter: 10 * inch,
  chords: [
    0.13, 0.149, 0.173, 0.189, 0.197, 0.201, 0.2, 0.194, 0.186, 0.174, 0.16, 0.145, 0.128, 0.112, 0.096, 0.081, 0.061,
    0.041,
  ],
  angles: [
    32.76, 37.19, 33.54, 29.25, 25.64, 22.54, 20.27, 18.46, 17.05, 15.97, 14.87, 14.09, 13.39, 12.84, 12.25, 11.37,
    10.19, 8.99,
  ],
};

export const thinElectric10x7: PublishedPropeller = {
  name: 'thin electric 10 x 7 in',
  diameter: 10 * inch,
  chords: [
    0.138, 0.154, 0.175, 0.19, 0.198, 0.202, 0.2, 0.195, 0.186, 0.174, 0.161, 0.145, 0.129, 0.112, 0.096, 0.081, 0.061,
    0.04,
  ],
  angles: [
    37.86, 45.82, 44.19, 38.35, 33.64, 29.9, 27.02, 24.67, 22.62, 20.88, 19.36, 17.98, 16.74, 15.79, 14.64, 13.86,
    12.72, 11.53,
  ],
};

export const thinElectric19x12: PublishedPropeller = {
  name: 'thin electric 19 x 12 in',
  diameter: 19 * inch,
  chords: [
    0.112, 0.126, 0.141, 0.152, 0.158, 0.16, 0.159, 0.154, 0.147, 0.138, 0.127, 0.114, 0.102, 0.089, 0.077, 0.065,
    0.049, 0.032,
  ],
  angles: [
    34.11, 42.88, 40.83, 35.05, 30.43, 26.83, 23.97, 21.64, 19.73, 17.93, 16.26, 14.95, 13.81, 12.98, 12.19, 11.81,
    11.25, 10.66,
  ],
};

/** Section SDA1075. */
export const da4002: PublishedPropeller = {
  name: 'DA4002 9 x 6.75 in',
  diameter: 9 * inch,
  chords: [
    0.1198, 0.1128, 0.1436, 0.1689, 0.1775, 0.1782, 0.1773, 0.1782, 0.179, 0.1787, 0.1787, 0.1786, 0.1785, 0.179,
    0.1792, 0.1792, 0.1692, 0.0154,
  ],
  angles: [
    42.481, 44.647, 41.154, 37.475, 34.027, 30.549, 27.875, 25.831, 23.996, 22.396, 21.009, 19.814, 18.786, 17.957,
    17.245, 16.657, 13.973, 2.117,
  ],
};

/** Measured rows of the DA4002 near 5050 rpm: J, CT, CP; the first is static. */
export const da4002Rows: readonly (readonly [number, number, number])[] = [
  [0, 0.138747, 0.079026],
  [0.123969, 0.130239, 0.076611],
  [0.218201, 0.122901, 0.074731],
  [0.312083, 0.111528, 0.07277],
  [0.404401, 0.098328, 0.069457],
  [0.500784, 0.082563, 0.064268],
  [0.593765, 0.063821, 0.055666],
  [0.625372, 0.057435, 0.052418],
  [0.659234, 0.052166, 0.049923],
  [0.721506, 0.038378, 0.041691],
  [0.810712, 0.019905, 0.02884],
  [0.914534, -0.005644, 0.007598],
];

/** Geometry of a published propeller with a simple section of a stated zero-lift angle [rad]. */
export function publishedGeometry(
  propeller: PublishedPropeller,
  zeroLiftAngle = genericBladeSection.zeroLiftAngle,
): PropellerGeometry & { readonly section: SimpleBladeSection } {
  return {
    diameter: propeller.diameter,
    bladeCount: 2,
    section: { ...genericBladeSection, zeroLiftAngle },
    stations: propeller.chords.map((chordFraction, i) => ({
      radiusFraction: (3 + i) / 20,
      chordFraction,
      pitchAngle: (propeller.angles[i] * Math.PI) / 180,
    })),
  };
}
