import {
  answerProblem,
  type NewDesignAnswers,
  type NewDesignKey,
  type NewDesignQuestion,
  newDayPlanText,
  newDesignQuestions,
  newDesignText,
} from '@noonwing/design';
import { type FormEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import { acceptName } from '../../core/names.js';
import { type OfferedDates, offeredDates, type PlainDate } from '../../core/new-day.js';
import { Button } from '../kit/button.js';
import { Select, TextField } from '../kit/fields.js';
import { leadTo } from '../kit/hooks.js';
import { useAppState, useServices } from '../kit/services.js';
import { Disclosure, Panel } from '../kit/surfaces.js';
import { dateText } from '../shell/clock.js';
import styles from './choose.module.css';

type Question = NewDesignQuestion & { readonly key: NewDesignKey };
const questions: readonly Question[] = newDesignQuestions;

/** What every builder knows; the others stand folded below. */
const known: ReadonlySet<NewDesignKey> = new Set(['name', 'layout', 'span', 'chord', 'mass', 'cells', 'place']);

/** [ms]; common practice, no source. */
const settle = 200;

const today = (): PlainDate => {
  const now = new Date();
  return { year: now.getFullYear(), month: now.getMonth() + 1, day: now.getDate() };
};

/** About ten questions; what stays empty gets what is usual for the size and is marked assumed. */
export function NewAircraft(): ReactNode {
  const { app, announce } = useServices();
  const [answers, setAnswers] = useState<NewDesignAnswers>({});
  const [checked, setChecked] = useState<ReadonlySet<string>>(new Set());
  const [when, setWhen] = useState<OfferedDates['first']>();
  const wanted = useAppState((state) => state.ui.focus?.path === 'new');
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    if (!wanted) return;
    form.current?.scrollIntoView({ block: 'start' });
    form.current?.querySelector('input')?.focus();
    app.setUi({ focus: undefined });
  }, [wanted, app]);

  const place = answers.place?.trim() || questions.find(({ key }) => key === 'place')!.default;
  const offered = offeredDates(place, today());
  const chosen = when ?? offered.first;

  const problemOf = (key: NewDesignKey): string | undefined => {
    const found = checked.has(key) ? answerProblem(key, answers[key] ?? '') : undefined;
    return found === undefined ? undefined : `"${found.found}": expected ${found.expected}. ${found.hint}`;
  };
  /** A little later, so that what is said does not move the button that is being pressed. */
  const check = (key: string) => setTimeout(() => setChecked((before) => new Set([...before, key])), settle);
  const create = (event: FormEvent) => {
    event.preventDefault();
    setChecked(new Set(questions.map(({ key }) => key)));
    const design = newDesignText(answers);
    if (!design.ok) {
      announce(`${design.problems.length} answers cannot be used`);
      const field = document.getElementById(`question-${design.problems[0]!.key.replace(/ /g, '-')}`);
      if (field !== null) leadTo(field);
      return;
    }
    const name = acceptName(answers.name?.trim() || 'my aircraft', 'project');
    app.newProject(name, {
      [`${name}.yaml`]: design.text,
      [`${name}.day.yaml`]: newDayPlanText({ place, date: offered[chosen] }),
    });
    setAnswers({});
    setWhen(undefined);
    setChecked(new Set());
    app.setUi({ place: 'design' });
    announce(`${name} is there, on ${dateText(offered[chosen])}. Its verdict is being computed.`);
  };
  const ask = (question: Question) => (
    <Answer
      key={question.key}
      question={question}
      value={answers[question.key] ?? ''}
      problem={problemOf(question.key)}
      onChange={(text) => setAnswers({ ...answers, [question.key]: text })}
      onCommit={() => check(question.key)}
    />
  );
  return (
    <Panel
      title="New aircraft"
      finding="Answer what you know. What stays empty gets what is usual for the size, marked as assumed."
    >
      <form ref={form} onSubmit={create} className={styles.questions} noValidate>
        {questions.filter(({ key }) => known.has(key)).map(ask)}
        <When offered={offered} chosen={chosen} onChange={setWhen} />
        <div className={styles.more}>
          <Disclosure title="More, where you know it">
            <div className={styles.questions}>{questions.filter(({ key }) => !known.has(key)).map(ask)}</div>
          </Disclosure>
        </div>
        <div className={styles.create}>
          <Button kind="main" submits>
            Create the aircraft
          </Button>
        </div>
      </form>
    </Panel>
  );
}

/** The first day: the longest one there, or today. */
function When(props: {
  readonly offered: OfferedDates;
  readonly chosen: OfferedDates['first'];
  readonly onChange: (when: OfferedDates['first']) => void;
}): ReactNode {
  const { offered, chosen, onChange } = props;
  return (
    <Select
      id="question-when"
      label="On which day?"
      description="midsummer there, or today; any other can be set afterwards. In winter sunlight carries few aircraft"
      value={chosen}
      choices={[
        { value: 'midsummer', label: `${dateText(offered.midsummer)}, midsummer` },
        { value: 'today', label: `${dateText(offered.today)}, today` },
      ]}
      onChange={(value) => onChange(value as OfferedDates['first'])}
    />
  );
}

function Answer(props: {
  readonly question: Question;
  readonly value: string;
  readonly problem: string | undefined;
  readonly onChange: (text: string) => void;
  readonly onCommit: () => void;
}): ReactNode {
  const { question, value, problem, onChange, onCommit } = props;
  const id = `question-${question.key.replace(/ /g, '-')}`;
  if (question.choices !== undefined) {
    return (
      <Select
        id={id}
        label={question.question}
        description={question.help}
        value={value === '' ? question.default : value}
        choices={question.choices.map((choice) => ({ value: choice, label: choice }))}
        onChange={onChange}
      />
    );
  }
  return (
    <TextField
      id={id}
      label={question.question}
      description={question.help}
      value={value}
      onChange={onChange}
      onCommit={onCommit}
      placeholder={question.default === '' ? 'usual for the size' : question.default}
      {...(problem === undefined ? {} : { problem })}
    />
  );
}
