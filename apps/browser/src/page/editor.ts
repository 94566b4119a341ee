import type { FileMessage } from '../answer.js';
import { element } from './elements.js';

export interface Editor {
  readonly root: HTMLElement;
  readonly text: () => string;
  readonly setText: (text: string) => void;
  readonly showMessages: (messages: readonly FileMessage[]) => void;
}

/** The design file as text, and what reading it found, by line. */
export function createEditor(onEdit: () => void, onReset: () => void): Editor {
  const area = element('textarea', {
    id: 'design',
    spellcheck: 'false',
    autocomplete: 'off',
    autocapitalize: 'off',
    wrap: 'off',
    rows: '24',
    'aria-describedby': 'design-about design-messages',
  });
  const where = element('p', { class: 'where' });
  const found = element('div', { id: 'design-messages', class: 'messages', role: 'status' });
  const save = element('button', { type: 'button' }, 'Save as a file');
  const reset = element('button', { type: 'button' }, 'Back to the example');
  area.addEventListener('input', onEdit);
  for (const event of ['keyup', 'click', 'input', 'focus']) area.addEventListener(event, () => tellLine(area, where));
  save.addEventListener('click', () => download(area.value));
  reset.addEventListener('click', onReset);
  return {
    root: element(
      'section',
      { class: 'editor', 'aria-labelledby': 'design-heading' },
      element('h2', { id: 'design-heading' }, element('label', { for: 'design' }, 'The design file')),
      element(
        'p',
        { id: 'design-about', class: 'example' },
        'Change any number; every one carries its unit. Try the battery: its x is mm aft of the datum.',
      ),
      area,
      where,
      found,
      element('p', { class: 'buttons' }, save, reset),
    ),
    text: () => area.value,
    setText: (text) => {
      area.value = text;
      area.setSelectionRange(0, 0);
      area.scrollTop = 0;
      tellLine(area, where);
    },
    showMessages: (messages) => found.replaceChildren(...messageList(area, where, messages)),
  };
}

function messageList(
  area: HTMLTextAreaElement,
  where: HTMLElement,
  messages: readonly FileMessage[],
): readonly HTMLElement[] {
  if (messages.length === 0) return [];
  const items = messages.map((message) => {
    const go = element('button', { type: 'button', class: 'line' }, `Line ${message.line}`);
    go.addEventListener('click', () => selectLine(area, message.line, where));
    const path = message.path === '' ? '' : `${message.path}: `;
    return element('li', { class: message.severity }, go, ` ${message.severity}: ${path}${message.text}`);
  });
  return [element('ul', {}, ...items)];
}

function tellLine(area: HTMLTextAreaElement, where: HTMLElement): void {
  const line = area.value.slice(0, area.selectionStart).split('\n').length;
  where.textContent = `Line ${line} of ${area.value.split('\n').length}`;
}

/** Puts the caret on a line and the line into sight. */
function selectLine(area: HTMLTextAreaElement, line: number, where: HTMLElement): void {
  const lines = area.value.split('\n');
  const start = lines.slice(0, line - 1).reduce((sum, text) => sum + text.length + 1, 0);
  area.focus();
  area.setSelectionRange(start, start + (lines[line - 1]?.length ?? 0));
  area.scrollTop = Math.max(0, ((line - 4) / lines.length) * area.scrollHeight);
  area.scrollLeft = 0;
  where.textContent = `Line ${line} of ${lines.length}`;
}

function download(text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'text/yaml' }));
  const name = /^name:\s*([\w -]+)/m.exec(text)?.[1]?.trim().toLowerCase().replaceAll(' ', '-') ?? 'design';
  element('a', { href: address, download: `${name}.yaml` }).click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
