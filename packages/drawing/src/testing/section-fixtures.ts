import type { LayerPictureData } from '../section/inputs.js';

const stations = [0, 1, 2.5, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100];
/** Half thickness of a section 12 % thick, by its formula (NACA Report 460, 1933). */
const half = (x: number): number => {
  const t = x / 100;
  return 60 * (0.2969 * Math.sqrt(t) - 0.126 * t - 0.3516 * t ** 2 + 0.2843 * t ** 3 - 0.1036 * t ** 4);
};

export const layer: LayerPictureData = {
  what: 'NACA 0012 at lift 0.50 and Reynolds number 200000',
  upper: stations.map((x) => [x, half(x)]),
  lower: stations.map((x) => [x, -half(x)]),
  above: [
    { kind: 'laminar', from: 0, to: 20 },
    { kind: 'bubble', from: 20, to: 40 },
    { kind: 'turbulent', from: 40, to: 92 },
    { kind: 'separated', from: 92, to: 100 },
  ],
  below: [{ kind: 'laminar', from: 0, to: 100 }],
  cells: { from: 10, to: 80 },
};
