import { type DrawOptions, shadeCourse } from '@noonwing/drawing';
import { type ReactNode, useCallback, useMemo, useState } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { ArrayView } from '../../../core/view-array-types.js';
import { Figure, Panel, Tabs } from '../../kit/index.js';
import { useHourCursor } from '../../shell/hour.js';
import { shadeData } from './array-data.js';

/** What takes the light through the day, on the whole array or on the chosen cell. */
export function ShadePanel({ view, selected }: { readonly view: ArrayView; readonly selected: number }): ReactNode {
  const [of, setOf] = useState('array');
  const cursor = useHourCursor();
  const cell = of === 'cell' ? selected : undefined;
  const data = useMemo(() => shadeData(view, cell, undefined), [view, cell]);
  const draw = useCallback((options: DrawOptions) => shadeCourse(data, options), [data]);
  return (
    <Panel level={3} title="What shades them through the day?" finding={localNumbers(draw({}).text)}>
      <Tabs
        label="Shade on what"
        tabs={[
          { id: 'array', label: 'The whole array' },
          { id: 'cell', label: 'The chosen cell' },
        ]}
        selected={of}
        onSelect={setOf}
      >
        <Figure id="shade-day" draw={draw} words={false} cursor={cursor} />
      </Tabs>
    </Panel>
  );
}
