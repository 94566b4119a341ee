import { type DrawOptions, limitBands } from '@noonwing/drawing';
import { type ReactNode, useCallback, useMemo } from 'react';
import { localNumbers } from '../../../core/decimal.js';
import type { LimitsView } from '../../../core/view-limits-types.js';
import { Disclosure, Figure, Panel, sentence, useAppState } from '../../kit/index.js';
import { readingWords } from '../../measure/stiffness-words.js';
import { useVerdict } from '../../shell/hour.js';
import computed from '../computed.module.css';
import { Pending } from '../pending.js';
import { usePower } from '../use-power.js';
import { bandData } from './band-data.js';
import {
  cautions,
  diveWords,
  flightWords,
  heatWords,
  limitFinding,
  marginWords,
  stiffeningWords,
} from './limit-words.js';
import styles from './structure.module.css';
import { useLimits, useStiffenings } from './use-limits.js';

/** How fast it may fly: the limit in words, how soon a dive gets there, what to stiffen, and every limit as a band. */
export function LimitsPanel(): ReactNode {
  const { view, stale, status } = useLimits();
  const said = useAppState((state) => state.preferences);
  const isAsked = status.kind === 'idle' || status.kind === 'waiting' || status.kind === 'running';
  const unknown = isAsked ? 'Its limit speed is being computed …' : 'Its limit speed is not known.';
  const finding = view === undefined ? unknown : localNumbers(limitFinding(view, said));
  return (
    <Panel level={3} title="How fast may it fly?" finding={finding}>
      <Pending channel="limits" what="Limit speeds" />
      {view !== undefined && (
        <div className={stale ? computed.old : undefined}>
          <Reading view={view} />
          <Bands view={view} />
          <Behind view={view} />
        </div>
      )}
      <h4 className={styles.head}>Mind</h4>
      <Lines label="Cautions" lines={cautions} caution />
    </Panel>
  );
}

interface OfLimits {
  readonly view: LimitsView;
}

function Lines(props: {
  readonly label: string;
  readonly lines: readonly string[];
  readonly caution?: boolean;
}): ReactNode {
  return (
    <ul className={props.caution ? `${computed.lines} ${computed.cautions}` : computed.lines} aria-label={props.label}>
      {props.lines.map((line) => (
        <li key={line}>{localNumbers(sentence(line))}</li>
      ))}
    </ul>
  );
}

function Reading({ view }: OfLimits): ReactNode {
  const said = useAppState((state) => state.preferences);
  const margin = marginWords(view, said);
  const dives = diveWords(view, said);
  const inFlight = flightWords(view, said);
  return (
    <>
      {margin !== '' && (
        <p>
          <b>{localNumbers(margin)}</b>
        </p>
      )}
      <div className={styles.pair}>
        <div>
          {dives.length > 0 && (
            <section>
              <h4>How soon a dive without power gets there</h4>
              <Lines label="Dives" lines={dives} />
            </section>
          )}
          {inFlight.length > 0 && (
            <section>
              <h4>In normal flight, on a line, on the ground</h4>
              <Lines label="In flight and on the ground" lines={inFlight} />
            </section>
          )}
        </div>
        <Stiffer />
      </div>
    </>
  );
}

/** What to stiffen, the most for its mass first. */
function Stiffer(): ReactNode {
  const { view, stale } = useStiffenings();
  const said = useAppState((state) => state.preferences);
  const none = view !== undefined && view.changes.length === 0;
  return (
    <section>
      <h4>What to stiffen, the most for its mass first</h4>
      <Pending channel="stiffenings" what="What would raise it" />
      {view !== undefined && (
        <div className={stale ? computed.old : undefined}>
          {none ? (
            <p>{`None of the ${view.tried} changes looked at raises it.`}</p>
          ) : (
            <Lines label="What to stiffen" lines={view.changes.map((change) => stiffeningWords(change, said))} />
          )}
        </div>
      )}
    </section>
  );
}

function Bands({ view }: OfLimits): ReactNode {
  const verdict = useVerdict();
  const power = usePower();
  const preferences = useAppState((state) => state.preferences);
  const aircraft = verdict?.aircraft ?? 'it';
  const data = useMemo(
    () => bandData(view, aircraft, power.view, preferences),
    [view, aircraft, power.view, preferences],
  );
  const draw = useCallback((options: DrawOptions) => limitBands(data, options), [data]);
  return (
    <>
      <h4 className={styles.head}>Every limit, by the lower edge of its band</h4>
      <Figure id="limit-bands" draw={draw} words={false} />
    </>
  );
}

/** What the limits rest on. */
function Behind({ view }: OfLimits): ReactNode {
  const said = useAppState((state) => state.preferences);
  const heat = heatWords(view, said);
  const { allowed } = view;
  const load =
    allowed === undefined
      ? []
      : [`It bears ${allowed.up.toFixed(1)} g up and ${Math.abs(allowed.down).toFixed(1)} g down: ${allowed.reason}.`];
  return (
    <>
      {[...load, ...heat].length > 0 && <Lines label="Load and heat" lines={[...load, ...heat]} />}
      <Disclosure title="What this rests on">
        <ul>
          {view.layUps.map(({ name }) => (
            <li key={name}>{`${name}: its structure as the design describes it`}</li>
          ))}
          {view.assumed.map((text) => (
            <li key={text}>{localNumbers(`assumed: ${text}`)}</li>
          ))}
          {view.readings.map((reading) => (
            <li key={`${reading.record} ${reading.of}`}>
              {localNumbers(`${reading.record}: ${readingWords(reading)}`)}
            </li>
          ))}
          <li>{`stiffness known to ± ${Math.round(100 * view.stiffnessSigma)} % (standard uncertainty), which the bands hold`}</li>
          {view.warnings.map((text) => (
            <li key={text}>{localNumbers(text)}</li>
          ))}
        </ul>
      </Disclosure>
    </>
  );
}
