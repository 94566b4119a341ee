import { useEffect } from 'react';
import type { Channel, ChannelStatus } from '../../../core/compute.js';
import { useComputeState, useServices } from '../../kit/index.js';

/** Limits of the aircraft shown; they are asked for by the frame, as the verdict names them too. */
export const useLimits = () => useComputeState(({ channels }) => channels.limits);

/** What would raise the limit speed; asked for while a part of the page shows it. */
export function useStiffenings() {
  const { compute } = useServices();
  useEffect(() => {
    compute.want({ stiffenings: {} });
    return () => compute.want({ stiffenings: null });
  }, [compute]);
  return useComputeState(({ channels }) => channels.stiffenings);
}

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
      return `${what}: not known. ${sentenceOf(status.refusal.reason)} ${sentenceOf(status.refusal.remedy)}`;
    case 'failed':
      return `${what} could not be computed: ${status.reason}.`;
    case 'cancelled':
      return `${what}: stopped.`;
  }
}

const sentenceOf = (text: string): string =>
  text === '' ? '' : `${text.charAt(0).toUpperCase()}${text.slice(1)}${text.endsWith('.') ? '' : '.'}`;

export type PendingChannel = Extract<Channel, 'limits' | 'stiffenings' | 'underLoad' | 'array' | 'section'>;
