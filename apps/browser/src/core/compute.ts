import type { Job, Pool } from '@noonwing/work';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type {
  ComputeInput,
  ComputeProgress,
  ComputeRequest,
  ComputeResponse,
  Ready,
  Refusal,
  ViewOf,
} from './messages.js';
import { sameData } from './patch.js';
import type { SweepView } from './view.js';

/** Channels of the client; of each only the newest request counts. */
export type Channel =
  | 'verdict'
  | 'samples'
  | 'hour'
  | 'power'
  | 'levers'
  | 'limits'
  | 'underLoad'
  | 'array'
  | 'stiffenings'
  | 'dateHour'
  | 'dateLatitude'
  | 'figure';

interface ChannelView {
  readonly verdict: ViewOf['verdict'];
  readonly samples: ViewOf['verdict'];
  readonly hour: ViewOf['hour'];
  readonly power: ViewOf['power'];
  readonly levers: ViewOf['levers'];
  readonly limits: ViewOf['limits'];
  readonly underLoad: ViewOf['underLoad'];
  readonly array: ViewOf['array'];
  readonly stiffenings: ViewOf['stiffenings'];
  readonly dateHour: SweepView;
  readonly dateLatitude: SweepView;
  readonly figure: ViewOf['figure'];
}

export type ChannelStatus =
  | { readonly kind: 'idle' }
  /** Asked for, but the central verdict comes first. */
  | { readonly kind: 'waiting' }
  | { readonly kind: 'running'; readonly share?: number }
  /** The files or the aircraft do not allow it: expected, with the way out. */
  | { readonly kind: 'refused'; readonly refusal: Refusal }
  | { readonly kind: 'failed'; readonly reason: string }
  | { readonly kind: 'cancelled' };

export interface ChannelState<C extends Channel = Channel> {
  readonly status: ChannelStatus;
  /** The newest answer, also while the next one is computed. */
  readonly view?: ChannelView[C];
  /** The answer belongs to an earlier state of files or question. */
  readonly stale: boolean;
  /** In the worker [ms]. */
  readonly milliseconds?: number;
}

export interface ComputeState {
  readonly channels: { readonly [C in Channel]: ChannelState<C> };
  /** What happened to workers, newest last. */
  readonly notices: readonly string[];
}

/** What a channel is asked besides the files. `null` takes the wish back. */
export interface Wishes {
  readonly samples?: { readonly count: number } | null;
  readonly hour?: { readonly sky: number; readonly hour: number; readonly heading: number } | null;
  readonly power?: { readonly bank?: number; readonly points?: number } | null;
  readonly levers?: { readonly sky: number } | null;
  readonly limits?: object | null;
  readonly underLoad?: { readonly airspeed: number; readonly loadFactor: number } | null;
  readonly array?: { readonly sky: number; readonly hour: number; readonly heading: number } | null;
  readonly stiffenings?: object | null;
  readonly dateHour?: { readonly sky: number } | null;
  readonly dateLatitude?: { readonly sky: number } | null;
  readonly figure?: { readonly topic: string; readonly values: Readonly<Record<string, number | string>> } | null;
}

export type ComputePool = Pick<Pool<ComputeRequest, ComputeResponse, ComputeProgress>, 'run'>;

export interface ComputeOptions {
  /** For central verdict and hour: never busy with anything else, so that an edit is answered at once. */
  readonly quick: ComputePool;
  /** For everything that takes longer. */
  readonly slow: ComputePool;
  /** The files as read by the page; undefined while it has not loaded what reads them, and where they cannot be computed with. */
  readonly read?: (input: ComputeInput) => Ready | undefined;
  /** Tells apart several clients on the same pools: 'main', 'compare'. */
  readonly name?: string;
  /** Does something after a pause in the edits; returns what calls it off. */
  readonly afterPause: (action: () => void) => () => void;
}

