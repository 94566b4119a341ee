import { cellStrain, type DrawOptions, shareText, underLoad } from '@noonwing/drawing';
import { type ReactNode, useCallback, useEffect, useMemo, useState } from 'react';
import { fixed, localDrawing, localNumbers } from '../../../core/decimal.js';
import { unitFor } from '../../../core/shown-quantity.js';
import type { LimitsView, UnderLoadView } from '../../../core/view-limits-types.js';
import { Figure, Panel, sentence, Tabs, useAppState, useComputeState, useServices } from '../../kit/index.js';
import kit from '../../kit/kit.module.css';
import { useVerdict } from '../../shell/hour.js';
import { shownIn } from '../chart-data.js';
import computed from '../computed.module.css';
import { NumberSlider } from '../number-slider.js';
import { Pending } from '../pending.js';
import { caseWords, cellStrainData, underLoadData } from './bent-data.js';
import { BentView } from './bent-view.js';
import styles from './structure.module.css';
import { useLimits } from './use-limits.js';

/** What loads do: the shape at a chosen airspeed and load factor, and how much each cell bears. */
export function LoadPanels(): ReactNode {
  const { view } = useLimits();
  const [chosen, setChosen] = useState<{ readonly airspeed?: number; readonly loadFactor: number }>({ loadFactor: 1 });
  const airspeed = view === undefined ? undefined : heldSpeed(chosen.airspeed ?? view.airspeed, view);
  const load = useUnderLoad(airspeed, chosen.loadFactor);
  if (view === undefined || airspeed === undefined) return null;
  const state: LoadState = { ...load, airspeed, loadFactor: chosen.loadFactor };
  return (
    <>
      <ShapePanel
        limits={view}
        state={state}
        onSpeed={(next) => setChosen({ ...chosen, airspeed: next })}
        onLoad={(loadFactor) => setChosen({ ...chosen, loadFactor })}
      />
      <CellsPanel state={state} />
    </>
  );
}

interface LoadState {
  readonly airspeed: number;
  readonly loadFactor: number;
  readonly view: UnderLoadView | undefined;
  readonly stale: boolean;
}

function useUnderLoad(airspeed: number | undefined, loadFactor: number) {
  const { compute } = useServices();
  useEffect(() => {
    if (airspeed !== undefined) compute.want({ underLoad: { airspeed, loadFactor } });
  }, [compute, airspeed, loadFactor]);
  useEffect(() => () => compute.want({ underLoad: null }), [compute]);
  const { view, stale } = useComputeState(({ channels }) => channels.underLoad);
  return { view, stale };
}

/** Airspeeds that can be looked at: from a crawl to just below where the wing diverges [m/s]. */
function speedRange({ limits, searchedTo, airspeed }: LimitsView): readonly [number, number] {
  const diverges = limits.find(({ kind }) => kind === 'divergence')?.airspeed ?? searchedTo;
  return [Math.min(0.5 * airspeed, 0.9 * diverges), Math.min(searchedTo, 0.98 * diverges)];
}

const heldSpeed = (airspeed: number, view: LimitsView): number => {
  const [least, most] = speedRange(view);
  return Math.min(most, Math.max(least, airspeed));
};

interface ShapeProps {
  readonly limits: LimitsView;
  readonly state: LoadState;
  readonly onSpeed: (airspeed: number) => void;
  readonly onLoad: (loadFactor: number) => void;
}

function ShapePanel({ limits, state, onSpeed, onLoad }: ShapeProps): ReactNode {
  const verdict = useVerdict();
  const said = useAppState((app) => app.preferences);
  const [times, setTimes] = useState(1);
  const [shown, setShown] = useState('views');
  const { view } = state;
  const shape = verdict?.shape;
  const aircraft = verdict?.aircraft ?? 'it';
  const data = useMemo(
    () =>
      view === undefined || shape === undefined ? undefined : underLoadData(shape, view, { aircraft, times, said }),
    [shape, view, aircraft, times, said],
  );
  const draw = useCallback((options: DrawOptions) => underLoad(data!, options), [data]);
  const finding =
    data === undefined ? 'Its shape under load is not known yet.' : localNumbers(underLoad(data, {}).text);
  return (
    <Panel level={3} title="What do loads do to its shape?" finding={finding}>
      <Chosen limits={limits} state={state} onSpeed={onSpeed} onLoad={onLoad} times={times} onTimes={setTimes} />
      <Pending channel="underLoad" what="Shape under load" />
      {view?.warnings.map((text) => (
        <p key={text}>
          <b>{localNumbers(sentence(`${text}.`))}</b>
        </p>
      ))}
      {data !== undefined && view !== undefined && (
        <div className={state.stale ? computed.old : undefined}>
          <Tabs
            label="How the shape is shown"
            tabs={[
              { id: 'views', label: 'Front and side' },
              { id: 'solid', label: 'In three dimensions' },
            ]}
            selected={shown}
            onSelect={setShown}
          >
            {shown === 'views' ? (
              <Figure id="under-load" draw={draw} words={false} />
            ) : (
              <>
                <div className={kit.onScreen}>
                  <BentView view={view} times={times} fallback={<Figure id="under-load" draw={draw} words={false} />} />
                </div>
                <OnPaper draw={draw} />
              </>
            )}
          </Tabs>
        </div>
      )}
    </Panel>
  );
}

