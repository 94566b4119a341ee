import type { ReactNode } from 'react';
import type { LeverView } from '../../core/view.js';
import { Disclosure } from '../kit/surfaces.js';

/** What a change writes into the file, folded. */
export const EditList = ({ edits }: Pick<LeverView, 'edits'>): ReactNode => (
  <Disclosure title={`${edits.length} ${edits.length === 1 ? 'edit' : 'edits'} of the file`}>
    <ul>
      {edits.map((edit) => (
        <li key={edit.path}>
          <code>
            {edit.path}: {edit.text ?? 'taken away'}
          </code>{' '}
          {edit.why}
        </li>
      ))}
    </ul>
  </Disclosure>
);
