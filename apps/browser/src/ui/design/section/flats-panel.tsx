import { comparedCurves, type DrawOptions } from '@noonwing/drawing';
import { type ReactNode, useCallback, useEffect, useMemo, useState } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { FlatsView, SectionView } from '../../../core/view-section-types.js';
import { Button, Figure, Panel, useComputeState, useServices } from '../../kit/index.js';
import computed from '../computed.module.css';
import { NumberSlider } from '../number-slider.js';
import { Pending } from '../pending.js';
import { outlineData } from './outline-data.js';
import { flatsWords } from './shape-words.js';
import { UsePoints } from './use-points.js';

/** A search of some twenty seconds is not begun again by every edit: its wish is taken back once it is answered. */
function useFlats() {
  const { compute } = useServices();
  const state = useComputeState(({ channels }) => channels.flats);
  const isDone = state.status.kind === 'idle' && state.view !== undefined && !state.stale;
  useEffect(() => {
    if (isDone) compute.want({ flats: null });
  }, [compute, isDone]);
  useEffect(() => () => compute.want({ flats: null }), [compute]);
  return state;
}

/** Width of a cell along the chord [m]; a quarter of the chord where there are no cells. */
const cellOf = ({ cells, chord }: SectionView): number => (cells?.width ?? 0.25) * chord;

interface Props {
  readonly view: SectionView;
  readonly edge: number;
}

/** A section laid out for flat cells: limits, search with progress, what it gains, and its way into the design. */
export default function FlatsPanel({ view, edge }: Props): ReactNode {
  const { compute } = useServices();
  const { view: found, stale, status } = useFlats();
  const [cell, setCell] = useState(1000 * cellOf(view));
  const most = Math.max(1, Math.floor((0.94 * view.chord * 1000) / cell));
  const [count, setCount] = useState(most);
  const [moment, setMoment] = useState(view.bare?.moment ?? -0.08);
  const [thickness, setThickness] = useState(100 * view.thickness);
  const isBusy = status.kind === 'running' || status.kind === 'waiting';
  const begin = () => {
    const leastThickness = thickness / 100;
    const wish = { edge, cell: cell / 1000, count: Math.min(count, most), leastMoment: moment, leastThickness };
    compute.want({ flats: null });
    compute.want({ flats: wish });
  };
  const words = found === undefined ? [] : flatsWords(found);
  return (
    <Panel
      level={3}
      title="A shape for flat cells"
      finding={
        words[0] === undefined
          ? 'Flats, thickness and camber are laid out for least drag under flat cells in level flight.'
          : localNumbers(`${stale ? 'Before the last change: ' : ''}${words[0]}`)
      }
    >
      <div className={computed.controls}>
        <NumberSlider
          label="Width of a flat cell along the chord"
          unit="mm"
          value={cell}
          least={10}
          most={Math.round(900 * view.chord)}
          step={1}
          onChange={setCell}
        />
        <NumberSlider
          label="Flats one behind the other"
          unit=""
          value={Math.min(count, most)}
          least={1}
          most={most}
          step={1}
          onChange={setCount}
        />
        <NumberSlider
          label="Moment not to be passed downwards"
          unit=""
          value={moment}
          least={-0.2}
          most={0.05}
          step={0.005}
          onChange={setMoment}
        />
        <NumberSlider
          label="Least thickness"
          unit="%"
          value={thickness}
          least={5}
          most={20}
          step={0.5}
          onChange={setThickness}
        />
      </div>
      <Pending channel="flats" what="Section for flat cells" />
      <div className={computed.controls}>
        <Button kind="main" disabled={isBusy} hint="Some 200 shapes: half a minute or so" onPress={begin}>
          Lay it out
        </Button>
      </div>
      {found !== undefined && (
        <div className={stale ? computed.old : undefined}>
          <ul className={computed.lines} aria-label="What it gains">
            {words.slice(1).map((text) => (
              <li key={text}>{localNumbers(text)}</li>
            ))}
          </ul>
          <FlatsFigure found={found} />
          <UsePoints name={found.name} surface={view.surface} x={found.x} y={found.y} />
        </div>
      )}
    </Panel>
  );
}

function FlatsFigure({ found }: { readonly found: FlatsView }): ReactNode {
  const data = useMemo(
    () =>
      outlineData(
        'Which shape suits flat cells?',
        { x: found.x, y: found.y, name: 'laid out' },
        { ...found.naive, name: 'start' },
      ),
    [found],
  );
  const draw = useCallback((options: DrawOptions) => comparedCurves(data, options), [data]);
  return <Figure id="section-flats" draw={draw} />;
}