export interface Compute {
  readonly store: StoreApi<ComputeState>;
  /** The files to compute with; null where there are none. The same texts ask nothing again. */
  readonly setInput: (input: ComputeInput | null) => void;
  /** What else is wanted, besides the central verdict, for these and all later files; keys left out stay as they are. */
  readonly want: (wishes: Wishes) => void;
  readonly cancel: (channel: Channel) => void;
  /** Asks again what failed or was cancelled. */
  readonly again: (channel: Channel) => void;
  /** For `onNotice` of the pools: says it in the state. */
  readonly notice: (text: string) => void;
  readonly end: () => void;
}

const later = [
  'samples',
  'power',
  'limits',
  'underLoad',
  'array',
  'stiffenings',
  'levers',
  'dateHour',
  'dateLatitude',
] as const;
const allChannels: readonly Channel[] = ['verdict', 'hour', 'figure', ...later];

const requestOf = (
  channel: Channel,
  input: ComputeInput,
  wish: unknown,
  read?: ComputeOptions['read'],
): ComputeRequest => {
  const asked = wish as never;
  switch (channel) {
    case 'verdict': {
      const ready = read?.(input);
      return { kind: 'verdict', input, ...(ready === undefined ? {} : { read: ready }), samples: 0 };
    }
    case 'samples':
      return { kind: 'verdict', input, samples: (asked as { count: number }).count };
    case 'hour':
      return { kind: 'hour', input, ...(asked as { sky: number; hour: number; heading: number }) };
    case 'power':
      return { kind: 'power', input, ...(asked as object) };
    case 'limits':
    case 'stiffenings':
      return { kind: channel, input };
    case 'underLoad':
      return { kind: 'underLoad', input, ...(asked as { airspeed: number; loadFactor: number }) };
    case 'array':
      return { kind: 'array', input, ...(asked as { sky: number; hour: number; heading: number }) };
    case 'levers':
      return { kind: 'levers', input, ...(asked as { sky: number }) };
    case 'dateHour':
      return { kind: 'sweep', input, sweep: 'date and hour', ...(asked as { sky: number }) };
    case 'dateLatitude':
      return { kind: 'sweep', input, sweep: 'date and latitude', ...(asked as { sky: number }) };
    case 'figure':
      return { kind: 'figure', ...(asked as { topic: string; values: Record<string, number | string> }) };
  }
};

const emptyState = (): ComputeState => ({
  channels: Object.fromEntries(
    allChannels.map((channel) => [channel, { status: { kind: 'idle' }, stale: false }]),
  ) as unknown as ComputeState['channels'],
  notices: [],
});

