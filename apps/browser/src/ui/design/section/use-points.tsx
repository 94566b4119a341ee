import { writeSectionCoordinates } from '@noonwing/files';
import { type ReactNode, useState } from 'react';
import { keysAt } from '../../../core/fields.js';
import { freePath } from '../../../core/project.js';
import { activeOf } from '../../../core/state.js';
import type { OutlineView } from '../../../core/view-section-types.js';
import { Button, useServices } from '../../kit/index.js';
import { saveBlob } from '../../kit/save.js';
import computed from '../computed.module.css';

interface Props extends OutlineView {
  /** Title of the file and its name without ending. */
  readonly name: string;
  /** Surface of which the root section is shown. */
  readonly surface: string;
}

/** Puts a shape into the design, as a file of points beside it, or saves the file. */
export function UsePoints({ name, surface, x, y }: Props): ReactNode {
  const { app, announce } = useServices();
  const [problem, setProblem] = useState('');
  const text = writeSectionCoordinates({ name, x, y });
  const file = `${name.replace(/[^\p{L}\p{N}]+/gu, '-').toLowerCase()}.dat`;
  const use = () => {
    const { project, design } = activeOf(app.store.getState());
    if (project === undefined || design === undefined) return;
    const path = freePath(project.files, file);
    const added = app.run({ kind: 'add files', files: { [file]: text }, label: `points of ${name}` });
    const own = keysAt('design', design, `surfaces.${surface}.stations[0]`).includes('section');
    const at = own ? `surfaces.${surface}.stations[0].section` : `surfaces.${surface}.section`;
    const set = added.ok ? app.setValue(at, path, { capture: 'new step' }) : added;
    setProblem(set.ok ? '' : `${set.reason}; ${set.remedy}`);
    announce(set.ok ? `${surface} has the section ${path} now. Undo takes it back.` : set.reason);
  };
  return (
    <>
      <div className={computed.controls}>
        <Button kind="main" hint="Adds a file of points; undo takes it back" onPress={use}>
          {`Use it on ${surface}`}
        </Button>
        <Button kind="quiet" onPress={() => saveBlob(file, 'text/plain', text)}>
          Save the points
        </Button>
      </div>
      {problem !== '' && <p role="alert">{problem}</p>}
    </>
  );
}
