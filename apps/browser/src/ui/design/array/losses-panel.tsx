import { type DrawOptions, ledgerChain } from '@noonwing/drawing';
import { type ReactNode, useCallback, useMemo } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { ArrayView } from '../../../core/view-array-types.js';
import { Figure, Panel } from '../../kit/index.js';
import { lossData, lossWords } from './array-data.js';

/** From the light on the open cells to the battery, every loss of the day by name. */
export function LossesPanel({ view }: { readonly view: ArrayView }): ReactNode {
  const data = useMemo(() => lossData(view), [view]);
  const draw = useCallback((options: DrawOptions) => ledgerChain(data, options), [data]);
  return (
    <Panel level={3} title="Where does the light go?" finding={localNumbers(lossWords(view))}>
      {view.losses !== undefined && <Figure id="array-losses" draw={draw} words={false} />}
    </Panel>
  );
}
