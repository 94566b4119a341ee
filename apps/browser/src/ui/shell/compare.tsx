import { type ReactNode, useMemo } from 'react';
import { useStore } from 'zustand';
import { shownVerdict } from '../../core/compute.js';
import { pathsOfRole } from '../../core/project.js';
import { activeOf, type CompareSlot } from '../../core/state.js';
import type { VerdictView } from '../../core/view.js';
import { Button } from '../kit/button.js';
import { Select } from '../kit/fields.js';
import { useAppState, useServices } from '../kit/services.js';
import { Disclosure, Panel, Table } from '../kit/surfaces.js';
import { clockText, durationText } from './clock.js';
import { useVerdict } from './hour.js';
import { type LineChange, lineChanges } from './line-changes.js';
import styles from './shell.module.css';
import { useOpened } from './use-opened.js';
import { carriedText, limitText, skyTitle, wattsText } from './words.js';

const keyOf = (slot: CompareSlot): string =>
  slot.kind === 'remembered' ? 'remembered' : `${slot.project}\n${slot.design}`;

/** The active aircraft and another state of it, or another aircraft, side by side: verdict, figures, and what differs in the files. */
export default function Compare(): ReactNode {
  const { app, compare } = useServices();
  const opened = useOpened();
  const work = useAppState((state) => state.work);
  const other = useStore(compare.store, shownVerdict);
  const mine = useVerdict();
  const slot = work.compare;
  if (slot === undefined) return null;
  const designs = Object.values(work.projects).flatMap((project) =>
    pathsOfRole(project, 'design').map((design) => ({
      value: `${project.id}\n${design}`,
      label: `${project.name}: ${design}`,
    })),
  );
  const choose = (value: string) => {
    if (value === 'remembered') return app.remember();
    const [project = '', design = ''] = value.split('\n');
    const plan = work.projects[project]?.plan;
    app.run({ kind: 'compare', slot: { kind: 'design', project, design, ...(plan === undefined ? {} : { plan }) } });
  };
  const name =
    slot.kind === 'remembered'
      ? `${other?.aircraft ?? 'this aircraft'}, as it was ${clockOf(slot.at)}`
      : (other?.aircraft ?? 'the other');
  return (
    <div ref={opened} tabIndex={-1} className={styles.sideBySide}>
      <Panel
        title="Side by side"
        actions={
          <Button kind="quiet" icon="close" onPress={() => app.run({ kind: 'compare', slot: null })}>
            Stop comparing
          </Button>
        }
      >
        <Select
          label="Compare with"
          value={keyOf(slot)}
          choices={[
            {
              value: 'remembered',
              label: slot.kind === 'remembered' ? `as it was ${clockOf(slot.at)}` : 'this aircraft as it is now',
            },
            ...designs,
          ]}
          onChange={choose}
        />
        {mine !== undefined && other !== undefined ? (
          <Table
            caption="The two verdicts"
            columns={columns(mine.aircraft, name)}
            rows={rowsOf(mine, other)}
            captionHidden
          />
        ) : (
          <p>The other is being computed …</p>
        )}
        <Differences slot={slot} />
      </Panel>
    </div>
  );
}

const clockOf = (at: number): string => {
  const date = new Date(at);
  return `at ${clockText(date.getHours() + date.getMinutes() / 60)}`;
};

const columns = (mine: string, other: string) => [
  { key: 'what', label: 'what' },
  { key: 'mine', label: `${mine}, now` },
  { key: 'other', label: other },
  { key: 'difference', label: 'now more by' },
];

const grams = (mass: number): string => (Math.abs(mass) < 1 ? `${Math.round(mass * 1000)} g` : `${mass.toFixed(2)} kg`);

type Row = Readonly<Record<'what' | 'mine' | 'other' | 'difference', string>>;

function row(
  what: string,
  mine: number | undefined,
  other: number | undefined,
  text: (value: number) => string,
): readonly Row[] {
  if (mine === undefined && other === undefined) return [];
  const shown = (value: number | undefined) => (value === undefined ? 'not known' : text(value));
  const difference = mine === undefined || other === undefined ? undefined : mine - other;
  const sign = difference === undefined ? '' : difference < 0 ? '−' : '+';
  return [
    {
      what,
      mine: shown(mine),
      other: shown(other),
      difference:
        difference === undefined
          ? ''
          : text(Math.abs(difference)) === text(0)
            ? 'the same'
            : `${sign}${text(Math.abs(difference))}`,
    },
  ];
}

function rowsOf(mine: VerdictView, other: VerdictView): readonly Row[] {
  const skies = mine.skies.flatMap((sky) => {
    const there = other.skies.find(({ name }) => name === sky.name);
    return [
      {
        what: skyTitle(sky),
        mine: carriedText(sky),
        other: there === undefined ? 'not computed' : carriedText(there),
        difference: '',
      },
      ...row(`carried, ${skyTitle(sky)}`, sky.carried.value, there?.carried.value, durationText),
    ];
  });
  const [a, b] = [mine.skies[0], other.skies[0]];
  return [
    ...skies,
    ...row('level power', mine.levelPower?.value, other.levelPower?.value, wattsText),
    ...row('income over need at best', a?.bestRatio.value, b?.bestRatio.value, (value) => value.toFixed(2)),
    ...row('endurance', a?.endurance.value, b?.endurance.value, durationText),
    ...row('mass', mine.balance?.mass, other.balance?.mass, grams),
    ...row('airspeed', mine.flight?.airspeed, other.flight?.airspeed, (value) => `${value.toFixed(1)} m/s`),
    ...row(
      'static margin',
      mine.balance?.staticMargin,
      other.balance?.staticMargin,
      (value) => `${(100 * value).toFixed(1)} %`,
    ),
    ...(a === undefined || b === undefined
      ? []
      : [{ what: 'what limits', mine: limitText(a, mine), other: limitText(b, other), difference: '' }]),
  ];
}

function Differences({ slot }: { readonly slot: CompareSlot }): ReactNode {
  const work = useAppState((state) => state.work);
  const { design = '', plan = '' } = activeOf({ work });
  const project = slot.kind === 'design' ? work.projects[slot.project] : undefined;
  const otherDesign = slot.kind === 'remembered' ? slot.design : (project?.files[slot.design] ?? '');
  const otherPlan =
    slot.kind === 'remembered' ? slot.plan : slot.plan === undefined ? plan : (project?.files[slot.plan] ?? plan);
  const changes = useMemo(
    () => [...lineChanges(otherDesign, design), ...lineChanges(otherPlan, plan)],
    [otherDesign, design, otherPlan, plan],
  );
  const title = changes.length === 0 ? 'The files are the same' : `${changes.length} lines of the files differ`;
  return changes.length === 0 ? (
    <p>{title}.</p>
  ) : (
    <Disclosure title={title}>
      <ul className={styles.changes}>
        {changes.slice(0, 200).map((change, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name of their own and may be equal
          <Change key={i} {...change} />
        ))}
      </ul>
    </Disclosure>
  );
}

const Change = ({ sign, text }: LineChange): ReactNode => (
  <li>
    {sign === '+' ? 'now: ' : 'other: '}
    <code>{text.trim()}</code>
  </li>
);
