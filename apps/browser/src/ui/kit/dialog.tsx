import { type ReactNode, useEffect, useId, useRef } from 'react';
import { Button } from './button.js';
import { classes } from './classes.js';
import styles from './kit.module.css';

export interface DialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
  /** Buttons at its foot; without any there is 'Close'. */
  readonly actions?: ReactNode;
  readonly wide?: boolean;
}

/** A question above the page: the rest waits, Escape closes, the focus returns to where it was. Render it while it is open. */
export function Dialog({ title, onClose, children, actions, wide = false }: DialogProps): ReactNode {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const element = dialog.current;
    const before = document.activeElement;
    if (element !== null && !element.open) element.showModal();
    return () => {
      element?.close();
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={dialog}
      className={classes(styles.dialog, wide && styles.wide)}
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <h2 id={id}>{title}</h2>
      <div className={styles.dialogBody}>{children}</div>
      <div className={styles.dialogFoot}>{actions ?? <Button onPress={onClose}>Close</Button>}</div>
    </dialog>
  );
}
