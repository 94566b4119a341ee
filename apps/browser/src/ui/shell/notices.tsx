import type { ReactNode } from 'react';
import { useStore } from 'zustand';
import type { Notice, NoticeAction } from '../../core/state.js';
import { NoticeList } from '../kit/notices.js';
import { useAppState, useComputeState, useServices } from '../kit/services.js';
import { openDialog } from './open-state.js';
import styles from './shell.module.css';
import { useUpdate } from './updates.js';

const actionWords: Readonly<Record<NoticeAction, string>> = {
  'reopen folder': 'Open it again',
  export: 'Save a copy of everything',
  'take over': 'Take over here',
  retry: 'Try again',
  'show damaged': 'Show what is damaged',
  reload: 'Load again',
  dismiss: 'Close',
};

/** What the user should know of storage, tabs, workers and new versions, with what can be done about it. */
export function Notices(): ReactNode {
  const services = useServices();
  const { app, compute } = services;
  const notices = useAppState((state) => state.notices);
  const workers = useComputeState((state) => state.notices);
  const accept = useStore(useUpdate, (state) => state.accept);
  const act = (action: NoticeAction, notice: Notice) => {
    if (action === 'export') void import('./files.js').then((files) => files.exportEverything(services));
    else if (action === 'take over') void app.takeOver();
    else if (action === 'retry') app.retrySave();
    else if (action === 'reopen folder') void import('./folders.js').then((m) => m.reopenFolder(services, notice.id));
    else if (action === 'reload') location.reload();
    else if (action === 'show damaged') openDialog({ kind: 'damaged' });
    else app.dismiss(notice.id);
  };
  const items = [
    ...notices.map((notice) => ({
      severity: notice.severity,
      text: notice.text,
      actions: notice.actions.map((action) => ({ label: actionWords[action], run: () => act(action, notice) })),
    })),
    ...workers.slice(-1).map((text) => ({
      severity: 'note' as const,
      text,
      actions: [{ label: 'Close', run: () => compute.store.setState({ notices: [] }) }],
    })),
    ...(accept === undefined
      ? []
      : [
          {
            severity: 'note' as const,
            text: 'A new version of noonwing is ready. Everything is saved before it loads.',
            actions: [
              { label: 'Load it now', run: accept },
              { label: 'Later', run: () => useUpdate.setState({ accept: undefined }) },
            ],
          },
        ]),
  ];
  return (
    <div role="status" className={items.length === 0 ? undefined : styles.notices}>
      <NoticeList label="Notices" items={items} />
    </div>
  );
}
