import type { Check } from '../check.js';
import { row } from './checkRow.js';
import { type SkinStrip, sectionShear } from './sectionShear.js';

const radius = 0.05;

/** Half of a thin round tube in strips of two degrees. */
const half = (side: 1 | -1): SkinStrip[] =>
  Array.from({ length: 90 }, (_, i): SkinStrip => {
    const [from, to] = [i, i + 1].map((k) => (Math.PI * k) / 90);
    return {
      x1: radius * (1 - Math.cos(from)),
      z1: side * radius * Math.sin(from),
      x2: radius * (1 - Math.cos(to)),
      z2: side * radius * Math.sin(to),
      stretch: 1e6,
      shear: 1e5,
    };
  });

/** Shear flow of closed sections. */
export const shearChecks: readonly Check[] = [
  row({
    id: 'shear-flow-round-tube',
    quantity: 'greatest shear flow of a thin round tube under a force S through its middle, q pi r / S',
    expected: 1,
    unit: '-',
    tolerance: 1e-3,
    why: 'strips of two degrees hold their mean',
    provenance: 'from memory',
    source: 'Megson, Aircraft Structures: q = S sin(theta) / (pi r)',
    calls: 'sectionShear',
    compute: () => {
      const flows = sectionShear({ cells: [{ upper: half(1), lower: half(-1) }], webs: [] }, radius);
      return flows === undefined ? Number.NaN : Math.abs(flows.skins[0].upper[0]) * Math.PI * radius;
    },
  }),
];
