import { type ReactNode, useState } from 'react';
import type { ArrayView } from '../../../core/view-array-types.js';
import { Button, Select, TextField } from '../../kit/index.js';
import computed from '../computed.module.css';
import { freeName } from '../entries.js';
import { useDesignReading, useEdit } from '../use-design.js';
import styles from './array.module.css';
import { splitEdits } from './split.js';

const fresh = 'a new string';
const own = 'a converter of its own';

export interface SplitFormProps {
  readonly view: ArrayView;
  readonly selected: number;
  readonly marked: readonly number[];
  readonly onMark: (cells: readonly number[]) => void;
}

/** Marks cells, by press, by row and by number, and gives them to another string. */
export function SplitForm({ view, selected, marked, onMark }: SplitFormProps): ReactNode {
  const { text, aircraft } = useDesignReading();
  const { setValues, problem, say } = useEdit();
  const [to, setTo] = useState(fresh);
  const [converter, setConverter] = useState(own);
  const strings = view.strings.map(({ name }) => name);
  const converters = aircraft?.array?.converters.map(({ name }) => name) ?? [];
  const goal = to === fresh || !strings.includes(to) ? freeName(strings, view.cells[marked[0] ?? selected]!.row) : to;
  const isNew = !strings.includes(goal);
  const give = () => {
    const array = aircraft?.array;
    if (array === undefined) return;
    const places = marked.map((cell) => view.cells[cell]!);
    const sides = (row: string, side: 'right' | 'left') =>
      view.cells.filter((cell) => cell.row === row && cell.side === side).length;
    const target = { string: goal, ...(isNew && converter !== own ? { converter } : {}) };
    const split = splitEdits(text, array, places, target, sides);
    if (!split.ok) return say(split.reason);
    if (setValues(split.edits, `${cellCount(marked.length)} to string "${goal}"`)) onMark([]);
  };
  return (
    <div className={styles.split}>
      <h4>Give cells to another string</h4>
      <MarkButtons view={view} selected={selected} marked={marked} onMark={onMark} />
      <ByNumber view={view} marked={marked} onMark={onMark} />
      <div className={computed.controls}>
        <Select
          label="To string"
          value={isNew ? fresh : to}
          choices={[fresh, ...strings].map((name) => ({ value: name, label: name }))}
          onChange={setTo}
        />
        {isNew && (
          <Select
            label="Through"
            value={converter}
            choices={[own, ...converters].map((name) => ({ value: name, label: name }))}
            onChange={setConverter}
          />
        )}
        <Button
          kind="main"
          disabled={marked.length === 0}
          hint={marked.length === 0 ? 'mark cells first' : ''}
          onPress={give}
        >
          {marked.length === 0 ? 'Give marked cells' : `Give ${cellCount(marked.length)}`}
        </Button>
      </div>
      {problem !== undefined && <p role="alert">{`Not done: ${problem}.`}</p>}
    </div>
  );
}

const cellCount = (count: number): string => `${count} ${count === 1 ? 'cell' : 'cells'}`;

function MarkButtons({ view, selected, marked, onMark }: SplitFormProps): ReactNode {
  const chosen = view.cells[selected]!;
  const add = (keep: (cell: ArrayView['cells'][number]) => boolean) => () =>
    onMark([...new Set([...marked, ...view.cells.flatMap((cell, c) => (keep(cell) ? [c] : []))])]);
  const isMarked = marked.includes(selected);
  return (
    <div className={styles.buttons}>
      <Button
        pressed={isMarked}
        onPress={() => onMark(isMarked ? marked.filter((cell) => cell !== selected) : [...marked, selected])}
      >
        Mark this cell
      </Button>
      <Button onPress={add(({ row, side }) => row === chosen.row && side === chosen.side)}>
        Mark its half of the row
      </Button>
      <Button onPress={add(({ row }) => row === chosen.row)}>Mark its row</Button>
      <Button kind="quiet" disabled={marked.length === 0} onPress={() => onMark([])}>
        Mark none
      </Button>
    </div>
  );
}

/** Cells by number: a stretch of one half of a row. */
function ByNumber({ view, marked, onMark }: Omit<SplitFormProps, 'selected'>): ReactNode {
  const halves = [...new Set(view.cells.map(({ row, side }) => `${row}, ${side} side`))];
  const [half, setHalf] = useState(halves[0]!);
  const [first, setFirst] = useState('1');
  const [last, setLast] = useState('1');
  const [problem, setProblem] = useState<string>();
  const at = halves.includes(half) ? half : halves[0]!;
  const cells = view.cells.flatMap(({ row, side, place }, c) => (`${row}, ${side} side` === at ? [{ c, place }] : []));
  const mark = () => {
    const [from, to] = [Number(first), Number(last)];
    const fits = Number.isInteger(from) && Number.isInteger(to) && from >= 1 && to >= from && to <= cells.length;
    setProblem(fits ? undefined : `numbers from 1 to ${cells.length}, the first not above the last`);
    if (!fits) return;
    const found = cells.filter(({ place }) => place + 1 >= from && place + 1 <= to).map(({ c }) => c);
    onMark([...new Set([...marked, ...found])]);
  };
  return (
    <div className={computed.controls}>
      <Select
        label="Or by number, from the root"
        value={at}
        choices={halves.map((name) => ({ value: name, label: name }))}
        onChange={setHalf}
      />
      <div className={styles.number}>
        <TextField
          label="First cell"
          value={first}
          onChange={setFirst}
          {...(problem === undefined ? {} : { problem })}
        />
      </div>
      <div className={styles.number}>
        <TextField label="Last cell" value={last} onChange={setLast} />
      </div>
      <Button onPress={mark}>Mark these</Button>
    </div>
  );
}
