/** Who of several tabs may write. Browsers: Web Locks and a broadcast channel; tests: a fake of both. */

/** One lock by name; whoever holds it may write. */
export interface TabLock {
  /** Takes the lock if it is free. Resolves with what gives it back; undefined where another tab has it. */
  readonly take: (onLost: () => void) => Promise<(() => void) | undefined>;
  /** Takes it in any case; the holder is told that it is lost. */
  readonly steal: (onLost: () => void) => Promise<() => void>;
}

export type TabMessage =
  /** Give me the lock, after everything is saved. */
  | { readonly kind: 'hand over'; readonly from: string }
  | { readonly kind: 'handed over'; readonly to: string }
  /** Something new is in the storage. */
  | { readonly kind: 'saved'; readonly from: string };

export interface TabChannel {
  readonly post: (message: TabMessage) => void;
  readonly listen: (onMessage: (message: TabMessage) => void) => void;
  readonly close: () => void;
}

export interface Tabs {
  readonly lock: TabLock;
  readonly channel: TabChannel;
}

export type TabRole = 'writer' | 'reader';

export interface TabKeeper {
  readonly role: () => TabRole;
  /** Becomes the writer, whoever has it now; resolves when it is. */
  readonly takeOver: () => Promise<void>;
  readonly announceSaved: () => void;
  readonly close: () => void;
}

export interface TabKeeperOptions {
  readonly tabs: Tabs;
  /** Of this tab. */
  readonly id: string;
  /** Another tab asks for the work: save everything, then resolve. */
  readonly beforeHandOver: () => Promise<void>;
  /** This tab writes no more. */
  readonly onLost: () => void;
  /** A reader learns that there is something new in the storage. */
  readonly onSavedElsewhere: () => void;
  /** How long a holder may take to save before the lock is taken in any case [ms]. */
  readonly patience?: number;
  readonly wait?: (milliseconds: number) => Promise<void>;
}

const usualPatience = 1500;

const usualWait = (milliseconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Takes the lock where it is free; otherwise this tab is a reader. */
export async function keepTab(options: TabKeeperOptions): Promise<TabKeeper> {
  const { tabs, id, beforeHandOver, onLost, onSavedElsewhere } = options;
  const { patience = usualPatience, wait = usualWait } = options;
  let release: (() => void) | undefined;
  let handed: () => void = () => {};

  const lost = () => {
    if (release === undefined) return;
    release = undefined;
    onLost();
  };

  tabs.channel.listen((message) => {
    if (message.kind === 'saved' && message.from !== id && release === undefined) onSavedElsewhere();
    if (message.kind === 'handed over' && message.to === id) handed();
    if (message.kind === 'hand over' && message.from !== id && release !== undefined) {
      void beforeHandOver().finally(() => {
        const free = release;
        lost();
        free?.();
        tabs.channel.post({ kind: 'handed over', to: message.from });
      });
    }
  });
  release = await tabs.lock.take(lost);

  const takeOver = async () => {
    if (release !== undefined) return;
    release = await tabs.lock.take(lost);
    if (release !== undefined) return;
    const answer = new Promise<void>((resolve) => {
      handed = resolve;
    });
    tabs.channel.post({ kind: 'hand over', from: id });
    await Promise.race([answer, wait(patience)]);
    handed = () => {};
    release = (await tabs.lock.take(lost)) ?? (await tabs.lock.steal(lost));
  };

  return {
    role: () => (release === undefined ? 'reader' : 'writer'),
    takeOver,
    announceSaved: () => tabs.channel.post({ kind: 'saved', from: id }),
    close: () => {
      const free = release;
      release = undefined;
      free?.();
      tabs.channel.close();
    },
  };
}

/** A single tab that always writes: for places without locks. */
export const aloneTabs: Tabs = {
  lock: { take: async () => () => {}, steal: async () => () => {} },
  channel: { post: () => {}, listen: () => {}, close: () => {} },
};
