import { lazy, type ReactNode, Suspense, useRef, useState } from 'react';
import { Button, type ButtonProps } from './button.js';

export interface MenuItem {
  readonly id: string;
  readonly label: string;
  readonly run: () => void;
  readonly shortcut?: string;
  readonly disabled?: boolean;
  /** Items of one group stand together under its name. */
  readonly group?: string;
}

const MenuList = lazy(async () => ({ default: (await import('./menu-list.js')).MenuList }));

export interface MenuProps extends Pick<ButtonProps, 'icon' | 'kind' | 'compact' | 'hint'> {
  /** Words of the button. */
  readonly label: ReactNode;
  /** Name of the list for screen readers, where the label is no text. */
  readonly name?: string;
  readonly items: readonly MenuItem[];
}

/** A button that opens a list of commands; the list is loaded when it is first wanted. */
export function Menu({ label, name, items, ...button }: MenuProps): ReactNode {
  const [open, setOpen] = useState(false);
  const trigger = useRef<HTMLButtonElement>(null);
  return (
    <>
      <Button ref={trigger} {...button} popup="menu" expanded={open} onPress={() => setOpen(!open)}>
        {label}
      </Button>
      {open && (
        <Suspense fallback={null}>
          <MenuList
            trigger={trigger}
            name={name ?? (typeof label === 'string' ? label : 'Menu')}
            items={items}
            onClose={() => setOpen(false)}
          />
        </Suspense>
      )}
    </>
  );
}
