import { comparedCurves, type DrawOptions } from '@noonwing/drawing';
import { type ReactNode, useCallback, useMemo, useState } from 'react';
import type { ValueEdit } from '../../core/commands.js';
import { fieldWords } from '../../core/field-text.js';
import { readingOfPlan } from '../../core/reading.js';
import {
  importIrradiance,
  importWeather,
  placeOfWeather,
  type WeatherAnswer,
  type WeatherDay,
} from '../../core/weather.js';
import {
  Button,
  Figure,
  FileButton,
  NoticeList,
  Panel,
  Switch,
  Table,
  useAppState,
  useServices,
} from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import styles from './day.module.css';
import { settingRows, withGroup } from './plan-edits.js';

interface Chosen {
  readonly name: string;
  readonly text: string;
}

const isTable = (name: string): boolean => /\.(csv|tsv)$/i.test(name);
const isWeather = (name: string): boolean => /\.epw$/i.test(name);

/** A file that may be either: its first line says which. */
const readsAsWeather = ({ name, text }: Chosen): boolean =>
  isWeather(name) || (!isTable(name) && text.startsWith('LOCATION'));

interface Props {
  readonly plan: string;
  readonly onDone: () => void;
}

/** Weather out of a file: a weather year (EPW), or measured light (CSV). What will be set is shown before it is set. */
export default function ImportWeather({ plan, onDone }: Props): ReactNode {
  const [chosen, setChosen] = useState<Chosen>();
  const [problem, setProblem] = useState('');
  const files = useAppState((state) => state.work.projects[state.work.current]?.files);
  const own = Object.entries(files ?? {}).filter(([name]) => isTable(name) || isWeather(name));
  return (
    <Panel level={3} title="Weather out of a file">
      <p className={styles.say}>
        A weather year (EPW), from which the day of the plan is taken, or a table of measured light (CSV with a time and
        an irradiance column). It is read on this device.
      </p>
      <div className={styles.row}>
        <FileButton
          what="Weather file"
          accept=".epw,.csv,.tsv,.txt"
          onText={(name, text) => {
            setProblem('');
            setChosen({ name, text });
          }}
          onTooLong={(name) => setProblem(`${name} is larger than a weather file can be.`)}
        >
          Choose a file
        </FileButton>
        {own.map(([name, text]) => (
          <Button key={name} kind="quiet" onPress={() => setChosen({ name, text })}>
            From the project: {name}
          </Button>
        ))}
      </div>
      {problem !== '' && <p role="alert">{problem}</p>}
      {chosen !== undefined && (
        <Preview key={`${chosen.name} ${chosen.text.length}`} chosen={chosen} plan={plan} onDone={onDone} />
      )}
    </Panel>
  );
}

function useAnswer(chosen: Chosen, plan: string): WeatherAnswer {
  const turbidity = useVerdict()?.plan.turbidity;
  return useMemo(() => {
    const complete = readingOfPlan(plan).complete;
    if (complete === undefined)
      return { ok: false, reason: 'the day plan cannot be read', remedy: 'correct the plan first' };
    if (readsAsWeather(chosen)) return importWeather(chosen.text, complete.date, turbidity);
    return importIrradiance(chosen.text, { ...complete, altitude: complete.altitude.value }, turbidity);
  }, [chosen, plan, turbidity]);
}

function Preview({ chosen, plan, onDone }: Props & { readonly chosen: Chosen }): ReactNode {
  const answer = useAnswer(chosen, plan);
  const [atStation, setAtStation] = useState(false);
  const station = useMemo(() => (readsAsWeather(chosen) ? placeOfWeather(chosen.text) : undefined), [chosen]);
  if (!answer.ok) {
    return (
      <NoticeList
        label="Weather file"
        items={[{ severity: 'error', text: `the file ${chosen.name}: ${answer.reason}`, remedy: answer.remedy }]}
      />
    );
  }
  const placed = station !== undefined && 'edits' in station ? station.edits : [];
  return (
    <>
      <ul className={styles.notes}>
        {answer.day.notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
      {placed.length > 0 && (
        <Switch
          label="Put the plan at the station of the file too"
          checked={atStation}
          onChange={setAtStation}
          description={placed.map(({ text }) => text).join(', ')}
        />
      )}
      <CourseFigure day={answer.day} />
      <WhatIsSet
        name={chosen.name}
        plan={plan}
        edits={[...answer.day.edits, ...(atStation ? withGroup(plan, placed) : [])]}
        onDone={onDone}
      />
    </>
  );
}

/** Every value that would be set, each of which may be left out. */
function WhatIsSet(props: {
  readonly name: string;
  readonly plan: string;
  readonly edits: readonly ValueEdit[];
  readonly onDone: () => void;
}): ReactNode {
  const { name, plan, edits, onDone } = props;
  const { app, announce } = useServices();
  const [leftOut, setLeftOut] = useState<ReadonlySet<string>>(new Set());
  const [problem, setProblem] = useState('');
  const taken = edits.filter(({ path }) => !leftOut.has(path));
  const rows = settingRows(plan, edits).map(({ path, before, after, isChange }) => ({
    path: (
      <label className={styles.check}>
        <input
          type="checkbox"
          checked={!leftOut.has(path)}
          onChange={() => {
            const next = new Set(leftOut);
            if (!next.delete(path)) next.add(path);
            setLeftOut(next);
          }}
        />
        {fieldWords('day', path)}
      </label>
    ),
    before,
    after: isChange ? after : `${after} (as it is)`,
  }));
  const set = () => {
    const result = app.run({ kind: 'set values', file: 'day', edits: taken, label: `weather from ${name}` });
    if (!result.ok) return setProblem(`${result.reason}; ${result.remedy}`);
    announce(`${taken.length} values set from ${name}. Undo takes them back.`);
    onDone();
  };
  return (
    <>
      <Table
        caption="What will be set"
        columns={[
          { key: 'path', label: 'value' },
          { key: 'before', label: 'now' },
          { key: 'after', label: 'from the file' },
        ]}
        rows={rows}
      />
      {problem !== '' && <p role="alert">{problem}</p>}
      <div className={styles.row}>
        <Button kind="main" disabled={taken.length === 0} hint="One step: undo takes all of it back" onPress={set}>
          Set {taken.length} {taken.length === 1 ? 'value' : 'values'}
        </Button>
        <Button kind="quiet" onPress={onDone}>
          Leave the plan as it is
        </Button>
      </div>
    </>
  );
}

/** Light in the file against that of a clear sky. */
function CourseFigure({ day }: { readonly day: WeatherDay }): ReactNode {
  const draw = useCallback(
    (options: DrawOptions) => {
      const { hours, global, clear } = day.course;
      const points = (values: Float64Array) => [...hours].map((hour, i) => [hour, values[i]!] as const);
      return comparedCurves(
        {
          question: 'How much of a clear sky is in the file?',
          x: { label: 'hour of the day', unit: '', kind: 'hour' },
          y: { label: 'light on level ground', unit: 'W/m²', decimals: 0 },
          a: { name: 'the file', curves: [{ id: 'light', label: 'light', points: points(global) }] },
          b: { name: 'clear sky', curves: [{ id: 'light', label: 'light', points: points(clear) }] },
        },
        options,
      );
    },
    [day],
  );
  return <Figure id="weather-file" draw={draw} />;
}
