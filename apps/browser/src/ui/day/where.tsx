import { parsePlace } from '@noonwing/quantities';
import { lazy, type ReactNode, Suspense, useEffect, useId, useMemo, useState } from 'react';
import { localNumbers } from '../../core/decimal.js';
import type { ListedPlace } from '../../core/place-list.js';
import { findPlaces, placeEdits } from '../../core/places.js';
import { readingOfPlan } from '../../core/reading.js';
import { zoneText } from '../../core/weather.js';
import {
  Button,
  leadTo,
  Panel,
  StatusText,
  TextField,
  UnitField,
  useAppState,
  useField,
  useServices,
} from '../kit/index.js';
import { clockText, zoneText as offsetWords } from '../shell/clock.js';
import { useVerdict } from '../shell/hour.js';
import styles from './day.module.css';
import { PlainField } from './plain-field.js';
import { placeChange, plainTextAt, withGroup } from './plan-edits.js';

const WorldMap = lazy(() => import('./map.js'));

/** Where it flies: coordinates, a list of places, a map, the clock. */
export function Where({ plan }: { readonly plan: string }): ReactNode {
  const { app, announce } = useServices();
  const complete = readingOfPlan(plan).complete;
  const [note, setNote] = useState('');
  const take = (at: { readonly latitude: number; readonly longitude: number }) => {
    const change = placeChange(plan, at);
    const result = app.run({ kind: 'set values', file: 'day', edits: change.edits, label: 'place of the day' });
    setNote(result.ok ? change.note : `${result.reason}; ${result.remedy}`);
    announce(result.ok ? change.note : result.reason);
  };
  const takeListed = (place: ListedPlace) => {
    const edits = withGroup(plan, placeEdits(place));
    const result = app.run({ kind: 'set values', file: 'day', edits, label: `place ${place.name}` });
    setNote(
      result.ok ? `${place.name}: ground and clock are set with it. The list is rounded to 0.1°.` : result.reason,
    );
    announce(result.ok ? `${place.name} is the place` : result.reason);
  };
  const isShort = plainTextAt(plan, 'place') !== undefined;
  const expand = () =>
    app.run({
      kind: 'set values',
      file: 'day',
      edits: [{ path: 'place' }, { path: 'place.at', text: plainTextAt(plan, 'place') ?? '' }],
      label: 'place with name and altitude',
    });
  return (
    <Panel title="Where" finding={<Finding />}>
      <div className={styles.fields}>
        <Coordinates plan={plan} onTake={take} />
        <Search onTake={takeListed} />
      </div>
      {note !== '' && <StatusText>{note}</StatusText>}
      <Suspense fallback={<div className={styles.mapRoom}>The map is loading …</div>}>
        {complete !== undefined && (
          <WorldMap latitude={complete.latitude} longitude={complete.longitude} onTake={take} />
        )}
      </Suspense>
      <div className={styles.fields}>
        {isShort ? (
          <Button onPress={expand}>State name and altitude too</Button>
        ) : (
          <>
            <PlainField path="place.name" label="Name of the place" />
            <UnitField file="day" path="place.altitude" label="Altitude of the ground" />
          </>
        )}
        <Zone />
      </div>
    </Panel>
  );
}

/** Where, and how long the sun is up, in words. */
function Finding(): ReactNode {
  const view = useVerdict();
  if (view === undefined) return null;
  const { plan, sun } = view;
  const first = sun.daylight.find(({ start }) => start < 24);
  const up =
    first === undefined
      ? 'the sun stays down'
      : first.end - first.start > 23.9
        ? 'the sun stays up'
        : `sun up ${clockText(first.start)} to ${clockText(first.end)}`;
  return (
    <>
      {plan.placeName ?? 'A place without a name'}: {up}, clock {offsetWords(plan.utcOffset)}.
    </>
  );
}

/** Coordinates with the decimal mark of the person, where they are read back as the same place. */
function localPlace(text: string): string {
  const local = localNumbers(text);
  const [before, after] = [parsePlace(text), parsePlace(local)];
  const isSame = before.ok && after.ok && before.latitude === after.latitude && before.longitude === after.longitude;
  return isSame ? local : text;
}

/** Typed coordinates in several notations; what was understood is said before it is taken. */
function Coordinates(props: {
  readonly plan: string;
  readonly onTake: (at: { readonly latitude: number; readonly longitude: number }) => void;
}): ReactNode {
  const { plan, onTake } = props;
  const { app } = useServices();
  const id = useId();
  const path = plainTextAt(plan, 'place') === undefined ? 'place.at' : 'place';
  const shown = localPlace(plainTextAt(plan, path) ?? '');
  const [draft, setDraft] = useState<string>();
  const text = draft ?? shown;
  const read = useMemo(() => parsePlace(text), [text]);
  const focus = useAppState((state) => state.ui.focus);
  useEffect(() => {
    if (focus?.file !== 'day' || !['place', 'place.at'].includes(focus.path)) return;
    const element = document.getElementById(id);
    if (element !== null) leadTo(element);
    app.setUi({ focus: undefined });
  }, [focus, id, app]);
  const commit = () => {
    if (draft === undefined || draft.trim() === shown) return setDraft(undefined);
    if (!read.ok) return;
    onTake(read);
    setDraft(undefined);
  };
  const degrees = (angle: number) => ((angle * 180) / Math.PI).toFixed(3);
  return (
    <TextField
      id={id}
      label="Coordinates"
      value={text}
      onChange={setDraft}
      onCommit={commit}
      description={
        read.ok
          ? localNumbers(`read as latitude ${degrees(read.latitude)}°, longitude ${degrees(read.longitude)}°`)
          : localNumbers("such as 40.7 N 0.9 E, or 40°42'N 0°54'E")
      }
      {...(read.ok || draft === undefined ? {} : { problem: `Expected ${read.expected}. ${read.hint}` })}
    />
  );
}

/** Places by name. */
function Search({ onTake }: { readonly onTake: (place: ListedPlace) => void }): ReactNode {
  const [typed, setTyped] = useState('');
  const found = useMemo(() => findPlaces(typed, 6), [typed]);
  const take = (place: ListedPlace) => {
    onTake(place);
    setTyped('');
  };
  return (
    <div className={styles.search}>
      <TextField
        label="Place by name"
        type="search"
        value={typed}
        onChange={setTyped}
        description="a list on this device; Enter is not needed, choose below"
      />
      {typed.trim() !== '' && (
        <ul className={styles.found} aria-label="Places found">
          {found.map((place) => (
            <li key={`${place.name} ${place.country}`}>
              <Button kind="quiet" onPress={() => take(place)}>
                {place.name}, {place.country}
              </Button>
            </li>
          ))}
          {found.length === 0 && <li>No place of that name: type its coordinates, or choose on the map.</li>}
        </ul>
      )}
    </div>
  );
}

/** The clock of the place, with what it means on the date. */
function Zone(): ReactNode {
  const field = useField('time zone', 'day');
  const view = useVerdict();
  const text = field?.text ?? '';
  const meaning =
    view === undefined
      ? undefined
      : text.includes('/')
        ? zoneText(text, view.plan.date)
        : `${offsetWords(view.plan.utcOffset)}${field?.written ? '' : ', from the longitude: state the clock where it differs, as in summer time'}`;
  return (
    <PlainField
      path="time zone"
      label="Time zone"
      placeholder="Europe/Madrid or +02:00"
      {...(meaning === undefined ? {} : { description: meaning })}
    />
  );
}
