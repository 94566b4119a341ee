import { type MeasuredStore, polarStoreText, readStoredText } from '@noonwing/design';
import { useMemo } from 'react';
import { pointsFile } from '../../../core/measured-file.js';
import { activeOf } from '../../../core/state.js';
import type { AppStore } from '../../../core/store.js';
import { useAppState } from '../../kit/index.js';

/** Measured points that the project keeps for sections of the active design, by their keys. */
export function useKeptPoints(): MeasuredStore {
  const text = useAppState((state) => {
    const { project } = activeOf(state);
    return project?.design === undefined ? undefined : project.files[pointsFile(project.design)];
  });
  return useMemo(() => (text === undefined ? {} : (readStoredText(text)?.measured ?? {})), [text]);
}

type Kept = MeasuredStore[string];

export type Keeping = { readonly ok: true } | { readonly ok: false; readonly reason: string; readonly remedy: string };

/** Keeps points for a section in the project, or no longer; every verdict of its designs flies with those that are kept. One step to undo. */
export function keepPoints(app: AppStore, key: string, kept: Kept | undefined, name: string): Keeping {
  const { project } = activeOf(app.store.getState());
  if (project?.design === undefined)
    return { ok: false, reason: 'there is no design', remedy: 'open a project with a design' };
  const path = pointsFile(project.design);
  const text = project.files[path];
  const stored = text === undefined ? { polars: {}, measured: {} } : readStoredText(text);
  if (stored === undefined)
    return {
      ok: false,
      reason: `the file ${path} of this project is no store of polars`,
      remedy: 'rename or delete it',
    };
  const { [key]: _, ...others } = stored.measured;
  const measured = kept === undefined ? others : { ...others, [key]: kept };
  const { polars, controls = {} } = stored;
  const next = polarStoreText(polars, measured, controls);
  const isEmpty = [polars, measured, controls].every((part) => Object.keys(part).length === 0);
  const label = kept === undefined ? `no measured points of ${name}` : `measured points of ${name}`;
  if (isEmpty) return text === undefined ? { ok: true } : app.run({ kind: 'delete file', path });
  if (text === undefined) return app.run({ kind: 'add files', files: { [path]: next }, label });
  return app.run({ kind: 'set text', path, text: next, label });
}
