import { cellPicture } from '@noonwing/drawing';
import { type ReactNode, useMemo, useState } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { ArrayView } from '../../../core/view-array-types.js';
import { Panel, Select, Tabs, useAppState, useServices } from '../../kit/index.js';
import { useMoveHour } from '../../shell/hour.js';
import computed from '../computed.module.css';
import { NumberSlider } from '../number-slider.js';
import styles from './array.module.css';
import { cellName, pictureData, type Shown } from './array-data.js';
import { CellFacts, cellFacts } from './cell-facts.js';
import { CellMap } from './cell-map.js';
import { SplitForm } from './split-form.js';

export interface CellsPanelProps {
  /** Absent until it is computed. */
  readonly view: ArrayView | undefined;
  readonly stale: boolean;
  readonly selected: number;
  readonly onSelect: (cell: number) => void;
  readonly pending: ReactNode;
}

/**
 * Every cell where it lies, what it gets, and which string it belongs to. One panel while it is computed and afterwards, so that
 * the first panel of the place stays open on a phone.
 */
export function CellsPanel({ view, pending, ...more }: CellsPanelProps): ReactNode {
  const [shown, setShown] = useState<Shown>('day');
  const words = useMemo(
    () => (view === undefined ? undefined : cellPicture(pictureData(view, shown, { marked: [] })).text),
    [view, shown],
  );
  return (
    <Panel
      level={3}
      title="What does each cell get?"
      {...(words === undefined ? {} : { finding: localNumbers(words) })}
    >
      {view !== undefined && <Moment view={view} />}
      {pending}
      {view !== undefined && <Cells view={view} shown={shown} onShown={setShown} {...more} />}
    </Panel>
  );
}

interface CellsProps extends Omit<CellsPanelProps, 'view' | 'pending'> {
  readonly view: ArrayView;
  readonly shown: Shown;
  readonly onShown: (shown: Shown) => void;
}

function Cells({ view, stale, selected, onSelect, shown, onShown }: CellsProps): ReactNode {
  const said = useAppState((app) => app.preferences);
  const [marked, setMarked] = useState<readonly number[]>([]);
  const present = useMemo(() => marked.filter((cell) => cell < view.cells.length), [marked, view]);
  const data = useMemo(() => pictureData(view, shown, { selected, marked: present }), [view, shown, selected, present]);
  const spoken = `${cellName(view, view.cells[selected]!)}. ${cellFacts(view, selected, said)
    .slice(0, 4)
    .map(([name, fact]) => `${name}: ${fact}`)
    .join('. ')}${present.includes(selected) ? '. Marked' : ''}`;
  const toggle = (cell: number) =>
    setMarked(present.includes(cell) ? present.filter((other) => other !== cell) : [...present, cell]);
  return (
    <>
      <Tabs
        label="What the cells show"
        tabs={[
          { id: 'day', label: 'Energy of the day' },
          { id: 'hour', label: 'Light at this hour' },
        ]}
        selected={shown}
        onSelect={(id) => onShown(id as Shown)}
      >
        <div className={stale ? computed.old : undefined}>
          <CellMap
            data={data}
            sheets={view.sheets}
            selected={selected}
            words={localNumbers(spoken)}
            onSelect={onSelect}
            onMark={toggle}
          />
        </div>
      </Tabs>
      <div className={styles.pair}>
        <div>
          <Select
            label="Cell"
            value={String(selected)}
            choices={view.cells.map((cell, c) => ({ value: String(c), label: cellName(view, cell) }))}
            onChange={(value) => onSelect(Number(value))}
          />
          <CellFacts view={view} cell={selected} said={said} />
        </div>
        <SplitForm view={view} selected={selected} marked={present} onMark={setMarked} />
      </div>
    </>
  );
}

/** The hour and heading of the page, to be set here too. */
function Moment({ view }: { readonly view: ArrayView }): ReactNode {
  const { app } = useServices();
  const moveHour = useMoveHour();
  const hour = useAppState(({ ui }) => ui.hour) ?? view.hour;
  const heading = useAppState(({ ui }) => ui.heading);
  return (
    <div className={computed.controls}>
      <NumberSlider label="Hour" unit="h" value={hour} least={0} most={24} step={0.25} onChange={moveHour} />
      <NumberSlider
        label="Heading"
        unit="deg"
        value={Math.round((heading * 180) / Math.PI)}
        least={0}
        most={355}
        step={5}
        onChange={(degrees) => app.setUi({ heading: (degrees * Math.PI) / 180 })}
      />
    </div>
  );
}
