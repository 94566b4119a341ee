import { isWithinReach } from '@noonwing/verdict';
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
import type { FlatsWish, SectionShapeWish, SectionWish } from './view-section-types.js';

/** Channels of the client; of each only the newest request counts. */
export type Channel =
  | 'verdict'
  | 'samples'
  | 'hour'
  | 'power'
  | 'levers'
  | 'layouts'
  | 'limits'
  | 'underLoad'
  | 'array'
  | 'stiffenings'
  | 'section'
  | 'sectionShape'
  | 'flats'
  | 'polars'
  | 'newPolars'
  | 'dateHour'
  | 'dateLatitude'
  | 'figure';

interface ChannelView {
  readonly verdict: ViewOf['verdict'];
  readonly samples: ViewOf['verdict'];
  readonly hour: ViewOf['hour'];
  readonly power: ViewOf['power'];
  readonly levers: ViewOf['levers'];
  readonly layouts: ViewOf['layouts'];
  readonly limits: ViewOf['limits'];
  readonly underLoad: ViewOf['underLoad'];
  readonly array: ViewOf['array'];
  readonly stiffenings: ViewOf['stiffenings'];
  readonly section: ViewOf['section'];
  readonly sectionShape: ViewOf['sectionShape'];
  readonly flats: ViewOf['flats'];
  readonly polars: ViewOf['polars'];
  readonly newPolars: ViewOf['polars'];
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
  /** Text of the computed polars that all is asked with; undefined while the first estimate answers. */
  readonly polars: string | undefined;
  /** The central verdict of the same files before there were these polars: what they changed. */
  readonly before: ViewOf['verdict'] | undefined;
  /** What happened to workers, newest last. */
  readonly notices: readonly string[];
}

/** What a channel is asked besides the files. `null` takes the wish back. */
export interface Wishes {
  readonly samples?: { readonly count: number } | null;
  readonly hour?: { readonly sky: number; readonly hour: number; readonly heading: number } | null;
  readonly power?: { readonly bank?: number; readonly points?: number } | null;
  readonly levers?: { readonly sky: number } | null;
  readonly layouts?: { readonly sky: number } | null;
  readonly limits?: object | null;
  readonly underLoad?: { readonly airspeed: number; readonly loadFactor: number } | null;
  readonly array?: { readonly sky: number; readonly hour: number; readonly heading: number } | null;
  readonly stiffenings?: object | null;
  readonly section?: SectionWish | null;
  readonly sectionShape?: SectionShapeWish | null;
  readonly flats?: FlatsWish | null;
  /** Computed polars of the sections, as far as they are kept. */
  readonly polars?: object | null;
  /** Those that are missing, computed. */
  readonly newPolars?: object | null;
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
  /** For polars, which take so long that nothing else must wait behind them. */
  readonly background: ComputePool;
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

/** In the order in which they are asked for: what one place shows and is quickly there comes first. */
const later = [
  'array',
  'samples',
  'power',
  'limits',
  'underLoad',
  'stiffenings',
  'section',
  'sectionShape',
  'flats',
  'layouts',
  'levers',
  'dateHour',
  'dateLatitude',
  'polars',
  'newPolars',
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
    case 'section':
      return { kind: 'section', input, ...(asked as SectionWish) };
    case 'sectionShape':
      return { kind: 'sectionShape', input, ...(asked as SectionShapeWish) };
    case 'flats':
      return { kind: 'flats', input, ...(asked as FlatsWish) };
    case 'polars':
    case 'newPolars':
      return { kind: 'polars', input, compute: channel === 'newPolars' };
    case 'levers':
    case 'layouts':
      return { kind: channel, input, ...(asked as { sky: number }) };
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
  polars: undefined,
  before: undefined,
  notices: [],
});

/** State of the channels, and the few ways to change it. */
function channelStates() {
  const store = createStore<ComputeState>(emptyState);
  const of = (channel: Channel): ChannelState => store.getState().channels[channel];
  const set = (changes: { readonly [C in Channel]?: Partial<ChannelState> }) => {
    const channels: Record<string, ChannelState> = { ...store.getState().channels };
    for (const [channel, change] of Object.entries(changes)) channels[channel] = { ...channels[channel]!, ...change };
    store.setState({ channels: channels as unknown as ComputeState['channels'] });
  };
  const receive = (channel: Channel, response: ComputeResponse) => {
    if (response.kind === 'refused') {
      set({ [channel]: { status: { kind: 'refused', refusal: response }, stale: of(channel).view !== undefined } });
      return;
    }
    const { view, milliseconds } = response;
    set({ [channel]: { status: { kind: 'idle' }, view: view as never, stale: false, milliseconds } });
  };
  const notice = (text: string) => store.setState({ notices: [...store.getState().notices.slice(-19), text] });
  return { store, of, set, receive, notice };
}

