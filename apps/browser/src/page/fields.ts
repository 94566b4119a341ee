import { parsePlace } from '@noonwing/quantities';
import { type FieldKind, faultText, fieldKinds } from '../field-checks.js';
import { keepsClock } from '../plan-text.js';
import { element } from './elements.js';

interface Field {
  readonly kind: FieldKind;
  readonly input: HTMLInputElement;
  readonly fault: HTMLElement;
  /** Last text that could be used. */
  used: string;
}

export interface Fields {
  readonly root: HTMLElement;
  /** What can be used now, by key. */
  readonly values: () => readonly { readonly path: readonly string[]; readonly value: string }[];
  /** Fills all fields, by key, as from another example. */
  readonly fill: (values: Readonly<Record<string, string>>) => void;
  /** What stands in the fields, usable or not, and what was last usable. */
  readonly contents: () => Readonly<Record<string, { readonly text: string; readonly used: string }>>;
  readonly restore: (contents: ReturnType<Fields['contents']>) => void;
  /** Shows a fault that only reading the whole plan could find. */
  readonly showFault: (key: string, text: string) => void;
}

/** The fields of the day. onChange - called when their usable values changed */
export function createFields(onChange: () => void): Fields {
  const fields = fieldKinds.map(makeField);
  const byKey = new Map(fields.map((field) => [field.kind.key, field]));
  for (const field of fields) {
    field.input.addEventListener('input', () => {
      const fault = field.kind.check(field.input.value);
      if (fault !== undefined) return;
      tell(field, '');
      const before = field.used;
      field.used = field.input.value.trim();
      if (field.kind.key === 'place') followClock(before, field.used, byKey.get('clock'));
      if (before !== field.used) onChange();
    });
    // While typing, half a date is no mistake: only what is left standing is said.
    field.input.addEventListener('change', () => {
      const fault = field.kind.check(field.input.value);
      tell(field, fault === undefined ? '' : faultText(fault, field.used));
    });
    field.input.addEventListener('keydown', (event) => {
      if (event.key !== 'Escape' || field.input.value === field.used) return;
      field.input.value = field.used;
      tell(field, '');
    });
  }
  const set = (field: Field, text: string, used: string) => {
    field.input.value = text;
    field.used = used;
    const fault = field.kind.check(text);
    tell(field, fault === undefined ? '' : faultText(fault, used));
  };
  return {
    root: element('div', { class: 'fields' }, ...fields.map(wrapped)),
    values: () => fields.map(({ kind, used }) => ({ path: kind.path, value: used })),
    fill: (values) => {
      for (const field of fields) set(field, values[field.kind.key] ?? '', values[field.kind.key] ?? '');
    },
    contents: () => Object.fromEntries(fields.map(({ kind, input, used }) => [kind.key, { text: input.value, used }])),
    restore: (contents) => {
      for (const field of fields) {
        const { text = '', used = '' } = contents[field.kind.key] ?? {};
        set(field, text, used);
      }
    },
    showFault: (key, text) => {
      const field = byKey.get(key);
      if (field !== undefined) tell(field, text);
    },
  };
}

function makeField(kind: FieldKind): Field {
  const input = element('input', {
    id: `field-${kind.key}`,
    type: 'text',
    autocomplete: 'off',
    spellcheck: 'false',
    'aria-describedby': `example-${kind.key} fault-${kind.key}`,
  });
  return { kind, input, fault: element('p', { id: `fault-${kind.key}`, class: 'fault', role: 'status' }), used: '' };
}

const wrapped = ({ kind, input, fault }: Field): HTMLElement =>
  element(
    'div',
    { class: 'field' },
    element('label', { for: input.id }, kind.label),
    input,
    element('p', { id: `example-${kind.key}`, class: 'example' }, `such as ${kind.example}`),
    fault,
  );

function tell(field: Field, text: string): void {
  if (field.fault.textContent !== text) field.fault.textContent = text;
  if (text === '') field.input.removeAttribute('aria-invalid');
  else field.input.setAttribute('aria-invalid', 'true');
}

/** A place far to the east or west has another clock: it is then taken from the longitude, and the assumptions say so. */
function followClock(before: string, after: string, clock: Field | undefined): void {
  const from = parsePlace(before);
  const to = parsePlace(after);
  if (clock === undefined || clock.used === '' || !from.ok || !to.ok || keepsClock(from.longitude, to.longitude))
    return;
  tell(clock, `${clock.used} was taken away: the place moved far. Empty means the clock by the longitude.`);
  clock.input.removeAttribute('aria-invalid');
  clock.input.value = '';
  clock.used = '';
}
