import { useEffect, useMemo, useState } from 'react';
import type { ComputeInput, ComputeRequest, Refusal } from '../../core/messages.js';
import type { Active } from '../../core/state.js';
import { sectionsOf } from '../../core/store.js';
import type { VerdictView } from '../../core/view.js';
import type { BenchView } from '../../core/view-bench.js';
import type { LimitsView } from '../../core/view-limits-types.js';
import { useComputeState } from '../kit/services.js';
import { startSlowPool } from '../shell/start-workers.js';

/** A verdict of a text that is not the open file. */
export type Tried =
  | { readonly kind: 'none' }
  | { readonly kind: 'running' }
  | { readonly kind: 'done'; readonly view: VerdictView }
  | { readonly kind: 'refused'; readonly refusal: Refusal }
  | { readonly kind: 'failed'; readonly reason: string };

/** What a trial is computed from; undefined while the text of the design is not complete. */
export function useTrialInput(trial: string | undefined, { project, plan }: Active): ComputeInput | undefined {
  const polars = useComputeState((state) => state.polars);
  return useMemo(
    () =>
      trial === undefined || plan === undefined || project === undefined
        ? undefined
        : { design: trial, plan, sections: sectionsOf(project), ...(polars === undefined ? {} : { polars }) },
    [trial, plan, project, polars],
  );
}

/** One worker for all trials, so that an edit of the open file never waits for them; it ends with the last of them. */
let pool: ReturnType<typeof startSlowPool> | undefined;
let users = 0;
const known = new Map<string, Tried>();

function usePool(): void {
  useEffect(() => {
    users += 1;
    return () => {
      users -= 1;
      if (users > 0) return;
      pool?.end();
      pool = undefined;
      known.clear();
    };
  }, []);
}

/** What is typed rests this long before it is tried [ms]; common practice, no source. */
const pause = 300;

const keyOf = ({ design, plan, sections, polars = '' }: ComputeInput): string =>
  `${design}\n\n${plan}\n\n${Object.keys(sections).join()}\n\n${polars}`;

/** The central verdict of other texts: what would be answered with or without a record. Newest of a name wins. */
export function useTried(name: string, input: ComputeInput | undefined): Tried {
  usePool();
  const [tried, setTried] = useState<Tried>({ kind: 'none' });
  const key = input === undefined ? undefined : keyOf(input);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key holds all of the input
  useEffect(() => {
    if (input === undefined || key === undefined) return setTried({ kind: 'none' });
    const before = known.get(key);
    if (before !== undefined) return setTried(before);
    setTried({ kind: 'running' });
    let isWanted = true;
    let cancel = () => {};
    const timer = setTimeout(() => {
      pool ??= startSlowPool();
      const job = pool.run({ kind: 'verdict', input, samples: 0 }, { channel: name });
      cancel = job.cancel;
      void job.result.then((result) => {
        const found = triedOf(result);
        if (found === undefined) return;
        known.set(key, found);
        if (isWanted) setTried(found);
      });
    }, pause);
    return () => {
      isWanted = false;
      clearTimeout(timer);
      cancel();
    };
  }, [name, key]);
  return tried;
}

/** Answers that a text is asked for besides its verdict. */
interface Asked {
  readonly bench: BenchView;
  readonly limits: LimitsView;
}

/** An answer about a text that is not the open file; undefined while it is not known. key - holds all of the request */
function useAsked<K extends keyof Asked>(
  kind: K,
  request: ComputeRequest | undefined,
  key: string | undefined,
): Asked[K] | Refusal | undefined {
  usePool();
  const [found, setFound] = useState<Asked[K] | Refusal>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key holds all of the request
  useEffect(() => {
    setFound(undefined);
    if (request === undefined) return;
    let isWanted = true;
    let cancel = () => {};
    const timer = setTimeout(() => {
      pool ??= startSlowPool();
      const job = pool.run(request, { channel: kind });
      cancel = job.cancel;
      void job.result.then((result) => {
        if (!isWanted || result.kind !== 'done') return;
        const { response } = result;
        if (response.kind === 'refused') setFound(response);
        else if (response.kind === kind) setFound(response.view as Asked[K]);
      });
    }, pause);
    return () => {
      isWanted = false;
      clearTimeout(timer);
      cancel();
    };
  }, [key]);
  return found;
}

/** What the readings of the array in a text say; undefined while it is not known. */
export const useBench = (input: ComputeInput | undefined, trace: string): BenchView | Refusal | undefined =>
  useAsked('bench', input && { kind: 'bench', input, trace }, input && `${keyOf(input)}\n\n${trace}`);

/** How fast the aircraft of a text may fly, with what its readings of stiffness say; undefined while it is not known. */
export const useLimitsOf = (input: ComputeInput | undefined): LimitsView | Refusal | undefined =>
  useAsked('limits', input && { kind: 'limits', input }, input && keyOf(input));

type Result = Awaited<ReturnType<ReturnType<typeof startSlowPool>['run']>['result']>;

function triedOf(result: Result): Tried | undefined {
  if (result.kind === 'failed') return { kind: 'failed', reason: result.reason };
  if (result.kind !== 'done') return undefined;
  const { response } = result;
  if (response.kind === 'verdict') return { kind: 'done', view: response.view };
  return response.kind === 'refused' ? { kind: 'refused', refusal: response } : undefined;
}
