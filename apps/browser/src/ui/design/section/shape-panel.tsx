import { comparedCurves, type DrawOptions } from '@noonwing/drawing';
import { type ReactNode, useCallback, useEffect, useMemo, useState } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { OutlineView, SectionShapeView, SectionView } from '../../../core/view-section-types.js';
import { Button, Figure, Panel, useComputeState, useServices } from '../../kit/index.js';
import computed from '../computed.module.css';
import { NumberSlider } from '../number-slider.js';
import { Pending } from '../pending.js';
import { outlineData } from './outline-data.js';
import { flatsOf, shapeWords } from './shape-words.js';
import { UsePoints } from './use-points.js';

/** As the sliders stand; per cent of the chord, the place of thickness as a share of the way. */
interface Tried {
  readonly thickness: number;
  readonly shift: number;
  readonly bow: number;
  readonly lead: number;
  readonly tail: number;
  /** As many as cells on the section make now where absent. */
  readonly flats?: number;
}

const startOf = (view: SectionView): Tried => ({
  thickness: 100 * view.thickness,
  shift: 0,
  bow: 0,
  lead: 0,
  tail: 0,
});

function useShape(view: SectionView, edge: number, tried: Tried) {
  const { compute } = useServices();
  const isStart = JSON.stringify(tried) === JSON.stringify(startOf(view));
  const { thickness, shift, bow, lead, tail, flats = flatsOf(view) } = tried;
  useEffect(() => {
    // 4 x (1 - x) is 1 at its top: a camber of one per cent is a bow of four.
    const morph = {
      thickness: thickness / (100 * view.thickness),
      shift,
      bow: (4 * bow) / 100,
      lead: lead / 100,
      tail: tail / 100,
    };
    compute.want({ sectionShape: isStart ? null : { edge, flats, morph } });
  }, [compute, edge, isStart, thickness, shift, bow, lead, tail, flats, view.thickness]);
  useEffect(() => () => compute.want({ sectionShape: null }), [compute]);
  const state = useComputeState(({ channels }) => channels.sectionShape);
  return { ...state, view: isStart ? undefined : state.view };
}

interface Props {
  readonly view: SectionView;
  readonly edge: number;
}

/** Another thickness, camber and layout of flats: what it does to drag at the design point, and to the moment. */
export default function ShapePanel({ view, edge }: Props): ReactNode {
  const [tried, setTried] = useState<Tried>(() => startOf(view));
  const shape = useShape(view, edge, tried);
  const set = (change: Partial<Tried>) => setTried({ ...tried, ...change });
  const slider = (key: keyof Tried, label: string, unit: string, least: number, most: number, step: number) => (
    <NumberSlider
      label={label}
      unit={unit}
      value={tried[key] ?? flatsOf(view)}
      least={least}
      most={most}
      step={step}
      onChange={(value) => set({ [key]: value })}
    />
  );
  const start = useMemo(() => ({ ...(view.cost ?? view), name: 'now' }), [view]);
  const found = shape.view;
  return (
    <Panel
      level={3}
      title="What would another shape do?"
      finding={
        found === undefined
          ? 'Move a slider: drag and moment at the design point are computed for the other shape.'
          : localNumbers(shapeWords(view, found))
      }
    >
      <Pending channel="sectionShape" what="Flow about the other shape" />
      <div className={computed.controls}>
        {slider('thickness', 'Thickness', '%', 4, 20, 0.5)}
        {slider('shift', 'Thickness further forward (1) or aft (-1)', '', -0.6, 0.6, 0.05)}
        {slider('bow', 'Camber added', '%', -3, 3, 0.25)}
        {slider('lead', 'Camber moved forward, rear reflexed', '%', -10, 10, 1)}
        {slider('tail', 'Trailing edge thicker', '%', 0, 2, 0.1)}
        {view.cells !== undefined && slider('flats', 'Flats under the cells; 0: they follow the curve', '', 0, 8, 1)}
      </div>
      {found !== undefined && (
        <div className={shape.stale ? computed.old : undefined}>
          <ShapeFigure start={start} found={found} />
          <UsePoints name={`${view.name} reshaped`} surface={view.surface} x={found.x} y={found.y} />
          <Button kind="quiet" onPress={() => setTried(startOf(view))}>
            Back to the section as it is
          </Button>
        </div>
      )}
    </Panel>
  );
}

function ShapeFigure({
  start,
  found,
}: {
  readonly start: OutlineView & { readonly name: string };
  readonly found: SectionShapeView;
}) {
  const data = useMemo(
    () => outlineData('How does the other shape look?', { ...found.drawn, name: 'tried' }, start),
    [start, found],
  );
  const draw = useCallback((options: DrawOptions) => comparedCurves(data, options), [data]);
  return <Figure id="section-shape" draw={draw} />;
}
