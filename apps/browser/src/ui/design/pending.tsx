import type { ReactNode } from 'react';
import type { Channel, ChannelStatus } from '../../core/compute.js';
import { placeOfField } from '../../core/field-place.js';
import { Button, passFocusOn, sentence, useComputeState, useServices } from '../kit/index.js';
import styles from './computed.module.css';

export type PendingChannel = Extract<
  Channel,
  'limits' | 'stiffenings' | 'underLoad' | 'array' | 'section' | 'sectionShape' | 'flats' | 'layouts' | 'levers'
>;

/** What is pending or stands in the way, in words; empty where the answer is there. */
export function pendingWords(status: ChannelStatus, what: string): string {
  switch (status.kind) {
    case 'idle':
      return '';
    case 'waiting':
      return `${what}: being computed … (the verdict comes first)`;
    case 'running':
      return `${what}: being computed …${status.share === undefined ? '' : ` ${Math.round(100 * status.share)} %`}`;
    case 'refused':
      return `${what}: not known. ${sentence(status.refusal.reason)} ${sentence(status.refusal.remedy)}`;
    case 'failed':
      return `${what} could not be computed: ${status.reason}.`;
    case 'cancelled':
      return `${what}: stopped.`;
  }
}

/** What a channel is doing, with the ways to stop it, to ask again, or to go where it is stuck; nothing where it is done. */
export function Pending({ channel, what }: { readonly channel: PendingChannel; readonly what: string }): ReactNode {
  const { app, compute } = useServices();
  const status = useComputeState(({ channels }) => channels[channel].status);
  const words = pendingWords(status, what);
  if (words === '') return null;
  const busy = status.kind === 'running' || status.kind === 'waiting';
  const path =
    status.kind === 'refused' && /^(surfaces|masses|drive|battery|array)\b/.test(status.refusal.where)
      ? status.refusal.where
      : undefined;
  return (
    <div className={styles.pending}>
      <p role="status">{words}</p>
      {status.kind === 'running' && (
        <progress max={1} {...(status.share === undefined ? {} : { value: status.share })} aria-label={what} />
      )}
      {busy && (
        <Button kind="quiet" ref={passFocusOn} label={`Stop: ${what}`} onPress={() => compute.cancel(channel)}>
          Stop
        </Button>
      )}
      {(status.kind === 'cancelled' || status.kind === 'failed') && (
        <Button kind="quiet" label={`Compute: ${what}`} onPress={() => compute.again(channel)}>
          Compute it
        </Button>
      )}
      {path !== undefined && (
        <Button
          kind="quiet"
          onPress={() => app.setUi({ place: placeOfField({ file: 'design', path }), focus: { file: 'design', path } })}
        >
          {`To ${path}`}
        </Button>
      )}
    </div>
  );
}
