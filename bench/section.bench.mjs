import { nacaSection } from '../packages/engine/dist/section/index.js';
import {
  prepareSection,
  sectionMesh,
  solveViscous,
  sweepPolar,
} from '../packages/engine/dist/section/viscous/index.js';
import { duration, exponentials, measure } from './measure.mjs';

const degree = Math.PI / 180;
const reynolds = [6e4, 1e5, 1.5e5, 2e5, 3e5, 5e5];
const points = 240;

/** A cambered section prepared for the flow about it. */
function prepared() {
  const section = nacaSection('3410');
  if (!section.ok) throw new Error(section.reason);
  const mesh = sectionMesh(section.value.outlineX, section.value.outlineY);
  if (!mesh.ok) throw new Error(mesh.reason);
  const made = prepareSection(mesh.value);
  if (!made.ok) throw new Error(made.reason);
  return made.value;
}

/** Flow about a section: one incidence from its neighbour, and polars at six Reynolds numbers. */
export default function section() {
  const yardstick = exponentials();
  const made = prepared();
  const at = (/** @type {number} */ alpha) => ({ alpha: alpha * degree, reynolds: 2e5, critical: 9 });
  const neighbour = solveViscous(made, at(4));
  if (!neighbour.ok) throw new Error(neighbour.reason);
  const warm = measure(() => solveViscous(made, at(4.5), neighbour.value.state)).median;
  const each = points / reynolds.length;
  // From 5 degrees below zero lift to near stall: what every lift of a flight asks for.
  const range = { lowest: -5 * degree, highest: 11 * degree, middle: 2 * degree, step: (16 / (each - 1)) * degree };
  let solved = 0;
  const all = measure(
    () => {
      solved = 0;
      for (const one of reynolds) {
        const polar = sweepPolar(made, { reynolds: one, critical: 9, ...range });
        solved += polar.points.length + polar.holes.length;
      }
    },
    { seconds: 1, least: 3 },
  ).median;
  return [
    duration('flow about a section at one incidence, from its neighbour', warm, { yardstick, budget: 25 }),
    duration(`${solved} points of polars at ${reynolds.length} Reynolds numbers (budget for ${points})`, all, {
      yardstick,
      budget: (5 * solved) / points,
      unit: 's',
    }),
  ];
}