type ChannelStates = ReturnType<typeof channelStates>;

/** Jobs in the workers, one for each channel: a new question takes the place of the last one. */
function channelJobs(options: ComputeOptions, states: ChannelStates) {
  const { quick, slow, background, name = 'main', read } = options;
  const jobs = new Map<Channel, Job<ComputeResponse>>();
  const drop = (channel: Channel) => {
    const job = jobs.get(channel);
    jobs.delete(channel);
    job?.cancel();
  };
  /** Whether an answer came, and not one to a question that was taken back. */
  const ask = async (channel: Channel, input: ComputeInput, wish: unknown): Promise<boolean> => {
    const isQuick = channel === 'verdict' || channel === 'hour';
    const isPolars = channel === 'polars' || channel === 'newPolars';
    const pool = isQuick ? quick : isPolars ? background : slow;
    const request = requestOf(channel, input, wish, read);
    states.set({ [channel]: { status: { kind: 'running' }, stale: states.of(channel).view !== undefined } });
    const job = pool.run(request, {
      channel: `${name} ${channel}`,
      onProgress: (share) => {
        if (jobs.get(channel) === job) states.set({ [channel]: { status: { kind: 'running', share } } });
      },
    });
    jobs.set(channel, job);
    const result = await job.result;
    if (jobs.get(channel) !== job) return false;
    jobs.delete(channel);
    if (result.kind === 'done') states.receive(channel, result.response);
    else if (result.kind === 'failed') states.set({ [channel]: { status: { kind: 'failed', reason: result.reason } } });
    else states.set({ [channel]: { status: { kind: 'cancelled' } } });
    return true;
  };
  return { drop, ask, has: (channel: Channel) => jobs.has(channel) };
}

/** What a client is asked for now. */
interface Client {
  readonly states: ChannelStates;
  readonly jobs: ReturnType<typeof channelJobs>;
  readonly afterPause: ComputeOptions['afterPause'];
  input: ComputeInput | null;
  wishes: Wishes;
  callOff: () => void;
  /** The edits have come to rest. */
  rested: boolean;
  ended: boolean;
}

const noFiles: ComputeInput = { design: '', plan: '', sections: {} };

const wishOf = ({ wishes }: Client, channel: Channel): unknown =>
  channel === 'verdict' ? {} : (wishes[channel as keyof Wishes] ?? undefined);

async function ask(client: Client, channel: Channel, wish: unknown): Promise<void> {
  const { input, ended, jobs } = client;
  if (ended || (input === null && channel !== 'figure')) return;
  const isAnswered = await jobs.ask(channel, input ?? noFiles, wish);
  if (isAnswered && channel === 'verdict') afterCentral(client);
  if (isAnswered && channel === 'limits') holdBelow(client);
  if (isAnswered && (channel === 'polars' || channel === 'newPolars')) flyWith(client, channel);
}

/** Asks everything again with polars that were not known. */
function flyWith(client: Client, channel: 'polars' | 'newPolars'): void {
  const { states, input } = client;
  const { view, status } = states.of(channel) as ChannelState<'polars'>;
  if (input === null || view === undefined || status.kind !== 'idle') return;
  if (view.text === (input.polars ?? '')) {
    askMissing(client);
    return;
  }
  const { polars: _, ...files } = input;
  const { view: before, stale } = states.of('verdict') as ChannelState<'verdict'>;
  states.store.setState({ before: stale ? undefined : before });
  askAll(client, view.text === '' ? files : { ...files, polars: view.text });
}

/** Computes polars that are missing, once it is known which and the edits rest: it takes long, and an edit breaks it off. */
function askMissing(client: Client): void {
  const { states, rested } = client;
  const { view, status, stale } = states.of('polars') as ChannelState<'polars'>;
  const wish = wishOf(client, 'newPolars');
  const isWaiting = states.of('newPolars').status.kind === 'waiting' && wish !== undefined;
  if (!isWaiting || view === undefined || stale || status.kind !== 'idle') return;
  if (view.missing.length === 0) states.set({ newPolars: { status: { kind: 'idle' } } });
  else if (rested) void ask(client, 'newPolars', wish);
}

/** Asks everything again within a limit speed that turned out to be near the airspeed flown, or no longer is. */
function holdBelow(client: Client): void {
  const { view, status } = client.states.of('limits') as ChannelState<'limits'>;
  if (client.input === null || view === undefined || status.kind !== 'idle') return;
  const { known, airspeed } = view;
  const limit = known !== undefined && isWithinReach(known, airspeed) ? known : undefined;
  if (sameData(limit, client.input.limit)) return;
  const { limit: _, ...files } = client.input;
  askAll(client, limit === undefined ? files : { ...files, limit });
}

