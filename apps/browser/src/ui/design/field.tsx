import { type ReactNode, useMemo } from 'react';
import { fieldWords } from '../../core/field-text.js';
import { keysAt } from '../../core/fields.js';
import { Button, UnitField, useField, useServices } from '../kit/index.js';
import styles from './design.module.css';
import { expandShort } from './entries.js';
import { Entries } from './entry-list.js';
import { FieldGroup } from './group.js';
import { ListOf } from './list.js';
import { PayoffsOf, useHasPayoff } from './payoffs.js';
import { FlagField, NameField, ProseField, WordsField } from './plain-fields.js';
import { FULL_KEYS, formAt, labelAt, shortFormAt } from './schema.js';
import { useDesignText, useEdit, useKeys } from './use-design.js';

export interface DesignFieldProps {
  readonly path: string;
  readonly label?: string;
  readonly brief?: boolean;
  /** Its name stands above it already. */
  readonly untitled?: boolean;
}

/** Groups whose entries a key names. */
const NAMED: readonly (readonly [path: RegExp, groups: readonly string[]])[] = [
  [/^array\.rows\.[^.]+\.on$/, ['surfaces']],
  [/^masses\.[^.]+\.on$/, ['surfaces', 'bodies']],
  [/^array\.strings\.[^.]+\.converter$/, ['array.converters']],
  [/^array\.strings\.[^.]+\.rows\[\d+\]$/, ['array.rows']],
];

/** Any key of the design file as what it is: a number with unit, a word, a name, a group, a list. */
export function DesignField(props: DesignFieldProps): ReactNode {
  const { path, label = labelAt(path), brief = false, untitled = false } = props;
  const form = formAt(path);
  if (form === undefined) return null;
  const common = { path, label, brief };
  switch (form.form) {
    case 'value':
      return <ValueField {...common} words={form.words} />;
    case 'words':
      return <Words {...common} words={form.words} />;
    case 'flag':
      return <FlagField {...common} />;
    case 'text':
      return <TextOrName {...common} />;
    case 'short':
      return <ShortField {...common} untitled={untitled} />;
    case 'group':
      return <FieldGroup path={path} {...(brief || untitled ? {} : { title: label })} />;
    case 'entries':
      return <Entries path={path} />;
    case 'list':
      return <ListOf path={path} />;
    case 'numbers':
      return <p className={styles.soft}>{`${label}: points are written in the text of the file.`}</p>;
  }
}

interface Common {
  readonly path: string;
  readonly label: string;
  readonly brief: boolean;
}

function ValueField({ words, ...common }: Common & { readonly words: readonly string[] }): ReactNode {
  const { app } = useServices();
  const field = useField(common.path);
  const has = useHasPayoff(common.path);
  return (
    <div>
      <UnitField {...common} {...(has ? { payoff: <PayoffsOf path={common.path} /> } : {})} />
      {words.map((word) => (
        <Button
          key={word}
          kind="quiet"
          pressed={field?.text === word}
          onPress={() => app.setValue(common.path, word, { capture: 'new step' })}
        >
          {word}
        </Button>
      ))}
    </div>
  );
}

function Words(props: Common & { readonly words: readonly string[] }): ReactNode {
  const has = useHasPayoff(props.path);
  return <WordsField {...props} {...(has ? { payoff: <PayoffsOf path={props.path} /> } : {})} />;
}

function TextOrName(props: Common): ReactNode {
  const { text } = useDesignText();
  const groups = NAMED.find(([shape]) => shape.test(props.path))?.[1];
  const names = useMemo(() => groups?.flatMap((group) => keysAt('design', text, group)), [groups, text]);
  if (names !== undefined) return <NameField {...props} names={[...new Set(names)]} />;
  return <ProseField {...props} {...(props.path === 'notes' ? { rows: 4 } : {})} />;
}

/** Key under which the single value of a short form stands once it has a group of its own. */
function fullKey(path: string, text: string): string | undefined {
  const keys = formAt(path)?.keys ?? [];
  const found = Object.entries(FULL_KEYS).find(([key]) => keys.includes(key));
  return found?.[1](text);
}

/** One value, or a group of keys once there is more to say. */
function ShortField({ untitled, ...props }: Common & { readonly untitled: boolean }): ReactNode {
  const { path, label } = props;
  const { text } = useDesignText();
  const { setText, problem } = useEdit();
  const keys = useKeys(path);
  const field = useField(path);
  const short = shortFormAt(path);
  if (keys.length > 0) return <FieldGroup path={path} {...(untitled ? {} : { title: label })} />;
  const key = fullKey(path, field?.text ?? '');
  return (
    <div className={styles.single}>
      {short?.form === 'words' ? <Words {...props} words={short.words} /> : <ValueField {...props} words={[]} />}
      {field?.written && key !== undefined && (
        <Button
          kind="quiet"
          label={`Say more of ${label}`}
          onPress={() => setText(expandShort(text, path, key), `more of ${fieldWords('design', path)}`)}
        >
          Say more
        </Button>
      )}
      {!field?.written && <FieldGroup path={path} folded={`Say more of ${label}`} />}
      {problem !== undefined && <p className={styles.problem}>{problem}</p>}
    </div>
  );
}
