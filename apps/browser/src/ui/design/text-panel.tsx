import { type ReactNode, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { fieldWords } from '../../core/field-text.js';
import { readingOfDesign, sentenceOf } from '../../core/reading.js';
import { Button, Panel, useServices } from '../kit/index.js';
import styles from './design.module.css';
import { lineMarks, lineOfPath, lineSpan, movedCaret, pathAt } from './text-lines.js';
import { useDesignText } from './use-design.js';

/** Typing pauses so long before the text is taken [ms]; common practice, no source. */
const pause = 500;

const signs = { error: '✕', warning: '!', note: 'i' } as const;

/** A text typed here that is taken when typing pauses; what changes elsewhere moves the caret with its line. */
function useTypedText() {
  const { app } = useServices();
  const { text, path } = useDesignText();
  const area = useRef<HTMLTextAreaElement>(null);
  const [draft, setDraft] = useState<string>();
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const pending = useRef<{ readonly path: string; readonly text: string }>(undefined);
  const shown = draft ?? text;
  const before = useRef(shown);
  const caret = useRef<readonly [number, number]>([0, 0]);
  const take = () => {
    clearTimeout(timer.current);
    const waiting = pending.current;
    pending.current = undefined;
    if (waiting !== undefined) app.setText(waiting.path, waiting.text);
    setDraft(undefined);
  };
  const type = (next: string) => {
    if (path === undefined) return;
    setDraft(next);
    pending.current = { path, text: next };
    clearTimeout(timer.current);
    timer.current = setTimeout(take, pause);
    before.current = next;
  };
  useLayoutEffect(() => {
    const element = area.current;
    const was = before.current;
    before.current = shown;
    if (element === null || was === shown) return;
    const [start, end] = caret.current;
    element.setSelectionRange(movedCaret(was, shown, start), movedCaret(was, shown, end));
  }, [shown]);
  // What was typed is not lost when the text is closed.
  const newest = useRef(take);
  useEffect(() => {
    newest.current = take;
  });
  useEffect(() => () => newest.current(), []);
  const keepCaret = () => {
    const element = area.current;
    if (element !== null) caret.current = [element.selectionStart, element.selectionEnd];
  };
  return { area, shown, type, take, keepCaret, path };
}

/** The text of the design file, edited both ways. at - key of the field that has the focus beside it */
export function TextPanel({ at, onClose }: { readonly at: string | undefined; readonly onClose: () => void }) {
  const { app } = useServices();
  const { area, shown, type, take, keepCaret, path } = useTypedText();
  const gutter = useRef<HTMLPreElement>(null);
  const { messages } = readingOfDesign(shown);
  const marks = useMemo(() => lineMarks(messages), [messages]);
  const lines = shown.split('\n').length;
  const marked = useMemo(() => (at === undefined ? undefined : lineOfPath(shown, at)), [at, shown]);
  const toLine = (line: number, focus: boolean) => {
    const element = area.current;
    if (element === null) return;
    const [start, end] = lineSpan(shown, line);
    if (focus) {
      element.focus();
      element.setSelectionRange(start, end);
    }
    const height = element.scrollHeight / Math.max(1, lines);
    element.scrollTop = Math.max(0, (line - 4) * height);
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: scrolls when another field has the focus, not when the text changes
  useEffect(() => {
    if (marked !== undefined && document.activeElement !== area.current) toLine(marked, false);
  }, [at]);
  const toField = () => {
    keepCaret();
    take();
    const found = pathAt(shown, area.current?.selectionStart ?? 0);
    if (found !== undefined) app.setUi({ focus: { file: 'design', path: found } });
  };
  return (
    <Panel
      level={3}
      title={path ?? 'No design file'}
      actions={
        <Button kind="quiet" icon="close" onPress={onClose}>
          Close
        </Button>
      }
    >
      <div className={styles.editor}>
        <pre ref={gutter} className={styles.gutter} aria-hidden="true">
          {Array.from({ length: lines }, (_, i) => {
            const severity = marks.get(i + 1);
            return (
              // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name but their number
              <span key={i} data-severity={severity} data-here={marked === i + 1 || undefined}>
                {severity === undefined ? '' : `${signs[severity]} `}
                {i + 1}
                {'\n'}
              </span>
            );
          })}
        </pre>
        <textarea
          ref={area}
          className={styles.text}
          aria-label={`Text of ${path ?? 'the design file'}`}
          aria-describedby="design-text-messages"
          spellCheck={false}
          autoCapitalize="off"
          wrap="off"
          value={shown}
          readOnly={path === undefined}
          onChange={(event) => {
            keepCaret();
            type(event.target.value);
          }}
          onSelect={keepCaret}
          onBlur={take}
          onScroll={(event) => {
            if (gutter.current !== null) gutter.current.scrollTop = event.currentTarget.scrollTop;
          }}
        />
      </div>
      <div className={styles.actions}>
        <Button onPress={toField}>To the field of this line</Button>
      </div>
      <TextMessages text={shown} onLine={(line) => toLine(line, true)} />
    </Panel>
  );
}

/** What is found in the text: each leads to its line and to its field. */
function TextMessages({ text, onLine }: { readonly text: string; readonly onLine: (line: number) => void }): ReactNode {
  const { app } = useServices();
  const { messages } = readingOfDesign(text);
  const words = { error: 'Error', warning: 'Warning', note: 'Note' } as const;
  return (
    <div id="design-text-messages">
      <p className={styles.soft}>
        {messages.length === 0
          ? 'The text reads without a message.'
          : `${messages.length} ${messages.length === 1 ? 'message' : 'messages'}`}
      </p>
      <ul className={styles.messages}>
        {messages.map((message) => (
          <li key={`${message.line}:${message.column} ${message.path} ${message.found}`}>
            <p>
              <b>{words[message.severity]}</b> {message.path === '' ? '' : `${fieldWords('design', message.path)}: `}
              {sentenceOf(message)}
            </p>
            <div className={styles.actions}>
              <Button kind="quiet" onPress={() => onLine(message.line)}>{`Line ${message.line}`}</Button>
              {message.path !== '' && (
                <Button
                  kind="quiet"
                  onPress={() => app.setUi({ focus: { file: 'design', path: message.path } })}
                >{`Field ${fieldWords('design', message.path)}`}</Button>
              )}
            </div>
          </li>
        ))}
      </ul>
    </div>
  );
}
