import { CELL_EDGE } from '@noonwing/design';
import { comparedCurves, type DrawOptions, layerPicture } from '@noonwing/drawing';
import { type ReactNode, useCallback, useEffect, useMemo, useState } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import { sameData } from '../../../core/patch.js';
import type { SectionView } from '../../../core/view-section-types.js';
import { Figure, Panel, Select, Tabs, useComputeState, useServices } from '../../kit/index.js';
import computed from '../computed.module.css';
import styles from '../design.module.css';
import { DesignField } from '../field.js';
import { NumberSlider } from '../number-slider.js';
import { Pending } from '../pending.js';
import { useDesignReading } from '../use-design.js';
import FlatsPanel from './flats-panel.js';
import { useKeptPoints } from './kept-points.js';
import MeasuredPanel, { type Measured } from './measured-panel.js';
import { layerData, type PolarQuestion, polarData, pressureData, questions } from './section-data.js';
import {
  cautionWords,
  costWords,
  dragWords,
  edgeWords,
  layerWords,
  plateWords,
  pointWords,
  thousands,
} from './section-words.js';
import ShapePanel from './shape-panel.js';

function useSection(edge: number, rigid: boolean, measured: Measured | undefined) {
  const { compute } = useServices();
  const points = measured?.points;
  useEffect(() => {
    compute.want({ section: { edge, rigid, ...(points === undefined ? {} : { measured: points }) } });
  }, [compute, edge, rigid, points]);
  useEffect(() => () => compute.want({ section: null }), [compute]);
  return useComputeState(({ channels }) => channels.section);
}

/** Points that were chosen here, or that the project keeps for the section that is shown. */
function useMeasured() {
  const [last, setLast] = useState<{ readonly key: string | undefined; readonly points: Measured | undefined }>();
  const kept = useKeptPoints();
  const key = useComputeState(({ channels }) => channels.section.view?.key);
  // Points belong to the section that they were chosen for.
  const chosen = last?.key === key ? last?.points : undefined;
  const choose = (points: Measured | undefined) => setLast({ key, points });
  const own = key === undefined ? undefined : kept[key];
  const flying = useMemo(() => own && { name: own.source, points: own.points, notes: [] }, [own]);
  const same = flying !== undefined && (chosen === undefined || sameData(chosen.points, flying.points));
  return { measured: same ? (chosen ?? flying) : chosen, flown: same, choose };
}

/** What covering costs, what the layer does, the polars, and the fields of the section. */
export default function SectionPart(): ReactNode {
  const { aircraft } = useDesignReading();
  const [edge, setEdge] = useState(() => aircraft?.array?.edge.value ?? CELL_EDGE.value);
  const [rigid, setRigid] = useState(false);
  const { measured, flown, choose } = useMeasured();
  const { view, stale } = useSection(edge, rigid, measured);
  const old = stale ? computed.old : undefined;
  return (
    <>
      <CostPanel view={view} edge={edge} onEdge={setEdge} rigid={rigid} onRigid={setRigid} />
      {view?.bare !== undefined && (
        <div className={old}>
          <LayerPanel view={view} />
        </div>
      )}
      {view !== undefined && (
        <div className={old}>
          <PolarPanel view={view} />
        </div>
      )}
      {view !== undefined && (
        <>
          <MeasuredPanel view={view} measured={measured} flown={flown} onMeasured={choose} />
          {view.plate === undefined && (
            <>
              <ShapePanel key={`shape ${view.name}`} view={view} edge={edge} />
              <FlatsPanel key={`flats ${view.name}`} view={view} edge={edge} />
            </>
          )}
        </>
      )}
      <FieldsPanel />
    </>
  );
}

interface OfSection {
  readonly view: SectionView;
}

