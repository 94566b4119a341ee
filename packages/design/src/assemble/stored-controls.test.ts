import { nacaSection } from '@noonwing/engine/section';
import { SOLVER_VERSION, type TurningRow, turningKey } from '@noonwing/engine/section/polars';
import { describe, expect, it } from 'vitest';
import { completeDesign } from '../complete/index.js';
import { readDesign } from '../read-files.js';
import { computedSections, eitherComputed } from './computed-sections.js';
import { neededControls, turningSettings } from './needed-controls.js';
import { polarStoreText, readStoredText } from './polars.js';
import { assembleShape } from './shape.js';

const made = nacaSection('0009');
if (!made.ok) throw new Error(made.reason);
const settings = turningSettings(0.7, 'tailplane');
const key = turningKey(made.value, settings);

/** States in which a deflection turns the flow by half of what thin-section theory gives for a flap of 30 %. */
const states = [-10, -5, 0, 5, 10].map((angle) => ({
  deflection: Number(((angle * Math.PI) / 180).toFixed(5)),
  alpha: Number(((-0.5 * 0.66075 * angle * Math.PI) / 180).toFixed(5)),
  drag: 0.012,
  moment: Number((0.001 - 0.003 * angle).toFixed(4)),
  hingeMoment: Number((0.001 - 0.0005 * angle).toFixed(5)),
}));
const rows: readonly TurningRow[] = [6e4, 2.4e5].map((reynolds) => ({ reynolds, free: states, tripped: states }));
const text = polarStoreText({}, {}, { [key]: { name: 'NACA 0009 with its elevator', rows } });

const DESIGN = `noonwing: design 1
name: one
surfaces:
  wing:
    role: wing
    section: NACA 2411
    stations:
      - {y: 0 mm, chord: 200 mm}
      - {y: 1000 mm, chord: 200 mm}
  tailplane:
    role: tailplane
    x: 900 mm
    section: NACA 0009
    stations:
      - {y: 0 mm, chord: 120 mm}
      - {y: 250 mm, chord: 120 mm}
    controls:
      elevator: {kind: elevator, hinge: 70.3 %}
`;

const aircraft = () => {
  const { design, messages } = readDesign(DESIGN);
  if (design === undefined) throw new Error(JSON.stringify(messages));
  return completeDesign(design).aircraft;
};

describe('controls in a store', () => {
  it('are read back as written; a store of before has none, and one of another solver loses them', () => {
    expect(readStoredText(text)?.controls?.[key]?.rows).toEqual(rows);
    expect(readStoredText(polarStoreText({}))).not.toHaveProperty('controls');
    expect(readStoredText(text.replace(`"solver": ${SOLVER_VERSION}`, '"solver": -1'))).not.toHaveProperty('controls');
  });

  it('are refused where they cannot be read', () => {
    for (const wrong of [
      text.replace('0.012', '-0.012'),
      text.replace('"reynolds":60000', '"reynolds":"slow"'),
      text.replace('"reynolds":240000', '"reynolds":50000'),
      text.replace('"free"', '"loose"'),
      text.replace('-0.17453', '0.3'),
    ])
      expect(readStoredText(wrong)).toBeUndefined();
  });

  it('of an aircraft are wanted by section and hinge to a hundredth, tails at no lift', () => {
    const needed = neededControls(aircraft(), {});
    if (!needed.ok) throw new Error(needed.reason);
    expect(needed.value).toMatchObject([{ key, name: 'NACA 0009 with its elevator', computable: true }]);
    expect(needed.value[0]!.settings).toMatchObject({ hinge: 0.7, lift: 0 });
  });

  it('give the controls of the shape their turning, from the first store that holds them', () => {
    const { surfaces, bodies, extraDrag } = aircraft();
    const stored = computedSections(readStoredText(text)!, 'store');
    const turningOf = (computed: typeof stored | undefined) => {
      const shape = assembleShape(surfaces, bodies, extraDrag, {}, computed === undefined ? {} : { computed });
      if (!shape.ok) throw new Error(shape.reason);
      return shape.value.shape.surfaces[1]!.controls[0]!.turning;
    };
    expect(turningOf(stored)?.ratio.every((ratio) => Math.abs(ratio - 0.5) < 1e-3)).toBe(true);
    expect(turningOf(eitherComputed(undefined, () => stored))).toBeDefined();
    expect(turningOf(undefined)).toBeUndefined();
    expect(turningOf(stored.inAir(5))).toBeUndefined();
  });
});
