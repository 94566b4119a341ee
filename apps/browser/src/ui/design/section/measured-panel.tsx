import { comparedCurves, type DrawOptions } from '@noonwing/drawing';
import type { MeasuredPoint } from '@noonwing/engine/section/polars';
import { parseMeasuredPolar } from '@noonwing/files';
import { type ReactNode, useCallback, useMemo, useState } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { SectionView } from '../../../core/view-section-types.js';
import { Button, Figure, FileButton, NoticeList, Panel, Tabs, useAppState, useServices } from '../../kit/index.js';
import computed from '../computed.module.css';
import { keepPoints } from './kept-points.js';
import { measuredData, type PolarQuestion, questions } from './section-data.js';
import { runWords } from './shape-words.js';

/** Measured points as chosen, and what reading them found. */
export interface Measured {
  readonly name: string;
  readonly points: readonly MeasuredPoint[];
  readonly notes: readonly string[];
}

interface Problem {
  readonly text: string;
  readonly remedy: string;
}

function readMeasured(name: string, text: string): Measured | Problem {
  const read = parseMeasuredPolar(text);
  if (!read.ok) return { text: `the file ${name}, ${read.where}: ${read.reason}`, remedy: read.remedy };
  return {
    name,
    points: read.value.rows.map(({ line: _, ...point }) => point),
    notes: read.warnings.map(({ message, where }) => (where === undefined ? message : `${message} (${where})`)),
  };
}

interface Props {
  readonly view: SectionView;
  readonly measured: Measured | undefined;
  /** Whether the project keeps these points, so that every verdict flies with them. */
  readonly flown: boolean;
  readonly onMeasured: (measured: Measured | undefined) => void;
}

/** Measured points of the section out of a file, laid over the computed polar; the difference in words; whether the verdict flies with them. */
export default function MeasuredPanel({ view, measured, flown, onMeasured }: Props): ReactNode {
  const { app, announce } = useServices();
  const [problem, setProblem] = useState<Problem>();
  const fly = (points: Measured | undefined) => {
    const kept = points && { name: view.name, source: points.name, points: points.points };
    const done = keepPoints(app, view.key, kept, view.name);
    setProblem(done.ok ? undefined : { text: done.reason, remedy: done.remedy });
    if (done.ok)
      announce(
        points === undefined ? 'The verdict flies without these points.' : 'The verdict flies with these points.',
      );
  };
  const files = useAppState((state) => state.work.projects[state.work.current]?.files);
  const own = Object.entries(files ?? {}).filter(
    ([name, text]) => /\.csv$/i.test(name) && /lift|\bcl\b/i.test(text.slice(0, 4000)),
  );
  const take = (name: string, text: string) => {
    const read = readMeasured(name, text);
    setProblem('text' in read ? read : undefined);
    onMeasured('text' in read ? undefined : read);
  };
  const shown = measured !== undefined && view.measured.length > 0;
  return (
    <Panel
      level={3}
      title="Is it as measured?"
      finding={
        shown
          ? `${measured.name}: ${measured.points.length} points of ${view.name}. ${
              flown
                ? 'The verdict, limits and levers of this project fly with them.'
                : 'They are compared here; the verdict does not fly with them yet.'
            }`
          : 'Points out of a wind tunnel or a flight log can be laid over what is computed.'
      }
    >
      <div className={computed.controls}>
        <FileButton
          what="File of measured points"
          accept=".csv,.tsv,.txt"
          onText={take}
          onTooLong={(name) => setProblem({ text: `${name} is too long`, remedy: 'choose the table of points' })}
        >
          Choose a file of points
        </FileButton>
        {own.map(([name, text]) => (
          <Button key={name} kind="quiet" onPress={() => take(name, text)}>
            {`From the project: ${name}`}
          </Button>
        ))}
        {measured !== undefined && (
          <Button
            kind={flown ? 'quiet' : 'main'}
            hint={flown ? 'They stay here to compare with' : 'Keeps them in the project; undo takes it back'}
            onPress={() => {
              onMeasured(measured);
              fly(flown ? undefined : measured);
            }}
          >
            {flown ? 'Fly without these points' : 'Fly with these points'}
          </Button>
        )}
        {measured !== undefined && !flown && (
          <Button kind="quiet" onPress={() => onMeasured(undefined)}>
            Take the points away
          </Button>
        )}
      </div>
      {problem !== undefined && <NoticeList label="Measured points" items={[{ severity: 'error', ...problem }]} />}
      {measured === undefined && (
        <p>
          Columns “Reynolds number”, “incidence (deg)”, “lift”, “drag” and, if there is one, “moment”; one point to a
          line, # before a comment. The file stays on this device.
        </p>
      )}
      {shown && (
        <>
          <ul className={computed.lines} aria-label="Measured against computed">
            {[...view.measured.map(runWords), ...measured.notes].map((text) => (
              <li key={text}>{localNumbers(text)}</li>
            ))}
          </ul>
          <MeasuredFigures view={view} />
        </>
      )}
    </Panel>
  );
}

function MeasuredFigures({ view }: { readonly view: SectionView }): ReactNode {
  const asked = questions.filter(({ id }) => id !== 'section-transition');
  const [shown, setShown] = useState(asked[0]!.id);
  const question = asked.find(({ id }) => id === shown) ?? asked[0]!;
  return (
    <Tabs
      label="Measured question"
      tabs={asked.map(({ id, tab }) => ({ id, label: tab }))}
      selected={question.id}
      onSelect={setShown}
    >
      <MeasuredFigure key={question.id} view={view} question={question} />
    </Tabs>
  );
}

function MeasuredFigure(props: { readonly view: SectionView; readonly question: PolarQuestion }): ReactNode {
  const { view, question } = props;
  const data = useMemo(() => measuredData(view, question), [view, question]);
  const draw = useCallback((options: DrawOptions) => comparedCurves(data, options), [data]);
  return <Figure id={`measured-${question.id}`} draw={draw} />;
}
