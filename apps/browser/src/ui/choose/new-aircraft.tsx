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
import { Button } from '../kit/button.js';
import { Select, TextField } from '../kit/fields.js';
import { useAppState, useServices } from '../kit/services.js';
import { Panel } from '../kit/surfaces.js';
import styles from './choose.module.css';

type Question = NewDesignQuestion & { readonly key: NewDesignKey };
const questions: readonly Question[] = newDesignQuestions;

/** [ms]; common practice, no source. */
const settle = 200;

/** The day of a new aircraft; it can be changed at once. */
const today = () => {
  const now = new Date();
  return { year: now.getFullYear(), month: now.getMonth() + 1, day: now.getDate() };
};

/** About ten questions; what stays empty gets what is usual for the size and is marked assumed. */
export function NewAircraft(): ReactNode {
  const { app, announce } = useServices();
  const [answers, setAnswers] = useState<NewDesignAnswers>({});
  const [checked, setChecked] = useState<ReadonlySet<string>>(new Set());
  const wanted = useAppState((state) => state.ui.focus?.path === 'new');
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    if (!wanted) return;
    form.current?.scrollIntoView({ block: 'start' });
    form.current?.querySelector('input')?.focus();
    app.setUi({ focus: undefined });
  }, [wanted, app]);

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
      document.getElementById(`question-${design.problems[0]!.key.replace(/ /g, '-')}`)?.focus();
      return;
    }
    const name = acceptName(answers.name?.trim() || 'my aircraft', 'project');
    const place = answers.place?.trim() || questions.find(({ key }) => key === 'place')!.default;
    app.newProject(name, {
      [`${name}.yaml`]: design.text,
      [`${name}.day.yaml`]: newDayPlanText({ place, date: today() }),
    });
    setAnswers({});
    setChecked(new Set());
    app.setUi({ place: 'design' });
    announce(`${name} is there. Its verdict is being computed.`);
  };
  return (
    <Panel
      title="New aircraft"
      finding="Answer what you know. What stays empty gets what is usual for the size, marked as assumed."
    >
      <form ref={form} onSubmit={create} className={styles.questions} noValidate>
        {questions.map((question) => (
          <Answer
            key={question.key}
            question={question}
            value={answers[question.key] ?? ''}
            problem={problemOf(question.key)}
            onChange={(text) => setAnswers({ ...answers, [question.key]: text })}
            onCommit={() => check(question.key)}
          />
        ))}
        <div className={styles.create}>
          <Button kind="main" submits>
            Create the aircraft
          </Button>
        </div>
      </form>
    </Panel>
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
