import { lazy, type ReactNode, Suspense, useState } from 'react';
import { Panel } from '../../kit/index.js';
import { useVerdict } from '../../shell/hour.js';
import { Entries } from '../entry-list.js';
import { FieldGroup } from '../group.js';
import { NoGroup } from '../no-group.js';
import { Pending } from '../pending.js';
import { PlanEditor } from '../plan-editor.js';
import { useKeys } from '../use-design.js';
import { stringWords } from '../words.js';
import { CellsPanel } from './cells-panel.js';
import { ChangesPanel } from './changes-panel.js';
import { CurvePanel } from './curve-panel.js';
import { LossesPanel } from './losses-panel.js';
import { ShadePanel } from './shade-panel.js';
import { useArray } from './use-array.js';
import { WiringPanel } from './wiring-panel.js';

const LayoutsPanel = lazy(() => import('./layouts-panel.js'));

const kinds = ['row'] as const;
const parts = { masses: false, cells: true };

/** Cells, rows, strings, converters: what each gets, what becomes of it, and every key of the array. */
export default function ArrayPart(): ReactNode {
  const verdict = useVerdict();
  const hasArray = useKeys('array').length > 0;
  if (!hasArray) return <NoGroup path="array" />;
  const rows = verdict?.shape.rows ?? [];
  const cells = rows.reduce((sum, row) => sum + row.cells, 0);
  return (
    <>
      <Light />
      <ChangesPanel />
      <Suspense>
        <LayoutsPanel />
      </Suspense>
      <Panel
        level={3}
        title="Where do the cells lie?"
        finding={`${cells} cells in ${rows.length} ${rows.length === 1 ? 'row' : 'rows'}. An end of a row is taken near its outermost cell, its middle moves the whole row.`}
      >
        <PlanEditor id="plan-cells" kinds={kinds} parts={parts} />
      </Panel>
      <Strings />
      <Panel level={3} title="Rows of cells">
        <Entries path="array.rows" title="" />
      </Panel>
      <Panel level={3} title="Strings and converters">
        <Entries path="array.strings" />
        <Entries path="array.converters" />
      </Panel>
      <Panel level={3} title="Cell, film and wiring">
        <FieldGroup path="array" without={['rows', 'strings', 'converters']} />
      </Panel>
    </>
  );
}

/** What is computed of the light on every cell. */
function Light(): ReactNode {
  const { view: found, stale } = useArray();
  const [chosen, setChosen] = useState(0);
  const [other, setOther] = useState<number>();
  const view = found === undefined || found.cells.length === 0 ? undefined : found;
  const selected = Math.min(chosen, (view?.cells.length ?? 1) - 1);
  const select = (cell: number) => {
    setChosen(cell);
    setOther(undefined);
  };
  return (
    <>
      <CellsPanel
        view={view}
        stale={stale}
        selected={selected}
        onSelect={select}
        pending={<Pending channel="array" what="Light on every cell" />}
      />
      {view !== undefined && (
        <>
          <ShadePanel view={view} selected={selected} />
          <CurvePanel
            view={view}
            string={Math.min(other ?? view.cells[selected]!.string ?? 0, view.strings.length - 1)}
            onString={setOther}
          />
          <LossesPanel view={view} />
          <WiringPanel view={view} />
        </>
      )}
    </>
  );
}

/** Whether each string meets the battery, in words. */
function Strings(): ReactNode {
  const view = useVerdict();
  const strings = view?.strings ?? [];
  const bad = strings.filter(({ problem }) => problem !== undefined);
  return (
    <Panel
      level={3}
      title="Do the strings fit the battery?"
      finding={
        strings.length === 0
          ? 'Being computed …'
          : bad.length === 0
            ? strings.length === 1
              ? 'The string fits.'
              : strings.length === 2
                ? 'Both strings fit.'
                : `All ${strings.length} strings fit.`
            : `${bad.length} of ${strings.length} ${strings.length === 1 ? 'string' : 'strings'} do not fit in every case.`
      }
    >
      <ul>
        {strings.map((string) => (
          <li key={string.name}>{stringWords(string)}</li>
        ))}
      </ul>
    </Panel>
  );
}
