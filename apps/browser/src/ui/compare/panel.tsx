import { comparedCurves, type DrawOptions } from '@noonwing/drawing';
import { type ReactNode, useCallback, useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { shownVerdict } from '../../core/compute.js';
import { fieldWords } from '../../core/field-text.js';
import { pathsOfRole } from '../../core/project.js';
import { activeOf, type CompareSlot } from '../../core/state.js';
import type { VerdictView } from '../../core/view.js';
import {
  Button,
  Disclosure,
  Figure,
  NoticeList,
  Panel,
  Select,
  sentence,
  Table,
  useAppState,
  useComputeState,
  useServices,
} from '../kit/index.js';
import { clockText } from '../shell/clock.js';
import { useVerdict } from '../shell/hour.js';
import { useOpened } from '../shell/use-opened.js';
import styles from './compare.module.css';
import { byGroup, type Difference, differences } from './differences.js';
import { dayCurves, figureRows, findingText, powerCurves } from './figures.js';
import { otherTexts, swapCommands } from './swap.js';

interface Names {
  readonly a: string;
  readonly b: string;
}

const timeOf = (at: number): string => {
  const date = new Date(at);
  return `at ${clockText(date.getHours() + date.getMinutes() / 60)}`;
};

function namesOf(slot: CompareSlot, mine: VerdictView | undefined, other: VerdictView | undefined): Names {
  const a = mine?.aircraft ?? 'the open aircraft';
  if (slot.kind === 'remembered') return { a: `${a} now`, b: `${other?.aircraft ?? a} ${timeOf(slot.at)}` };
  const b = other?.aircraft ?? 'the other';
  return a === b ? { a: `${a} (open)`, b: `${b} (${slot.design})` } : { a, b };
}

/** The open aircraft and another, or a remembered state of it, side by side. */
export default function ComparePanel(): ReactNode {
  const slot = useAppState((state) => state.work.compare);
  return slot === undefined ? null : <SideBySide slot={slot} />;
}

function SideBySide({ slot }: { readonly slot: CompareSlot }): ReactNode {
  const { app, compare, announce } = useServices();
  const opened = useOpened();
  const units = useAppState((state) => state.preferences);
  const mine = useVerdict();
  const other = useStore(compare.store, shownVerdict);
  const status = useStore(compare.store, ({ channels }) => channels.verdict.status);
  const names = useMemo(() => namesOf(slot, mine, other), [slot, mine, other]);
  const swap = () => {
    const commands = swapCommands(app.store.getState(), slot, Date.now());
    for (const [i, command] of commands.entries()) app.run(command, i === 0 ? 'new step' : 'no history');
    announce('The two are exchanged');
  };
  return (
    <div ref={opened} tabIndex={-1} className={styles.compare}>
      <Panel
        title="Side by side"
        finding={mine === undefined || other === undefined ? undefined : findingText(mine, other, names)}
        actions={
          <>
            <Button onPress={swap} hint="What stands beside becomes the open one, and the other way round">
              Exchange the two
            </Button>
            <Button kind="quiet" icon="close" onPress={() => app.run({ kind: 'compare', slot: null })}>
              Stop comparing
            </Button>
          </>
        }
      >
        <WithWhich slot={slot} />
        {status.kind === 'refused' && (
          <NoticeList
            label="The other"
            items={[{ severity: 'problem', text: status.refusal.reason, remedy: status.refusal.remedy }]}
          />
        )}
        {status.kind === 'failed' && <p>The other could not be computed: {sentence(status.reason)}</p>}
        {mine !== undefined && other !== undefined ? (
          <>
            <Table
              caption="The two verdicts"
              captionHidden
              columns={[
                { key: 'what', label: 'what' },
                { key: 'mine', label: `A: ${names.a}` },
                { key: 'other', label: `B: ${names.b}` },
                { key: 'more', label: 'A more by' },
              ]}
              rows={figureRows(mine, other, units).map((row) => ({ ...row }))}
            />
            <Curves mine={mine} other={other} names={names} />
          </>
        ) : (
          status.kind !== 'refused' && <p>The other is being computed …</p>
        )}
        <Files slot={slot} names={names} />
      </Panel>
    </div>
  );
}

/** Another design of any project, or this aircraft as it is now. */
function WithWhich({ slot }: { readonly slot: CompareSlot }): ReactNode {
  const { app } = useServices();
  const work = useAppState((state) => state.work);
  const { project: open, designPath } = activeOf({ work });
  const designs = Object.values(work.projects).flatMap((project) =>
    pathsOfRole(project, 'design')
      .filter((design) => project.id !== open?.id || design !== designPath)
      .map((design) => ({ value: `${project.id}\n${design}`, label: `${project.name}: ${design}` })),
  );
  const choose = (value: string) => {
    if (value === 'now') return app.remember();
    if (value === 'remembered') return;
    const [project = '', design = ''] = value.split('\n');
    const plan = work.projects[project]?.plan;
    app.run({ kind: 'compare', slot: { kind: 'design', project, design, ...(plan === undefined ? {} : { plan }) } });
  };
  return (
    <div className={styles.which}>
      <Select
        label="Compare with"
        value={slot.kind === 'remembered' ? 'remembered' : `${slot.project}\n${slot.design}`}
        choices={[
          ...(slot.kind === 'remembered'
            ? [{ value: 'remembered', label: `this aircraft as it was ${timeOf(slot.at)}` }]
            : []),
          { value: 'now', label: 'this aircraft as it is now' },
          ...designs,
        ]}
        onChange={choose}
      />
    </div>
  );
}

/** Curves of both over the same axes: A solid, B dashed. */
function Curves({
  mine,
  other,
  names,
}: {
  readonly mine: VerdictView;
  readonly other: VerdictView;
  readonly names: Names;
}): ReactNode {
  const { compute, compare } = useServices();
  const units = useAppState((state) => state.preferences);
  const sky = useAppState((state) => state.ui.sky);
  const [isOpen, setIsOpen] = useState(false);
  const power = useComputeState(({ channels }) => channels.power.view);
  const there = useStore(compare.store, ({ channels }) => channels.power.view);
  const isAsked = power !== undefined;
  const bank = power?.bank;
  useEffect(() => {
    // Other places ask for the same curves; what they asked, and at which bank, stays as it is.
    if (isOpen && !isAsked) compute.want({ power: {} });
  }, [compute, isOpen, isAsked]);
  useEffect(() => {
    if (!isOpen || bank === undefined) return;
    compare.want({ power: { bank } });
    return () => compare.want({ power: null });
  }, [compare, isOpen, bank]);
  const drawDay = useCallback(
    (options: DrawOptions) => comparedCurves(dayCurves(mine, other, sky, names), options),
    [mine, other, sky, names],
  );
  const drawPower = useCallback(
    (options: DrawOptions) =>
      comparedCurves(
        power === undefined || there === undefined
          ? {
              question: '',
              x: { label: '', unit: '' },
              y: { label: '', unit: '' },
              a: { name: '', curves: [] },
              b: { name: '', curves: [] },
            }
          : powerCurves(power, there, names, units),
        options,
      ),
    [power, there, names, units],
  );
  return (
    <details className={styles.curves} onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary>Curves of both</summary>
      {isOpen && (
        <div className={styles.pair}>
          <Figure id="compared-day" draw={drawDay} />
          {power === undefined || there === undefined ? (
            <p>Level power is being computed …</p>
          ) : (
            <Figure id="compared-power" draw={drawPower} />
          )}
        </div>
      )}
    </details>
  );
}

/** What the files say differently, each value to be taken over. */
function Files({ slot, names }: { readonly slot: CompareSlot; readonly names: Names }): ReactNode {
  const work = useAppState((state) => state.work);
  const { design = '', plan = '' } = activeOf({ work });
  const there = useMemo(() => otherTexts({ work }, slot), [work, slot]);
  const inDesign = useMemo(() => differences('design', design, there.design), [design, there]);
  const inDay = useMemo(() => differences('day', plan, there.plan), [plan, there]);
  const count = inDesign.length + inDay.length;
  if (count === 0) return <p>The files say the same.</p>;
  return (
    <Disclosure title={`${count} ${count === 1 ? 'value of the files differs' : 'values of the files differ'}`}>
      {inDesign.length > 0 && <Differing file="design" title="Design" found={inDesign} names={names} />}
      {inDay.length > 0 && <Differing file="day" title="Day plan" found={inDay} names={names} />}
    </Disclosure>
  );
}

function Differing(props: {
  readonly file: 'design' | 'day';
  readonly title: string;
  readonly found: readonly Difference[];
  readonly names: Names;
}): ReactNode {
  const { file, title, found, names } = props;
  const { app, announce } = useServices();
  const [problem, setProblem] = useState('');
  const take = ({ path, other }: Difference) => {
    const edits = [other === undefined || other === '' ? { path } : { path, text: other }];
    const result = app.run(
      { kind: 'set values', file, edits, label: `${fieldWords(file, path)} from ${names.b}` },
      'new step',
    );
    setProblem(result.ok ? '' : `${fieldWords(file, path)}: ${result.reason}; ${result.remedy}`);
    announce(result.ok ? `${fieldWords(file, path)} is taken from ${names.b}. Undo takes it back.` : result.reason);
  };
  return (
    <>
      {problem !== '' && <p role="alert">{sentence(problem)}</p>}
      {byGroup(found).map(({ group, rows }) => (
        <section key={group} className={styles.group}>
          <Table
            caption={`${title}: ${group}`}
            columns={[
              { key: 'path', label: 'value' },
              { key: 'mine', label: 'A' },
              { key: 'other', label: 'B' },
              { key: 'take', label: 'take over' },
            ]}
            rows={rows.map((one) => ({
              path: fieldWords(file, one.path),
              mine: one.mine ?? 'not stated',
              other: one.other ?? 'not stated',
              take: (
                <Button
                  kind="quiet"
                  label={
                    one.other === undefined
                      ? `Take ${fieldWords(file, one.path)} away, as in B`
                      : `Take ${fieldWords(file, one.path)} from B`
                  }
                  onPress={() => take(one)}
                >
                  {one.other === undefined ? 'Take away' : 'Take B’s'}
                </Button>
              ),
            }))}
          />
        </section>
      ))}
    </>
  );
}
