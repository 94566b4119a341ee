import { sectionsSentence } from '@noonwing/design';
import type { ReactNode } from 'react';
import { localNumbers } from '../../core/decimal.js';
import type { VerdictView } from '../../core/view.js';
import { Button } from '../kit/button.js';
import { passFocusOn } from '../kit/hooks.js';
import { sentence } from '../kit/notices.js';
import { useComputeState, useServices } from '../kit/services.js';
import styles from './shell.module.css';
import { wattsText } from './words.js';

const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** What the sections rest on, what computed polars changed, and where their computing stands. */
export default function SectionsSaid({ view }: { readonly view: VerdictView }): ReactNode {
  const before = useComputeState((state) => state.before);
  if (view.sections.length === 0) return null;
  const change = before === undefined ? '' : changeText(before, view);
  const text = sectionsSentence(view.sections).replace(/^Sections: /, '');
  return (
    <div className={styles.reason}>
      <p>
        <b>Sections:</b> {localNumbers(`${sentence(text)}${change}`)}
      </p>
      <Progress />
    </div>
  );
}

/** What new polars made of the level power. */
function changeText(before: VerdictView, now: VerdictView): string {
  if (before.levelPower === undefined || now.levelPower === undefined) return '';
  const [was, is] = [before, now].map(({ levelPower }) => wattsText(levelPower!.value));
  const how = before.sections.some(({ basis }) => basis.kind === 'computed')
    ? 'with the polars known before'
    : 'by the first estimate';
  return was === is ? '' : ` Level power is ${is}; ${how} it was ${was}.`;
}

/** Polars that are being computed, with the way to stop it and to go on. */
function Progress(): ReactNode {
  const { compute } = useServices();
  const { status } = useComputeState(({ channels }) => channels.newPolars);
  const { view, stale } = useComputeState(({ channels }) => channels.polars);
  if (view === undefined || stale || view.missing.length === 0) return null;
  if (status.kind === 'running') {
    return (
      <p className={styles.polars} role="status">
        <span>Polars of its sections are being computed: {percent(status.share ?? 0)}</span>
        <progress max={1} value={status.share ?? 0} aria-label="Polars of the sections" />
        <Button
          kind="quiet"
          ref={passFocusOn}
          label="Stop computing polars"
          onPress={() => compute.want({ newPolars: null })}
        >
          Stop
        </Button>
      </p>
    );
  }
  if (status.kind === 'waiting') return null;
  return (
    <p className={styles.polars}>
      <span>
        {status.kind === 'failed' ? `Polars could not be computed: ${status.reason}.` : 'Its polars are not computed.'}
      </span>
      <Button kind="quiet" label="Compute polars of the sections" onPress={() => compute.want({ newPolars: {} })}>
        Compute them
      </Button>
    </p>
  );
}
