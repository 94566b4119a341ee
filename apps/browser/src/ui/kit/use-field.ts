import { useRef } from 'react';
import { type FieldValue, valueAt } from '../../core/fields.js';
import { sameData } from '../../core/patch.js';
import type { AppState } from '../../core/state.js';
import { useAppStateNow } from './services.js';

interface Seen {
  readonly work: AppState['work'];
  readonly path: string;
  readonly file: 'design' | 'day';
  readonly value: FieldValue | undefined;
}

/**
 * One value of the active design or day plan with all that an input needs; undefined where there is no such key.
 * A page has a hundred of them, and an edit changes one: the others get the value that they had.
 */
export function useField(path: string, file: 'design' | 'day' = 'design'): FieldValue | undefined {
  const seen = useRef<Seen>(undefined);
  return useAppStateNow(({ work }) => {
    const last = seen.current;
    const isSameField = last?.path === path && last.file === file;
    if (isSameField && last.work === work) return last.value;
    const value = valueAt({ work }, path, file);
    const kept = isSameField && sameData(last.value, value) ? last.value : value;
    seen.current = { work, path, file, value: kept };
    return kept;
  });
}
