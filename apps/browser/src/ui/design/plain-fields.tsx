import { type ReactNode, useEffect, useId, useState } from 'react';
import type { FieldValue } from '../../core/fields.js';
import { sentenceOf } from '../../core/reading.js';
import { splitSourceWord } from '../../core/source-word.js';
import { FieldFrame, Select, SourceMark, TextField, useField, useServices } from '../kit/index.js';
import kit from '../kit/kit.module.css';
import { useAskedFor } from './use-design.js';

export interface PlainFieldProps {
  readonly path: string;
  readonly label: string;
  readonly brief?: boolean;
}

const problemOf = ({ messages, pending }: FieldValue): string | undefined =>
  messages[0] === undefined
    ? pending === undefined
      ? undefined
      : 'this is not in the file: the file cannot take it'
    : sentenceOf(messages[0]);

/** Yes or no, or nothing. */
export function FlagField({ path, label, brief }: PlainFieldProps): ReactNode {
  const { app } = useServices();
  const field = useField(path);
  const id = useId();
  useAskedFor(path, id);
  if (field === undefined) return null;
  const isYes = /^(yes|true)$/i.test(field.text);
  return (
    <Select
      id={id}
      at={{ file: 'design', path }}
      label={label}
      value={field.written ? (isYes ? 'yes' : 'no') : ''}
      choices={[
        { value: '', label: field.defaultText === undefined ? 'not given' : `${field.defaultText} (assumed)` },
        { value: 'yes', label: 'yes' },
        { value: 'no', label: 'no' },
      ]}
      problem={problemOf(field)}
      onChange={(text) => app.setValue(path, text, { capture: 'new step' })}
      {...(brief ? {} : { description: field.help })}
    />
  );
}

/** The name of another entry of the file. */
export function NameField(props: PlainFieldProps & { readonly names: readonly string[] }): ReactNode {
  const { path, label, names, brief } = props;
  const { app } = useServices();
  const field = useField(path);
  const id = useId();
  useAskedFor(path, id);
  if (field === undefined) return null;
  const isKnown = field.text === '' || names.includes(field.text);
  return (
    <Select
      id={id}
      at={{ file: 'design', path }}
      label={label}
      value={field.text}
      choices={[
        { value: '', label: field.defaultText === undefined ? 'not given' : `${field.defaultText} (assumed)` },
        ...(isKnown ? [] : [{ value: field.text, label: `${field.text} (not in this file)` }]),
        ...names.map((name) => ({ value: name, label: name })),
      ]}
      problem={problemOf(field)}
      onChange={(text) => app.setValue(path, text, { capture: 'new step' })}
      {...(brief ? {} : { description: field.help })}
    />
  );
}

/** A text as typed, kept while it is typed: taken when the field is left, or with Enter. */
function useDraft(path: string, shown: string) {
  const { app } = useServices();
  const [draft, setDraft] = useState<string>();
  const [refused, setRefused] = useState<{ readonly text: string; readonly why: string }>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: what changed elsewhere replaces a draft
  useEffect(() => setDraft(undefined), [shown, path]);
  const commit = (text: string | undefined = draft) => {
    if (text === undefined) return;
    if (text === shown) return setDraft(undefined);
    const result = app.setValue(path, text, { capture: 'new step' });
    setRefused(result.ok ? undefined : { text, why: [result.reason, result.remedy].filter(Boolean).join('; ') });
    setDraft(undefined);
  };
  const why = refused?.text === (draft ?? shown) ? refused.why : undefined;
  return { why, text: draft ?? shown, isTyped: draft !== undefined, type: setDraft, commit };
}

/** Words of the maker: name, notes, datum. */
export function ProseField(props: PlainFieldProps & { readonly rows?: number }): ReactNode {
  const { path, label, rows } = props;
  const field = useField(path);
  const id = useId();
  useAskedFor(path, id);
  const { why, text, type, commit } = useDraft(path, field?.pending ?? field?.text ?? '');
  if (field === undefined) return null;
  const problem = why ?? problemOf(field);
  return (
    <TextField
      id={id}
      label={label}
      value={text}
      onChange={type}
      onCommit={() => commit()}
      description={field.help}
      {...(rows === undefined ? {} : { rows })}
      {...(problem === undefined ? {} : { problem })}
    />
  );
}

/** A notation of the trade or a name of the parts library: typed, with the names offered. */
export function WordsField(
  props: PlainFieldProps & { readonly words: readonly string[]; readonly payoff?: ReactNode },
) {
  const { path, label, words, brief, payoff } = props;
  const { app } = useServices();
  const field = useField(path);
  const id = useId();
  useAskedFor(path, id);
  const shown = field?.pending ?? splitSourceWord(field?.text ?? '').quantity;
  const { why, text, isTyped, type, commit } = useDraft(path, shown);
  if (field === undefined) return null;
  const problem = why ?? problemOf(field);
  const about = field.written
    ? field.help
    : `${field.help}${field.defaultText === undefined ? '' : `; taken as ${field.defaultText}`}`;
  return (
    <FieldFrame
      id={id}
      label={label}
      problem={problem}
      description={brief ? undefined : about}
      beside={<SourceMark source={field.source} />}
    >
      <input
        id={id}
        className={kit.input}
        data-path={path}
        data-editing={isTyped || undefined}
        list={words.length > 0 ? `${id}-words` : undefined}
        autoComplete="off"
        spellCheck={false}
        value={text}
        placeholder={field.defaultText ?? field.example}
        aria-invalid={problem !== undefined || undefined}
        aria-describedby={problem === undefined ? undefined : `${id}-problem`}
        onChange={(event) => type(event.target.value)}
        onBlur={() => commit()}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
          if (event.key === 'Escape' && (isTyped || field.pending !== undefined)) {
            event.stopPropagation();
            type(shown === field.pending ? field.text : shown);
            app.run({ kind: 'drop pending', path });
          }
        }}
      />
      {words.length > 0 && (
        <datalist id={`${id}-words`}>
          {words.map((word) => (
            <option key={word} value={word} />
          ))}
        </datalist>
      )}
      {payoff}
    </FieldFrame>
  );
}