/** Asks the workers: central verdict first, then, when edits pause, what else is wanted. The newest question wins. */
export function createCompute(options: ComputeOptions): Compute {
  const { quick, slow, name = 'main', afterPause, read } = options;
  const store = createStore<ComputeState>(emptyState);
  const jobs = new Map<Channel, Job<ComputeResponse>>();
  let input: ComputeInput | null = null;
  let wishes: Wishes = {};
  let callOff = () => {};
  let ended = false;

  const stateOf = (channel: Channel): ChannelState => store.getState().channels[channel];
  const set = (channel: Channel, change: Partial<ChannelState>) => {
    const { channels } = store.getState();
    store.setState({ channels: { ...channels, [channel]: { ...channels[channel], ...change } } });
  };
  const notice = (text: string) => store.setState({ notices: [...store.getState().notices.slice(-19), text] });

  const drop = (channel: Channel) => {
    const job = jobs.get(channel);
    jobs.delete(channel);
    job?.cancel();
  };

  const receive = (channel: Channel, response: ComputeResponse) => {
    if (response.kind === 'refused') {
      set(channel, { status: { kind: 'refused', refusal: response }, stale: stateOf(channel).view !== undefined });
      return;
    }
    set(channel, {
      status: { kind: 'idle' },
      view: response.view as never,
      stale: false,
      milliseconds: response.milliseconds,
    });
  };

  const ask = async (channel: Channel, wish: unknown) => {
    if (ended || (input === null && channel !== 'figure')) return;
    const pool = channel === 'verdict' || channel === 'hour' ? quick : slow;
    const request = requestOf(channel, input ?? { design: '', plan: '', sections: {} }, wish, read);
    set(channel, { status: { kind: 'running' }, stale: stateOf(channel).view !== undefined });
    const job = pool.run(request, {
      channel: `${name} ${channel}`,
      onProgress: (share) => {
        if (jobs.get(channel) === job) set(channel, { status: { kind: 'running', share } });
      },
    });
    jobs.set(channel, job);
    const result = await job.result;
    if (jobs.get(channel) !== job) return;
    jobs.delete(channel);
    if (result.kind === 'done') receive(channel, result.response);
    else if (result.kind === 'failed') set(channel, { status: { kind: 'failed', reason: result.reason } });
    else set(channel, { status: { kind: 'cancelled' } });
    if (channel === 'verdict') afterCentral();
  };

  const wishOf = (channel: Channel): unknown =>
    channel === 'verdict' ? {} : (wishes[channel as keyof Wishes] ?? undefined);

  /** What waited for the central verdict, after a pause in the edits. */
  const afterCentral = () => {
    const { view, status, stale } = stateOf('verdict');
    const usable = view !== undefined && status.kind === 'idle' && !stale;
    for (const channel of later) {
      if (stateOf(channel).status.kind === 'waiting' && !usable) set(channel, { status: { kind: 'idle' } });
    }
    if (!usable) return;
    callOff();
    callOff = afterPause(() => {
      for (const channel of later) {
        const wish = wishOf(channel);
        if (wish !== undefined && stateOf(channel).status.kind === 'waiting') void ask(channel, wish);
      }
    });
  };

  const setInput: Compute['setInput'] = (next) => {
    if (sameData(input, next)) return;
    input = next;
    callOff();
    for (const channel of later) {
      drop(channel);
      const wanted = next !== null && wishOf(channel) !== undefined;
      set(channel, { status: { kind: wanted ? 'waiting' : 'idle' }, stale: stateOf(channel).view !== undefined });
    }
    if (next === null) {
      drop('verdict');
      drop('hour');
      store.setState({ channels: emptyState().channels });
      return;
    }
    void ask('verdict', {});
    if (wishOf('hour') !== undefined) void ask('hour', wishOf('hour'));
  };

  const want: Compute['want'] = (change) => {
    for (const [key, wish] of Object.entries(change) as [keyof Wishes, unknown][]) {
      const before = wishes[key];
      if (sameData(before ?? undefined, wish ?? undefined)) continue;
      wishes = { ...wishes, [key]: wish };
      if (wish === null || wish === undefined) {
        drop(key);
        set(key, { status: { kind: 'idle' } });
      } else if (key === 'hour' || key === 'figure') void ask(key, wish);
      else if (input !== null) {
        drop(key);
        set(key, { status: { kind: 'waiting' }, stale: stateOf(key).view !== undefined });
        if (!jobs.has('verdict')) afterCentral();
      }
    }
  };

  return {
    store,
    setInput,
    want,
    cancel: (channel) => {
      const running = jobs.has(channel) || stateOf(channel).status.kind === 'waiting';
      drop(channel);
      if (running) set(channel, { status: { kind: 'cancelled' } });
    },
    again: (channel) => {
      const wish = wishOf(channel);
      if (wish !== undefined) void ask(channel, wish);
    },
    notice,
    end: () => {
      ended = true;
      callOff();
      for (const channel of allChannels) drop(channel);
    },
  };
}

/** The verdict with uncertainty where it is there for the same files, otherwise the central one. */
export function shownVerdict({ channels }: ComputeState): ViewOf['verdict'] | undefined {
  const { samples, verdict } = channels;
  return samples.view !== undefined && !samples.stale && !verdict.stale ? samples.view : (verdict.view ?? samples.view);
}
