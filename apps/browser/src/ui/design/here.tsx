import type { ReactNode } from 'react';
import type { DesignPart } from '../../core/field-place.js';
import { fieldWords } from '../../core/field-text.js';
import { Button, NoticeList, Panel, useServices } from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import { percentText } from '../shell/words.js';
import styles from './design.module.css';
import { findingsHere, unsureHere } from './lever-match.js';
import { showsPath } from './sections.js';

/** Problems and warnings of the verdict whose field is here. */
export function FindingsHere({ section }: { readonly section: DesignPart }): ReactNode {
  const view = useVerdict();
  const found = findingsHere(view?.findings ?? [], (path) => showsPath(section, path));
  return <NoticeList label="Findings about what is here" items={found} />;
}

/** Which of the inputs here make the verdict unsure most. */
export function UnsureHere({ section }: { readonly section: DesignPart }): ReactNode {
  const { app } = useServices();
  const view = useVerdict();
  if (view === undefined || view.contributions.length === 0) return null;
  const found = unsureHere(view.contributions, (path) => showsPath(section, path)).slice(0, 3);
  const all = found.reduce((sum, { share }) => sum + share, 0);
  return (
    <Panel
      level={3}
      title="What here makes the verdict unsure"
      finding={
        found.length === 0
          ? 'Nothing here counts much: other inputs are more unsure.'
          : `${percentText(all)} of the doubt about the solar ratio comes from here.`
      }
    >
      <ul className={styles.unsure}>
        {found.map(({ label, share, path, remedy }) => (
          <li key={label}>
            <span>
              <b>{percentText(share)}</b> {label}
              {remedy === undefined ? '' : `; surer by: ${remedy}`}
            </span>
            <Button
              kind="quiet"
              onPress={() => app.setUi({ focus: { file: 'design', path } })}
            >{`To ${fieldWords('design', path)}`}</Button>
          </li>
        ))}
      </ul>
    </Panel>
  );
}
