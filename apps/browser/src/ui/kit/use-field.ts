import { useMemo } from 'react';
import { type FieldValue, valueAt } from '../../core/fields.js';
import { useAppStateNow } from './services.js';

/** One value of the active design or day plan with all that an input needs; undefined where there is no such key. */
export function useField(path: string, file: 'design' | 'day' = 'design'): FieldValue | undefined {
  const work = useAppStateNow((state) => state.work);
  return useMemo(() => valueAt({ work }, path, file), [work, path, file]);
}