/** Width of a drawing on paper [px of CSS]; common practice, no source. */
const paperWidth = 660;

/** On paper nothing can be turned: the drawn views stand in. */
function OnPaper({ draw }: { readonly draw: (options: DrawOptions) => { readonly svg: string } }): ReactNode {
  const svg = useMemo(() => draw({ id: 'under-load-paper', width: paperWidth }).svg, [draw]);
  return (
    <div
      className={kit.onPaper}
      // biome-ignore lint/security/noDangerouslySetInnerHtml: our own SVG, in which every word from data is escaped
      dangerouslySetInnerHTML={{ __html: localDrawing(svg) }}
    />
  );
}

function Chosen(props: ShapeProps & { readonly times: number; readonly onTimes: (times: number) => void }): ReactNode {
  const { limits, state, onSpeed, onLoad, times, onTimes } = props;
  const preferences = useAppState((app) => app.preferences);
  const speed = shownIn('speed', 'airspeed', 10, preferences);
  const one = speed.of(1);
  const [least, most] = speedRange(limits);
  return (
    <div className={computed.controls}>
      <NumberSlider
        label="Airspeed"
        unit={unitFor('speed', 10, preferences.units)}
        value={speed.of(state.airspeed)}
        least={speed.of(least)}
        most={speed.of(most)}
        step={0.1}
        onChange={(value) => onSpeed(value / one)}
      />
      <NumberSlider
        label="Load factor"
        unit="g"
        value={state.loadFactor}
        least={-3}
        most={10}
        step={0.1}
        onChange={onLoad}
      />
      <NumberSlider
        label="Displacements enlarged"
        unit="times"
        value={times}
        least={1}
        most={20}
        step={1}
        onChange={onTimes}
      />
    </div>
  );
}

/** How much each cell bears in this state. */
function CellsPanel({ state }: { readonly state: LoadState }): ReactNode {
  const verdict = useVerdict();
  const said = useAppState((app) => app.preferences);
  const { view } = state;
  const shape = verdict?.shape;
  const aircraft = verdict?.aircraft ?? 'it';
  const data = useMemo(
    () => (view === undefined || shape === undefined ? undefined : cellStrainData(shape, view, aircraft, said)),
    [shape, view, aircraft, said],
  );
  const draw = useCallback((options: DrawOptions) => cellStrain(data!, options), [data]);
  if (view === undefined || data === undefined) return null;
  if (data.cells.length === 0)
    return (
      <Panel
        level={3}
        title="What do the cells bear?"
        finding="No cell lies on a surface whose structure is described: what they bear is not known."
      />
    );
  return (
    <Panel level={3} title="What do the cells bear?" finding={localNumbers(cellFinding(view, draw({}).text))}>
      <div className={state.stale ? computed.old : undefined}>
        <Figure id="cell-strain" draw={draw} words={false} />
        <p className={styles.sources}>{localNumbers(strainWords(view, caseWords(view, said)))}</p>
      </div>
    </Panel>
  );
}

/** The chance of any crack, then the worst cell. */
export function cellFinding({ chance }: UnderLoadView, worst: string): string {
  if (chance === undefined) return worst;
  const [low, high] = [shareText(chance.low), shareText(chance.high)];
  const spread = low === high ? '' : `, between ${low} and ${high} by what is known of their strength`;
  return `Chance that any cell cracks: ${shareText(chance.value)}${spread}. ${worst}`;
}

/** Where the strain of the worst cell comes from. */
export function strainWords({ cells }: UnderLoadView, when: string): string {
  const worst = cells.reduce((most, cell) => (cell.share > most.share ? cell : most), cells[0]!);
  const flight = Math.max(0, worst.strain - worst.assembly);
  return `Worst strain ${fixed(100 * worst.strain, 3)} %: ${fixed(100 * worst.assembly, 3)} % from laying a flat cell on the curved surface, ${fixed(100 * flight, 3)} % more ${when}. Strength of usual cells: 150 MPa, Weibull modulus 8, from memory; edges chipped in handling are weaker.`;
}
