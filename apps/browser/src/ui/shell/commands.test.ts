import { describe, expect, it } from 'vitest';
import { type Command, commandFor, matches, shortcutText } from './commands.js';

const key = (pressed: string, held: Partial<KeyboardEvent> = {}) =>
  ({
    key: pressed,
    code: `Key${pressed.toUpperCase()}`,
    ctrlKey: false,
    metaKey: false,
    altKey: false,
    shiftKey: false,
    target: null,
    ...held,
  }) as KeyboardEvent;

describe('shortcuts', () => {
  it('are matched with every key that belongs to them and no other', () => {
    expect(matches('mod+k', key('k', { ctrlKey: true }))).toBe(true);
    expect(matches('mod+k', key('k', { metaKey: true }))).toBe(true);
    expect(matches('mod+k', key('k'))).toBe(false);
    expect(matches('mod+z', key('Z', { ctrlKey: true, shiftKey: true }))).toBe(false);
    expect(matches('mod+shift+z', key('Z', { ctrlKey: true, shiftKey: true }))).toBe(true);
    expect(matches('alt+1', key('¡', { altKey: true, code: 'Digit1' }))).toBe(true);
  });

  it('are written as the keyboard names them', () => {
    expect(shortcutText('mod+shift+z', false)).toBe('Ctrl+Shift+Z');
    expect(shortcutText('mod+shift+z', true)).toBe('⌘⇧Z');
  });

  it('find their command, also by the second shortcut of redo', () => {
    const command = (id: string, shortcut: string): Command => ({
      id,
      label: id,
      group: 'Edit',
      shortcut,
      run: () => {},
      enabled: true,
    });
    const commands = [command('undo', 'mod+z'), command('redo', 'mod+shift+z')];
    expect(commandFor(commands, key('z', { ctrlKey: true }))?.id).toBe('undo');
    expect(commandFor(commands, key('y', { ctrlKey: true }))?.id).toBe('redo');
    expect(commandFor(commands, key('x', { ctrlKey: true }))).toBeUndefined();
    // A text that is being typed keeps its own undo.
    const typing = { matches: (selector: string) => selector.includes('textarea') } as unknown as EventTarget;
    expect(commandFor(commands, key('z', { ctrlKey: true, target: typing }))).toBeUndefined();
  });
});
