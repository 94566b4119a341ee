import { useCallback, useEffect, useMemo, useState } from 'react';
import type { CommandResult, ValueEdit } from '../../core/commands.js';
import { keysAt } from '../../core/fields.js';
import { type DesignReading, readingOfDesign } from '../../core/reading.js';
import { activeOf } from '../../core/state.js';
import { leadTo, useAppState, useServices } from '../kit/index.js';
import type { Changed } from './entries.js';

/** Text and path of the active design file; empty where none is open. */
export function useDesignText(): { readonly text: string; readonly path: string | undefined } {
  const work = useAppState((state) => state.work);
  const { design, designPath } = useMemo(() => activeOf({ work }), [work]);
  return { text: design ?? '', path: designPath };
}

export function useDesignReading(): DesignReading {
  return readingOfDesign(useDesignText().text);
}

/** Keys of a group of the active design. */
export function useKeys(path: string): readonly string[] {
  const { text } = useDesignText();
  return useMemo(() => keysAt('design', text, path), [text, path]);
}

/** Changes of the active design that are said to screen readers, and why they were refused. */
export function useEdit() {
  const { app, announce } = useServices();
  const { path } = useDesignText();
  const [problem, setProblem] = useState<string>();
  const tell = useCallback(
    (result: CommandResult, label: string): boolean => {
      setProblem(result.ok ? undefined : `${result.reason}${result.remedy === '' ? '' : `; ${result.remedy}`}`);
      announce(result.ok ? `${label}: done. Undo takes it back.` : result.reason);
      return result.ok;
    },
    [announce],
  );
  const setValues = useCallback(
    (edits: readonly ValueEdit[], label: string) =>
      tell(app.run({ kind: 'set values', edits, label }, 'new step'), label),
    [app, tell],
  );
  const setText = useCallback(
    (changed: Changed, label: string) => {
      if (path === undefined) return false;
      const result: CommandResult = changed.ok
        ? app.run({ kind: 'set text', path, text: changed.text, label }, 'new step')
        : { ...changed, pending: false, messages: [] };
      return tell(result, label);
    },
    [app, path, tell],
  );
  return { setValues, setText, problem, say: setProblem };
}

const isUnder = (path: string, group: string): boolean =>
  path === group || path.startsWith(`${group}.`) || path.startsWith(`${group}[`);

/** Whether a fold is open: as the person left it, and opened where a field in it is asked for. */
export function useFold(path: string, keys: readonly string[] | undefined, start: boolean) {
  const focus = useAppState((state) => state.ui.focus);
  const [open, setOpen] = useState(start);
  const wanted =
    focus?.file === 'design' &&
    (keys === undefined
      ? isUnder(focus.path, path)
      : keys.some((key) => isUnder(focus.path, path === '' ? key : `${path}.${key}`)));
  useEffect(() => {
    if (wanted) setOpen(true);
  }, [wanted]);
  return [open || wanted, setOpen] as const;
}

/** Something that warnings lead to takes the focus once. */
export function useAskedFor(path: string, id: string): void {
  const { app } = useServices();
  const focus = useAppState((state) => state.ui.focus);
  useEffect(() => {
    if (focus?.path !== path || focus.file !== 'design') return;
    const found = document.getElementById(id);
    if (found === null) return;
    leadTo(found);
    app.setUi({ focus: undefined });
  }, [focus, path, id, app]);
}
