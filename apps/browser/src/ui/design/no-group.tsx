import type { ReactNode } from 'react';
import type { ValueEdit } from '../../core/commands.js';
import { Button, Panel, useField, useServices } from '../kit/index.js';
import styles from './design.module.css';
import { freeName } from './entries.js';
import { useEdit, useKeys } from './use-design.js';

const words = {
  array: { title: 'No cells', add: 'Put cells on it' },
  battery: { title: 'No battery', add: 'Put a battery in' },
  drive: { title: 'No drive', add: 'Describe motor and propeller' },
} as const;

/** What a group starts with; numbers are left to what is assumed. */
function startOf(path: keyof typeof words, wing: string): readonly ValueEdit[] {
  if (path === 'array') {
    const row = `array.rows.${freeName([], 'row')}`;
    return [
      { path: `${row}.on`, text: wing },
      { path: `${row}.from`, text: '5 %' },
      { path: `${row}.to`, text: '95 %' },
      { path: `${row}.cells`, text: '16' },
    ];
  }
  if (path === 'battery') return [{ path: 'battery.layout', text: '3S1P' }];
  return [{ path: 'drive.propeller', text: '10x6 in' }];
}

/** A part of the aircraft that is not described: said, with the way to add it. */
export function NoGroup({ path }: { readonly path: keyof typeof words }): ReactNode {
  const { app } = useServices();
  const { setValues, problem } = useEdit();
  const field = useField(path);
  const [wing = 'wing'] = useKeys('surfaces');
  const add = () => {
    const start = startOf(path, wing);
    const edits = field?.written ? [{ path }, ...start] : start;
    if (setValues(edits, words[path].add)) app.setUi({ focus: { file: 'design', path: start.at(-1)!.path } });
  };
  return (
    <Panel
      level={3}
      title={path === 'drive' && field?.written !== true ? 'The drive is assumed' : words[path].title}
      finding={
        field?.written
          ? `The file says so: ${path}: ${field.text}.`
          : 'The file says nothing of it; what it leaves out is assumed.'
      }
    >
      <Button kind="main" onPress={add}>
        {words[path].add}
      </Button>
      {problem !== undefined && <p className={styles.problem}>{problem}</p>}
    </Panel>
  );
}
