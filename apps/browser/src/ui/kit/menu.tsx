import { type KeyboardEvent, type ReactNode, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { Button, type ButtonProps } from './button.js';
import { classes } from './classes.js';
import styles from './kit.module.css';

export interface MenuItem {
  readonly id: string;
  readonly label: string;
  readonly run: () => void;
  readonly shortcut?: string;
  readonly disabled?: boolean;
  /** Items of one group stand together under its name. */
  readonly group?: string;
}

export interface MenuProps extends Pick<ButtonProps, 'icon' | 'kind' | 'compact' | 'hint'> {
  /** Words of the button. */
  readonly label: ReactNode;
  /** Name of the list for screen readers, where the label is no text. */
  readonly name?: string;
  readonly items: readonly MenuItem[];
}

/** A button that opens a list of commands: arrow keys, first letters, Escape. */
export function Menu({ label, name, items, ...button }: MenuProps): ReactNode {
  const [open, setOpen] = useState(false);
  const root = useRef<HTMLDivElement>(null);
  const trigger = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (!open) return;
    const onPointer = (event: globalThis.PointerEvent) => {
      if (!root.current?.contains(event.target as Node)) setOpen(false);
    };
    document.addEventListener('pointerdown', onPointer);
    return () => document.removeEventListener('pointerdown', onPointer);
  }, [open]);
  const close = () => {
    setOpen(false);
    trigger.current?.focus();
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: it hears what bubbles up from the button and the list
    <div
      ref={root}
      className={styles.menuRoot}
      onBlur={(event) => {
        if (event.relatedTarget instanceof Node && !event.currentTarget.contains(event.relatedTarget)) setOpen(false);
      }}
      onKeyDown={(event) => {
        if (open || event.key !== 'ArrowDown' || event.target !== trigger.current) return;
        event.preventDefault();
        setOpen(true);
      }}
    >
      <Button ref={trigger} {...button} popup="menu" expanded={open} onPress={() => setOpen(!open)}>
        {label}
      </Button>
      {open && <MenuList name={name ?? (typeof label === 'string' ? label : 'Menu')} items={items} onClose={close} />}
    </div>
  );
}

interface MenuListProps {
  readonly name: string;
  readonly items: readonly MenuItem[];
  readonly onClose: () => void;
}

/** Where the keys lead in a list. */
function nextItem(entries: readonly HTMLElement[], at: number, key: string): HTMLElement | undefined {
  const count = entries.length;
  if (key === 'ArrowDown') return entries[(at + 1) % count];
  if (key === 'ArrowUp') return entries[(at + count - 1) % count];
  if (key === 'Home') return entries[0];
  if (key === 'End') return entries[count - 1];
  if (key.length !== 1 || key === ' ') return undefined;
  const after = [...entries.slice(at + 1), ...entries.slice(0, at + 1)];
  return after.find((entry) => entry.textContent?.toLowerCase().startsWith(key.toLowerCase()));
}

function MenuList({ name, items, onClose }: MenuListProps): ReactNode {
  const list = useRef<HTMLDivElement>(null);
  const [beyond, setBeyond] = useState(false);
  useLayoutEffect(() => {
    const found = list.current;
    if (found === null) return;
    setBeyond(found.getBoundingClientRect().right > document.documentElement.clientWidth - 4);
    found.querySelector<HTMLElement>('[role="menuitem"]')?.focus();
  }, []);
  const groups = [...new Set(items.map(({ group }) => group ?? ''))];
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Escape' || event.key === 'Tab') {
      event.preventDefault();
      event.stopPropagation();
      return onClose();
    }
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const entries = [...(list.current?.querySelectorAll<HTMLElement>('[role="menuitem"]') ?? [])];
    const next = nextItem(entries, entries.indexOf(document.activeElement as HTMLElement), event.key);
    if (next === undefined) return;
    event.preventDefault();
    next.focus();
  };
  return (
    <div
      ref={list}
      role="menu"
      aria-label={name}
      className={classes(styles.menu, beyond && styles.menuBeyond)}
      tabIndex={-1}
      onKeyDown={onKeyDown}
    >
      {groups.map((group) => (
        // biome-ignore lint/a11y/useSemanticElements: a group of a menu is no fieldset
        <div key={group} role="group" aria-label={group === '' ? undefined : group} className={styles.menuGroup}>
          {group !== '' && <p aria-hidden="true">{group}</p>}
          {items
            .filter((item) => (item.group ?? '') === group)
            .map((item) => (
              <Item key={item.id} item={item} onClose={onClose} />
            ))}
        </div>
      ))}
    </div>
  );
}

const Item = ({ item, onClose }: { readonly item: MenuItem; readonly onClose: () => void }): ReactNode => (
  <button
    type="button"
    role="menuitem"
    tabIndex={-1}
    className={styles.menuItem}
    aria-disabled={item.disabled || undefined}
    aria-keyshortcuts={item.shortcut}
    onClick={() => {
      if (item.disabled) return;
      onClose();
      item.run();
    }}
  >
    {item.label}
    {item.shortcut !== undefined && <span aria-hidden="true">{item.shortcut}</span>}
  </button>
);
