import type { ReactNode, Ref } from 'react';
import { classes } from './classes.js';
import { Icon, type IconName } from './icons.js';
import styles from './kit.module.css';

export interface ButtonProps {
  readonly children: ReactNode;
  readonly onPress?: () => void;
  /** main: the one thing to do here; quiet: without a frame; danger: takes something away. */
  readonly kind?: 'plain' | 'main' | 'quiet' | 'danger';
  readonly icon?: IconName;
  /** For toggles. */
  readonly pressed?: boolean;
  /** Still reachable by the keyboard, so that its reason can be read. */
  readonly disabled?: boolean;
  /** Said as tooltip and description: for instance why it is disabled, or its shortcut. */
  readonly hint?: string;
  readonly expanded?: boolean;
  readonly popup?: 'menu' | 'dialog';
  readonly label?: string;
  /** The words show only where there is room; screen readers always have them. */
  readonly compact?: boolean;
  readonly submits?: boolean;
  readonly ref?: Ref<HTMLButtonElement>;
}

/** A button with words. */
export function Button(props: ButtonProps): ReactNode {
  const { children, onPress, kind = 'plain', icon, pressed, disabled = false, hint, compact = false, ref } = props;
  return (
    <button
      ref={ref}
      type={props.submits ? 'submit' : 'button'}
      className={classes(styles.button, styles[kind], compact && styles.compact)}
      aria-pressed={pressed}
      aria-disabled={disabled || undefined}
      aria-expanded={props.expanded}
      aria-haspopup={props.popup}
      aria-label={props.label}
      title={hint}
      onClick={(event) => {
        if (disabled) event.preventDefault();
        else onPress?.();
      }}
    >
      {icon !== undefined && <Icon name={icon} />}
      <span className={styles.words}>{children}</span>
    </button>
  );
}

/** A button with a picture and its words; with `compact` the words give way on narrow screens. */
export const IconButton = ({ icon, ...rest }: ButtonProps & { readonly icon: IconName }): ReactNode => (
  <Button icon={icon} {...rest} />
);