function CostPanel(props: {
  readonly view: SectionView | undefined;
  readonly edge: number;
  readonly onEdge: (edge: number) => void;
  readonly rigid: boolean;
  readonly onRigid: (rigid: boolean) => void;
}): ReactNode {
  const { view, edge, onEdge, rigid, onRigid } = props;
  const finding = view === undefined ? 'What covering costs is not known yet.' : localNumbers(costWords(view));
  const cost = view?.cost;
  return (
    <Panel level={3} title="What does covering cost?" finding={finding}>
      <Pending channel="section" what="Flow about the section" />
      <div className={computed.controls}>
        <NumberSlider
          label="Height of cells and film over the skin; 0 in a recess"
          unit="mm"
          value={1000 * edge}
          least={0}
          most={2}
          step={0.05}
          onChange={(height) => onEdge(height / 1000)}
        />
        <Select
          label="Cells on a curved skin"
          value={rigid ? 'flat' : 'curved'}
          choices={[
            { value: 'curved', label: 'follow the curve' },
            { value: 'flat', label: 'stay flat' },
          ]}
          onChange={(choice) => onRigid(choice === 'flat')}
        />
      </div>
      {view !== undefined && (
        <ul className={computed.lines} aria-label="Behind it">
          {[
            ...(cost === undefined
              ? []
              : [edgeWords('Front', cost.front, cost.trip.likelihood), edgeWords('Rear', cost.rear)]),
            ...(view.bare === undefined ? [] : [dragWords(view.bare, view.dragSpread ?? 0)]),
            ...plateWords(view),
            ...cautionWords(view),
            ...view.notes,
          ].map((text) => (
            <li key={text}>{localNumbers(text)}</li>
          ))}
        </ul>
      )}
    </Panel>
  );
}

function LayerPanel({ view }: OfSection): ReactNode {
  const layers = useMemo(() => layerData(view), [view]);
  const pressures = useMemo(() => pressureData(view), [view]);
  const drawLayers = useCallback((options: DrawOptions) => layerPicture(layers!, options), [layers]);
  const drawPressure = useCallback((options: DrawOptions) => comparedCurves(pressures, options), [pressures]);
  const flow = view.cost?.covered ?? view.bare;
  if (layers === undefined || flow === undefined) return null;
  const state = view.cost === undefined ? 'Bare' : 'With cells';
  return (
    <Panel
      level={3}
      title="What does the air do along it?"
      finding={localNumbers(`${state}. ${layerWords('Above', flow.upper)} ${layerWords('Below', flow.lower)}`)}
    >
      <p className={styles.soft}>{localNumbers(`${pointWords(view)}.`)}</p>
      <Figure id="section-layer" draw={drawLayers} words={false} />
      <Figure id="section-pressure" draw={drawPressure} />
    </Panel>
  );
}

function PolarPanel({ view }: OfSection): ReactNode {
  const [shown, setShown] = useState(questions[0]!.id);
  const asked = view.plate === undefined ? questions : questions.filter(({ id }) => id !== 'section-transition');
  const question = asked.find(({ id }) => id === shown) ?? asked[0]!;
  return (
    <Panel level={3} title="How does it answer to lift and speed?" finding={bestWords(view)}>
      <Tabs
        label="Question"
        tabs={asked.map(({ id, tab }) => ({ id, label: tab }))}
        selected={question.id}
        onSelect={setShown}
      >
        <PolarFigure key={question.id} view={view} question={question} />
      </Tabs>
    </Panel>
  );
}

/** Greatest lift and best lift over drag at the design Reynolds number. */
function bestWords({ polars, plate }: SectionView): string {
  const rising = polars[0]?.points.filter((point) => point.rising) ?? [];
  if (rising.length < 2) return 'No polar converged.';
  const best = rising.reduce((a, b) => (b.lift / b.drag > a.lift / a.drag ? b : a));
  // Beyond the stall of a plate lift rises again, at many times the drag.
  const most = plate?.greatest.value ?? Math.max(...rising.map(({ lift }) => lift));
  return localNumbers(
    `Bare, at the Reynolds number flown, ${thousands(polars[0]!.reynolds)}: best lift over drag ${(best.lift / best.drag).toFixed(0)} at lift ${best.lift.toFixed(2)}, greatest lift ${most.toFixed(2)}.`,
  );
}

function PolarFigure({ view, question }: OfSection & { readonly question: PolarQuestion }): ReactNode {
  const data = useMemo(() => polarData(view, question), [view, question]);
  const draw = useCallback((options: DrawOptions) => comparedCurves(data, options), [data]);
  return <Figure id={question.id} draw={draw} />;
}

/** The section of each surface in the design file. */
function FieldsPanel(): ReactNode {
  const { aircraft } = useDesignReading();
  return (
    <Panel
      level={3}
      title="Shape it"
      finding="By the digits of its formula, a plate, or a coordinate file; thickness scales it. Edits go into the file of the design."
    >
      <div className={styles.entries}>
        {(aircraft?.surfaces ?? []).map(({ name }) => (
          <div className={styles.entry} key={name}>
            <h4 className={styles.entriesTitle}>{name}</h4>
            <DesignField path={`surfaces.${name}.section`} />
          </div>
        ))}
      </div>
    </Panel>
  );
}
