import type { Command } from './commands.js';
import { fieldWords } from './field-text.js';

const shortened = (text: string): string => {
  const line = text.replace(/\s+/g, ' ').trim();
  return line.length > 40 ? `${line.slice(0, 37)}...` : line;
};

/** In words, for the undo menu. */
export function labelOf(command: Command): string {
  switch (command.kind) {
    case 'set value':
      return command.text.trim() === ''
        ? `${fieldWords(command.file ?? 'design', command.path)}: taken away`
        : `${fieldWords(command.file ?? 'design', command.path)} to ${shortened(command.text)}`;
    case 'set values': {
      const [first] = command.edits;
      if (command.label !== undefined || first === undefined) return command.label ?? 'nothing';
      return labelOf({ kind: 'set value', file: command.file ?? 'design', path: first.path, text: first.text ?? '' });
    }
    case 'drop pending':
      return `restore ${fieldWords(command.file ?? 'design', command.path)}`;
    case 'set text':
      return command.label ?? `text of ${command.path}`;
    case 'add files':
      return command.label ?? `add ${shortened(Object.keys(command.files).join(', '))}`;
    case 'rename file':
      return `rename ${command.from} to ${command.to}`;
    case 'duplicate file':
      return `duplicate ${command.path}`;
    case 'delete file':
      return `delete ${command.path}`;
    case 'new project':
      return `new project ${shortened(command.name)}`;
    case 'rename project':
      return `rename project to ${shortened(command.name)}`;
    case 'duplicate project':
      return 'duplicate project';
    case 'delete project':
      return 'delete project';
    case 'select project':
      return 'open project';
    case 'select design':
    case 'select plan':
      return `look at ${command.path}`;
    case 'compare':
      return command.slot === null ? 'end the comparison' : 'compare';
    case 'take from outside':
      return 'changes from outside';
  }
}
