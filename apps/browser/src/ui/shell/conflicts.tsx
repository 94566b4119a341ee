import type { ReactNode } from 'react';
import type { Conflict } from '../../core/folder.js';
import { fileRole } from '../../core/project.js';
import { differences } from '../compare/differences.js';
import { Button } from '../kit/button.js';
import { Dialog } from '../kit/dialog.js';
import { useServices } from '../kit/services.js';
import { Table } from '../kit/surfaces.js';
import { settleConflict, useFolders } from './folders.js';
import styles from './shell.module.css';

const shown = (text: string | null): string => text ?? '(the file is gone)';

/** More than this is read in the texts themselves. */
const mostValues = 12;

/** What the two say differently, value by value, where both can be read so. */
function Values({ path, here, outside }: Pick<Conflict, 'path' | 'here' | 'outside'>): ReactNode {
  const role = fileRole(path, here ?? outside ?? '');
  if (here === null || outside === null || (role !== 'design' && role !== 'plan')) return null;
  const found = differences(role === 'plan' ? 'day' : 'design', here, outside);
  if (found.length === 0) return <p>They say the same: only spaces, order or comments differ.</p>;
  return (
    <Table
      caption={
        found.length > mostValues
          ? `The first ${mostValues} of ${found.length} values that differ`
          : 'The values that differ'
      }
      columns={[
        { key: 'path', label: 'value' },
        { key: 'here', label: 'in this page' },
        { key: 'outside', label: 'in the folder' },
      ]}
      rows={found.slice(0, mostValues).map(({ path: key, mine, other }) => ({
        path: key,
        here: mine ?? 'not stated',
        outside: other ?? 'not stated',
      }))}
    />
  );
}

/** A file of an open folder that changed here and outside: both texts, and the choice which to keep. */
export default function Conflicts(): ReactNode {
  const services = useServices();
  const conflict = useFolders((state) => state.conflicts[0]);
  if (conflict === undefined) return null;
  const settle = (keepHere: boolean) => settleConflict(services, conflict, keepHere);
  return (
    <Dialog
      wide
      title={`${conflict.path} changed on both sides`}
      onClose={() => settle(true)}
      actions={
        <>
          <Button onPress={() => settle(false)}>Take the one of the folder</Button>
          <Button kind="main" onPress={() => settle(true)}>
            Keep the one of this page
          </Button>
        </>
      }
    >
      <p>Which one shall stay? Undo brings back what the page had.</p>
      <Values {...conflict} />
      <div className={styles.both}>
        <section>
          <h3>In this page</h3>
          <pre>{shown(conflict.here)}</pre>
        </section>
        <section>
          <h3>In the folder</h3>
          <pre>{shown(conflict.outside)}</pre>
        </section>
      </div>
    </Dialog>
  );
}