/** What the design calls the aircraft: a limit speed is not taken over to another one. */
const nameIn = ({ design }: ComputeInput): string | undefined => /^name:.*$/m.exec(design)?.[0];

/** The files with the limit speed and the polars known last of this aircraft, until they are known anew. */
function withLastKnown(next: ComputeInput | null, { input }: Client): ComputeInput | null {
  if (next === null || input === null || nameIn(next) !== nameIn(input)) return next;
  const { limit, polars } = input;
  return { ...next, ...(limit === undefined ? {} : { limit }), ...(polars === undefined ? {} : { polars }) };
}

/** What waited for the central verdict, after a pause in the edits. */
function afterCentral(client: Client): void {
  const { states, afterPause } = client;
  const { view, status, stale } = states.of('verdict');
  const isUsable = view !== undefined && status.kind === 'idle' && !stale;
  const waiting = () => later.filter((channel) => states.of(channel).status.kind === 'waiting');
  if (!isUsable) {
    states.set(Object.fromEntries(waiting().map((channel) => [channel, { status: { kind: 'idle' } }])));
    return;
  }
  client.callOff();
  // Whether there are polars is soon known, and all that follows depends on it.
  const polars = wishOf(client, 'polars');
  if (polars !== undefined && states.of('polars').status.kind === 'waiting') void ask(client, 'polars', polars);
  client.callOff = afterPause(() => {
    client.rested = true;
    askMissing(client);
    for (const channel of waiting()) {
      if (channel === 'newPolars') continue;
      const wish = wishOf(client, channel);
      if (wish !== undefined) void ask(client, channel, wish);
    }
  });
}

function setInput(client: Client, files: ComputeInput | null): void {
  const next = withLastKnown(files, client);
  if (sameData(client.input, next)) return;
  client.states.store.setState({ before: undefined });
  askAll(client, next);
}

function askAll(client: Client, next: ComputeInput | null): void {
  const { states, jobs } = client;
  client.input = next;
  client.rested = false;
  states.store.setState({ polars: next?.polars });
  client.callOff();
  for (const channel of later) jobs.drop(channel);
  if (next === null) {
    jobs.drop('verdict');
    jobs.drop('hour');
    states.store.setState({ channels: emptyState().channels });
    return;
  }
  const waits = later.map((channel) => {
    const kind = wishOf(client, channel) === undefined ? 'idle' : 'waiting';
    return [channel, { status: { kind }, stale: states.of(channel).view !== undefined }];
  });
  states.set(Object.fromEntries(waits));
  void ask(client, 'verdict', {});
  const hour = wishOf(client, 'hour');
  if (hour !== undefined) void ask(client, 'hour', hour);
}

function want(client: Client, change: Wishes): void {
  const { states, jobs } = client;
  for (const [key, wish] of Object.entries(change) as [keyof Wishes, unknown][]) {
    if (sameData(client.wishes[key] ?? undefined, wish ?? undefined)) continue;
    client.wishes = { ...client.wishes, [key]: wish };
    if (wish === null || wish === undefined) {
      jobs.drop(key);
      states.set({ [key]: { status: { kind: 'idle' } } });
    } else if (key === 'hour' || key === 'figure') void ask(client, key, wish);
    else if (client.input !== null) {
      jobs.drop(key);
      states.set({ [key]: { status: { kind: 'waiting' }, stale: states.of(key).view !== undefined } });
      if (!jobs.has('verdict')) afterCentral(client);
    }
  }
}

/** Asks the workers: central verdict first, then, when edits pause, what else is wanted. The newest question wins. */
export function createCompute(options: ComputeOptions): Compute {
  const states = channelStates();
  const jobs = channelJobs(options, states);
  const { afterPause } = options;
  const client: Client = {
    states,
    jobs,
    afterPause,
    input: null,
    wishes: {},
    callOff: () => {},
    rested: false,
    ended: false,
  };
  return {
    store: states.store,
    setInput: (next) => setInput(client, next),
    want: (wishes) => want(client, wishes),
    cancel: (channel) => {
      const isRunning = jobs.has(channel) || states.of(channel).status.kind === 'waiting';
      jobs.drop(channel);
      if (isRunning) states.set({ [channel]: { status: { kind: 'cancelled' } } });
    },
    again: (channel) => {
      const wish = wishOf(client, channel);
      if (wish !== undefined) void ask(client, channel, wish);
    },
    notice: states.notice,
    end: () => {
      client.ended = true;
      client.callOff();
      for (const channel of allChannels) jobs.drop(channel);
    },
  };
}

/** The verdict with uncertainty where it is there for the same files, otherwise the central one. */
export function shownVerdict({ channels }: ComputeState): ViewOf['verdict'] | undefined {
  const { samples, verdict } = channels;
  return samples.view !== undefined && !samples.stale && !verdict.stale ? samples.view : (verdict.view ?? samples.view);
}
