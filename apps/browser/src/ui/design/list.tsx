import type { ReactNode } from 'react';
import { fieldWords } from '../../core/field-text.js';
import { keysAt } from '../../core/fields.js';
import { Button, useServices } from '../kit/index.js';
import styles from './design.module.css';
import { insertListItem, listTexts } from './entries.js';
import { DesignField } from './field.js';
import { formAt, lastKey } from './schema.js';
import { betweenStations } from './stations.js';
import { useDesignReading, useDesignText, useEdit, useKeys } from './use-design.js';

/** Layers of skins and sheets, from outside inwards. */
const isLayers = (path: string): boolean => /(^|\.)(skins|(upper|lower) skin|layers)$/.test(path);

/** What a new layer is of until it is chosen. */
const usualLayer = 'glass fabric 49 g/m2 with epoxy';

const singular = (path: string): string => {
  const key = lastKey(path);
  if (isLayers(path)) return 'layer';
  return key === 'stations' ? 'station' : key === 'rows' ? 'row' : 'point';
};

/** What a new point of a list starts with. */
const STARTS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  geometry: { radius: '50 %', chord: '15 %', angle: '15 deg' },
  measured: { 'advance ratio': '0.5', 'thrust coefficient': '0.08', 'power coefficient': '0.05' },
};

/** Entries without names: stations from root to tip, rows of a string, points of a table. */
export function ListOf({ path }: { readonly path: string }): ReactNode {
  const keys = useKeys(path);
  const word = singular(path);
  const item = formAt(`${path}[1]`);
  if (keys.length === 0 && item?.form === 'group') return <AddPoint path={path} count={0} />;
  return (
    <div className={styles.entries}>
      <h4 className={styles.entriesTitle}>{lastKey(path)}</h4>
      <div className={item?.form === 'group' ? styles.entries : styles.fields}>
        {keys.map((key, i) => (
          <ListItem key={key} path={path} index={i} count={keys.length} word={word} />
        ))}
      </div>
      <AddPoint path={path} count={keys.length} />
    </div>
  );
}

interface ItemProps {
  readonly path: string;
  readonly index: number;
  readonly count: number;
  readonly word: string;
}

function ListItem({ path, index, count, word }: ItemProps): ReactNode {
  const { setValues } = useEdit();
  const itemPath = `${path}[${index + 1}]`;
  const name = `${word} ${index + 1}`;
  const least = word === 'row' ? 1 : word === 'layer' ? 0 : 2;
  const remove = count > least && (
    <Button
      kind="quiet"
      label={`Remove ${name} of ${fieldWords('design', path)}`}
      onPress={() => setValues([{ path: itemPath }], `remove ${name} of ${fieldWords('design', path)}`)}
    >
      Remove
    </Button>
  );
  if (formAt(itemPath)?.form !== 'group') {
    return (
      <div>
        <DesignField path={itemPath} label={name} brief />
        {remove}
      </div>
    );
  }
  return (
    <div className={styles.entry}>
      <div className={styles.entryHead}>
        <h5>{name}</h5>
        {word === 'station' && index < count - 1 && <StationAfter path={path} index={index} />}
        {remove}
      </div>
      <DesignField path={itemPath} label={name} brief />
    </div>
  );
}

function StationAfter({ path, index }: { readonly path: string; readonly index: number }): ReactNode {
  const { setText } = useEdit();
  const { text } = useDesignText();
  const { aircraft } = useDesignReading();
  const name = path.split('.')[1]!;
  const surface = aircraft?.surfaces.find((one) => one.name === name);
  const [inner, outer] = [surface?.stations[index], surface?.stations[index + 1]];
  if (inner === undefined || outer === undefined) return null;
  return (
    <Button
      kind="quiet"
      label={`Add one after it: after station ${index + 1} of ${name}`}
      onPress={() =>
        setText(insertListItem(text, path, index + 1, betweenStations(inner, outer)), `add a station of ${name}`)
      }
    >
      Add one after it
    </Button>
  );
}

function AddPoint({ path, count }: { readonly path: string; readonly count: number }): ReactNode {
  const { app } = useServices();
  const { setValues, problem } = useEdit();
  const { text } = useDesignText();
  const key = lastKey(path);
  if (key === 'stations') return null;
  if (key === 'rows') {
    const strings = keysAt('design', text, 'array.strings').flatMap((name) =>
      listTexts(text, `array.strings.${name}.rows`),
    );
    const loose = keysAt('design', text, 'array.rows').filter((row) => !strings.includes(row));
    return (
      <div className={styles.actions}>
        {loose.map((row) => (
          <Button
            key={row}
            onPress={() =>
              setValues(
                [{ path: `${path}[${count + 1}]`, text: row }],
                `row "${row}" into ${fieldWords('design', path)}`,
              )
            }
          >
            {`Add row ${row}`}
          </Button>
        ))}
      </div>
    );
  }
  if (isLayers(path)) {
    const at = `${path}[${count + 1}]`;
    return (
      <div>
        <Button
          kind="quiet"
          label={`Add a layer of ${fieldWords('design', path)}`}
          onPress={() => {
            if (setValues([{ path: at, text: usualLayer }], `add a layer of ${fieldWords('design', path)}`))
              app.setUi({ focus: { file: 'design', path: at } });
          }}
        >
          Add a layer
        </Button>
        {problem !== undefined && <p className={styles.problem}>{problem}</p>}
      </div>
    );
  }
  const start = STARTS[key];
  if (start === undefined) return null;
  const add = () => {
    // A table needs its least number of points at once.
    const first = key === 'geometry' ? 3 : 2;
    const edits = Array.from({ length: count === 0 ? first : 1 }, (_, i) =>
      Object.entries(start).map(([name, value]) => ({
        path: `${path}[${count + i + 1}].${name}`,
        text: name === 'radius' ? `${Math.min(100, 20 + 40 * (count + i))} %` : value,
      })),
    ).flat();
    if (setValues(edits, `add a point of ${fieldWords('design', path)}`))
      app.setUi({ focus: { file: 'design', path: edits[0]!.path } });
  };
  return (
    <div>
      <Button kind="quiet" onPress={add}>
        {count === 0 ? `Describe ${key} point by point` : `Add a point`}
      </Button>
      {problem !== undefined && <p className={styles.problem}>{problem}</p>}
    </div>
  );
}
