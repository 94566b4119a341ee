import { type DrawOptions, layUpPlan, sectionCut } from '@noonwing/drawing';
import { type ReactNode, useCallback, useMemo, useState } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { LayUpView, LimitsView, MaterialView } from '../../../core/view-limits-types.js';
import { Disclosure, Figure, Panel, Select } from '../../kit/index.js';
import computed from '../computed.module.css';
import { NumberSlider } from '../number-slider.js';
import { planData, sectionData, spanOf, sureWords } from './lay-up-data.js';
import styles from './structure.module.css';
import { useLimits } from './use-limits.js';

/** What it is built of: a cut at a station, and the half from above. */
export function LayUpPanel(): ReactNode {
  const { view, stale } = useLimits();
  const [chosen, setChosen] = useState<string>();
  if (view === undefined) return null;
  const { layUps } = view;
  const shown = layUps.find(({ name }) => name === chosen) ?? layUps[0];
  const finding =
    shown === undefined
      ? 'The design says nothing of its structure yet: what is assumed stands under "What this rests on".'
      : sureWords(view.stiffnessSigma);
  return (
    <Panel level={3} title="What is it built of?" finding={finding}>
      {shown !== undefined && (
        <div className={stale ? computed.old : undefined}>
          {layUps.length > 1 && (
            <div className={computed.controls}>
              <Select
                label="Surface"
                value={shown.name}
                choices={layUps.map(({ name }) => ({ value: name, label: name }))}
                onChange={setChosen}
              />
            </div>
          )}
          <LayUp key={shown.name} layUp={shown} view={view} />
        </div>
      )}
    </Panel>
  );
}

function LayUp({ layUp, view }: { readonly layUp: LayUpView; readonly view: LimitsView }): ReactNode {
  const [root, tip] = spanOf(layUp);
  const [at, setAt] = useState(root + 0.25 * (tip - root));
  const y = Math.min(tip, Math.max(root, at));
  const { materials } = view;
  const cut = useMemo(() => sectionData(layUp, y, materials), [layUp, y, materials]);
  const plan = useMemo(() => planData(layUp, y, materials), [layUp, y, materials]);
  const drawCut = useCallback((options: DrawOptions) => sectionCut(cut, options), [cut]);
  const drawPlan = useCallback((options: DrawOptions) => layUpPlan(plan, options), [plan]);
  return (
    <>
      <div className={computed.controls}>
        <NumberSlider
          label="Cut at a distance from the middle"
          unit="mm"
          value={1000 * y}
          least={1000 * root}
          most={1000 * tip}
          step={5}
          onChange={(value) => setAt(value / 1000)}
        />
      </div>
      <Figure id="section-cut" draw={drawCut} words={false} />
      <Figure id="lay-up-plan" draw={drawPlan} words={false} />
      <Materials materials={materials} />
    </>
  );
}

/** Where the numbers of the materials come from. */
const Materials = ({ materials }: { readonly materials: readonly MaterialView[] }): ReactNode =>
  materials.length === 0 ? null : (
    <Disclosure title="Where the numbers of the materials come from">
      <ul>
        {materials.map(({ name, spread, source, measured }) => (
          <li key={name}>
            {localNumbers(
              measured === undefined
                ? `${name}: assumed, typical stiffness ± ${Math.round(100 * spread)} %; ${source}`
                : `${name}: measured, ${Math.round(100 * measured)} % of the typical stiffness ± ${Math.round(100 * spread)} %; ${source}`,
            )}
          </li>
        ))}
      </ul>
      <p className={styles.sources}>
        A strip bent on two supports, or a load test of the wing, puts measured stiffness in their place: write them
        down under Measure.
      </p>
    </Disclosure>
  );
