import { type ReactNode, useEffect, useState } from 'react';
import { historyList } from '../../core/history.js';
import { Button } from '../kit/button.js';
import { Dialog } from '../kit/dialog.js';
import { TextField } from '../kit/fields.js';
import { useAppState, useServices } from '../kit/services.js';
import { closeDialog, type OpenDialog } from './open-state.js';
import { Palette } from './palette.js';
import { PreferencesDialog } from './preferences.js';
import styles from './shell.module.css';

/** What lies above the page. */
export default function Dialogs({ dialog }: { readonly dialog: OpenDialog }): ReactNode {
  switch (dialog.kind) {
    case 'palette':
      return <Palette />;
    case 'preferences':
      return <PreferencesDialog />;
    case 'rename':
      return <Rename project={dialog.project} />;
    case 'delete':
      return <Delete project={dialog.project} />;
    case 'history':
      return <Steps />;
    case 'cautions':
      return <Cautions />;
    case 'damaged':
      return <Damaged />;
    default:
      return null;
  }
}

function Rename({ project }: { readonly project: string }): ReactNode {
  const { app } = useServices();
  const before = useAppState((state) => state.work.projects[project]?.name ?? '');
  const [name, setName] = useState(before);
  const done = () => {
    if (name.trim() !== '' && name !== before) app.run({ kind: 'rename project', project, name });
    closeDialog();
  };
  return (
    <Dialog
      title="Rename the project"
      onClose={closeDialog}
      actions={
        <>
          <Button onPress={closeDialog}>Cancel</Button>
          <Button kind="main" onPress={done}>
            Rename
          </Button>
        </>
      }
    >
      <form
        onSubmit={(event) => {
          event.preventDefault();
          done();
        }}
      >
        <TextField label="Name" value={name} onChange={setName} autoFocus />
      </form>
    </Dialog>
  );
}

function Delete({ project }: { readonly project: string }): ReactNode {
  const { app, announce } = useServices();
  const found = useAppState((state) => state.work.projects[project]);
  const count = Object.keys(found?.files ?? {}).length;
  const remove = () => {
    app.run({ kind: 'delete project', project });
    announce('Deleted. Undo brings it back.');
    closeDialog();
  };
  return (
    <Dialog
      title={`Delete ${found?.name ?? 'the project'}?`}
      onClose={closeDialog}
      actions={
        <>
          <Button onPress={closeDialog}>Keep it</Button>
          <Button kind="danger" onPress={remove}>
            Delete
          </Button>
        </>
      }
    >
      <p>Its {count} files leave this device. Undo brings them back; a folder opened in place stays as it is.</p>
    </Dialog>
  );
}

/** All steps, newest first; going to one undoes or redoes up to it. */
function Steps(): ReactNode {
  const { app } = useServices();
  const history = useAppState((state) => state.history);
  const steps = historyList(history).toReversed();
  const goTo = (number: number) => {
    const at = () => app.store.getState().history.position;
    while (at() > number && app.undo());
    while (at() < number && app.redo());
  };
  return (
    <Dialog title="All steps" onClose={closeDialog}>
      {steps.length === 0 && <p>Nothing was changed yet.</p>}
      <ol reversed className={styles.steps}>
        {steps.map(({ number, label, done }) => (
          <li key={number} className={done ? undefined : styles.undone}>
            {label}
            {done ? '' : ' (undone)'}
            {number === history.position ? (
              <b> you are here</b>
            ) : (
              <Button kind="quiet" label={`Go to: ${label}`} onPress={() => goTo(number)}>
                Go here
              </Button>
            )}
          </li>
        ))}
      </ol>
      {history.position >= history.oldest && <Button onPress={() => goTo(history.oldest - 1)}>Undo all of it</Button>}
    </Dialog>
  );
}

const Cautions = (): ReactNode => (
  <Dialog title="Cautions" onClose={closeDialog}>
    <p>
      This is computed energy, not a permission to fly. It does not know gusts, radio range, people below or the rules
      of the place.
    </p>
    <ul>
      <li>Take the propeller off for bench work and keep out of its plane.</li>
      <li>Lithium cells burn when crushed, shorted or overcharged.</li>
      <li>An array in light is always live: cover it before wiring.</li>
      <li>
        Weigh and balance the real aircraft, run motor and cells on the bench, keep enough charge to come home without
        sun.
      </li>
      <li>Ask your club and the local rules before flying.</li>
    </ul>
  </Dialog>
);

/** Records that the storage gave back damaged, as they are: something in them may still be of use. */
function Damaged(): ReactNode {
  const [found, setFound] = useState<readonly { readonly key: string; readonly text: string }[]>();
  useEffect(() => {
    const read = async () => {
      const { openBrowserStorage } = await import('../../core/browser-storage.js');
      const storage = await openBrowserStorage();
      const keys = await storage.keys('damaged/');
      setFound(await Promise.all(keys.map(async (key) => ({ key, text: (await storage.get(key)) ?? '' }))));
    };
    void read().catch(() => setFound([]));
  }, []);
  return (
    <Dialog title="What is damaged" onClose={closeDialog} wide>
      {found === undefined && <p>Being read …</p>}
      {found?.length === 0 && <p>Nothing damaged is kept.</p>}
      {found?.map(({ key, text }) => (
        <section key={key}>
          <h3>{key}</h3>
          <pre className={styles.damaged}>{text}</pre>
        </section>
      ))}
    </Dialog>
  );
}
