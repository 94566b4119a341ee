import type { ReactNode } from 'react';
import { Panel } from '../kit/index.js';
import { useVerdict } from '../shell/hour.js';
import { Entries } from './entry-list.js';
import { FieldGroup } from './group.js';
import { NoGroup } from './no-group.js';
import { LeversHere } from './payoffs.js';
import { PlanEditor } from './plan-editor.js';
import { useKeys } from './use-design.js';
import { stringWords } from './words.js';

const kinds = ['row'] as const;
const parts = { masses: false, cells: true };

/** Cells, rows, strings, converters. */
export function ArrayPart(): ReactNode {
  const view = useVerdict();
  const hasArray = useKeys('array').length > 0;
  if (!hasArray) return <NoGroup path="array" />;
  const rows = view?.shape.rows ?? [];
  const cells = rows.reduce((sum, row) => sum + row.cells, 0);
  return (
    <>
      <Panel
        level={3}
        title="Where do the cells lie?"
        finding={`${cells} cells in ${rows.length} ${rows.length === 1 ? 'row' : 'rows'}. An end of a row is taken near its outermost cell, its middle moves the whole row.`}
      >
        <LeversHere paths={['array']} />
        <PlanEditor id="plan-cells" kinds={kinds} parts={parts} />
      </Panel>
      <Strings />
      <Panel level={3} title="Rows of cells">
        <Entries path="array.rows" title="" />
      </Panel>
      <Panel level={3} title="Strings and converters">
        <Entries path="array.strings" />
        <Entries path="array.converters" />
      </Panel>
      <Panel level={3} title="Cell, film and wiring">
        <FieldGroup path="array" without={['rows', 'strings', 'converters']} />
      </Panel>
    </>
  );
}

/** Whether each string meets the battery, in words. */
function Strings(): ReactNode {
  const view = useVerdict();
  const strings = view?.strings ?? [];
  const bad = strings.filter(({ problem }) => problem !== undefined);
  return (
    <Panel
      level={3}
      title="Do the strings fit the battery?"
      finding={
        strings.length === 0
          ? 'Being computed …'
          : bad.length === 0
            ? strings.length === 1
              ? 'The string fits.'
              : `All ${strings.length} strings fit.`
            : `${bad.length} of ${strings.length} ${strings.length === 1 ? 'string' : 'strings'} do not fit in every case.`
      }
    >
      <ul>
        {strings.map((string) => (
          <li key={string.name}>{stringWords(string)}</li>
        ))}
      </ul>
    </Panel>
  );
}
