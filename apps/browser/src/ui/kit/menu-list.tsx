import type { ReactNode, RefObject } from 'react';
import { Header, Keyboard, Menu, MenuItem, MenuSection, Popover, Text } from 'react-aria-components';
import styles from './kit.module.css';
import type { MenuItem as Item } from './menu.js';

interface MenuListProps {
  readonly trigger: RefObject<HTMLButtonElement | null>;
  readonly name: string;
  readonly items: readonly Item[];
  readonly onClose: () => void;
}

const entry = ({ id, label, shortcut, disabled }: Item): ReactNode => (
  <MenuItem key={id} id={id} textValue={label} className={styles.menuItem} isDisabled={disabled ?? false}>
    <Text slot="label">{label}</Text>
    {shortcut !== undefined && <Keyboard>{shortcut}</Keyboard>}
  </MenuItem>
);

/** The open list of a menu button: arrow keys, typing a name, Escape. */
export function MenuList({ trigger, name, items, onClose }: MenuListProps): ReactNode {
  const groups = [...new Set(items.map(({ group }) => group ?? ''))];
  const of = (group: string) => items.filter((item) => (item.group ?? '') === group);
  return (
    <Popover
      triggerRef={trigger}
      isOpen
      placement="bottom start"
      className={styles.popover}
      onOpenChange={(open) => {
        if (!open) onClose();
      }}
    >
      <Menu
        aria-label={name}
        className={styles.menu}
        autoFocus="first"
        onAction={(id) => {
          onClose();
          items.find((item) => item.id === id)?.run();
        }}
        onClose={onClose}
      >
        {groups.map((group) =>
          group === '' ? (
            of(group).map(entry)
          ) : (
            <MenuSection key={group} className={styles.menuGroup}>
              <Header>{group}</Header>
              {of(group).map(entry)}
            </MenuSection>
          ),
        )}
      </Menu>
    </Popover>
  );
}
