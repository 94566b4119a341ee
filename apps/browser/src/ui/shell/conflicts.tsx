import type { ReactNode } from 'react';
import { Button } from '../kit/button.js';
import { Dialog } from '../kit/dialog.js';
import { useServices } from '../kit/services.js';
import { settleConflict, useFolders } from './folders.js';
import styles from './shell.module.css';

const shown = (text: string | null): string => text ?? '(the file is gone)';

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
